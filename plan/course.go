// SPDX-License-Identifier: MIT

package plan

import (
	"math"
	"slices"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/hops"
	"gyle/science/mash"
)

// Course is the temperature of the kettle as it is planned, with the moments of
// the charges, for asking what becomes of them when the day goes otherwise.
type Course struct {
	History hops.History        // from the first charge or the boil until the wort is cold
	Names   []string            // of its segments, as in [Hopping]
	Boil    quantity.Duration   // when the boil begins, after the start
	BoilEnd quantity.Duration   // when it ends
	At      []quantity.Duration // of the charges, in the order of [Hopping]; a dry charge is at the end
}

// Course returns the planned course of the kettle. A plan that was read and
// not made has none.
func (p *Plan) Course() Course {
	c := Course{History: slices.Clone(p.Hops.history)}
	now := quantity.Duration(0)
	var stands []standEnd
	for _, s := range p.Hops.Path {
		c.Names = append(c.Names, s.Name)
		if s.Name == "boil" {
			c.Boil, c.BoilEnd = now, now+s.Time
		}
		now += s.Time
		if s.Name == "stand" {
			stands = append(stands, standEnd{s.From, now})
		}
	}
	for _, line := range p.Hops.Charges {
		c.At = append(c.At, c.moment(line.At, stands, now))
	}
	return c
}

// standEnd is the temperature of a stand and when it is over.
type standEnd struct {
	from quantity.Temperature
	ends quantity.Duration
}

// moment returns when a charge goes in.
func (c Course) moment(at recipe.Moment, stands []standEnd, end quantity.Duration) quantity.Duration {
	switch at.Stage {
	case recipe.AtMash, recipe.AtFirstWort:
		return 0
	case recipe.AtDry:
		return end
	case recipe.AtBoil:
		return max(c.BoilEnd-at.Time, 0)
	case recipe.AtStand:
		nearest, found := c.BoilEnd, math.Inf(1)
		for _, s := range stands {
			if off := math.Abs(float64(s.from.Sub(at.Temperature))); off < found {
				nearest, found = s.ends-at.Time, off
			}
		}
		return nearest
	}
	return c.BoilEnd
}

// MashBalance returns the balance of protons of the mash before late grain,
// with the acid that is planned, and by how much more than it this house reads.
// It isn't ok where the water isn't known.
func (p *Plan) MashBalance() (b mash.Balance, offset quantity.PH, ok bool) {
	if p.day == nil || p.day.balance == nil {
		return b, 0, false
	}
	return *p.day.balance, p.day.phOffset, true
}
