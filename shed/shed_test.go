// SPDX-License-Identifier: MIT

package shed_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/shed"
	"gyle/stock"
	"gyle/water"
)

// ferryBrown is the demo's version 3 on the Garage, with a changed shed.
func ferryBrown(t *testing.T, change func(*stock.Stock)) (*plan.Plan, *stock.Stock) {
	t.Helper()
	s := examplestest.Load(t, "garage-shed", stock.Parse)
	change(s)
	p, err := plan.Make(plan.Input{Recipe: examplestest.Load(t, "ferry-brown-3", recipe.Parse), House: examplestest.Load(t, "garage", brewhouse.Parse), Stock: s, Water: examplestest.Load(t, "saltpan-lane", water.Parse)})
	if err != nil {
		t.Fatal(err)
	}
	return p, s
}

func unchanged(*stock.Stock) {}

// The sums are those of the scenario's need 24: malt 8.87, hops 3.33, yeast
// 4.20, energy 1.89, salts 0.10, in all 18.39 for 19.3 L, 0.95 a litre. The
// prices of the demo's shed were chosen for them; what is tested is that the
// plan's weights, the packs, the kilowatt-hours and the litres lead there.
func TestCostOfFerryBrown(t *testing.T) {
	p, s := ferryBrown(t, unchanged)
	c := shed.CostOf(p, s, quantity.Printer{})
	want := map[string]float64{"malt": 8.87, "hops": 3.33, "yeast": 4.20, "energy": 1.89, "salts": 0.10}
	for _, g := range c.Groups {
		if math.Abs(g.Money-want[g.Name]) > 0.05 {
			t.Errorf("%s costs %.2f, want %.2f: %+v", g.Name, g.Money, want[g.Name], g.Items)
		}
		delete(want, g.Name)
	}
	if len(want) > 0 {
		t.Errorf("no word on %v", want)
	}
	if math.Abs(c.Total-18.39) > 0.08 || math.Abs(c.Litres-19.3) > 0.05 || math.Abs(c.PerLitre-0.95) > 0.006 {
		t.Errorf("%.2f for %.1f L, %.3f a litre; want 18.39, 19.3, 0.95", c.Total, c.Litres, c.PerLitre)
	}
	// The acid and the sugar of this beer have no lot: they are named, not free.
	if got := strings.Join(c.Unpriced, ", "); got != "lactic-acid-88, sucrose" {
		t.Errorf("without a price: %s", got)
	}
	if got := c.Sum(quantity.Printer{}); !strings.Contains(got, "0.95 € a litre, and what has no price") {
		t.Errorf("it says %q", got)
	}
}

// A price that is missing, unreadable, in other money or for another measure is
// named and never counted as nothing.
func TestWhatHasNoPriceIsNamed(t *testing.T) {
	p, s := ferryBrown(t, func(s *stock.Stock) {
		s.Malts[0].Price, s.Malts[1].Price, s.Malts[2].Price, s.Hops[0].Price = "", "cheap", "2 $/kg", "3 €/pack"
	})
	c := shed.CostOf(p, s, quantity.Printer{})
	all := strings.Join(c.Unpriced, "\n")
	for _, want := range []string{"pale-ale PA-A", "oats-flaked OF-A (its price “cheap” can't be read)", "challenger CL-A (its price “3 €/pack” is for another measure)", "crystal CR-A (its price is in €)"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q isn't named among\n%s", want, all)
		}
	}
	none := shed.CostOf(p, nil, quantity.Printer{})
	if none.Complete() || slices.ContainsFunc(none.Groups, func(g shed.Group) bool { return g.Name != "energy" }) {
		t.Errorf("without a stock it says %s", none.Sum(quantity.Printer{}))
	}
}

