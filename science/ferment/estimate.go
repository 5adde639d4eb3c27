// SPDX-License-Identifier: MIT

package ferment

import "gyle/quantity"

// CutaiaValid is the range of original extracts of the brews behind the
// functions named after Cutaia.
var CutaiaValid = quantity.Span[quantity.Plato]{Low: 9, High: 18}

// AlcoholByMassCutaia returns the alcohol by a regression on 532 brews.
//
//	A = (0.372 + 0.00357·OE)·(OE − AE)
//
// Units: A in % by mass, OE and AE in °P.
//
//   - Source: cutaia2009, table VI, coefficient a (standard error 0.0100).
//   - Valid: 9 to 18 °P; above 20 °P it overshoots Balling.
//   - Check: OE 11.912, AE 2.561 °P give 4.95 % by volume at FG 1.010.
//   - Tag: verified
func AlcoholByMassCutaia(original, apparent quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64((0.372 + 0.00357*original) * (original - apparent)))
}

// AlcoholByMassCutaiaReal returns the alcohol by a regression on 532 brews.
//
//	A = (0.459 + 0.00469·OE)·(OE − RE)
//
// Units: A in % by mass, OE and RE in °P.
//
//   - Source: cutaia2009, table VI, coefficient b (standard error 0.0152).
//   - Valid: 9 to 18 °P.
//   - Check: within 1 % of [AlcoholByMassCutaia] at 12 °P.
//   - Tag: verified
func AlcoholByMassCutaiaReal(original, realExtract quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64((0.459 + 0.00469*original) * (original - realExtract)))
}

// AlcoholByMassCutaiaExtracts returns the alcohol by a regression on 532 brews.
//
//	A = (1.99 + 0.0134·OE)·(RE − AE)    A in % by mass, extracts in °P
//
// The print has "1.99 × 10⁻¹", which fits neither the other coefficients nor
// the reference value of 2.19; it is read as 1.99.
//
//   - Source: cutaia2009, table VI, coefficient c, misprint put right.
//   - Valid: 9 to 18 °P.
//   - Check: within 6 % of [AlcoholByMassCutaia] at 12 °P.
//   - Tag: verified
func AlcoholByMassCutaiaExtracts(original, realExtract, apparent quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64((1.99 + 0.0134*original) * (realExtract - apparent)))
}

// AlcoholByMassPawlowski returns the alcohol by the older reference
// coefficients that Cutaia and others print beside their own.
//
//	A = (0.395 + 0.0021·OE)·(OE − AE)
//
// Units: A in % by mass, OE and AE in °P.
//
//   - Source: cutaia2009, table VI, reference coefficients (Pawlowski, Doemens).
//   - Valid: 9 to 18 °P.
//   - Check: within 1.5 % of [AlcoholByMassCutaia] from 9 to 18 °P.
//   - Tag: verified
func AlcoholByMassPawlowski(original, apparent quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64((0.395 + 0.0021*original) * (original - apparent)))
}

// AlcoholByMassPawlowskiReal returns the alcohol from real extract by the older
// reference coefficients.
//
//	A = (0.481 + 0.0030·OE)·(OE − RE)
//
// Units: A in % by mass, OE and RE in °P.
//
//   - Source: cutaia2009, table VI, reference coefficients (Pawlowski, Doemens).
//   - Valid: 9 to 18 °P.
//   - Check: within 1 % of [AlcoholByMassPawlowski] at 12 °P.
//   - Tag: verified
func AlcoholByMassPawlowskiReal(original, realExtract quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64((0.481 + 0.0030*original) * (original - realExtract)))
}

// AlcoholByMassPawlowskiExtracts returns the alcohol from real and apparent
// extract by the older reference coefficients.
//
//	A = (2.19 + 0.0031·OE)·(RE − AE)
//
// Units: A in % by mass, extracts in °P.
//
//   - Source: cutaia2009, table VI, reference coefficients (Pawlowski, Doemens).
//   - Valid: 9 to 18 °P.
//   - Check: within 6 % of [AlcoholByMassPawlowski] at 12 °P.
//   - Tag: verified
func AlcoholByMassPawlowskiExtracts(original, realExtract, apparent quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64((2.19 + 0.0031*original) * (realExtract - apparent)))
}

// AttenuationQuotientPawlowski returns the quotient of real and apparent degree
// of fermentation by the older reference coefficients.
//
//	Q = 0.820 − 0.00066·OE
//
// Units: OE in °P.
//
//   - Source: cutaia2009, table VI, reference coefficients (Pawlowski, Doemens).
//   - Valid: 9 to 18 °P.
//   - Check: 0.8121 at 12 °P; it falls with OE where [AttenuationQuotientCutaia] rises.
//   - Tag: verified
func AttenuationQuotientPawlowski(original quantity.Plato) float64 {
	return 0.820 - 0.00066*float64(original)
}

// AttenuationQuotientCutaia returns the usual quotient of real (ASBC) and
// apparent degree of fermentation.
//
//	Q = 0.814 + 0.000862·OE
//
// Units: OE in °P.
//
//   - Source: cutaia2009, table VI, coefficient Q (standard error 0.0048).
//   - Valid: 9 to 18 °P.
//   - Check: 0.8243 at 12 °P; [RealAttenuationASBC] gives 0.84 there.
//   - Tag: verified
func AttenuationQuotientCutaia(original quantity.Plato) float64 {
	return 0.814 + 0.000862*float64(original)
}

// AlcoholShortForm returns a rough figure of alcohol by volume.
//
//	ABV = 131.25·(OG − FG)
//
// Units: ABV in % by volume.
//
//   - Source: practice, without author.
//   - Valid: 1.035 to 1.060; label it an estimate.
//   - Check: 1.048 to 1.010 gives 4.99 %.
//   - Tag: common practice
func AlcoholShortForm(og, fg quantity.SG) quantity.Fraction {
	return quantity.Percent(131.25 * float64(og-fg))
}

// AlcoholHall returns Hall's short form of alcohol by volume. It overstates
// strong beers: 11.05 % for 1.100 to 1.024, where Balling gives 10.35 %.
//
//	ABV = 76.08·(OG − FG)/(1.775 − OG)·FG/0.794
//
// Units: ABV in % by volume.
//
//   - Source: hall1995, from memory.
//   - Valid: up to 1.060; label it an estimate.
//   - Check: 1.048 to 1.010 gives 5.06 %.
//   - Tag: from memory
func AlcoholHall(og, fg quantity.SG) quantity.Fraction {
	return quantity.Percent(float64(76.08 * (og - fg) / (1.775 - og) * fg / 0.794))
}

// AlcoholByFactor returns alcohol by volume as a tax authority computes it:
// the fall in gravity points times a factor from its current notice.
//
//	ABV = (OG − FG)·1000·f
//
// Units: ABV in % by volume, f about 0.125 to 0.135.
//
//   - Source: ukduty, principle; the factors must be taken from the notice in force.
//   - Valid: where the factor was published for. Check your country's rules.
//   - Check: 38 points at f 0.129 give 4.90 %.
//   - Tag: from memory
func AlcoholByFactor(og, fg quantity.SG, factor float64) quantity.Fraction {
	return quantity.Percent((og.Points() - fg.Points()) * factor)
}
