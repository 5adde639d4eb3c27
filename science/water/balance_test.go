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
		{"report A", reportA, 6.7016, 6.7739, -0.537, -1.073, 0.002, VerdictOK},
		{"report B", reportB, 0.6009, 0.4910, 10.07, 20.14, 0.01, VerdictOK},
		{"report C", reportC, 8.5511, 6.0114, 17.44, 34.88, 0.01, VerdictReject},
		{"report C, HCO3 as CaCO3", halfRight, 8.5511, 6.7300, 11.92, 23.84, 0.02, VerdictReject},
		{"Saltpan Lane, printed", saltpanPrinted, 4.925, 3.562, 16.1, 32.1, 0.05, VerdictReject},
		{"Saltpan Lane, meant", saltpan, 4.925, 4.811, 1.2, 2.3, 0.05, VerdictOK},
		{"distilled", Ions{}, 0, 0, 0, 0, 0, VerdictOK},
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
		{5.19, 5, VerdictOK},       // 1.9 %
		{5.22, 5, VerdictUsable},   // 2.2 %
		{5.55, 5, VerdictSuspect},  // 5.2 %
		{6.2, 5, VerdictReject},    // 10.7 %
		{1.19, 1, VerdictOK},       // 8.7 %, but 0.19 mEq/L
		{1.21, 1, VerdictSuspect},  // 9.5 %, 0.21 mEq/L
		{13.2, 12, VerdictOK},      // 4.8 % of a strong water
		{13.4, 12, VerdictSuspect}, // 5.5 %
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
	if !best.Preferred || best.Balance.Verdict != VerdictOK {
		t.Errorf("best %q: preferred %v, %s", best, best.Preferred, best.Balance.Verdict)
	}
	want := []struct {
		id         string
		difference float64
	}{{"hco3-as-caco3", 9.6}, {"so4-as-s", 3.0}, {"no3-as-n", 1.2}}
	if len(best.Steps) != len(want) {
		t.Fatalf("best is %q, want three labels", best)
	}
	for n, step := range best.Steps {
		if step.Label.ID != want[n].id {
			t.Errorf("step %d undoes %s, want %s", n, step.Label.ID, want[n].id)
		}
		near(t, step.Label.ID, step.Balance.Difference, want[n].difference, 0.05)
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

// Every mislabel alone, planted into a report that balances, is found and the
// printed numbers are put right.
func TestMislabelsFindsEachLabel(t *testing.T) {
	for _, label := range Labels {
		meant := saltpan
		meant[Sulfate], meant[Nitrate] = 150, 70 // enough that each label matters
		meant[Chloride] = 5
		meant[Calcium] = (meant[Calcium]/20.039 + float64(meant.Anions()-meant.Cations())) * 20.039
		printed := meant
		for ion, factor := range label.factors {
			if factor != 0 {
				printed[ion] /= factor
			}
		}
		found := Mislabels(printed)
		if len(found) == 0 || !found[0].Preferred {
			t.Errorf("%s: no explanation", label.ID)
			continue
		}
		if len(found[0].Steps) != 1 || found[0].Steps[0].Label.ID != label.ID {
			t.Errorf("%s: explained by %q", label.ID, found[0])
		}
		for ion := range meant {
			near(t, label.ID+" "+Ion(ion).String(), found[0].Ions[ion], meant[ion], 1e-9)
		}
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
