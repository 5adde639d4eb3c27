// SPDX-License-Identifier: MIT

package panel_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gyle/panel"
	"gyle/tasting"
)

// evening is a tasting with so many beers and one flight that can be planned.
func eveningOf(kind tasting.Method, beers, tasters int) (*tasting.Tasting, []string) {
	members, ids := numbered(tasters)
	doc := &tasting.Tasting{Name: "Evening", Question: "Do they differ?", Panel: members}
	for i := range beers {
		letter := string(rune('A' + i))
		doc.Beers = append(doc.Beers, tasting.Beer{Letter: letter, Name: "beer " + letter})
	}
	f := tasting.Flight{Name: "flight", Kind: kind}
	switch kind {
	case tasting.TwoAFC, tasting.ThreeAFC:
		f.Attribute, f.Expect = "roast", []string{"B", "A"}
	case tasting.Ranking:
		f.Attribute = "liking"
	case tasting.Profile:
		f.Attributes, f.Scale = []string{"roast"}, &tasting.Scale{To: 9}
	case tasting.ANotA:
		f.Reference = "B"
	}
	doc.Flights = []tasting.Flight{f}
	return doc, ids
}

// TestAnyPlanIsSound plans any kind of flight for any panel: the document is
// sound, the key is that which was sealed, codes are well apart and occur once,
// and no order is served more than once more often than another.
func TestAnyPlanIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(tasting.Methods).Draw(t, "kind")
		beers, tasters := 2, rapid.IntRange(1, 40).Draw(t, "tasters")
		if !kind.Pair() {
			beers = rapid.IntRange(3, 6).Draw(t, "beers")
			tasters = min(tasters, 24)
		}
		doc, ids := eveningOf(kind, beers, tasters)
		f := &doc.Flights[0]
		if kind == tasting.DuoTrio {
			f.Reference = rapid.SampledFrom([]string{"", "A", "B"}).Draw(t, "reference")
		}
		wish := panel.Wish{Tasters: ids, Seed: rapid.Uint64().Draw(t, "seed"), InTurn: rapid.Bool().Draw(t, "in turn"), Nonce: nonceOf("any")}
		at := tasting.Time{}
		if err := at.UnmarshalText([]byte("2026-04-19T20:10:00+02:00")); err != nil {
			t.Fatal(err)
		}
		key, err := panel.Plan(doc, f, wish, at)
		if err != nil {
			t.Fatal(err)
		}
		checkCodes(t, f)
		counts := panel.Balance(f, key)
		if patterns := doc.Patterns(f); len(patterns) > 0 {
			for _, p := range patterns {
				if n := counts.Orders[p]; n < tasters/len(patterns) || n > tasters/len(patterns)+1 {
					t.Fatalf("%s: order %s is served %d times to %d tasters", kind, p, n, tasters)
				}
			}
		}
		f.Key = key
		if v := doc.Verify(f); v != tasting.Matches {
			t.Fatalf("the key %s", v)
		}
		if same, err := panel.Same(doc, f, wish); err != nil || !same {
			t.Fatalf("the seed doesn't make the plan again (%v)", err)
		}
		text, err := doc.Text()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := tasting.Parse("plan.yaml", text); err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		for _, r := range doc.Remarks() {
			if r.Weight == tasting.Doubt && strings.HasSuffix(r.Path, "serving") && !strings.Contains(r.Text, "answered") || r.Weight == tasting.Void || strings.Contains(r.Path, "codes") {
				t.Fatalf("a plan that was made has a remark: %+v", r)
			}
		}
	})
}

func checkCodes(t *rapid.T, f *tasting.Flight) {
	seen := map[tasting.Code]bool{}
	for _, s := range f.Serving {
		tray := slices.Clone(s.Codes)
		if s.Reference != "" {
			tray = append(tray, s.Reference)
		}
		for i, code := range tray {
			if seen[code] || code.Ominous() != "" {
				t.Fatalf("code %s is there twice, or ominous: %v", code, f.Serving)
			}
			seen[code] = true
			for _, other := range tray[:i] {
				if code.Apart(other) < 2 {
					t.Fatalf("%s and %s on one tray", code, other)
				}
			}
		}
	}
}

