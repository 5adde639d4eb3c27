// SPDX-License-Identifier: MIT

package formulate

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	chem "gyle/science/water"
	"gyle/stock"
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

// No salts can give much magnesium and leave the others alone: a salt is a
// pair. The ways out say what gives, each with fewer aims missed than before,
// and solving with it misses no more than was promised.
func TestOutlets(t *testing.T) {
	aims := chem.Aims{chem.Calcium: 110, chem.Magnesium: 20, chem.Chloride: 100, chem.Sulfate: 60}
	l := Liquor{Report: saltpanLane(t), Volume: 28.8, Aims: aims, Salts: []string{"calcium-chloride", "gypsum"}}
	ways, err := Treat(l)
	if err != nil {
		t.Fatal(err)
	}
	outlets, err := Outlets(l, ways[0])
	if err != nil || len(outlets) == 0 {
		t.Fatalf("%v, %v", outlets, err)
	}
	for _, o := range outlets {
		again := l
		again.Aims, again.MostSoft = o.Aims, o.Soft
		if len(o.Salts) > 0 {
			again.Salts = o.Salts
		}
		got, err := Treat(again)
		if err != nil {
			t.Fatal(err)
		}
		if len(got[0].Missed) > o.Missed || o.Missed >= len(ways[0].Missed) {
			t.Errorf("%s: %d missed, promised %d of %d", o.Says, len(got[0].Missed), o.Missed, len(ways[0].Missed))
		}
	}
}

// 10 mg/L of calcium come with 17.7 mg/L of chloride or 24.0 of sulfate: the
// ratios of the molar masses, 2·35.45/40.08 and 96.06/40.08.
func TestTrades(t *testing.T) {
	trades, err := Trades(Liquor{Report: saltpanLane(t), Volume: 28.8, Aims: chem.Aims{chem.Calcium: 110}, Salts: []string{"calcium-chloride", "gypsum"}})
	if err != nil || len(trades) != 1 || !strings.Contains(trades[0].Says, "17.7 chloride") || !strings.Contains(trades[0].Says, "24.0 sulfate") {
		t.Errorf("%v, %v", trades, err)
	}
}

// A plan with the same wishes blends, weighs and doses the same.
func TestTreatAsPlanned(t *testing.T) {
	r := *examplestest.Load(t, "ferry-brown-3", recipe.Parse)
	low, soft := quantity.Concentration(30), quantity.Percent(80)
	r.Water = &recipe.Water{Ca: &low, Cl: &low, SO4: &low, HCO3: &low, Soft: &soft, Acid: "lactic-88"}
	report := saltpanLane(t)
	p, err := plan.Make(plan.Input{Recipe: &r, House: examplestest.Load(t, "garage", brewhouse.Parse), Stock: examplestest.Load(t, "garage-shed", stock.Parse), Water: report})
	if err != nil {
		t.Fatal(err)
	}
	l := p.Liquor
	ways, err := Treat(Liquor{Report: report, Volume: l.Total, Sparge: l.Sparge, DoughIn: l.Mash, Aims: plan.WaterAims(r.Water), MostSoft: soft, Acid: "lactic-88", Goods: p.Goods(), PH: r.Mash.PH})
	if err != nil {
		t.Fatal(err)
	}
	w := ways[0]
	if w.Soft < 0.2 || math.Abs(float64(w.Soft)*float64(l.Total)-float64(l.Soft)) > 1e-9 {
		t.Errorf("%.1f %% of soft water, the plan takes %.2f L of %.2f", w.Soft.Percent(), l.Soft, l.Total)
	}
	if w.Ions != l.Ions || !slices.Equal(w.Salts, l.Salts) || *w.Rail != *p.Mash.Rail {
		t.Errorf("%v %v, the plan %v %v", w.Salts, *w.Rail, l.Salts, *p.Mash.Rail)
	}
	if (w.MashAcid == nil) != (p.Mash.Acid == nil) || w.MashAcid != nil && *w.MashAcid != *p.Mash.Acid {
		t.Errorf("acid %v, the plan %v", w.MashAcid, p.Mash.Acid)
	}
}

// Mash and sparge liquor hold the same, to what the scale can weigh.
func TestTreatParts(t *testing.T) {
	aims := chem.Aims{chem.Calcium: 110, chem.Chloride: 100, chem.Sulfate: 60}
	l := Liquor{Report: saltpanLane(t), Volume: 28.8, Sparge: 12.3, Aims: aims, MostSoft: 0.5}
	ways, err := Treat(l)
	if err != nil {
		t.Fatal(err)
	}
	w := ways[0]
	for i, s := range w.Salts {
		sum := w.Mash[i].Mass
		for _, in := range w.Sparge {
			if in.Salt == s.Salt {
				sum += in.Mass
			}
		}
		if math.Abs(sum.Grams()-s.Mass.Grams()) > 1e-9 {
			t.Errorf("%s: %.2f g in parts, %.2f g in all", s.Name, sum.Grams(), s.Mass.Grams())
		}
		if apart := w.Mash[i].Mass.Grams()/16.5 - s.Mass.Grams()/28.8; math.Abs(apart) > 0.05/12 {
			t.Errorf("%s: the mash liquor is off by %.4f g/L", s.Name, apart)
		}
	}
}

func TestGoodsCalled(t *testing.T) {
	goods, err := GoodsCalled([]string{"4.2 kg pale-ale", "180 g chocolate late"})
	if err != nil || len(goods.Early) != 1 || len(goods.Late) != 1 || goods.Late[0].Mass.Grams() < 179.9 {
		t.Errorf("%+v, %v", goods, err)
	}
	for _, bad := range []string{"", "pale-ale", "4 kg", "4 kg cement", "-4 kg pale-ale", "some pale-ale", "4 kg pale-ale late"} {
		if got, err := GoodsCalled([]string{bad}); err == nil {
			t.Errorf("%q is read as %+v", bad, got)
		}
	}
}
