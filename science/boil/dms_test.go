// SPDX-License-Identifier: MIT

package boil

import (
	"strings"
	"testing"

	"gyle/quantity"
)

// Computed from the formula; bases: Wilson & Booer 1979 (abstract), 35 min in
// boiling wort; Dickenson 1979 (second-hand), 38 min at pH 5.2 and 32.5 at 5.5.
func TestSplitRate(t *testing.T) {
	rate := func(c float64, ph quantity.PH) float64 {
		m := DefaultSulphideModel
		m.PH = ph
		return float64(m.SplitRate(celsius(c)))
	}
	near(t, "kS(100, 5.4)", rate(100, 5.4), 0.01980, 0.000005)
	near(t, "kS(90, 5.4)", rate(90, 5.4), 0.00624, 0.000005)
	near(t, "kS(100, 5.2)", rate(100, 5.2), 0.01784, 0.000005)
	near(t, "half-life at 82 °C", 0.693147/rate(82, 5.4), 280, 0.5)
	near(t, "half-life at pH 5.2", 0.693147/rate(100, 5.2), 38.8, 0.05)
	near(t, "against Dickenson, pH 5.2 to 5.5", rate(100, 5.5)/rate(100, 5.2), 38/32.5, 0.005)
	near(t, "below 70 °C", rate(69, 5.4), 0, 0)
	near(t, "stripping, Wilson & Booer", float64(SulphideModel{Mixing: WellMixed}.StripRate(0.17/60)), 0.18, 0.002)
}

// 25 L before the boil, 12 °P, pH 5.4, 500 and 50 µg/L, Keff 64; then 20 min
// covered at 95 °C (or what it boiled at, if lower), chilled with tau 7 min to
// 15 °C. Computed apart from this program; tolerance 0.2, of the cold wort 1.
func TestPoorBoil(t *testing.T) {
	m := SulphideModel{HalfLife: 35, Mixing: WellMixed, PH: 5.4}
	for _, test := range []struct {
		minutes, celsius, perHour float64
		precursor, free, coldFree float64
		light                     Light
	}{
		{60, 100, 0.10, 152.4, 34.6, 66, Amber},
		{90, 100, 0.10, 84.1, 19.2, 37, Green},
		{30, 100, 0.10, 276.0, 60.3, 118, Red},
		{60, 97.5, 0.03, 205.3, 121.4, 164, Red},
		{60, 100, 0.03, 152.4, 135.7, 167, Red},
		{60, 93.5, 0.10, 285.4, 27.4, 78, Amber},
	} {
		start := Sulphide{PilsnerPrecursorDefault, FreeAtStart}
		s := m.Hold(start, celsius(test.celsius), quantity.Rate(test.perHour/60), quantity.Duration(test.minutes))
		near(t, "precursor", float64(s.Precursor), test.precursor, 0.2)
		near(t, "free", float64(s.Free), test.free, 0.2)
		stand := min(95, test.celsius)
		s = m.Stand(s, func(quantity.Duration) quantity.Temperature { return celsius(stand) }, 20)
		s = m.Stand(s, func(d quantity.Duration) quantity.Temperature {
			return CoolingTemperature(celsius(stand), celsius(15), 7, d)
		}, 40)
		near(t, "free in cold wort", float64(s.Free), test.coldFree, 1)
		if got := Judge(s.Free); got != test.light {
			t.Errorf("light for %.0f µg/L is %v, want %v", float64(s.Free), got, test.light)
		}
	}
}

// Under a lid nothing is lost: precursor and free together stay the same.
func TestLidKeepsSulphide(t *testing.T) {
	m := DefaultSulphideModel
	s := Sulphide{500, 50}
	held := m.Hold(s, celsius(97), 0, 30)
	stood := m.Stand(s, func(quantity.Duration) quantity.Temperature { return celsius(97) }, 30)
	near(t, "sum", float64(held.Precursor+held.Free), 550, 1e-9)
	near(t, "Stand against Hold", float64(stood.Free), float64(held.Free), 1e-9)
}

func TestAssumptionNamesItsNumbers(t *testing.T) {
	got := DefaultSulphideModel.Assumption(Sulphide{500, 50})
	for _, want := range []string{"500 µg/L", "50 µg/L", "35 min", "pH 5.4", "45"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q doesn't name %s", got, want)
		}
	}
}
