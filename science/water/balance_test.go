// SPDX-License-Identifier: MIT

package water

import "testing"

// Source: computed from the formulas of Balance (regression values).
func TestBalance(t *testing.T) {
	halfRight := reportC
	halfRight[Bicarbonate] *= 2 * massBicarbonate / massCaCO3
	near(t, "HCO3 of 200 as CaCO3", halfRight[Bicarbonate], 243.85, 0.02)
	for _, test := range []struct {
		name                                             string
		ions                                             Ions
		cations, anions, difference, relative, tolerance float64
		verdict                                          string
	}{
		{"report A", reportA, 6.7016, 6.7739, -0.537, -1.073, 0.002, OK},
		{"report B", reportB, 0.6009, 0.4910, 10.07, 20.14, 0.01, OK},
		{"report C", reportC, 8.5511, 6.0114, 17.44, 34.88, 0.01, Reject},
		{"report C, HCO3 as CaCO3", halfRight, 8.5511, 6.7300, 11.92, 23.84, 0.02, Reject},
		{"Saltpan Lane, printed", saltpanPrinted, 4.925, 3.562, 16.1, 32.1, 0.05, Reject},
		{"Saltpan Lane, meant", saltpan, 4.925, 4.811, 1.2, 2.3, 0.05, OK},
		{"distilled", Ions{}, 0, 0, 0, 0, 0, OK},
	} {
		got := Balance(test.ions)
		near(t, test.name+" cations", float64(got.Cations), test.cations, min(test.tolerance, 0.002))
		near(t, test.name+" anions", float64(got.Anions), test.anions, min(test.tolerance, 0.002))
		near(t, test.name+" E1", got.Difference, test.difference, test.tolerance)
		near(t, test.name+" E2", got.Relative, test.relative, 2*test.tolerance)
		if got.Verdict != test.verdict {
			t.Errorf("%s: verdict %s, want %s", test.name, got.Verdict, test.verdict)
		}
	}
}

// The limits of the verdicts, on sodium chloride water of the wanted charges.
// Source: Standard Methods 1030 E, from memory (2 %, 5 %, 0.2 mEq/L); the bands
// above are this project's own.
func TestBalanceVerdicts(t *testing.T) {
	for _, test := range []struct {
		cations, anions float64
		verdict         string
	}{
		{5.19, 5, OK},       // 1.9 %
		{5.22, 5, Usable},   // 2.2 %
		{5.55, 5, Suspect},  // 5.2 %
		{6.2, 5, Reject},    // 10.7 %
		{1.19, 1, OK},       // 8.7 %, but 0.19 mEq/L
		{1.21, 1, Suspect},  // 9.5 %, 0.21 mEq/L
		{13.2, 12, OK},      // 4.8 % of a strong water
		{13.4, 12, Suspect}, // 5.5 %
	} {
		ions := Ions{Sodium: test.cations * weightNa, Chloride: test.anions * weightCl}
		if got := Balance(ions); got.Verdict != test.verdict {
			t.Errorf("%g against %g mEq/L: %s, want %s (E1 %.2f)", test.cations, test.anions, got.Verdict, test.verdict, got.Difference)
		}
	}
}

func TestFillByDifference(t *testing.T) {
	without := reportA
	without[Sodium] = 0
	filled, ok := FillByDifference(without, Sodium)
	if !ok {
		t.Fatal("sodium wasn't filled")
	}
	near(t, "filled sodium", filled[Sodium], 15+0.0723*22.990, 0.005) // gap of report A, see TestBalance
	near(t, "gap", Balance(filled).Difference, 0, 1e-9)
	if _, ok := FillByDifference(reportA, Sodium); ok {
		t.Error("filled an ion that is listed")
	}
	if _, ok := FillByDifference(without, Carbonate); ok {
		t.Error("filled the side that is already larger")
	}
}

