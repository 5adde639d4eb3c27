// SPDX-License-Identifier: MIT

package water

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gyle/quantity"
)

func mustAcid(t *testing.T, id string) Acid {
	t.Helper()
	a, ok := AcidByID(id)
	if !ok {
		t.Fatalf("no acid %q", id)
	}
	return a
}

// Source: computed from density, strength and acidity constants (regression
// values). Practitioners reckon with about 11.5 for lactic 88 % and 1.05 for
// phosphoric 10 %.
func TestAcidTable(t *testing.T) {
	for _, test := range []struct {
		id              string
		molar, molarity float64
		charges         [5]float64 // mEq/mL at pH 4.3, 5.2, 5.4, 5.6, 6.0
		anion, decimals float64
	}{
		{"lactic-acid-80", 90.078, 10.542, [5]float64{7.73, 10.08, 10.25, 10.35, 10.47}, 950, 0.005},
		{"lactic-acid-88", 90.078, 11.782, [5]float64{8.64, 11.27, 11.45, 11.57, 11.70}, 1061, 0.005},
		{"phosphoric-acid-10", 97.994, 1.075, [5]float64{1.069, 1.084, 1.091, 1.101, 1.139}, 102, 0.001}, // the table multiplies 1.075 rounded
		{"phosphoric-acid-75", 97.994, 12.085, [5]float64{12.02, 12.19, 12.27, 12.38, 12.80}, 1148, 0.006},
		{"phosphoric-acid-85", 97.994, 14.616, [5]float64{14.53, 14.75, 14.84, 14.97, 15.49}, 1388, 0.006},
		{"hydrochloric-acid-10", 36.458, 2.873, [5]float64{2.873, 2.873, 2.873, 2.873, 2.873}, 101.8, 0.0015},
		{"hydrochloric-acid-37", 36.458, 12.016, [5]float64{12.016, 12.016, 12.016, 12.016, 12.016}, 426, 0.0006},
		{"sulfuric-acid-10", 98.072, 1.087, [5]float64{2.169, 2.173, 2.174, 2.174, 2.174}, 104.4, 0.0006},
		{"sulfuric-acid-96", 98.072, 17.967, [5]float64{35.85, 35.92, 35.93, 35.93, 35.93}, 1726, 0.006},
	} {
		a := mustAcid(t, test.id)
		near(t, test.id+" g/mol", a.MolarMass, test.molar, 0.0005)
		near(t, test.id+" mol/L", a.Molarity(), test.molarity, 0.0015)
		for n, ph := range []quantity.PH{4.3, 5.2, 5.4, 5.6, 6.0} {
			near(t, test.id+" mEq/mL", a.MilliequivalentsPerML(ph), test.charges[n], test.decimals)
		}
		near(t, test.id+" anion", a.AnionPerML(), test.anion, 0.5)
		if !strings.Contains(a.Safety, "Pour acid into water") {
			t.Errorf("%s has no word on the order of pouring", test.id)
		}
	}
}

// Source: computed (regression values).
func TestChargePerMole(t *testing.T) {
	lactic, phosphoric := mustAcid(t, "lactic-acid-88"), mustAcid(t, "phosphoric-acid-10")
	for _, row := range []struct{ ph, lactic, phosphoric float64 }{
		{4.3, .7336, .9943}, {5.0, .9324, 1.0049}, {5.4, .9720, 1.0151}, {6.0, .9928, 1.0595},
	} {
		near(t, "lactic z", lactic.ChargePerMole(quantity.PH(row.ph)), row.lactic, 0.0005)
		near(t, "phosphoric z", phosphoric.ChargePerMole(quantity.PH(row.ph)), row.phosphoric, 0.0005)
	}
	near(t, "phosphoric z(7.2)", phosphoric.ChargePerMole(7.2), 1.5011, 0.0005)
}

// Source: Goldberg et al. 2002 (second-hand); computed at 20 °C.
func TestPhosphoricPKa(t *testing.T) {
	for n, want := range []float64{2.125, 7.210, 12.400} {
		near(t, "pK at 20 °C", PhosphoricPKa(n+1, quantity.Celsius(20)), want, 0.002)
		near(t, "pK at 25 °C", PhosphoricPKa(n+1, quantity.Celsius(25)), pkPhosphoric[n], 1e-9)
	}
}

// An acid gives up more the higher the pH.
func TestAcidsGiveMoreAtHigherPH(t *testing.T) {
	for _, a := range Acids {
		for ph := quantity.PH(3); ph < 8; ph += 0.1 {
			if a.MilliequivalentsPerML(ph+0.1) < a.MilliequivalentsPerML(ph) {
				t.Errorf("%s gives less at pH %.1f", a.ID, ph+0.1)
			}
		}
	}
}

func TestWeightPerVolume(t *testing.T) {
	a := mustAcid(t, "lactic-acid-88")
	near(t, "strength", a.WeightPerVolume(0.88*1.206).Molarity(), a.Molarity(), 1e-9)
	near(t, "80 % w/v is weaker", a.WeightPerVolume(0.80).Molarity(), 800/90.078, 0.001)
}

