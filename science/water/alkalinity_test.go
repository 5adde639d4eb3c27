// SPDX-License-Identifier: MIT

package water

import (
	"testing"

	"gyle/quantity"
)

// Source: computed from the formulas (regression values).
func TestAlkalinityAndHardness(t *testing.T) {
	a, h, ra := Alkalinity(reportA), Hardness(reportA), ResidualAlkalinity(reportA)
	near(t, "A mEq/L", float64(a), 4.5890, 0.0005)
	near(t, "A as CaCO3", float64(AsCaCO3(a)), 229.65, 0.02)
	near(t, "A °dH", GermanDegrees(a), 12.867, 0.001)
	near(t, "H mEq/L", float64(h), 5.9724, 0.0005)
	near(t, "H as CaCO3", float64(AsCaCO3(h)), 298.88, 0.02)
	near(t, "H °dH", GermanDegrees(h), 16.746, 0.001)
	near(t, "RA mEq/L", float64(ra), 3.0942, 0.0005)
	near(t, "RA as CaCO3", float64(AsCaCO3(ra)), 154.84, 0.01)
	near(t, "RA °dH", GermanDegrees(ra), 8.676, 0.001)
	near(t, "temporary", float64(TemporaryHardness(reportA)), 4.5890, 0.0005)
	near(t, "permanent", float64(PermanentHardness(reportA)), 1.3834, 0.0005)
	soft := Ions{Calcium: 10, Bicarbonate: 200}
	near(t, "permanent of soft alkaline water", float64(PermanentHardness(soft)), 0, 0)
	near(t, "carbonate counts twice", float64(Alkalinity(Ions{Carbonate: 30.004})), 1, 1e-9)
	near(t, "WithAlkalinity", float64(Alkalinity(WithAlkalinity(reportA, 2.5))), 2.5, 1e-12)
}

// Source: alkalinity 138 mg/L as CaCO3, Ca 64, Mg 9 by hand: 2.758 − 0.912 − 0.106.
func TestSaltpanLaneResidualAlkalinity(t *testing.T) {
	near(t, "A", float64(Alkalinity(saltpan)), 2.758, 0.0005)
	ra := ResidualAlkalinity(saltpan)
	near(t, "RA", float64(ra), 1.74, 0.005)
	near(t, "RA as CaCO3", float64(AsCaCO3(ra)), 87, 0.5)
}

// Source: Kolbach 1953, from memory: 10 °dH raise the wort by 0.3.
func TestKolbachShift(t *testing.T) {
	near(t, "10 °dH", KolbachShift(FromGermanDegrees(10)), 0.3, 1e-12)
	near(t, "1 mEq/L", KolbachShift(1), 0.0841, 0.0005)
}

// Source: common practice (the bands); report A computed.
func TestSulfateToChloride(t *testing.T) {
	ratio, ok := SulfateToChloride(reportA)
	if !ok {
		t.Error("the ratio of report A is undefined")
	}
	near(t, "report A", ratio, 1.833, 0.0005)
	if _, ok := SulfateToChloride(Ions{Sulfate: 100}); ok {
		t.Error("a ratio without chloride")
	}
	for _, test := range []struct {
		sulfate, chloride float64
		want              string
	}{
		{20, 29, "too little of either to tell"},
		{100, 0, "undefined without chloride"},
		{40, 100, "very full, malt leads"},
		{61, 101, "full"},
		{100, 100, "balanced"},
		{55, 30, "dry"},
		{300, 100, "dry and bitter"},
		{500, 100, "may turn harsh"},
	} {
		if got := SulfateBand(Ions{Sulfate: test.sulfate, Chloride: test.chloride}); got != test.want {
			t.Errorf("SO4 %g, Cl %g: %q, want %q", test.sulfate, test.chloride, got, test.want)
		}
	}
}

// Source: definitions of the degrees; grain and gallons exact by definition.
func TestUnitTable(t *testing.T) {
	degree := FromGermanDegrees(1)
	near(t, "°dH in mEq/L", float64(degree), 0.35665, 0.000005)
	near(t, "°dH in mmol/L", Millimoles(degree), 0.17833, 0.000005)
	near(t, "°dH as CaCO3", float64(AsCaCO3(degree)), 17.848, 0.0005)
	near(t, "°dH in mg Ca/L", float64(degree)*Calcium.EquivalentMass(), 7.147, 0.0005)
	near(t, "°dH in °fH", FrenchDegrees(degree), 1.7848, 0.00005)
	near(t, "1 mEq/L as CaCO3", float64(AsCaCO3(1)), 50.043, 0.0005)
	near(t, "°fH as CaCO3", float64(AsCaCO3(FromFrenchDegrees(1))), 10, 1e-12)
	near(t, "°Clark as CaCO3", float64(AsCaCO3(FromClarkDegrees(1))), 14.254, 0.0005)
	near(t, "grain/US gal as CaCO3", float64(AsCaCO3(FromGrainsPerUSGallon(1))), 17.118, 0.0005)
	near(t, "NO3-N", float64(NitrateFromNitrogen(1)), 4.427, 0.0005)
	near(t, "SO4-S", float64(SulfateFromSulfur(1)), 2.996, 0.0005)
	near(t, "Ca hardness", float64(CalciumFromHardness(1)), 0.40044, 0.000005)
	near(t, "Mg hardness", float64(MagnesiumFromHardness(1)), 0.24284, 0.000005)
}

func TestUnitRoundTrips(t *testing.T) {
	for q := quantity.Charge(0.01); q < 20; q *= 1.7 {
		for name, back := range map[string]quantity.Charge{
			"CaCO3":  FromCaCO3(AsCaCO3(q)),
			"°dH":    FromGermanDegrees(GermanDegrees(q)),
			"°fH":    FromFrenchDegrees(FrenchDegrees(q)),
			"°Clark": FromClarkDegrees(ClarkDegrees(q)),
			"gpg":    FromGrainsPerUSGallon(GrainsPerUSGallon(q)),
			"mmol/L": FromMillimoles(Millimoles(q)),
		} {
			near(t, name, float64(back), float64(q), 1e-12*float64(q))
		}
	}
}
