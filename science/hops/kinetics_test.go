// SPDX-License-Identifier: MIT

package hops

import (
	"math"
	"testing"

	"gyle/quantity"
)

func someHistory(shift float64) History {
	boil := quantity.Celsius(100 + shift)
	chill := CoolingTo(boil, quantity.Celsius(80), quantity.Celsius(12), 7)
	return History{
		Linear(quantity.Celsius(70), boil, 24), Steady(boil, 60), chill,
		Cooling(quantity.Celsius(80), quantity.Celsius(20), 120, 20),
		Cooling(quantity.Celsius(71), quantity.Celsius(20), 120, 40).AsRunOff(),
	}
}

// With the published rates a follower is the same computation as Outcomes.
func TestFollowerIsOutcomes(t *testing.T) {
	var f Follower
	for _, shift := range []float64{-3, 0, 2} {
		h := someHistory(shift)
		at := []quantity.Duration{0, 24, 30, 83, 84, h.Duration() - 41, h.Duration() - 10}
		dosings, iso := make([]Dosing, len(at)), make([]float64, len(at))
		for i := range at {
			dosings[i] = h.DosingAt(at[i])
		}
		f.Yields(h, Published, dosings, iso)
		for i, want := range h.Outcomes(at) {
			if iso[i] != want.Iso {
				t.Errorf("shift %g, charge at %g min: %.17g, want %.17g", shift, at[i].Minutes(), iso[i], want.Iso)
			}
		}
	}
	h, at, iso := someHistory(0), []Dosing{{1, 0}}, []float64{0}
	if n := testing.AllocsPerRun(20, func() { f.Yields(h, Published, at, iso) }); n > 0 {
		t.Errorf("%g allocations, want none", n)
	}
}

// Faster rates are the same as longer times.
func TestTimesIsTime(t *testing.T) {
	var f Follower
	boil, iso := quantity.Celsius(100), []float64{0, 0}
	f.Yields(History{Steady(boil, 60)}, Published.Times(1.25, 1.25), []Dosing{{}}, iso[:1])
	f.Yields(History{Steady(boil, 75)}, Published, []Dosing{{}}, iso[1:])
	near(t, "60 min at 1.25 times the rate", iso[0], iso[1], 1e-14)
}

// Computed from the formula above: exp(−4/0.008314·(1/353.15 − 1/373.15)).
func TestSteeper(t *testing.T) {
	k := Published.Steeper(4)
	near(t, "at the boil", k.iso(boiling)/Published.iso(boiling), 1, 1e-12)
	at80 := quantity.Celsius(80)
	near(t, "at 80 °C", k.iso(at80)/Published.iso(at80), math.Exp(-4/8.314462618e-3*(1/353.15-1/373.15)), 1e-12)
	near(t, "at 80 °C", k.iso(at80)/Published.iso(at80), 0.930, 0.0005)
}

func BenchmarkFollower(b *testing.B) {
	var f Follower
	h, at, iso := someHistory(0)[1:4], []Dosing{{0, 0}, {2, 0}}, []float64{0, 0}
	b.ReportAllocs()
	for b.Loop() {
		f.Yields(h, Published, at, iso)
	}
}

func TestExpSmall(t *testing.T) {
	for x := -0.25; x <= 0.25; x += 1.0 / 1024 {
		near(t, "e^x", expSmall(x)/math.Exp(x), 1, 3e-14)
	}
}

// The quick way through a cooling is the plain way, step for step; warming
// towards a hotter room and crossing 60 °C included.
func TestQuickCoolingIsPlain(t *testing.T) {
	for _, s := range []Segment{
		Cooling(quantity.Celsius(100), quantity.Celsius(12), 7, 40),
		Cooling(quantity.Celsius(80), quantity.Celsius(20), 120, 20),
		Cooling(quantity.Celsius(98), quantity.Celsius(20), 300, 600),
		Cooling(quantity.Celsius(55), quantity.Celsius(95), 30, 90),
		Cooling(quantity.Celsius(61), quantity.Celsius(59), 10, 30),
	} {
		for _, from := range []float64{0, 3.7, 19} {
			plain := still
			s.steps(from, s.Duration.Minutes(), func(a, b float64) { plain = plain.then(s.step(a, b, &Published)) })
			quick := s.transferFrom(from, &Published)
			near(t, "alpha", quick.alpha/plain.alpha, 1, 1e-12)
			near(t, "iso", quick.iso/plain.iso, 1, 1e-12)
			near(t, "exposure", quick.exposure, plain.exposure, 1e-12)
			near(t, "made", quick.made, plain.made, 1e-11)
		}
	}
}
