// SPDX-License-Identifier: MIT

package sheet_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"gyle/panel"
	"gyle/publish/sheet"
	"gyle/quantity"
	"gyle/tasting"
)

// evening is planned for three tasters with a flight of every kind.
func evening(t testing.TB) (sheet.Evening, map[string]*tasting.Key) {
	t.Helper()
	doc := &tasting.Tasting{Name: "Ferry Brown, 2 against 3", Question: "What can be told?"}
	for i, name := range []string{"without", "with", "with more"} {
		doc.Beers = append(doc.Beers, tasting.Beer{Letter: string(rune('A' + i)), Name: "beer " + name})
	}
	for _, kind := range tasting.Methods {
		f := tasting.Flight{Name: string(kind), Kind: kind, Ask: "Which? Guess if you can’t tell.", Alpha: quantity.Percent(5), Beers: []string{"A", "B"}}
		switch kind {
		case tasting.TwoAFC, tasting.ThreeAFC:
			f.Attribute, f.Expect, f.Sides = "roast", []string{"A", "B"}, "one"
		case tasting.Ranking:
			f.Attribute, f.Beers = "roast", nil
		case tasting.ANotA:
			f.Reference = "A"
		case tasting.Profile:
			f.Attributes, f.Scale = []string{"roast", "fruit"}, &tasting.Scale{From: 0, To: 9}
		}
		doc.Flights = append(doc.Flights, f)
	}
	keys := map[string]*tasting.Key{}
	for i := range doc.Flights {
		f := &doc.Flights[i]
		key, err := panel.Plan(doc, f, panel.Wish{Tasters: []string{"01", "02", "03"}, Seed: uint64(i), Glasses: 2}, tasting.At(time.Date(2026, 4, 19, 20, 0, 0, 0, time.UTC)))
		if err != nil {
			t.Fatal(err)
		}
		keys[f.Name] = key
	}
	return sheet.Evening{Tasting: doc, Contains: "The beers together contain: barley (gluten), oats (gluten).", Caution: "It says nothing about being fit to drive.", Alcohol: map[string]string{"02": "Up to 20 g."}}, keys
}

// Every taster's ballot has their own codes in order and nobody else's, what to do,
// allergens and the commitment; no sheet but the pourer's tells a beer.
func TestBallots(t *testing.T) {
	e, keys := evening(t)
	ballots, err := sheet.Ballots(e, sheet.A4)
	if err != nil {
		t.Fatal(err)
	}
	cards, err := sheet.Cards(e, sheet.Letter)
	if err != nil {
		t.Fatal(err)
	}
	pourer, err := sheet.Pourer(e, keys, sheet.A4)
	if err != nil {
		t.Fatal(err)
	}
	if folder := os.Getenv("GYLE_SHOTS"); folder != "" {
		for name, pdf := range map[string][]byte{"ballots": ballots, "cards": cards, "pourer": pourer} {
			if err := os.WriteFile(filepath.Join(folder, name+".pdf"), pdf, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	pages := strings.Split(textOf(t, ballots), "Ballot 0")[1:]
	if len(pages) != 3 {
		t.Fatalf("%d ballots", len(pages))
	}
	all, table, poured := strings.Join(pages, ""), textOf(t, cards), textOf(t, pourer)
	for i := range e.Tasting.Flights {
		f := &e.Tasting.Flights[i]
		for _, s := range f.Serving {
			for j, page := range pages {
				for _, code := range s.Codes {
					if own := s.Taster == fmt.Sprintf("%02d", j+1); own != regexp.MustCompile(`\b`+string(code)+`\b`).MatchString(page) {
						t.Errorf("%s: glass %s of %s on ballot %d: %v", f.Name, code, s.Taster, j+1, !own)
					}
				}
			}
			for _, code := range s.Codes {
				if !strings.Contains(table, string(code)) || !strings.Contains(poured, string(code)) {
					t.Errorf("%s has no card or isn’t poured", code)
				}
			}
		}
		if !strings.Contains(all, f.Design.Commitment[:40]) {
			t.Errorf("%s: no commitment", f.Name)
		}
	}
	for _, want := range []string{"barley (gluten)", "I am of age", "place 3", "none", "yes", "Tick the two", "roast", "Up to 20 g.", "(reference)"} {
		if !strings.Contains(all, want) {
			t.Errorf("the ballots lack %q", want)
		}
	}
	for what, text := range map[string]string{"ballots": all, "cards": table} {
		for _, never := range []string{"beer with", "Ferry", keys["triangle"].Seed + "\n", keys["triangle"].Nonce, "What can be told"} {
			if strings.Contains(text, never) {
				t.Errorf("the %s show %q", what, never)
			}
		}
	}
	if !strings.Contains(table, "barley") || !strings.Contains(table, "taster 02, glass 1") || !strings.Contains(poured, "A: beer without") {
		t.Error("cards lack allergens or places, or the pourer’s sheet the beers")
	}
}

// What isn't planned, or has no key, is refused; a long list of allergens says where
// it stands in full.
func TestEveningRefused(t *testing.T) {
	e, _ := evening(t)
	if _, err := sheet.Pourer(e, nil, sheet.A4); err == nil {
		t.Error("a pourer’s sheet without a key")
	}
	e.Contains = "They contain: " + strings.Repeat("barley (gluten), ", 90)
	cards, err := sheet.Cards(e, sheet.A4)
	if err != nil || !strings.Contains(textOf(t, cards), "The whole list stands on the ballots") {
		t.Errorf("a long list: %v", err)
	}
	e.Contains = ""
	if cards, err = sheet.Cards(e, sheet.A4); err != nil || !strings.Contains(textOf(t, cards), "ask the brewer") {
		t.Errorf("nothing known: %v", err)
	}
	for i := range e.Tasting.Flights {
		e.Tasting.Flights[i].Serving = nil
	}
	if _, err := sheet.Ballots(e, sheet.A4); err == nil {
		t.Error("ballots without a plan")
	}
	if _, err := sheet.Cards(e, sheet.A4); err == nil {
		t.Error("cards without a plan")
	}
}
