// SPDX-License-Identifier: MIT

package plan_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"gyle/plan"
	"gyle/quantity"
	"gyle/stock"
)

// withRecipe plans a recipe text in the Garage, with its shed and its water.
func withRecipe(t testing.TB, text string) plan.Input {
	t.Helper()
	in := onGarage(t, "4")
	in.Recipe = readRecipe(t, "gyle: recipe/1\nname: Odd beer\nsize: 20 L\n"+text)
	return in
}

// sound makes a plan and checks what must hold of every plan.
func sound(t testing.TB, in plan.Input) *plan.Plan {
	t.Helper()
	p := made(t, in)
	if _, err := p.JSON(); err != nil {
		t.Errorf("%v", err)
	}
	if problem := unbalanced(p); problem != "" {
		t.Error(problem)
	}
	return p
}

// refused checks that a plan is refused, with the field and the words that
// explain it.
func refused(t *testing.T, in plan.Input, field, words string) {
	t.Helper()
	_, err := plan.Make(in)
	var problems plan.Problems
	if !errors.As(err, &problems) {
		t.Fatalf("error %v, want a refusal with %q", err, words)
	}
	for _, one := range problems {
		if one.Field == field && strings.Contains(one.Error(), words) {
			return
		}
	}
	t.Errorf("refused with %v, want %q and %q", err, field, words)
}

func says(list []string, words string) bool {
	return strings.Contains(strings.Join(list, "\n"), words)
}

func pointsSay(list []plan.Point, words string) bool {
	for _, one := range list {
		if strings.Contains(one.What+"\n"+one.Price, words) {
			return true
		}
	}
	return false
}

const pale = "grist: [{malt: pale-ale, share: 100 %}]\n"

func TestNoHops(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.040}\n"+pale))
	if p.Hops.IBU != 0 || len(p.Hops.Charges) != 0 {
		t.Errorf("a beer without hops has %v", p.Hops.IBU)
	}
}

// Aimed at 0 IBU the bittering charge vanishes; what is dosed stays, and the
// plan says that the aim is missed by it.
func TestAimOfNoBitterness(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.040, ibu: 0}\n"+pale+`hops:
- {hop: challenger, bitterness: 10 IBU, at: boil 60 min}
- {hop: bramling-cross, dose: 1 g/L, at: boil 5 min}
`))
	if m := p.Hops.Charges[0].Mass; m != 0 {
		t.Errorf("bittering charge %v, want none", m)
	}
	if !pointsSay(p.NotKept, "not the 0 aimed at") {
		t.Errorf("not kept: %v", p.NotKept)
	}
}

// A beer of real attenuation near whole ends below water.
func TestFinalGravityBelowWater(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.040, fg: 0.998, co2: 2.5 vol}\n"+pale))
	near(t, "final gravity", float64(p.Gravity.FG), 0.998, 1e-9)
	if a := figure(t, p, quantity.Attenuation); a <= 1 {
		t.Errorf("apparent attenuation %.3f, want above 1", a)
	}
	refused(t, withRecipe(t, "aims: {og: 1.040, fg: 0.980}\n"+pale), "aims.fg", "with all its extract gone")
	refused(t, withRecipe(t, "aims: {og: 1.040, fg: 1.045}\n"+pale), "aims.fg", "isn't below the original gravity")
}

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

func TestSizes(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.045, ibu: 30}\n"+pale+"hops: [{hop: challenger, bitterness: 30 IBU, at: boil 60 min}]\n")
	in.Size = 5
	if p := sound(t, in); p.Volumes.Collected != 5 {
		t.Errorf("collected %v", p.Volumes.Collected)
	}
	in.Size = 0
	in.House = readHouse(t, `gyle: brewhouse/1