// TestRankingsAreBalanced serves full squares: each beer in each place and after
// each other equally often, whatever the seed.
func TestRankingsAreBalanced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(3, 6).Draw(t, "beers")
		rows := len(panel.Williams(k))
		rounds := rapid.IntRange(1, 2).Draw(t, "rounds")
		doc, ids := eveningOf(tasting.Ranking, k, rows*rounds)
		f := &doc.Flights[0]
		key, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Seed: rapid.Uint64().Draw(t, "seed"), Nonce: nonceOf("any")}, tasting.Time{Time: doc.Date.AddDate(2026, 0, 0)})
		if err != nil {
			t.Fatal(err)
		}
		counts := panel.Balance(f, key)
		for beer, places := range counts.Places {
			for place, n := range places {
				if n != rows*rounds/k {
					t.Fatalf("beer %s stands in place %d %d times", beer, place+1, n)
				}
			}
		}
		if len(counts.Follows) != k*(k-1) {
			t.Fatalf("%d ordered pairs of %d", len(counts.Follows), k*(k-1))
		}
		for pair, n := range counts.Follows {
			if n != rows*rounds/k {
				t.Fatalf("%v follow each other %d times", pair, n)
			}
		}
	})
}

// TestManyBeers serves 3 of 7 beers to each of 42: every beer 18 times, every
// pair 6 times, every beer equally often in each place.
func TestManyBeers(t *testing.T) {
	doc, ids := eveningOf(tasting.Ranking, 7, 42)
	f := &doc.Flights[0]
	key, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Seed: 5, PerTaster: 3, Nonce: nonceOf("any")}, clock(t, "2026-04-19T20:10:00Z"))
	if err != nil {
		t.Fatal(err)
	}
	counts := panel.Balance(f, key)
	for beer, places := range counts.Places {
		if fmt.Sprint(places) != "[6 6 6]" {
			t.Errorf("beer %s by place: %v", beer, places)
		}
	}
	if len(counts.Together) != 21 {
		t.Errorf("%d of 21 pairs meet", len(counts.Together))
	}
	for pair, n := range counts.Together {
		if n != 6 {
			t.Errorf("%v meet %d times", pair, n)
		}
	}
	if _, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Seed: 5, PerTaster: 5, Nonce: nonceOf("any")}, clock(t, "2026-04-19T20:10:00Z")); err != nil {
		t.Errorf("5 of 7: %v", err)
	}
	wide, ids := eveningOf(tasting.Profile, 13, 13)
	_, err = panel.Plan(wide, &wide.Flights[0], panel.Wish{Tasters: ids, PerTaster: 6, Nonce: nonceOf("any")}, clock(t, "2026-04-19T20:10:00Z"))
	if err == nil || !strings.Contains(err.Error(), "try 4") {
		t.Errorf("6 of 13 beers: %v", err)
	}
}

func TestPlanIsRefused(t *testing.T) {
	doc, ids := eveningOf(tasting.Triangle, 3, 6)
	f := &doc.Flights[0]
	at := clock(t, "2026-04-19T20:10:00Z")
	if _, err := panel.Plan(doc, f, panel.Wish{Tasters: ids}, at); err == nil {
		t.Error("a triangle of three beers is planned")
	}
	f.Beers = []string{"A", "C"}
	if _, err := panel.Plan(doc, f, panel.Wish{}, at); err == nil {
		t.Error("nobody tastes")
	}
	if _, err := panel.Plan(doc, f, panel.Wish{Tasters: ids}, tasting.Time{}); err == nil {
		t.Error("a plan without a date is sealed")
	}
	f.Answers = []tasting.Answer{{ID: "a"}}
	if _, err := panel.Plan(doc, f, panel.Wish{Tasters: ids}, at); err == nil {
		t.Error("a plan is made after the answers")
	}
	f.Answers = nil
	many := make([]string, 200)
	for i := range many {
		many[i] = fmt.Sprint(i)
	}
	if _, err := panel.Plan(doc, f, panel.Wish{Tasters: many}, at); err == nil {
		t.Error("600 glasses get codes of three digits")
	}
}

// TestSeveralSets gives each taster two triangles.
func TestSeveralSets(t *testing.T) {
	doc, ids := eveningOf(tasting.Triangle, 2, 6)
	f := &doc.Flights[0]
	key, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Sets: 2, Seed: 1, Nonce: nonceOf("any")}, clock(t, "2026-04-19T20:10:00Z"))
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Serving) != 12 || f.Serving[1].Taster != "01" || f.Serving[1].Set != 2 || f.Serving[2].Taster != "02" {
		t.Errorf("the sets: %+v", f.Serving)
	}
	for order, n := range panel.Balance(f, key).Orders {
		if n != 2 {
			t.Errorf("order %s is served %d times", order, n)
		}
	}
}
