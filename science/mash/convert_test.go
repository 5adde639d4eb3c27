// SPDX-License-Identifier: MIT

package mash

import (
	"testing"

	"gyle/quantity"
)

func hold(c, minutes float64) Rest {
	return Rest{Temperature: celsius(c), Duration: quantity.Duration(minutes)}
}

// Values computed from the equations of Convert (regression values).
func TestConvert(t *testing.T) {
	for _, c := range []struct {
		name                        string
		rests                       []Rest
		raw, ferm, alpha, beta, aal float64
	}{
		{"55", []Rest{hold(55, 60)}, .2080, .5123, .9505, .9621, 74.43},
		{"60", []Rest{hold(60, 60)}, 0, .7245, .8400, .6909, 83.22},
		{"62", []Rest{hold(62, 60)}, 0, .7236, .7538, .4083, 83.13},
		{"65 for 15", []Rest{hold(65, 15)}, .0055, .5238, .8656, .4369, 63.19},
		{"65 for 30", []Rest{hold(65, 30)}, 0, .6561, .7493, .1909, 76.30},
		{"65", []Rest{hold(65, 60)}, 0, .7073, .5615, .0364, 81.48},
		{"68", []Rest{hold(68, 60)}, 0, .6541, .3123, 0, 76.10},
		{"70", []Rest{hold(70, 60)}, 0, .6027, .1580, 0, 70.89},
		{"75", []Rest{hold(75, 60)}, 0, .3934, .0033, 0, 49.70},
		{"80", []Rest{hold(80, 60)}, 0, .1937, 0, 0, 29.48},
		{"62, 72", []Rest{hold(62, 30), hold(72, 20)}, 0, .7062, .3292, 0, 81.37},
		{"50, 63, 72", []Rest{hold(50, 15), hold(63, 40), hold(72, 20)}, 0, .7176, .2974, 0, 82.52},
		{"72, 65", []Rest{hold(72, 15), hold(65, 45)}, 0, .5733, .3134, 0, 67.92},
	} {
		got := Convert(DefaultKinetics, DoughIn, c.rests...)
		near(t, c.name+" raw", got.Raw, c.raw, 0.002)
		near(t, c.name+" fermentable", got.Fermentable, c.ferm, 0.002)
		near(t, c.name+" alpha", got.Alpha, c.alpha, 0.002)
		near(t, c.name+" beta", got.Beta, c.beta, 0.002)
		near(t, c.name+" limit", DefaultKinetics.ApparentLimit(got).Percent(), c.aal, 0.15)
	}
	cold := Convert(DefaultKinetics, DoughIn, hold(55, 60))
	near(t, "relative extract", DefaultKinetics.RelativeExtract(cold).Percent(), 82.95, 0.15)
}

// A trial with 90 % of lager malt and 10 % of dextrin malt at 3 L/kg found
// these apparent attenuations (as reported; duration of an hour assumed). The
// model was fitted to them.
func TestConvertAgreesWithTrial(t *testing.T) {
	for _, c := range []struct{ rest, attenuation float64 }{{65, 82}, {70, 70}, {75, 50}, {80, 30}} {
		got := DefaultKinetics.ApparentLimit(Convert(DefaultKinetics, DoughIn, hold(c.rest, 60)))
		near(t, "trial", got.Percent(), c.attenuation, 1)
	}
}

// Muller (1990), second-hand: at 65 °C 83 % of beta-amylase is lost after 30
// and 92 % after 60 min, and more than half of alpha-amylase left after 60.
func TestConvertAgreesWithAmylaseLosses(t *testing.T) {
	half := Convert(DefaultKinetics, DoughIn, hold(65, 30))
	full := Convert(DefaultKinetics, DoughIn, hold(65, 60))
	near(t, "beta lost after 30 min", 1-half.Beta, .83, .05)
	near(t, "beta lost after 60 min", 1-full.Beta, .92, .05)
	if full.Alpha <= .5 {
		t.Errorf("alpha after 60 min: got %.3f, want more than 0.5", full.Alpha)
	}
	// Computed from the formula: gelatinised in 10 min (regression values).
	for _, c := range []struct{ rest, gelatinised float64 }{{58.6, .47}, {62, .91}, {64.5, .96}} {
		near(t, "gelatinised", 1-Convert(DefaultKinetics, DoughIn, hold(c.rest, 10)).Raw, c.gelatinised, .005)
	}
}

