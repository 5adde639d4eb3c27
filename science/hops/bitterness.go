// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// IBU returns the bitterness that one charge of hops gives to the beer.
//
//	IBU = 1000 · m · alpha · I / V · R · K · g
//	m in g; V in L, all wort at knock-out at 20 °C; I is the yield of [History.Outcomes]
//	R is the recovery from kettle to beer, K the house factor, g the [GravityFactor]
//
// Multiply alpha by the [Form] of the hops and by what storage left ([AlphaNow]).
//
//   - Source: derived, balance of mass of iso-alpha acids.
//   - Valid: 1 IBU is taken as 1 mg/L of iso-alpha acids, right for fresh hops from the kettle.
//   - Check: 25 g of 10 %, I 0.5005, 20 L, R 0.49: 30.66 IBU.
//   - Tag: derived
func IBU(m quantity.Mass, alpha quantity.Fraction, yield float64, v quantity.Volume, recovery, house, gravityFactor float64) quantity.IBU {
	return quantity.IBU(1000 * m.Grams() * float64(alpha) * yield / v.Litres() * recovery * house * gravityFactor)
}

// MassFor returns the mass of hops that gives the wanted bitterness: [IBU]
// solved for the mass.
//
//	m = IBU · V / (1000 · alpha · I · R · K · g)
//
// Units: m in g, V in L.
//
//   - Source: derived, balance of mass of iso-alpha acids.
//   - Valid: yield above zero.
//   - Check: there and back through [IBU].
//   - Tag: derived
func MassFor(b quantity.IBU, alpha quantity.Fraction, yield float64, v quantity.Volume, recovery, house, gravityFactor float64) quantity.Mass {
	return quantity.Grams(float64(b) * v.Litres() / (1000 * float64(alpha) * yield * recovery * house * gravityFactor))
}

// The recovery R of iso-alpha acids from kettle to beer. Give each brewhouse
// one number; the [Losses] only explain it.
const (
	// HomeRecovery is set so that the kinetics with a home cool-down agree
	// with [TinsethUtilisation] between 10 and 60 min of boil.
	HomeRecovery = 0.49
	// ProductionRecovery is the product of the [Losses].
	ProductionRecovery = 0.55
)

// UncalibratedSpread is the relative standard deviation of a prediction for a
// brewhouse without measured bitterness (estimate).
const UncalibratedSpread = 0.25

// A Loss is one step on which iso-alpha acids are lost between kettle and beer.
type Loss struct {
	Step  string
	Share quantity.Fraction                // default
	Range quantity.Span[quantity.Fraction] // usual
}

// Losses are the steps of the loss in a well mixed plant with filtration. The
// split is from memory; only the product is trusted, set to agree with the
// 33.7 % that justus2018 found lost in the cellar.
var Losses = []Loss{
	{"hot break and spent hops", 0.13, quantity.Span[quantity.Fraction]{Low: 0.05, High: 0.20}},
	{"cold break and fall of pH", 0.06, quantity.Span[quantity.Fraction]{Low: 0.03, High: 0.10}},
	{"yeast and foam", 0.30, quantity.Span[quantity.Fraction]{Low: 0.15, High: 0.35}},
	{"fining and filtration", 0.03, quantity.Span[quantity.Fraction]{Low: 0.01, High: 0.05}},
}

// Recovery returns what is left after losses in a row.
//
//	R = Π (1 − loss)
//
// Units: none.
//
//   - Source: derived, balance of mass.
//   - Valid: losses from 0 to 1.
//   - Check: 0.555 for [Losses].
//   - Tag: derived
func Recovery(losses []Loss) float64 {
	left := 1.0
	for _, l := range losses {
		left *= 1 - float64(l.Share)
	}
	return left
}

// Form is the share of the alpha acids that a form of hops gives up in the
// kettle, pellets being the reference. From practice and memory.
type Form float64

// The forms of hops. A bag takes InBag of what the form gives.
const (
	Pellets    Form = 1.00
	WholeCones Form = 0.90
	InBag      Form = 0.92
)

// GravityFactor returns how the gravity of the boil changes the losses of
// iso-alpha acids: more gravity, more break. It is 1 at 1.050.
//
//	g = 0.000125^(SG − 1.050) = exp(−8.9872·(SG − 1.050))    SG: mean of the boil
//
// The rate of isomerisation itself doesn't depend on sugar (malowicki2005).
//
//   - Source: tinseth1997, gravity term, set to 1 at 1.050.
//   - Valid: 1.030–1.130.
//   - Check: 1.030 1.1969, 1.080 0.7637.
//   - Tag: verified
func GravityFactor(mean quantity.SG) float64 {
	return math.Pow(0.000125, float64(mean)-1.050)
}

// GravityFactorValid is the range of the table behind [GravityFactor].
var GravityFactorValid = quantity.Span[quantity.SG]{Low: 1.030, High: 1.130}

// MashHopCarryOver is the share of the alpha acids of mash hops that reaches
// the kettle; treat it as dosed at the start of the run-off. justus2018 found
// 0.207 of the bitterness of a 60 min charge; the trade says "80 % less".
//
// First-wort hops need no rule: give them the ramp to the boil in their
// [History]. Hops in a hop back stand at 90 to 97 °C for 2 to 10 min.
const MashHopCarryOver quantity.Fraction = 0.20
