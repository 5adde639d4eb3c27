// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// What dry hopping does to bitterness is known from few trials. The formulas
// of this file are drawn through them; show their bands, never a promise.

// PoundsPerBarrel returns the dose of n pounds of hops per US beer barrel of
// 31 US gallons.
//
//	1 lb/bbl = 453.59237 g / 117.348 L = 3.865 g/L
//
// Units: g/L.
//
//   - Source: derived, definitions of pound and barrel.
//   - Valid: always.
//   - Check: 3.865 g/L.
//   - Tag: computed
func PoundsPerBarrel(n float64) quantity.Dose {
	return quantity.Dose(n * quantity.Pounds(1).Grams() / quantity.USGallons(31).Litres())
}

// humulinoneDissolved is the share of the humulinones found in the beer:
// 48 of 53.3 mg/L in the trial of merchant2017.
const humulinoneDissolved = 0.90

// Humulinones returns the humulinones, oxidised alpha acids, that a dry-hop
// dose brings into the beer. Pellets hold 0.2 to 0.5 %, more with age.
//
//	Hum = 1000 · D · h · 0.90
//
// Units: Hum in mg/L, D in g/L, h as a fraction.
//
//   - Source: merchant2017, trial with 23.2 g/L of 0.23 %.
//   - Valid: up to about 25 g/L, one trial.
//   - Check: published 48 mg/L for that trial.
//   - Tag: verified
func Humulinones(dose quantity.Dose, content quantity.Fraction) quantity.Concentration {
	return quantity.Concentration(1000 * float64(dose) * float64(content) * humulinoneDissolved)
}

// DryHopAlpha returns the alpha acids that a dry-hop dose dissolves.
//
//	alpha = 39 · (1 − e^(−D/10))
//
// Units: alpha in mg/L, D in g/L; band ±50 %.
//
//   - Source: merchant2017, a curve through its one value.
//   - Valid: up to about 25 g/L.
//   - Check: published 35 mg/L at 23.2 g/L.
//   - Tag: estimate
func DryHopAlpha(dose quantity.Dose) quantity.Band {
	mid := 39 * -math.Expm1(-float64(dose)/10)
	return quantity.BandOf(mid, mid/2)
}

// IsoAfterDryHop returns the iso-alpha acids left in a beer after hop solids
// and yeast have taken some.
//
//	IAA' = IAA − 0.75·max(0, IAA − 20)·(1 − e^(−D/4))
//
// Units: mg/L, D in g/L; band ±50 % of the loss.
//
//   - Source: parkin2017, abstract, for the direction; the curve is drawn through few values told second-hand.
//   - Valid: up to about 25 g/L.
//   - Check: a pair from memory, 48 to 30 mg/L at 2 lb/bbl.
//   - Tag: estimate
func IsoAfterDryHop(iso quantity.Concentration, dose quantity.Dose) quantity.Band {
	lost := 0.75 * max(0, float64(iso)-20) * -math.Expm1(-float64(dose)/4)
	return quantity.BandOf(float64(iso)-lost, lost/2)
}

// DryHopBitterness returns the change of measured bitterness by dry hopping:
// iso-alpha acids go, humulinones and alpha acids come. Polyphenols add an
// unknown amount and are left out. Below about 25 IBU beers end up tasting
// more bitter, above it less, while the measured figure often rises.
//
//	dBU = 5/7 · (dIAA + 0.75·Hum + 1.0·alpha)
//
// Units: mg/L; band ±50 % of each part.
//
//   - Source: parkin2017, abstract, for the parts; the weight of humulinones is an estimate.
//   - Valid: up to about 25 g/L.
//   - Check: computed from the formula above (regression value).
//   - Tag: estimate
func DryHopBitterness(iso quantity.Concentration, dose quantity.Dose, humulinone quantity.Fraction) quantity.Band {
	lost := IsoAfterDryHop(iso, dose).Mid - float64(iso)
	gained := 0.75*float64(Humulinones(dose, humulinone)) + DryHopAlpha(dose).Mid
	return quantity.BandOf(massToBU*(lost+gained), massToBU*(gained-lost)/2)
}

// DryHopPHRise returns how much a dry-hop dose of pellets raises the pH.
//
//	dpH = 0.036 · D
//
// Units: D in g/L; 0.14 per lb/bbl.
//
//   - Source: maye2018, quoted in later texts.
//   - Valid: up to about 15 g/L.
//   - Check: 0.29 at 8 g/L.
//   - Tag: second-hand
func DryHopPHRise(dose quantity.Dose) float64 { return 0.036 * float64(dose) }

// AromaIntensity returns the aroma of a dry-hop dose against that of an endless
// one, for planning only. Above MostUsefulDose it says little.
//
//	1 − e^(−D/3.5)
//
// Units: D in g/L.
//
//   - Source: lafontaine2018, abstract, for the saturation; the curve is drawn here.
//   - Valid: 0–16 g/L.
//   - Check: 0.44, 0.68, 0.90 and 0.99 at 2, 4, 8 and 16 g/L.
//   - Tag: estimate
func AromaIntensity(dose quantity.Dose) float64 { return -math.Expm1(-float64(dose) / 3.5) }

// MostUsefulDose is the total dry-hop dose above which aroma hardly grows and
// turns towards herbs and tea (lafontaine2018, abstract: useful 4 to 8 g/L).
const MostUsefulDose quantity.Dose = 8

// Left is what spent dry hops keep of their alpha acids and oil.
type Left struct {
	Trial      string
	Dose       quantity.Dose
	Alpha, Oil quantity.Fraction
}

// SpentHops are the two trials of hauser2019 (abstract).
var SpentHops = []Left{
	{"pilot, whole cones, 24 h at 13 °C", 3.86, 0.77, 0.51},
	{"industrial", 15.9, 0.52, 0.33},
}

// DissolvedDryMatter is the share of the dry matter of dry hops that goes into
// solution (hauser2019, abstract: about one third).
const DissolvedDryMatter quantity.Fraction = 1.0 / 3
