// SPDX-License-Identifier: MIT

package water

import (
	"errors"
	"fmt"

	"gyle/quantity"
)

// ErrNotConfirmed is returned for an acid that the brewer has to confirm first.
var ErrNotConfirmed = errors.New("this acid is too dangerous to plan with unless you confirm it; a 10 % solution does the same work")

// LiquorPHUsual is the usual range of the pH of acidified liquor (common practice).
var LiquorPHUsual = quantity.Span[quantity.PH]{Low: 5.5, High: 5.8}

// An AcidDose is what to pour, and the liquor it makes.
type AcidDose struct {
	Acid Acid
	// Millilitres in all.
	Millilitres float64
	// Demand is the charge the liquor takes on its way to the pH.
	Demand quantity.Charge
	// After is the liquor with its CO2 still in it. Anions of hydrochloric and
	// sulfuric acid are in its ions.
	After Supply
	// Warnings in the order they were found.
	Warnings []string
}

// Acidify returns the acid that takes a volume of liquor to a pH.
//
//	V_acid = V·U(pH)/q(pH)    V in L, U in mEq/L, q in mEq/mL, V_acid in mL
//
// How it is known:
//   - Source: derived from [Supply.AcidDemand] and [Acid.MilliequivalentsPerML].
//   - Valid: targets above the endpoint of the alkalinity; 5.5 to 5.8 is usual.
//   - Check: A 2.0, pH 7.8 to 5.6: 0.1452 mL/L of lactic 88 % (computed).
//   - Tag: derived
func Acidify(s Supply, volume quantity.Volume, a Acid, target quantity.PH) (AcidDose, error) {
	if a.NeedsConfirmation && !a.Confirmed {
		return AcidDose{}, fmt.Errorf("acidify with %s: %w", a.Name, ErrNotConfirmed)
	}
	dose := AcidDose{Acid: a, Demand: s.AcidDemand(target), After: s}
	ph, caution := s.AssumedPH()
	if caution != "" {
		dose.Warnings = append(dose.Warnings, caution)
	}
	if ph <= target {
		dose.Demand = 0
		dose.Warnings = append(dose.Warnings, fmt.Sprintf("the water has pH %.1f already: no acid needed", ph))
		return dose, nil
	}
	perLitre := float64(dose.Demand) / a.MilliequivalentsPerML(target)
	dose.Millilitres = perLitre * volume.Litres()
	dose.After.PH = target
	dose.After.Ions = WithAlkalinity(s.Ions, Alkalinity(s.Ions)-dose.Demand)
	if ion, ok := ParseIon(a.Anion); ok {
		dose.After.Ions[ion] += perLitre * a.AnionPerML()
	}
	return dose, nil
}

// PHWith returns the pH of a water after mL of an acid per litre. Unlike a
// strong acid, a weak one gives up less the lower the pH falls.
//
//	U(pH) = v·q(pH)    solved for pH; v in mL/L, q in mEq/mL, U in mEq/L
//
// How it is known:
//   - Source: derived from [Supply.AcidDemand] and [Acid.MilliequivalentsPerML].
//   - Valid: CO2 kept.
//   - Check: 0.15 mL/L of lactic 88 % in A 2.0, pH 7.8: pH 5.510 (computed).
//   - Tag: derived
func (s Supply) PHWith(a Acid, perLitre float64) quantity.PH {
	demand := s.Demand()
	return bisect(1, 13, func(ph quantity.PH) float64 {
		return float64(demand(ph)) - perLitre*a.MilliequivalentsPerML(ph)
	})
}
