// SPDX-License-Identifier: MIT

package tasting_test

import (
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/internal/document/documenttest"
	"gyle/tasting"
)

// TestDocuments compares the canonical text or the faults.
func TestDocuments(t *testing.T) {
	documenttest.Golden(t, "testdata/documents/*.txtar", func(files []txtar.File) string {
		return documenttest.Canonical(t, files[0], tasting.Parse)
	})
}

// TestRemarks compares what a sound document still shows.
func TestRemarks(t *testing.T) {
	documenttest.Golden(t, "testdata/remarks/*.txtar", func(files []txtar.File) string {
		found, err := tasting.Advise(files[0].Name, files[0].Data, tasting.Advice)
		if err != nil {
			return err.Error() + "\n"
		}
		return found.Error() + "\n"
	})
}

// evenings are the tastings of the demo, played in the tests of package panel.
func evenings(t testing.TB) (texts [][]byte) {
	t.Helper()
	files, err := filepath.Glob("testdata/evenings/*.yaml")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d evenings (%v)", len(files), err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, text)
	}
	return texts
}

// TestEveningsAreCanonical reads each evening and writes the same text.
func TestEveningsAreCanonical(t *testing.T) {
	for _, text := range evenings(t) {
		got := documenttest.Canonical(t, txtar.File{Name: "evening.yaml", Data: text}, tasting.Parse)
		if got != string(text) {
			t.Errorf("the canonical text differs from\n%s\n%s", text, got)
		}
	}
}
