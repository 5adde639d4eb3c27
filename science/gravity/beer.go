// SPDX-License-Identifier: MIT

package gravity

import (
	"math"

	"gyle/quantity"
)

// Balling's balance: grams of extract that make one gram of alcohol, and of
// these the part that leaves with carbon dioxide and yeast.
const (
	extractPerAlcohol = 2.0665
	lostPerAlcohol    = 1.0665
	gasPerAlcohol     = 0.9565
)

// Beer is what is in a beer, by mass.
type Beer struct {
	SG       quantity.SG
	Alcohol  quantity.Fraction // by mass
	Real     quantity.Plato    // extract that is left
	Original quantity.Plato    // extract of the wort
}

// ethanol20 returns the density in kg/m³ of ethanol and water at 20 °C by the
// polynomial of OIML R 22 (1975), for a mass fraction of ethanol.
func ethanol20(fraction float64) float64 {
	return horner(fraction, 998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
		306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426)
}

// ethanolSG is the true gravity 20/20 °C of ethanol and water.
func ethanolSG(alcohol quantity.Fraction) float64 {
	return ethanol20(float64(alcohol)) / ethanol20(0)
}

// BeerSG returns the gravity of a beer from its alcohol and extract, after
// Tabarié.
//
//	SG = SG_ethanol(A) + SG_sucrose(RE) − 1
//
// Units: A in % by mass, RE in °P; densities at 20 °C of oimlr22 and SG_sucrose
// by [SGFromPlato].
//
//   - Source: mebak, gravity of beer, distillate and residue.
//   - Valid: beers to about 10 % alcohol by mass.
//   - Check: A 4.057, RE 4.136 gives 1.00894.
//   - Tag: verified
func BeerSG(alcohol quantity.Fraction, realExtract quantity.Plato) quantity.SG {
	return quantity.SG(ethanolSG(alcohol)-1) + SGFromPlato(realExtract)
}

// BeerIndex returns the refractive index of a beer from its alcohol and extract.
//
//	n = n_sucrose(RE) + 5.9e-4·A + 6e-6·A²
//
// Units: A in % by mass, RE in °P, at 20 °C and 589.3 nm.
//
//   - Source: derived, fit of handbook indices of ethanol and water, which are
//     from memory, added to [RefractiveIndex].
//   - Valid: 0 to 10 % alcohol by mass, 0 to 30 °P.
//   - Check: 1.3330 to 1.3395 at 0 to 10 % within 0.0001.
//   - Tag: derived
func BeerIndex(alcohol quantity.Fraction, realExtract quantity.Plato) float64 {
	return RefractiveIndex(realExtract) + horner(alcohol.Percent(), 0, 5.9e-4, 6e-6)
}

// OriginalExtract returns the extract of the wort of which a beer was made, by
// Balling's balance.
//
//	OE = 100·(2.0665·A + RE)/(100 + 1.0665·A)
//
// Units: A in % by mass, RE and OE in °P.
//
//   - Source: balling, standard in asbc, EBC and MEBAK methods.
//   - Valid: fermented beers.
//   - Check: A 4.195, RE 4.136 gives 12.26.
//   - Tag: from memory
func OriginalExtract(alcohol quantity.Fraction, realExtract quantity.Plato) quantity.Plato {
	a := alcohol.Percent()
	return quantity.Plato(100 * (extractPerAlcohol*a + float64(realExtract)) / (100 + lostPerAlcohol*a))
}

// realExtract solves OriginalExtract for the extract that is left.
func realExtract(original quantity.Plato, alcohol quantity.Fraction) quantity.Plato {
	a := alcohol.Percent()
	return quantity.Plato(float64(original)*(100+lostPerAlcohol*a)/100 - extractPerAlcohol*a)
}

// alcoholLimit is the alcohol in % by mass when nothing of the extract is left.
func alcoholLimit(original quantity.Plato) float64 {
	return float64(original) / (extractPerAlcohol - lostPerAlcohol/100*float64(original))
}

