// SPDX-License-Identifier: MIT

package causes_test

import (
	"io/fs"
	"slices"
	"strings"
	"testing"

	"gyle/causes"
	"gyle/data"
	"gyle/examples"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/reconstruct"
	"gyle/tasting"
)

func brewOf(t testing.TB, file string) causes.Brew {
	t.Helper()
	text, err := fs.ReadFile(examples.Documents(), file)
	if err != nil {
		t.Fatal(err)
	}
	g, err := gyle.Parse(file, text)
	if err != nil {
		t.Fatal(err)
	}
	made, err := reconstruct.Make(reconstruct.Input{Gyle: g})
	if err != nil {
		t.Fatal(err)
	}
	return causes.Brew{Gyle: g, Made: made}
}

// Each sign that the table of off-notes names can be looked for, and each that
// can be looked for is named.
func TestSignsAreNamed(t *testing.T) {
	named := map[string]bool{}
	for _, id := range data.NoteIDs() {
		note, _ := data.Note(id)
		for _, c := range note.Causes {
			if c.Sign != "" {
				named[c.Sign] = true
			}
			if c.Sign != "" && !slices.Contains(causes.Signs(), c.Sign) {
				t.Errorf("%s: nothing looks for %q", id, c.Sign)
			}
		}
	}
	for _, sign := range causes.Signs() {
		if !named[sign] {
			t.Errorf("nothing names %q", sign)
		}
	}
}

// What the logs of the demo hold, read by hand beside the program: the dark grain
// and the pH after it, the sparge, the boil that the element cut short.
func TestLook(t *testing.T) {
	for _, want := range []struct {
		gyle, note string
		state      causes.State
		parts      []string
	}{
		{"gyle-17.yaml", "astringent", causes.Shows, []string{"180 g of chocolate at 09:45 (last 15 min)", "mash pH 5.43 afterwards"}},
		{"gyle-17.yaml", "astringent", causes.Shows, []string{"13.1 L of sparge instead of 12.3 L"}},
		{"gyle-17.yaml", "astringent", causes.Against, []string{"mash pH 5.43 at 09:55"}},
		{"gyle-17.yaml", "astringent", causes.Against, []string{"sparge at 77.0 °C"}},
		{"gyle-17.yaml", "dms", causes.Against, []string{"it boiled 75 min, 60 planned"}},
		{"gyle-17.yaml", "diacetyl", causes.Shows, []string{"packaged 9 days after pitching"}},
		{"gyle-17.yaml", "diacetyl", causes.Against, []string{"182 billion cells in 20.1 L", "0.75 M/mL/°P"}},
		{"gyle-17.yaml", "diacetyl", causes.Against, []string{"aerated at 12:27"}},
		{"gyle-17.yaml", "estery", causes.Against, []string{"20.2 °C at the warmest", "20.0 °C is the plan’s limit"}},
		{"gyle-17.yaml", "gassy", causes.Against, []string{"a forced test is logged"}},
		{"gyle-17.yaml", "gassy", causes.Against, []string{"101 g of sucrose instead of 101 g"}},
		{"gyle-21.yaml", "dms", causes.Shows, []string{"2.20 kg/h boiled off, 3.03 planned"}},
		{"gyle-21.yaml", "dms", causes.Shows, []string{"light amber"}},
		{"gyle-21.yaml", "dms", causes.Shows, []string{"82 min from knock-out into the fermenter, 65 planned"}},
	} {
		trace, known := causes.Look(want.note, brewOf(t, want.gyle), quantity.Printer{})
		found := slices.ContainsFunc(trace.Hints, func(h causes.Hint) bool {
			return h.State == want.state && !slices.ContainsFunc(want.parts, func(part string) bool { return !strings.Contains(h.Text, part) })
		})
		if !known || !found {
			t.Errorf("%s, %s: no hint %q has %v in\n%s", want.gyle, want.note, want.state, want.parts, sentences(trace))
		}
	}
}

func sentences(trace causes.Trace) string {
	var b strings.Builder
	for _, h := range trace.Hints {
		b.WriteString("  " + h.Says() + "\n")
	}
	return b.String()
}

// Hints are possibilities: what the log shows stands first, and no sentence says
// that it was so.
func TestHintsAreNoVerdicts(t *testing.T) {
	for _, file := range []string{"gyle-17.yaml", "gyle-21.yaml"} {
		b := brewOf(t, file)
		for _, id := range data.NoteIDs() {
			trace, _ := causes.Look(id, b, quantity.Printer{})
			order := []causes.State{causes.Shows, causes.Silent, causes.Against}
			if !slices.IsSortedFunc(trace.Hints, func(a, b causes.Hint) int { return slices.Index(order, a.State) - slices.Index(order, b.State) }) {
				t.Errorf("%s: %s", id, sentences(trace))
			}
			for _, h := range trace.Hints {
				if s := h.Says(); !strings.HasPrefix(s, "Perhaps ") && !strings.HasPrefix(s, "Or ") && !strings.HasPrefix(s, "Less likely ") {
					t.Errorf("%s: %s", id, s)
				}
			}
		}
		if testing.Verbose() {
			trace, _ := causes.Look("astringent", b, quantity.Printer{})
			t.Log(sentences(trace))
			trace, _ = causes.Look("dms", b, quantity.Printer{})
			t.Log(sentences(trace))
		}
	}
	if _, known := causes.Look("tasty", brewOf(t, "gyle-17.yaml"), quantity.Printer{}); known {
		t.Error("tasty is no off-note")
	}
}

