// SPDX-License-Identifier: MIT

package gravity

import "gyle/quantity"

// RealExtract returns the extract left in a beer from what a hydrometer shows.
//
//	RE = 0.1808·OE + 0.8192·AE
//
// Units: all in °P.
//
//   - Source: balling, as printed in an archived text and in asbc methods.
//   - Valid: beers of 5 to 20 °P original.
//   - Check: OE 18, AE 3.6 gives 6.204.
//   - Tag: second-hand
func RealExtract(original, apparent quantity.Plato) quantity.Plato {
	return 0.1808*original + 0.8192*apparent
}

// alcoholByMass solves Balling's balance for the alcohol.
func alcoholByMass(original, real quantity.Plato) quantity.Fraction {
	o := float64(original)
	return quantity.Percent((o - float64(real)) / (extractPerAlcohol - lostPerAlcohol/100*o))
}

// CarbonDioxideEvolved returns the carbon dioxide that fermentation of a litre
// of wort sets free.
//
//	CO2 = ρ·0.9565·A/(100 + 1.0665·A)
//
// Units: CO2 in g per L of wort at 20 °C, ρ of the wort in g/L, A in % by mass
// by Balling's balance. The gas collects in low, closed rooms and suffocates:
// air them, and trust a gas meter, not the nose.
//
//   - Source: derived, Balling's balance with densities of icumsasps4.
//   - Valid: 5 to 25 °P.
//   - Check: 12 to 2.4 °P sets 38.9 g/L free, 19.7 volumes.
//   - Tag: computed
func CarbonDioxideEvolved(original, apparent quantity.Plato) quantity.Dose {
	a := alcoholByMass(original, RealExtract(original, apparent)).Percent()
	return quantity.Dose(SucroseDensity(original, reference) * gasPerAlcohol * a / (100 + lostPerAlcohol*a))
}

// DilutionByAlcohol returns how many litres come of a litre of strong beer that
// is diluted to a target alcohol. The water must be free of oxygen and carry as
// much carbon dioxide as the beer.
//
//	V₂/V₁ = ABV₁/ABV₂
//
// Units: V in L, ABV in % by volume. The contraction is negligible.
//
//   - Source: derived, balance of alcohol.
//   - Valid: ABV₂ up to ABV₁.
//   - Check: 8.068 to 5.0 % gives 1.614.
//   - Tag: derived
func DilutionByAlcohol(strong, target quantity.Fraction) float64 {
	return float64(strong / target)
}

// DilutionByOriginal returns how many kilograms come of a kilogram of strong
// beer that is diluted until its original extract, computed again, is on target.
// That takes less water than scaling the original extract itself, because 100 g
// of beer came of more than 100 g of wort.
//
//	D = (2.0665·A + RE)/OE_target − 0.010665·A
//
// Units: D in kg per kg, A in % by mass, RE and OE in °P.
//
//   - Source: derived, Balling's balance.
//   - Valid: targets up to the beer's own original extract.
//   - Check: A 6.293, RE 6.204 to 12 °P gives 1.534.
//   - Tag: derived
func DilutionByOriginal(alcohol quantity.Fraction, real, target quantity.Plato) float64 {
	a := alcohol.Percent()
	return (extractPerAlcohol*a+float64(real))/float64(target) - lostPerAlcohol/100*a
}

// DiluteBeer returns alcohol and extract of a beer of which each kilogram was
// diluted to factor kilograms.
//
//	A' = A/D    RE' = RE/D    OE' = 100·(2.0665·A' + RE')/(100 + 1.0665·A')
//
// Units: D in kg per kg, A in % by mass, RE and OE in °P.
//
//   - Source: derived, balance of mass.
//   - Valid: D from 1.
//   - Check: 18 °P beer with half its mass of water has OE 12.26, not 12.00.
//   - Tag: derived
func DiluteBeer(b Beer, factor float64) Beer {
	alcohol := b.Alcohol / quantity.Fraction(factor)
	real := b.Real / quantity.Plato(factor)
	return Beer{SG: BeerSG(alcohol, real), Alcohol: alcohol, Real: real, Original: OriginalExtract(alcohol, real)}
}
