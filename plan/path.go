// SPDX-License-Identifier: MIT

package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/hops"
)

// coolingWay returns the way of cooling asked for.
func (w *work) coolingWay() (brewhouse.Cooling, bool) {
	if len(w.in.House.Cooling) == 0 {
		w.problem("cooling", "add - {name: coil, tau: 7 min, water: 12 °C} to the house", "the house says nothing of how wort is cooled")
		return brewhouse.Cooling{}, false
	}
	if w.in.Cooling == "" {
		return w.usable(w.in.House.Cooling[0])
	}
	var names []string
	for _, c := range w.in.House.Cooling {
		if c.Name == w.in.Cooling {
			return w.usable(c)
		}
		names = append(names, c.Name)
	}
	hint := nearestHint(w.in.Cooling, names)
	if hint == "" {
		hint = "it knows " + strings.Join(names, ", ")
	}
	w.problem("cooling", hint, "the house knows no way of cooling called %q", w.in.Cooling)
	return brewhouse.Cooling{}, false
}

// usable complains of a way that cools the kettle with water of no temperature.
func (w *work) usable(c brewhouse.Cooling) (brewhouse.Cooling, bool) {
	if c.Tau != nil && c.Water.IsZero() {
		w.problem("cooling", "add water: 12 °C", "%s cools with water, but the house doesn't say how cold it is", c.Name)
		return c, false
	}
	return c, true
}

// pitchTemperature is how cold the wort gets: the lower end of the yeast's
// range, 20 °C where the recipe is silent.
func (w *work) pitchTemperature() quantity.Temperature {
	if y := w.in.Recipe.Yeast; y != nil && y.Temperature != nil {
		switch t := y.Temperature; {
		case t.HasLow():
			return t.Low
		case t.HasHigh():
			return t.High
		}
	}
	return roomTemperature
}

// path is the temperature of the kettle from its filling on, with the moments
// at which charges go in.
type path struct {
	history hops.History
	moves   []move // what the brewer does in each segment of the history
	steps   []PathStep
	boilEnd quantity.Duration
	stands  map[int]quantity.Duration // by index of the charge
	missed  []string                  // stands that this way of cooling can't give
	off     []string                  // stands at another temperature than meant
}

// moveKind is what a brewer does to the kettle in a segment.
type moveKind int

const (
	heating    moveKind = iota
	boiling             // for a time
	coolingTo           // until the thermometer shows a temperature
	leaving             // alone, for a time
	runningOff          // for a time
)

// move is one thing that a brewer does to the kettle, and until when.
type move struct {
	kind moveKind
	time quantity.Duration
	to   quantity.Temperature
}

// add lengthens the path; a step that takes no time is none.
func (p *path) add(name string, m move, s hops.Segment) {
	if s.Duration <= 0 {
		return
	}
	m.time = s.Duration
	p.history, p.moves = append(p.history, s), append(p.moves, m)
	p.steps = append(p.steps, PathStep{name, s.Duration, s.Start(), s.End()})
}

// heatToBoil is the step before the boil, where hops are in it already.
const heatToBoil = "heat to the boil"

// pathOf lays out the temperature of the kettle: the ramp where first-wort
// hops ask for it, the boil, cooling to each stand, the stands, rest, run-off
// or chill.
func (w *work) pathOf(way brewhouse.Cooling) path {
	p := path{stands: map[int]quantity.Duration{}}
	if w.hasStage(recipe.AtFirstWort) || w.hasStage(recipe.AtMash) {
		p.add(heatToBoil, move{kind: heating}, hops.Linear(w.fullTemperature(), w.boilsAt, w.plan.Boil.HeatUp))
	}
	p.add("boil", move{kind: boiling}, hops.Steady(w.boilsAt, w.boilTime))
	p.boilEnd = p.history.Duration()
	now := w.addStands(&p, way)
	// What goes to the bottom in a stand need not settle again.
	if rest := way.Settle - (p.history.Duration() - p.boilEnd); rest > 0 {
		settling := hops.Cooling(now, w.roomTemperature(), w.kettleCools(), rest)
		p.add("rest", move{kind: leaving}, settling)
		now = settling.End()
	}
	switch {
	case way.RunOff > 0:
		p.add("run-off", move{kind: runningOff}, hops.Cooling(now, w.roomTemperature(), w.kettleCools(), way.RunOff).AsRunOff())
	case way.Tau != nil:
		// To pitching temperature, or as near as the water allows.
		p.coolTo("chill", now, w.pitchTemperature(), way)
	}
	return p
}

