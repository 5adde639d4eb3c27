// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"slices"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/hops"
	"gyle/stock"
)

// charge is one hop charge of the recipe with everything known of it.
type charge struct {
	meant recipe.Charge
	hop   string // the hop used
	lots  []stock.Hops
	uses  []HopUse
	alpha float64 // now, mean of the uses
	oil   float64 // mL/100 g, mean of the uses; 0 where not known
	form  hops.Form
	yield float64
	mass  float64 // kg
	ibu   float64
	out   hops.Outcome
}

// resolveHops finds the lots and their alpha acids on the day of brewing.
func (w *work) resolveHops() {
	for i, m := range w.in.Recipe.Hops {
		c := charge{meant: m, hop: m.Hop, form: hops.Pellets}
		if other := w.in.Swap[m.Hop]; other != "" {
			c.hop = other
		}
		if w.in.Stock != nil {
			for _, l := range w.in.Stock.Hops {
				if l.Hop == c.hop {
					c.lots = append(c.lots, l)
				}
			}
			slices.SortStableFunc(c.lots, func(a, b stock.Hops) int { return olderFirst(packedOn(a, w.in.On), packedOn(b, w.in.On)) })
		}
		_, known := data.Hop(c.hop)
		if !known && len(c.lots) == 0 {
			w.problem(fmt.Sprintf("hops[%d].hop", i), nearestHint(c.hop, data.HopNames()),
				"%s is neither in stock nor among the typical hops", c.hop)
			continue
		}
		if len(c.lots) == 0 {
			w.typicalOf("%s: alpha acids and oil as typical, not of a lot", c.hop)
		}
		c.form = w.formOf(&c)
		c.draw(0, w.in.On)
		w.charges = append(w.charges, c)
	}
}

// packedOn returns the day a lot was packed, from its age where that is given.
func packedOn(l stock.Hops, on stock.Date) stock.Date {
	if l.Packed.IsZero() && l.Age != nil && !on.IsZero() {
		return stock.Date{Time: on.AddDate(0, 0, -int(l.Age.Days()+0.5))}
	}
	return l.Packed
}

// formOf returns how well the hops give their alpha acids: as the lot says,
// else as the house does.
func (w *work) formOf(c *charge) hops.Form {
	form := w.in.House.Bitterness.Form
	if len(c.lots) > 0 && c.lots[0].Form != "" {
		form = c.lots[0].Form
	}
	switch form {
	case "cones":
		return hops.WholeCones
	case "bag":
		return hops.InBag
	}
	return hops.Pellets
}

// alphaOf returns the alpha acids of a lot now and when it was packed.
func alphaOf(l stock.Hops, on stock.Date) (now, label quantity.Fraction) {
	typical, known := data.Hop(l.Hop)
	label = quantity.Percent(typical.Alpha.Typical)
	if l.Alpha != nil {
		label = *l.Alpha
	}
	age := quantity.Duration(0)
	switch {
	case l.Age != nil:
		age = *l.Age
	case !l.Packed.IsZero() && !on.IsZero():
		age = quantity.Hours(on.Sub(l.Packed.Time).Hours())
	}
	if age <= 0 {
		return label, label
	}
	kept := hops.Stored{At: quantity.Celsius(20), For: age, In: packagingOf(l.Pack)}
	if l.Kept != nil {
		kept.At = *l.Kept
	}
	loss := hops.UnknownLoss
	switch {
	case l.SixLoss != nil:
		loss = *l.SixLoss
	case known && typical.AlphaLeft6Months20C != nil:
		loss = quantity.Percent(100 - typical.AlphaLeft6Months20C.Mid())
	}
	return hops.AlphaNow(label, loss, kept), label
}

func packagingOf(pack string) hops.Packaging {
	switch pack {
	case "foil":
		return hops.BarrierInert
	case "airtight":
		return hops.BarrierWithAir
	}
	return hops.LooseOrPlasticBag
}

// draw takes a mass of hops from the lots, oldest first, and sets the mean
// alpha acids and oil of what was taken. A mass of 0 asks for the first lot.
func (c *charge) draw(mass float64, on stock.Date) {
	c.uses = c.uses[:0]
	left, oil := mass, 0.0
	typical, known := data.Hop(c.hop)
	typicalOil := 0.0
	if known && typical.Oil != nil {
		typicalOil = typical.Oil.Mid()
	}
	take := func(l *stock.Hops, m float64, short bool) {
		use := HopUse{Mass: quantity.Mass(m), Label: quantity.Percent(typical.Alpha.Typical), Short: short}
		use.Alpha = use.Label
		lotOil := typicalOil
		if l != nil {
			use.Lot = l.Lot
			use.Alpha, use.Label = alphaOf(*l, on)
			if l.Oil != nil {
				lotOil = float64(*l.Oil)
			}
		}
		c.uses = append(c.uses, use)
		oil += m * lotOil
		left -= m
		if mass == 0 {
			c.oil = lotOil
		}
	}
	for i := range c.lots {
		m := left
		if has := c.lots[i].Mass; has != nil && float64(*has) < m {
			m = max(float64(*has), 0)
		}
		if m > 0 || mass == 0 {
			take(&c.lots[i], m, false)
		}
		if left <= 1e-9 {
			break
		}
	}
	switch {
	case len(c.lots) == 0:
		take(nil, left, false)
	case left > 1e-9:
		take(&c.lots[len(c.lots)-1], left, true)
	}
	c.average(mass, oil)
}

