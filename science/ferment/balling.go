// SPDX-License-Identifier: MIT

package ferment

import (
	"gyle/quantity"
	"gyle/science/gravity"
)

// Balling's balance: 2.0665 g of extract give 1 g of ethanol, 0.9565 g of CO2
// and 0.11 g of yeast solids.
const (
	extractPerAlcohol = 2.0665 // g/g
	gasPerAlcohol     = 0.9565 // g/g
	lossPerAlcohol    = gasPerAlcohol + yeastPerAlcohol
	yeastPerAlcohol   = 0.11 // g/g
)

// The density of ethanol, relative to water, that turns alcohol by mass into
// alcohol by volume. The choice moves the second decimal only.
const (
	EthanolSGConventional  = 0.791   // convention of the ASBC
	EthanolSGThermodynamic = 0.79066 // 789.24/998.20 at 20 °C, from the OIML table
	EthanolSG60F           = 0.7939  // at 60 °F
)

// RealExtract returns the real extract of a beer.
//
//	RE = 0.1808·OE + 0.8192·AE
//
// Units: all in °P.
//
//   - Source: balling, customary coefficients, as printed in an archived text.
//   - Valid: ordinary worts of 5 to 25 °P.
//   - Check: OE 11.912, AE 2.561 °P give 4.251 °P.
//   - Tag: second-hand
func RealExtract(original, apparent quantity.Plato) quantity.Plato {
	return 0.1808*original + 0.8192*apparent
}

// ApparentExtract returns the apparent extract of a beer, the inverse of
// [RealExtract].
//
//	AE = (RE − 0.1808·OE)/0.8192
//
// Units: all in °P.
//
//   - Source: balling, customary coefficients.
//   - Valid: as [RealExtract].
//   - Check: there and back is the same number.
//   - Tag: derived
func ApparentExtract(original, realExtract quantity.Plato) quantity.Plato {
	return (realExtract - 0.1808*original) / 0.8192
}

// AlcoholByMass returns the alcohol of a beer as a share of its mass. Its
// inverse, original extract from alcohol, is gravity.OriginalExtract.
//
//	A = (OE − RE)/(2.0665 − 0.010665·OE)
//
// Units: A in % by mass, OE and RE in °P.
//
//   - Source: balling, as printed in an archived text and by the asbc.
//   - Valid: ordinary worts of 5 to 25 °P. It overstates alcohol by 1 to 2 %
//     of its value against density-consistent figures.
//   - Check: OE 12, RE 4.136 °P give 4.057 %.
//   - Tag: second-hand
func AlcoholByMass(original, realExtract quantity.Plato) quantity.Fraction {
	return quantity.Percent(float64(original-realExtract) / (extractPerAlcohol - 0.010665*float64(original)))
}

// AlcoholByVolume turns alcohol by mass into alcohol by volume at 20 °C.
//
//	ABV = A·FG/k    ABV in % by volume, A in % by mass, FG the SG of the beer
//
// The density of ethanol k is [EthanolSGConventional] unless a document asks
// for another.
//
//   - Source: asbc, Beer-4, from memory.
//   - Valid: beers.
//   - Check: 1.048 to 1.010 gives 5.043 % (k 0.791), 5.046 (0.79066), 5.024 (0.7939).
//   - Tag: from memory
func AlcoholByVolume(byMass quantity.Fraction, final quantity.SG, k float64) quantity.Fraction {
	return quantity.Fraction(float64(byMass) * float64(final) / k)
}

// Alcohol returns the alcohol of a beer by volume: Balling's figure, which is
// the default of the program.
//
//	RE = 0.1808·OE + 0.8192·AE
//	A = (OE − RE)/(2.0665 − 0.010665·OE)
//	ABV = A·FG/0.791
//
// Units: OE and AE in °P, from og and fg; A in % by mass, ABV in % by volume.
//
//   - Source: balling, customary coefficients; asbc, Beer-4, from memory, for 0.791.
//   - Valid: og up to 1.100, also for beers with fg below 1.000.
//   - Check: 1.048 to 1.010 gives 5.04 %, 1.065 to 1.002 gives 8.42 %.
//   - Tag: from memory
func Alcohol(og, fg quantity.SG) quantity.Fraction {
	original, apparent := gravity.PlatoFromSG(og), gravity.PlatoFromSG(fg)
	byMass := AlcoholByMass(original, RealExtract(original, apparent))
	return AlcoholByVolume(byMass, fg, EthanolSGConventional)
}

// AlcoholValid is the range of original gravities for [Alcohol].
var AlcoholValid = quantity.Span[quantity.SG]{Low: 1.020, High: 1.100}

// ApparentAttenuation returns the apparent degree of fermentation (ADF).
//
//	ADF = (OE − AE)/OE
//
// Units: OE and AE in °P.
//
//   - Source: asbc, Beer-6, from memory.
//   - Valid: OE above 0.
//   - Check: OE 11.912, AE 2.561 °P give 78.50 %.
//   - Tag: from memory
func ApparentAttenuation(original, apparent quantity.Plato) quantity.Fraction {
	return quantity.Fraction((original - apparent) / original)
}

