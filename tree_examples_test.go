// SPDX-License-Identifier: MIT

package gyle_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/internal/document"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

// text is what every document can do: print itself canonically.
type text interface{ Text() ([]byte, error) }

// nouns maps the kinds of documents to their readers.
var nouns = map[string]func(file string, b []byte) (text, error){
	style.Kind:     func(file string, b []byte) (text, error) { return style.Parse(file, b) },
	recipe.Kind:    func(file string, b []byte) (text, error) { return recipe.Parse(file, b) },
	brewhouse.Kind: func(file string, b []byte) (text, error) { return brewhouse.Parse(file, b) },
	stock.Kind:     func(file string, b []byte) (text, error) { return stock.Parse(file, b) },
	water.Kind:     func(file string, b []byte) (text, error) { return water.Parse(file, b) },
	gyle.Kind:      func(file string, b []byte) (text, error) { return gyle.Parse(file, b) },
	tasting.Kind:   func(file string, b []byte) (text, error) { return tasting.Parse(file, b) },
}

// TestExamples reads every example, prints it canonically, and checks that the
// canonical text reads back and prints the same.
func TestExamples(t *testing.T) {
	seen := map[string]int{}
	// The brewings and tastings of the example are kept beside the package of
	// their kind.
	for _, folder := range []string{"examples", "gyle/testdata", "tasting/testdata"} {
		readExamples(t, folder, seen)
	}
	for kind := range nouns {
		if seen[kind] == 0 {
			t.Errorf("examples: there is no example of a %s", kind)
		}
	}
}

// readExamples reads and prints the documents of a folder, and counts them by
// kind.
func readExamples(t *testing.T, folder string, seen map[string]int) {
	t.Helper()
	err := filepath.WalkDir(folder, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(name, ".yaml") {
			return err
		}
		b, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		kind, _, ok := document.KindOf(b)
		if !ok {
			t.Errorf("%s: does not begin with its kind", name)
			return nil
		}
		parse, ok := nouns[kind]
		if !ok {
			t.Errorf("%s: no reader for a %s; add it to nouns in tree_examples_test.go", name, kind)
			return nil
		}
		seen[kind]++
		first := reprint(t, name, b, parse)
		if first == nil {
			return nil
		}
		if second := reprint(t, name+" (canonical)", first, parse); string(first) != string(second) {
			t.Errorf("%s: the canonical text changes when it is read and printed again:\n%s\n---\n%s", name, first, second)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// reprint reads a document and returns its canonical text.
func reprint(t *testing.T, name string, b []byte, parse func(string, []byte) (text, error)) []byte {
	t.Helper()
	doc, err := parse(name, b)
	if err != nil {
		t.Errorf("%v", err)
		return nil
	}
	out, err := doc.Text()
	if err != nil {
		t.Errorf("%s: %v", name, err)
	}
	return out
}