// Source: computed (regression values), 0.5 %.
func TestAcidify(t *testing.T) {
	for _, test := range []struct {
		water  Supply
		target quantity.PH
		demand float64
		want   map[string]float64 // mL per litre
	}{
		{supply(2, 7.8, 20, 4.3), 5.6, 1.6804, map[string]float64{"lactic-acid-88": 0.1452, "phosphoric-acid-10": 1.5265, "hydrochloric-acid-10": 0.5849}},
		{supply(5, 7.4, 20, 4.3), 5.5, 4.3636, map[string]float64{"lactic-acid-88": 0.3788, "phosphoric-acid-10": 3.984}},
		{supply(3, 8.0, 20, 4.3), 5.8, 2.3469, map[string]float64{"lactic-acid-88": 0.2015}},
	} {
		for id, want := range test.want {
			dose, err := Acidify(test.water, 1, mustAcid(t, id), test.target)
			if err != nil {
				t.Fatal(err)
			}
			near(t, id+" mL", dose.Millilitres, want, 0.005*want)
			near(t, id+" U", float64(dose.Demand), test.demand, 0.005*test.demand)
			near(t, id+" alkalinity left", float64(Alkalinity(dose.After.Ions)), float64(Alkalinity(test.water.Ions))-test.demand, 0.005)
			near(t, id+" carbon kept", dose.After.TotalCarbon(), test.water.TotalCarbon(), 1e-6)
			near(t, id+" pH again", float64(test.water.PHWith(mustAcid(t, id), dose.Millilitres)), float64(test.target), 1e-6)
		}
	}
}

// Source: computed (regression value).
func TestPHWith(t *testing.T) {
	near(t, "pH", float64(supply(2, 7.8, 20, 4.3).PHWith(mustAcid(t, "lactic-acid-88"), 0.15)), 5.510, 0.003)
}

// Hydrochloric and sulfuric acid trade bicarbonate for their own anion, charge
// for charge. Source: identity of charge.
func TestAcidifyMovesAnions(t *testing.T) {
	for id, ion := range map[string]Ion{"hydrochloric-acid-10": Chloride, "sulfuric-acid-10": Sulfate} {
		before := Supply{Ions: reportA, PH: 7.4}
		dose, err := Acidify(before, 20, mustAcid(t, id), 5.6)
		if err != nil {
			t.Fatal(err)
		}
		gained := float64(dose.After.Ions.Charge(ion) - before.Ions.Charge(ion))
		near(t, id, gained, float64(dose.Demand), 0.001*gained)
	}
}

func TestAcidifyWarnsAndRefuses(t *testing.T) {
	s := Supply{Ions: reportA, PH: 7.4}
	strong := mustAcid(t, "sulfuric-acid-96")
	if _, err := Acidify(s, 20, strong, 5.6); !errors.Is(err, ErrNotConfirmed) {
		t.Errorf("concentrated sulfuric acid: %v", err)
	}
	strong.Confirmed = true
	if _, err := Acidify(s, 20, strong, 5.6); err != nil {
		t.Errorf("confirmed sulfuric acid: %v", err)
	}
	dose, err := Acidify(s, 20, mustAcid(t, "lactic-acid-88"), 7.6)
	if err != nil || dose.Millilitres != 0 || len(dose.Warnings) != 1 {
		t.Errorf("target above the water: %v mL, warnings %q, %v", dose.Millilitres, dose.Warnings, err)
	}
	s.PH = 0
	if dose, _ := Acidify(s, 20, mustAcid(t, "lactic-acid-88"), 5.6); len(dose.Warnings) != 1 {
		t.Errorf("unknown pH: warnings %q", dose.Warnings)
	}
}

// Source: (3.3 + 1.8) mL · 1.206 · 0.88 / 20 L by hand; 2.8 % of 1 kg in 100 L by hand.
func TestLacticInBeer(t *testing.T) {
	a := mustAcid(t, "lactic-acid-88")
	near(t, "liquid", float64(LacticInBeer(a, 3.3+1.8, 0, 0, 20)), 271, 0.5)
	near(t, "malt", float64(LacticInBeer(a, 0, 1, AcidMaltLactic, 100)), 280, 1e-9)
	near(t, "phosphoric has none", float64(LacticInBeer(mustAcid(t, "phosphoric-acid-10"), 5, 0, 0, 20)), 0, 0)
}

// Source: 28 g/kg over 90.078 g/mol.
func TestAcidMalt(t *testing.T) {
	near(t, "fully given up", AcidMaltPerKilogram(AcidMaltLactic, 9), 311, 0.5)
	ratio := AcidMaltPerKilogram(AcidMaltLactic, 5.4) / AcidMaltPerKilogram(AcidMaltLactic, 9)
	if math.Abs(ratio-0.9720) > 0.0005 { // z of lactic acid at pH 5.4, see TestChargePerMole
		t.Errorf("at pH 5.4 acid malt gives %.4f of it", ratio)
	}
}
