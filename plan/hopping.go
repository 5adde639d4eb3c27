// SPDX-License-Identifier: MIT

package plan

import (
	"slices"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/hops"
)

// bitterness holds what turns alpha acids and yields into IBU on this house.
type bitterness struct {
	volume   quantity.Volume
	recovery float64
	house    quantity.Estimate
	gravity  float64
	meanBoil quantity.SG
}

// bitternessOf gathers the constants of this house, customary ones where it has
// none of its own.
func (w *work) bitternessOf() bitterness {
	b := w.in.House.Bitterness
	mean := (w.fullSG + w.og) / 2
	out := bitterness{volume: w.knockOut, recovery: hops.HomeRecovery, house: hops.HousePrior, meanBoil: mean, gravity: hops.GravityFactor(mean)}
	if b.R != 0 {
		out.recovery = float64(b.R)
	}
	if b.K.Value != 0 {
		out.house = b.K
		if out.house.SD == 0 {
			out.house.SD = hops.UncalibratedSpread
		}
	}
	return out
}

// ibu is what a charge gives.
func (b bitterness) ibu(c *charge) float64 {
	return float64(hops.IBU(quantity.Mass(c.mass), quantity.Fraction(c.alpha*float64(c.form)), c.yield, b.volume, b.recovery, b.house.Value, b.gravity))
}

// massFor is what a charge must weigh, in kg, to give so much; 0 where no mass
// would.
func (b bitterness) massFor(c *charge, ibu float64) float64 {
	if c.alpha <= 0 || c.yield <= 0 {
		return 0
	}
	return float64(hops.MassFor(quantity.IBU(ibu), quantity.Fraction(c.alpha*float64(c.form)), c.yield, b.volume, b.recovery, b.house.Value, b.gravity))
}

// carryOver is what is left of mash hops in the kettle.
func carryOver(at recipe.Moment) float64 {
	if at.Stage == recipe.AtMash {
		return float64(hops.MashHopCarryOver)
	}
	return 1
}

// hopping writes the hops down, with what the way of cooling can't give.
func (w *work) hopping(p *path, b bitterness, way brewhouse.Cooling) {
	w.plan.Hops = w.hopLines(p, b, way)
	for _, m := range p.missed {
		w.notKept("its bitterness is made hot and in run-off: see the charge",
			"the stand of %s: %q can't cool the kettle, the hops go in at flame-out", m, way.Name)
	}
	for _, o := range p.off {
		w.notKept("its bitterness is that of the temperature it gets", "%s", o)
	}
	w.limitSolubility(p)
}

// yields works out the kinetics of every charge.
func (w *work) yields(p *path) {
	at := make([]quantity.Duration, len(w.charges))
	for i := range w.charges {
		at[i] = w.when(p, i)
	}
	for i, out := range p.history.Outcomes(at) {
		c := &w.charges[i]
		c.out = out
		if c.meant.At.Stage != recipe.AtDry {
			c.yield = out.Iso * carryOver(c.meant.At)
		}
	}
}

// solveHops finds the masses: doses first, then bitterness by charge, then the
// bittering charge takes what is missing from the whole. Lots may split, which
// changes the alpha acids, so it goes round.
func (w *work) solveHops(b bitterness) {
	for range 4 {
		for i := range w.charges {
			c := &w.charges[i]
			c.mass = w.massOf(c, b)
			c.ibu = b.ibu(c)
		}
		w.absorb(b)
		clear(w.taken)
		for i := range w.charges {
			w.charges[i].draw(w.charges[i].mass, w.taken)
		}
	}
}

// massOf returns the mass of a charge from its own aim.
func (w *work) massOf(c *charge, b bitterness) float64 {
	switch {
	case c.meant.Dose != nil && c.meant.At.Stage == recipe.AtDry:
		return float64(*c.meant.Dose) * float64(w.collected) / 1000 * w.oilFactor(c)
	case c.meant.Dose != nil:
		return float64(*c.meant.Dose) * float64(w.knockOut) / 1000 * w.oilFactor(c)
	case c.meant.Bitterness != nil:
		return b.massFor(c, float64(*c.meant.Bitterness))
	}
	return 0
}

// oilFactor is what a dose is multiplied by to keep its oil.
func (w *work) oilFactor(c *charge) float64 {
	if !w.in.KeepOil || c.oilMeant <= 0 || c.oil <= 0 || !forAroma(c.meant.At) {
		return 1
	}
	return c.oilMeant / c.oil
}

// lateBoil is the longest boil of a charge that is meant for aroma. Common practice.
const lateBoil quantity.Duration = 20

// bittering returns the charge that absorbs differences: that of the longest
// boil with a bitterness of its own; -1 if there is none.
func (w *work) bittering() int {
	best := -1
	for i := range w.charges {
		c := &w.charges[i]
		if c.meant.Bitterness == nil || c.alpha <= 0 {
			continue
		}
		if best < 0 || c.yield > w.charges[best].yield {
			best = i
		}
	}
	return best
}

