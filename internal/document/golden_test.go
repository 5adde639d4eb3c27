// SPDX-License-Identifier: MIT

package document

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the wanted results in testdata")

// TestGolden reads each document in testdata and compares the errors, or the
// canonical print when there is none, with what is wanted.
func TestGolden(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) { golden(t, file) })
	}
}

// golden runs one case, a text archive of two files: the document, which ends
// at the line "-- want --", and what is wanted of it.
func golden(t *testing.T, file string) {
	archive, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(archive), " --\n")
	document, want, split := strings.Cut(rest, "-- want --\n")
	if !ok || !split {
		t.Fatal("the case has no document or no wanted result")
	}
	got := readAndPrint(strings.TrimPrefix(head, "-- "), []byte(document))
	if *update {
		text := head + " --\n" + document + "-- want --\n" + got
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

func readAndPrint(name string, src []byte) string {
	var r testRecipe
	if _, err := Unmarshal(name, src, "recipe", &r); err != nil {
		return err.Error() + "\n"
	}
	text, err := Marshal("recipe", &r)
	if err != nil {
		return err.Error() + "\n"
	}
	return string(text)
}
