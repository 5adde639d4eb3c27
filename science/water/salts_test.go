// SPDX-License-Identifier: MIT

package water

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gyle/quantity"
)

func mustSalt(t *testing.T, id string) Salt {
	t.Helper()
	s, ok := SaltByID(id)
	if !ok {
		t.Fatalf("no salt %q", id)
	}
	return s
}

// Source: computed from IUPAC atomic weights (from memory).
func TestSaltTable(t *testing.T) {
	for _, test := range []struct {
		id         string
		molarMass  float64
		gives      Ions
		alkalinity float64
	}{
		{"gypsum", 172.164, Ions{Calcium: 232.79, Sulfate: 557.93}, 0},
		{"calcium-chloride-dihydrate", 147.008, Ions{Calcium: 272.62, Chloride: 482.29}, 0},
		{"calcium-chloride-anhydrous", 110.978, Ions{Calcium: 361.13, Chloride: 638.87}, 0},
		{"epsom-salt", 246.466, Ions{Magnesium: 98.61, Sulfate: 389.73}, 0},
		{"magnesium-chloride-hexahydrate", 203.295, Ions{Magnesium: 119.56, Chloride: 348.75}, 0},
		{"table-salt", 58.440, Ions{Sodium: 393.39, Chloride: 606.61}, 0},
		{"potassium-chloride", 74.548, Ions{Potassium: 524.47, Chloride: 475.53}, 0},
		{"baking-soda", 84.006, Ions{Sodium: 273.67, Bicarbonate: 726.33}, 11.904},
		{"potassium-bicarbonate", 100.114, Ions{Potassium: 390.53, Bicarbonate: 609.47}, 9.989},
		{"chalk", 100.086, Ions{Calcium: 400.44, Carbonate: 599.56}, 19.983},
		{"slaked-lime", 74.092, Ions{Calcium: 540.92, Bicarbonate: 26.993 * 61.016}, 26.993},
	} {
		s := mustSalt(t, test.id)
		near(t, test.id+" molar mass", s.MolarMass, test.molarMass, 0.002)
		near(t, test.id+" alkalinity", s.AlkalinityPerGram, test.alkalinity, 0.0005)
		for ion := range s.Gives {
			tolerance := 0.006
			if test.id == "slaked-lime" {
				tolerance = 0.04 // half the last digit of 26.993 times 61.016
			}
			near(t, test.id+" "+Ion(ion).String(), s.Gives[ion], test.gives[ion], tolerance)
		}
	}
	near(t, "chalk as HCO3", mustSalt(t, "chalk").AlkalinityPerGram*massBicarbonate, 1219.3, 0.05)
	dihydrate := mustSalt(t, "calcium-chloride-dihydrate")
	near(t, "CaCl2 in the dihydrate", dihydrate.Gives[Calcium]+dihydrate.Gives[Chloride], 755, 0.5)
}

// Source: computed; the assays are from memory.
func TestCalciumChlorideProducts(t *testing.T) {
	flakes, prills := mustSalt(t, "calcium-chloride-flakes").PerGram(), mustSalt(t, "calcium-chloride-prills").PerGram()
	near(t, "flakes Ca", flakes[Calcium], 278.1, 0.05)
	near(t, "flakes Cl", flakes[Chloride], 491.9, 0.05)
	near(t, "prills Ca", prills[Calcium], 339.5, 0.05)
	near(t, "prills Cl", prills[Chloride], 600.5, 0.05)
}

// No salt brings a net charge, or it couldn't be a salt.
func TestSaltsAreNeutral(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range Salts {
		near(t, s.ID, float64(s.Gives.Cations()-s.Gives.Anions()), 0, 1e-9)
		if seen[s.ID] {
			t.Errorf("%s is listed twice", s.ID)
		}
		seen[s.ID] = true
	}
}

// Source: computed (regression values).
func TestAddSalts(t *testing.T) {
	got := AddSalts(Ions{}, 20, []Addition{
		{mustSalt(t, "gypsum"), quantity.Grams(4)},
		{mustSalt(t, "calcium-chloride-dihydrate"), quantity.Grams(3)},
		{mustSalt(t, "epsom-salt"), quantity.Grams(1)},
	})
	near(t, "Ca", got[Calcium], 87.45, 0.1)
	near(t, "SO4", got[Sulfate], 131.07, 0.1)
	near(t, "Cl", got[Chloride], 72.34, 0.1)
	near(t, "Mg", got[Magnesium], 4.93, 0.1)
}

