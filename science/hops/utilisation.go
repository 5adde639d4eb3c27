// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// The formulas of this file compute utilisation from the minutes of boil
// alone. They are kept for comparison: they know no temperature, give nothing
// to a charge at flame-out and let the brewer's kettle be the author's.

// TinsethUtilisation returns the share of the alpha acids found as bitterness
// in the beer, after time d in the boil at mean gravity sg.
//
//	U = 1.65·0.000125^(SG−1) · (1 − e^(−0.04·t))/4.15
//
// Units: t in min.
//
//   - Source: tinseth1997, formula and table.
//   - Valid: 0–120 min, 1.030–1.130.
//   - Check: every cell of the author's table of 121 that was compared, to its last digit; 0.231 for 60 min at 1.050.
//   - Tag: verified
func TinsethUtilisation(sg quantity.SG, d quantity.Duration) quantity.Fraction {
	return quantity.Fraction(TinsethBigness(sg) * TinsethTime(d))
}

// TinsethBigness returns the gravity term of [TinsethUtilisation].
//
//	bigness = 1.65 · 0.000125^(SG−1)
//
// Units: none.
//
//   - Source: tinseth1997, bigness factor.
//   - Valid: 1.030–1.130.
//   - Check: 1.0528 at 1.050.
//   - Tag: verified
func TinsethBigness(sg quantity.SG) float64 { return 1.65 * math.Pow(0.000125, float64(sg)-1) }

// TinsethTime returns the time term of [TinsethUtilisation].
//
//	time = (1 − e^(−0.04·t))/4.15
//
// Units: t in min.
//
//   - Source: tinseth1997, boil time factor.
//   - Valid: 0–120 min.
//   - Check: 0.21910 at 60 min.
//   - Tag: verified
func TinsethTime(d quantity.Duration) float64 { return (1 - math.Exp(-0.04*d.Minutes())) / 4.15 }

// TinsethIBU returns the bitterness of a charge by [TinsethUtilisation].
//
//	IBU = 1000 · U · m · alpha / V
//
// Units: m in g, V in L of beer.
//
//   - Source: tinseth1997, formula.
//   - Valid: as [TinsethUtilisation].
//   - Check: 28 g of 5 %, 60 min, 1.050, 20 L: 16.15 IBU.
//   - Tag: verified
func TinsethIBU(m quantity.Mass, alpha quantity.Fraction, sg quantity.SG, d quantity.Duration, v quantity.Volume) quantity.IBU {
	u := TinsethUtilisation(sg, d)
	return quantity.IBU(1000 * float64(u*alpha) * m.Grams() / v.Litres())
}

// ragerTable is Rager's table: utilisation in percent up to and including the
// minutes. The rows of 28.1 and 30.0 % are from memory.
var ragerTable = []struct{ upTo, percent float64 }{
	{5, 5.0}, {10, 6.0}, {15, 8.0}, {20, 10.1}, {25, 12.1}, {30, 15.3},
	{35, 18.8}, {40, 22.8}, {45, 26.9}, {50, 28.1}, {math.Inf(1), 30.0},
}

// RagerUtilisation returns Rager's utilisation for the minutes of boil.
//
//	U = 5.0, 6.0, 8.0, 10.1, 12.1, 15.3, 18.8, 22.8, 26.9, 28.1, 30.0 for each 5 min
//
// Units: U in %, time in min.
//
//   - Source: rager1990, table, quoted in later texts up to 45 min; 28.1 and 30.0 % from memory.
//   - Valid: 0–60 min.
//   - Check: 30.0 % for 60 min.
//   - Tag: from memory
func RagerUtilisation(d quantity.Duration) quantity.Fraction {
	for _, row := range ragerTable {
		if d.Minutes() <= row.upTo {
			return quantity.Percent(row.percent)
		}
	}
	return quantity.Percent(ragerTable[len(ragerTable)-1].percent)
}

// RagerUtilisationSmooth returns the smooth curve drawn through Rager's table.
//
//	U = 18.11 + 13.86·tanh((t − 31.32)/18.27)
//
// Units: U in %, t in min.
//
//   - Source: rager1990, curve quoted in later texts.
//   - Valid: 0–60 min.
//   - Check: 8.23, 17.11, 26.90 and 30.82 % for 15, 30, 45 and 60 min.
//   - Tag: from memory
func RagerUtilisationSmooth(d quantity.Duration) quantity.Fraction {
	return quantity.Percent(18.11 + 13.86*math.Tanh((d.Minutes()-31.32)/18.27))
}

// RagerIBU returns the bitterness of a charge by Rager's formula.
//
//	IBU = 1000 · m · alpha · U / (V·(1 + GA))    GA = (SG − 1.050)/0.2 above 1.050, else 0
//
// Units: m in g, V in L.
//
//   - Source: rager1990, formula quoted in later texts.
//   - Valid: as [RagerUtilisation].
//   - Check: 40 g of 6.5 %, 60 min, 1.070, 20 L: 35.45 IBU.
//   - Tag: second-hand
func RagerIBU(m quantity.Mass, alpha quantity.Fraction, sg quantity.SG, u quantity.Fraction, v quantity.Volume) quantity.IBU {
	adjust := max(0, (float64(sg)-1.050)/0.2)
	return quantity.IBU(1000 * m.Grams() * float64(alpha*u) / (v.Litres() * (1 + adjust)))
}

// GaretzHoppingFactor returns the factor by which Garetz divides utilisation
// for the hopping rate. It is given as history, not as a choice.
//
//	HF = 1 + IBU/260
//
// Units: IBU.
//
//   - Source: garetz1994, quoted in later texts.
//   - Valid: up to about 100 IBU.
//   - Check: 1.3846 for 100 IBU.
//   - Tag: second-hand
func GaretzHoppingFactor(aim quantity.IBU) float64 { return 1 + float64(aim)/260 }

// GaretzAltitudeFactor returns the factor by which Garetz divides utilisation
// for the altitude. It is milder than the kinetics at the true boiling point.
//
//	TF = 1 + 0.02·(feet/550)
//
// Units: altitude in feet.
//
//   - Source: garetz1994, quoted in later texts.
//   - Valid: 0–3000 m.
//   - Check: 1.239 at 2000 m.
//   - Tag: from memory
func GaretzAltitudeFactor(altitude quantity.Length) float64 {
	return 1 + 0.02*(float64(altitude)/0.3048/550)
}