// defaultCools is the time constant of a kettle left alone, where the house
// doesn't say: an open kettle of 20 to 25 L takes 90 to 140 min. Common practice.
const defaultCools quantity.Duration = 120

// kettleCools is the time constant of the kettle left alone.
func (w *work) kettleCools() quantity.Duration {
	if c := w.in.House.Kettle.Cools; c > 0 {
		return c
	}
	return defaultCools
}

// nearestToWater is how close to its cooling water a kettle is cooled in a
// sensible time: three time constants bring it within 1 K of 20 °C or so.
// Estimate.
const nearestToWater quantity.Warming = 1

// coolTo cools the kettle to a temperature, or as near as the water allows, and
// returns where it is then.
func (p *path) coolTo(name string, now, target quantity.Temperature, way brewhouse.Cooling) quantity.Temperature {
	wanted := target
	if nearest := way.Water.Add(nearestToWater); target.Below(nearest) {
		target = nearest
	}
	if !target.Below(now) {
		return now
	}
	p.add(name, move{kind: coolingTo, to: wanted}, hops.CoolingTo(now, target, way.Water, *way.Tau))
	return target
}

func (w *work) hasStage(s recipe.Stage) bool {
	return slices.ContainsFunc(w.charges, func(c charge) bool { return c.meant.At.Stage == s })
}

// addStands cools to each stand, hottest first, and holds it. It returns the
// temperature at the end. A way that can't cool the kettle gives no stand: its
// hops go in at flame-out.
func (w *work) addStands(p *path, way brewhouse.Cooling) quantity.Temperature {
	now, order := w.boilsAt, w.stands()
	if way.Tau == nil {
		for _, i := range order {
			p.stands[i] = p.boilEnd
			w.charges[i].lost = true
			p.missed = append(p.missed, fmt.Sprintf("%s at %s", w.charges[i].hop, w.degrees(w.charges[i].meant.At.Temperature, 0)))
		}
		return now
	}
	for len(order) > 0 {
		at := w.charges[order[0]].meant.At.Temperature
		n := 1
		for n < len(order) && w.charges[order[n]].meant.At.Temperature == at {
			n++
		}
		now = w.hold(p, order[:n], at, now, way)
		order = order[n:]
	}
	return now
}

// stands returns the charges of the stands, hottest first and then longest.
func (w *work) stands() []int {
	var order []int
	for i := range w.charges {
		if w.charges[i].meant.At.Stage == recipe.AtStand {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		m, n := w.charges[a].meant.At, w.charges[b].meant.At
		return cmp.Or(cmp.Compare(n.Temperature.Kelvin(), m.Temperature.Kelvin()), cmp.Compare(n.Time, m.Time))
	})
	return order
}

// hold cools to a stand and holds it for the longest of its charges; the
// shorter ones go in later, so that all come to an end together.
func (w *work) hold(p *path, charges []int, at, now quantity.Temperature, way brewhouse.Cooling) quantity.Temperature {
	now = p.coolTo("cool to "+w.degrees(at, 0), now, at, way)
	if off := float64(now.Sub(at)); math.Abs(off) > 1 {
		p.off = append(p.off, fmt.Sprintf("stand of %s at %s: the kettle is at %s then", w.charges[charges[0]].hop, w.degrees(at, 0), w.degrees(now, 0)))
	}
	begin, longest := p.history.Duration(), w.charges[charges[0]].meant.At.Time
	for _, i := range charges {
		p.stands[i] = begin + longest - w.charges[i].meant.At.Time
	}
	stand := hops.Cooling(now, w.roomTemperature(), w.kettleCools(), longest)
	p.add("stand", move{kind: leaving}, stand)
	return stand.End()
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
