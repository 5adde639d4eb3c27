// SPDX-License-Identifier: MIT

package mash

import (
	"math"
	"testing"

	"gyle/quantity"
	"pgregory.net/rapid"
)

// anyMash draws a mash with malts, water and acid as brewers have them.
func anyMash(t *rapid.T) Balance {
	number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	b := Balance{
		Malts: []Malt{
			base(number("base", 1, 6), number("pHDI", 5.4, 6.2), number("B", 12, 45)),
			titrated(number("titrated", 0, 1), number("A57", 9, 75), number("Bs", 35, 40)),
		},
		Liquor: Liquor{
			Volume:     quantity.Volume(number("litres", 5, 30)),
			Calcium:    quantity.Concentration(number("calcium", 0, 200)),
			AcidDemand: water(number("alkalinity", 0.1, 6), number("liquor pH", 6.5, 8.3)),
		},
		Acids:       []Acid{{number("acid", 0, 8), lactic88}},
		Bicarbonate: number("bicarbonate", 0, 60),
		Lime:        number("lime", 0, 20),
	}
	return b
}

func TestExcessRisesWithPH(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyMash(t)
		low := rapid.Float64Range(3, 8.9).Draw(t, "low")
		high := rapid.Float64Range(low+1e-6, 9).Draw(t, "high")
		if Excess(b, quantity.PH(low)) >= Excess(b, quantity.PH(high)) {
			t.Fatalf("excess doesn't rise from %v to %v", low, high)
		}
	})
}

func TestPHCancelsProtons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyMash(t)
		ph := PH(b)
		if left := Excess(b, ph) / Slope(b, ph); math.Abs(left) > 1e-8 {
			t.Fatalf("pH %v is off by %v", ph, left)
		}
	})
}

func TestAcidNeverRaisesPH(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyMash(t)
		more := b
		more.Acids = append([]Acid{{rapid.Float64Range(0, 10).Draw(t, "more"), phosphoric10}}, b.Acids...)
		if PH(more) > PH(b)+1e-9 {
			t.Fatalf("acid raises the pH from %v to %v", PH(b), PH(more))
		}
	})
}

func TestAcidForMeetsTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyMash(t)
		target := rapid.Float64Range(5, 5.8).Draw(t, "target")
		b.Acids = append(b.Acids, Acid{AcidFor(b, quantity.PH(target), lactic88), lactic88})
		if left := Excess(b, quantity.PH(target)); math.Abs(left) > 1e-8 {
			t.Fatalf("%v mEq left at the target", left)
		}
	})
}

func TestFitEtaFindsEta(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eta := rapid.Float64Range(.5, 1).Draw(t, "eta")
		var brews []Brew
		for range MinimumBrewsForEta {
			b := anyMash(t)
			brews = append(brews, Brew{b, PH(withEta(b, eta))})
		}
		if got := FitEta(brews); math.Abs(float64(got)-eta) > 1e-6 {
			t.Fatalf("got %v, want %v", got, eta)
		}
	})
}

func TestLauterEfficiencyIsAShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		liquid := rapid.Float64Range(5, 40).Draw(t, "liquid")
		held := rapid.Float64Range(.05, .9).Draw(t, "held") * liquid
		sparge := rapid.Float64Range(.1, 40).Draw(t, "sparge")
		layers := rapid.IntRange(1, 12).Draw(t, "layers")
		l, h, s := quantity.Volume(liquid), quantity.Volume(held), quantity.Volume(sparge)
		none, batch, two := NoSparge(l, h), BatchSparge(l, h, s), BatchSparge(l, h, s/2, s/2)
		fly, finer := FlySparge(l, h, s, layers), FlySparge(l, h, s, layers+1)
		for _, e := range []quantity.Fraction{none, batch, two, fly, finer} {
			if !(e >= 0 && e <= 1) {
				t.Fatalf("efficiency %v", e)
			}
		}
		if batch < none || two < batch || fly < none {
			t.Fatalf("none %v, one batch %v, two %v, fly %v", none, batch, two, fly)
		}
	})
}

// Very many layers are plug flow: sparge liquor pushes the wort out before it.
func TestFlyTendsToPlugFlow(t *testing.T) {
	for _, theta := range []float64{.2, .5, .8, 1.3, 2} {
		got := FlySparge(20, 7.5, quantity.Volume(7.5*theta), 200)
		plug := 1 - 7.5/20*math.Max(0, 1-theta)
		near(t, "plug flow", float64(got), plug, 0.002)
	}
	// One layer is a stirred vessel: Rt/L0·exp(−s/Rt) is left.
	near(t, "stirred", float64(FlySparge(20, 7.5, 6, 1)), 1-7.5/20*math.Exp(-.8), 1e-12)
}

func TestConversionStatesAreShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rest := Rest{
			Temperature: celsius(rapid.Float64Range(50, 80).Draw(t, "start")),
			End:         celsius(rapid.Float64Range(50, 80).Draw(t, "end")),
			Duration:    quantity.Duration(rapid.Float64Range(0, 120).Draw(t, "minutes")),
		}
		s := Convert(DefaultKinetics, DoughIn, rest)
		for _, x := range []float64{s.Raw, s.Fermentable, s.Alpha, s.Beta, float64(DefaultKinetics.RealLimit(s))} {
			if !(x >= 0 && x <= 1) {
				t.Fatalf("state %+v", s)
			}
		}
	})
}
