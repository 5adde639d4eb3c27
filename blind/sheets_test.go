// SPDX-License-Identifier: MIT

package blind_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"gyle/blind"
	"gyle/quantity"
	"gyle/style"
	"gyle/tasting"
)

// judged is a table of judges and one beer; each judge's levels in the order of
// the attributes.
func judged(t *testing.T, judges map[string][]float64, attributes ...string) *tasting.Tasting {
	t.Helper()
	doc := &tasting.Tasting{Name: "t", Question: "?", Beers: []tasting.Beer{{Letter: "A", Recipe: "brown-3"}}}
	for _, judge := range slices.Sorted(maps.Keys(judges)) {
		s := tasting.Sheet{Judge: judge, Beer: "A"}
		for i, level := range judges[judge] {
			s.Points = append(s.Points, tasting.Point{Attribute: attributes[i], Level: &level})
		}
		if err := doc.Enter(s); err != nil {
			t.Fatal(err)
		}
	}
	return doc
}

// Six judges and five attributes: W 0.77778 (worked out by hand: sums 9, 11, 17,
// 25, 28; R's friedman.test gives chi-square 18.667, p 9.14e-4).
func TestAgreementOfJudges(t *testing.T) {
	doc := judged(t, map[string][]float64{
		"a": {1, 2, 3, 4, 5}, "b": {2, 1, 3, 5, 4}, "c": {1, 3, 2, 4, 5}, "d": {1, 2, 4, 3, 5}, "e": {3, 1, 2, 4, 5}, "f": {1, 2, 3, 5, 4},
	}, "fruit", "hops", "silk", "roast", "toffee")
	sheets := blind.Of(doc, quantity.Printer{}).Sheets
	if len(sheets) != 1 || sheets[0].Agree == nil || sheets[0].Recipe != "brown-3" {
		t.Fatalf("%+v", sheets)
	}
	agree := sheets[0].Agree
	near(t, "W", agree.W, 0.77778, 5e-6)
	if agree.P > 0.000914 || agree.P <= 0 || agree.Method != "exact" || !strings.Contains(agree.Says, "strongly") {
		t.Errorf("%+v", agree)
	}
}

// Levels two words apart contradict each other, as opinions do; no mean is shown.
func TestConflictsStayOpen(t *testing.T) {
	doc := judged(t, map[string][]float64{"one": {4, 2, 3}, "two": {2, 3, 3}}, "roast", "silk", "fruit")
	for _, p := range blind.Of(doc, quantity.Printer{}).Sheets[0].Points {
		want := map[string]string{"roast": "conflict", "silk": "mixed", "fruit": "agreed"}[p.Attribute]
		if p.Accord != want || p.Open != (want == "conflict") {
			t.Errorf("%s: %s, open %v; want %s", p.Attribute, p.Accord, p.Open, want)
		}
		if strings.Contains(fmt.Sprint(p), "mean") || len(p.Says) != 2 {
			t.Errorf("%+v", p)
		}
	}
}

// A profile on a scale to 9 against ranges in words on the scale to 5. The means
// are those of the demo's twelve members, scaled by 5/9; intervals by R's t.test.
func TestAgainstStyle(t *testing.T) {
	doc := evening(t, "ferry-brown-profile")
	st := &style.Style{Name: "brown", Taste: []style.Taste{
		{Quality: "Bitterness", Range: "medium"}, {Quality: "fruit", Range: "low to medium"}, {Quality: "fullness", In: &quantity.Levels{Low: 2, High: 4, Of: 5}},
		{Quality: "roast sharpness", Range: "none"}, {Quality: "silk", Range: "high"}, {Quality: "glow", Range: "brown"},
	}}
	got := blind.Against(doc, "B", st, quantity.Printer{})
	if got == nil || len(got.Rows) != 4 || !slices.Equal(got.Unasked, []string{"silk"}) {
		t.Fatalf("%+v", got)
	}
	for i, want := range []struct {
		mean float64
		fit  string
	}{{4.1 * 5 / 9, "undecided"}, {3.0 * 5 / 9, "inside"}, {5.2 * 5 / 9, "inside"}, {3.7 * 5 / 9, "outside"}} {
		row := got.Rows[i]
		near(t, row.Quality, row.Middle, want.mean, 0.05)
		if row.Fit != want.fit || row.N != 12 {
			t.Errorf("%s: %s of %d (%.2f to %.2f), want %s", row.Quality, row.Fit, row.N, row.From, row.To, want.fit)
		}
	}
	if !strings.Contains(got.Says, "roast sharpness (too much, by") {
		t.Error(got.Says)
	}
	if none := blind.Against(doc, "B", &style.Style{Name: "x", Taste: []style.Taste{{Quality: "silk", Range: "high"}}}, quantity.Printer{}); none != nil {
		t.Errorf("nothing was asked: %+v", none)
	}
}

// What judges contradict each other about is not held against a style.
func TestAgainstStyleConflict(t *testing.T) {
	doc := judged(t, map[string][]float64{"one": {4, 2}, "two": {2, 2}}, "roast", "silk")
	st := &style.Style{Name: "brown", Taste: []style.Taste{{Quality: "roast", Range: "low to medium"}, {Quality: "silk", Range: "high"}}}
	got := blind.Against(doc, "A", st, quantity.Printer{})
	if got == nil || got.Rows[0].Fit != "undecided" || !got.Rows[0].Conflict || got.Rows[1].Fit != "outside" {
		t.Errorf("%+v", got)
	}
}
