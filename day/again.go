// SPDX-License-Identifier: MIT

package day

import (
	"math"

	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
)

// Again makes the plan of a gyle anew from the documents that it was made of,
// for its kinetics: with the size, the hops and the day that come nearest to the
// gyle's snapshot. Same reports whether it is the plan the gyle was begun with;
// nil means that it can't be planned any more.
func Again(g *gyle.Gyle, in plan.Input) (p *plan.Plan, same bool) {
	if g.Plan == nil || in.Recipe == nil || in.House == nil {
		return nil, false
	}
	const near = 1e-3
	in.Cooling = g.Plan.Cooling
	in.Swap = swapped(g, in)
	off := math.Inf(1)
	for _, size := range []quantity.Volume{0, g.Plan.Volumes.Collected} {
		for _, on := range []gyle.Date{{}, g.Plan.Made} {
			for _, oil := range []bool{false, true} {
				in.Size, in.On, in.KeepOil = size, on, oil
				made, err := plan.Make(in)
				if err != nil {
					continue
				}
				if d := apart(made, g.Plan); d < off {
					p, off = made, d
				}
				if off < near {
					return p, true
				}
			}
		}
	}
	return p, false
}

// swapped finds the hops that a gyle was weighed out with instead of those of
// its recipe.
func swapped(g *gyle.Gyle, in plan.Input) map[string]string {
	swap := map[string]string{}
	for _, c := range in.Recipe.Hops {
		for _, planned := range g.Plan.Hops {
			if planned.At == c.At.String() && planned.Hop != c.Hop {
				swap[c.Hop] = planned.Hop
			}
			if planned.At == c.At.String() && planned.Hop == c.Hop {
				delete(swap, c.Hop)
				break
			}
		}
	}
	return swap
}

// apart is how far a plan is from a snapshot: the largest relative difference
// of the volumes and the hops.
func apart(p *plan.Plan, snapshot *gyle.Plan) float64 {
	off := math.Abs(float64(p.Volumes.KnockOut/snapshot.Volumes.KnockOut) - 1)
	off = max(off, math.Abs(float64(p.Gravity.OG-snapshot.Gravity.OG))*20)
	for i, c := range Snapshot(p, "", snapshot.Made.Time).Hops {
		if i >= len(snapshot.Hops) || snapshot.Hops[i].Hop != c.Hop {
			return max(off, 1)
		}
		off = max(off, math.Abs(float64(c.Mass/snapshot.Hops[i].Mass)-1))
	}
	return off
}
