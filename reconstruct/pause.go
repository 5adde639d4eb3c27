// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"math"
	"slices"

	"gyle/quantity"
)

// pause is a time in which a boil stood still, with the heating up after it:
// the legs from one to before another.
type pause struct {
	from, to int
	lasted   quantity.Duration
	added    quantity.Duration // by which the boil was made longer for it
	left     quantity.Duration // from its end to flame-out
}

// pausesOf finds the pauses of a boil. A brewer who keeps the clock loses that
// much of the boil, one who stops it boils on for as long.
func pausesOf(planned, brewed Facts) []pause {
	var out []pause
	excess := max(0, length(brewed.Boil)-length(planned.Boil))
	for i, l := range brewed.Boil {
		if l.Boils || i > 0 && !brewed.Boil[i-1].Boils || slices.ContainsFunc(planned.Boil, func(k Leg) bool { return k.Name == l.Name }) {
			continue
		}
		p := pause{from: i, to: i}
		for p.to < len(brewed.Boil) && !brewed.Boil[p.to].Boils {
			p.lasted += brewed.Boil[p.to].Time
			p.to++
		}
		p.left = length(brewed.Boil[p.to:])
		p.added = min(p.lasted, excess)
		excess -= p.added
		out = append(out, p)
	}
	return out
}

func length(legs []Leg) quantity.Duration {
	sum := quantity.Duration(0)
	for _, l := range legs {
		sum += l.Time
	}
	return sum
}

// pauses lists the pauses of a boil as slips.
func pauses(planned, brewed Facts) []undoing {
	var out []undoing
	for _, p := range pausesOf(planned, brewed) {
		says := fmt.Sprintf("%s, %s without a boil", brewed.Boil[p.from].Name, minutes(p.lasted))
		out = append(out, undoing{says, func(f *Facts) {
			through := Leg{Name: "boil", From: planned.boilsAt(), Time: p.lasted - p.added, Boils: true}
			f.Boil = slices.Replace(f.Boil, p.from, p.to, through)
			for k := range f.Charges {
				c := &f.Charges[k]
				asMeant := k < len(planned.Charges) && math.Abs(float64(c.Boil-planned.Charges[k].Boil)) < leastMinutes
				if c.At.IsZero() && c.Boil > p.left && !asMeant {
					c.Boil = max(p.left, c.Boil-p.added) // it went in by the clock before the pause
				}
			}
		}})
	}
	return out
}

// clockOf returns when a charge went in before flame-out, without the time by
// which the boil was made longer for pauses after it.
func (c Charge) clockOf(pauses []pause) quantity.Duration {
	d := c.Boil
	for _, p := range pauses {
		if c.Boil > p.left {
			d -= p.added
		}
	}
	return d
}
