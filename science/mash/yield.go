// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// hotWortFactor turns litres of hot cast-out wort into kilograms of cold one:
// contraction from 98 to 20 °C (0.9615) and a correction for trub.
const hotWortFactor = 0.96

// HotWortYield returns the extract of the cast-out wort, before trub is taken
// off, per mass of grist. It relates to the grist, not to its extract, so that
// 75 to 80 % is near the limit of malt.
//
//	yield in % = V(hot)·P·SG·0.96 / grist
//
// Units: V in L, P in °P, grist in kg.
//
//   - Source: mebak, definition; kunze, from memory, for 0.96.
//   - Valid: volume read at about 98 °C.
//   - Check: 24.0 L of 12.0 °P from 5.0 kg: 57.97 %.
//   - Tag: from memory
func HotWortYield(hot quantity.Volume, p quantity.Plato, sg quantity.SG, grist quantity.Mass) quantity.Fraction {
	return quantity.Percent(float64(hot) * float64(p) * float64(sg) * hotWortFactor / float64(grist))
}

// ColdWortYield returns the extract of the chilled wort per mass of grist.
// science/gravity gives the extract of a volume at 20 °C.
//
//	yield in % = V(20 °C)·P·SG·0.9982 / grist
//
// Units: V in L, P in °P, grist in kg.
//
//   - Source: practice, definition.
//   - Valid: volume at 20 °C.
//   - Check: 23.0 L of 12.5 °P from 5.0 kg: 60.29 %.
//   - Tag: computed
func ColdWortYield(extract, grist quantity.Mass) quantity.Fraction {
	return quantity.Fraction(extract / grist)
}

// OverallBrewhouseYield returns the extract in all cold wort, recoverable rests
// included but not the spent grain, over the extract the laboratory found in
// the grist.
//
//	OBY = extract / (grist · laboratory extract, as is)
//
// Units: extract and grist in kg, laboratory extract in shares of mass.
//
//   - Source: mebak, definition.
//   - Valid: good plants 97..99 %, handbook range 92..98 %.
//   - Check: 3.0147 kg from 5.0 kg of 78.2 %: 77.10 %.
//   - Tag: verified
func OverallBrewhouseYield(extract, grist quantity.Mass, laboratory quantity.Fraction) quantity.Fraction {
	return quantity.Fraction(float64(extract) / (float64(grist) * float64(laboratory)))
}

// BrewhouseEfficiency returns the share of the grist's extract that reaches the
// fermenter.
//
//	η = η(mash)·(1 − losses)
//
// Units: shares, 0 to 1; losses are the share of wort left behind.
//
//   - Source: practice, definition.
//   - Valid: always.
//   - Check: 0.80 and 0.06: 0.752, computed from the formula.
//   - Tag: derived
func BrewhouseEfficiency(mash, losses quantity.Fraction) quantity.Fraction {
	return mash * (1 - losses)
}

// PointsEfficiency returns the efficiency as brewers reckon it from gravity
// points; it agrees with the ratio of extracts within 0.5 %.
//
//	η = points · V / (m · L°/kg)
//
// Units: V in L at 20 °C, m in kg.
//
//   - Source: practice, definition.
//   - Valid: worts below 15 °P.
//   - Check: 23.0 L of 1.0505 from 5.0 kg at 301.9: 76.9 % beside an OBY of 77.10 %.
//   - Tag: common practice
func PointsEfficiency(sg quantity.SG, v quantity.Volume, grist quantity.Mass, litreDegrees float64) quantity.Fraction {
	return quantity.Fraction(sg.Points() * float64(v) / (float64(grist) * litreDegrees))
}
