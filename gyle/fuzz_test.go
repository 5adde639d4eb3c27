// SPDX-License-Identifier: MIT

package gyle_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/tools/txtar"

	"gyle/gyle"
)

// FuzzParse reads any text. It must not panic, and what it understands it must
// write in a form that reads back to the same text.
func FuzzParse(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("testdata", "*.yaml"))
	if err != nil || len(files) == 0 {
		f.Fatalf("no documents in testdata (%v)", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	cases, err := filepath.Glob(filepath.Join("testdata", "documents", "*.txtar"))
	if err != nil || len(cases) == 0 {
		f.Fatalf("no cases in testdata (%v)", err)
	}
	for _, name := range cases {
		archive, err := txtar.ParseFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(archive.Files[0].Data)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		doc, err := gyle.Parse("fuzz.yaml", text)
		if err != nil {
			return
		}
		doc.Log.Current()
		once, err := doc.Text()
		if err != nil {
			t.Fatalf("write what was read: %v", err)
		}
		again, err := gyle.Parse("canonical.yaml", once)
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

// FuzzParseReading types anything. What is understood says what it was
// understood as, and the echo is understood the same.
func FuzzParseReading(f *testing.F) {
	for _, text := range []string{"26,4 @95", "1042.5", "1.0425 @24", "10.6P", "12.4 Bx", "5,46", "65.7C", "2.63 kg/h", "5 gal", "0.8 bar", "12 L at 77 F"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := gyle.ParseReading(text, "")
		if err != nil {
			return
		}
		if m.Of == "" || m.Echo == "" || m.Unit == "" {
			t.Fatalf("%q is read as %+v", text, m)
		}
		if _, err := gyle.ParseReading(m.Echo, m.Of); err != nil {
			t.Errorf("%q is echoed as %q, which isn't understood: %v", text, m.Echo, err)
		}
	})
}
