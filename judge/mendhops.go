// SPDX-License-Identifier: MIT

package judge

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

const aimIBU = quantity.Bitterness

// plural counts things.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// scaled returns the change that multiplies a charge, in the terms in which the
// recipe has it.
func (c charge) scaled(factor float64) Change {
	out := Change{Name: c.hop, Index: c.index}
	switch {
	case c.ibu != nil && c.meansIBU:
		out.What, out.To = BitternessTo, *c.ibu*factor
	case c.dose != nil:
		out.What, out.To = DoseTo, *c.dose*factor
	default:
		out.What, out.To = MassTo, float64(c.mass)*factor
	}
	return out
}

// gramsText says how the mass of a charge changes: " (139 → 125 g)".
func (w *work) gramsText(c charge, factor float64) string {
	if c.mass <= 0 {
		return ""
	}
	grams := w.in(measure{unit: "g", decimals: 1})
	return fmt.Sprintf(" (%s → %s)", grams.number(c.mass.Grams(), 0), grams.withUnit(grams.number(c.mass.Grams()*factor, 0)))
}

// mendIBUFrom moves bitterness between the charges in the windows and those
// outside, from the bitterest to the bitterest.
func (w *work) mendIBUFrom(p places, b bitter, ws *style.Windows, v *Verdict) {
	move := p.nearest(v.Value)/100*b.total - b.selected
	gives := func(i int) bool { return b.in[i] == (move < 0) && b.ibu[i] > 0 }
	takes := func(i int) bool { return b.in[i] != (move < 0) && b.ibu[i] > 0 }
	givers, takers := w.byBitterness(b, gives), w.byBitterness(b, takes)
	if len(givers) == 0 {
		return
	}
	want := math.Abs(move)
	var parts []string
	for _, i := range givers {
		got := math.Min(want, b.ibu[i])
		if got <= 1e-12 {
			break
		}
		factor := 1 - got/b.ibu[i]
		c := w.beer.charges[i]
		v.Changes = append(v.Changes, c.scaled(factor))
		parts = append(parts, fmt.Sprintf("%s from %s%s", w.ibuText(got), c, w.gramsText(c, factor)))
		want -= got
	}
	v.Mend = "move " + strings.Join(parts, " and ") + " to " + w.receive(b, takers, givers[0], math.Abs(move)-math.Max(want, 0), move < 0, ws, v)
}

// receive adds bitterness to the bitterest taker, or makes a new charge of the
// hop that gives at the nearest moment, and says so.
func (w *work) receive(b bitter, takers []int, giver int, ibu float64, away bool, ws *style.Windows, v *Verdict) string {
	if len(takers) > 0 {
		c := w.beer.charges[takers[0]]
		factor := 1 + ibu/b.ibu[takers[0]]
		v.Changes = append(v.Changes, c.scaled(factor))
		return c.String() + w.gramsText(c, factor)
	}
	c := w.beer.charges[giver]
	at, ok := w.nearestMoment(c, ws, true)
	if away {
		at, ok = w.momentOutside(c, ws)
	}
	if !ok {
		return "another moment"
	}
	v.Changes = append(v.Changes, Change{What: BitternessTo, Name: c.hop, Index: -1, To: ibu, At: at.String()})
	return c.hop + " at " + at.String()
}

// momentOutside returns a moment that gives bitterness and isn't in the windows,
// the start of the boil before all others.
func (w *work) momentOutside(c charge, ws *style.Windows) (recipe.Moment, bool) {
	for _, m := range []recipe.Moment{
		{Stage: recipe.AtBoil, Time: w.beer.boil}, {Stage: recipe.AtFirstWort}, {Stage: recipe.AtBoil, Time: w.beer.boil / 2}, {Stage: recipe.AtFlameOut},
	} {
		c.at = m
		if !w.inWindows(c, ws) {
			return m, true
		}
	}
	return recipe.Moment{}, false
}

func (w *work) ibuText(x float64) string {
	m := w.in(measureOf(aimIBU))
	return m.withUnit(m.number(x, 1))
}

// byBitterness returns charges, the bitterest first.
func (w *work) byBitterness(b bitter, allowed func(i int) bool) []int {
	var order []int
	for i := range w.beer.charges {
		if allowed(i) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(b.ibu[y], b.ibu[x]) })
	return order
}

