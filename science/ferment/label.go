// SPDX-License-Identifier: MIT

package ferment

import (
	"math"

	"gyle/quantity"
)

// rounding noise below this share of the last digit is no information.
const roundingNoise = 1e-9

// Rounding is a way to cut a figure to its decimals.
type Rounding int

// The ways of rounding. UK beer duty wants Down: 7.59 % becomes 7.5 %.
const (
	HalfAwayFromZero Rounding = iota
	HalfEven
	Down // towards minus infinity
)

// Round cuts x to a number of decimals. Figures are stored unrounded; this is
// for labels and returns. A binary 0.29 that lies a hair below 0.29 is taken
// for 0.29.
func (r Rounding) Round(x float64, decimals int) float64 {
	power := math.Pow(10, float64(decimals))
	scaled := x * power
	if near := math.Round(2*scaled) / 2; math.Abs(scaled-near) < roundingNoise*math.Max(1, math.Abs(near)) {
		scaled = near
	}
	switch r {
	case HalfEven:
		scaled = math.RoundToEven(scaled)
	case Down:
		scaled = math.Floor(scaled)
	default:
		scaled = math.Round(scaled)
	}
	return scaled / power
}

// LabelToleranceEU returns how far the alcohol on a label may lie from the
// truth in the European Union, in % by volume at 20 °C.
//
//	0.5 up to 5.5 % by volume, 1.0 above
//
// Units: in percentage points.
//
//   - Source: eu198787250, summary; now Regulation (EU) 1169/2011, annex XII.
//   - Valid: beers; check your country's rules.
//   - Check: 5.5 % may be off by 0.5, 5.6 % by 1.0.
//   - Tag: verified
func LabelToleranceEU(abv quantity.Fraction) quantity.Fraction {
	if abv.Percent() <= 5.5+roundingNoise {
		return quantity.Percent(0.5)
	}
	return quantity.Percent(1.0)
}

// LabelToleranceUS is the tolerance of malt beverage labels in the USA, read
// second-hand in a text on 27 CFR part 7: 0.3 percentage points. Check the rule
// in force.
const LabelToleranceUS quantity.Fraction = 0.003
