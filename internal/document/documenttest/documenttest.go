// SPDX-License-Identifier: MIT

// Package documenttest helps the tests of the packages that hold documents:
// golden cases, and laws that hold for every text of a kind. It is no part of
// the program. Package document has what the program reads with.
package documenttest

import (
	"encoding"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"golang.org/x/tools/txtar"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "rewrite what the golden cases want")

// want is the name of the last file of a case: the exact output.
const want = "want"

// Golden runs every case that the pattern finds. A case is a text archive: a
// comment that says what it shows, the documents, and the file "want" with
// what produce makes of them. With -update that file is rewritten.
func Golden(t *testing.T, pattern string, produce func(documents []txtar.File) string) {
	t.Helper()
	cases, err := filepath.Glob(pattern)
	if err != nil || len(cases) == 0 {
		t.Fatalf("no cases in %s (%v)", pattern, err)
	}
	for _, name := range cases {
		t.Run(filepath.Base(name), func(t *testing.T) { golden(t, name, produce) })
	}
}

func golden(t *testing.T, name string, produce func([]txtar.File) string) {
	archive, err := txtar.ParseFile(name)
	if err != nil {
		t.Fatal(err)
	}
	last := len(archive.Files) - 1
	if last < 1 || archive.Files[last].Name != want {
		t.Fatalf("%s: a case has documents and, at its end, the file %q", name, want)
	}
	if len(archive.Comment) == 0 {
		t.Errorf("%s: a case begins with what it shows", name)
	}
	got := produce(archive.Files[:last])
	if *update {
		archive.Files[last].Data = []byte(got)
		if err := os.WriteFile(name, txtar.Format(archive), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if wanted := string(archive.Files[last].Data); got != wanted {
		t.Errorf("%s\ngot:\n%s\nwant:\n%s", archive.Comment, got, wanted)
	}
}

// Canonical reads a document and returns its canonical text, or its faults. It
// reports an error when the canonical text doesn't read back as the same.
func Canonical[T interface{ Text() ([]byte, error) }](t *testing.T, file txtar.File, parse func(string, []byte) (T, error)) string {
	t.Helper()
	read, err := parse(file.Name, file.Data)
	if err != nil {
		return err.Error() + "\n"
	}
	text, err := read.Text()
	if err != nil {
		t.Fatalf("%s: write it: %v", file.Name, err)
	}
	again, err := parse("canonical", text)
	if err != nil {
		t.Fatalf("%s: read the canonical text: %v\n%s", file.Name, err, text)
	}
	twice, err := again.Text()
	if err != nil || string(twice) != string(text) {
		t.Errorf("%s: the canonical text changes (%v):\n%s\n%s", file.Name, err, text, twice)
	}
	return string(text)
}

// BackAgain checks that any value that draw makes is written as a text that is
// read as the same value, and written the same again.
func BackAgain[T encoding.TextMarshaler, P interface {
	*T
	encoding.TextUnmarshaler
}](t *testing.T, draw *rapid.Generator[T]) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		value := draw.Draw(t, "value")
		text, err := value.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var got T
		if err := P(&got).UnmarshalText(text); err != nil {
			t.Fatalf("%#v is written %q, which can't be read: %v", value, text, err)
		}
		if !reflect.DeepEqual(got, value) {
			t.Fatalf("%#v is written %q and read as %#v", value, text, got)
		}
	})
}

// Settles checks that a text which can be read is written in a form that reads
// as the same value and is written the same again.
func Settles[T encoding.TextMarshaler, P interface {
	*T
	encoding.TextUnmarshaler
}](t *testing.T, draw *rapid.Generator[string]) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		text := draw.Draw(t, "text")
		var first, second T
		if err := P(&first).UnmarshalText([]byte(text)); err != nil {
			t.Fatalf("%q can't be read: %v", text, err)
		}
		once, err := first.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if err := P(&second).UnmarshalText(once); err != nil {
			t.Fatalf("%q is written %q, which can't be read: %v", text, once, err)
		}
		twice, err := second.MarshalText()
		if err != nil || string(twice) != string(once) {
			t.Fatalf("%q is written %q and then %q (%v)", text, once, twice, err)
		}
		if !reflect.DeepEqual(first, second) {
			t.Fatalf("%q is read as %#v, and written and read as %#v", text, first, second)
		}
	})
}