// minutesBefore places a moment on one line of time, in minutes before the end
// of the boil. Only its order and its nearness count.
func (w *work) minutesBefore(m recipe.Moment) float64 {
	switch m.Stage {
	case recipe.AtMash:
		return float64(w.beer.boil) + 60
	case recipe.AtFirstWort:
		return float64(w.beer.boil) + 20
	case recipe.AtStand:
		return -15
	case recipe.AtDry:
		return -24 * 60
	}
	return float64(m.Time)
}

// usual moments for hops that come to a stand or go in dry. Common practice.
var (
	usualStand = recipe.Moment{Stage: recipe.AtStand, Time: 20, Temperature: quantity.Celsius(80)}
	usualDry   = recipe.Moment{Stage: recipe.AtDry, Time: quantity.Days(3), Temperature: quantity.Celsius(14)}
)

// momentIn returns the moment of a window that is nearest to a charge.
func (w *work) momentIn(c charge, one style.Window) recipe.Moment {
	switch one.Stage {
	case "boil start":
		return recipe.Moment{Stage: recipe.AtBoil, Time: w.beer.boil}
	case string(recipe.AtBoil):
		low := math.Max(one.Boil.Low, 0)
		high := math.Max(math.Min(one.Boil.High, float64(w.beer.boil)), low)
		return recipe.Moment{Stage: recipe.AtBoil, Time: quantity.Duration(math.Min(math.Max(w.minutesBefore(c.at), low), high))}
	case string(recipe.AtStand):
		return usualStand
	case string(recipe.AtDry):
		return usualDry
	}
	return recipe.Moment{Stage: recipe.Stage(one.Stage)}
}

// nearestMoment returns the moment in the windows that is nearest to a charge.
// A bitterness can't be dry.
func (w *work) nearestMoment(c charge, ws *style.Windows, bitter bool) (best recipe.Moment, ok bool) {
	least := math.Inf(1)
	for _, one := range ws.Terms {
		m := w.momentIn(c, one)
		if bitter && m.Stage == recipe.AtDry {
			continue
		}
		if d := math.Abs(w.minutesBefore(m) - w.minutesBefore(c.at)); d < least {
			best, least, ok = m, d, true
		}
	}
	return best, ok
}

func (w *work) mendCharges(stray []int, ws *style.Windows, v *Verdict) {
	var parts []string
	for _, i := range stray {
		c := w.beer.charges[i]
		m, ok := w.nearestMoment(c, ws, c.meansIBU)
		if !ok {
			parts = append(parts, c.String()+" left out")
			continue
		}
		v.Changes = append(v.Changes, Change{What: MomentTo, Name: c.hop, Index: c.index, At: m.String()})
		parts = append(parts, c.String()+" → "+m.String())
	}
	v.Mend = strings.Join(parts, ", ")
}

// mendDose brings the largest dose down first, or up.
func (w *work) mendDose(p places, in []int, ws *style.Windows, v *Verdict) {
	d := p.excess(v.Value)
	dose := func(i int) float64 { return *w.beer.charges[i].dose }
	slices.SortStableFunc(in, func(a, b int) int { return cmp.Compare(dose(b), dose(a)) })
	if len(in) == 0 {
		w.newDose(-d, ws, v)
		return
	}
	var parts []string
	for _, i := range in {
		change := math.Max(-d, -dose(i))
		d += change
		c, factor := w.beer.charges[i], 1+change/dose(i)
		v.Changes = append(v.Changes, c.scaled(factor))
		parts = append(parts, fmt.Sprintf("%s: %s → %s%s", c, w.in(dosing).fine(dose(i)), w.in(dosing).withUnit(w.in(dosing).fine(dose(i)*factor)), w.gramsText(c, factor)))
		if math.Abs(d) < 1e-12 {
			break
		}
	}
	v.Mend = strings.Join(parts, ", ")
}

// newDose proposes a charge in the windows, of the hop that goes in last.
func (w *work) newDose(dose float64, ws *style.Windows, v *Verdict) {
	v.Mend = "add " + w.in(dosing).withUnit(w.in(dosing).fine(dose)) + " of hops at " + ws.Phrase()
	if len(w.beer.charges) == 0 {
		return
	}
	last := w.beer.charges[0]
	for _, c := range w.beer.charges {
		if w.minutesBefore(c.at) < w.minutesBefore(last.at) {
			last = c
		}
	}
	m, ok := w.nearestMoment(last, ws, false)
	if !ok {
		return
	}
	v.Mend = fmt.Sprintf("add %s of %s at %s", w.in(dosing).withUnit(w.in(dosing).fine(dose)), last.hop, m)
	v.Changes = []Change{{What: DoseTo, Name: last.hop, Index: -1, To: dose, At: m.String()}}
}