func (c *charge) average(mass, oil float64) {
	if mass <= 0 {
		c.alpha = float64(c.uses[0].Alpha)
		return
	}
	alpha := 0.0
	for _, u := range c.uses {
		alpha += float64(u.Mass) * float64(u.Alpha)
	}
	c.alpha, c.oil = alpha/mass, oil/mass
}

// coolingWay returns the way of cooling asked for.
func (w *work) coolingWay() (brewhouse.Cooling, bool) {
	if w.in.Cooling == "" {
		return w.in.House.Cooling[0], true
	}
	var names []string
	for _, c := range w.in.House.Cooling {
		if c.Name == w.in.Cooling {
			return c, true
		}
		names = append(names, c.Name)
	}
	w.problem("cooling", nearestHint(w.in.Cooling, names), "the house knows no way of cooling called %q", w.in.Cooling)
	return w.in.House.Cooling[0], false
}

// pitchTemperature is how cold the wort gets: the lower end of the yeast's
// range, 20 °C where the recipe is silent.
func (w *work) pitchTemperature() quantity.Temperature {
	if y := w.in.Recipe.Yeast; y != nil && y.Temperature != nil {
		return y.Temperature.Low
	}
	return quantity.Celsius(20)
}

// path is the temperature of the kettle from its filling on, with the moments
// at which charges go in.
type path struct {
	history hops.History
	steps   []PathStep
	boilEnd quantity.Duration
	stands  map[int]quantity.Duration // by index of the charge
	missed  []string                  // stands that this way of cooling can't give
}

func (p *path) add(name string, s hops.Segment) {
	if s.Duration <= 0 {
		return
	}
	p.history = append(p.history, s)
	p.steps = append(p.steps, PathStep{name, s.Duration, s.Start(), s.End()})
}

// pathOf lays out the temperature of the kettle: the ramp where first-wort
// hops ask for it, the boil, cooling to each stand, the stands, rest, run-off
// or chill.
func (w *work) pathOf(way brewhouse.Cooling) path {
	p := path{stands: map[int]quantity.Duration{}}
	if w.hasStage(recipe.AtFirstWort) || w.hasStage(recipe.AtMash) {
		from := quantity.Celsius(70)
		p.add("heat to the boil", hops.Linear(from, w.boilsAt, w.plan.Boil.HeatUp))
	}
	p.add("boil", hops.Steady(w.boilsAt, w.boilTime))
	p.boilEnd = p.history.Duration()
	now := w.addStands(&p, way)
	cools := w.in.House.Kettle.Cools
	if cools == 0 {
		cools = defaultCools
	}
	if way.Settle > 0 && len(p.stands) == len(p.missedStands()) {
		rest := hops.Cooling(now, w.roomTemperature(), cools, way.Settle)
		p.add("rest", rest)
		now = rest.End()
	}
	switch {
	case way.RunOff > 0:
		p.add("run-off", hops.Cooling(now, w.roomTemperature(), cools, way.RunOff).AsRunOff())
	case way.Tau != nil:
		// To pitching temperature, or as near as the water allows.
		target := w.pitchTemperature()
		if nearest := way.Water.Add(1); target.Below(nearest) {
			target = nearest
		}
		p.add("chill", hops.CoolingTo(now, target, way.Water, *way.Tau))
	}
	return p
}

// defaultCools is the time constant of a kettle left alone, where the house
// doesn't say: an open kettle of 20 to 25 L takes 90 to 140 min. Common practice.
const defaultCools quantity.Duration = 120

// missedStands returns the stands that go in at flame-out.
func (p *path) missedStands() []string { return p.missed }

func (w *work) hasStage(s recipe.Stage) bool {
	return slices.ContainsFunc(w.charges, func(c charge) bool { return c.meant.At.Stage == s })
}

