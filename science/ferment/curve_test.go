// SPDX-License-Identifier: MIT

package ferment

import (
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

var sample = Logistic{Start: 12, End: 2.5, Steepness: PerHour(0.1), Middle: quantity.Hours(40)}

// Computed from the formulas above (regression values).
func TestCurves(t *testing.T) {
	curves := []struct {
		name  string
		curve GravityCurve
		want  map[float64]float64
	}{
		{"4PL", sample, map[float64]float64{0: 11.829, 24: 10.404, 36: 8.188, 48: 5.445, 60: 3.632, 72: 2.872, 96: 2.535}},
		{"5PL, s 0.5", AsymmetricLogistic{sample, 0.5}, map[float64]float64{24: 9.997, 40: 7.25, 48: 5.929, 72: 3.600}},
		{"5PL, s 2", AsymmetricLogistic{sample, 2}, map[float64]float64{24: 10.590, 40: 7.25, 48: 5.072, 72: 2.576}},
		{"Gompertz", Gompertz{12, 2.5, 0.25, quantity.Hours(12)}, map[float64]float64{12: 11.373, 24: 8.998, 48: 4.276, 72: 2.847, 120: 2.511}},
	}
	for _, test := range curves {
		for hour, want := range test.want {
			near(t, test.name, float64(test.curve.At(quantity.Hours(hour))), want, 0.001)
		}
	}
	near(t, "5PL with s 1", float64(AsymmetricLogistic{sample, 1}.At(2000)), float64(sample.At(2000)), 1e-12)
}

// Computed from the formulas above (regression values).
func TestLogisticMilestones(t *testing.T) {
	near(t, "steepest fall", sample.MaxRate(), 0.2375, 1e-9)
	near(t, "lag", sample.Lag().Hours(), 20, 1e-9)
	near(t, "end of the tangent", sample.TangentEnd().Hours(), 60, 1e-9)
	near(t, "within 0.1 °P", sample.TimeToWithin(0.1).Hours(), 85.43, 0.005)
	near(t, "distance then", float64(sample.At(sample.TimeToWithin(0.1))-sample.End), 0.1, 1e-9)
}

// Conventions of Briggs et al. 2004 and Boulton & Quain 2001, from memory; the
// figures are computed from the formula above.
func TestCellsNeeded(t *testing.T) {
	for _, test := range []struct {
		plato, litres, rate, want float64
	}{
		{12, 20, 0.75, 180}, {12, 20, 1.5, 360}, {18, 20, 1.0, 360}, {14.5, 23, 0.35, 116.7},
	} {
		got := CellsNeeded(quantity.PitchRate(test.rate), quantity.Plato(test.plato), quantity.Volume(test.litres))
		near(t, "cells", float64(got), test.want, 0.05)
	}
	grams := DryYeastGrams(180)
	near(t, "dry yeast", grams.Mid, 18, 1e-9)
	near(t, "least", grams.Low, 10, 1e-9)
	near(t, "most", grams.High, 36, 1e-9)
}

// Common practice; the figures are computed from the formulas above.
func TestViability(t *testing.T) {
	for _, test := range []struct{ days, linear, exponential float64 }{
		{30, 0.766, 0.766}, {60, 0.563, 0.605}, {90, 0.359, 0.478}, {120, 0.155, 0.378},
	} {
		near(t, "linear", float64(ViabilityLinear(0.97, quantity.Days(test.days))), test.linear, 0.0006)
		near(t, "exponential", float64(ViabilityExponential(0.97, quantity.Days(test.days))), test.exponential, 0.0006)
	}
	near(t, "dry, a year warm", float64(DryYeastViability(1, quantity.Days(365.25), DryYeastLossWarm)), 0.80, 1e-9)
}

// Computed from the formulas above (regression values).
func TestHeat(t *testing.T) {
	for _, test := range []struct{ oe, ae, fermented, heat, rise float64 }{
		{12, 2.4, 1.646, 966, 11.5}, {16, 4, 2.091, 1227, 14.4},
	} {
		oe := quantity.Plato(test.oe)
		re := RealExtract(oe, quantity.Plato(test.ae))
		wort := gravity.WortMass(20, gravity.SGFromPlato(oe))
		near(t, "extract fermented", float64(HeatOfFermentation(wort, oe, re, 1)), test.fermented, 0.0015)
		near(t, "heat", float64(HeatOfFermentation(wort, oe, re, HeatPerExtractBriggs)), test.heat, 1)
		near(t, "rise", float64(WarmingUncooled(oe, re, HeatPerExtractBriggs)), test.rise, 0.05)
	}
	near(t, "power in kW", float64(HeatingPower(20.9, 0.2375, HeatPerExtract)), 0.0068, 0.00005)
}

// Computed from the formula above (regression values).
func TestVolatileRetention(t *testing.T) {
	for _, test := range []struct{ bar, want float64 }{{0, 1}, {0.5, 0.67}, {1, 0.50}, {2, 0.34}} {
		near(t, "retention", float64(VolatileRetention(quantity.GaugePressure(test.bar))), test.want, 0.005)
	}
}
