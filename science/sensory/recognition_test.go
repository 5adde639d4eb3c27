// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"
)

// Numbers were computed twice: in scipy, and in R (fisher.test, or the statistics
// package of brockhoff2010).

func TestRecognition(t *testing.T) {
	r := Recognition{20, 24, 12, 24}
	same(t, "20 and 12 of 24: p", r.P(), .015238, 5e-7)
	d := r.Distance()
	same(t, "d′", d.Value, .96742, 5.1e-6)
	same(t, "SE", d.SD, .39768, 5.1e-6)
	const z = 1.959964
	same(t, "Wald low", d.Value-z*d.SD, .18797, 1e-5)
	same(t, "Wald high", d.Value+z*d.SD, 1.74687, 1e-5)
	sameSpan(t, "likelihood near Wald", r.DistanceInterval(0.95), .18797, 1.74687, 0.05)
	// The likelihood interval excludes 0 exactly when the likelihood ratio of two
	// proportions does (computed from the formula).
	equal := logLikelihood(32, 48, 32.0/48)
	g2 := 2 * (logLikelihood(20, 24, 20.0/24) + logLikelihood(12, 24, 0.5) - equal)
	same(t, "level at which 0 leaves", r.DistanceInterval(1-chiSquareAbove(g2, 1)).Low, 0, 1e-5)
}

func TestInOut(t *testing.T) {
	// "Out" 6 of 12 for the batch, 1 of 12 for the hidden reference.
	r := Recognition{6, 12, 1, 12}
	same(t, "p", r.P(), .03432, 5.1e-6)
	same(t, "d′", r.Distance().Value, 1.3830, 5e-5)
	same(t, "log-linear", r.LogLinear().Value, 1.1984, 5e-5)
	sameSpan(t, "share out", ClopperPearson(6, 12, 0.95), .2109, .7891, 5e-5)
	one, _ := McNemar(6, 1)
	same(t, "6:1", one, .0625, 1e-12)
	one, two := McNemar(9, 2)
	same(t, "9:2 one-sided", one, .03271, 5e-6)
	same(t, "9:2 two-sided", two, .06543, 5e-6)
	all := Recognition{12, 12, 3, 12}
	if all.Distance() != all.LogLinear() {
		t.Error("all hits aren't corrected")
	}
	if span := all.DistanceInterval(0.95); !math.IsInf(span.High, 1) || !(span.Low > 0.5) {
		t.Errorf("all hits: interval %v", span)
	}
}

func TestVotes(t *testing.T) {
	v := Votes{4, 5, 11}
	same(t, "sign test", v.Expressed().P(), .11847, 5.1e-6)
	liking, ok := v.Liking(0.95)
	if !ok {
		t.Fatal("4, 5, 11 isn't estimable")
	}
	same(t, "τ", liking.Threshold, .50626, 5.1e-6)
	same(t, "d′", liking.Distance.Value, .684, 5e-5)
	same(t, "SE", liking.Distance.SD, .3744, 5.1e-5)
	sameSpan(t, "interval", liking.Interval, -.0430, 1.427, 5e-4)
	same(t, "p", liking.P, .0653, 5e-5)
	mirrored, _ := Votes{11, 5, 4}.Liking(0.95)
	same(t, "mirrored", mirrored.Distance.Value, -liking.Distance.Value, 1e-12)
	same(t, "mirrored low", mirrored.Interval.Low, -liking.Interval.High, 1e-6)
	for _, v := range []Votes{{0, 3, 9}, {9, 3, 0}, {6, 0, 6}} {
		if _, ok := v.Liking(0.95); ok {
			t.Errorf("%v is estimable", v)
		}
	}
}

// Every outcome of cups that are called A equally often, in panels of many sizes: the
// true alpha never exceeds alpha.
func TestRecognitionKeepsAlpha(t *testing.T) {
	for _, cups := range [][2]int{{4, 4}, {6, 6}, {8, 4}, {12, 12}, {20, 20}, {9, 18}} {
		for share := 0.05; share < 1; share += 0.05 {
			if size := RecognitionPower(cups[0], cups[1], 0.05, share, share); size > 0.05 {
				t.Errorf("cups %v called A with %g: true alpha %g", cups, share, size)
			}
		}
	}
	// The power by its own definition: Fisher's test on each outcome.
	power := 0.0
	for h := 0; h <= 8; h++ {
		for f := 0; f <= 6; f++ {
			if (Recognition{h, 8, f, 6}).P() <= 0.05 {
				power += binomial(h, 8, 0.8) * binomial(f, 6, 0.2)
			}
		}
	}
	same(t, "power of 8 and 6", RecognitionPower(8, 6, 0.05, 0.8, 0.2), power, 1e-12)
}

// Computed from [RecognitionPower] (regression values); a 2-AFC with as many
// assessors needs fewer, since each compares both cups.
func TestRecognitionPanel(t *testing.T) {
	cups, found := RecognitionPanel(0.05, 0.80, 1.5)
	power := func(n int) float64 { return RecognitionPower(n, n, 0.05, normalBelow(0.75), normalBelow(-0.75)) }
	if !found || power(cups.First) < 0.8 || power(cups.First-1) >= 0.8 || power(cups.Stable) < 0.8 {
		t.Errorf("cups %+v, power %g", cups, power(cups.First))
	}
	for n := cups.Stable; n < cups.Stable+20; n++ {
		if power(n) < 0.8 {
			t.Errorf("power of %d cups is %g", n, power(n))
		}
	}
	pair, _ := Design{TwoAFC, 0.05}.PanelSize(0.80, TwoAFC.ProportionCorrect(1.5))
	if 2*cups.First <= pair.First {
		t.Errorf("single cups need %+v, pairs %+v", cups, pair)
	}
	if _, found := RecognitionPanel(0.05, 0.80, 0.1); found {
		t.Error("120 cups recognise what nobody can")
	}
}

// Every outcome of the tests on discordant pairs and expressed preferences, when both
// directions are equally likely, and of two pooled sessions of guesses.
func TestOtherTestsKeepAlpha(t *testing.T) {
	for n := 1; n <= 40; n++ {
		one, two, votes := 0.0, 0.0, 0.0
		for x := range n + 1 {
			chance := binomial(x, n, 0.5)
			oneSided, twoSided := McNemar(x, n-x)
			one += chance * oneIf(oneSided <= 0.05)
			two += chance * oneIf(twoSided <= 0.05)
			votes += chance * oneIf(Votes{A: n - x, None: 3, B: x}.Expressed().P() <= 0.05)
		}
		if max(one, two, votes) > 0.05 {
			t.Errorf("n %d: true alpha %g, %g, %g", n, one, two, votes)
		}
	}
	for n := 2; n <= 20; n += 3 {
		shown := 0.0
		for x := range n + 1 {
			for y := range n + 3 {
				if (Sessions{{Triangle, x, n}, {DuoTrio, y, n + 2}}).P() <= 0.05 {
					shown += binomial(x, n, 1.0/3) * binomial(y, n+2, 0.5)
				}
			}
		}
		if shown > 0.05 {
			t.Errorf("sessions of %d: true alpha %g", n, shown)
		}
	}
}
