// SPDX-License-Identifier: MIT

package water_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"gyle/water"
)

// FuzzParse reads any text. It must not panic, and what it understands it must
// write in a form that reads back to the same text.
func FuzzParse(f *testing.F) {
	for _, pattern := range []string{"saltpan-lane.yaml"} {
		files, err := filepath.Glob(filepath.Join("..", "examples", pattern))
		if err != nil || len(files) == 0 {
			f.Fatalf("no example %s (%v)", pattern, err)
		}
		for _, name := range files {
			text, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		doc, err := water.Parse("fuzz.yaml", text)
		if err != nil {
			return
		}
		once, err := doc.Text()
		if err != nil {
			t.Fatalf("write what was read: %v", err)
		}
		again, err := water.Parse("canonical.yaml", once)
		if err != nil {
			t.Fatalf("read the canonical text back: %v\n%s", err, once)
		}
		twice, err := again.Text()
		if err != nil {
			t.Fatalf("write it again: %v", err)
		}
		if !bytes.Equal(once, twice) {
			t.Errorf("the canonical text changes:\n%s\n%s", once, twice)
		}
	})
}
