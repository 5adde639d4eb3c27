// SPDX-License-Identifier: MIT

package hops

import (
	"testing"

	"gyle/quantity"
)

// Computed from the line of Nickerson & Likens 1979 (abstract); tolerance 0.05 %.
func TestHSI(t *testing.T) {
	for _, test := range []struct {
		hsi   float64
		slope HSISlope
		want  float64
	}{
		{0.31, StandardHSISlope, 10.28}, {0.28, StandardHSISlope, 5.41}, {0.35, StandardHSISlope, 16.07},
		{0.50, StandardHSISlope, 33.11}, {0.40, HSISlope1969, 20.78}, {0.40, HSISlope1977, 23.39},
		{0.25, StandardHSISlope, 0},
	} {
		near(t, "loss", LossFromHSI(test.hsi, test.slope).Percent(), test.want, 0.05)
	}
	near(t, "published rule: HSI 0.310 is 10 %", LossFromHSI(0.310, StandardHSISlope).Percent(), 10, 0.5)
	near(t, "HSI of a loss of 30 %", HSIFromLoss(0.30), 0.4685, 0.00005)
	near(t, "HSI", HSI(0.31, 1), 0.31, 0)
}

// Computed from Garetz 1994; half a unit of the last printed digit.
func TestStorageFactors(t *testing.T) {
	for _, test := range []struct{ percent, want float64 }{
		{10, 0.000585}, {15, 0.000903}, {20, 0.001240}, {25, 0.001598}, {30, 0.001982},
		{35, 0.002393}, {40, 0.002838}, {50, 0.003851}, {60, 0.005091},
	} {
		near(t, "k", StorageRate(quantity.Percent(test.percent)), test.want, 0.0000005)
	}
	for _, test := range []struct{ celsius, want float64 }{
		{-20, 0.1575}, {-18, 0.1727}, {-10, 0.25}, {0, 0.3969}, {2, 0.4353}, {4, 0.4774},
		{5, 0.5}, {10, 0.6300}, {15, 0.7937}, {20, 1}, {25, 1.2599}, {30, 1.5874},
	} {
		near(t, "TF", StorageTemperatureFactor(celsius(test.celsius)), test.want, 0.00005)
	}
}

// Computed from the same; alpha to 0.002 %.
func TestAlphaNow(t *testing.T) {
	days := quantity.Days
	for _, test := range []struct {
		label, loss float64
		history     []Stored
		want        float64
	}{
		{10, 50, []Stored{{celsius(20), days(180), LooseOrPlasticBag}}, 5.000},
		{10, 50, []Stored{{celsius(4), days(180), LooseOrPlasticBag}}, 7.183},
		{10, 50, []Stored{{celsius(-18), days(365), BarrierInert}}, 8.857},
		{5.5, 50, []Stored{{celsius(4), days(270), BarrierWithAir}}, 3.790},
		{13, 32, []Stored{{celsius(20), days(90), LooseOrPlasticBag}}, 10.720},
		{4, 48, []Stored{{celsius(20), days(365), LooseOrPlasticBag}}, 1.062},
		{8, 37, []Stored{{celsius(4), days(365), BarrierInert}}, 6.397},
		{6, 40, []Stored{
			{celsius(25), days(30), BarrierInert}, {celsius(4), days(200), BarrierInert}, {celsius(-18), days(60), LooseOrPlasticBag},
		}, 4.822},
		{6, 40, nil, 6},
	} {
		got := AlphaNow(quantity.Percent(test.label), quantity.Percent(test.loss), test.history...)
		near(t, "alpha", got.Percent(), test.want, 0.002)
	}
}

// A house case: label 7.3 %, 27.5 % in six months, 200 days at −18 °C in
// vacuum foil: 7.1 %.
func TestAlphaNowFreezer(t *testing.T) {
	got := AlphaNow(0.073, 0.275, Stored{celsius(-18), quantity.Days(200), BarrierInert})
	near(t, "alpha", got.Percent(), 7.1, 0.1)
}

func TestKeepingClassesAdjoin(t *testing.T) {
	for i, c := range KeepingClasses[1:] {
		if c.Loss.Low != KeepingClasses[i].Loss.High {
			t.Errorf("class %s begins at %g, the one before ends at %g", c.Name, c.Loss.Low, KeepingClasses[i].Loss.High)
		}
	}
}