name: Ten hectolitres
usual: 1000 L
mash: {absorption: 0.8 L/kg, dead: 20 L, yield: 88 %, sparge: fly}
kettle: {loss: 50 L, power: 120 kW, efficiency: 80 %, heat loss: 5 kW, boil: 70 min, cools: 900 min}
cooling: [{name: whirlpool and plates, settle: 20 min, run-off: 45 min}]
`)
	if p := sound(t, in); float64(p.Grist.Mass) < 150 || float64(p.Grist.Mass) > 250 {
		t.Errorf("1000 L of 1.045 from %v", p.Grist.Mass)
	}
}

// By the standard atmosphere water boils near 90 °C at 3000 m: hops give less,
// so more go in.
func TestHighInTheMountains(t *testing.T) {
	text := "aims: {og: 1.045, ibu: 30, co2: 2.4 vol}\n" + pale + "hops: [{hop: challenger, bitterness: 30 IBU, at: boil 60 min}, {hop: bramling-cross, dose: 1 g/L, at: stand 95 °C 15 min}]\n"
	in := withRecipe(t, text)
	low := sound(t, in)
	in.House = readHouse(t, edited(t, "garage", "altitude: 5 m", "altitude: 3000 m", "  boils at: 100 °C\n", ""))
	high := sound(t, in)
	near(t, "boils at, °C", high.Boil.Temperature.Celsius(), 90.1, 0.3)
	if high.Hops.Charges[0].Mass < 1.5*low.Hops.Charges[0].Mass {
		t.Errorf("hops %v at 3000 m, %v at the sea", high.Hops.Charges[0].Mass, low.Hops.Charges[0].Mass)
	}
	if !pointsSay(high.NotKept, "the kettle is at 90 °C then") {
		t.Errorf("not kept: %v", high.NotKept)
	}
	if !says(high.Cautions, "wort boils at 90") {
		t.Errorf("cautions: %v", high.Cautions)
	}
}

func TestStrongBeer(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.120, ibu: 60}\n"+pale+"hops: [{hop: challenger, bitterness: 60 IBU, at: boil 60 min}]\nmash: {ratio: 2.2 L/kg, rests: [65 °C for 90 min]}\n")
	in.Size = 15
	p := sound(t, in)
	if p.Grist.Mass < 9 || p.Grist.Mass > 10.5 {
		t.Errorf("1.120 from %v", p.Grist.Mass)
	}
	if !says(p.Cautions, "measured on ordinary beers; at 1.120") {
		t.Errorf("cautions %v", p.Cautions)
	}
	refused(t, withRecipe(t, "aims: {og: 1.250}\n"+pale), "aims.og", "can't be brewed")
}

func TestWheatAlone(t *testing.T) {
	sound(t, withRecipe(t, "aims: {og: 1.045}\ngrist: [{malt: wheat-malt, share: 100 %}]\n"))
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

func TestWithoutStockAndWater(t *testing.T) {
	in := ferryBrown(t, "4", "garage", "")
	in.Water = nil
	p := sound(t, in)
	if p.Mash.Rail != nil || p.Liquor.Treated || len(p.Liquor.Salts) > 0 {
		t.Error("a plan without a water treats it")
	}
	for _, words := range []string{"pale-ale: extract", "challenger: alpha acids", "water: none given"} {
		if !says(p.Typical, words) {
			t.Errorf("typical %v doesn't say %q", p.Typical, words)
		}
	}
	seen := map[string]bool{}
	for _, one := range p.Typical {
		if seen[one] {
			t.Errorf("said twice: %s", one)
		}
		seen[one] = true
	}
}

// A recipe typed in kilos means an intent here; the intent plans back to the
// same kilos.
func TestKilosMeanIntent(t *testing.T) {
	in := withRecipe(t, `aims: {fg: 1.010}
