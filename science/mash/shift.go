// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// hotShift is the fall of the mash pH per kelvin of warming.
const hotShift = 0.0078

// HotPH returns the pH in the hot mash from that of a cooled sample. The
// temperature compensation of a meter corrects its electrode, not this shift.
//
//	pH(hot) = pH(20 °C) − 0.0078·(T − 20)
//
// Units: T in °C.
//
//   - Source: briggs2004, p. 115, second-hand: 0.35 lower at 65 °C, 0.45 at 78 °C; the slope is fitted. Others find 0.2 to 0.3 at 65 °C.
//   - Valid: 20..78 °C.
//   - Check: 5.40 at 65 °C: 5.049.
//   - Tag: second-hand
func HotPH(cooled quantity.PH, at quantity.Temperature) quantity.PH {
	return cooled - quantity.PH(hotShift*(at.Celsius()-20))
}

// CooledPH returns the pH of a cooled sample from that in the hot mash: the
// inverse of [HotPH].
//
//	pH(20 °C) = pH(hot) + 0.0078·(T − 20)
//
// Units: T in °C.
//
//   - Source: briggs2004, p. 115, second-hand.
//   - Valid: 20..78 °C.
//   - Check: 5.049 at 65 °C: 5.40.
//   - Tag: second-hand
func CooledPH(hot quantity.PH, at quantity.Temperature) quantity.PH {
	return hot + quantity.PH(hotShift*(at.Celsius()-20))
}

// dHPerMEq is one mEq/L in German degrees: 56.077 mg of CaO are 2 mEq, and a
// degree is 10 mg/L of it.
const dHPerMEq = 56.077 / 2 / 10

// KolbachShift returns how much a residual alkalinity raises the pH of the
// cooled cast-out wort of 12 °P. It is a figure for wort: the mash answers
// otherwise, and [PH] says how.
//
//	ΔpH = 0.3 · RA/10 °dH = 0.0841 · RA
//
// Units: RA in mEq/L where no other is given.
//
//   - Source: kolbach1953, from memory.
//   - Valid: wort of pale malt, 12 °P.
//   - Check: 0.0841 pH per mEq/L.
//   - Tag: from memory
func KolbachShift(residualAlkalinity quantity.Charge) quantity.PH {
	return quantity.PH(0.3 / 10 * dHPerMEq * float64(residualAlkalinity))
}

// TroesterPH returns the mash pH by a quick rule: the pH of the grist in
// distilled water, moved by the residual alkalinity the more the thinner the
// mash.
//
//	pH = pHDI + (0.013·R + 0.013)·RA
//
// Units: R in L/kg, RA in mEq/L.
//
//   - Source: troester2009, form second-hand, coefficients from memory.
//   - Valid: R 2..6.
//   - Check: R 4: 0.065 pH per mEq/L; R 5.5: 0.0845.
//   - Tag: from memory
func TroesterPH(grist quantity.PH, ratio quantity.Ratio, residualAlkalinity quantity.Charge) quantity.PH {
	return grist + quantity.PH((0.013*float64(ratio)+0.013)*float64(residualAlkalinity))
}

// TroesterGristPH returns the pH of a grist in distilled water by the quick
// rule: the mean of the base malts, with 5.7 for the titrated ones, lowered by
// the acidity of these.
//
//	pHDI = Σ m·pH / Σ m − Σ m·A57 / Σ m·B
//
// Units: m in kg, A57 in mEq/kg, B in mEq/(kg pH); pH is 5.7 for a titrated malt.
//
//   - Source: troester2009, described there, second-hand.
//   - Valid: little titrated malt.
//   - Check: 4.5 kg (5.75, 38) and 0.5 kg (28.96, 35): 5.667, computed from the formula.
//   - Tag: second-hand
func TroesterGristPH(malts []Malt) quantity.PH {
	mass, weighted, acidity, buffer := 0.0, 0.0, 0.0, 0.0
	for _, malt := range malts {
		m := float64(malt.Mass)
		mass += m
		buffer += m * malt.Buffer
		if malt.Base {
			weighted += m * float64(malt.PHDI)
			continue
		}
		weighted += m * titrationEndpoint
		acidity += m * malt.Acidity57
	}
	return quantity.PH(weighted/mass - acidity/buffer)
}
