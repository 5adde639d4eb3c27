// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// BufferFrom returns the buffering of a malt from a titration: its mash in
// distilled water (50 g crushed in 200 mL at 65 °C for 20 min, cooled) is dosed
// with acid and read again. The first reading is its PHDI.
//
//	B = dose / (m·(pH1 − pH2))
//
// Units: B in mEq/(kg pH), dose in mEq, m in kg.
//
//   - Source: derived, definition of the buffering.
//   - Valid: doses about 10 mEq/kg.
//   - Check: 0.5 mEq on 50 g from 5.75 to 5.487: 38.0.
//   - Tag: derived
func BufferFrom(dose float64, malt quantity.Mass, before, after quantity.PH) float64 {
	return dose / (float64(malt) * float64(before-after))
}

// The standard deviations behind [LearningWeight]: of the predicted and of the
// measured mash pH. Tag: estimate.
const (
	PredictionSD  quantity.PH = 0.10
	MeasurementSD quantity.PH = 0.05
)

// LearningWeight returns the share of a difference between measurement and
// prediction that is worth believing.
//
//	w = sp² / (sp² + sm²)
//
// Units: sp (prediction) and sm (measurement) in pH; w without unit.
//
//   - Source: derived, combination of two estimates by their variances.
//   - Valid: independent errors.
//   - Check: 0.10 and 0.05: 0.80.
//   - Tag: derived
func LearningWeight(prediction, measurement quantity.PH) float64 {
	p, m := float64(prediction), float64(measurement)
	return p * p / (p*p + m*m)
}

// Learn returns the pH in distilled water of a base malt after a brew: the
// difference between the measured and the predicted mash pH is laid to the base
// malt, with a weight.
//
//	pHDI' = pHDI + w·(pH measured − pH predicted)
//
// Units: pH; w without unit.
//
//   - Source: derived, as LearningWeight.
//   - Valid: the base malt makes up most of the grist.
//   - Check: 5.68, predicted 5.45, measured 5.40, weight 0.8: 5.64.
//   - Tag: derived
func Learn(phdi, predicted, measured quantity.PH, weight float64) quantity.PH {
	return phdi + quantity.PH(weight)*(measured-predicted)
}

// Brew is a mash with the pH that was measured in it.
type Brew struct {
	Balance  Balance
	Measured quantity.PH
}

// MinimumBrewsForEta is how many brews with alkaline liquor (above 1.5 mEq/L)
// [FitEta] wants. Tag: estimate.
const MinimumBrewsForEta = 3

// FitEta returns the share of the liquor's acid demand that the mash feels, as
// the brews show it, by least squares. It is NaN when no liquor has alkalinity.
//
//	η = Σ F0·VU / Σ (VU)²
//
// Units: F0 (excess of protons without the liquor) in mEq, V in L, U in mEq/L.
//
//   - Source: derived, from the balance of PH, which is linear in η.
//   - Valid: three brews and more, alkalinity above 1.5 mEq/L.
//   - Check: gives back the η with which the pH was computed.
//   - Tag: derived
func FitEta(brews []Brew) quantity.Fraction {
	above, below := 0.0, 0.0
	for _, brew := range brews {
		b := brew.Balance
		b.setDefaults()
		b.Parameters.Eta = 1
		demand := b.alkalinity(float64(brew.Measured))
		without := b.excess(float64(brew.Measured), b.hardness()) + demand
		above += without * demand
		below += demand * demand
	}
	return quantity.Fraction(above / below)
}

// LotSpread returns the standard deviation of a mash pH that comes from the
// scatter between lots of malt. sd belongs to the malts of the balance one by
// one, in the unit of [TypicalClass].
//
//	s = √ Σ (m·B·s)² base + (m·s)² titrated / (dF/dpH)
//
// Units: m in kg, B in mEq/(kg pH), s in pH for base malts and in mEq/kg for
// titrated ones, dF/dpH in mEq/pH.
//
//   - Source: derived, propagation of independent errors.
//   - Valid: small errors.
//   - Check: one malt in distilled water: its own standard deviation.
//   - Tag: derived
func LotSpread(b Balance, ph quantity.PH, sd []float64) quantity.PH {
	sum := 0.0
	for i, malt := range b.Malts {
		effect := float64(malt.Mass) * sd[i]
		if malt.Base {
			effect *= malt.Buffer
		}
		sum += effect * effect
	}
	return quantity.PH(math.Sqrt(sum) / Slope(b, ph))
}
