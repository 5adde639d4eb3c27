// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// An arrhenius rate is before·e^(−over/T), T in K, per minute.
type arrhenius struct{ before, over float64 }

func (a arrhenius) at(t quantity.Temperature) float64 {
	return a.before * math.Exp(-a.over/t.Kelvin())
}

// Kinetics are the two rates that make and break iso-alpha acids. [Published]
// are those of [IsoRate] and [DegradationRate]; others say what would be if
// these were wrong. Make them with [Kinetics.Times] and [Kinetics.Steeper].
type Kinetics struct{ made, broken arrhenius }

// Published are the rates of malowicki2005.
var Published = Kinetics{made: arrhenius{7.9e11, 11858}, broken: arrhenius{4.1e12, 12994}}

// gasConstant is that of an ideal gas, in kJ/(mol K), exact to the last digit
// shown.
const gasConstant = 8.314462618e-3

// Times returns kinetics whose rates are the given multiples.
func (k Kinetics) Times(made, broken float64) Kinetics {
	k.made.before *= made
	k.broken.before *= broken
	return k
}

// Steeper returns kinetics whose isomerisation has a higher energy of
// activation, by so many kJ/mol, and the same rate at 100 °C: below the boil it
// is slower.
//
//	k1' = k1 · exp(−ΔE/R·(1/T − 1/373.15))
//
// Units: ΔE in kJ/mol, R = 0.008314 kJ/(mol K), T in K.
//
//   - Source: derived, law of Arrhenius about the boil.
//   - Valid: small ΔE.
//   - Check: 4 kJ/mol makes 0.930 at 80 °C (computed from the formula above).
//   - Tag: derived
func (k Kinetics) Steeper(energy float64) Kinetics {
	if energy == 0 {
		return k
	}
	k.made.over += energy / gasConstant
	k.made.before *= math.Exp(energy / gasConstant / boiling.Kelvin())
	return k
}

// iso is the rate of isomerisation, none below its start.
func (k *Kinetics) iso(t quantity.Temperature) float64 {
	if t.Below(isomerisationStart) {
		return 0
	}
	return k.made.at(t)
}

// A Dosing is where in a history a charge goes in: so long after the start of
// one of its segments.
type Dosing struct {
	Segment int
	Into    quantity.Duration
}

// DosingAt returns where in the history a time after its start lies.
func (h History) DosingAt(at quantity.Duration) Dosing {
	segment, into := h.locate(at)
	return Dosing{segment, quantity.Duration(into)}
}

// A Follower works out the yields of charges again and again, for histories
// and kinetics that differ a little, without using new memory. The zero value
// is ready. It isn't for several goroutines at once.
type Follower struct{ whole []transfer }

// Yields fills iso with the iso-alpha acids at the end of the history of
// charges dosed fresh, per alpha acids: with [Published] kinetics exactly those
// of [History.Outcomes]. A segment of no duration changes nothing.
//
//	dA/dt = −k1·A    dI/dt = k1·A − k2·I
//
// Units: A, I per mass of alpha dosed; t in min.
//
//   - Source: malowicki2005, abstract; integrated as in [History.Outcomes].
//   - Valid: as [History.Outcomes].
//   - Check: equals [History.Outcomes] with published kinetics.
//   - Tag: derived
func (f *Follower) Yields(h History, k Kinetics, at []Dosing, iso []float64) {
	if cap(f.whole) < len(h) {
		f.whole = make([]transfer, len(h))
	}
	whole := f.whole[:len(h)]
	for i := range h {
		whole[i] = h[i].transferFrom(0, &k)
	}
	for i, d := range at {
		state := Fresh
		for n := d.Segment; n < len(h); n++ {
			m := whole[n]
			if n == d.Segment && d.Into > 0 {
				m = h[n].transferFrom(d.Into.Minutes(), &k)
			}
			state = m.apply(state)
		}
		iso[i] = state.Iso
	}
}