func TestRates(t *testing.T) {
	for _, c := range []struct{ at, gelatinisation, alpha, beta float64 }{
		{65, 5.774e-3, 1.603e-4, 9.20e-4}, {70, 1.012e-2, 5.125e-4, 7.731e-3},
	} {
		at := celsius(c.at)
		near(t, "gelatinisation", GelatinisationRate(at)/c.gelatinisation, 1, 0.001)
		near(t, "alpha", AlphaLossRate(at)/c.alpha, 1, 0.001)
		near(t, "beta", BetaLossRate(at)/c.beta, 1, 0.001)
	}
	near(t, "reference", SugarFactor(celsius(65)), 1, 1e-12)
}

func TestConvertAtRest(t *testing.T) {
	for _, c := range []struct{ rest, limit float64 }{{65, 82.29}, {70, 73.59}} {
		got := ConvertAtRest(DefaultKinetics, celsius(c.rest), 60)
		near(t, "closed form", DefaultKinetics.ApparentLimit(got).Percent(), c.limit, 0.15)
	}
}

func TestKineticsOfALot(t *testing.T) {
	lot := DefaultKinetics.WithAttenuation(.86)
	got := lot.ApparentLimit(Convert(lot, DoughIn, hold(65, 60)))
	near(t, "limit", got.Percent(), 86, 1e-6)

	thick := DefaultKinetics.WithThickness(17)
	near(t, "shift", float64(thick.ThickShift), 2, 1e-12)
	plain := Convert(DefaultKinetics, DoughIn, hold(62, 20))
	if delayed := Convert(thick, DoughIn, hold(62, 20)); delayed.Raw <= plain.Raw || delayed.Fermentable >= plain.Fermentable {
		t.Errorf("a thick mash isn't delayed: %+v beside %+v", delayed, plain)
	}
}

func TestRampLiesBetweenItsEnds(t *testing.T) {
	ramp := Convert(DefaultKinetics, DoughIn, Rest{Temperature: celsius(65), End: celsius(75), Duration: 60})
	cool, hot := Convert(DefaultKinetics, DoughIn, hold(65, 60)), Convert(DefaultKinetics, DoughIn, hold(75, 60))
	if ramp.Alpha >= cool.Alpha || ramp.Alpha <= hot.Alpha {
		t.Errorf("alpha of the ramp: got %.4f, want between %.4f and %.4f", ramp.Alpha, hot.Alpha, cool.Alpha)
	}
}

func TestCaveats(t *testing.T) {
	for _, c := range []struct {
		name     string
		rests    []Rest
		ratio    quantity.Ratio
		adjuncts bool
		want     []Caveat
		spread   quantity.Fraction
	}{
		{"none", []Rest{hold(65, 60)}, 3.3, false, nil, .03},
		{"protein rest", []Rest{hold(52, 10), hold(65, 60)}, 3.3, false, []Caveat{TooCold}, .06},
		{"lukewarm", []Rest{hold(56, 60)}, 3.3, false, []Caveat{SlowGelatin}, .06},
		{"hot, short, thick", []Rest{hold(82, 5)}, 2, true, []Caveat{TooHot, TooShort, TooThick, WithAdjuncts}, .06},
		{"long, thin", []Rest{hold(66, 150)}, 6, false, []Caveat{TooLong, TooThin}, .03},
	} {
		got := Caveats(c.rests, c.ratio, c.adjuncts)
		same := len(got) == len(c.want)
		for i := range got {
			same = same && got[i] == c.want[i]
		}
		if !same {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
		near(t, c.name+", spread", float64(LimitSpread(c.rests)), float64(c.spread), 0)
	}
}

func TestGelatinisation(t *testing.T) {
	for _, c := range []struct {
		cereal string
		flaked bool
		want   bool
	}{
		{"maize", false, true}, {"maize", true, false}, {"rice", false, true},
		{"wheat", false, false}, {"oats", false, false}, {"barley malt", false, false},
	} {
		g, ok := GelatinisationOf(c.cereal)
		if !ok || NeedsCook(g, c.flaked) != c.want {
			t.Errorf("%s, flaked %v: got cook %v (known %v), want %v", c.cereal, c.flaked, !c.want, ok, c.want)
		}
	}
	if _, ok := GelatinisationOf("sawdust"); ok {
		t.Error("knows sawdust")
	}
	for _, g := range Gelatinisations {
		if !g.Range.Low.Below(g.Range.High) {
			t.Errorf("%s: range upside down", g.Cereal)
		}
	}
}

func BenchmarkConvert(b *testing.B) {
	for b.Loop() {
		Convert(DefaultKinetics, DoughIn, hold(62, 30), hold(72, 20))
	}
}
