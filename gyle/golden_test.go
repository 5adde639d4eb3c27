// SPDX-License-Identifier: MIT

package gyle_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/gyle"
	"gyle/internal/document/documenttest"
)

// TestDocuments compares the canonical text or the faults.
func TestDocuments(t *testing.T) {
	documenttest.Golden(t, "testdata/documents/*.txtar", func(files []txtar.File) string {
		return documenttest.Canonical(t, files[0], gyle.Parse)
	})
}

// scenario reads one of the two brewings in testdata.
func scenario(t testing.TB, name string) *gyle.Gyle {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	g, err := gyle.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// The two brewings are kept in their canonical form.
func TestScenariosAreCanonical(t *testing.T) {
	for _, name := range []string{"garage-v3", "boathouse-v4"} {
		kept, err := os.ReadFile(filepath.Join("testdata", name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		text, err := scenario(t, name).Text()
		if err != nil || !bytes.Equal(text, kept) {
			t.Errorf("%s isn't canonical (%v); it should be\n%s", name, err, text)
		}
	}
}
