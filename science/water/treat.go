// SPDX-License-Identifier: MIT

package water

import (
	"gyle/quantity"
)

// ReverseOsmosis returns what a reverse-osmosis filter leaves of a feed.
//
//	c = 0.02·c0, A = min(A0, 0.1)    c in mg/L, A in mEq/L
//
// How it is known:
//   - Source: practice; measure your own filter.
//   - Valid: a sound membrane.
//   - Check: the feed of report A leaves Ca 1.8 mg/L and A 0.1 mEq/L.
//   - Tag: estimate
func ReverseOsmosis(feed Ions) Ions {
	return WithAlkalinity(feed.Scaled(0.02), min(Alkalinity(feed), 0.1))
}

// DilutionFor returns the share of soft water that brings an alkalinity down to
// a target.
//
//	f = (A − At)/(A − As)    A of the water, At target, As of the soft water, in mEq/L
//
// How it is known:
//   - Source: derived, conservation of mass; for distilled water f = 1 − At/A.
//   - Valid: As < At ≤ A.
//   - Check: 4.589 down to 1.0 mEq/L with distilled water: 0.7821 (computed).
//   - Tag: derived
func DilutionFor(alkalinity, target, soft quantity.Charge) quantity.Fraction {
	return quantity.Fraction((alkalinity - target) / (alkalinity - soft))
}

// What boiling and lime leave behind, in mEq/L: an alkalinity of about
// 65 mg/L as CaCO3 and some calcium. Textbooks give about 1 mEq/L for the first.
const (
	SofteningFloor        quantity.Charge = 1.3
	softeningCalciumFloor quantity.Charge = 0.6
)

// removable is the calcium bicarbonate that can fall out above a floor.
func removable(i Ions, floor quantity.Charge) quantity.Charge {
	return max(0, min(Alkalinity(i)-floor, i.Charge(Calcium)-softeningCalciumFloor))
}

// withoutCarbonate takes calcium carbonate of x mEq/L out of the water.
func withoutCarbonate(i Ions, x quantity.Charge) Ions {
	i[Calcium] -= float64(x) * Calcium.EquivalentMass()
	return WithAlkalinity(i, Alkalinity(i)-x)
}

// Boiled returns the water after 15 to 30 minutes of boiling, aerating,
// settling and decanting off the chalk.
//
//	x = max(0, min(A − 1.3, Ca − 0.6)), A' = A − x, Ca' = Ca − x    in mEq/L
//
// Magnesium bicarbonate hardly falls out.
//
//   - Source: practice.
//   - Valid: temporary hardness of calcium. Boiling liquor scalds: let it cool
//     before decanting.
//   - Check: report A: x 3.289, A' 1.30 mEq/L, Ca' 24.1 mg/L (computed).
//   - Tag: second-hand
func Boiled(i Ions) Ions {
	x := removable(i, SofteningFloor)
	if x == 0 {
		return i
	}
	return withoutCarbonate(i, x)
}

// FreeCarbonDioxide returns the dissolved carbon dioxide, in mmol/L.
//
//	CO2 = C·h²/(h² + K1·h + K1·K2)    C in mmol/L, h = 10^−pH in mol/L
//
// How it is known:
//   - Source: derived, mass action.
//   - Valid: as [Supply.TotalCarbon].
//   - Check: A 4.589, pH 7.4, 10 °C: 0.528 mmol/L (computed).
//   - Tag: derived
func (s Supply) FreeCarbonDioxide() float64 {
	ph, _ := s.AssumedPH()
	return s.TotalCarbon() * s.carbonates().gas(ph)
}

// LimeDose returns the slaked lime that softens a water to a residual
// alkalinity. Stay a tenth below it, check the pH, and decant.
//
//	d = 74.092·(CO2 + (A − Ar)/2)    CO2 in mmol/L, A, Ar in mEq/L, d in mg/L
//
// How it is known:
//   - Source: derived, Ca(OH)2 + 2 HCO3 takes out CaCO3 and binds the free CO2 first.
//   - Valid: Ar 1.0 to 1.3 mEq/L; pure lime; enough calcium in the water.
//     Lime is caustic: goggles and gloves.
//   - Check: A 4.589, pH 7.4, 10 °C, Ar 1.0: 172.1 mg/L (computed).
//   - Tag: derived
func LimeDose(s Supply, residual quantity.Charge) quantity.Concentration {
	const molarMass = weightCa + 2*(weightO+weightH)
	half := float64(Alkalinity(s.Ions)-residual) / 2
	return quantity.Concentration(molarMass * (s.FreeCarbonDioxide() + half))
}

// LimeSoftened returns the ions after softening with the full [LimeDose]: the
// lime's own calcium falls out with that of the water.
//
//	x = max(0, min(A − Ar, Ca − 0.6)), A' = A − x, Ca' = Ca − x    in mEq/L
//
// How it is known:
//   - Source: derived, as [LimeDose]; the calcium floor as in [Boiled].
//   - Valid: a settled, decanted water that isn't overdosed.
//   - Check: report A to 1.0: x 3.589 mEq/L, Ca' 18.1 mg/L (computed).
//   - Tag: derived
func LimeSoftened(i Ions, residual quantity.Charge) Ions {
	x := removable(i, residual)
	if x == 0 {
		return i
	}
	return withoutCarbonate(i, x)
}

// A Metabisulfite is the sodium or the potassium salt.
type Metabisulfite Ion

// The two salts.
const (
	SodiumMetabisulfite    = Metabisulfite(Sodium)
	PotassiumMetabisulfite = Metabisulfite(Potassium)
)

// MolarMass returns the molar mass of the salt in g/mol.
func (m Metabisulfite) MolarMass() float64 {
	return 2*Ion(m).MolarMass() + 2*weightS + 5*weightO
}

// dechlorinationExcess is the customary excess over the reaction.
const dechlorinationExcess = 1.5

// Dechlorinate returns the metabisulfite that takes chlorine or chloramine out
// of a volume of liquor, and the ions it leaves there. Stir it in cold, some
// minutes before heating. It is a sulfite: see [SafetyRules].
//
//	S2O5 + 2 Cl2 + 3 H2O → 2 SO4 + 4 Cl + 6 H
//	m = 1.5·M/(2·70.90)·c·V    M in g/mol, c in mg Cl2/L, V in L, m in mg
//
// The sulfate and chloride are those of the reaction; the excess oxidises later.
//
//   - Source: derived, stoichiometry; the excess is practice.
//   - Valid: chlorine as Cl2, up to a few mg/L.
//   - Check: per mg Cl2 without the excess 1.341 mg of the sodium and 1.568 mg of
//     the potassium salt, 1.355 mg SO4.
//   - Tag: computed
func Dechlorinate(volume quantity.Volume, chlorine quantity.Concentration, m Metabisulfite) (quantity.Mass, Ions) {
	moles := float64(chlorine) / (2 * 2 * weightCl) // mmol of the salt per litre, without excess
	var adds Ions
	adds[m] = dechlorinationExcess * moles * 2 * Ion(m).MolarMass()
	adds[Sulfate] = moles * 2 * massSulfate
	adds[Chloride] = moles * 4 * weightCl
	milligrams := dechlorinationExcess * moles * m.MolarMass() * volume.Litres()
	return quantity.Grams(milligrams / 1000), adds
}
