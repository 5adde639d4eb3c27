// SPDX-License-Identifier: MIT

package boil

import (
	"math"
	"testing"

	"gyle/quantity"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.7g, want %.7g ± %g", what, got, want, tolerance)
	}
}

func celsius(c float64) quantity.Temperature { return quantity.Celsius(c) }

func pascals(p quantity.Pressure) float64 { return float64(p) * pascalsPerBar }

// IAPWS SR1-86(1992), check values for the saturated states, from memory;
// those of the last line are for the critical point.
func TestSaturatedStates(t *testing.T) {
	for _, test := range []struct{ kelvin, pascals, tolerance, liquid, steam float64 }{
		{273.16, 611.657, 0.001, 999.789, 0.00485426},
		{373.1243, 101325, 1, 958.365, 0.597586},
		{647.096, 22.064e6, 1, 322.000, 322.000},
	} {
		at := quantity.Kelvin(test.kelvin)
		near(t, "psat", pascals(SaturationPressure(at)), test.pascals, test.tolerance)
		near(t, "liquid", SaturatedWaterDensity(at), test.liquid, 0.0005)
		near(t, "steam", SaturatedSteamDensity(at), test.steam, 1e-6*test.steam)
	}
}

// IAPWS-IF97, table of the backward equation of region 4, from memory.
func TestSaturationTemperature(t *testing.T) {
	for _, test := range []struct{ megapascals, kelvin float64 }{{0.1, 372.755919}, {10, 584.149488}} {
		got := SaturationTemperature(quantity.Pressure(test.megapascals * 10)).Kelvin()
		near(t, "Ts", got, test.kelvin, 1e-6)
	}
	near(t, "Ts at 1 atm", SaturationTemperature(Atmosphere).Celsius(), 99.974, 0.0005)
	for c := 60.0; c <= 120; c += 10 {
		near(t, "there and back", SaturationTemperature(SaturationPressure(celsius(c))).Celsius(), c, 0.01)
	}
}

// Computed from ISO 2533 and IAPWS-IF97; half a unit of the last printed digit.
func TestAltitude(t *testing.T) {
	for _, test := range []struct{ metres, pascals, celsius float64 }{
		{0, 101325, 99.974}, {500, 95461, 98.312}, {1000, 89875, 96.649}, {1500, 84556, 94.983},
		{2000, 79495, 93.315}, {2500, 74683, 91.645}, {3000, 70109, 89.972},
	} {
		h := quantity.Length(test.metres)
		near(t, "p", pascals(StationPressure(h)), test.pascals, 1)
		near(t, "T", BoilingTemperature(h, 0).Celsius(), test.celsius, 0.001)
	}
	high := StationPressure(3000)
	off := SaturationTemperatureAntoine(high).Sub(SaturationTemperature(high))
	near(t, "Antoine at 3000 m, too high by", float64(off), 0.06, 0.01)
	near(t, "Antoine at sea level", SaturationTemperatureAntoine(Atmosphere).Celsius(), 100, 0.05)
}

// Computed with the water activity of Starzak & Peacock (constants
// second-hand), and the simple law; in kelvin above water at 1 atm.
func TestElevation(t *testing.T) {
	for _, test := range []struct{ plato, want, simple float64 }{
		{5, 0.079, 0.0789}, {10, 0.169, 0.167}, {12, 0.209, 0.204}, {15, 0.273, 0.264},
		{20, 0.393, 0.375}, {25, 0.535, 0.500}, {30, 0.702, 0.642},
	} {
		p := quantity.Plato(test.plato)
		got := BoilingTemperatureAt(Atmosphere, p).Sub(SaturationTemperature(Atmosphere))
		near(t, "dT", float64(got), test.want, 0.001)
		near(t, "simple dT", float64(ElevationSimple(p)), test.simple, 0.0006)
	}
	near(t, "molality at 12 °P", Molality(12), 0.3984, 0.0001)
	for _, p := range []quantity.Plato{0, 12, 30} {
		at := BoilingTemperatureAt(Atmosphere, p)
		solved := pascals(SaturationPressure(at)) * WaterActivity(p, at)
		near(t, "psat·a", solved, 101325, 20) // IF97 and SR1-86 differ by that much
	}
}

// Computed from IAPWS SR1-86; half a unit of the last printed digit. The 20 °C
// value of air-saturated water at 1 atm is 998.20.
func TestDensityAndContraction(t *testing.T) {
	for _, test := range []struct{ celsius, want float64 }{
		{4, 999.92}, {10, 999.65}, {15, 999.05}, {20, 998.16}, {25, 997.00}, {60, 983.15}, {65, 980.51},
		{70, 977.73}, {80, 971.76}, {90, 965.29}, {95, 961.88}, {100, 958.35},
	} {
		near(t, "density", SaturatedWaterDensity(celsius(test.celsius)), test.want, 0.0051)
	}
	for _, test := range []struct{ celsius, want float64 }{
		{60, 0.98497}, {65, 0.98232}, {78, 0.97479}, {90, 0.96707}, {95, 0.96365}, {98, 0.96154}, {100, 0.96012},
	} {
		near(t, "contraction", Contraction(celsius(test.celsius)), test.want, 0.0000051)
	}
	near(t, "24 L at 100 °C", 24*Contraction(celsius(100)), 23.04, 0.01)
}

// Computed from IAPWS SR1-86 by Clausius and Clapeyron.
func TestLatentHeat(t *testing.T) {
	for _, test := range []struct{ celsius, want float64 }{
		{80, 2308.1}, {85, 2295.4}, {90, 2282.7}, {95, 2269.7}, {100, 2256.6}, {105, 2243.3},
	} {
		near(t, "latent heat", LatentHeat(celsius(test.celsius)), test.want, 0.2)
	}
	for c := 60.0; c <= 105; c += 5 {
		near(t, "linear", LatentHeatLinear(celsius(c)), LatentHeat(celsius(c)), 1.5)
	}
}
