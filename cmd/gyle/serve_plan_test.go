// SPDX-License-Identifier: MIT

package main

import (
	"bytes"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
)

// The page for programs and the command line give the same plan, byte for byte.
func TestPlanJSONIsThatOfTheCommandLine(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "demo.gylebook"), Demo: true})
	defer end()
	for _, test := range []struct {
		name, query string
		args        []string
	}{
		{"garage", "recipe=ferry-brown-4&house=garage&stock=garage-shed&water=saltpan-lane",
			[]string{"ferry-brown-4", "--house=garage", "--stock=garage-shed", "--water=saltpan-lane"}},
		{"boathouse, without cooling", "recipe=ferry-brown-4&house=boathouse&stock=boathouse-shed&water=saltpan-lane&cooling=settle+and+run+off&size=60+L",
			[]string{"ferry-brown-4", "--house=boathouse", "--stock=boathouse-shed", "--water=saltpan-lane", "--cooling=settle and run off", "--size=60 L"}},
		{"swapped hops that keep their oil", "recipe=ferry-brown-4&house=boathouse&stock=boathouse-shed&swap=challenger%3Dnorthdown&oil=keep&on=2026-12-24",
			[]string{"ferry-brown-4", "--house=boathouse", "--stock=boathouse-shed", "--swap=challenger=northdown", "--keep-oil", "--on=2026-12-24"}},
		{"typical lots", "recipe=ferry-brown-2&house=garage", []string{"ferry-brown-2", "--house=garage"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			want := planJSONOf(t, test.args)
			status, got := fetch(t, address+"plan.json?"+test.query)
			if status != http.StatusOK {
				t.Fatalf("status %d: %s", status, got)
			}
			// The command line ends its output with a line of its own.
			if strings.TrimRight(got, "\n") != strings.TrimRight(want, "\n") {
				t.Errorf("the page gives\n%.300s…\nthe command line\n%.300s…", got, want)
			}
		})
	}
}

// planJSONOf is what the command line prints for documents of the examples.
func planJSONOf(t *testing.T, args []string) string {
	t.Helper()
	examples := filepath.Join("..", "..", "examples")
	line := []string{"plan", "--json", filepath.Join(examples, args[0]+".yaml")}
	for _, a := range args[1:] {
		flag, name, _ := strings.Cut(a, "=")
		switch flag {
		case "--house", "--stock", "--water":
			a = flag + "=" + filepath.Join(examples, name+".yaml")
		}
		line = append(line, a)
	}
	var out, complaints bytes.Buffer
	if code := run(line, strings.NewReader(""), &out, &complaints); code != exitOK {
		t.Fatalf("gyle %s ends with %d: %s", strings.Join(line, " "), code, complaints.String())
	}
	return out.String()
}
