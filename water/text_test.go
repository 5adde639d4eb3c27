// SPDX-License-Identifier: MIT

package water_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"gyle/internal/document/documenttest"
	"gyle/water"
)

var units = []string{"mg/L as CaCO3", "mEq/L", "mmol/L", "°dH"}

func TestAlkalinityReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.Custom(func(t *rapid.T) water.Alkalinity {
		return water.Alkalinity{Value: rapid.Float64Range(0, 9999).Draw(t, "value"), Unit: rapid.SampledFrom(units).Draw(t, "unit")}
	}))
}

func TestAlkalinityAsWritten(t *testing.T) {
	documenttest.Settles[water.Alkalinity](t, rapid.Custom(func(t *rapid.T) string {
		number := fmt.Sprintf("%d%s%d", rapid.IntRange(0, 999).Draw(t, "whole"), rapid.SampledFrom([]string{".", ","}).Draw(t, "sign"), rapid.IntRange(0, 99).Draw(t, "rest"))
		return number + " " + rapid.SampledFrom(append([]string{"ppm as CaCO3", "mg/l as CaCO3", "mEq/l", "meq/L", "mval/L", "mmol/l", "dH"}, units...)).Draw(t, "unit")
	}))
}

func TestMeaningReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.SampledFrom([]water.Meaning{{Ion: "HCO3", As: "CaCO3"}, {Ion: "SO4", As: "S"}, {Ion: "NO3", As: "N"}, {Ion: "Ca", As: "CaCO3"}, {Ion: "Mg", As: "CaCO3"}}))
}

// The same alkalinity in four units. 2.758 mEq/L are 138 mg/L as CaCO3 (half
// the molar mass of CaCO3, 100.087 g/mol: IUPAC 2021 atomic weights) and, at
// 10 mg of CaO (56.077 g/mol) a degree, 7.73 °dH.
func TestAlkalinityUnits(t *testing.T) {
	for text, want := range map[string]float64{
		"138 mg/L as CaCO3": 2.758,
		"2,758 mEq/L":       2.758,
		"2.758 mmol/L":      2.758,
		"7.73 °dH":          2.757,
	} {
		var a water.Alkalinity
		if err := a.UnmarshalText([]byte(text)); err != nil {
			t.Error(err)
			continue
		}
		if got := float64(a.Charge()); math.Abs(got-want) > 0.0005 {
			t.Errorf("%s is %.4f mEq/L, not %.3f", text, got, want)
		}
	}
}
