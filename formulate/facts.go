// SPDX-License-Identifier: MIT

package formulate

import (
	"errors"
	"fmt"
	"slices"
	"sync"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/science/mash"
)

// column is a grain in one of the ways it may come in: a variable of the grist.
type column struct {
	malt    int // of the wish
	in      recipe.Entry
	extract float64 // kg that reach the kettle per kg, the house's yield included
	color   float64 // °L that reach the wort
}

// charge is a hop at one of its moments: a variable of the hops.
type charge struct {
	hop    int // of the wish
	at     recipe.Moment
	yield  float64 // IBU per g/L; 0 of dry hops, whose bitterness no rule means
	oil    float64 // mL/hL per g/L
	byDose bool    // a rule of doses looks at it, so it is written as a dose
}

func (c charge) dry() bool { return c.at.Stage == recipe.AtDry }

// paperHouse is the document of [PaperHouse].
const paperHouse = `gyle: brewhouse/1
name: a middling house
usual: 20 L
mash: {absorption: 0.9 L/kg, yield: 75 ± 5 %, sparge: batch, preheated: yes, grain: 18 °C}
kettle: {loss: 1 L, power: 2.5 kW, efficiency: 95 %, heat loss: 0.6 kW, boil: 60 min, cools: 120 min, room: 20 °C, open: yes}
cooling:
- {name: coil in the kettle, tau: 7 min, water: 14 °C}
fermenter: {loss: 0.7 L}
note: 'The middle of what small breweries are like (common practice). No brew was measured here.'
`

// PaperHouse returns the house that recipes are reckoned on when a wish names
// none: 20 L with a yield of 75 %, the middle of common practice. It exists on
// paper only.
func PaperHouse() *brewhouse.House {
	h := *parsedHouse()
	return &h
}

var parsedHouse = sync.OnceValue(func() *brewhouse.House {
	h, err := brewhouse.Parse("paper house", []byte(paperHouse))
	if err != nil {
		panic("formulate: " + err.Error())
	}
	return h
})

// usualDose is the dose at which yields of charges are first reckoned.
const usualDose quantity.Dose = 1

// measure makes a plan of a recipe and takes from it what the columns and
// charges of the wish give: extract, colour, bitterness per dose. What the
// recipe doesn't hold keeps its figures.
func (w *work) measure(r *recipe.Recipe) (*plan.Plan, error) {
	p, err := w.planOf(r)
	if err != nil {
		return nil, err
	}
	for k, line := range p.Grist.Lines { // in the order of the recipe
		for i := range w.columns {
			if c := &w.columns[i]; w.is(c, &r.Grist[k]) {
				c.take(line, p)
			}
		}
	}
	for _, line := range p.Hops.Charges {
		for i := range w.charges {
			c := &w.charges[i]
			if w.wish.Hops[c.hop].Hop == line.Hop && c.at == line.At && line.Dose > 0 {
				if !c.dry() {
					c.yield = float64(line.IBU) / float64(line.Dose)
				}
				c.oil = line.Oil / float64(line.Dose)
			}
		}
	}
	w.knockOut, w.collected = p.Volumes.KnockOut, p.Volumes.Collected
	return p, nil
}

// is reports whether a column is the malt of a line, however it comes in.
func (w *work) is(c *column, g *recipe.Grain) bool {
	m := w.wish.Malts[c.malt]
	return m.Malt == g.Malt && equalColor(m.Color, g.Color)
}

func equalColor(a, b *quantity.Color) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}

// take takes what a malt gives from a line of a plan.
func (c *column) take(line plan.GrainLine, p *plan.Plan) {
	extract, mass := 0.0, 0.0
	for _, u := range line.Lots {
		extract += float64(u.Extract) * float64(u.Mass)
		mass += float64(u.Mass)
	}
	if mass > 0 {
		extract /= mass
	} else if len(line.Lots) > 0 {
		extract = float64(line.Lots[0].Extract)
	}
	house := float64(p.Grist.Yield)
	entry := mash.FromStart
	switch c.in.Way {
	case recipe.LateMash:
		entry = mash.Late
	case recipe.ColdSteep:
		entry = mash.ColdSteep
		house *= float64(mash.ExtractYield(mash.ColdSteep))
	case recipe.InKettle:
		house = 1
	}
	c.extract = extract * house
	c.color = color.LovibondFromEBC(line.Color) * float64(mash.ColorYield(entry))
}

// planOf makes a plan of a recipe on the house of the wish, as large as it is
// wished or as the vessels hold.
func (w *work) planOf(r *recipe.Recipe) (*plan.Plan, error) {
	in := plan.Input{Recipe: r, House: w.house, Stock: w.wish.Stock, Water: w.wish.Water, Options: plan.Options{Size: w.wish.Size, Cooling: w.wish.Cooling, Reader: w.wish.Reader}}
	p, err := plan.Make(in)
	var large *plan.TooLarge
	if errors.As(err, &large) && large.Largest > 0 {
		w.say("%s holds no more than %s of this beer", w.house.Name, w.wish.Reader.Volume(large.Largest))
		in.Size = large.Largest * 0.999
		p, err = plan.Make(in)
	}
	if err != nil {
		return nil, fmt.Errorf("plan the recipe on %s: %w", w.house.Name, err)
	}
	return p, nil
}

// everything is a recipe that holds a little of all that may be used, base malt
// most, for the first reckoning.
func (w *work) everything(og quantity.SG) *recipe.Recipe {
	total := 0.0
	weight := func(m Malt) float64 {
		if typical, ok := data.Malt(m.Malt); ok && (typical.Class == "base" || typical.Class == "extract") {
			return 20
		}
		return 1
	}
	for _, c := range w.columns {
		total += weight(w.wish.Malts[c.malt])
	}
	gravity := quantity.GravitySG(og)
	r := &recipe.Recipe{Name: "everything", Aims: recipe.Aims{OG: &gravity}, Boil: &w.boil, Mash: w.mashing()}
	for _, c := range w.columns {
		m := w.wish.Malts[c.malt]
		share := quantity.Fraction(weight(m) / total)
		r.Grist = append(r.Grist, recipe.Grain{Malt: m.Malt, Color: m.Color, In: c.in, Share: &share})
	}
	stands := 0
	for _, c := range w.charges {
		if c.at.Stage == recipe.AtStand {
			if stands++; stands > 1 && !slices.ContainsFunc(r.Hops, func(h recipe.Charge) bool { return h.At == c.at }) {
				continue // a second stand would make the first one's hops bitter
			}
		}
		dose := usualDose
		r.Hops = append(r.Hops, recipe.Charge{Hop: w.wish.Hops[c.hop].Hop, At: c.at, Dose: &dose})
	}
	return r
}
