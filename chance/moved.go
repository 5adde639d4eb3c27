// SPDX-License-Identifier: MIT

package chance

import (
	"slices"

	"gyle/quantity"
	"gyle/science/uncertainty"
)

// kept are the beers of a simulation with the limits that they were held against.
type kept struct {
	figures []quantity.Figure // of the columns
	planned []float64
	limits  []limit
	broken  bool // a limit is broken whatever happens
}

// limit is a limit that hangs on a column: its beers in the order of the samples.
type limit struct {
	column    int
	low, high float64
	values    []float64
}

// keep copies the columns that limits look at, before they are sorted.
func (r *run) keep() *kept {
	k := &kept{figures: r.day.Figures(), planned: r.planned}
	for _, c := range r.rules {
		switch {
		case !c.limit:
		case c.column < 0:
			k.broken = k.broken || !c.kept
		default:
			k.limits = append(k.limits, limit{c.column, c.low, c.high, slices.Clone(r.values[c.column])})
		}
	}
	return k
}

// Moved estimates the chance to be inside all limits, had the beer been planned
// with other figures: every simulated beer misses the new plan by what it
// misses the old one, gravities and alcohol by so many points, bitterness and
// colour by so many hundredths. It holds for small moves of one recipe; false
// where the beers weren't kept ([Options].Keep).
func (o *Outlook) Moved(to map[quantity.Figure]float64) (Probability, bool) {
	if o.kept == nil || len(o.kept.limits) == 0 {
		return Probability{}, false
	}
	if o.kept.broken {
		return uncertainty.ProbabilityOf(0, o.Samples), true
	}
	outside := make([]bool, o.Samples)
	for _, l := range o.kept.limits {
		low, high := l.low, l.high
		if l.column < len(o.kept.figures) {
			f, was := o.kept.figures[l.column], o.kept.planned[l.column]
			if now, moved := to[f]; moved && (f == quantity.Bitterness || f == quantity.BeerColor) && was > 0 && now > 0 {
				low, high = low*was/now, high*was/now
			} else if moved {
				low, high = low+was-now, high+was-now
			}
		}
		for i, x := range l.values {
			outside[i] = outside[i] || x < low || x > high
		}
	}
	inside := 0
	for _, out := range outside {
		if !out {
			inside++
		}
	}
	return uncertainty.ProbabilityOf(inside, o.Samples), true
}
