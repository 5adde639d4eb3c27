// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"

	"gyle/quantity"
)

// Scores and outcome of eight assessors: the intervals are those of R 4.2.2,
// t.test(x)$conf.int; classes and deviations follow from them by hand.
func TestFitRange(t *testing.T) {
	deviations := 0.0
	squares := 0.0
	rows := []struct {
		name            string
		scores          []float64
		from, to        float64
		mean, low, high float64
		fit             Fit
		deviation       float64
	}{
		{"hop aroma", []float64{3, 2, 3, 4, 3, 3, 2, 3}, 2, 4, 2.875, 2.339, 3.411, FitInside, 0},
		{"malt", []float64{2, 2, 3, 2, 1, 2, 2, 3}, 2, 3, 2.125, 1.589, 2.661, FitInside, 0},
		{"bitterness", []float64{4, 5, 4, 4, 5, 4, 3, 4}, 2, 3, 4.125, 3.589, 4.661, FitOutside, 0.625},
		{"fruity", []float64{1, 0, 1, 1, 0, 1, 2, 1}, 0, 2, 0.875, 0.339, 1.411, FitInside, 0},
		{"diacetyl", []float64{0, 1, 1, 0, 2, 1, 0, 1}, 0, 0, 0.75, 0.159, 1.341, FitUndecided, 0.25},
		{"body", []float64{2, 3, 2, 2, 3, 2, 2, 3}, 2, 3, 2.375, 1.942, 2.808, FitInside, 0},
	}
	for _, r := range rows {
		got := FitRange(r.scores, quantity.Span[float64]{Low: r.from, High: r.to}, 0.5)
		if math.Abs(got.Middle-r.mean) > 1e-9 || math.Abs(got.Low-r.low) > 5e-4 || math.Abs(got.High-r.high) > 5e-4 || got.Fit != r.fit || math.Abs(got.Deviation-r.deviation) > 1e-9 {
			t.Errorf("%s: %+v, want %v", r.name, got, r)
		}
		deviations += got.Deviation
		squares += got.Deviation * got.Deviation
	}
	if mean, rms := deviations/6, math.Sqrt(squares/6); math.Abs(mean-0.1458) > 5e-5 || math.Abs(rms-0.2748) > 5e-5 {
		t.Errorf("mean deviation %.4f, rms %.4f; want 0.1458 and 0.2748", mean, rms)
	}
}

func TestFitRangeOfFew(t *testing.T) {
	wanted := quantity.Span[float64]{Low: 2, High: 3}
	for _, r := range []struct {
		scores []float64
		middle float64
		fit    Fit
	}{
		{[]float64{2, 3}, 2.5, FitInside},
		{[]float64{4, 5, 4}, 4, FitOutside},
		{[]float64{1, 4}, 2.5, FitUndecided},
		{[]float64{3}, 3, FitUndecided},
		{[]float64{3, 3, 3, 3}, 3, FitInside}, // no spread at all
	} {
		if got := FitRange(r.scores, wanted, 0.5); got.Middle != r.middle || got.Fit != r.fit {
			t.Errorf("%v: %+v, want %v %s", r.scores, got, r.middle, r.fit)
		}
	}
	if got := FitRange(nil, wanted, 0.5); got.N != 0 || got.Fit != FitUndecided {
		t.Errorf("nobody: %+v", got)
	}
}
