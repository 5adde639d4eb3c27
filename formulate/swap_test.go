// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
)

// swapOne swaps one ingredient of Ferry Brown on the Garage.
func swapOne(t *testing.T, from, to string) Swap {
	t.Helper()
	w := clubWish(t, "garage")
	w.HopStep = quantity.Grams(1)
	all, err := Swaps(context.Background(), w, ferryBrown(t), from, []string{to})
	if err != nil {
		t.Fatal(err)
	}
	if all[0].Conflict != nil {
		t.Fatal(all[0].Conflict)
	}
	limitsKept(t, from+" for "+to, all[0].Judgement)
	return all[0]
}

// Black malt for chocolate keeps the colour: its share is that of the chocolate
// times the ratio of their colours, 900 EBC of the lot over the typical black malt
// (the relation between EBC and Lovibond is nearly proportional: 3 %), within a
// step of a tenth of a percent and the 2 % that the colour may move.
func TestSwapByColor(t *testing.T) {
	s := swapOne(t, "chocolate", "black-malt")
	black, _ := data.Malt("black-malt")
	want := 0.037 * 900 / black.ColourEBC.Mid()
	if got := shareOf(s.Recipe, "black-malt"); math.Abs(got-want) > 0.03*want+0.0011 {
		t.Errorf("black malt %.4f, want %.4f", got, want)
	}
	if s.Role != "colour" || shareOf(s.Recipe, "chocolate") != 0 {
		t.Errorf("role %s\n%s", s.Role, s.Text)
	}
	if !slices.ContainsFunc(s.Kept, func(k string) bool { return strings.HasPrefix(k, "colour") }) {
		t.Errorf("kept %q", s.Kept)
	}
}

// Vienna for Munich keeps the extract and brings more diastatic power (data:
// both typical).
func TestSwapByExtract(t *testing.T) {
	s := swapOne(t, "munich", "vienna")
	if got := shareOf(s.Recipe, "vienna"); s.Role != "extract" || math.Abs(got-0.10) > 0.0021 {
		t.Errorf("role %s, vienna %.4f, want about 10 %%", s.Role, got)
	}
	if !slices.ContainsFunc(s.Lost, func(k string) bool { return strings.HasPrefix(k, "diastatic power") }) {
		t.Errorf("lost %q", s.Lost)
	}
}

// A hop that is there for its oil keeps its oil: 0.91 g/L of the Garage's
// Bramling Cross at 0.9 mL/100 g, against typical oil of the other, within a
// gram in 22 L.
func TestSwapByOil(t *testing.T) {
	s := swapOne(t, "bramling-cross", "east-kent-golding")
	other, _ := data.Hop("east-kent-golding")
	want := 0.91 * 0.9 / other.Oil.Mid()
	got := 0.0
	for _, c := range s.Recipe.Hops {
		if c.Hop == "east-kent-golding" && c.At.Stage == recipe.AtBoil && c.Dose != nil {
			got += float64(*c.Dose)
		}
	}
	if s.Role != "oil" || math.Abs(got-want) > 0.6/22 {
		t.Errorf("role %s, %.3f g/L, want %.3f", s.Role, got, want)
	}
}

// A hop that is there for its bitterness keeps it, whatever its alpha acids.
func TestSwapByBitterness(t *testing.T) {
	s := swapOne(t, "challenger", "magnum")
	for _, c := range s.Recipe.Hops {
		if c.Hop == "magnum" && (c.Bitterness == nil || math.Abs(float64(*c.Bitterness)-25.6) > 0.8) { // a gram of it is 1.4 IBU
			t.Errorf("%+v, want 25.6 IBU", c)
		}
	}
	if s.Role != "bitterness" {
		t.Errorf("role %s", s.Role)
	}
}

// What the style doesn't bear is a conflict, not a recipe: sugar for oats.
func TestSwapThatFails(t *testing.T) {
	w := clubWish(t, "garage")
	w.Strict = true
	all, err := Swaps(context.Background(), w, ferryBrown(t), "oats-flaked", []string{"sucrose"})
	if err != nil {
		t.Fatal(err)
	}
	if c := all[0].Conflict; c == nil || !strings.Contains(c.Error(), "silk without sweetness") {
		t.Errorf("%+v", all[0])
	}
}