grist: [{malt: pale-ale, mass: 4.20 kg}, {malt: crystal, mass: 300 g}, {malt: chocolate, mass: 90 g, in: last 15 min}]
hops:
- {hop: challenger, mass: 31 g, at: boil 60 min}
- {hop: bramling-cross, mass: 25 g, at: flame-out}
- {hop: bramling-cross, mass: 40 g, at: dry 3 d}
`)
	p := sound(t, in)
	if len(p.Echo) == 0 {
		t.Error("the plan doesn't say what the masses were taken to mean")
	}
	same := func(what string, got quantity.Mass, want float64) {
		t.Helper()
		near(t, what+", kg", float64(got), want, 0.001*want)
	}
	check := func(p *plan.Plan) {
		t.Helper()
		for i, kg := range []float64{4.2, 0.3, 0.09} {
			same(p.Grist.Lines[i].Malt, p.Grist.Lines[i].Mass, kg)
		}
		for i, kg := range []float64{0.031, 0.025, 0.040} {
			same(p.Hops.Charges[i].Hop, p.Hops.Charges[i].Mass, kg)
		}
	}
	check(p)
	in.Recipe = p.RecipeDocument()
	again := sound(t, in)
	check(again)
	if len(again.Echo) != 0 {
		t.Error("an intent is echoed as if it were masses")
	}
	// The intent travels through its document, too.
	text, err := p.RecipeDocument().Text()
	if err != nil {
		t.Fatal(err)
	}
	in.Recipe = readRecipe(t, string(text))
	check(sound(t, in))
}

// Hops far beyond an ordinary dose hold back wort, which takes more of
// everything; the masses come back even so.
func TestKilosOfAHoppyBeer(t *testing.T) {
	in := withRecipe(t, `aims: {fg: 1.012}
grist: [{malt: pale-ale, mass: 5 kg}]
hops:
- {hop: challenger, mass: 120 g, at: boil 60 min}
- {hop: bramling-cross, mass: 150 g, at: stand 80 °C 20 min}
`)
	in.House = readHouse(t, edited(t, "garage", "vessel: 30 L", "vessel: 60 L", "vessel: 30 L", "vessel: 60 L"))
	in.Stock.Hops = nil
	p := sound(t, in)
	near(t, "malt, kg", float64(p.Grist.Mass), 5, 0.005)
	near(t, "boiled, g", p.Hops.Charges[0].Mass.Grams(), 120, 0.12)
	near(t, "stand, g", p.Hops.Charges[1].Mass.Grams(), 150, 0.15)
	if p.Volumes.KnockOut < 22.5 {
		t.Errorf("270 g of hops leave knock-out at %v", p.Volumes.KnockOut)
	}
}

// The masses were meant for the hops that are named and the usual way of
// cooling: a swap or another way keeps the bitterness, not the grams.
func TestKilosAreMeantBeforeSwaps(t *testing.T) {
	in := onBoathouse(t, "4")
	in.Recipe = readRecipe(t, "gyle: recipe/1\nname: Odd beer\nsize: 84 L\naims: {og: 1.050}\n"+pale+"hops: [{hop: challenger, mass: 140 g, at: boil 60 min}]\n")
	meant := sound(t, in)
	near(t, "as typed, g", meant.Hops.Charges[0].Mass.Grams(), 140, 0.14)
	in.Swap, in.Cooling = map[string]string{"challenger": "northdown"}, "settle and run off"
	p := sound(t, in)
	near(t, "bitterness kept, IBU", float64(p.Hops.IBU), float64(meant.Hops.IBU), 1e-6)
	if p.Hops.Charges[0].Mass >= meant.Hops.Charges[0].Mass {
		t.Errorf("%v of the stronger hop for %v", p.Hops.Charges[0].Mass, meant.Hops.Charges[0].Mass)
	}
}

// The oldest lot goes first, by its day or by its age; one of no known age last.
func TestOldestLotFirst(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.050}\n"+pale+"hops: [{hop: northdown, dose: 2 g/L, at: flame-out}]\n")
	in.Stock = readStock(t, `gyle: stock/1