// BeerFromBrix returns a beer from the refractometer readings of its wort and
// of itself, both already divided by the wort factor. It is the physical model:
// it holds from the first day of fermentation to the last.
//
//	n(A, RE) = n_sucrose(Rf) with RE = Ri·(100 + 1.0665·A)/100 − 2.0665·A
//
// solved for A by bisection. Sense lies between 0 and Ri/(2.0665 − 0.010665·Ri);
// beyond, A or RE turns negative and tells of a wrong reading. Units: Ri, Rf in
// °P, A in % by mass.
//
//   - Source: derived, Balling's balance with [BeerIndex] and [BeerSG].
//   - Valid: Rf between the index of a fully fermented beer and Ri. NaN a quarter
//     of that range beyond.
//   - Check: Ri 12, Rf 6 gives SG 1.0101, A 3.93, RE 4.38.
//   - Tag: derived
func BeerFromBrix(initial, current quantity.Plato) Beer {
	target := RefractiveIndex(current)
	limit := alcoholLimit(initial)
	a := solve(-limit/4, 1.25*limit, func(a float64) float64 {
		alcohol := quantity.Percent(a)
		return target - BeerIndex(alcohol, realExtract(initial, alcohol))
	})
	alcohol := quantity.Percent(a)
	left := realExtract(initial, alcohol)
	return Beer{SG: BeerSG(alcohol, left), Alcohol: alcohol, Real: left, Original: initial}
}

// BeerFromSGAndBrix returns a beer from its hydrometer and its refractometer
// reading, the latter divided by the wort factor, of the same degassed sample.
// Nothing need be known of the wort.
//
//	SG(A, RE) = SG and n(A, RE) = n_sucrose(Rf), solved for RE and A
//
// Units: Rf in °P, A in % by mass, RE in °P. An error of 0.1 °Bx makes 0.1 % of
// alcohol.
//
//   - Source: tornoe, principle of the method (about 1900); the equations are
//     those of [BeerIndex] and [BeerSG].
//   - Valid: 0 to 10 % alcohol by mass; it may come out slightly negative in wort.
//   - Check: SG 1.0094, Rf 5.90 gives RE 4.24, A 4.02, OE 12.03.
//   - Tag: derived
func BeerFromSGAndBrix(sg quantity.SG, current quantity.Plato) Beer {
	target := RefractiveIndex(current)
	left := func(a float64) quantity.Plato {
		return PlatoFromSG(sg + 1 - quantity.SG(ethanolSG(quantity.Percent(a))))
	}
	a := solve(-2, 20, func(a float64) float64 {
		return BeerIndex(quantity.Percent(a), left(a)) - target
	})
	alcohol := quantity.Percent(a)
	return Beer{SG: sg, Alcohol: alcohol, Real: left(a), Original: OriginalExtract(alcohol, left(a))}
}

// BeerSGBonham returns the gravity of a beer from refractometer readings by
// Bonham's regression.
//
//	SG = 1.001843 − 0.002318474·Ri − 7.775e-6·Ri² − 3.4e-8·Ri³
//	     + 0.00574·Rf + 3.344e-5·Rf² + 8.6e-8·Rf³
//
// Units: Ri, Rf in °Bx divided by the wort factor.
//
//   - Source: bonham2001, regression.
//   - Valid: finished beers.
//   - Check: Ri 12, Rf 6 gives 1.0085.
//   - Tag: from memory
func BeerSGBonham(initial, current quantity.Plato) quantity.SG {
	return quantity.SG(horner(float64(initial), 1.001843, -0.002318474, -7.775e-6, -3.4e-8) +
		horner(float64(current), 0, 0.00574, 3.344e-5, 8.6e-8))
}

