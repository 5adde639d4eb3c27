// SPDX-License-Identifier: MIT

package gravity

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// Refractive indices at 20.0 °C: 10 to 25 % as printed in the French decree of
// 14 September 2011, annex IV, from OIV table II (verified); 0, 5 and 30 % from
// memory. Half the last digit, and 8e-6 for the fit.
func TestRefractiveIndex(t *testing.T) {
	for _, row := range []struct{ brix, index float64 }{
		{0, 1.332986}, {5, 1.34026}, {10, 1.34782}, {12, 1.35093}, {15, 1.35568}, {20, 1.36384}, {25, 1.37233}, {30, 1.38115},
	} {
		near(t, "n", RefractiveIndex(quantity.Plato(row.brix)), row.index, 9e-6)
		near(t, "Bx", float64(BrixFromIndex(row.index)), row.brix, 0.006)
		if row.brix >= 10 && row.brix <= 25 {
			near(t, "quintic", float64(BrixFromIndexQuintic(row.index)), row.brix-0.019, 0.004)
		}
	}
}

// OIV-MA-AS2-02 table I (verified rows), printed to 0.01.
func TestBrixAt20(t *testing.T) {
	for _, row := range []struct{ brix, celsius, correction float64 }{
		{10, 10, -0.59}, {10, 12, -0.49}, {10, 15, -0.32}, {10, 17, -0.20}, {10, 20, 0},
		{20, 10, -0.65}, {20, 15, -0.34},
	} {
		got := BrixAt20(quantity.Plato(row.brix), quantity.Celsius(row.celsius))
		near(t, "correction", float64(got)-row.brix, row.correction, 0.006)
	}
}

func TestRefractometerThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := quantity.Plato(rapid.Float64Range(0, 30).Draw(t, "brix"))
		if back := BrixFromIndex(RefractiveIndex(p)); math.Abs(float64(back-p)) > 1e-9 {
			t.Errorf("%v came back as %v", p, back)
		}
		factor := rapid.Float64Range(1.0, 1.08).Draw(t, "factor")
		readings := []Reading{{p + 1, (p + 1) / quantity.Plato(factor)}, {2*p + 3, (2*p + 3) / quantity.Plato(factor)}}
		if got := WortFactor(readings); math.Abs(got-factor) > 1e-12 {
			t.Errorf("WortFactor = %v, want %v", got, factor)
		}
		if got := PlatoFromBrix(readings[0].Brix, factor); got != readings[0].Extract {
			t.Errorf("PlatoFromBrix = %v, want %v", got, readings[0].Extract)
		}
	})
}