name: shed
counted: 2026-11-14
hops:
- {lot: UNKNOWN, hop: northdown, mass: 1 kg}
- {lot: NEW, hop: northdown, mass: 10 g, packed: 2026-09-01, kept: -18 °C, pack: airtight}
- {lot: OLD, hop: northdown, mass: 10 g, age: 400 d, kept: 20 °C, pack: open}
`)
	p := sound(t, in)
	var lots []string
	for _, u := range p.Hops.Charges[0].Lots {
		lots = append(lots, u.Lot)
	}
	if got := strings.Join(lots, " "); got != "OLD NEW UNKNOWN" {
		t.Errorf("lots %s", got)
	}
	if !says(p.Cautions, "northdown lot OLD kept") {
		t.Errorf("cautions %v", p.Cautions)
	}
	now, label := plan.AlphaNow(in.Stock.Hops[2], in.Stock.Counted)
	if u := p.Hops.Charges[0].Lots[0]; u.Alpha != now || u.Label != label || now >= label {
		t.Errorf("alpha %v of %v, AlphaNow %v of %v", u.Alpha, u.Label, now, label)
	}
}

// By the demo scenario 2.4 vol at 20 °C take 1.88 bar, computed by hand there;
// a vessel of 1 bar can't hold them warm.
func TestReliefValve(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.050, co2: 2.4 vol}\npackage: {in: keg}\n"+pale)
	in.House = readHouse(t, edited(t, "garage", "fermenter: {vessel: 30 L", "fermenter: {relief: 1 bar, vessel: 30 L"))
	if p := sound(t, in); !says(p.Cautions, "takes 1.88 bar, the relief valve opens at 1.00 bar") {
		t.Errorf("cautions %v", p.Cautions)
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

// Every number that can be asked about has an answer on this plan.
func TestWhyOfEveryTopic(t *testing.T) {
	p := sound(t, onBoathouse(t, "4"))
	for _, name := range plan.Topics() {
		r, ok := p.Why(name, quantity.Printer{})
		if !ok || r.Value == "" || len(r.Inputs) == 0 || len(r.Formulas) == 0 || r.Says == "" {
			t.Errorf("%s: %+v", name, r)
		}
		for _, in := range r.Inputs {
			if strings.Contains(in.Value, "NaN") || strings.Contains(in.Value, "%!") {
				t.Errorf("%s: %s is %q", name, in.Name, in.Value)
			}
		}
	}
	if _, ok := p.Why("luck", quantity.Printer{}); ok {
		t.Error("luck has an explanation")
	}
}

// Hops with a day of packing have aged by the day the stock was counted, in the
// intent of masses as well as in the plan.
func TestKilosOfAgedHops(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.045}\n"+pale+"hops: [{hop: northdown, mass: 30 g, at: boil 60 min}]\n")
	in.Stock = readStock(t, "gyle: stock/1\nname: shed\ncounted: 2026-11-14\nhops: [{lot: N, hop: northdown, alpha: 8 %, packed: 2025-01-14, kept: 20 °C, pack: open}]\n")
	p := sound(t, in)
	near(t, "hops, g", p.Hops.Charges[0].Mass.Grams(), 30, 0.03)
	if p.Hops.Charges[0].Alpha > 0.06 {
		t.Errorf("alpha %v after 22 months in an open bag", p.Hops.Charges[0].Alpha)
	}
}

// Hops without alpha acids can't be meant by bitterness: their mass is a dose.
func TestKilosOfHopsWithoutAlpha(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.045}\n"+pale+"hops: [{hop: northdown, mass: 60 g, at: boil 60 min}]\n")
	in.Stock = readStock(t, "gyle: stock/1\nname: shed\nhops: [{lot: OLD, hop: northdown, alpha: 0 %}]\n")
	p := sound(t, in)
	near(t, "hops, g", p.Hops.Charges[0].Mass.Grams(), 60, 0.06)
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

func TestFirstWortMashAndDryHops(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\n"+pale+`hops:
- {hop: challenger, bitterness: 20 IBU, at: first wort}
- {hop: challenger, bitterness: 4 IBU, at: mash}
- {hop: bramling-cross, dose: 4 g/L, at: dry 3 d 14 °C}
`))
	c := p.Hops.Charges
	near(t, "first wort, IBU", float64(c[0].IBU), 20, 1e-6)
	if c[1].Yield >= c[0].Yield {
		t.Error("mash hops give as much as first-wort hops")
	}
	if !c[2].Dry || c[2].IBU != 0 {
		t.Errorf("dry hops give %v", c[2].IBU)
	}
	near(t, "dry hops, g", c[2].Mass.Grams(), 80, 1e-6)
	near(t, "oil of late hops, mL/hL; mash, first wort and dry hops don't count", p.Hops.Oil, 0, 1e-9)
	if p.Volumes.Packaged >= 19.3 {
		t.Error("dry hops hold no beer back")
	}
	if p.Hops.Path[0].Name != "heat to the boil" {
		t.Errorf("path %v", p.Hops.Path)
	}
	if !says(p.Cautions, "dry hops change the measured bitterness") {
		t.Errorf("cautions: %v", p.Cautions)
	}
}

// Two stands: hottest first; at one temperature the shorter charge goes in
// later, and all end together.
func TestSeveralStands(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\n"+pale+`hops:
- {hop: challenger, dose: 1 g/L, at: stand 75 °C 10 min}
- {hop: bramling-cross, dose: 1 g/L, at: stand 75 °C 30 min}
- {hop: challenger, dose: 1 g/L, at: stand 90 °C 10 min}
`))
	var names []string
	for _, s := range p.Hops.Path {
		names = append(names, s.Name)
	}
	if got := strings.Join(names, ", "); got != "boil, cool to 90 °C, stand, cool to 75 °C, stand, chill" {
		t.Errorf("path: %s", got)
	}
	c := p.Hops.Charges
	if !(c[2].Yield > c[1].Yield && c[1].Yield > c[0].Yield) {
		t.Errorf("yields %v %v %v", c[0].Yield, c[1].Yield, c[2].Yield)
	}
}

// A stand colder than the cooling water is held as cold as the water allows.
func TestStandColderThanWater(t *testing.T) {
	p := sound(t, withRecipe(t, "aims: {og: 1.050}\n"+pale+"hops: [{hop: challenger, dose: 1 g/L, at: stand 10 °C 30 min}]\n"))
	near(t, "cooled to, °C", p.Hops.Path[1].To.Celsius(), 13, 1e-9)
	if !pointsSay(p.NotKept, "at 10 °C: the kettle is at 13 °C then") {
		t.Errorf("not kept: %v", p.NotKept)
	}
}

func TestLotsTooSmall(t *testing.T) {
	in := onGarage(t, "4")
	in.Stock = readStock(t, edited(t, "garage-shed", "lot: PA-A, malt: pale-ale, mass: 22 kg", "lot: PA-A, malt: pale-ale, mass: 3 kg"))
	second := in.Stock.Malts[0]
	second.Lot, second.Mass, second.Bought = "PA-C", nil, stock.Date{}
	in.Stock.Malts = append(in.Stock.Malts, second)
	lots := line(t, sound(t, in), "pale-ale").Lots
	if len(lots) != 2 || lots[0].Lot != "PA-A" || lots[0].Mass != 3 || lots[1].Lot != "PA-C" || lots[1].Short {
		t.Errorf("lots %+v, want 3 kg of the dated lot and the rest of the other", lots)
	}
	little := quantity.Mass(0.1)
	in.Stock.Malts[len(in.Stock.Malts)-1].Mass = &little
	p := sound(t, in)
	lots = line(t, p, "pale-ale").Lots
	if n := len(lots); !lots[n-1].Short || !says(p.Cautions, "the shed is short of 0.13 kg") {
		t.Errorf("lots %+v, cautions %v", lots, p.Cautions)
	}
}

// Two lines of one malt, two charges of one hop don't both count on the same
// sack.
func TestLotsAreDrawnOnce(t *testing.T) {
	in := withRecipe(t, "aims: {og: 1.050}\ngrist: [{malt: pale-ale, share: 50 %}, {malt: pale-ale, share: 50 %, in: last 20 min}]\n"+`hops:
