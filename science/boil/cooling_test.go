// SPDX-License-Identifier: MIT

package boil

import (
	"testing"

	"gyle/quantity"
)

// The cases are computed from the formulas; half a unit of the last printed digit.
func TestCoil(t *testing.T) {
	tau := CoilTau(20.96, 3.950, 0.1, 0.400)
	near(t, "tau", tau.Seconds(), 321.4, 0.05)
	d := CoolingTime(celsius(100), celsius(25), celsius(12), tau)
	near(t, "minutes to 25 °C", d.Minutes(), 10.24, 0.005)
	near(t, "there and back", CoolingTemperature(celsius(100), celsius(12), tau, d).Celsius(), 25, 1e-9)
}

func TestPlateCooler(t *testing.T) {
	e := PlateCooler(0.07, 3.950, 0.1, 0.700, celsius(95), celsius(12))
	near(t, "NTU", e.NTU, 2.532, 0.0005)
	near(t, "effectiveness", e.Effectiveness, 0.8005, 0.00005)
	near(t, "wort", e.Wort.Celsius(), 28.56, 0.005)
	near(t, "water", e.Water.Celsius(), 55.88, 0.005)

	water := 0.0837 * 3.950 / waterHeat
	e = PlateCooler(0.0837, 3.950, quantity.MassFlow(water), 1.000, celsius(98), celsius(14))
	near(t, "NTU, equal streams", e.NTU, 3.025, 0.0005)
	near(t, "effectiveness, equal streams", e.Effectiveness, 0.7515, 0.00005)
	near(t, "wort, equal streams", e.Wort.Celsius(), 34.87, 0.005)
	near(t, "no jump towards equal streams", counterflow(3, 1-1e-8), counterflow(3, 1), 1e-7)
}

func TestTauFromReadings(t *testing.T) {
	near(t, "tau", TauFromReadings(celsius(98), celsius(88), celsius(20), 20).Minutes(), 145.8, 0.05)
}

// Computed from the formula above (regression value): 92 L of 1.050.
func TestRecirculation(t *testing.T) {
	near(t, "tau", RecirculationTau(96.5, 0.10, 0.75).Minutes(), 96.5/0.075/60, 1e-9)
}