// Source: hand calculation for the Saltpan Lane supply, two brewhouses.
func TestSaltpanLaneTreatment(t *testing.T) {
	for _, test := range []struct{ litres, chloride, gypsum float64 }{{28.8, 4.0, 1.0}, {113.2, 15.7, 3.9}} {
		got := AddSalts(saltpan, quantity.Volume(test.litres), []Addition{
			{mustSalt(t, "calcium-chloride-dihydrate"), quantity.Grams(test.chloride)},
			{mustSalt(t, "gypsum"), quantity.Grams(test.gypsum)},
		})
		near(t, "Ca", got[Calcium], 110, 0.5)
		near(t, "Cl", got[Chloride], 101, 0.5)
		near(t, "SO4", got[Sulfate], 61, 0.5)
		ratio, _ := SulfateToChloride(got)
		near(t, "SO4:Cl", ratio, 0.61, 0.005)
	}
}

// Source: this project's estimate after Troester 2009 (abstract).
func TestChalkStopsAtItsCap(t *testing.T) {
	chalk := mustSalt(t, "chalk")
	near(t, "0.3 g/L", float64(Alkalinity(chalk.Delivers(0.3))), 0.3*19.983*0.5, 0.001)
	if chalk.Delivers(0.45) != chalk.Delivers(0.9) {
		t.Error("chalk beyond the cap still adds something")
	}
}

func TestDoseWarnings(t *testing.T) {
	additions := []Addition{
		{mustSalt(t, "gypsum"), quantity.Grams(21)},     // 2.1 g/L
		{mustSalt(t, "chalk"), quantity.Grams(5)},       // 0.5 g/L
		{mustSalt(t, "table-salt"), quantity.Grams(10)}, // 1 g/L
	}
	got := strings.Join(DoseWarnings(quantity.Printer{}, 10, additions), "\n")
	for _, want := range []string{"gypsum: 2.10 g/L", "chalk: 0.50 g/L", "all salts: 3.60 g/L"} {
		if !strings.Contains(got, want) {
			t.Errorf("no warning %q in:\n%s", want, got)
		}
	}
	if strings.Contains(got, "table salt") {
		t.Errorf("table salt at 1 g/L was warned about:\n%s", got)
	}
	if got := DoseWarnings(quantity.Printer{}, 100, additions); got != nil {
		t.Errorf("warnings on small doses: %v", got)
	}
}

func pick(t *testing.T, ids ...string) []Salt {
	t.Helper()
	var salts []Salt
	for _, id := range ids {
		salts = append(salts, mustSalt(t, id))
	}
	return salts
}

// The amber bitter of Saltpan Lane aims for Ca 110, Cl 100, SO4 60 mg/L; by hand
// 4.0 g of calcium chloride and 1.0 g of gypsum in 28.8 L were found.
func TestSolveSaltsForSaltpanLane(t *testing.T) {
	plan := SolveSalts(saltpan, 28.8, Aims{Calcium: 110, Chloride: 100, Sulfate: 60},
		pick(t, "gypsum", "calcium-chloride-dihydrate", "epsom-salt", "table-salt")).Rounded(quantity.Grams(0.1))
	grams := map[string]float64{}
	for _, a := range plan.Additions {
		grams[a.Salt.ID] = a.Mass.Grams()
	}
	near(t, "calcium chloride", grams["calcium-chloride-dihydrate"], 4.0, 0.15)
	near(t, "gypsum", grams["gypsum"], 1.0, 0.15)
	if len(plan.Misses) != 0 || plan.Dilution != 0 {
		t.Errorf("misses %v, dilution %v", plan.Misses, plan.Dilution)
	}
}

// Aims made by known masses are met, and the masses found again.
func TestSolveSaltsFindsMassesAgain(t *testing.T) {
	salts := pick(t, "gypsum", "calcium-chloride-dihydrate", "epsom-salt", "table-salt", "baking-soda")
	var known []Addition
	for n, s := range salts {
		known = append(known, Addition{s, quantity.Grams(1 + 0.7*float64(n))})
	}
	made := AddSalts(reportB, 20, known)
	aims := Aims{}
	for _, ion := range []Ion{Calcium, Magnesium, Sodium, Bicarbonate, Chloride, Sulfate} {
		aims[ion] = made[ion]
	}
	plan := SolveSalts(reportB, 20, aims, salts)
	if len(plan.Additions) != len(known) {
		t.Fatalf("%d salts, want %d", len(plan.Additions), len(known))
	}
	for n, a := range plan.Additions {
		near(t, a.Salt.ID, a.Mass.Grams(), known[n].Mass.Grams(), 0.01)
	}
}

