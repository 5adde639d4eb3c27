// SPDX-License-Identifier: MIT

package hops

import (
	"math"
	"testing"

	"gyle/quantity"
)

// Unless said otherwise the cases of this file are computed from the constants
// of Malowicki & Shellhammer 2005 (abstract), apart from this program.
// Tolerance 0.0003, histories 0.0005.

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

func nearState(t *testing.T, what string, got State, alpha, iso, tolerance float64) {
	t.Helper()
	near(t, what+": alpha", got.Alpha, alpha, tolerance)
	near(t, what+": iso", got.Iso, iso, tolerance)
}

// Computed from the Arrhenius terms; half a unit of the last printed digit.
func TestRates(t *testing.T) {
	for _, test := range []struct{ celsius, k1, half1, k2, half2, relative float64 }{
		{60, 0.000275127, 2519, 0.0000471846, 14690, 0.0220},
		{65, 0.000465695, 1488, 0.0000839973, 8252, 0.0373},
		{70, 0.000776264, 892.9, 0.000147039, 4714, 0.0621},
		{75, 0.00127510, 543.6, 0.000253288, 2737, 0.1021},
		{80, 0.00206526, 335.6, 0.000429643, 1613, 0.1653},
		{85, 0.00330033, 210.0, 0.000718116, 965.2, 0.2642},
		{90, 0.00520636, 133.1, 0.00118342, 585.7, 0.4168},
		{93, 0.00680338, 101.9, 0.00158657, 436.9, 0.5447},
		{95, 0.0081121, 85.45, 0.00192393, 360.3, 0.6495},
		{97, 0.0096542, 71.80, 0.00232815, 297.7, 0.7729},
		{98, 0.0105245, 65.86, 0.00255911, 270.9, 0.8426},
		{100, 0.0124903, 55.50, 0.00308733, 224.5, 1},
		{102, 0.0147961, 46.85, 0.00371713, 186.5, 1.1846},
		{105, 0.0190131, 36.46, 0.00489267, 141.7, 1.5222},
		{110, 0.0286267, 24.21, 0.00766108, 90.48, 2.2919},
		{120, 0.0628995, 11.02, 0.0181517, 38.19, 5.0359},
		{130, 0.132912, 5.22, 0.0412060, 16.82, 10.641},
	} {
		at := quantity.Celsius(test.celsius)
		k1, k2 := IsoRate(at), DegradationRate(at)
		near(t, "k1", float64(k1), test.k1, 1e-5*test.k1)
		near(t, "k2", float64(k2), test.k2, 1e-5*test.k2)
		near(t, "half-life of alpha", HalfLife(k1).Minutes(), test.half1, 1e-3*test.half1)
		near(t, "half-life of iso-alpha", HalfLife(k2).Minutes(), test.half2, 1e-3*test.half2)
		near(t, "relative rate", float64(k1/IsoRate(boiling)), test.relative, 1e-4*max(1, test.relative))
	}
}

// Arrhenius: Ea = 8.31446 J/(mol K) times the slope; published in the abstract
// as 98.6 and 108.0 kJ/mol.
func TestActivationEnergies(t *testing.T) {
	energy := func(k func(quantity.Temperature) quantity.Rate) float64 {
		a, b := quantity.Celsius(90), quantity.Celsius(130)
		slope := math.Log(float64(k(b)/k(a))) / (1/a.Kelvin() - 1/b.Kelvin())
		return 8.31446e-3 * slope
	}
	near(t, "Ea of isomerisation", energy(IsoRate), 98.6, 0.05)
	near(t, "Ea of degradation", energy(DegradationRate), 108.0, 0.05)
}

func TestNoIsomerisationBelow60(t *testing.T) {
	if k := IsoRate(quantity.Celsius(59.99)); k != 0 {
		t.Errorf("IsoRate(59.99 °C) = %g, want 0 (Kishimoto 2021: begins between 60 and 70 °C)", k)
	}
}

func TestHold(t *testing.T) {
	for _, test := range []struct{ celsius, minutes, alpha, iso float64 }{
		{100, 60, 0.4726, 0.4759}, {100, 15, 0.8292, 0.1668}, {100, 90, 0.3249, 0.5745},
		{95, 30, 0.7840, 0.2097}, {90, 20, 0.9011, 0.0977}, {85, 30, 0.9057, 0.0932},
		{80, 30, 0.9399, 0.0597}, {110, 60, 0.1795, 0.6172},
	} {
		got := Hold(Fresh, quantity.Celsius(test.celsius), quantity.Duration(test.minutes))
		nearState(t, "Hold", got, test.alpha, test.iso, 0.0003)
	}
}

func TestPeak(t *testing.T) {
	after, iso := Peak(quantity.Celsius(100))
	near(t, "time of the most at 100 °C", after.Minutes(), 148.6, 0.05)
	near(t, "most at 100 °C", iso, 0.6320, 0.0003)
	near(t, "most at 100 °C, by Hold", Hold(Fresh, quantity.Celsius(100), after).Iso, iso, 1e-12)
	after, iso = Peak(quantity.Celsius(130))
	near(t, "time of the most at 130 °C", after.Minutes(), 12.8, 0.05)
	near(t, "most at 130 °C", iso, 0.5908, 0.0003)
}

// Kappler et al. 2010 (abstract): more than 20 % of pure iso-alpha acids were
// gone after 90 min of boiling.
func TestDegradationAgainstKappler(t *testing.T) {
	left := Hold(State{Iso: 1}, quantity.Celsius(100), 90).Iso
	near(t, "iso-alpha acids left", left, 0.7574, 0.0003)
	if left > 0.80 {
		t.Errorf("only %.1f %% lost, published: more than 20 %%", 100*(1-left))
	}
}

// Computed from the closed form: yield of 30 min at a lower temperature
// against 60 min at 100 °C.
func TestYieldRelativeToBoil(t *testing.T) {
	boil := Hold(Fresh, boiling, 60).Iso
	for _, test := range []struct{ celsius, want, tolerance float64 }{
		{95, 0.44, 0.005}, {90, 0.30, 0.005}, {85, 0.20, 0.005}, {80, 0.125, 0.0006}, {75, 0.079, 0.0006}, {70, 0.048, 0.0006},
	} {
		got := Hold(Fresh, quantity.Celsius(test.celsius), 30).Iso / boil
		near(t, "relative yield", got, test.want, test.tolerance)
	}
}