// addStands cools to each stand, hottest first, and holds it. It returns the
// temperature at the end. A way that can't cool the kettle gives no stand: its
// hops go in at flame-out.
func (w *work) addStands(p *path, way brewhouse.Cooling) quantity.Temperature {
	now := w.boilsAt
	cools := w.in.House.Kettle.Cools
	if cools == 0 {
		cools = defaultCools
	}
	var order []int
	for i, c := range w.charges {
		if c.meant.At.Stage == recipe.AtStand {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return int(float64(w.charges[b].meant.At.Temperature.Sub(w.charges[a].meant.At.Temperature)) * 1000)
	})
	for n, i := range order {
		at := w.charges[i].meant.At
		if way.Tau == nil {
			p.stands[i] = p.boilEnd
			p.missed = append(p.missed, fmt.Sprintf("%s at %.0f °C", w.charges[i].hop, at.Temperature.Celsius()))
			continue
		}
		if at.Temperature.Below(now) && way.Water.Below(at.Temperature) {
			p.add(fmt.Sprintf("cool to %.0f °C", at.Temperature.Celsius()), hops.CoolingTo(now, at.Temperature, way.Water, *way.Tau))
			now = at.Temperature
		}
		p.stands[i] = p.history.Duration()
		if n+1 < len(order) && w.charges[order[n+1]].meant.At.Temperature == at.Temperature {
			continue // the longest stand at this temperature holds for all
		}
		stand := hops.Cooling(now, w.roomTemperature(), cools, w.longestStand(at.Temperature))
		p.add("stand", stand)
		now = stand.End()
	}
	return now
}

func (w *work) longestStand(t quantity.Temperature) quantity.Duration {
	longest := quantity.Duration(0)
	for _, c := range w.charges {
		if c.meant.At.Stage == recipe.AtStand && c.meant.At.Temperature == t {
			longest = max(longest, c.meant.At.Time)
		}
	}
	return longest
}

// when returns how long after the start of the history a charge goes in.
func (w *work) when(p *path, i int) quantity.Duration {
	at := w.charges[i].meant.At
	switch at.Stage {
	case recipe.AtMash, recipe.AtFirstWort:
		return 0
	case recipe.AtStand:
		return p.stands[i]
	case recipe.AtFlameOut:
		return p.boilEnd
	}
	return max(p.boilEnd-at.Time, 0)
}

// bitterness holds what turns alpha acids and yields into IBU on this house.
type bitterness struct {
	volume   quantity.Volume
	recovery float64
	house    quantity.Estimate
	gravity  float64
	meanBoil quantity.SG
}

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

func (b bitterness) ibu(c *charge) float64 {
	return float64(hops.IBU(quantity.Mass(c.mass), quantity.Fraction(c.alpha*float64(c.form)), c.yield, b.volume, b.recovery, b.house.Value, b.gravity))
}

func (b bitterness) massFor(c *charge, ibu float64) float64 {
	if c.alpha <= 0 || c.yield <= 0 {
		return 0
	}
	return float64(hops.MassFor(quantity.IBU(ibu), quantity.Fraction(c.alpha*float64(c.form)), c.yield, b.volume, b.recovery, b.house.Value, b.gravity))
}

// mashCarryOver is what is left of mash hops in the kettle.
func carryOver(at recipe.Moment) float64 {
	if at.Stage == recipe.AtMash {
		return float64(hops.MashHopCarryOver)
	}
	return 1
}

// hopping solves the weights of the charges on the way of cooling asked for.
func (w *work) hopping() {
	way, ok := w.coolingWay()
	if !ok {
		return
	}
	p := w.pathOf(way)
	w.yields(&p)
	b := w.bitternessOf()
	w.solveHops(b)
	w.plan.Hops = w.hopLines(&p, b, way)
	for _, m := range p.missed {
		w.notKept("its bitterness is made hot and in run-off: see the charge",
			"the stand of %s: %q can't cool the kettle, the hops go in at flame-out", m, way.Name)
	}
	w.limitSolubility(&p)
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
		for i := range w.charges {
			w.charges[i].draw(w.charges[i].mass, w.in.On)
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
	if !w.in.KeepOil || c.meant.Oil == nil || c.oil <= 0 || c.meant.At.Stage == recipe.AtBoil && c.meant.At.Time > lateBoil {
		return 1
	}
	return float64(*c.meant.Oil) / c.oil
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
			Yield: c.yield, IBU: quantity.IBU(c.ibu), Dry: c.meant.At.Stage == recipe.AtDry, Why: c.meant.Why,
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
		if c.meant.At.Stage != recipe.AtBoil || c.meant.At.Time <= lateBoil {
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

func (w *work) shortHops(c *charge) {
	for _, u := range c.uses {
		if u.Short {
			w.caution("%s: the shed is short of %.0f g; the plan takes it as more of lot %s", c.hop, u.Mass.Grams(), u.Lot)
		}
		if c.mass > 0 && u.Label > 0 && u.Alpha/u.Label < hops.RetentionToWarn {
			w.caution("%s lot %s kept %.0f %% of its alpha acids; its aroma has aged more than that", c.hop, u.Lot, 100*float64(u.Alpha/u.Label))
		}
	}
}

// AlphaNow returns the alpha acids of a lot of hops on a day, and when it was
// packed. What the lot doesn't say is typical of the hop.
func AlphaNow(l stock.Hops, on stock.Date) (now, label quantity.Fraction) { return alphaOf(l, on) }