// BeerSGTerrillCubic returns the gravity of a beer from refractometer readings
// by Terrill's cubic regression on 68 readings.
//
//	SG = 1 − 0.0044993·Ri + 0.011774·Rf + 0.00027581·Ri² − 0.0012717·Rf²
//	     − 7.2800e-6·Ri³ + 6.3293e-5·Rf³
//
// Units: Ri, Rf in °Bx divided by the wort factor.
//
//   - Source: terrill2011, cubic.
//   - Valid: finished beers, real degree of fermentation above 50 %.
//   - Check: Ri 12, Rf 6 gives 1.0117.
//   - Tag: verified
func BeerSGTerrillCubic(initial, current quantity.Plato) quantity.SG {
	return quantity.SG(horner(float64(initial), 1, -0.0044993, 0.00027581, -7.2800e-6) +
		horner(float64(current), 0, 0.011774, -0.0012717, 6.3293e-5))
}

// BeerSGTerrillLinear returns the gravity of a beer from refractometer readings
// by Terrill's linear regression.
//
//	SG = 1 − 0.00085683·Ri + 0.0034941·Rf
//
// Units: Ri, Rf in °Bx divided by the wort factor.
//
//   - Source: terrill2011, linear.
//   - Valid: finished beers, real degree of fermentation above 50 %.
//   - Check: Ri 12, Rf 6 gives 1.0107.
//   - Tag: verified
func BeerSGTerrillLinear(initial, current quantity.Plato) quantity.SG {
	return quantity.SG(1 - 0.00085683*float64(initial) + 0.0034941*float64(current))
}

// BeerSGNovotnyLinear returns the gravity of a beer from refractometer readings
// by Novotný's linear regression.
//
//	SG = 1 − 0.002349·Ri + 0.006276·Rf
//
// Units: Ri, Rf in °Bx divided by the wort factor.
//
//   - Source: novotny2017, linear.
//   - Valid: finished beers.
//   - Check: Ri 12, Rf 6 gives 1.0095.
//   - Tag: from memory
func BeerSGNovotnyLinear(initial, current quantity.Plato) quantity.SG {
	return quantity.SG(1 - 0.002349*float64(initial) + 0.006276*float64(current))
}

// BeerSGNovotnyQuadratic returns the gravity of a beer from refractometer
// readings by Novotný's quadratic regression.
//
//	SG = 1 + 1.335e-5·Ri² − 3.239e-5·Ri·Rf + 2.916e-5·Rf² − 2.421e-3·Ri + 6.219e-3·Rf
//
// Units: Ri, Rf in °Bx divided by the wort factor.
//
//   - Source: novotny2017, quadratic.
//   - Valid: finished beers.
//   - Check: Ri 12, Rf 6 gives 1.0089.
//   - Tag: from memory
func BeerSGNovotnyQuadratic(initial, current quantity.Plato) quantity.SG {
	i, f := float64(initial), float64(current)
	return quantity.SG(1 + (1.335e-5*i-3.239e-5*f-2.421e-3)*i + (2.916e-5*f+6.219e-3)*f)
}

// RefractometerBand returns the gravity of a beer by all formulas: the physical
// model in the middle, the lowest and the highest at the ends. The spread is
// the honest uncertainty of the method, about 0.002 to either side; never judge
// the end of a fermentation by it. Terrill's regressions are left out below 50 %
// real degree of fermentation, as their author left such beers out.
func RefractometerBand(initial, current quantity.Plato) quantity.Band {
	beer := BeerFromBrix(initial, current)
	formulas := []quantity.SG{
		BeerSGBonham(initial, current),
		BeerSGNovotnyLinear(initial, current),
		BeerSGNovotnyQuadratic(initial, current),
	}
	if beer.Real < initial/2 {
		formulas = append(formulas, BeerSGTerrillCubic(initial, current), BeerSGTerrillLinear(initial, current))
	}
	mid := float64(beer.SG)
	band := quantity.Band{Low: mid, Mid: mid, High: mid}
	for _, sg := range formulas {
		band.Low = math.Min(band.Low, float64(sg))
		band.High = math.Max(band.High, float64(sg))
	}
	return band
}