- {hop: challenger, dose: 2 g/L, at: boil 60 min}
- {hop: challenger, dose: 2 g/L, at: dry 3 d}
`)
	malt, hop := quantity.Mass(3), quantity.Grams(50)
	in.Stock.Malts[0].Mass, in.Stock.Hops[0].Mass = &malt, &hop
	p := sound(t, in)
	if lots := p.Grist.Lines[1].Lots; !lots[len(lots)-1].Short {
		t.Errorf("second line of pale malt: %+v, want it short", lots)
	}
	if lots := p.Hops.Charges[1].Lots; !lots[len(lots)-1].Short {
		t.Errorf("second charge of Challenger: %+v, want it short", lots)
	}
}

func TestUnknownNames(t *testing.T) {
	refused(t, withRecipe(t, "aims: {og: 1.050}\ngrist: [{malt: pale-aale, share: 100 %}]\n"), "grist[0].malt", "did you mean pale-ale?")
	refused(t, withRecipe(t, "aims: {og: 1.050}\n"+pale+"hops: [{hop: chalenger, dose: 1 g/L, at: flame-out}]\n"), "hops[0].hop", "did you mean challenger?")
	in := onGarage(t, "4")
	in.Swap = map[string]string{"chalenger": "northdown"}
	refused(t, in, "swap", "did you mean challenger?")
	in.Swap = map[string]string{"challenger": "northdwn"}
	refused(t, in, "hops[0].hop", "did you mean northdown?")
	in = onBoathouse(t, "4")
	in.Cooling = "settle and run of"
	refused(t, in, "cooling", "did you mean settle and run off?")
}

// Another name of the same malt finds its lots.
func TestAliasesFindLots(t *testing.T) {
	in := onGarage(t, "4")
	in.Recipe = readRecipe(t, edited(t, "ferry-brown-4", "oats-flaked", "flaked-oats"))
	if lots := line(t, sound(t, in), "flaked-oats").Lots; lots[0].Lot != "OF-A" {
		t.Errorf("lots %+v", lots)
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

func TestTooMuchGasForBottles(t *testing.T) {
	refused(t, withRecipe(t, "aims: {og: 1.050, co2: 5 vol}\npackage: {in: bottles}\n"+pale), "aims.co2", "use bottles made for it, a keg, or less gas")
	sound(t, withRecipe(t, "aims: {og: 1.050, co2: 5 vol}\npackage: {in: keg}\n"+pale))
	p := sound(t, withRecipe(t, "aims: {og: 1.050, co2: 0.5 vol}\npackage: {in: bottles}\n"+pale))
	if p.Cellar.Priming != 0 || !pointsSay(p.NotKept, "already holds 0.8") {
		t.Errorf("priming %v, not kept %v", p.Cellar.Priming, p.NotKept)
	}
}

// Ranges of the yeast may be open.
func TestOpenRanges(t *testing.T) {
	for _, y := range []string{
		"attenuation: 75 %.., temperature: 18 °C..", "attenuation: ..70 %, temperature: ..20 °C", "attenuation: 90 %..", "temperature: 24 °C..",
	} {
		sound(t, withRecipe(t, "aims: {og: 1.050, co2: 2.2 vol}\nyeast: {kind: english-ale, "+y+"}\n"+pale))
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

func TestMissingDocuments(t *testing.T) {
	if _, err := plan.Make(plan.Input{}); err == nil || !strings.Contains(err.Error(), "a recipe and a house are needed") {
		t.Errorf("error %v", err)
	}
	in := onGarage(t, "4")
	in.Recipe.Aims.OG = nil
	refused(t, in, "aims.og", "needs its original gravity")
	in = onGarage(t, "4")
	mass := quantity.Mass(1)
	in.Recipe.Size, in.Recipe.Hops[0].Mass, in.Recipe.Hops[0].Bitterness = nil, &mass, nil
	refused(t, in, "size", "only with the size of the brew")
	in = onGarage(t, "4")
	in.Size = quantity.Volume(math.NaN())
	refused(t, in, "size", "is none")
}

// Multiplying works with hops that only a shed knows.
func TestMultiplyingHomegrownHops(t *testing.T) {
	rename := func(in plan.Input) plan.Input {
		in.Recipe.Hops[0].Hop = "garden-wall"
		in.Stock.Hops = append(in.Stock.Hops, stock.Hops{Lot: "GW", Hop: "garden-wall", Alpha: ptr(quantity.Percent(5)), Form: "cones"})
		return in
	}
	from, to := made(t, rename(onGarage(t, "4"))), made(t, rename(onBoathouse(t, "4")))
	ways := must[[]plan.Multiplied](t)(plan.Multiply(from, to))
	// The same cones: the masses differ from Challenger's, the bitterness doesn't.
	near(t, "IBU", float64(ways[1].IBU), 43.3, 0.05)
}

func ptr[T any](v T) *T { return &v }
