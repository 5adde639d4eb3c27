// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"gyle/examples/examplestest"
	"gyle/quantity"
	"gyle/water"
)

// The oat brown from the Garage's shed is inside all limits in nine brews of ten,
// or the limits that fail and the inputs to blame are named; and it is no worse
// than the middle of the style.
func TestRobustOatBrown(t *testing.T) {
	w := clubWish(t, "garage")
	w.Water = examplestest.Load(t, "saltpan-lane", water.Parse)
	first := found(t, w)
	search := &robustSearch{ctx: t.Context(), wish: w, best: first}
	if err := search.look(first); err != nil {
		t.Fatal(err)
	}
	before := first
	w.Robust = true
	r := found(t, w)
	limitsKept(t, "robust", r.Judgement)
	limitsKept(t, "robust, planned", r.Planned)
	if r.Outlook.Limits.Share < before.Outlook.Limits.Share {
		t.Errorf("%v, and the middle %v", r.Outlook.Limits, before.Outlook.Limits)
	}
	t.Logf("robust %.3f, middle %.3f\n%s\n%s\n%s", r.Outlook.Limits.Share, before.Outlook.Limits.Share, strings.Join(r.Hinders, "\n"), strings.Join(r.Remedies, "\n"), strings.Join(r.Says, "\n"))
	says := strings.Join(r.Hinders, " ") + strings.Join(r.Remedies, " ")
	for _, want := range []string{"colour formula", "attenuation of the yeast", "have the bitterness of two beers", "all of these together"} {
		if !strings.Contains(says, want) {
			t.Errorf("nothing says %q", want)
		}
	}
	nearBest(t, search, r)
	if r.Outlook.Limits.Share < SureEnough && len(r.Hinders) == 0 {
		t.Error("it isn't sure, and nothing says why")
	}
	if len(r.Rooms) != len(w.Malts)+len(w.Hops) {
		t.Errorf("%d rooms", len(r.Rooms))
	}
	for _, room := range r.Rooms {
		if room.Now > 0 && (room.Now < room.Least-0.0006 || room.Now > room.Most+0.0006) { // a tenth of a percent is the finest step
			t.Errorf("%+v lies outside its room", room)
		}
	}
}

// nearBest holds a robust recipe against recipes with figures drawn by lot from
// the limits: none may be surer by more than the simulation can tell, two
// standard errors of a difference.
func nearBest(t *testing.T, s *robustSearch, r *Result) {
	t.Helper()
	lot := rand.New(rand.NewPCG(1, 2))
	draws := 10
	if os.Getenv("GYLE_SOAK") != "" {
		draws = 300
	}
	most, made := 0.0, 0
	for range draws {
		to := map[quantity.Figure]float64{
			quantity.OG: 1.048 + 0.004*lot.Float64(), quantity.FG: 1.012 + 0.003*lot.Float64(),
			quantity.Bitterness: 26 + 6*lot.Float64(), quantity.BeerColor: 31 + 9*lot.Float64(),
		}
		got, err := s.near(to)
		if err != nil {
			t.Fatal(err)
		}
		if got != nil {
			most, made = max(most, got.Outlook.Limits.Share), made+1
		}
	}
	t.Logf("the surest of %d by lot: %.3f", made, most)
	if made == 0 || most > r.Outlook.Limits.Share+2*math.Sqrt2*r.Outlook.Limits.Error {
		t.Errorf("%d recipes by lot, one inside in %.3f; the robust one in %.3f", made, most, r.Outlook.Limits.Share)
	}
}

// What can be kept on paper and not on the scales is told, with what would help:
// in 22 L, hops in sachets of 200 g are too bitter or none.
func TestTooNarrowIsTold(t *testing.T) {
	w := clubWish(t, "garage")
	w.Style = ruled(t,
		`{figure: og, in: 1.046..1.054, severity: limit}`, `{figure: ibu, in: 24..34 IBU, severity: limit}`,
		`{share: pale-ale, in: 60..75 %, severity: limit}`, `{dose: boil 90..0 min, in: ..5 g/L, severity: limit}`)
	for i := range w.Hops {
		w.Hops[i].Sachet = quantity.Grams(200)
	}
	_, err := Find(context.Background(), w)
	var narrow *TooNarrow
	if !errors.As(err, &narrow) {
		t.Fatalf("%v, want the sentence", err)
	}
	if !strings.Contains(narrow.Error(), "Garage") || !strings.Contains(narrow.Error(), "bitterness 24–34 IBU") {
		t.Error(narrow)
	}
}

// A price is money for a mass, in whatever money.
func TestPrices(t *testing.T) {
	for text, want := range map[string]float64{"1.20 €/kg": 1.2, "4,50 €/100 g": 45, "": 0, "cheap": 0, "3": 0} {
		if got := pricePerKilo(text); got < want-1e-9 || got > want+1e-9 {
			t.Errorf("%q is %g a kilo, want %g", text, got, want)
		}
	}
}

// The shelf holds every malt that a style names, each once.
func TestShelf(t *testing.T) {
	malts, hops := Shelf(oatBrown(t))
	if len(hops) == 0 || !sameMalt(malts, "oats-malted") || !sameMalt(malts, "pale-ale-malt") {
		t.Errorf("%v %v", malts, hops)
	}
	for i, m := range malts {
		if sameMalt(malts[:i], m.Malt) {
			t.Errorf("%s twice", m.Malt)
		}
	}
}
