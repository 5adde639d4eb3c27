// SPDX-License-Identifier: MIT

package water

import (
	"math"

	"gyle/quantity"
)

// The verdicts of [Balance].
const (
	OK      = "ok"
	Usable  = "usable"
	Suspect = "suspect"
	Reject  = "reject"
)

// BalanceResult says how well the charges of a report meet.
type BalanceResult struct {
	Cations, Anions quantity.Charge
	// Difference is E1, the difference over the sum, in percent.
	Difference float64
	// Relative is E2, the difference over the mean, in percent: twice E1.
	Relative float64
	// Verdict is one of ok, usable, suspect and reject.
	Verdict string
}

// Balance compares the charges of the cations with those of the anions. Water
// carries no charge, so a report in which they differ has a fault.
//
//	E1 = 100 · (Sc − Sa)/(Sc + Sa)    in percent; Sc, Sa in mEq/L
//	E2 = 2 · E1
//
// It is ok when |E1| ≤ 2 %, when Sa < 3 mEq/L and |Sc − Sa| ≤ 0.2 mEq/L, or when
// Sa > 10 mEq/L and |E1| ≤ 5 %; usable to 5 %, suspect to 10 %, else reject.
//
//   - Source: standardmethods, 1030 E (the three limits); din38402, part 62 (E2).
//   - Valid: pH 3 to 10, every ion above 0.5 % of its sum included. The bands
//     beyond ok are this project's.
//   - Check: Ca 90 Mg 18 Na 15 K 3 HCO3 280 Cl 30 SO4 55 NO3 12 gives E1 −0.537 %.
//   - Tag: from memory
func Balance(i Ions) BalanceResult {
	b := BalanceResult{Cations: i.Cations(), Anions: i.Anions()}
	if sum := b.Cations + b.Anions; sum > 0 {
		b.Difference = 100 * float64((b.Cations-b.Anions)/sum)
	}
	b.Relative = 2 * b.Difference
	b.Verdict = b.verdict()
	return b
}

func (b BalanceResult) verdict() string {
	gap := math.Abs(float64(b.Cations - b.Anions))
	percent := math.Abs(b.Difference)
	switch {
	case percent <= 2, b.Anions < 3 && gap <= 0.2, b.Anions > 10 && percent <= 5:
		return OK
	case percent <= 5:
		return Usable
	case percent <= 10:
		return Suspect
	}
	return Reject
}

// FillByDifference returns the ions with one missing ion set so that the
// charges meet. Mark the result as estimated, and never fill two ions. It
// returns false when the ion is listed already or its side is the larger one.
//
//	c = e · |Sc − Sa|    e in mg/mEq, S in mEq/L, c in mg/L
//
// How it is known:
//   - Source: derived, electroneutrality.
//   - Valid: exactly one ion missing; all errors of the report land in it.
//   - Check: report A without sodium gets back 15 mg/L plus its gap of
//     0.0723 mEq/L, 1.7 mg/L.
//   - Tag: derived
func FillByDifference(i Ions, missing Ion) (Ions, bool) {
	gap := float64(i.Cations() - i.Anions())
	if missing.Valence() > 0 {
		gap = -gap
	}
	if i[missing] != 0 || gap <= 0 {
		return i, false
	}
	i[missing] = gap * missing.EquivalentMass()
	return i, true
}

// DissolvedSolids estimates the residue that the water leaves when evaporated.
//
//	TDS = Σ c − 0.51 · c(HCO3)    in mg/L: bicarbonate leaves 49 % as carbonate
//
// How it is known:
//   - Source: practice.
//   - Valid: drinking water; silica and organic matter are not listed.
//   - Check: report A 503 mg/L listed, 360.2 mg/L residue.
//   - Tag: common practice
func DissolvedSolids(i Ions) quantity.Concentration {
	var sum float64
	for _, c := range i {
		sum += c
	}
	return quantity.Concentration(sum - 0.51*i[Bicarbonate])
}
