// SPDX-License-Identifier: MIT

package tasting_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"gyle/internal/document"
	"gyle/tasting"
)

func TestParsePoint(t *testing.T) {
	for line, want := range map[string]string{
		"roast: 4, too much, astringent, a touch high": "roast|4|too much|[astringent]|a touch high",
		"silk: medium-high; right":                     "silk|4|right|[]|",
		"hop aroma: 1,  “grassy, like hay”":            "hop aroma|1||[]|grassy, like hay",
		"aroma: 0732":                                  "aroma|-||[DMS]|",             // four digits are a term
		"aroma: DMS, diacetyl, DMS":                    "aroma|-||[DMS diacetyl]|DMS", // twice is words
		"finish: quiet":                                "finish|-||[]|quiet",
	} {
		p, err := tasting.ParsePoint(line)
		if err != nil {
			t.Errorf("%q: %v", line, err)
			continue
		}
		level := "-"
		if p.Level != nil {
			level = fmt.Sprint(*p.Level)
		}
		if got := fmt.Sprintf("%s|%s|%s|%v|%s", p.Attribute, level, p.Says, p.Terms, p.Words); got != want {
			t.Errorf("%q reads as %s, want %s", line, got, want)
		}
	}
	for _, line := range []string{"", "roast", "roast:", ": 4", "roast: ,"} {
		if p, err := tasting.ParsePoint(line); err == nil {
			t.Errorf("%q reads as %+v", line, p)
		}
	}
}

// A judge has one sheet of a beer; another one says which it corrects, and the
// first stays in the document.
func TestEnter(t *testing.T) {
	doc := &tasting.Tasting{Name: "t", Question: "?", Beers: []tasting.Beer{{Letter: "A", Recipe: "brown"}}}
	level, off := 3.0, 6.0
	first := tasting.Sheet{Judge: "one", Beer: "A", Points: []tasting.Point{{Attribute: "roast", Level: &level}}}
	if err := doc.Enter(first); err != nil {
		t.Fatal(err)
	}
	refused := func(s tasting.Sheet, words string) {
		t.Helper()
		err := doc.Enter(s)
		var faults document.Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), words) || len(doc.Sheets) != 1 {
			t.Errorf("want a refusal with %q, got %v and %d sheets", words, err, len(doc.Sheets))
		}
	}
	refused(first, "has judged A already")
	refused(tasting.Sheet{Judge: "two", Beer: "B"}, "none of the beers")
	refused(tasting.Sheet{Judge: "two", Beer: "A", Points: []tasting.Point{{Attribute: "roast", Level: &off}}}, "not on the scale")
	second := first
	second.Corrects = 1
	if err := doc.Enter(second); err != nil {
		t.Fatal(err)
	}
	if numbers := doc.StandingSheets(); len(doc.Sheets) != 2 || len(numbers) != 1 || numbers[0] != 2 {
		t.Errorf("%d sheets, standing %v", len(doc.Sheets), numbers)
	}
}
