// SPDX-License-Identifier: MIT

package hops

import (
	"testing"

	"gyle/quantity"
)

// Computed from the closed form with the constants of Malowicki & Shellhammer
// 2005; tolerance 0.1 mg/L. The saturation of 250 mg/L is second-hand (Hough
// and others 1982).
func TestHoldLimited(t *testing.T) {
	for _, test := range []struct {
		alpha, solubility quantity.Concentration
		left, iso, share  float64
	}{
		{400, 250, 215.30, 168.40, 0.4210},
		{600, 250, -1, 171.03, 0.2850},
		{456, 200, -1, 136.82, 0.3000},
	} {
		left, iso := HoldLimited(test.alpha, 0, test.solubility, boiling, 60)
		near(t, "iso", float64(iso), test.iso, 0.1)
		near(t, "share", float64(iso/test.alpha), test.share, 0.0001)
		if test.left >= 0 {
			near(t, "alpha left", float64(left), test.left, 0.1)
		}
		got := History{Steady(boiling, 60)}.Limited([]quantity.Duration{0}, []quantity.Concentration{test.alpha}, test.solubility)
		near(t, "iso by the history", float64(got), float64(iso), 1e-9)
	}
	saturated := (400 - 250) / (float64(IsoRate(boiling)) * 250)
	near(t, "time saturated", saturated, 48.04, 0.005)
	left, _ := HoldLimited(400, 0, 250, boiling, quantity.Duration(saturated))
	near(t, "alpha at the end of saturation", float64(left), 250, 1e-9)
}

// Below 60 °C nothing turns, saturated or not.
func TestHoldLimitedCold(t *testing.T) {
	left, iso := HoldLimited(400, 100, 250, celsius(50), 60)
	near(t, "alpha", float64(left), 400, 0)
	near(t, "iso", float64(iso), float64(100*Hold(State{Iso: 1}, celsius(50), 60).Iso), 1e-9)
}

// Estimate drawn through 250 mg/L at pH 5.
func TestAlphaSolubility(t *testing.T) {
	for _, test := range []struct{ ph, want float64 }{{5.0, 250}, {5.2, 285}, {5.4, 341}} {
		near(t, "S", float64(AlphaSolubility(quantity.PH(test.ph))), test.want, 0.5)
	}
}

// Without a limit that binds, the capped walk is the linear one.
func TestLimitedAgreesWithOutcomes(t *testing.T) {
	h, at := brewday()
	at = at[:4]
	alpha := []quantity.Concentration{60, 20, 40, 30}
	want := 0.0
	for i, y := range h.Yields(at) {
		want += float64(alpha[i]) * y.Iso
	}
	near(t, "iso without limit", float64(h.Limited(at, alpha, 1e6)), want, 1e-3)
	if h.SolubilityBinds(at, alpha, 1e6) {
		t.Error("a solubility of 1 kg/L binds")
	}
	if got := float64(h.Limited(at, alpha, 40)); got >= want {
		t.Errorf("with a solubility of 40 mg/L: %.2f mg/L, without limit %.2f", got, want)
	}
}

// The sum of the doses exceeds the solubility, but the first has turned by the
// time the second comes: 200·e^(−k1·90) = 65 mg/L, computed.
func TestSolubilityBinds(t *testing.T) {
	h := History{Steady(boiling, 100)}
	doses := []quantity.Concentration{200, 100}
	if h.SolubilityBinds([]quantity.Duration{0, 90}, doses, 250) {
		t.Error("binds though no more than 200 mg/L are ever there")
	}
	if !h.SolubilityBinds([]quantity.Duration{0, 1}, doses, 250) {
		t.Error("300 mg/L at once don't bind")
	}
	if !h.SolubilityBinds([]quantity.Duration{90, 89}, doses, 250) {
		t.Error("300 mg/L at once, later dose named first, don't bind")
	}
}
