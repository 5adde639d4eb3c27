// SPDX-License-Identifier: MIT

package main

import (
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"gyle/examples"
)

// The tastings of the example are those that the packages are tested with; only
// the brewing has the name that it bears in the book.
func TestExampleTastings(t *testing.T) {
	for name, tested := range map[string]string{
		"tasting-1-2.yaml": "ferry-brown-1-2.yaml", "tasting-2-3.yaml": "ferry-brown-2-3.yaml",
		"tasting-3-4.yaml": "ferry-brown-3-4-planned.yaml", "tasting-profile.yaml": "ferry-brown-profile.yaml",
	} {
		shown, err := fs.ReadFile(examples.Documents(), name)
		if err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile("../../tasting/testdata/evenings/" + tested)
		if err != nil {
			t.Fatal(err)
		}
		if want := strings.ReplaceAll(string(text), "gyle: garage-v3", "gyle: gyle-17"); want != string(shown) {
			t.Errorf("%s isn't %s", name, tested)
		}
	}
}

// readWords FILE puts the pourer's words that stand in a file into $WORDS.
func readWords(ts *testscript.TestScript, neg bool, args []string) {
	found := regexp.MustCompile(`[a-z0-9]{8}-[a-z0-9]{26}`).FindString(ts.ReadFile(args[0]))
	if found == "" {
		ts.Fatalf("%s has no words of a pourer", args[0])
	}
	ts.Setenv("WORDS", found)
}
