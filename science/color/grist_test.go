// SPDX-License-Identifier: MIT

package color

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// near reports a value that is further than tolerance from what was wanted.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s = %.6f, want %g within %g", what, got, want, tolerance)
	}
}

// Definition of the scales: a ratio of intensities of 1/100 is A = 2, which is
// SRM 25.4 (verified, encyclopaedia article on the SRM).
func TestScales(t *testing.T) {
	near(t, "SRM", SRMFromAbsorbance(-math.Log10(0.01), 1), 25.4, 1e-9)
	near(t, "EBC per SRM", float64(EBCFromAbsorbance(1, 1))/SRMFromAbsorbance(1, 1), 1.9685, 5e-5)
	near(t, "dilution", SRMFromAbsorbance(0.5, 4), 25.4, 1e-9)
	if Turbid(1, PigmentShape(700)) || !Turbid(1, 0.040) {
		t.Error("Turbid: the limit of Beer-10A is A700 = 0.039·A430")
	}
}

// Both relations from °L to EBC, computed (regression values); they agree
// within 1 % above 10 °L.
func TestLovibond(t *testing.T) {
	for _, row := range []struct{ lovibond, ebc, older, tolerance float64 }{
		{2, 3.84, 4.10, 0.005}, {10, 25.2, 25.3, 0.05}, {60, 158.6, 157.8, 0.05}, {350, 932.5, 926.3, 0.05},
	} {
		near(t, "EBC", float64(EBCFromLovibond(row.lovibond)), row.ebc, row.tolerance)
		near(t, "older EBC", float64(EBCFromLovibondOlder(row.lovibond)), row.older, row.tolerance+1e-9)
		near(t, "°L", LovibondFromEBC(EBCFromLovibond(row.lovibond)), row.lovibond, 1e-10)
		near(t, "older °L", LovibondFromEBCOlder(EBCFromLovibondOlder(row.lovibond)), row.lovibond, 1e-10)
		if row.lovibond >= 10 {
			near(t, "older over newer", row.older/row.ebc, 1, 0.01)
		}
	}
}

// Computed from the three formulas (regression values), tolerance 0.01 or half
// the last digit.
func TestGristFormulas(t *testing.T) {
	const none = 0
	for _, row := range []struct{ mcu, morey, mosher, daniels float64 }{
		{1, 1.49, none, none}, {2, 2.40, none, none}, {5, 4.50, none, none}, {8, 6.21, 7.1, none},
		{10, 7.24, 7.7, none}, {15, 9.56, 9.2, 11.4}, {20, 11.65, 10.7, 12.4}, {30, 15.38, 13.7, 14.4},
		{37, 17.76, 15.8, 15.8}, {50, 21.83, 19.7, 18.4}, {80, 30.14, 28.7, 24.4}, {100, 35.13, 34.7, 28.4},
		{150, 46.39, 49.7, 38.4},
	} {
		near(t, "Morey", MoreySRM(row.mcu), row.morey, 0.01)
		if row.mosher != none {
			near(t, "Mosher", MosherSRM(row.mcu), row.mosher, 0.01)
		}
		if row.daniels != none {
			near(t, "Daniels", DanielsSRM(row.mcu), row.daniels, 0.01)
		}
	}
}

// 5.0 kg of 2 °L, 0.5 kg of 60 and 0.25 kg of 450 in 20 L (computed).
func TestWorkedGrist(t *testing.T) {
	mcu := MCU(5.0*2+0.5*60+0.25*450, 20)
	near(t, "MCU", mcu, 63.63, 0.01)
	near(t, "SRM", MoreySRM(mcu), 25.76, 0.01)
	near(t, "EBC", float64(EBCFromMCU(mcu)), 50.8, 0.05)
	near(t, "MCU again", MCUForEBC(EBCFromMCU(mcu)), mcu, 1e-10)
}

// An oat brown ale of 22 L, its chocolate malt late in the mash and so at 95 %
// of its colour (computed).
func TestOatBrownGrist(t *testing.T) {
	sum := 0.0
	for _, malt := range []struct{ kilograms, ebc, extracted float64 }{
		{3.23, 6.0, 1}, {0.59, 3, 1}, {0.50, 16, 1}, {0.30, 150, 1}, {0.15, 140, 1}, {0.18, 900, 0.95},
	} {
		sum += malt.kilograms * LovibondFromEBC(quantity.EBC(malt.ebc)) * malt.extracted
	}
	mcu := MCU(sum, 22)
	near(t, "MCU", mcu, 36.45, 0.005)
	near(t, "SRM", MoreySRM(mcu), 17.58, 0.005)
	near(t, "EBC", float64(EBCFromMCU(mcu)), 34.6, 0.05)
}

// Colours of liquids add, colours of grists don't: 31.8 and 31.8 MCU make 25.8
// SRM in one beer, not twice 16.0 (computed).
func TestNotAdditive(t *testing.T) {
	near(t, "one grist", MoreySRM(31.8), 16.0, 0.05)
	near(t, "both grists", MoreySRM(63.6), 25.8, 0.05)
	near(t, "liquids", float64(Blend(Liquid{10, 10}, Liquid{10, 30}).Color), 20, 1e-12)
	near(t, "water", float64(Blend(Liquid{10, 30}, Liquid{5, 0}).Color), 20, 1e-12)
	near(t, "boil", float64(BoilGain(1.5, quantity.Hours(2))), 3, 1e-12)
}

func TestMoreyThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mcu := rapid.Float64Range(0, 165).Draw(t, "mcu")
		if back := MCUForSRM(MoreySRM(mcu)); math.Abs(back-mcu) > 1e-10 {
			t.Errorf("%v MCU came back as %v", mcu, back)
		}
		c := quantity.EBC(rapid.Float64Range(2, 1500).Draw(t, "ebc"))
		if back := EBCFromLovibond(LovibondFromEBC(c)); math.Abs(float64(back-c)) > 1e-10 {
			t.Errorf("%v EBC came back as %v", c, back)
		}
	})
}
