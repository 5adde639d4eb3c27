// SPDX-License-Identifier: MIT

package plan_test

import (
	"errors"
	"fmt"
	"testing"

	"gyle/plan"
	"gyle/quantity"
)

func TestNoSparge(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.036}\nmash: {sparge: none, rests: [66 °C for 60 min]}\n"+pale)
	p := sound(t, in)
	if p.Liquor.Sparge != 0 || p.Liquor.SpargeAcid != nil || p.Liquor.Mash != p.Liquor.Total {
		t.Errorf("liquor %+v, want all in the mash", p.Liquor)
	}
	if !says(p.Cautions, "measured with a sparge; without one expect less") {
		t.Errorf("cautions %v", p.Cautions)
	}
	near(t, "full kettle comes from the liquor, L", float64(p.Liquor.Total)-0.85*float64(p.Grist.Mass), float64(p.Volumes.FullKettle), 1e-6)
}

// A mash must bring the enzymes for its starch, and heat the starch enough.
func TestMashThatCannotConvert(t *testing.T) {
	for grist, words := range map[string]string{
		"[{malt: chocolate, share: 100 %}]":                                        "WK of enzymes",
		"[{malt: pale-ale, share: 20 %}, {malt: oats-flaked, share: 80 %}]":        "WK of enzymes",
		"[{malt: pale-ale, share: 80 %}, {malt: rice-grits, share: 20 %}]":         "cook rice-grits before it goes into the mash",
		"[{malt: pale-ale, share: 90 %}, {malt: munich, share: 10 %, in: kettle}]": "goes into the kettle with its starch",
	} {
		if p := sound(t, withRecipe(t, "aims: {og: 1.040}\ngrist: "+grist+"\n")); !says(p.Cautions, words) {
			t.Errorf("%s: cautions %q don't say %q", grist, p.Cautions, words)
		}
	}
	if p := sound(t, onGarage(t, "4")); len(p.Cautions) != 0 {
		t.Errorf("Ferry Brown is warned of: %q", p.Cautions)
	}
}

func TestNothingSaidOfTheBoil(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.050}\n"+pale)
	in.House = readHouse(t, edited(t, "garage", "  boil: 60 min\n", ""))
	if p := sound(t, in); p.Boil.Time != 60 || !says(p.Typical, "boil: 60 min") {
		t.Errorf("boil %v, typical %v", p.Boil.Time, p.Typical)
	}
	in.Recipe = readRecipe(t, "gyle: recipe/1\nname: Raw\nsize: 20 L\naims: {og: 1.050}\nboil: 0 min\n"+pale+"hops: [{hop: challenger, dose: 2 g/L, at: stand 80 °C 20 min}]\n")
	if p := sound(t, in); p.Boil.Time != 0 || p.Hops.Path[0].Name == "boil" {
		t.Errorf("a beer that isn't boiled boils: %v, %v", p.Boil.Time, p.Hops.Path)
	}
}

// Sugar dissolves whole and isn't in the full kettle.
func TestSugarInTheKettle(t *testing.T) {
	with := sound(t, withRecipe(t, "aims: {og: 1.060}\ngrist: [{malt: pale-ale, share: 85 %}, {malt: sucrose, share: 15 %, in: kettle}]\n"))
	without := sound(t, withRecipe(t, "aims: {og: 1.060}\n"+pale))
	if with.Gravity.FullKettle >= without.Gravity.FullKettle {
		t.Error("the sugar is counted in the full kettle")
	}
	if with.Grist.Mass >= without.Grist.Mass {
		t.Error("sugar of whole yield should save malt")
	}
}

// A kettle filled from extract alone has nothing to mash.
func TestExtractAlone(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.045}\ngrist: [{malt: dry-malt-extract-pale, share: 100 %, in: kettle}]\n"))
	if p.Liquor.Mash != 0 || len(p.Mash.Steps) != 0 || !p.Liquor.Strike.IsZero() {
		t.Errorf("a mash without grain: %+v", p.Liquor)
	}
}

// Grain that is steeped cold takes its own liquor and holds some of it back.
func TestColdSteep(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\ngrist: [{malt: pale-ale, share: 94 %}, {malt: chocolate, share: 6 %, in: cold steep 16 h}]\nmash: {ph: 5.4, rests: [67 °C for 60 min]}\n"))
	steeped := line(t, p, "chocolate").Mass
	near(t, "steep liquor at 4 L/kg", float64(p.Liquor.Steep), 4*float64(steeped), 1e-9)
	if !says(p.Cautions, "is not sterile") {
		t.Errorf("cautions: %v", p.Cautions)
	}
}

