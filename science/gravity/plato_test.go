// SPDX-License-Identifier: MIT

package gravity

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// near reports a value that is further than tolerance from what was wanted.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s = %.6f, want %g within %g", what, got, want, tolerance)
	}
}

// Rows of USDA/AMS file code 135-A-50, from NBS Circular C440, read in two
// public copies (verified). Tolerance 0.004 °P for the fits.
func TestPlatoRowsOfUSDA(t *testing.T) {
	for _, row := range []struct{ plato, sg float64 }{
		{0.10, 1.00039}, {0.30, 1.00117}, {3.80, 1.01490}, {4.00, 1.01569},
		{7.60, 1.03017}, {7.90, 1.03139}, {8.40, 1.03344}, {8.90, 1.03549},
	} {
		near(t, "NBS cubic", float64(PlatoFromSG(quantity.SG(row.sg))), row.plato, 0.004)
		near(t, "ASBC cubic", float64(PlatoFromSGASBC(quantity.SG(row.sg))), row.plato, 0.004)
		near(t, "inverse NBS", float64(SGFromPlato(quantity.Plato(row.plato))), row.sg, 2e-5)
	}
}

// The NBS scale: the cubic inverted (computed from the formula, regression
// values), 1 to 30 °P. The cubic is within 0.0009 % of NBS C440 (second-hand).
func TestSGFromPlato(t *testing.T) {
	for i, want := range []float64{
		1.00390, 1.00780, 1.01173, 1.01569, 1.01968, 1.02369, 1.02773, 1.03180, 1.03590, 1.04003,
		1.04418, 1.04837, 1.05259, 1.05684, 1.06111, 1.06542, 1.06976, 1.07413, 1.07854, 1.08297,
		1.08744, 1.09194, 1.09647, 1.10103, 1.10563, 1.11026, 1.11493, 1.11963, 1.12436, 1.12913,
	} {
		near(t, "SGFromPlato", float64(SGFromPlato(quantity.Plato(i+1))), want, 2e-5)
	}
	near(t, "SGFromPlato(0)", float64(SGFromPlato(0)), 1.00000, 2e-5)
}

// AOAC 942.33, the true scale, by Hackbarth's polynomial (regression values,
// also the figures of many printed Plato tables), tolerance 1e-5.
func TestHackbarth(t *testing.T) {
	for _, row := range []struct{ plato, sg float64 }{
		{0, 1}, {5, 1.01966}, {10, 1.03998}, {12, 1.04831}, {15, 1.06104}, {20, 1.08287}, {25, 1.10551}, {30, 1.12898},
	} {
		near(t, "Hackbarth", float64(TrueSGFromPlatoHackbarth(quantity.Plato(row.plato))), row.sg, 1e-5)
	}
}

// The ASBC scale, SG to °P, computed from the cubic (regression values).
func TestPlatoFromSGASBC(t *testing.T) {
	for _, row := range []struct{ sg, plato float64 }{
		{1.004, 1.028}, {1.008, 2.052}, {1.010, 2.561}, {1.012, 3.068}, {1.016, 4.078}, {1.020, 5.081},
		{1.024, 6.077}, {1.028, 7.066}, {1.030, 7.558}, {1.032, 8.049}, {1.036, 9.024}, {1.040, 9.994},
		{1.044, 10.956}, {1.048, 11.912}, {1.050, 12.388}, {1.052, 12.862}, {1.056, 13.805}, {1.060, 14.741},
		{1.064, 15.672}, {1.070, 17.056}, {1.076, 18.425}, {1.080, 19.331}, {1.083, 20.006},
	} {
		near(t, "ASBC", float64(PlatoFromSGASBC(quantity.SG(row.sg))), row.plato, 0.002)
	}
}

