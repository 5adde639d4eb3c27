// SPDX-License-Identifier: MIT

package plan_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"gyle/brewhouse"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
	"gyle/stock"
)

// unbalanced says what doesn't add up in a plan, or nothing.
func unbalanced(p *plan.Plan) string {
	off := func(a, b float64) bool { return !(math.Abs(a-b) <= 1e-6*math.Max(1, math.Abs(b))) }
	share, mass, extract, extractShare := 0.0, 0.0, 0.0, 0.0
	for _, l := range p.Grist.Lines {
		share, mass, extractShare = share+float64(l.Share), mass+float64(l.Mass), extractShare+float64(l.ExtractShare)
		lots := 0.0
		for _, u := range l.Lots {
			lots += float64(u.Mass)
			yield := float64(p.Grist.Yield)
			switch l.In.Way {
			case recipe.InKettle:
				yield = 1
			case recipe.ColdSteep:
				yield *= 0.55 // the middle of 0.4 to 0.7, common practice
			}
			extract += float64(u.Mass) * float64(u.Extract) * yield
		}
		if off(lots, float64(l.Mass)) {
			return fmt.Sprintf("%s: lots of %g kg for %v", l.Malt, lots, l.Mass)
		}
	}
	switch kettle := float64(gravity.ExtractMass(p.Volumes.KnockOut, p.Gravity.OG)); {
	case off(share, 1):
		return fmt.Sprintf("shares add up to %g", share)
	case off(extractShare, 1):
		return fmt.Sprintf("shares of the extract add up to %g", extractShare)
	case off(mass, float64(p.Grist.Mass)):
		return fmt.Sprintf("lines of %g kg for a grist of %v", mass, p.Grist.Mass)
	case off(extract, kettle) || off(float64(p.Gravity.Extract), kettle):
		return fmt.Sprintf("extract from the grist %g kg, in the kettle %g kg, written %v", extract, kettle, p.Gravity.Extract)
	}
	l := p.Liquor
	if off(float64(l.Mash+l.Infused+l.Steep+l.Sparge), float64(l.Total)) {
		return fmt.Sprintf("liquor: %v + %v + %v + %v isn't %v", l.Mash, l.Infused, l.Steep, l.Sparge, l.Total)
	}
	ibu := 0.0
	for _, c := range p.Hops.Charges {
		ibu += float64(c.IBU)
		lots, earned := 0.0, 0.0
		for _, u := range c.Lots {
			lots += float64(u.Mass)
		}
		for _, e := range c.Earned {
			earned += float64(e)
		}
		if off(lots, float64(c.Mass)) || c.Mass < 0 {
			return fmt.Sprintf("%s: lots of %g kg for %v", c.Hop, lots, c.Mass)
		}
		if len(c.Earned) > 0 && off(earned, float64(c.IBU)) {
			return fmt.Sprintf("%s: earned %g of %v", c.Hop, earned, c.IBU)
		}
	}
	if off(ibu, float64(p.Hops.IBU)) {
		return fmt.Sprintf("charges of %g for %v", ibu, p.Hops.IBU)
	}
	return ""
}