// The largest brew that fits is named; it fits, and a little more doesn't.
func TestTooLarge(t *testing.T) {
	for _, size := range []quantity.Volume{40, 200} {
		for _, in := range []plan.Input{onGarage(t, "4"), onBoathouse(t, "4")} {
			in.Size = size
			_, err := plan.Make(in)
			var large *plan.TooLarge
			if in.House.Name == "Boathouse" && size == 40 {
				if err != nil {
					t.Errorf("40 L on the Boathouse: %v", err)
				}
				continue
			}
			if !errors.As(err, &large) {
				t.Fatalf("%v L on %s: %v", size, in.House.Name, err)
			}
			in.Size = large.Largest
			sound(t, in)
			in.Size = large.Largest + 0.2
			if _, err := plan.Make(in); !errors.As(err, &large) {
				t.Errorf("%v fits on %s, so %v isn't the largest", in.Size, in.House.Name, large.Largest)
			}
		}
	}
}

// The yield of a house that knows its conversion and its run-off falls with
// gravity, and agrees with itself.
func TestYieldFromRunOff(t *testing.T) {
	for _, sparge := range []string{"fly", "batch", "twice", "none"} {
		before := 1.0
		for _, og := range []string{"1.030", "1.050", "1.080", "1.110"} {
			in := withRecipe(t, "aims: {og: "+og+"}\nmash: {ratio: 2.5 L/kg}\n"+pale)
			in.House = readHouse(t, edited(t, "garage", "yield: 76 ± 2 %", "conversion: 95 %", "sparge: batch", "sparge: "+sparge, "  vessel: 30 L\n  absorption", "  absorption"))
			p := sound(t, in)
			y := float64(p.Grist.Yield)
			if y >= before || y <= 0.3 || y > 0.95 {
				t.Errorf("%s sparge, %s: yield %.3f after %.3f", sparge, og, y, before)
			}
			before = y
		}
	}
}

func TestSaltsThatCannotReachAnAim(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\nwater: {Ca: 20 mg/L, Cl: 100 mg/L, salts: [calcium-chloride]}\n"+pale))
	if len(p.Liquor.Misses) == 0 || !pointsSay(p.NotKept, "water: Ca") {
		t.Errorf("misses %v, not kept %v", p.Liquor.Misses, p.NotKept)
	}
	refused(t, withRecipe(t, "aims: {og: 1.050}\nwater: {Ca: 90 mg/L, salts: [gipsum]}\n"+pale), "water.salts[0]", "did you mean gypsum?")
}

func TestAcids(t *testing.T) {
	refused(t, withRecipe(t, "aims: {og: 1.050}\nwater: {acid: lactik-88}\n"+pale), "water.acid", "is no known acid")
	// An acid that needs a licence isn't dosed into the sparge either.
	for _, id := range []string{"sulfuric-98", "sulfuric-acid-98", "sulfuric"} {
		_, err := plan.Make(withRecipe(t, "aims: {og: 1.050}\nwater: {acid: "+id+"}\n"+pale))
		if err == nil {
			t.Errorf("%s is planned with", id)
		}
	}
	// The mash is aimed at a pH above its own: no acid, and the plan says so
	// with the pH of the recipe.
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\nmash: {ph: 5.95}\n"+pale))
	if p.Mash.Acid != nil || !pointsSay(p.NotKept, "mash pH 5.95: the mash is already more acid") {
		t.Errorf("acid %v, not kept %v", p.Mash.Acid, p.NotKept)
	}
	if p.Liquor.SpargeAcid == nil || p.Mash.AcidSafety == "" {
		t.Error("acid for the sparge has no caution")
	}
}

// Acidulated malt brings lactic acid of its own: 2.8 % of its mass (typical,
// second-hand), beside that of the sparge liquor.
func TestAcidulatedMalt(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\nmash: {ph: 5.6}\ngrist: [{malt: pale-ale, share: 96 %}, {malt: acidulated-malt, share: 4 %}]\n"))
	ml := p.Liquor.SpargeAcid.ML
	if p.Mash.Acid != nil {
		ml += p.Mash.Acid.ML
	}
	// 1.206 g/mL of 88 % lactic acid (W6).
	want := (0.028*1e6*float64(line(t, p, "acidulated-malt").Mass) + ml*1206*0.88) / 20
	near(t, "lactic acid, mg/L", float64(p.Mash.Lactic), want, 0.01*want)
	p = sound(t, withRecipe(t, "aims: {og: 1.050}\ngrist: [{malt: pale-ale, share: 88 %}, {malt: acidulated-malt, share: 12 %}]\n"))
	if !says(p.Cautions, "acidulated malt is 12.0 % of the grist") || !says(p.Cautions, "mg/L of lactic acid") {
		t.Errorf("cautions %v", p.Cautions)
	}
}

