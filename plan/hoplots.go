// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"maps"
	"slices"

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
	lots  []hopLot
	uses  []HopUse
	alpha float64 // now, mean of the uses
	oil   float64 // mL/100 g, mean of the uses; 0 where not known
	form  hops.Form
	yield float64
	mass  float64 // kg
	ibu   float64
	out   hops.Outcome

	lost     bool    // its stand can't be given, it goes in at flame-out
	typical  hopLot  // what is taken where there is no lot
	oilMeant float64 // oil of the hops the dose was meant for, mL/100 g; 0 where not known
}

// resolveHops finds the lots and their alpha acids on the day of brewing.
func (w *work) resolveHops() {
	w.checkSwaps()
	for i, m := range w.in.Recipe.Hops {
		c := charge{meant: m, hop: m.Hop}
		if other := w.in.Swap[m.Hop]; other != "" {
			c.hop = other
		}
		typical, known := data.Hop(c.hop)
		c.typical = lotOn(stock.Hops{}, typical, known, stock.Date{})
		c.lots = w.hopLots(c.hop, typical, known)
		if !known && len(c.lots) == 0 {
			w.problem(fmt.Sprintf("hops[%d].hop", i), nearestHint(c.hop, data.HopNames()),
				"%s is neither in stock nor among the typical hops", c.hop)
			continue
		}
		if len(c.lots) == 0 {
			w.typicalOf("%s: alpha acids and oil as typical, not of a lot", c.hop)
		}
		c.form = w.formOf(&c)
		c.oilMeant = w.oilMeant(&c)
		c.draw(0, w.taken)
		w.charges = append(w.charges, c)
	}
}

// checkSwaps refuses to swap a hop that the recipe doesn't have.
func (w *work) checkSwaps() {
	var names []string
	for _, h := range w.in.Recipe.Hops {
		names = append(names, h.Hop)
	}
	for _, from := range slices.Sorted(maps.Keys(w.in.Swap)) {
		if !slices.Contains(names, from) {
			w.problem("swap", nearestHint(from, names), "the recipe has no hop called %s", from)
		}
	}
}

// hopLots returns the lots of a hop, oldest first. Lots that carry another name
// of the same hop serve where none has the name that is asked for.
func (w *work) hopLots(hop string, typical data.HopType, known bool) []hopLot {
	if w.in.Stock == nil {
		return nil
	}
	var lots, others []hopLot
	for _, l := range w.in.Stock.Hops {
		if l.Hop == hop {
			lots = append(lots, lotOn(l, typical, known, w.in.On))
		} else if t, ok := data.Hop(l.Hop); ok && known && t.ID == typical.ID {
			others = append(others, lotOn(l, typical, known, w.in.On))
		}
	}
	if len(lots) == 0 {
		lots = others
	}
	slices.SortStableFunc(lots, func(a, b hopLot) int { return olderFirst(packedOn(a.Hops, w.in.On), packedOn(b.Hops, w.in.On)) })
	return lots
}

// oilMeant is the oil of the hops that a dose was meant for: as the recipe says
// or, for a hop that is swapped by its oil, as typical.
func (w *work) oilMeant(c *charge) float64 {
	if c.meant.Oil != nil {
		return float64(*c.meant.Oil)
	}
	if !w.in.KeepOil || c.hop == c.meant.Hop {
		return 0
	}
	typical, _ := data.Hop(c.meant.Hop)
	oil := oilOf(typical)
	if oil > 0 && forAroma(c.meant.At) {
		w.typicalOf("%s: the oil its dose was meant for as typical (%.1f mL/100 g)", c.meant.Hop, oil)
	}
	return oil
}

// forAroma reports whether hops at this moment are there for their aroma: late
// in the boil, in a stand, in the beer.
func forAroma(at recipe.Moment) bool {
	switch at.Stage {
	case recipe.AtFlameOut, recipe.AtStand, recipe.AtDry:
		return true
	case recipe.AtBoil:
		return at.Time <= lateBoil
	}
	return false
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

// hopLot is a lot of hops with what it holds on the day of brewing.
type hopLot struct {
	stock.Hops
	label, alpha quantity.Fraction // when it was packed, and now
	oil          float64           // mL/100 g
}

// lotOn works out what a lot holds on a day; what it doesn't say is typical.
func lotOn(l stock.Hops, typical data.HopType, known bool, on stock.Date) hopLot {
	out := hopLot{Hops: l, label: quantity.Percent(typical.Alpha.Typical), oil: oilOf(typical)}
	if l.Alpha != nil {
		out.label = *l.Alpha
	}
	if l.Oil != nil {
		out.oil = float64(*l.Oil)
	}
	out.alpha = out.label
	age := ageOf(l, on)
	if age <= 0 {
		return out
	}
	kept := hops.Stored{At: roomTemperature, For: age, In: packagingOf(l.Pack)}
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
	out.alpha = hops.AlphaNow(out.label, loss, kept)
	return out
}

// AlphaNow returns the alpha acids of a lot of hops on a day, and when it was
// packed. What the lot doesn't say is typical of the hop.
func AlphaNow(l stock.Hops, on stock.Date) (now, label quantity.Fraction) {
	typical, known := data.Hop(l.Hop)
	lot := lotOn(l, typical, known, on)
	return lot.alpha, lot.label
}

// ageOf returns how old a lot is on a day: 0 where it isn't known.
func ageOf(l stock.Hops, on stock.Date) quantity.Duration {
	switch {
	case l.Age != nil:
		return *l.Age
	case !l.Packed.IsZero() && !on.IsZero():
		return quantity.Hours(on.Sub(l.Packed.Time).Hours())
	}
	return 0
}

// oilOf is the typical oil of a hop in mL/100 g, 0 where it isn't known.
func oilOf(typical data.HopType) float64 {
	if typical.Oil == nil {
		return 0
	}
	return typical.Oil.Mid()
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
func (c *charge) draw(mass float64, taken ledger) {
	c.uses = c.uses[:0]
	left, alpha, oil := mass, 0.0, 0.0
	take := func(l *hopLot, m float64, short bool) {
		c.uses = append(c.uses, HopUse{Lot: l.Lot, Mass: quantity.Mass(m), Label: l.label, Alpha: l.alpha, Short: short})
		alpha, oil, left = alpha+m*float64(l.alpha), oil+m*l.oil, left-m
	}
	for i := range c.lots {
		l := &c.lots[i]
		if m := taken.left(l.Lot, l.Mass, left); m > 0 {
			take(l, m, false)
			taken[l.Lot] += m
		}
		if left <= nothing {
			break
		}
	}
	switch {
	case len(c.lots) == 0 && (left > nothing || mass <= nothing):
		take(&c.typical, left, false)
	case left > nothing:
		take(&c.lots[len(c.lots)-1], left, true)
	case len(c.uses) == 0:
		take(&c.lots[0], 0, false)
	}
	if mass > nothing {
		c.alpha, c.oil = alpha/mass, oil/mass
		return
	}
	first := &c.typical
	if len(c.lots) > 0 {
		first = &c.lots[0]
	}
	c.alpha, c.oil = float64(first.alpha), first.oil
}
