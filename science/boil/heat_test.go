// SPDX-License-Identifier: MIT

package boil

import (
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

// Computed from the formula (from memory); half a unit of the last printed digit.
func TestSpecificHeat(t *testing.T) {
	for _, test := range []struct{ celsius, want float64 }{{20, 3.904}, {60, 3.940}, {100, 3.976}} {
		near(t, "cp at 12 °P", SpecificHeat(12, celsius(test.celsius)), test.want, 0.0005)
	}
}

// Computed from the three formulas (from memory), which must agree within the
// 1.5 % that the short one claims.
func TestSpecificHeatsAgree(t *testing.T) {
	near(t, "short form at 12 °P", SpecificHeatLinear(12), 3.905, 0.0005)
	near(t, "90 % at 20 °C", SpecificHeatOfPurity(12, 0.90, celsius(20)), 3.898, 0.0005)
	near(t, "90 % at 65 °C", SpecificHeatOfPurity(12, 0.90, celsius(65)), 3.939, 0.0005)
	for p := quantity.Plato(0); p <= 25; p += 5 {
		for c := 20.0; c <= 100; c += 20 {
			cp := SpecificHeat(p, celsius(c))
			near(t, "pure sucrose", SpecificHeatOfPurity(p, 1, celsius(c)), cp, 1e-9)
			near(t, "wort of 90 %", SpecificHeatOfPurity(p, 0.90, celsius(c)), cp, 0.015*cp)
		}
		near(t, "short form", SpecificHeatLinear(p), SpecificHeat(p, celsius(40)), 0.015*4.186)
	}
}

// Computed with a latent heat of 2256.5 kJ/kg; tolerance 0.01 kg/h.
func TestEvaporation(t *testing.T) {
	for _, test := range []struct{ power, efficiency, loss, want float64 }{{2.4, 1, 0.5, 3.031}, {5.5, 0.55, 0.6, 3.869}} {
		power, efficiency := quantity.Power(test.power), quantity.Fraction(test.efficiency)
		flow := Evaporation(power, efficiency, quantity.Power(test.loss), celsius(100))
		near(t, "kg/h", float64(flow)*3600, test.want, 0.01)
		near(t, "kg in 60 min", Evaporated(flow, 60).Kilograms(), test.want, 0.01)
		loss := LossFromBoilOff(power, efficiency, flow, celsius(100))
		near(t, "loss", float64(loss), test.loss, 1e-12)
	}
	near(t, "3.6 kg/h", float64(PerHour(3.6)), 0.001, 1e-15)
}

// Computed from the formula above (regression value).
func TestHeatUpTime(t *testing.T) {
	got := HeatUpTime(25, 0, celsius(60), celsius(100), 2.4, 1, 0)
	near(t, "minutes", got.Minutes(), 25*4.1868*40/2.4/60, 1e-9)
	slower := HeatUpTime(25, 12, celsius(60), celsius(100), 2.4, 0.9, 0.5)
	near(t, "minutes of wort", slower.Minutes(), 25*(4.1868-0.0251*12+7.5e-5*12*80)*40/(2.4*0.9-0.25)/60, 1e-9)
}

// Published check numbers were computed with the short rational relation of SG
// and °P (gravity.SGFromPlatoRational) and 0.99820 kg/L; the default relation
// of science/gravity meets them within the tolerance.
func TestConcentrate(t *testing.T) {
	for _, test := range []struct{ litres, plato, steam, wantPlato, wantSG, wantLitres float64 }{
		{28, 10.5, 3.5, 11.934, 1.0481, 24.49},
		{25, 12, 2.5, 13.268, 1.0537, 22.50},
		{30, 9, 4.5, 10.527, 1.0422, 25.49},
		{25, 12, 0.75, 12.358, 1.0499, 24.25},
	} {
		v, p := Concentrate(quantity.Volume(test.litres), quantity.Plato(test.plato), quantity.Mass(test.steam))
		near(t, "°P", float64(p), test.wantPlato, 0.01)
		near(t, "SG", float64(gravity.SGFromPlato(p)), test.wantSG, 0.0001)
		near(t, "rational SG", float64(gravity.SGFromPlatoRational(p)), test.wantSG, 0.0001)
		near(t, "L", v.Litres(), test.wantLitres, 0.02)
		steam := SteamFor(quantity.Volume(test.litres), quantity.Plato(test.plato), p)
		near(t, "steam there and back", steam.Kilograms(), test.steam, 1e-9)
		start := gravity.SGFromPlato(quantity.Plato(test.plato))
		points := start.Points() * test.litres / v.Litres()
		near(t, "points rule", 1+points/1000, float64(gravity.SGFromPlato(p)), 0.00015)
	}
}

func TestFearsDMS(t *testing.T) {
	for _, test := range []struct {
		evaporated, pilsner quantity.Fraction
		celsius             float64
		want                bool
	}{
		{0.08, 0.9, 100, false}, {0.03, 0.9, 100, true}, {0.08, 0.9, 94, true}, {0.03, 0.4, 94, false},
	} {
		if got := FearsDMS(test.evaporated, celsius(test.celsius), test.pilsner); got != test.want {
			t.Errorf("FearsDMS(%v, %g °C, %v) = %v", test.evaporated, test.celsius, test.pilsner, got)
		}
	}
}
