// SPDX-License-Identifier: MIT

package water

import (
	"testing"

	"gyle/quantity"
)

// Source: computed (regression values).
func TestDilutionFor(t *testing.T) {
	near(t, "distilled", float64(DilutionFor(4.589, 1, 0)), 0.7821, 0.0005)
	f := DilutionFor(4.589, 1, 0.1)
	near(t, "reverse osmosis", 4.589*(1-float64(f))+0.1*float64(f), 1, 1e-9)
}

func TestReverseOsmosis(t *testing.T) {
	got := ReverseOsmosis(reportA)
	near(t, "Ca", got[Calcium], 1.8, 1e-9)
	near(t, "A", float64(Alkalinity(got)), 0.1, 1e-9)
	near(t, "distilled stays", float64(Alkalinity(ReverseOsmosis(Ions{}))), 0, 0)
}

// Source: computed from the floors (regression values).
func TestBoiled(t *testing.T) {
	got := Boiled(reportA)
	near(t, "removed", float64(Alkalinity(reportA)-Alkalinity(got)), 3.289, 0.0005)
	near(t, "A", float64(Alkalinity(got)), 1.30, 1e-9)
	near(t, "HCO3", got[Bicarbonate], 79.3, 0.3)
	near(t, "Ca", got[Calcium], 24.1, 0.3)
	near(t, "balance stays", float64(got.Cations()-got.Anions()), float64(reportA.Cations()-reportA.Anions()), 1e-9)
	if Boiled(reportB) != reportB {
		t.Error("boiling changed a soft water")
	}
}

// Source: computed (regression values), 0.5 %.
func TestLime(t *testing.T) {
	s := supply(4.589, 7.4, 10, 4.3)
	near(t, "total carbon", s.TotalCarbon(), 5.098, 0.005*5.098)
	near(t, "CO2", s.FreeCarbonDioxide(), 0.528, 0.005*0.528)
	near(t, "dose", float64(LimeDose(s, 1)), 172.1, 0.005*172.1)
	got := LimeSoftened(reportA, 1)
	near(t, "softened A", float64(Alkalinity(got)), 1, 1e-9)
	near(t, "softened Ca", got[Calcium], 90-3.589*20.039, 0.01)
}

// Source: stoichiometry, molar masses from IUPAC weights (from memory).
func TestDechlorinate(t *testing.T) {
	for _, test := range []struct {
		salt      Metabisulfite
		perMgCl2  float64
		counter   Ion
		molarMass float64
	}{
		{SodiumMetabisulfite, 1.341, Sodium, 190.095},
		{PotassiumMetabisulfite, 1.568, Potassium, 222.311},
	} {
		near(t, "molar mass", test.salt.MolarMass(), test.molarMass, 0.001)
		mass, adds := Dechlorinate(1, 1, test.salt)
		near(t, "mg per mg", mass.Grams()*1000/1.5, test.perMgCl2, 0.0005)
		near(t, "SO4", adds[Sulfate], 1.355, 0.0005)
		near(t, "Cl", adds[Chloride], 1, 1e-9)
		near(t, "counter-ion", adds[test.counter], 1.5*2*test.counter.MolarMass()/141.8, 1e-6)
	}
	mass, _ := Dechlorinate(30, 0.5, SodiumMetabisulfite)
	near(t, "30 L at 0.5 mg/L", mass.Grams()*1000, 1.5*1.341*15, 0.02)
}

// Source: the values of EU, US and WHO named in Limits; customary ranges.
func TestLimits(t *testing.T) {
	for _, test := range []struct {
		symbol   string
		value    float64
		severity string // empty: nothing to say
	}{
		{"Ca", 100, ""}, {"Ca", 30, Soft}, {"Ca", 180, Soft},
		{"Mg", 20, ""}, {"Mg", 35, Soft},
		{"Na", 120, ""}, {"Na", 180, Soft}, {"Na", 201, Hard},
		{"K", 5, ""}, {"K", 12, Soft},
		{"Cl", 250, ""}, {"Cl", 251, Hard},
		{"SO4", 250, ""}, {"SO4", 260, Hard},
		{"HCO3", 200, ""}, {"HCO3", 300, Soft},
		{"NO3", 20, ""}, {"NO3", 30, Soft}, {"NO3", 51, Hard},
		{"NO2", 0, ""}, {"NO2", 0.1, Soft}, {"NO2", 0.6, Hard},
		{"Fe", 0.05, ""}, {"Fe", 0.15, Soft}, {"Fe", 0.3, Hard},
		{"Mn", 0.04, ""}, {"Mn", 0.06, Hard},
		{"pH", 7.6, ""}, {"pH", 6.2, Hard}, {"pH", 9.8, Hard},
		{"EC", 600, ""}, {"EC", 2600, Hard},
	} {
		limit, ok := LimitFor(test.symbol)
		if !ok {
			t.Fatalf("no limit for %s", test.symbol)
		}
		caution, outside := limit.Judge(test.value)
		if outside != (test.severity != "") || outside && caution.Severity != test.severity {
			t.Errorf("%s %g: %q %q, want %q", test.symbol, test.value, caution.Severity, caution.Text, test.severity)
		}
		if outside && caution.Text == "" {
			t.Errorf("%s %g has no reason", test.symbol, test.value)
		}
	}
}

func TestCheck(t *testing.T) {
	cautions := Check(Ions{Calcium: 100, Sodium: 250, Nitrate: 30})
	if len(cautions) != 2 || cautions[0].Symbol != "Na" || cautions[0].Severity != Hard || cautions[1].Symbol != "NO3" || cautions[1].Severity != Soft {
		t.Errorf("cautions: %+v", cautions)
	}
	if got := Check(saltpan); len(got) != 0 {
		t.Errorf("Saltpan Lane: %+v", got)
	}
}

// Source: World Health Organization 1996, read.
func TestSolidsBand(t *testing.T) {
	for solids, want := range map[float64]string{200: "excellent", 450: "good", 700: "fair", 1000: "poor", 1500: "unacceptable"} {
		if got := SolidsBand(quantity.Concentration(solids)); got != want {
			t.Errorf("%g mg/L: %s, want %s", solids, got, want)
		}
	}
}