// drawn is an arbitrary but brewable input.
func drawn(t *rapid.T, base plan.Input) plan.Input {
	between := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	r, h, s := *base.Recipe, *base.House, *base.Stock
	og := quantity.GravitySG(quantity.SG(between(1.025, 1.100, "og")))
	ibu := quantity.IBU(between(0, 60, "ibu"))
	r.Aims = recipe.Aims{OG: &og, IBU: &ibu}
	r.Grist = append([]recipe.Grain(nil), r.Grist...)
	last := len(r.Grist) - 1
	r.Grist[last].In = rapid.SampledFrom([]recipe.Entry{{}, {Way: recipe.LateMash, Time: 15}, {Way: recipe.ColdSteep, Time: 900}}).Draw(t, "roast")
	r.Grist[last].Role = rapid.SampledFrom([]recipe.Role{recipe.RoleNone, recipe.RoleColor}).Draw(t, "role")
	r.Hops = append([]recipe.Charge(nil), r.Hops...)
	bitter := quantity.IBU(between(0, 40, "bitter"))
	r.Hops[0].Bitterness = &bitter
	r.Hops[1].At = rapid.SampledFrom([]recipe.Moment{
		{Stage: recipe.AtStand, Temperature: quantity.Celsius(between(60, 99, "stand")), Time: 20},
		{Stage: recipe.AtFlameOut}, {Stage: recipe.AtDry, Time: quantity.Days(3)}, {Stage: recipe.AtBoil, Time: 10}, {Stage: recipe.AtFirstWort},
	}).Draw(t, "late")
	r.Mash.Rests = rapid.SampledFrom([][]recipe.Rest{
		nil, r.Mash.Rests,
		{{Temperature: quantity.Celsius(62), Time: 30}, {Temperature: quantity.Celsius(70), Time: 30}},
		{{Temperature: quantity.Celsius(68), Time: 30}, {Temperature: quantity.Celsius(63), Time: 30}},
	}).Draw(t, "rests")
	h.Mash.Vessel, h.Kettle.Vessel, h.Fermenter.Vessel = nil, nil, nil
	if rapid.Bool().Draw(t, "heated") {
		h.Mash.Power = ptr(quantity.Power(2.4))
	} else {
		h.Mash.Power = nil
	}
	h.Mash.Yield = &quantity.FractionEstimate{Value: quantity.Fraction(between(0.6, 0.95, "yield"))}
	if rapid.Bool().Draw(t, "by run-off") {
		h.Mash.Yield, h.Mash.Conversion = nil, ptr(quantity.Fraction(between(0.8, 1, "conversion")))
		h.Mash.Sparge = rapid.SampledFrom([]string{"fly", "batch", "twice", "none"}).Draw(t, "sparge")
	}
	h.Altitude = quantity.Length(between(0, 3000, "altitude"))
	h.Kettle.BoilsAt = nil
	h.Cooling = append([]brewhouse.Cooling(nil), h.Cooling...)
	s.Hops = append([]stock.Hops(nil), s.Hops...)
	s.Hops[0].Alpha = ptr(quantity.Fraction(between(0.02, 0.18, "alpha")))
	if rapid.Bool().Draw(t, "few hops") {
		s.Hops[0].Mass = ptr(quantity.Grams(10))
	}
	base.Recipe, base.House, base.Stock = &r, &h, &s
	base.Size = quantity.Volume(between(5, 200, "size"))
	base.KeepOil = rapid.Bool().Draw(t, "keep oil")
	return base
}

// Whatever is brewed: extract, shares, lots, liquor and bitterness add up, every
// number is finite, and the same input gives the same plan.
func TestEveryPlanAddsUp(t *testing.T) {
	bases := []plan.Input{onGarage(t, "4"), onBoathouse(t, "4")}
	rapid.Check(t, func(t *rapid.T) {
		in := drawn(t, rapid.SampledFrom(bases).Draw(t, "base"))
		p, err := plan.Make(in)
		if err != nil {
			if _, reasons := err.(plan.Problems); !reasons {
				t.Fatalf("%v", err)
			}
			t.Skipf("refused: %v", err)
		}
		if problem := unbalanced(p); problem != "" {
			t.Fatal(problem)
		}
		once, err := p.JSON()
		if err != nil {
			t.Fatal(err)
		}
		again, err := plan.Make(in)
		if err != nil {
			t.Fatal(err)
		}
		if twice, _ := again.JSON(); !bytes.Equal(once, twice) {
			t.Fatal("the same input gives another plan")
		}
	})
}