// The scenario's need 24: 3.00 kg of PA-A are left, 3.23 needed, 0.23 come from
// PA-B (the Boathouse's lot: 76.1 % instead of 78.2 %, 7.5 instead of 6 EBC),
// the original gravity loses 0.1 %. By hand: 0.23·(0.761−0.782) = −0.0048 kg of
// extract, of 3.76 kg in all: −0.13 %.
func TestNeedIsSplitOverLots(t *testing.T) {
	p, s := ferryBrown(t, func(s *stock.Stock) {
		other := examplestest.Load(t, "boathouse-shed", stock.Parse).Malts[0]
		_ = other.Bought.UnmarshalText([]byte("2026-10-01"))
		s.Malts = append(s.Malts, other)
		reserved := shed.Use{Gyle: "x", What: "pale-ale", Lot: "PA-A", Mass: 19, How: shed.Reserved}
		*s = *shed.Remaining(s, []shed.Use{reserved})
	})
	splits := shed.Splits(p)
	if len(splits) != 1 || len(splits[0].Uses) != 2 || *s.Malts[0].Mass != 3 {
		t.Fatalf("got %+v with %v left", splits, *s.Malts[0].Mass)
	}
	a, b := splits[0].Uses[0], splits[0].Uses[1]
	if a.Lot != "PA-A" || b.Lot != "PA-B" || math.Abs(float64(a.Mass)-3) > 1e-6 || math.Abs(float64(b.Mass)-0.23) > 0.02 {
		t.Errorf("%.3f kg of %s and %.3f kg of %s, want 3.00 of PA-A and 0.23 of PA-B", float64(a.Mass), a.Lot, float64(b.Mass), b.Lot)
	}
	if og := splits[0].OG.Percent(); math.Abs(og+0.1) > 0.05 || !(splits[0].Color > 0 && splits[0].Color < 0.2) {
		t.Errorf("the gravity changes by %.2f %%, the colour by %.2f EBC; want −0.1 %% and a little darker", og, float64(splits[0].Color))
	}
}

// Whatever gyles use and reserve, no lot falls below nothing, what was counted
// is used, reserved or left, and what was wanted is booked or short.
func TestLotsAreNeverNegative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var counted quantity.Date
		_ = counted.UnmarshalText([]byte("2026-11-14"))
		s := &stock.Stock{Counted: counted}
		for i := range rapid.IntRange(1, 4).Draw(t, "lots") {
			mass := quantity.Mass(rapid.Float64Range(0, 10).Draw(t, "mass"))
			s.Malts = append(s.Malts, stock.Malt{Lot: fmt.Sprint("L", i), Malt: "pale-ale", Mass: &mass})
		}
		var uses []shed.Use
		wanted := 0.0
		for range rapid.IntRange(0, 12).Draw(t, "uses") {
			u := shed.Use{What: "pale-ale", Lot: rapid.SampledFrom([]string{"L0", ""}).Draw(t, "lot"), Mass: quantity.Mass(rapid.Float64Range(0, 6).Draw(t, "use")), How: rapid.SampledFrom([]shed.How{shed.Reserved, shed.Logged, shed.AsPlanned}).Draw(t, "how")}
			u.Day.Time = counted.AddDate(0, 0, rapid.IntRange(-3, 3).Draw(t, "day"))
			if u.How == shed.Reserved || u.Day.After(counted.Time) {
				wanted += float64(u.Mass)
			}
			uses = append(uses, u)
		}
		booked := 0.0
		for _, l := range shed.Lots(s, uses) {
			if l.Left < 0 || l.Used < 0 || l.Reserved < 0 || l.Short < 0 {
				t.Fatalf("below nothing: %+v", l)
			}
			if math.Abs(float64(l.Left+l.Used+l.Reserved-*l.Counted)) > 1e-9 {
				t.Fatalf("%v counted, but %+v", *l.Counted, l)
			}
			booked += float64(l.Used + l.Reserved + l.Short)
		}
		if math.Abs(booked-wanted) > 1e-6 {
			t.Fatalf("%.6f kg were wanted, %.6f booked", wanted, booked)
		}
		for _, m := range shed.Remaining(s, uses).Malts {
			if *m.Mass < 0 {
				t.Fatalf("%s has %v left", m.Lot, *m.Mass)
			}
		}
	})
}

// A planned gyle reserves what its plan says; a brewed one has used what its
// log says, and as planned what the log is silent of.
func TestUsesOf(t *testing.T) {
	g := examplestest.Load(t, "gyle-17", gyle.Parse)
	for _, u := range shed.UsesOf("gyle-17", g) {
		if u.How == shed.Reserved {
			t.Errorf("a packaged gyle reserves %+v", u)
		}
		if u.Lot == "CL-A" && (u.How != shed.Logged || math.Abs(u.Mass.Grams()-35) > 1) {
			t.Errorf("the log says 35 g of CL-A, got %+v", u)
		}
	}
	planned := *g
	planned.Log = nil
	reserved := 0
	for _, u := range shed.UsesOf("gyle-17", &planned) {
		if u.How != shed.Reserved {
			t.Errorf("a planned gyle used %+v", u)
		}
		reserved++
	}
	if want := len(g.Plan.Grist) + len(g.Plan.Hops); reserved < want {
		t.Errorf("%d uses, want %d at least", reserved, want)
	}
}