// Source: sum of report A is 503 mg/L; 51 % of its bicarbonate is 142.8.
func TestDissolvedSolids(t *testing.T) {
	near(t, "solids", float64(DissolvedSolids(reportA)), 360.2, 0.05)
}

// Source: hand calculation of the Saltpan Lane sheet from equivalents:
// 16.1 % as printed, then 9.6, 3.0 and 1.2 % as the labels are undone.
func TestMislabelsOfSaltpanLane(t *testing.T) {
	found := Mislabels(saltpanPrinted)
	if len(found) == 0 {
		t.Fatal("no explanation found")
	}
	best := found[0]
	if !best.Preferred || best.Balance.Verdict != OK {
		t.Errorf("best %q: preferred %v, %s", best, best.Preferred, best.Balance.Verdict)
	}
	want := []struct {
		label      string
		difference float64
	}{{"HCO3 as CaCO3", 9.6}, {"SO4 as S", 3.0}, {"NO3 as N", 1.2}}
	if len(best.Steps) != len(want) {
		t.Fatalf("best is %q, want three labels", best)
	}
	for n, step := range best.Steps {
		if step.Label.String() != want[n].label {
			t.Errorf("step %d undoes %s, want %s", n, step.Label, want[n].label)
		}
		near(t, step.Label.String(), step.Balance.Difference, want[n].difference, 0.05)
	}
	near(t, "HCO3", best.Ions[Bicarbonate], 168, 0.5)
	near(t, "SO4", best.Ions[Sulfate], 41.9, 0.05)
	near(t, "NO3", best.Ions[Nitrate], 13.7, 0.05)
	for _, other := range found[1:] {
		if other.Preferred {
			t.Errorf("%q is preferred too", other)
		}
	}
}

// Every habit alone, planted into a report that balances, is found and the
// printed numbers are put right.
func TestMislabelsFindsEachHabit(t *testing.T) {
	for _, habit := range []struct {
		text   string
		labels []Label
	}{
		{"HCO3 as CaCO3", Labels[0:1]},
		{"SO4 as S", Labels[1:2]},
		{"NO3 as N", Labels[2:3]},
		{"Ca as CaCO3, Mg as CaCO3", Labels[3:5]},
	} {
		meant := Ions{Magnesium: 9, Sodium: 21, Potassium: 3, Bicarbonate: 168, Chloride: 5, Sulfate: 150, Nitrate: 70}
		meant[Calcium] = float64(meant.Anions()-meant.Cations()) * Calcium.EquivalentMass()
		printed := meant
		for _, label := range habit.labels {
			printed[label.Ion] /= label.Factor
		}
		found := Mislabels(printed)
		if len(found) == 0 || !found[0].Preferred || found[0].String() != habit.text {
			t.Errorf("%s: explained by %v", habit.text, found)
			continue
		}
		for ion := range meant {
			near(t, habit.text+" "+Ion(ion).String(), found[0].Ions[ion], meant[ion], 1e-9)
		}
	}
}

// Calcium without magnesium may be hardness too.
func TestMislabelsOfCalciumAlone(t *testing.T) {
	found := Mislabels(Ions{Calcium: 250, Bicarbonate: 61 * 5})
	if len(found) == 0 || found[0].String() != "Ca as CaCO3" || !found[0].Preferred {
		t.Errorf("explained by %v", found)
	}
}

func TestMislabelsOfAGoodReport(t *testing.T) {
	if found := Mislabels(reportA); found != nil {
		t.Errorf("a good report was explained: %v", found)
	}
}

// An imbalance that no label explains gets candidates, none preferred.
func TestMislabelsPrefersNoneWithoutOK(t *testing.T) {
	for _, found := range Mislabels(Ions{Sodium: 230, Chloride: 35, Bicarbonate: 61}) {
		if found.Preferred {
			t.Errorf("%q is preferred at %.1f %%", found, found.Balance.Difference)
		}
	}
}
