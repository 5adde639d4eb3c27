// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"slices"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
)

// intentOf turns a recipe that was typed in masses into intent: shares,
// original gravity, bitterness and doses, as the house of the input would
// have them. A recipe in shares is returned as it is. The echo says what the
// masses were taken to mean.
func intentOf(in Input) (*recipe.Recipe, []string, error) {
	r := in.Recipe
	byMass := slices.ContainsFunc(r.Grist, func(g recipe.Grain) bool { return g.Mass != nil })
	hopsByMass := slices.ContainsFunc(r.Hops, func(c recipe.Charge) bool { return c.Mass != nil })
	if !byMass && !hopsByMass {
		return r, nil, nil
	}
	if r.Size == nil {
		return nil, nil, Problems{{"size", "masses mean something only with the size of the brew", "add size: 20 L"}}
	}
	clone := *r
	clone.Grist, clone.Hops = slices.Clone(r.Grist), slices.Clone(r.Hops)
	w := &work{in: in, taken: ledger{}, plan: &Plan{}}
	// The masses were meant for the hops that the recipe names and for the usual
	// way of cooling; what is wished for this one plan comes after.
	w.in.Recipe, w.in.Options = &clone, Options{Size: *r.Size, On: in.On}
	w.resolveGrist()
	w.resolveHops()
	if len(w.problems) > 0 {
		return nil, nil, w.problems
	}
	echo := []string{fmt.Sprintf("typed in masses for %.4g L on %s, which means:", float64(*r.Size), in.House.Name)}
	w.collected = *r.Size
	if byMass {
		echo = append(echo, w.intentOfGrist(&clone)...)
	}
	if clone.Aims.OG == nil {
		return &clone, echo, nil // complained of later
	}
	w.og = gravity.SGOf(*clone.Aims.OG)
	if hopsByMass {
		more, err := w.intentOfHops(&clone)
		if err != nil {
			return nil, nil, err
		}
		echo = append(echo, more...)
	}
	return &clone, echo, nil
}

// intentOfGrist writes shares for masses, and the gravity they give here if
// the recipe doesn't aim at one.
func (w *work) intentOfGrist(r *recipe.Recipe) []string {
	var echo []string
	total := 0.0
	for i := range r.Grist {
		total += float64(*r.Grist[i].Mass)
	}
	for i := range r.Grist {
		share := quantity.Fraction(w.grains[i].share)
		r.Grist[i].Share, r.Grist[i].Mass = &share, nil
		echo = append(echo, fmt.Sprintf("%s %.1f %%", r.Grist[i].Malt, share.Percent()))
	}
	if r.Aims.OG == nil {
		og := quantity.GravitySG(w.gravityOf(total, r))
		r.Aims.OG = &og
		echo = append(echo, fmt.Sprintf("original gravity %.4f", og.Value))
	}
	return echo
}

// gravityOf returns the original gravity that a mass of grist gives on the house.
func (w *work) gravityOf(total float64, r *recipe.Recipe) quantity.SG {
	low, high := 1.001, 1.200
	for range 40 {
		mid := (low + high) / 2
		w.og = quantity.SG(mid)
		og := quantity.GravitySG(w.og)
		r.Aims.OG = &og
		w.boilAndEvaporate()
		w.drawAll(total)
		w.houseYield = w.yieldOfHouse()
		if total*w.extractPerMass() > w.kettleExtract {
			low = mid
		} else {
			high = mid
		}
	}
	return quantity.SG((low + high) / 2)
}

// intentOfHops writes bitterness for masses in the boil and doses for the
// other charges.
func (w *work) intentOfHops(r *recipe.Recipe) ([]string, error) {
	b, err := w.kettleOfMasses()
	if err != nil {
		return nil, err
	}
	var echo []string
	clear(w.taken)
	for i := range r.Hops {
		h, c := &r.Hops[i], &w.charges[i]
		if h.Mass == nil {
			continue
		}
		c.mass = float64(*h.Mass)
		c.draw(c.mass, w.taken)
		switch {
		case meansBitterness(c):
			ibu := quantity.IBU(b.ibu(c))
			h.Bitterness = &ibu
			echo = append(echo, fmt.Sprintf("%s %s: %s IBU", h.Hop, h.At.Words(w.in.Reader), w.number(float64(ibu), 1)))
		case h.At.Stage == recipe.AtDry:
			h.Dose = w.doseOf(c.mass, w.collected, h, &echo)
		default:
			h.Dose = w.doseOf(c.mass, w.knockOut, h, &echo)
		}
		h.Mass = nil
	}
	return echo, nil
}

// kettleOfMasses works out the kettle that the masses of a recipe go into, and
// what they give there.
func (w *work) kettleOfMasses() (bitterness, error) {
	way, _ := w.coolingWay()
	w.boilAndEvaporate()
	w.checkRests()
	if len(w.problems) > 0 {
		return bitterness{}, w.problems
	}
	w.solveGrist()
	if len(w.problems) > 0 {
		return bitterness{}, w.problems
	}
	w.fillKettle()
	w.liquor()
	w.heatUp()
	p := w.pathOf(way)
	w.yields(&p)
	if len(w.problems) > 0 {
		return bitterness{}, w.problems
	}
	return w.bitternessOf(), nil
}

// meansBitterness reports whether a mass of hops is there to make bitter: it
// boils, and has alpha acids.
func meansBitterness(c *charge) bool {
	switch c.meant.At.Stage {
	case recipe.AtBoil, recipe.AtFirstWort, recipe.AtMash:
		return c.alpha > 0 && c.yield > 0
	}
	return false
}

// doseOf is the dose of a mass in a volume; it is echoed.
func (w *work) doseOf(mass float64, v quantity.Volume, h *recipe.Charge, echo *[]string) *quantity.Dose {
	dose := quantity.Dose(mass * 1000 / float64(v))
	*echo = append(*echo, fmt.Sprintf("%s %s: %s", h.Hop, h.At.Words(w.in.Reader), w.dose(dose, 2)))
	return &dose
}
