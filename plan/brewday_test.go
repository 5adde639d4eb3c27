// SPDX-License-Identifier: MIT

package plan_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"gyle/plan"
	"gyle/quantity"
	"gyle/science/carbonation"
	"gyle/science/ferment"
	"gyle/science/gravity"
)

// brewed returns the beer that a plan gives when t is changed as wanted.
func brewed(t testing.TB, p *plan.Plan, change func(*plan.Truth)) (*plan.Brewday, *plan.Beer) {
	t.Helper()
	d, err := p.Brewday()
	if err != nil {
		t.Fatal(err)
	}
	truth, beer := d.Truth(), d.NewBeer()
	if change != nil {
		change(truth)
	}
	d.Brew(truth, beer)
	return d, beer
}

// offPlan says where a brewing without any mistake leaves its plan.
func offPlan(p *plan.Plan) string {
	d, err := p.Brewday()
	if err != nil {
		return err.Error()
	}
	beer := d.NewBeer()
	d.Brew(d.Truth(), beer)
	off := func(a, b float64) bool { return !(math.Abs(a-b) <= 1e-8*math.Max(1e-3, math.Abs(b))) }
	for i, f := range d.Figures() {
		if off(beer.Figures[i], p.Figures[i].Value) {
			return f.Label() + " " + f.Format(beer.Figures[i]) + ", planned " + f.Format(p.Figures[i].Value)
		}
	}
	for i, c := range p.Hops.Charges {
		if !c.Dry && off(beer.IBU[i], float64(c.IBU)) {
			return "bitterness of " + c.Hop
		}
	}
	switch v := p.Volumes; {
	case off(float64(beer.KnockOut), float64(v.KnockOut)), off(float64(beer.Collected), float64(v.Collected)), off(float64(beer.Packaged), float64(v.Packaged)):
		return "volumes"
	}
	return ""
}

// With every mistake at zero the beer is that of the plan, to the rounding of
// the solvers.
func TestBrewingWithoutMistakes(t *testing.T) {
	for _, version := range []string{"1", "2", "3", "4"} {
		for _, in := range []plan.Input{onGarage(t, version), onBoathouse(t, version)} {
			if fault := offPlan(made(t, in)); fault != "" {
				t.Errorf("version %s on %s: %s", version, in.House.Name, fault)
			}
			in.Cooling = in.House.Cooling[len(in.House.Cooling)-1].Name
			in.Stock, in.Water = nil, nil
			if fault := offPlan(made(t, in)); fault != "" {
				t.Errorf("version %s on %s with typical lots: %s", version, in.House.Name, fault)
			}
		}
	}
	if fault := offPlan(made(t, fiveCharges(t))); fault != "" {
		t.Errorf("a charge at every stage: %s", fault)
	}
}

// So it is for any recipe that can be planned.
func TestBrewingWithoutMistakesOfAnyRecipe(t *testing.T) {
	bases := []plan.Input{onGarage(t, "4"), onBoathouse(t, "4")}
	rapid.Check(t, func(t *rapid.T) {
		in := drawn(t, rapid.SampledFrom(bases).Draw(t, "base"))
		p, err := plan.Make(in)
		if err != nil {
			t.Skip("it can't be planned")
		}
		if fault := offPlan(p); fault != "" {
			t.Fatalf("%s", fault)
		}
	})
}

// What one mistake does by itself, against the same balance by hand.
func TestOneMistake(t *testing.T) {
	p := made(t, onGarage(t, "4"))
	find := func(d *plan.Brewday, b *plan.Beer, name quantity.Figure) float64 {
		for i, f := range d.Figures() {
			if f == name {
				return b.Figures[i]
			}
		}
		t.Fatalf("no %s", name)
		return 0
	}
	d, b := brewed(t, p, func(is *plan.Truth) { is.Bitterness = 1.1 })
	near(t, "IBU with K 10 % higher", find(d, b, quantity.Bitterness), 1.1*float64(p.Hops.IBU), 1e-6)

	// 1 % more extract in the same kettle: its balance solved anew.
	d, b = brewed(t, p, func(is *plan.Truth) { is.Yield = 1.01 })
	full := p.Volumes.FullKettle
	extract := 1.01 * float64(gravity.ExtractMass(full, p.Gravity.FullKettle))
	sg := p.Gravity.FullKettle
	for float64(gravity.ExtractMass(full, sg)) < extract {
		sg += 1e-7
	}
	mass := gravity.WortMass(full, sg) - p.Boil.Evaporation
	og := gravity.SGFromPlato(quantity.Plato(100 * extract / float64(mass)))
	near(t, "OG with 1 % more yield", find(d, b, quantity.OG), float64(og), 2e-7)
	near(t, "FG follows", find(d, b, quantity.FG), float64(ferment.FinalGravity(og, ferment.Attenuation(p.Gravity.OG, p.Gravity.FG))), 2e-7)

	// Warm beer holds less gas before priming.
	d, b = brewed(t, p, func(is *plan.Truth) { is.Warmest = 2 })
	less := carbonation.Residual(quantity.Celsius(22), carbonation.AirPressure(5)) - carbonation.Residual(quantity.Celsius(20), carbonation.AirPressure(5))
	near(t, "gas of beer at 22 °C", find(d, b, quantity.CO2), 2.2+float64(less), 1e-9)

	// More boil-off: less volume, more of everything in it.
	d, b = brewed(t, p, func(is *plan.Truth) { is.Evaporation = 1.2 })
	near(t, "extract stays", float64(gravity.ExtractMass(b.KnockOut, quantity.SG(find(d, b, quantity.OG)))), float64(p.Gravity.Extract), 1e-8)
	if !(b.KnockOut < p.Volumes.KnockOut && find(d, b, quantity.Bitterness) > float64(p.Hops.IBU)) {
		t.Error("a stronger boil must give less and more bitter wort")
	}
	d, b = brewed(t, p, func(is *plan.Truth) { is.MashPH = 0.07 })
	near(t, "mash pH off by 0.07", find(d, b, quantity.MashPH), float64(p.Mash.PH)+0.07, 1e-9)
	_, b = brewed(t, p, func(is *plan.Truth) { is.Tau = 2 })
	if !(b.IBU[0] > float64(p.Hops.Charges[0].IBU)) {
		t.Error("slow cooling must make the early charge more bitter")
	}
}

// A plan that was read from a file can't be brewed on paper.
func TestBrewdayNeedsAPlanMadeHere(t *testing.T) {
	if _, err := new(plan.Plan).Brewday(); err == nil {
		t.Error("want an error")
	}
	if _, err := (*plan.Plan)(nil).Brewday(); err == nil {
		t.Error("want an error")
	}
}

func BenchmarkBrew(b *testing.B) {
	d, err := made(b, onGarage(b, "4")).Brewday()
	if err != nil {
		b.Fatal(err)
	}
	truth, beer := d.Truth(), d.NewBeer()
	b.ReportAllocs()
	for b.Loop() {
		d.Brew(truth, beer)
	}
}