// How far the forms lie from each other, as their sources or the computed
// comparison state.
func TestFormsAgree(t *testing.T) {
	mean, count := 0.0, 0.0
	for s := quantity.SG(1.0000); s <= 1.0833; s += 0.0005 {
		nbs, asbc := float64(PlatoFromSG(s)), float64(PlatoFromSGASBC(s))
		near(t, "ASBC to 20 °P (max 0.0018)", asbc, nbs, 0.00185)
		near(t, "NBS rational", float64(PlatoFromSGNBSRational(s)), nbs, 0.004)
		near(t, "Buhl, one parameter (max 0.050, abstract)", float64(PlatoFromSGBuhl(s)), asbc, 0.0505)
		near(t, "Buhl, cubic", float64(PlatoFromSGBuhlCubic(s)), asbc, 0.0007)
		near(t, "De Clerck (max 0.008)", float64(PlatoFromSGDeClerck(s)), nbs, 0.008)
		near(t, "rational inverse", float64(PlatoFromSG(SGFromPlatoRational(PlatoFromSG(s)))), nbs, 0.005)
		near(t, "rational inverse (max 0.0034 °P)", float64(PlatoFromSGASBC(SGFromPlatoRational(PlatoFromSGASBC(s)))), asbc, 0.00345)
		mean += math.Abs(float64(PlatoFromSGBuhlCubic(s)) - asbc)
		count++
	}
	near(t, "Buhl, cubic, mean error (published as below 0.00053)", mean/count, 0.00053, 0.00001)
	for p := quantity.Plato(0); p <= 38; p++ {
		near(t, "NBS rational", float64(PlatoFromSGNBSRational(SGFromPlato(p))), float64(p), 0.004)
	}
	near(t, "NBS rational at 40 °P", float64(PlatoFromSGNBSRational(SGFromPlato(40))), 40, 0.0075)
	for _, row := range []struct{ sg, drift float64 }{{1.100, -0.005}, {1.120, -0.016}, {1.130, -0.025}} {
		s := quantity.SG(row.sg)
		near(t, "drift of the ASBC cubic", float64(PlatoFromSGASBC(s)-PlatoFromSG(s)), row.drift, 0.001)
	}
	near(t, "De Clerck at 30 °P", float64(PlatoFromSGDeClerck(SGFromPlato(30))), 30, 0.11)
	near(t, "rational at 30 °P", float64(PlatoFromSG(SGFromPlatoRational(30))), 30, 0.0126)
	near(t, "NBS at 1", float64(PlatoFromSG(1)), -0.00482, 1.1e-5)
	near(t, "ASBC at 1", float64(PlatoFromSGASBC(1)), -0.003, 0.0005)
	near(t, "NBS below 1", float64(PlatoFromSG(0.998)), -0.52, 0.005)
}

func TestZeroed(t *testing.T) {
	near(t, "zeroed at 1", float64(PlatoFromSGZeroed(1)), 0, 1e-12)
	near(t, "zeroed at 1.010", float64(PlatoFromSGZeroed(1.010)), float64(PlatoFromSG(1.010)), 4e-5)
}

// There and back is the same number, over the whole range.
func TestGravityThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := quantity.Plato(rapid.Float64Range(-3, 40).Draw(t, "plato"))
		if back := PlatoFromSG(SGFromPlato(p)); math.Abs(float64(back-p)) > 1e-10 {
			t.Errorf("NBS: %v came back as %v", p, back)
		}
		if back := PlatoFromSGASBC(SGFromPlatoASBC(p)); math.Abs(float64(back-p)) > 1e-10 {
			t.Errorf("ASBC: %v came back as %v", p, back)
		}
		s := SGFromPlato(p)
		if back := TrueSGOf(s).Apparent(); math.Abs(float64(back-s)) > 1e-12 {
			t.Errorf("true gravity: %v came back as %v", s, back)
		}
	})
}

func TestWrittenGravity(t *testing.T) {
	near(t, "SGOf °P", float64(SGOf(quantity.GravityPlato(12))), 1.04837, 2e-5)
	near(t, "SGOf SG", float64(SGOf(quantity.GravitySG(1.05))), 1.05, 0)
	near(t, "PlatoOf SG", float64(PlatoOf(quantity.GravitySG(1.04837))), 12, 0.002)
	near(t, "PlatoOf °P", float64(PlatoOf(quantity.GravityPlato(12.4))), 12.4, 0)
}