// A boil that began 27 minutes later and ended when it did is 12 minutes short of
// the plan.
func TestBoilLost(t *testing.T) {
	text, err := fs.ReadFile(examples.Documents(), "gyle-17.yaml")
	if err != nil {
		t.Fatal(err)
	}
	later := strings.Replace(string(text), "time: 2026-03-07T10:45:00+01:00", "time: 2026-03-07T11:12:00+01:00", 1)
	later = strings.Replace(later, "time: 2026-03-07T11:00:00+01:00", "time: 2026-03-07T11:13:00+01:00", 1)
	g, err := gyle.Parse("gyle-17.yaml", []byte(later))
	if err != nil {
		t.Fatal(err)
	}
	made, err := reconstruct.Make(reconstruct.Input{Gyle: g})
	if err != nil {
		t.Fatal(err)
	}
	trace, _ := causes.Look("dms", causes.Brew{Gyle: g, Made: made}, quantity.Printer{})
	if h := trace.Hints[0]; h.State != causes.Shows || !strings.Contains(h.Text, "it boiled 48 min instead of 60: the boil lost 12 min") || !slices.Contains(h.Entries, "g30") || !slices.Contains(h.Entries, "g33") {
		t.Errorf("%+v", trace.Hints)
	}
}

// An empty log knows nothing, and says so.
func TestLookInNothing(t *testing.T) {
	b := causes.Brew{Gyle: &gyle.Gyle{Name: "empty"}}
	for _, id := range data.NoteIDs() {
		trace, _ := causes.Look(id, b, quantity.Printer{})
		for _, h := range trace.Hints {
			if h.State == causes.Shows && !strings.HasPrefix(h.Text, "no forced test") {
				t.Errorf("%s: %s", id, h.Says())
			}
		}
	}
}

// Two voices of two report a note; one of many doesn't.
func TestOf(t *testing.T) {
	point := func(attribute, says, words string, terms ...tasting.Term) tasting.Point {
		return tasting.Point{Attribute: attribute, Says: says, Words: words, Terms: terms}
	}
	doc := &tasting.Tasting{Name: "t", Question: "?", Beers: []tasting.Beer{{Letter: "A", Recipe: "brown"}}}
	for judge, points := range map[string][]tasting.Point{
		"one":   {point("roast", "too much", "a touch sharp"), point("silk", "right", "not thin")},
		"two":   {point("roast", "", "", "astringent"), point("aroma", "", "a little butter")},
		"three": {point("roast", "too little", "could be sharper, not harsh"), point("body", "too little", "")},
		"four":  {point("roast", "right", "harsh is fine here")},
	} {
		if err := doc.Enter(tasting.Sheet{Judge: judge, Beer: "A", Points: points}); err != nil {
			t.Fatal(err)
		}
	}
	got := map[string]bool{}
	for _, n := range causes.Of(doc, "A") {
		got[n.Note] = n.Reported
		if n.Of != 4 {
			t.Errorf("%d spoke, not %d", 4, n.Of)
		}
	}
	want := map[string]bool{"astringent": true, "roast-burnt": false, "diacetyl": false, "watery": false}
	if len(got) != len(want) {
		t.Errorf("found %v, want %v", got, want)
	}
	for note, reported := range want {
		if r, named := got[note]; !named || r != reported {
			t.Errorf("%s: named %v, reported %v; want %v", note, named, r, reported)
		}
	}
}

// Too much for one judge and too little for the other: the conflict stays open,
// and no hint follows from it. A word of its own is another matter.
func TestContraryOpinionsStayOpen(t *testing.T) {
	doc := &tasting.Tasting{Name: "t", Question: "?", Beers: []tasting.Beer{{Letter: "A", Recipe: "brown"}}}
	for _, s := range []tasting.Sheet{
		{Judge: "one", Beer: "A", Points: []tasting.Point{{Attribute: "roast", Says: "too much", Words: "a touch high"}}},
		{Judge: "two", Beer: "A", Points: []tasting.Point{{Attribute: "roast", Says: "too little", Words: "could take more"}}},
	} {
		if err := doc.Enter(s); err != nil {
			t.Fatal(err)
		}
	}
	got := causes.Of(doc, "A")
	if len(got) != 1 || got[0].Note != "roast-burnt" || !got[0].Open || got[0].Reported || len(got[0].Against) != 1 || got[0].Against[0].Who != "two" {
		t.Errorf("%+v", got)
	}
	if err := doc.Enter(tasting.Sheet{Judge: "three", Beer: "A", Points: []tasting.Point{{Attribute: "roast", Terms: []tasting.Term{"burnt"}}}}); err != nil {
		t.Fatal(err)
	}
	if got := causes.Of(doc, "A"); len(got) != 1 || got[0].Open || got[0].Against != nil || !got[0].Reported {
		t.Errorf("%+v", got)
	}
}
