// SPDX-License-Identifier: MIT

package gyle_test

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	"gyle/internal/formulas"
)

func loadFormulas(t *testing.T) *formulas.Catalogue {
	t.Helper()
	c, err := formulas.Load(".")
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Formulas) < 100 {
		t.Fatalf("only %d formulas were found in science", len(c.Formulas))
	}
	return c
}

// TestFormulaTails checks that every formula says where it comes from, where it
// holds, how it was checked and how well it is known.
func TestFormulaTails(t *testing.T) {
	c := loadFormulas(t)
	for _, f := range c.Formulas {
		for _, fault := range f.Faults {
			t.Errorf("%s: %s: %s", f.At, f.Name(), fault)
		}
		keys, unknown := formulas.Cited(f.Source, c.Sources)
		for _, key := range unknown {
			t.Errorf("%s: %s cites %q, which is not in science/sources.bib", f.At, f.Name(), key)
		}
		if len(keys) == 0 {
			t.Errorf("%s: %s: the source line %q names no key of science/sources.bib", f.At, f.Name(), f.Source)
		}
	}
}

// known matches a note that says how a source is known.
var known = regexp.MustCompile(`\bread\b|second-hand|from memory|own derivation|no single published source`)

// TestSources checks the literature: each entry once, with a title and a note
// of how it is known, and none that comments cite is missing.
func TestSources(t *testing.T) {
	sources, err := formulas.ReadSources("science/sources.bib")
	if err != nil {
		t.Fatal(err)
	}
	byKey, err := formulas.ByKey(sources)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sources {
		if s.Fields["title"] == "" {
			t.Errorf("science/sources.bib:%d: %s has no title", s.Line, s.Key)
		}
		if !known.MatchString(s.Fields["note"]) {
			t.Errorf("science/sources.bib:%d: the note of %s doesn't say how it is known: %q", s.Line, s.Key, s.Fields["note"])
		}
	}
	for _, file := range readHouse(t).files {
		if !strings.HasPrefix(file.path, "science/") || file.generated() {
			continue
		}
		for _, group := range file.syntax.Comments {
			for _, key := range formulas.DatedKeys(group.Text()) {
				if _, ok := byKey[key]; !ok {
					t.Errorf("%s: a comment cites %s, which is not in science/sources.bib", file.path, key)
				}
			}
		}
	}
}

// TestGeneratedFilesAreFresh makes the generated files anew and compares.
func TestGeneratedFilesAreFresh(t *testing.T) {
	c := loadFormulas(t)
	code, err := c.Go()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string][]byte{"science/catalogue.go": code, "docs/formulas.md": c.Markdown()} {
		got, err := os.ReadFile(name)
		if err != nil {
			t.Error(err)
		} else if !bytes.Equal(got, want) {
			t.Errorf("%s is stale: run go generate ./...", name)
		}
	}
}
