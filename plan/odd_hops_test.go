// SPDX-License-Identifier: MIT

package plan_test

import (
	"strings"
	"testing"

	"gyle/plan"
	"gyle/quantity"
	"gyle/stock"
)

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

// Another name of the same malt finds its lots.
func TestAliasesFindLots(t *testing.T) {
	in := onGarage(t, "4")
	in.Recipe = readRecipe(t, edited(t, "ferry-brown-4", "oats-flaked", "flaked-oats"))
	if lots := line(t, sound(t, in), "flaked-oats").Lots; lots[0].Lot != "OF-A" {
		t.Errorf("lots %+v", lots)
	}
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
