// SPDX-License-Identifier: MIT

package hops

import (
	"testing"

	"gyle/quantity"
)

// Published trial (hop-merchant note, Brauwelt, 7 July 2017): 6 lb/bbl of
// 0.23 % gave 48 mg/L humulinones and 35 mg/L alpha acids. Others computed.
func TestHumulinones(t *testing.T) {
	for _, test := range []struct{ dose, percent, want, tolerance float64 }{
		{23.19, 0.23, 48.0, 0.5}, {4, 0.30, 10.8, 0.05}, {3.865, 0.26, 9.04, 0.005},
	} {
		got := Humulinones(quantity.Dose(test.dose), quantity.Percent(test.percent))
		near(t, "humulinones", float64(got), test.want, test.tolerance)
	}
	near(t, "alpha acids", DryHopAlpha(23.19).Mid, 35, 0.5)
	near(t, "share of the alpha acids dosed (published 2.6 %)", DryHopAlpha(23.19).Mid/(23.19*57), 0.026, 0.001)
	near(t, "6 lb/bbl", float64(PoundsPerBarrel(6)), 23.19, 0.005)
	near(t, "1 lb/bbl", float64(PoundsPerBarrel(1)), 3.865, 0.0005)
}

// Regression values of an estimate; the pair 48 to 30 mg/L at 2 lb/bbl is from memory.
func TestIsoAfterDryHop(t *testing.T) {
	for _, test := range []struct{ iso, dose, want float64 }{{48, 7.73, 30.0}, {60, 10, 32.5}, {20, 3, 20.0}, {20, 30, 20.0}} {
		got := IsoAfterDryHop(quantity.Concentration(test.iso), quantity.Dose(test.dose))
		near(t, "iso left", got.Mid, test.want, 0.1)
		near(t, "half the loss", got.High-got.Mid, (test.iso-got.Mid)/2, 1e-9)
	}
}

// Second-hand: beers above about 25 IBU lose iso-alpha acids, yet the measured
// figure often rises. Value computed from the formula above (regression value):
// 5/7·(−0.75·20·(1−e^(−1)) + 0.75·10.8 + 39·(1−e^(−0.4))).
func TestDryHopBitterness(t *testing.T) {
	got := DryHopBitterness(40, 4, 0.0030)
	near(t, "dBU", got.Mid, 8.197, 0.001)
	if !(got.Low < got.Mid && got.Mid < got.High) {
		t.Errorf("band out of order: %+v", got)
	}
	near(t, "none", DryHopBitterness(40, 0, 0.003).Mid, 0, 0)
}

// Maye 2018, second-hand: 0.14 per lb/bbl. Intensity: computed from the estimate.
func TestDryHopOther(t *testing.T) {
	near(t, "pH rise", DryHopPHRise(8), 0.29, 0.005)
	near(t, "pH rise of 1 lb/bbl", DryHopPHRise(PoundsPerBarrel(1)), 0.14, 0.005)
	for _, test := range []struct{ dose, want float64 }{{2, 0.44}, {4, 0.68}, {8, 0.90}, {16, 0.99}} {
		near(t, "intensity", AromaIntensity(quantity.Dose(test.dose)), test.want, 0.005)
	}
}

// ASBC Beer-23 for the factor 50; the factor 5/7 second-hand; Kishimoto 2021
// (abstract): 47.5 BU with 39.9 mg/L iso-alpha acids.
func TestMeasures(t *testing.T) {
	near(t, "BU", float64(BUFromAbsorbance(0.640)), 32.0, 0.0001)
	near(t, "N", float64(OtherAbsorbing(47.5, 39.9)), 26.6, 0.05)
	near(t, "BU of 40 + 16", float64(BUFromContent(40, 16)), 40.0, 1e-9)
	near(t, "BU of 1 mg/L pure", float64(BUFromContent(1, 0)), 0.71, 0.005)
	near(t, "bitter equivalent", float64(BitterEquivalent(30, 15, 0, 12)), 41.1, 0.05)
	near(t, "hulupones", float64(BitterEquivalent(0, 0, 10, 0)), 8.4, 1e-9)
	near(t, "difference at 30", float64(NoticeableDifference(30)), 5, 0)
	near(t, "difference at 60", float64(NoticeableDifference(60)), 9, 1e-9)
}

// De Keukeleire 2000, half-lives second-hand; values computed. Araki and others
// 2002, second-hand: 45 % of the trans kind lost on day 200 at 20 °C.
func TestIsoLeft(t *testing.T) {
	for _, test := range []struct{ months, want float64 }{{3, 0.926}, {6, 0.861}, {12, 0.752}, {24, 0.595}} {
		d := quantity.Days(test.months * daysPerMonth)
		near(t, "left", IsoLeft(d, celsius(20)), test.want, 0.001)
		if IsoLeftHarsher(d, celsius(20)) >= IsoLeft(d, celsius(20)) {
			t.Errorf("after %g months the pessimistic bound isn't lower", test.months)
		}
	}
	cisOnly := 0.68 * 0.9268 // 2^(−200/30.4375/60)
	lost := 1 - (IsoLeft(quantity.Days(200), celsius(20))-cisOnly)/0.32
	near(t, "trans lost on day 200, 12 months", lost, 0.32, 0.005)
	harsher := 1 - (IsoLeftHarsher(quantity.Days(200), celsius(20))-cisOnly)/0.32
	near(t, "trans lost on day 200, 8 months, against Araki", harsher, 0.45, 0.02)
	warm := IsoLeft(quantity.Days(100), celsius(30))
	near(t, "three times as fast at 30 °C", warm, IsoLeft(quantity.Days(300), celsius(20)), 1e-12)
}