func TestSolveSaltsSaysWhatItCannotReach(t *testing.T) {
	plan := SolveSalts(reportA, 20, Aims{Calcium: 45, Magnesium: 40, Bicarbonate: 70}, pick(t, "gypsum", "calcium-chloride-dihydrate"))
	if len(plan.Additions) != 0 {
		t.Errorf("salts were added: %v", plan.Additions)
	}
	near(t, "dilution", float64(plan.Dilution), 0.75, 1e-6) // HCO3 280 to 70
	want := map[Ion]string{Calcium: "dilute 50 %", Magnesium: "no allowed salt", Bicarbonate: "dilute 75 % with distilled water, or neutralise"}
	if len(plan.Misses) != len(want) {
		t.Fatalf("%d misses, want %d", len(plan.Misses), len(want))
	}
	for _, miss := range plan.Misses {
		if !strings.Contains(miss.Reason, want[miss.Ion]) {
			t.Errorf("%v: %q, want %q", miss.Ion, miss.Reason, want[miss.Ion])
		}
	}
	again := SolveSalts(reportA.Mix(plan.Dilution, Ions{}), 20, plan.Aims, pick(t, "gypsum", "calcium-chloride-dihydrate", "magnesium-chloride-hexahydrate"))
	if len(again.Misses) != 0 {
		t.Errorf("after dilution still missed: %v", again.Misses)
	}
}

// Whatever is aimed for: masses are never negative, no dose passes its cap, the
// answer is the same each time, and it is at least as good as no salt.
func TestSolveSaltsProperties(t *testing.T) {
	for n := range 200 {
		x := float64(n)
		aims := Aims{
			Calcium:     150 * math.Abs(math.Sin(1.1*x)),
			Chloride:    250 * math.Abs(math.Sin(2.3*x)),
			Sulfate:     2000 * math.Pow(math.Sin(3.7*x), 4),
			Sodium:      100 * math.Abs(math.Sin(5.1*x)),
			Bicarbonate: 300 * math.Abs(math.Sin(7.7*x)),
		}
		plan := SolveSalts(saltpan, 25, aims, Salts)
		for m, a := range plan.Additions {
			if again := SolveSalts(saltpan, 25, aims, Salts).Additions[m]; again.Mass != a.Mass {
				t.Fatalf("case %d: %s %v, then %v", n, a.Salt.ID, a.Mass, again.Mass)
			}
			if dose := a.Mass.Grams() / 25; dose < 0 || dose > doseLimit(a.Salt)+1e-9 {
				t.Errorf("case %d: %s %g g/L", n, a.Salt.ID, dose)
			}
		}
		if squares(plan.Ions, aims) > squares(saltpan, aims)+1e-9 {
			t.Errorf("case %d: salts made it worse", n)
		}
	}
}

// squares is the objective without the price of salt.
func squares(i Ions, aims Aims) float64 {
	var sum float64
	for _, ion := range AllIons() {
		if aim, aimed := aims[ion]; aimed {
			miss := (Amount(i, ion) - aim) / max(aim, aimFloor)
			sum += miss * miss / 2
		}
	}
	return sum
}

// Source: testdata/salts.py, which solves every subset of salts in exact fractions.
func TestSolveSaltsAgainstAllSubsets(t *testing.T) {
	ions := []Ion{Calcium, Magnesium, Sodium, Bicarbonate, Chloride, Sulfate}
	salts := pick(t, "gypsum", "calcium-chloride-dihydrate", "epsom-salt", "table-salt", "baking-soda")
	for n, row := range readTable(t, "salts.csv", ';') {
		base, aims := Ions{}, Aims{}
		starts, targets, doses := strings.Split(row[0], ","), strings.Split(row[1], ","), strings.Split(row[3], ",")
		for m, ion := range ions {
			base[ion] = number(t, starts[m])
			if targets[m] != "-" {
				aims[ion] = number(t, targets[m])
			}
		}
		plan := SolveSalts(base, 1, aims, salts)
		got := map[string]float64{}
		price := 0.0
		for _, a := range plan.Additions {
			got[a.Salt.ID] = a.Mass.Grams()
			price += saltPrice * a.Mass.Grams()
		}
		for m, s := range salts {
			near(t, fmt.Sprintf("row %d %s", n, s.ID), 1000*got[s.ID], number(t, doses[m]), 0.001)
		}
		near(t, "objective", squares(plan.Ions, aims)+price, number(t, row[2]), 1e-7)
	}
}
