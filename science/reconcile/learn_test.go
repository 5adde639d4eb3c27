// SPDX-License-Identifier: MIT

package reconcile

import (
	"math"
	"math/rand/v2"
	"testing"
)

func sights(sd float64, values ...float64) []Observation {
	var out []Observation
	for _, v := range values {
		out = append(out, Observation{Factors: []float64{1}, Value: v, SD: sd})
	}
	return out
}

// TestLearnIsTheWeightedMean: two ratios of 0.91 and 0.95 with 12 % each on a
// prior of 25 %. By hand: ln K = (ln 0.91 + ln 0.95)/0.12² / (1/0.25² + 2/0.12²) =
// −0.065, SD (16 + 138.89)^−½ = 0.08035.
func TestLearnIsTheWeightedMean(t *testing.T) {
	l := Learn(Independent([]float64{0}, []float64{0.25}), sights(0.12, math.Log(0.91), math.Log(0.95)))
	if k := math.Exp(l.Mean[0]); math.Abs(k-0.937) > 0.0005 {
		t.Errorf("K = %.4f, want 0.937", k)
	}
	if _, sd := l.At([]float64{1}); math.Abs(sd-0.08035) > 0.000005 {
		t.Errorf("SD = %.5f, want 0.08035", sd)
	}
}

// TestLearnWithoutObservations keeps the prior.
func TestLearnWithoutObservations(t *testing.T) {
	l := Learn(Independent([]float64{3, 4}, []float64{1, 2}), nil)
	if mean, sd := l.At([]float64{1, 1}); mean != 7 || math.Abs(sd-math.Sqrt(5)) > 1e-12 {
		t.Errorf("the sum is %g ± %g, want 7 ± √5", mean, sd)
	}
}

// TestOneOutlierHardlyCounts: of five sights one is ten SD off. The plain mean
// would move by two of them.
func TestOneOutlierHardlyCounts(t *testing.T) {
	clean := Learn(Independent([]float64{0}, []float64{10}), sights(1, 0.2, -0.3, 0.1, 0.4))
	with := Learn(Independent([]float64{0}, []float64{10}), sights(1, 0.2, -0.3, 0.1, 0.4, 10))
	if moved := with.Mean[0] - clean.Mean[0]; moved > 0.25 {
		t.Errorf("one outlier of 10 SD moved the constant by %.2f SD, the plain mean moves by 2", moved)
	}
	if with.Weights[4] > 0.1 || with.Weights[0] < 0.99 {
		t.Errorf("weights %.3f", with.Weights)
	}
}

// TestChangeWidens: after a change the belief is wider, and one new sight counts
// more than four old ones that are far from it.
func TestChangeWidens(t *testing.T) {
	prior := Independent([]float64{0}, []float64{10})
	old := sights(1, 0, 0.5, -0.5, 0.1)
	_, before := Learn(prior, old).At([]float64{1})
	changed := append(old, Observation{Factors: []float64{1}, Value: 6, SD: 1, Changed: true, Drift: []float64{4}})
	l := Learn(prior, changed)
	mean, after := l.At([]float64{1})
	if after <= before {
		t.Errorf("SD %.3f after a change, %.3f before", after, before)
	}
	// By hand: old mean 0.02 ± 0.5 and drift 4 make ± 4.03; with the sight of
	// 6 ± 1: (0.02/16.2 + 6)/(1/16.2 + 1) = 5.65.
	if math.Abs(mean-5.65) > 0.05 {
		t.Errorf("the mean is %.3f, want 5.65", mean)
	}
}

// TestLine finds a line through noisy points, and its bands hold. 90 % of 1 000
// simulated lines must lie in the band at the end of their range; the bounds are
// about three SD of the count, and a little more above: a band is never
// narrowed.
func TestLine(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	inside := 0
	const lines = 1000
	for range lines {
		a, b := random.NormFloat64(), 0.5*random.NormFloat64()
		var o []Observation
		for range 6 {
			x := 4*random.Float64() - 2
			o = append(o, Observation{Factors: []float64{1, x}, Value: a + b*x + 0.3*random.NormFloat64(), SD: 0.3})
		}
		mean, sd := Learn(Independent([]float64{0, 0}, []float64{1, 0.5}), o).At([]float64{1, 2})
		if math.Abs(mean-(a+2*b)) < 1.645*sd {
			inside++
		}
	}
	if inside < lines*87/100 || inside > lines*94/100 {
		t.Errorf("%d of %d lines lie in their 90 %% band", inside, lines)
	}
}
