// SPDX-License-Identifier: MIT

package formulate

import (
	"math"
	"strings"
	"testing"

	"gyle/examples/examplestest"
	"gyle/quantity"
	chem "gyle/science/water"
	"gyle/water"
)

func saltpanLane(t *testing.T) *water.Water {
	t.Helper()
	return examplestest.Load(t, "saltpan-lane", water.Parse)
}

// The treatment of the example: 28.8 L take about 4.0 g of calcium chloride and
// 1.0 g of gypsum to Ca 110, Cl 101, SO4 61 (computed for the scenario). In
// steps of 0.1 g, 0.9 g of gypsum come nearer to the aim of 60.
func TestTreatSaltpanLane(t *testing.T) {
	aims := chem.Aims{chem.Calcium: 110, chem.Chloride: 100, chem.Sulfate: 60}
	ways, err := Treat(Liquor{Report: saltpanLane(t), Volume: 28.8, Aims: aims, Salts: []string{"calcium-chloride", "gypsum"}, Acid: "lactic-88", Sparge: 12.3})
	if err != nil {
		t.Fatal(err)
	}
	w := ways[0]
	if len(ways) != 1 || len(w.Salts) != 2 || len(w.Misses) > 0 {
		t.Fatalf("%+v", ways)
	}
	for i, want := range []float64{4.0, 1.0} {
		if got := w.Salts[i].Mass.Grams(); math.Abs(got-want) > 0.11 {
			t.Errorf("%s: %.2f g, want %.1f g", w.Salts[i].Name, got, want)
		}
	}
	for ion, want := range map[chem.Ion]float64{chem.Calcium: 110, chem.Chloride: 101, chem.Sulfate: 61} {
		if math.Abs(w.Ions[ion]-want) > 2 {
			t.Errorf("%s: %.1f mg/L, want %.0f", ion.Symbol(), w.Ions[ion], want)
		}
	}
	if w.SpargeAcid == nil || w.SpargeAcid.ML < 1.5 || w.SpargeAcid.ML > 4 {
		t.Errorf("acid for the sparge liquor: %+v", w.SpargeAcid)
	}
	if !strings.Contains(strings.Join(w.Cautions, " "), "goggles") {
		t.Errorf("acid without a caution: %v", w.Cautions)
	}
}

// A soft beer from a hard water: salts alone can't take anything out; soft
// water can, and is asked for no more of than helps.
func TestTreatBlends(t *testing.T) {
	aims := chem.Aims{chem.Calcium: 40, chem.Chloride: 40, chem.Sulfate: 20, chem.Bicarbonate: 30}
	ways, err := Treat(Liquor{Report: saltpanLane(t), Volume: 30, Aims: aims, MostSoft: 1})
	if err != nil {
		t.Fatal(err)
	}
	if len(ways) < 2 || ways[0].Soft < 0.5 || ways[0].Misfit > 0.1 {
		t.Fatalf("%+v", ways)
	}
	last := ways[len(ways)-1]
	if last.Soft != 0 || last.Misfit < 1 || !strings.Contains(last.Says, "dilute") {
		t.Errorf("salts alone: %+v", last)
	}
	limited, err := Treat(Liquor{Report: saltpanLane(t), Volume: 30, Aims: aims, MostSoft: 0.3})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range limited {
		if w.Soft > 0.3 {
			t.Errorf("%.0f %% of soft water where there is 30 %%", w.Soft.Percent())
		}
	}
}

func TestTreatRefuses(t *testing.T) {
	report := saltpanLane(t)
	aims := chem.Aims{chem.Calcium: 110}
	printed := *report
	printed.Meant = nil
	for name, l := range map[string]Liquor{
		"no report": {Volume: 20, Aims: aims}, "no volume": {Report: report, Aims: aims}, "no aims": {Report: report, Volume: 20},
		"no such salt": {Report: report, Volume: 20, Aims: aims, Salts: []string{"pepper"}}, "no such acid": {Report: report, Volume: 20, Aims: aims, Acid: "soup", Sparge: 10},
		"more sparge than liquor": {Report: report, Volume: 20, Aims: aims, Acid: "lactic-88", Sparge: 30}, "a report that doesn't balance": {Report: &printed, Volume: 20, Aims: aims},
		"too much soft water": {Report: report, Volume: 20, Aims: aims, MostSoft: quantity.Percent(120)},
	} {
		if ways, err := Treat(l); err == nil {
			t.Errorf("%s: %+v", name, ways)
		}
	}
}
