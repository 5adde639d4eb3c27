// SPDX-License-Identifier: MIT

package color

import "gyle/quantity"

const (
	srmPerAbsorbance = 12.7 // by definition of the SRM, 1 cm at 430 nm
	ebcPerAbsorbance = 25.0 // by definition of the EBC scale, 1 cm at 430 nm
)

// LovibondValid is the range of malt colours, in °L, for [LovibondFromEBC].
var LovibondValid = quantity.Span[float64]{Low: 1, High: 600}

// SRMFromAbsorbance returns the colour of a beer in degrees SRM.
//
//	SRM = 12.7·D·A
//
// Units: A absorbance of 1 cm at 430 nm, D dilution factor.
//
//   - Source: asbc, Beer-10A, as defined in an encyclopaedia and in oxfordcompanion.
//   - Valid: clear beer; see [Turbid].
//   - Check: a hundredth of the light gives 25.4.
//   - Tag: second-hand
func SRMFromAbsorbance(absorbance, dilution float64) float64 {
	return srmPerAbsorbance * dilution * absorbance
}

// EBCFromAbsorbance returns the colour of a beer in EBC units.
//
//	EBC = 25·D·A
//
// Units: A absorbance of 1 cm at 430 nm, D dilution factor.
//
//   - Source: ebc, colour of beer, spectrophotometric method, as defined in an encyclopaedia and in oxfordcompanion.
//   - Valid: clear beer; see [Turbid].
//   - Check: 25/12.7 = 1.9685 EBC for one SRM; practice says 1.97.
//   - Tag: second-hand
func EBCFromAbsorbance(absorbance, dilution float64) quantity.EBC {
	return quantity.EBC(ebcPerAbsorbance * dilution * absorbance)
}

// Turbid reports whether a sample scatters too much light for a reading of
// colour: it must be filtered first.
//
//	A700 > 0.039·A430
//
// Units: absorbances of 1 cm at 700 and 430 nm.
//
//   - Source: asbc, Beer-10A.
//   - Valid: beer and wort.
//   - Check: the average beer of [Absorbance] stays below, at 0.0364.
//   - Tag: verified
func Turbid(absorbance430, absorbance700 float64) bool {
	return absorbance700 > 0.039*absorbance430
}

// LovibondFromEBC returns a malt colour in degrees Lovibond.
//
//	L = (EBC/1.97 + 0.76)/1.3546
//
// Units: L in °L, EBC of the laboratory wort.
//
//   - Source: practice, SRM = 1.3546·°L − 0.76, quoted widely without author.
//   - Valid: above 1 °L.
//   - Check: 3.84 EBC is 2 °L, 158.6 EBC is 60 °L.
//   - Tag: second-hand
func LovibondFromEBC(c quantity.EBC) float64 {
	return (c.SRM() + 0.76) / 1.3546
}

// EBCFromLovibond returns a malt colour in EBC units: the inverse of
// [LovibondFromEBC].
//
//	EBC = 1.97·(1.3546·L − 0.76)
//
// Units: L in °L, EBC of the laboratory wort.
//
//   - Source: practice, SRM = 1.3546·°L − 0.76, quoted widely without author.
//   - Valid: above 1 °L.
//   - Check: 10 °L is 25.2 EBC, 350 °L is 932.5 EBC.
//   - Tag: second-hand
func EBCFromLovibond(lovibond float64) quantity.EBC {
	return quantity.FromSRM(1.3546*lovibond - 0.76)
}

// LovibondFromEBCOlder returns a malt colour in °L by the older relation.
//
//	L = (EBC + 1.2)/2.65
//
// Units: L in °L, EBC of the laboratory wort.
//
//   - Source: practice, older relation of the trade.
//   - Valid: above 1 °L.
//   - Check: within 1 % of [LovibondFromEBC] above 10 °L.
//   - Tag: from memory
func LovibondFromEBCOlder(c quantity.EBC) float64 {
	return (float64(c) + 1.2) / 2.65
}

// EBCFromLovibondOlder returns a malt colour in EBC by the older relation.
//
//	EBC = 2.65·L − 1.2
//
// Units: L in °L, EBC of the laboratory wort.
//
//   - Source: practice, older relation of the trade.
//   - Valid: above 1 °L.
//   - Check: 2 °L is 4.10 EBC, 350 °L is 926.3 EBC.
//   - Tag: from memory
func EBCFromLovibondOlder(lovibond float64) quantity.EBC {
	return quantity.EBC(2.65*lovibond - 1.2)
}