// Without heat the rests are reached with boiling water. It is part of the
// liquor, and the mash vessel must hold it.
func TestInfusionMash(t *testing.T) {
	rests := "mash: {ratio: 2.2 L/kg, rests: [52 °C for 10 min, 66 °C for 45 min, 76 °C for 10 min]}\n"
	in := withRecipe(t, "aims: {og: 1.045}\n"+rests+pale)
	in.House = readHouse(t, edited(t, "garage", "  power: 2.28 kW\nkettle", "kettle"))
	p := sound(t, in)
	l := p.Liquor
	near(t, "mash, boiling water and sparge, L", float64(l.Mash+l.Infused+l.Sparge), float64(l.Total), 1e-9)
	if l.Infused < 5 {
		t.Errorf("%v of boiling water take 10 L from 52 to 76 °C", l.Infused)
	}
	added := 0.0
	for _, s := range p.Mash.Steps {
		var v float64
		if n, _ := fmt.Sscanf(s.What, "add %f L of boiling water", &v); n == 1 {
			added += v
		}
	}
	near(t, "boiling water by the steps, L", added, float64(l.Infused), 0.1)
	near(t, "mash at its fullest, L", float64(p.Mash.Volume), float64(l.Mash+l.Infused)+0.67*float64(p.Grist.Mass), 0.1) // 0.67 L/kg displaced

	// A heated mash needs no boiling water.
	in.House = readHouse(t, edited(t, "garage"))
	if heated := sound(t, in); heated.Liquor.Infused != 0 {
		t.Errorf("%v of boiling water in a heated mash", heated.Liquor.Infused)
	}

	// Without a sparge the boiling water comes off the liquor for doughing in.
	in = withRecipe(t, "aims: {og: 1.045}\nmash: {sparge: none, rests: [52 °C for 10 min, 66 °C for 45 min]}\n"+pale)
	in.House = readHouse(t, edited(t, "garage", "  power: 2.28 kW\nkettle", "kettle"))
	in.Size = 15
	l = sound(t, in).Liquor
	near(t, "mash and boiling water, L", float64(l.Mash+l.Infused), float64(l.Total), 1e-6)
	if l.Infused <= 0 || l.Sparge != 0 {
		t.Errorf("liquor %+v", l)
	}

	in = withRecipe(t, "aims: {og: 1.045}\nmash: {rests: [66 °C for 45 min, 101 °C for 10 min]}\n"+pale)
	refused(t, in, "mash.rests[1]", "water boils at 100")
	bare := readHouse(t, edited(t, "garage", "  power: 2.28 kW\nkettle", "kettle", "vessel: 30 L", "vessel: 100 L"))
	in = withRecipe(t, "aims: {og: 1.045}\nmash: {ratio: 4.5 L/kg, rests: [40 °C for 10 min, 52 °C for 10 min, 66 °C for 45 min, 80 °C for 5 min]}\n"+pale)
	in.House = bare
	p = sound(t, in)
	if p.Liquor.Sparge != 0 || !pointsSay(p.NotKept, "mash of 4.5 L/kg: the kettle asks for no more than") {
		t.Errorf("liquor %+v, not kept %v", p.Liquor, p.NotKept)
	}
	in = withRecipe(t, "aims: {og: 1.060}\nmash: {rests: [35 °C for 10 min, 66 °C for 45 min, 95 °C for 5 min]}\n"+pale)
	in.House = bare
	refused(t, in, "mash.rests", "too thick to stir")
}

// Heat balance of the first infusion by hand: 4 kg of malt and 10 L, vessel
// 3 kJ/K, 52 to 66 °C with water of 100 °C takes C·14/(4.186·34).
func TestInfusionByHand(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.045}\nmash: {ratio: 2.5 L/kg, rests: [52 °C for 10 min, 66 °C for 45 min]}\n"+pale)
	in.House = readHouse(t, edited(t, "garage", "  power: 2.28 kW\nkettle", "kettle"))
	p := sound(t, in)
	grain := float64(p.Grist.Mass)
	c := 2.5*grain*0.9982*4.186 + grain*1.674 + 3 // kJ/K, as in W19
	near(t, "boiling water, L", float64(p.Liquor.Infused), c*14/(4.186*34)/0.9982, 0.02)
}

func TestWaterOfACoilMustBeKnown(t *testing.T) {
	in := onGarage(t, "4")
	in.House = readHouse(t, edited(t, "garage", ", water: 12 °C", ""))
	refused(t, in, "cooling", "add water: 12 °C")
}

func TestKettleThatNeverBoils(t *testing.T) {
	in := onGarage(t, "4")
	in.House.Kettle.HeatLoss = 3
	refused(t, in, "kettle.heat loss", "the kettle would never boil")
}
