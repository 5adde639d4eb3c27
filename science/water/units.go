// SPDX-License-Identifier: MIT

package water

import "gyle/quantity"

// Milligrams of CaCO3 per litre in one unit of the scales of hardness.
const (
	caco3PerCharge = massCaCO3 / 2            // 1 mEq/L: 50.043
	caco3PerFrench = 10                       // 1 °fH, by definition
	caco3PerGerman = 10 * massCaCO3 / massCaO // 1 °dH is 10 mg CaO/L: 17.848
	caco3PerClark  = 64.79891 / 4.54609       // 1 grain (64.79891 mg) per imperial gallon: 14.254
	caco3PerGrain  = 64.79891 / 3.785411784   // 1 grain per US gallon: 17.118
)

// AsCaCO3 returns a charge as the mass of calcium carbonate that carries it.
//
//	c = 50.043 · q    q in mEq/L, c in mg/L as CaCO3
//
// How it is known:
//   - Source: derived, molar mass of CaCO3 over two.
//   - Valid: hardness and alkalinity.
//   - Check: 1 mEq/L is 50.043 mg/L.
//   - Tag: derived
func AsCaCO3(q quantity.Charge) quantity.Concentration {
	return quantity.Concentration(q * caco3PerCharge)
}

// FromCaCO3 is the inverse of [AsCaCO3].
//
//	q = c/50.043    c in mg/L as CaCO3, q in mEq/L
//
// How it is known:
//   - Source: derived, inverse.
//   - Valid: hardness and alkalinity.
//   - Check: round trip.
//   - Tag: derived
func FromCaCO3(c quantity.Concentration) quantity.Charge { return quantity.Charge(c / caco3PerCharge) }

// GermanDegrees returns a charge in German degrees.
//
//	d = 50.043/17.848 · q    q in mEq/L, d in °dH (10 mg CaO/L)
//
// How it is known:
//   - Source: derived, definition of the degree.
//   - Valid: hardness and alkalinity.
//   - Check: 1 °dH is 0.35665 mEq/L and 17.848 mg/L as CaCO3.
//   - Tag: derived
func GermanDegrees(q quantity.Charge) float64 { return float64(q) * caco3PerCharge / caco3PerGerman }

// FromGermanDegrees is the inverse of [GermanDegrees].
//
//	q = 0.35665 · d    d in °dH, q in mEq/L
//
// How it is known:
//   - Source: derived, inverse.
//   - Valid: hardness, and carbonate hardness that doesn't exceed it.
//   - Check: round trip.
//   - Tag: derived
func FromGermanDegrees(d float64) quantity.Charge {
	return FromCaCO3(quantity.Concentration(d * caco3PerGerman))
}

// FrenchDegrees returns a charge in French degrees.
//
//	f = 50.043/10 · q    q in mEq/L, f in °fH (10 mg CaCO3/L)
//
// How it is known:
//   - Source: derived, definition of the degree.
//   - Valid: hardness and alkalinity.
//   - Check: 1 °dH is 1.7848 °fH.
//   - Tag: derived
func FrenchDegrees(q quantity.Charge) float64 { return float64(q) * caco3PerCharge / caco3PerFrench }

// FromFrenchDegrees is the inverse of [FrenchDegrees].
//
//	q = 10/50.043 · f    f in °fH, q in mEq/L
//
// How it is known:
//   - Source: derived, inverse.
//   - Valid: hardness and alkalinity.
//   - Check: round trip.
//   - Tag: derived
func FromFrenchDegrees(f float64) quantity.Charge {
	return FromCaCO3(quantity.Concentration(f * caco3PerFrench))
}

// ClarkDegrees returns a charge in English degrees.
//
//	k = 50.043/14.254 · q    q in mEq/L, k in grains of CaCO3 per imperial gallon
//
// How it is known:
//   - Source: derived, definition of the degree.
//   - Valid: hardness and alkalinity.
//   - Check: 1 °Clark is 14.254 mg/L as CaCO3.
//   - Tag: from memory
func ClarkDegrees(q quantity.Charge) float64 { return float64(q) * caco3PerCharge / caco3PerClark }

