// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// ExtractVolume is the volume that a kilogram of dissolved extract takes up in
// wort; 0.615 to 0.619 between 5 and 25 °P. Tag: computed, from the density of
// sugar solutions.
const ExtractVolume quantity.Ratio = 0.617

// AsIs returns the extract of a malt as it lies in the sack.
//
//	e = e(dry)·(1 − w)
//
// Units: shares of mass; w is the moisture.
//
//   - Source: derived, mass balance.
//   - Valid: always.
//   - Check: 81.5 % dry at 4.0 % moisture: 78.24 %.
//   - Tag: derived
func AsIs(dry, moisture quantity.Fraction) quantity.Fraction { return dry * (1 - moisture) }

// CoarseExtract returns the coarse-grind extract of the dry malt from the
// fine-grind extract and the laboratory's difference of the two, which is 1 to
// 2 points in sound malt.
//
//	e(coarse) = e(fine) − difference
//
// Units: shares of dry mass.
//
//   - Source: practice, definition.
//   - Valid: all on dry basis.
//   - Check: 81.5 and 1.5 at 4.0 % moisture: 76.80 % as is.
//   - Tag: common practice
func CoarseExtract(fine, difference quantity.Fraction) quantity.Fraction { return fine - difference }

// degreesPerExtract is L°/kg per percent of extract: 100 g of sucrose per litre
// make 38.57 points, so that 1 % of a kilogram in a litre makes 3.86.
const degreesPerExtract = 3.86

// litreDegreesPerGallonPoint is exact: 3.785411784 L / 0.45359237 kg.
const litreDegreesPerGallonPoint = 3.785411784 / 0.45359237

// LitreDegrees returns an extract in litre degrees per kilogram: the gravity
// points of a kilogram made up to one litre, at 20 °C.
//
//	L°/kg = 3.86 · extract in %
//
// Units: L°/kg are gravity points times litres per kilogram.
//
//   - Source: derived, from the density of sugar solutions.
//   - Valid: worts below 15 °P, within 0.5 %.
//   - Check: 78.24 %: 302.0.
//   - Tag: computed
func LitreDegrees(extract quantity.Fraction) float64 { return degreesPerExtract * extract.Percent() }

// GallonPoints returns an extract in gravity points of a pound made up to one
// US gallon.
//
//	ppg = 3.86 · extract in % / 8.345404
//
// Units: ppg are gravity points times US gallons per pound.
//
//   - Source: derived, as LitreDegrees.
//   - Valid: as LitreDegrees.
//   - Check: 78.24 %: 36.19.
//   - Tag: computed
func GallonPoints(extract quantity.Fraction) float64 {
	return LitreDegrees(extract) / litreDegreesPerGallonPoint
}

// FromGallonPoints returns the extract that a figure in gravity points per
// pound and gallon stands for: the inverse of [GallonPoints].
//
//	extract in % = 8.345404 · ppg / 3.86
//
// Units: as GallonPoints.
//
//   - Source: derived, as LitreDegrees.
//   - Valid: as LitreDegrees.
//   - Check: 46.2, sucrose: 99.9 %.
//   - Tag: computed
func FromGallonPoints(ppg float64) quantity.Fraction {
	return quantity.Percent(ppg * litreDegreesPerGallonPoint / degreesPerExtract)
}

// Portion is a malt in the grist with its extract as is.
type Portion struct {
	Mass    quantity.Mass
	Extract quantity.Fraction
}

// GristExtract returns the extract of a grist, as is.
//
//	E = Σ m·e / Σ m
//
// Units: m in kg, e and E in shares of mass.
//
//   - Source: derived, mass balance.
//   - Valid: always; NaN for no grist.
//   - Check: two equal parts of 0.80 and 0.70: 0.75.
//   - Tag: derived
func GristExtract(grist []Portion) quantity.Fraction {
	mass, extract := 0.0, 0.0
	for _, p := range grist {
		mass += float64(p.Mass)
		extract += float64(p.Mass) * float64(p.Extract)
	}
	return quantity.Fraction(extract / mass)
}

// ConversionTarget is what a fine crush reaches; below ConversionLow look at
// crush, pH, time and dough balls. Tag: common practice.
const (
	ConversionTarget quantity.Fraction = 0.95
	ConversionLow    quantity.Fraction = 0.90
)

// FirstWort returns the extract of the first wort.
//
//	P = 100·η·E / (R + w + η·E − h)
//
// with the extract E and the moisture w as shares of the grain, R in kg of
// liquor per kg of grain and h the water bound by hydrolysis, in kg per kg of
// grain: 0 by custom, about 0.03 where it is counted.
//
//   - Source: derived, mass balance.
//   - Valid: R 1.5..8.
//   - Check: E 0.768, w 0.04, R 3: 20.17 °P.
//   - Tag: computed
func FirstWort(extract, conversion, moisture quantity.Fraction, ratio quantity.Ratio, hydrolysis float64) quantity.Plato {
	dissolved := float64(extract * conversion)
	return quantity.Plato(100 * dissolved / (float64(ratio) + float64(moisture) + dissolved - hydrolysis))
}

// Conversion returns the conversion efficiency from the extract of the first
// wort: the inverse of [FirstWort].
//
//	η = P·(R + w − h) / (E·(100 − P))
//
// Units: P in °P, R, w and h in kg per kg of grain, E and η in shares.
//
//   - Source: derived, mass balance.
//   - Valid: a well mixed sample.
//   - Check: 20.17 °P at R 3, E 0.768, w 0.04: 1.000.
//   - Tag: computed
func Conversion(wort quantity.Plato, extract, moisture quantity.Fraction, ratio quantity.Ratio, hydrolysis float64) quantity.Fraction {
	p := float64(wort)
	return quantity.Fraction(p * (float64(ratio) + float64(moisture) - hydrolysis) / (float64(extract) * (100 - p)))
}
