// SPDX-License-Identifier: MIT

package gravity

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// The physical model and Hall's polynomial, computed (regression values);
// 0.01 °P and 2e-5.
func TestHydrometer(t *testing.T) {
	for _, row := range []struct{ read, at, calibrated, plato, sg, hall float64 }{
		{1.000, 25, 20, 0.270, 1.00104, 1.00112},
		{1.010, 30, 20, 3.188, 1.01244, 1.01251},
		{1.040, 10, 20, 9.581, 1.03825, 1.03847},
		{1.040, 25, 20, 10.307, 1.04126, 1.04116},
		{1.050, 30, 20, 13.070, 1.05284, 1.05260},
		{1.050, 40, 20, 13.932, 1.05650, 1.05619},
		{1.050, 60, 20, 16.121, 1.06590, 1.06595},
		{1.080, 15, 20, 19.060, 1.07875, 1.07907},
		{1.050, 20, 15.556, 12.572, 1.05073, 1.05082},
		{1.040, 30, 15.556, 10.841, 1.04348, 1.04340},
		{1.050, 20, 20, 12.397, 1.05000, 1.05000},
	} {
		at, calibrated := quantity.Celsius(row.at), quantity.Celsius(row.calibrated)
		sg, plato := HydrometerSG(quantity.SG(row.read), at, calibrated)
		near(t, "°P", float64(plato), row.plato, 0.01)
		near(t, "SG", float64(sg), row.sg, 2e-5)
		near(t, "Hall", float64(HydrometerSGHall(quantity.SG(row.read), at, calibrated)), row.hall, 2e-5)
	}
}

// What to add to a 20 °C saccharometer that shows 10 °P (computed, 0.02; about
// +0.32 at 25 °C is also printed in AOAC 900.03, from memory).
func TestSpindle(t *testing.T) {
	for _, row := range []struct{ at, add float64 }{{10, -0.41}, {15, -0.23}, {25, 0.32}, {30, 0.67}, {40, 1.53}} {
		near(t, "correction", float64(SpindlePlato(10, quantity.Celsius(row.at), reference))-10, row.add, 0.02)
	}
	slope := float64(SpindlePlato(10, quantity.Celsius(25.5), reference) - SpindlePlato(10, quantity.Celsius(24.5), reference))
	near(t, "°P per K near 25 °C (rule of thumb 0.06 to 0.09)", slope, 0.075, 0.015)
}

// Lyons' cubic is made for 59 °F: next to no correction there, and near the physical
// model elsewhere (own comparison).
func TestLyons(t *testing.T) {
	fifteen := quantity.Fahrenheit(59)
	near(t, "59 °F", float64(HydrometerSGLyons(1.050, fifteen)), 1.050, 1.2e-4)
	for c := 5.0; c <= 40; c += 5 {
		want, _ := HydrometerSG(1.050, quantity.Celsius(c), fifteen)
		near(t, "Lyons", float64(HydrometerSGLyons(1.050, quantity.Celsius(c))), float64(want), 8e-4)
	}
}

// A hydrometer floated in a wort of known extract, read, and corrected, gives
// that extract; a hotter sample is corrected upwards.
func TestHydrometerThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := quantity.Plato(rapid.Float64Range(-2, 40).Draw(t, "plato"))
		at := quantity.Celsius(rapid.Float64Range(5, 60).Draw(t, "celsius"))
		gamma := rapid.SampledFrom([]float64{GlassExpansion, PolycarbonateExpansion}).Draw(t, "expansion")
		read := SucroseDensity(p, at) * (1 + gamma*float64(at.Sub(reference))) / WaterDensity(reference)
		if _, back := HydrometerOf(gamma, quantity.SG(read), at, reference); math.Abs(float64(back-p)) > 1e-9 {
			t.Errorf("%v came back as %v", p, back)
		}
		_, cooler := HydrometerSG(1.050, at, reference)
		if _, hotter := HydrometerSG(1.050, at.Add(1), reference); hotter <= cooler {
			t.Errorf("a degree above %v corrects downwards", at)
		}
	})
}
