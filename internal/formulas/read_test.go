// SPDX-License-Identifier: MIT

package formulas_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gyle/internal/formulas"
)

// The comment was written for this test.
const density = `Density returns the mass of a litre of wort of extract p.
It is [WaterDensity] at 0 °P.

	ρ = 0.9982·S(P)
	ρ in kg/L, P in °P

Do not use it for beer.

How it is known:
  - Source: nobody1900, table 3, and derived.
  - Valid: 0 to 30 °P,
    at 20 °C.
  - Check: water.
  - Tag: derived
`

func TestReadComment(t *testing.T) {
	got, ok := formulas.ReadComment("Density", density)
	if !ok {
		t.Fatal("the comment shows a formula and was not taken for one")
	}
	want := formulas.Formula{
		Summary: "The mass of a litre of wort of extract p. It is WaterDensity at 0 °P.",
		Text:    []string{"ρ = 0.9982·S(P)", "ρ in kg/L, P in °P"},
		Notes:   []string{"Do not use it for beer."},
		Source:  "nobody1900, table 3, and derived.",
		Valid:   "0 to 30 °P, at 20 °C.",
		Check:   "water.",
		Tag:     "derived",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("comment was read otherwise than meant (-want +got):\n%s", diff)
	}
}

// Brewers read the summary, so that the name of the function must not lead it.
func TestSummaryWithoutName(t *testing.T) {
	for comment, want := range map[string]string{
		"Density returns the mass of a litre.":     "The mass of a litre.",
		"Density is the short form of Long.":       "The short form of Long.",
		"Density reports whether it is dense.":     "Whether it is dense.",
		"Density estimates the mass of a litre.":   "Estimates the mass of a litre.",
		"Density returns öre per litre.":           "Öre per litre.",
		"DensityAt returns the mass of a litre.":   "DensityAt returns the mass of a litre.",
		"The mass of a litre returns with Density": "The mass of a litre returns with Density",
	} {
		got, ok := formulas.ReadComment("Density", comment+"\n\n\tρ = 1\n")
		if !ok || got.Summary != want {
			t.Errorf("%q became %q, want %q", comment, got.Summary, want)
		}
	}
}

func TestReadCommentFindsFaults(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"no check", strings.Replace(density, "  - Check: water.\n", "", 1), "the list lacks Check"},
		{"unknown tag", strings.Replace(density, "Tag: derived", "Tag: certain", 1), `"certain" is no tag`},
		{"merged", strings.ReplaceAll(density, "Do not use it for beer.\n\nHow it is known:\n  -", "    -"), "part of the formula's block"},
		{"no formula", strings.ReplaceAll(density, "\tρ", "ρ"), "no indented formula"},
	} {
		f, ok := formulas.ReadComment("Density", test.text)
		if !ok {
			t.Errorf("%s: not taken for a formula", test.name)
			continue
		}
		if all := strings.Join(f.Faults, "; "); !strings.Contains(all, test.want) {
			t.Errorf("%s: faults %q, want one with %q", test.name, all, test.want)
		}
	}
	if _, ok := formulas.ReadComment("Celsius", "Celsius returns t in °C.\n"); ok {
		t.Error("a comment without formula was taken for one")
	}
}

func TestSourcesAndCitations(t *testing.T) {
	sources, err := formulas.ReadSources("testdata/sources.bib")
	if err != nil {
		t.Fatal(err)
	}
	known, err := formulas.ByKey(sources)
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{
		"nobody1900": "Nobody and Müller: On {nothing} in °C. Journal of Examples 3 (no. 2), 5–7, 1900",
		"somebody":   "Somebody et al.: A letter",
	} {
		want = strings.NewReplacer("{", "", "}", "").Replace(want)
		if got := known[key].Cite(); got != want {
			t.Errorf("%s is cited as %q, want %q", key, got, want)
		}
	}
	keys, unknown := formulas.Cited("nobody1900, table 3; missing1999; and as somebody said.", known)
	if diff := cmp.Diff([]string{"nobody1900", "somebody"}, keys); diff != "" {
		t.Errorf("keys (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"missing1999"}, unknown); diff != "" {
		t.Errorf("unknown keys (-want +got):\n%s", diff)
	}
	if _, err := formulas.ByKey(append(sources, sources[0])); err == nil {
		t.Error("a key given twice was not noticed")
	}
}
