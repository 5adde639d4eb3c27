// SPDX-License-Identifier: MIT

package water

import (
	"math"
	"testing"
)

// near complains when got is further than tolerance from want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s = %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

// Three invented reports that the tests share.
var (
	reportA = Ions{Calcium: 90, Magnesium: 18, Sodium: 15, Potassium: 3, Bicarbonate: 280, Chloride: 30, Sulfate: 55, Nitrate: 12}
	reportB = Ions{Calcium: 7, Magnesium: 2, Sodium: 2, Bicarbonate: 15, Chloride: 5, Sulfate: 5}
	reportC = Ions{Calcium: 120, Magnesium: 10, Sodium: 40, Bicarbonate: 200, Chloride: 60, Sulfate: 50}
	// The yearly mean sheet of the fictional Saltpan Lane, as printed and as meant.
	saltpanPrinted = Ions{Calcium: 64, Magnesium: 9, Sodium: 21, Potassium: 3, Bicarbonate: 138, Chloride: 34, Sulfate: 14, Nitrate: 3.1}
	saltpan        = Ions{Calcium: 64, Magnesium: 9, Sodium: 21, Potassium: 3, Bicarbonate: 168.26, Chloride: 34, Sulfate: 41.95, Nitrate: 13.72}
)

// Source: IUPAC conventional atomic weights, from memory; computed.
func TestIonTable(t *testing.T) {
	for _, test := range []struct {
		ion                   Ion
		symbol                string
		molarMass, equivalent float64
		valence               int
	}{
		{Calcium, "Ca", 40.078, 20.039, 2},
		{Magnesium, "Mg", 24.305, 12.1525, 2},
		{Sodium, "Na", 22.990, 22.990, 1},
		{Potassium, "K", 39.098, 39.098, 1},
		{Bicarbonate, "HCO3", 61.016, 61.016, -1},
		{Carbonate, "CO3", 60.008, 30.004, -2},
		{Chloride, "Cl", 35.45, 35.45, -1},
		{Sulfate, "SO4", 96.056, 48.028, -2},
		{Nitrate, "NO3", 62.004, 62.004, -1},
	} {
		if test.ion.Symbol() != test.symbol || test.ion.Valence() != test.valence {
			t.Errorf("%v is %s %+d, want %s %+d", test.ion, test.ion.Symbol(), test.ion.Valence(), test.symbol, test.valence)
		}
		near(t, test.symbol+" molar mass", test.ion.MolarMass(), test.molarMass, 0.0005)
		near(t, test.symbol+" equivalent", test.ion.EquivalentMass(), test.equivalent, 0.0005)
		if got, ok := ParseIon(test.symbol); !ok || got != test.ion {
			t.Errorf("ParseIon(%q) = %v, %v", test.symbol, got, ok)
		}
		if got, ok := ParseIon(" " + test.ion.String()); !ok || got != test.ion {
			t.Errorf("ParseIon(%q) = %v, %v", test.ion.String(), got, ok)
		}
	}
	if _, ok := ParseIon("Fe"); ok {
		t.Error("ParseIon(Fe) found an ion")
	}
}

// Source: computed from the definition (regression values).
func TestMixWithDistilled(t *testing.T) {
	got := reportA.Mix(0.4, Ions{})
	for ion, want := range (Ions{Calcium: 54.0, Magnesium: 10.8, Sodium: 9.0, Potassium: 1.8, Bicarbonate: 168.0, Chloride: 18.0, Sulfate: 33.0, Nitrate: 7.2}) {
		near(t, Ion(ion).String(), got[ion], want, 0.1)
	}
}
