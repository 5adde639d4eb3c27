// SPDX-License-Identifier: MIT

package judge

import (
	"fmt"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/ferment"
	"gyle/science/gravity"
	"gyle/science/hops"
	chem "gyle/science/water"
)

// usualBoil is the boil of a recipe that leaves it to the house. Common practice.
const usualBoil quantity.Duration = 60

// title names a version of a beer.
func title(name string, version int) string {
	if version == 0 {
		return name
	}
	return fmt.Sprintf("%s %d", name, version)
}

// ofRecipe gathers what a recipe says of its beer.
func ofRecipe(r *recipe.Recipe) *beer {
	b := &beer{
		subject: title(r.Name, r.Version), boil: usualBoil, yeast: r.Yeast,
		figures: map[quantity.Figure]figure{}, lacks: map[quantity.Figure]string{},
	}
	if r.Boil != nil {
		b.boil = *r.Boil
	}
	b.readGrist(r)
	b.readHops(r)
	b.readAims(r)
	b.readWater(r.Water)
	return b
}

func (b *beer) readGrist(r *recipe.Recipe) {
	for _, g := range r.Grist {
		if g.Mass != nil {
			b.mass += *g.Mass
		}
	}
	for i, meant := range r.Grist {
		g := newGrain(meant.Malt, meant.Color)
		g.role, g.in, g.index = meant.Role, meant.In, i
		switch {
		case meant.Share != nil:
			g.share = float64(*meant.Share)
		case meant.Mass != nil && b.mass > 0:
			g.share = float64(*meant.Mass / b.mass)
		}
		b.grains = append(b.grains, g)
	}
}

func (b *beer) readHops(r *recipe.Recipe) {
	for i, meant := range r.Hops {
		c := charge{hop: meant.Hop, id: hopID(meant.Hop), at: meant.At, index: i, meansIBU: meant.Bitterness != nil}
		switch {
		case meant.Bitterness != nil:
			c.ibu = plain(meant.Bitterness)
		case meant.Dose != nil:
			c.dose = plain(meant.Dose)
		case meant.Mass != nil:
			c.mass = *meant.Mass
			if r.Size != nil && *r.Size > 0 && c.isDry() {
				dose := c.mass.Grams() / float64(*r.Size)
				c.dose = &dose
			}
		}
		if isNothing(c.ibu) || isNothing(c.dose) || (meant.Mass != nil && c.mass == 0) {
			continue
		}
		b.charges = append(b.charges, c)
	}
}

func isNothing(x *float64) bool { return x != nil && *x == 0 }

func plain[T ~float64](x *T) *float64 {
	if x == nil {
		return nil
	}
	f := float64(*x)
	return &f
}

// readAims takes the figures a recipe aims at, and those that follow from them.
func (b *beer) readAims(r *recipe.Recipe) {
	b.fg = finalGravity(r)
	if r.Aims.OG != nil {
		b.figures[quantity.OG] = figure{value: float64(gravity.SGOf(*r.Aims.OG))}
	} else {
		b.lacks[quantity.OG] = "the recipe doesn't aim at an original gravity"
	}
	b.know(quantity.Bitterness, b.meantIBU(r), "the recipe doesn't say its bitterness in all")
	b.know(quantity.CO2, plain(r.Aims.CO2), "the recipe doesn't aim at a carbonation")
	b.know(quantity.MashPH, plain(r.Mash.PH), "the recipe doesn't aim at a mash pH")
	if c := r.Aims.Color; c != nil {
		b.figures[quantity.BeerColor] = figure{value: float64(c.EBC())}
	} else {
		b.lacks[quantity.BeerColor] = "the recipe doesn't aim at a colour; a plan computes it"
	}
	b.derive()
}

// derive computes the figures that follow from gravities and bitterness.
func (b *beer) derive() {
	og, known := b.figures[quantity.OG]
	if !known {
		for _, f := range []quantity.Figure{quantity.FG, quantity.ABV, quantity.Attenuation, quantity.BUGU} {
			b.lacks[f] = b.lacks[quantity.OG]
		}
		return
	}
	if ibu, ok := b.figures[quantity.Bitterness]; ok {
		b.figures[quantity.BUGU] = figure{value: hops.BUGU(quantity.IBU(ibu.value), quantity.SG(og.value))}
	} else {
		b.lacks[quantity.BUGU] = b.lacks[quantity.Bitterness]
	}
	fg, ok := b.fg(quantity.SG(og.value))
	if !ok {
		for _, f := range []quantity.Figure{quantity.FG, quantity.ABV, quantity.Attenuation} {
			b.lacks[f] = "the recipe says neither a final gravity nor how far its yeast goes"
		}
		return
	}
	b.figures[quantity.FG] = figure{value: float64(fg)}
	b.figures[quantity.ABV] = figure{value: float64(ferment.Alcohol(quantity.SG(og.value), fg))}
	b.figures[quantity.Attenuation] = figure{value: float64(ferment.Attenuation(quantity.SG(og.value), fg))}
}

