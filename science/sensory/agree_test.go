// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"
)

func TestConcordance(t *testing.T) {
	// Computed from the formula; chi-square with R 4.2.2.
	ranks := ranksFrom("12345;21354;13245;12435;31245;12354")
	for i, want := range []float64{9, 11, 17, 25, 28} {
		ratingNear(t, "rank sum", ranks.Sums()[i], want, 0)
	}
	c := ranks.Kendall()
	ratingNear(t, "W", c.W, 0.77778, 5e-6)
	ratingNear(t, "chi-square", c.ChiSquare, 18.667, 5e-4)
	ratingNear(t, "its p", ranks.Friedman().ChiSquare, 9.14e-4, 5e-7)
	ratingNear(t, "mean Spearman", c.MeanSpearman, 0.73333, 5e-6)
	if c.Method != "exact" || c.P >= 9.14e-4 {
		t.Errorf("%s p %g; it should be exact and below the approximate one", c.Method, c.P)
	}
	sum, pairs := 0.0, 0
	for i := range ranks {
		for j := range i {
			sum += Spearman(ranks[i], ranks[j]).R
			pairs++
		}
	}
	ratingNear(t, "mean of all pairs", sum/float64(pairs), c.MeanSpearman, 1e-12)
}

// panelOfFive scored six beers; the last assessor works against the others.
// Computed from the formulas and with a package of psychometrics in R 4.2.2.
var panelOfFive = [][]float64{
	{20, 35, 50, 62, 71, 40}, {25, 30, 55, 60, 80, 45}, {15, 40, 45, 70, 65, 38}, {30, 38, 52, 58, 74, 50}, {60, 20, 45, 30, 55, 65},
}

func TestReliability(t *testing.T) {
	r, err := ReliabilityOf(panelOfFive[:4])
	if err != nil {
		t.Fatal(err)
	}
	ratingNear(t, "alpha", r.Alpha, 0.97829, 5e-6)
	ratingNear(t, "ICC(2,1)", r.Single, 0.9172, 5e-5)
	ratingNear(t, "ICC(3,1)", r.SingleOf, 0.9185, 5e-5)
}

func TestAgainstRest(t *testing.T) {
	got := AgainstRest(panelOfFive)
	for i, want := range []AgainstPanel{
		{0.9242, -1.375, 1.239}, {0.9847, 2.167, 1.516}, {0.7391, -2.417, 1.037}, {0.9879, 3.625, 1.054}, {-0.0891, -2.000, -0.087},
	} {
		ratingNear(t, "r", got[i].R, want.R, 5e-5)
		ratingNear(t, "bias", got[i].Bias, want.Bias, 5e-4)
		ratingNear(t, "slope", got[i].Slope, want.Slope, 5e-4)
	}
}

func TestRepeatability(t *testing.T) {
	s := Repeatability([]float64{4, 6, 3, 7, 5, 6}, []float64{5, 6, 4, 5, 5, 7})
	ratingNear(t, "s", s, 0.7638, 5e-5) // computed from the formula
}

func TestRobustZ(t *testing.T) {
	z := RobustZ([]float64{1.2, -0.8, 0.5, 9, -1.1, 0.3, -2})
	ratingNear(t, "z of 9", z[3], 5.335, 5e-4) // median 0.3, scaled deviation 1.63086
	for i, x := range z {
		if i != 3 && math.Abs(x) > 1.42 {
			t.Errorf("score %d has z %g", i, x)
		}
	}
	if z := RobustZ([]float64{3, 3, 3, 3, 4}); z[0] != 0 || !math.IsInf(z[4], 1) {
		t.Errorf("one odd score among equals: %v", z)
	}
}

func TestAccord(t *testing.T) {
	for _, row := range []struct {
		opinions []Opinion
		want     Accord
	}{
		{nil, Silent}, {[]Opinion{TooMuch}, OneVoice}, {[]Opinion{Right, Right}, Agreed}, {[]Opinion{TooLittle, TooLittle}, Agreed},
		{[]Opinion{TooMuch, TooLittle}, Conflict}, {[]Opinion{Right, TooMuch, TooLittle}, Conflict}, {[]Opinion{Right, TooMuch}, Mixed},
	} {
		if got := AccordOf(row.opinions); got != row.want {
			t.Errorf("%v: %s, want %s", row.opinions, got, row.want)
		}
	}
	spread, within := Spread([]float64{33, 37}, UsualSpread)
	if spread != 4 || !within {
		t.Errorf("33 and 37 of 50 lie %g apart, within the custom: %v", spread, within)
	}
}