// RealAttenuation returns the real degree of fermentation (RDF), the plain one.
//
//	RDF = (OE − RE)/OE
//
// Units: OE and RE in °P.
//
//   - Source: asbc, Beer-6, from memory, without its correction.
//   - Valid: OE above 0.
//   - Check: OE 11.912, RE 4.251 °P give 64.31 %.
//   - Tag: from memory
func RealAttenuation(original, realExtract quantity.Plato) quantity.Fraction {
	return quantity.Fraction((original - realExtract) / original)
}

// RealAttenuationASBC returns the real degree of fermentation with the
// correction for the mass lost as gas and yeast. It lies 1 to 2 percentage
// points above [RealAttenuation]; always say which is shown.
//
//	RDF = (OE − RE)/OE / (1 − 0.005161·RE)
//
// Units: OE and RE in °P.
//
//   - Source: asbc, Beer-6, from memory; size of the correction in savel2020, abstract.
//   - Valid: OE above 0.
//   - Check: OE 11.912, RE 4.251 °P give 65.75 %.
//   - Tag: from memory
func RealAttenuationASBC(original, realExtract quantity.Plato) quantity.Fraction {
	return RealAttenuation(original, realExtract) / quantity.Fraction(1-0.005161*float64(realExtract))
}

// FinalGravity returns the gravity at which a wort ends that attenuates by a
// share of its extract (apparent attenuation). More than 100 % is possible:
// a dry beer ends below 1.000.
//
//	AE = OE·(1 − ADF)
//
// Units: OE and AE in °P, from and to SG by science/gravity.
//
//   - Source: asbc, Beer-6, from memory: the definition of ADF, solved for AE.
//   - Valid: og up to 1.178, attenuation up to about 110 %.
//   - Check: 1.048 at 78.5 % gives 1.0100.
//   - Tag: derived
func FinalGravity(og quantity.SG, attenuation quantity.Fraction) quantity.SG {
	return gravity.SGFromPlato(gravity.PlatoFromSG(og) * quantity.Plato(1-attenuation))
}

// Attenuation returns the apparent attenuation between two gravities: the
// inverse of [FinalGravity].
//
//	ADF = (OE − AE)/OE
//
// Units: OE and AE in °P, from og and fg.
//
//   - Source: asbc, Beer-6, from memory.
//   - Valid: og above 1.
//   - Check: there and back is the same number.
//   - Tag: from memory
func Attenuation(og, fg quantity.SG) quantity.Fraction {
	return ApparentAttenuation(gravity.PlatoFromSG(og), gravity.PlatoFromSG(fg))
}

// ashOfBeer is the usual ash of a beer, % by mass.
const ashOfBeer = 0.1

// Kilocalories is an energy of food; 1 kcal is 4.184 kJ.
type Kilocalories float64

// Kilojoules returns e in kJ.
func (e Kilocalories) Kilojoules() float64 { return float64(e) * 4.184 }

// EnergyPer100mL returns the food energy of 100 mL of beer.
//
//	E = (6.9·A + 4.0·(RE − 0.1))·FG
//
// Units: E in kcal/100 mL, A in % by mass, RE in °P, 0.1 % ash, FG the SG.
//
//   - Source: oxfordcompanion, entry on calories, after ASBC Beer-33.
//   - Valid: beers.
//   - Check: A 3.950 %, RE 4.251 °P, FG 1.010 give 44.30 kcal.
//   - Tag: verified
func EnergyPer100mL(byMass quantity.Fraction, realExtract quantity.Plato, final quantity.SG) Kilocalories {
	per100g := 6.9*byMass.Percent() + 4.0*(float64(realExtract)-ashOfBeer)
	return Kilocalories(per100g * float64(final))
}

// EnergyOf returns the food energy of a serving of beer.
//
//	E = E100·V/0.1
//
// Units: E and E100 (of 100 mL) in kcal, V in L.
//
//   - Source: oxfordcompanion, entry on calories, after ASBC Beer-33.
//   - Valid: beers.
//   - Check: 3.55 times that of 100 mL in 12 US fluid ounces.
//   - Tag: verified
func EnergyOf(per100mL Kilocalories, serving quantity.Volume) Kilocalories {
	return per100mL * Kilocalories(serving.Litres()/0.1)
}

// GasReleased returns the CO2 that a wort sets free on its way from og to fg,
// in g per L of wort.
//
//	CO2 = 0.9565·A·ρ / (100 + 1.0665·A) · 10
//
// Units: A in % by mass of the beer, ρ of the wort in kg/L (SG·0.9982), CO2 in g/L.
// The divisor is there because 100 g of beer come from 100 + 1.0665·A g of wort.
//
//   - Source: balling, balance of masses.
//   - Valid: ordinary worts.
//   - Check: 12 to AE 2.4 °P gives 38.9 g/L, 20 to 4 gives 68.0.
//   - Tag: computed
func GasReleased(og, fg quantity.SG) quantity.Dose {
	original, apparent := gravity.PlatoFromSG(og), gravity.PlatoFromSG(fg)
	a := AlcoholByMass(original, RealExtract(original, apparent)).Percent()
	perKilogram := 1000 * gasPerAlcohol * a / (100 + lossPerAlcohol*a) // g per kg of wort
	return quantity.Dose(perKilogram * gravity.WortMass(1, og).Kilograms())
}