func (b *beer) know(f quantity.Figure, value *float64, lack string) {
	if value == nil {
		b.lacks[f] = lack
		return
	}
	b.figures[f] = figure{value: *value}
}

// finalGravity returns how the final gravity of a recipe follows from its
// original gravity: it is aimed at, or the middle of the yeast's attenuation.
func finalGravity(r *recipe.Recipe) func(quantity.SG) (quantity.SG, bool) {
	if r.Aims.FG != nil {
		fg := gravity.SGOf(*r.Aims.FG)
		return func(quantity.SG) (quantity.SG, bool) { return fg, true }
	}
	span, ok := attenuation(r.Yeast)
	return func(og quantity.SG) (quantity.SG, bool) {
		return ferment.FinalGravity(og, (span.Low+span.High)/2), ok
	}
}

// attenuation returns how far the yeast goes: as the recipe says, else as is
// typical of its kind.
func attenuation(y *recipe.Yeast) (span quantity.Span[quantity.Fraction], ok bool) {
	if y == nil {
		return span, false
	}
	if y.Attenuation != nil {
		return *y.Attenuation, true
	}
	typical, known := data.Yeast(y.Kind)
	if !known || typical.ApparentAttenuation == nil {
		return span, false
	}
	r := *typical.ApparentAttenuation
	return quantity.Span[quantity.Fraction]{Low: quantity.Percent(r.Low()), High: quantity.Percent(r.High())}, true
}

// meantIBU returns the bitterness aimed at, or the sum of the charges if every
// one says its own.
func (b *beer) meantIBU(r *recipe.Recipe) *float64 {
	if r.Aims.IBU != nil {
		return plain(r.Aims.IBU)
	}
	sum := 0.0
	for _, c := range b.charges {
		if c.isDry() {
			continue
		}
		if c.ibu == nil {
			return nil
		}
		sum += *c.ibu
	}
	return &sum
}

// readWater takes the aims of the liquor. Residual alkalinity needs all of its
// ions; of sulfate and chloride, the ratio.
func (b *beer) readWater(w *recipe.Water) {
	const lack = "the recipe doesn't aim at it in its water"
	if w == nil {
		w = new(recipe.Water)
	}
	b.know(quantity.Calcium, plain(w.Ca), lack)
	b.know(quantity.Magnesium, plain(w.Mg), lack)
	b.know(quantity.Sodium, plain(w.Na), lack)
	b.know(quantity.Chloride, plain(w.Cl), lack)
	b.know(quantity.Sulfate, plain(w.SO4), lack)
	b.know(quantity.Bicarbonate, plain(w.HCO3), lack)
	b.lacks[quantity.SulfateToChloride] = "the recipe doesn't aim at sulfate and chloride"
	b.lacks[quantity.ResidualAlkalinity] = "the recipe doesn't aim at calcium, magnesium and bicarbonate"
	if w.SO4 != nil && w.Cl != nil && *w.Cl > 0 {
		b.figures[quantity.SulfateToChloride] = figure{value: float64(*w.SO4 / *w.Cl)}
	}
	if w.Ca != nil && w.Mg != nil && w.HCO3 != nil {
		ions := chem.Ions{chem.Calcium: float64(*w.Ca), chem.Magnesium: float64(*w.Mg), chem.Bicarbonate: float64(*w.HCO3)}
		b.figures[quantity.ResidualAlkalinity] = figure{value: float64(chem.ResidualAlkalinity(ions))}
	}
}

// ofPlan gathers what a plan makes of a beer.
func ofPlan(p *plan.Plan) *beer {
	b := &beer{
		subject: title(p.Recipe, p.Version) + " on " + p.House, boil: p.Boil.Time, mass: p.Grist.Mass, planned: true,
		figures: map[quantity.Figure]figure{}, lacks: map[quantity.Figure]string{},
	}
	if p.Hops.Cooling != "" {
		b.subject += ", " + p.Hops.Cooling
	}
	b.fg = func(quantity.SG) (quantity.SG, bool) { return p.Gravity.FG, true }
	if r := p.RecipeDocument(); r != nil {
		b.yeast = r.Yeast
		b.fg = finalGravity(r)
		if r.Boil != nil {
			b.boil = *r.Boil
		}
	}
	for _, f := range p.Figures {
		b.figures[f.Figure] = figure{f.Value, f.SD}
	}
	for i, line := range p.Grist.Lines {
		g := newGrain(line.Malt, nil)
		g.role, g.in, g.share, g.index = line.Role, line.In, float64(line.Share), i
		g.color, g.hued = float64(line.Color), true
		b.grains = append(b.grains, g)
	}
	for i, line := range p.Hops.Charges {
		if line.Mass <= 0 {
			continue
		}
		b.charges = append(b.charges, charge{
			hop: line.Hop, id: hopID(line.Hop), at: line.At, ibu: plain(&line.IBU), dose: plain(&line.Dose), mass: line.Mass, index: i, meansIBU: line.Aim > 0,
		})
	}
	return b
}
