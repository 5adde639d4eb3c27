// SPDX-License-Identifier: MIT

package ferment

import (
	"math"

	"gyle/quantity"
)

// BillionCells is a number of yeast cells, in 10⁹.
type BillionCells float64

// CellsNeeded returns how many viable cells a wort wants.
//
//	N = r·P·V    N in 10⁹ cells, r in 10⁶/(mL·°P), P in °P, V in L
//
// Usual rates: 0.5 to 1.0 for ales, 1.0 to 1.5 for lagers, 0.1 to 0.5 for
// farmhouse yeasts fermented above 28 °C, the upper end for strong beers.
//
//   - Source: briggs2004, conventions, as in boulton2001; both from memory.
//   - Valid: any. An industrial trial at 15.5 °P did best with 0.65 per °P
//     (kucharczyk2020).
//   - Check: 20 L of 12 °P at 0.75 want 180·10⁹.
//   - Tag: from memory
func CellsNeeded(rate quantity.PitchRate, p quantity.Plato, v quantity.Volume) BillionCells {
	return BillionCells(float64(rate) * float64(p) * v.Litres())
}

// DryYeastCells is the content of dry yeast in 10⁹ cells per g: lowest
// credible, planning value, highest. Six strains had 8 to 18
// (vandenberg2003, second-hand); suppliers guarantee 5 to 6 viable (practice).
var DryYeastCells = quantity.Band{Low: 5, Mid: 10, High: 18}

// LiquidYeastCells is the content of a unit of fresh liquid yeast, 10⁹ cells
// (practice, without source).
var LiquidYeastCells = quantity.Span[BillionCells]{Low: 100, High: 200}

// SlurryCells is the content of thick settled yeast in 10⁹ cells per mL
// (practice, without source).
var SlurryCells = quantity.Span[float64]{Low: 1.0, High: 1.5}

// DryYeastGrams returns the mass of dry yeast that brings n cells, in g. The
// band is wide because the counts are: weigh the middle, know the ends.
//
//	m = N/c
//
// Units: m in g, N in 10⁹ cells, c in 10⁹ cells/g (10, band 5 to 18).
//
//   - Source: vandenberg2003, counts of six strains, second-hand.
//   - Valid: fresh dry yeast.
//   - Check: 180·10⁹ cells want 18 g, band 10 to 36 g.
//   - Tag: second-hand
func DryYeastGrams(n BillionCells) quantity.Band {
	cells := float64(n)
	return quantity.Band{
		Low:  cells / DryYeastCells.High,
		Mid:  cells / DryYeastCells.Mid,
		High: cells / DryYeastCells.Low,
	}
}

// The loss of viability of refrigerated liquid yeast.
const (
	linearLossPerDay      = 0.007   // 21 % in the first 30 days
	exponentialLossPerDay = 0.00786 // −ln(1 − 0.21)/30, the same after 30 days
)

// ViabilityLinear returns the viable share of refrigerated liquid yeast by the
// rule that is quoted most. It passes zero at 143 days.
//
//	v = v0·(1 − 0.007·d)
//
// Units: v0 viability when fresh, d age in days.
//
//   - Source: practice, no primary source found, factors of 2 occur.
//   - Valid: to about 60 days.
//   - Check: from 0.97: 0.766 after 30 days, 0.359 after 90.
//   - Tag: common practice
func ViabilityLinear(fresh quantity.Fraction, age quantity.Duration) quantity.Fraction {
	return fresh * quantity.Fraction(1-linearLossPerDay*age.Days())
}

// ViabilityExponential returns the viable share of refrigerated liquid yeast
// by a decay that loses the same in the first month as [ViabilityLinear] and
// doesn't run into zero later. Beyond two months it is the safer of the two.
//
//	v = v0·exp(−0.00786·d)
//
// Units: v0 viability when fresh, d age in days.
//
//   - Source: derived, from the first month of the linear rule.
//   - Valid: an estimate at any age; treat viability as an input.
//   - Check: from 0.97: 0.766 after 30 days, 0.478 after 90.
//   - Tag: derived
func ViabilityExponential(fresh quantity.Fraction, age quantity.Duration) quantity.Fraction {
	return fresh * quantity.Fraction(math.Exp(-exponentialLossPerDay*age.Days()))
}

// The loss of viability of dry yeast in its sealed pack, a share per year
// (practice).
const (
	DryYeastLossCold = 0.04 // refrigerated
	DryYeastLossWarm = 0.20 // at 20 °C
)

// DryYeastViability returns the viable share of sealed dry yeast.
//
//	v = v0·(1 − l)^y
//
// Units: v0 when fresh, l loss per year, y age in years of 365.25 days.
//
//   - Source: practice, l is DryYeastLossCold or DryYeastLossWarm.
//   - Valid: to the date on the pack and a little beyond.
//   - Check: computed from the formula above (regression value): 0.80 after a
//     year at 20 °C.
//   - Tag: common practice
func DryYeastViability(fresh quantity.Fraction, age quantity.Duration, lossPerYear float64) quantity.Fraction {
	return fresh * quantity.Fraction(math.Pow(1-lossPerYear, age.Days()/365.25))
}