// A house whose losses and heat grow with the size needs kilos in proportion.
func TestKilosGrowWithTheSize(t *testing.T) {
	base := onGarage(t, "4")
	rapid.Check(t, func(t *rapid.T) {
		factor := rapid.Float64Range(0.2, 10).Draw(t, "factor")
		in, h := base, *base.House
		h.Mash.Vessel, h.Kettle.Vessel, h.Fermenter.Vessel = nil, nil, nil
		h.Kettle.Loss *= quantity.Volume(factor)
		h.Kettle.Power *= quantity.Power(factor)
		h.Kettle.HeatLoss *= quantity.Power(factor)
		h.Mash.HeatCapacity *= quantity.HeatCapacity(factor)
		in.House, in.Stock, in.Size = &h, nil, quantity.Volume(20*factor)
		one := base
		one.Stock = nil
		small, err := plan.Make(one)
		if err != nil {
			t.Fatal(err)
		}
		large, err := plan.Make(in)
		if err != nil {
			t.Fatal(err)
		}
		for i := range small.Grist.Lines {
			a, b := float64(small.Grist.Lines[i].Mass)*factor, float64(large.Grist.Lines[i].Mass)
			if math.Abs(a-b) > 1e-6*a {
				t.Fatalf("%s: %g kg, in proportion %g kg", small.Grist.Lines[i].Malt, b, a)
			}
		}
		for i := range small.Hops.Charges {
			a, b := float64(small.Hops.Charges[i].Mass)*factor, float64(large.Hops.Charges[i].Mass)
			if math.Abs(a-b) > 1e-6*a {
				t.Fatalf("%s: %g kg, in proportion %g kg", small.Hops.Charges[i].Hop, b, a)
			}
		}
	})
}

// More alpha acids, fewer hops; the bitterness stays.
func TestMoreAlphaFewerHops(t *testing.T) {
	base := onGarage(t, "4")
	rapid.Check(t, func(t *rapid.T) {
		alpha := rapid.Float64Range(0.02, 0.15).Draw(t, "alpha")
		more := alpha * rapid.Float64Range(1.01, 2).Draw(t, "times")
		plans := [2]*plan.Plan{}
		for i, a := range []float64{alpha, more} {
			in, s := base, *base.Stock
			s.Hops = append([]stock.Hops(nil), s.Hops...)
			s.Hops[0].Alpha, s.Hops[0].Mass = ptr(quantity.Fraction(a)), nil
			in.Stock = &s
			p, err := plan.Make(in)
			if err != nil {
				t.Fatal(err)
			}
			plans[i] = p
		}
		less, few := plans[0].Hops, plans[1].Hops
		if few.Charges[0].Mass >= less.Charges[0].Mass || math.Abs(float64(few.IBU-less.IBU)) > 1e-6 {
			t.Fatalf("alpha %g → %g: %v → %v, %v → %v", alpha, more, less.Charges[0].Mass, few.Charges[0].Mass, less.IBU, few.IBU)
		}
	})
}

// The colour aimed at is met whenever the malt that holds it can: between the
// beer without it and the beer with nothing but it in place of pale malt.
func TestColorIsMetWhenItCanBe(t *testing.T) {
	base := onGarage(t, "4")
	rapid.Check(t, func(t *rapid.T) {
		in, r := base, *base.Recipe
		aim := rapid.Float64Range(5, 300).Draw(t, "ebc")
		r.Aims.Color = &quantity.Color{Value: aim}
		c, err := quantity.ParseColor(fmt.Sprintf("%g EBC", aim))
		if err != nil {
			t.Fatal(err)
		}
		r.Aims.Color = &c
		in.Recipe = &r
		p, err := plan.Make(in)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := p.Find(quantity.BeerColor)
		chocolate, pale := p.Grist.Lines[len(p.Grist.Lines)-1], p.Grist.Lines[0]
		if math.Abs(got.Value-aim) > 1e-3 && chocolate.Share > 1e-9 && pale.Share > 1e-9 {
			t.Fatalf("%.4f EBC for %.4f with chocolate %v and pale %v", got.Value, aim, chocolate.Share, pale.Share)
		}
	})
}
