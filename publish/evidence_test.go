// SPDX-License-Identifier: MIT

package publish

import (
	"math"
	"strings"
	"testing"

	"gyle/examples/examplestest"
	"gyle/gyle"
	"gyle/plan"
	"gyle/reconstruct"
	"gyle/style"
	"gyle/tasting"
)

// witnessed is Ferry Brown 3 with its tastings and the brew of it.
func witnessed(t testing.TB) Bundle {
	t.Helper()
	b := ferryBrown(t)
	b.Input.Recipe, b.Versions = b.Versions[2], b.Versions[:3]
	for i, slug := range []string{"tasting-1-2", "tasting-2-3"} {
		b.Tastings = append(b.Tastings, Tasting{Slug: slug, Version: i + 2, Doc: examplestest.Load(t, slug, tasting.Parse)})
	}
	b.Tastings = append(b.Tastings, Tasting{Slug: "tasting-3-4", Version: 3, Doc: examplestest.Load(t, "tasting-3-4", tasting.Parse)})
	made, err := reconstruct.Make(reconstruct.LearnFrom(b.Input.House, nil, func(g *gyle.Gyle) string { return g.Name }).
		Before(examplestest.Load(t, "gyle-17", gyle.Parse), b.Input.House, examplestest.Load(t, "oat-brown-ale", style.Parse)))
	if err != nil {
		t.Fatal(err)
	}
	b.Brews = []Brew{{examplestest.Load(t, "gyle-17", gyle.Parse), made}}
	return b
}

// A page tells what came of each change. The figures of the triangle (11 of 18:
// p 0.0144) are those of the binomial distribution, as tables of ISO 4120 for
// this size have it: 10 of 18 are needed at 5 %; from memory.
func TestPageTellsWhatCameOfIt(t *testing.T) {
	b := witnessed(t)
	page, err := Page(b, Engine{Support: "// none"})
	if err != nil {
		t.Fatal(err)
	}
	text, err := Text(b)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"less sharp, same colour", "Difference shown: 11 of 18 right", "p 0.0144", "42 % of tasters can tell them apart (9 % to 70 %, 90 % interval)", "No preference shown", "As it was brewed"} {
		if !strings.Contains(string(page), want) {
			t.Errorf("the page doesn't say %q", want)
		}
		if !strings.Contains(text, want) {
			t.Errorf("the text doesn't say %q", want)
		}
	}
	if got := b.ABV().Percent(); math.Abs(got-100*float64(b.Brews[0].Made.Beer.ABV)) > 1e-9 || got < 4.5 || got > 5.1 {
		t.Errorf("the label has %.2f %% of alcohol", got)
	}
	panel := b.Panel()
	if !strings.Contains(panel[3], "11 of 18") || !strings.Contains(panel[2], "Not shown") || len(panel) != 2 {
		t.Errorf("cards get %v", panel)
	}
	// A tasting whose key is sealed says nothing, on no page.
	for _, f := range b.Tastings[2].Doc.Flights {
		if f.Key != nil {
			t.Fatal("the third tasting of the example is no longer sealed")
		}
	}
	if strings.Contains(string(page), b.Tastings[2].Doc.Name) || strings.Contains(string(page), b.Tastings[2].Doc.Question) {
		t.Error("the page tells of a sealed tasting")
	}
	plain := ferryBrown(t)
	p, err := plan.Make(plain.Input)
	if err != nil || plain.ABV() != 0 || len(p.Figures) == 0 {
		t.Errorf("a recipe that nobody brewed has %v as brewed: %v", plain.ABV(), err)
	}
}

// On a site a tasting has a page, and names nobody who tasted.
func TestSiteTellsOfTastings(t *testing.T) {
	b := witnessed(t)
	b.Tastings[1].Doc.Panel[0].Name = "Nobody Particular"
	s := Site{Title: "Saltpan Lane", URL: "https://example.org/", Beers: []SiteBeer{{Slug: "ferry-brown-3", Bundle: b}}}
	files, err := s.Files(Engine{Support: "// none"})
	if err != nil {
		t.Fatal(err)
	}
	for file, want := range map[string]string{
		"tastings/tasting-2-3/index.html": "Difference shown: 11 of 18 right", "index.html": `href="tastings/tasting-1-2/index.html"`,
		"feed.xml": "https://example.org/tastings/tasting-2-3/index.html", "beers/ferry-brown-3/index.html": `href="../../tastings/tasting-2-3/index.html"`,
	} {
		if !strings.Contains(string(files[file]), want) {
			t.Errorf("%s doesn't say %q", file, want)
		}
	}
	if _, there := files["tastings/tasting-3-4/index.html"]; there {
		t.Error("a sealed tasting has a page")
	}
	for name, text := range files {
		if strings.Contains(string(text), "Nobody Particular") {
			t.Errorf("%s names a taster", name)
		}
	}
}