// absorb lets the bittering charge take the difference to the bitterness
// aimed at.
func (w *work) absorb(b bitterness) {
	aim, i := w.in.Recipe.Aims.IBU, w.bittering()
	if aim == nil || i < 0 {
		return
	}
	others := 0.0
	for k := range w.charges {
		if k != i {
			others += w.charges[k].ibu
		}
	}
	c := &w.charges[i]
	c.mass = b.massFor(c, max(float64(*aim)-others, 0))
	c.ibu = b.ibu(c)
}

// limitSolubility warns where the wort can't dissolve the alpha acids.
func (w *work) limitSolubility(p *path) {
	var at []quantity.Duration
	var alpha []quantity.Concentration
	free := 0.0
	for i := range w.charges {
		c := &w.charges[i]
		if c.meant.At.Stage == recipe.AtDry {
			continue
		}
		dosed := c.mass * 1e6 * c.alpha * float64(c.form) * carryOver(c.meant.At) / float64(w.knockOut)
		at = append(at, w.when(p, i))
		alpha = append(alpha, quantity.Concentration(dosed))
		free += dosed * c.out.Iso
	}
	if free <= 0 || !p.history.SolubilityBinds(at, alpha, hops.BoilSolubility) {
		return
	}
	share := float64(p.history.Limited(at, alpha, hops.BoilSolubility)) / free
	w.caution("hot wort dissolves about %.0f mg/L of alpha acids and these charges bring more: expect about %.0f IBU, not %.0f",
		float64(hops.BoilSolubility), w.totalIBU()*share, w.totalIBU())
}

func (w *work) totalIBU() float64 {
	sum := 0.0
	for i := range w.charges {
		sum += w.charges[i].ibu
	}
	return sum
}

// hopLines writes the solved charges down.
func (w *work) hopLines(p *path, b bitterness, way brewhouse.Cooling) Hopping {
	out := Hopping{Cooling: way.Name, Path: p.steps, IBU: quantity.IBU(w.totalIBU()), history: p.history}
	out.SD = quantity.IBU(float64(out.IBU) * b.house.SD / b.house.Value)
	for i := range w.charges {
		c := &w.charges[i]
		line := ChargeLine{
			Hop: c.hop, At: c.meant.At, Lots: slices.Clone(c.uses), Mass: quantity.Mass(c.mass), Alpha: quantity.Fraction(c.alpha),
			Yield: c.yield, IBU: quantity.IBU(c.ibu), Dry: c.meant.At.Stage == recipe.AtDry, Why: c.meant.Why, form: c.form,
		}
		if c.hop != c.meant.Hop {
			line.Meant = c.meant.Hop
		}
		if c.meant.Bitterness != nil {
			line.Aim = *c.meant.Bitterness
		}
		wort := w.knockOut
		if line.Dry {
			wort = w.collected
		}
		line.Dose = quantity.Dose(c.mass * 1000 / float64(wort))
		line.Oil = hops.OilDose(line.Dose, quantity.OilContent(c.oil))
		if c.out.Iso > 0 && !line.Dry {
			for _, e := range c.out.Earned {
				line.Earned = append(line.Earned, quantity.IBU(c.ibu*e/c.out.Iso))
			}
		}
		line.Tinseth = w.tinseth(c, b)
		out.Tinseth += line.Tinseth
		if forAroma(c.meant.At) && !line.Dry {
			out.Oil += line.Oil
		}
		out.Charges = append(out.Charges, line)
		w.shortHops(c)
	}
	return out
}

// tinseth is the comparison figure of a charge. That formula knows the boil only.
func (w *work) tinseth(c *charge, b bitterness) quantity.IBU {
	time := quantity.Duration(0)
	switch c.meant.At.Stage {
	case recipe.AtBoil:
		time = c.meant.At.Time
	case recipe.AtFirstWort:
		time = w.boilTime
	default:
		return 0
	}
	return hops.TinsethIBU(quantity.Mass(c.mass), quantity.Fraction(c.alpha), b.meanBoil, time, w.knockOut)
}

// shortHops warns of lots that are too small or too old.
func (w *work) shortHops(c *charge) {
	for _, u := range c.uses {
		if u.Short {
			w.caution("%s: the shed is short of %s; the plan takes it as more of lot %s", c.hop, w.grams(u.Mass), u.Lot)
		}
		if c.mass > 0 && u.Label > 0 && u.Alpha/u.Label < hops.RetentionToWarn {
			w.caution("%s lot %s kept %.0f %% of its alpha acids; its aroma has aged more than that", c.hop, u.Lot, 100*float64(u.Alpha/u.Label))
		}
	}
}
