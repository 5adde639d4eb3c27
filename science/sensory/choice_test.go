// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"

	"gyle/quantity"
)

// same fails if got isn't want within a tolerance.
func same(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

func sameSpan(t *testing.T, what string, got quantity.Span[float64], low, high, tolerance float64) {
	t.Helper()
	same(t, what+" low", got.Low, low, tolerance)
	same(t, what+" high", got.High, high, tolerance)
}

// The two triangles and the preference of Ferry Brown 2, 3 and its parent, told in
// whole percent. Figures: computed from the exact sums (regression values), p of
// 11 in 18 also by R's pbinom.
func TestFerryBrown(t *testing.T) {
	f := Choice{Triangle, 11, 18}.Test(0.05)
	same(t, "11 of 18: p", f.P, 0.0144, 0.00005)
	same(t, "11 of 18: share", f.Share, 0.42, 0.005)
	same(t, "11 of 18: level", f.Level, 0.90, 1e-12)
	sameSpan(t, "11 of 18: share", f.ShareInterval, 0.09, 0.70, 0.005)
	same(t, "11 of 18: d′", f.Distance.Value, 2.0, 0.05)
	if !f.Shown || f.Critical != 10 || !f.DistanceEstimable {
		t.Errorf("11 of 18: shown %v, critical %d, estimable %v", f.Shown, f.Critical, f.DistanceEstimable)
	}

	f = Choice{Triangle, 6, 14}.Test(0.05)
	same(t, "6 of 14: p", f.P, 0.31, 0.005)
	same(t, "6 of 14: at most", f.Upper(0.95), 0.51, 0.005)
	same(t, "6 of 14: at most", f.ShareInterval.High, f.Upper(0.95), 1e-12)
	if f.Shown || f.Critical != 9 {
		t.Errorf("6 of 14: shown %v, critical %d", f.Shown, f.Critical)
	}

	f = Choice{Preference, 13, 18}.Test(0.05)
	same(t, "13:5: p", f.P, 0.096, 0.0005)
	same(t, "13:5: level", f.Level, 0.95, 1e-12)
	sameSpan(t, "13:5", f.Proportion, 0.47, 0.90, 0.005)
	same(t, "8:3: p", Choice{Preference, 8, 11}.P(), 0.23, 0.005)
	same(t, "3:8: p", Choice{Preference, 3, 11}.P(), Choice{Preference, 8, 11}.P(), 1e-15)
}

func TestFerryBrownPanels(t *testing.T) {
	design := Design{Triangle, 0.05}
	for _, test := range []struct {
		n, needs   int
		half, less float64 // power when 50 % and 30 % can tell
	}{
		{18, 10, 0.89, 0.52},
		{14, 9, 0.69, 0.29},
	} {
		if got := design.Critical(test.n); got != test.needs {
			t.Errorf("n %d needs %d, want %d", test.n, got, test.needs)
		}
		same(t, "power at 50 %", design.Power(test.n, Triangle.AtShare(0.5)), test.half, 0.005)
		same(t, "power at 30 %", design.Power(test.n, Triangle.AtShare(0.3)), test.less, 0.005)
	}
}