// FromClarkDegrees is the inverse of [ClarkDegrees].
//
//	q = 14.254/50.043 · k    k in °Clark, q in mEq/L
//
// How it is known:
//   - Source: derived, inverse.
//   - Valid: hardness and alkalinity.
//   - Check: round trip.
//   - Tag: derived
func FromClarkDegrees(k float64) quantity.Charge {
	return FromCaCO3(quantity.Concentration(k * caco3PerClark))
}

// GrainsPerUSGallon returns a charge in grains of CaCO3 per US gallon.
//
//	g = 50.043/17.118 · q    q in mEq/L
//
// How it is known:
//   - Source: derived, definition of grain and gallon.
//   - Valid: hardness and alkalinity.
//   - Check: 1 grain/US gal is 17.118 mg/L as CaCO3.
//   - Tag: from memory
func GrainsPerUSGallon(q quantity.Charge) float64 { return float64(q) * caco3PerCharge / caco3PerGrain }

// FromGrainsPerUSGallon is the inverse of [GrainsPerUSGallon].
//
//	q = 17.118/50.043 · g    g in grains per US gallon, q in mEq/L
//
// How it is known:
//   - Source: derived, inverse.
//   - Valid: hardness and alkalinity.
//   - Check: round trip.
//   - Tag: derived
func FromGrainsPerUSGallon(g float64) quantity.Charge {
	return FromCaCO3(quantity.Concentration(g * caco3PerGrain))
}

// Millimoles returns a hardness in mmol/L of doubly charged ions.
//
//	n = q/2    q in mEq/L, n in mmol/L
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: hardness. An acid capacity KS4.3 in mmol/L is the alkalinity in mEq/L
//     as it stands and must not be halved.
//   - Check: 1 °dH is 0.17833 mmol/L.
//   - Tag: derived
func Millimoles(hardness quantity.Charge) float64 { return float64(hardness) / 2 }

// FromMillimoles is the inverse of [Millimoles].
//
//	q = 2 · n    n in mmol/L, q in mEq/L
//
// How it is known:
//   - Source: derived, inverse.
//   - Valid: hardness.
//   - Check: round trip.
//   - Tag: derived
func FromMillimoles(n float64) quantity.Charge { return quantity.Charge(2 * n) }

// NitrateFromNitrogen returns the nitrate of a nitrogen given as NO3-N.
//
//	NO3 = 62.004/14.007 · N    both in mg/L
//
// How it is known:
//   - Source: derived, ratio of molar masses.
//   - Valid: NO3-N; not total nitrogen.
//   - Check: factor 4.427.
//   - Tag: derived
func NitrateFromNitrogen(n quantity.Concentration) quantity.Concentration {
	return n * massNitrate / weightN
}

// SulfateFromSulfur returns the sulfate of a sulfur given as SO4-S.
//
//	SO4 = 96.056/32.06 · S    both in mg/L
//
// How it is known:
//   - Source: derived, ratio of molar masses.
//   - Valid: SO4-S.
//   - Check: factor 2.996.
//   - Tag: derived
func SulfateFromSulfur(s quantity.Concentration) quantity.Concentration {
	return s * massSulfate / weightS
}

// CalciumFromHardness returns the calcium of a calcium hardness as CaCO3.
//
//	Ca = 40.078/100.086 · h    both in mg/L
//
// How it is known:
//   - Source: derived, ratio of molar masses.
//   - Valid: calcium hardness; not total hardness.
//   - Check: factor 0.40044.
//   - Tag: derived
func CalciumFromHardness(h quantity.Concentration) quantity.Concentration {
	return h * weightCa / massCaCO3
}

// MagnesiumFromHardness returns the magnesium of a magnesium hardness as CaCO3.
//
//	Mg = 24.305/100.086 · h    both in mg/L
//
// How it is known:
//   - Source: derived, ratio of molar masses.
//   - Valid: magnesium hardness; not total hardness.
//   - Check: factor 0.24284.
//   - Tag: derived
func MagnesiumFromHardness(h quantity.Concentration) quantity.Concentration {
	return h * weightMg / massCaCO3
}
