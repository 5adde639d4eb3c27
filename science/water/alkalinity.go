// SPDX-License-Identifier: MIT

package water

import "gyle/quantity"

// Alkalinity returns the alkalinity of the listed bicarbonate and carbonate.
// When the report prints a measured alkalinity or acid capacity, that number
// goes first: put it into the report as bicarbonate.
//
//	A = HCO3/61.016 + CO3/30.004    HCO3, CO3 in mg/L, A in mEq/L
//
// How it is known:
//   - Source: derived, definition; hydroxide and hydrogen ions are left out.
//   - Valid: pH 6 to 9.
//   - Check: HCO3 280 mg/L is 4.5890 mEq/L, 229.65 mg/L as CaCO3, 12.867 °dH.
//   - Tag: derived
func Alkalinity(i Ions) quantity.Charge {
	return i.Charge(Bicarbonate) + i.Charge(Carbonate)
}

// WithAlkalinity returns the ions with the alkalinity a, all as bicarbonate.
//
//	HCO3 = 61.016 · A, CO3 = 0    A in mEq/L, HCO3 in mg/L
//
// How it is known:
//   - Source: derived, inverse of [Alkalinity].
//   - Valid: pH 6 to 9.
//   - Check: round trip through [Alkalinity].
//   - Tag: derived
func WithAlkalinity(i Ions, a quantity.Charge) Ions {
	i[Bicarbonate] = float64(a) * massBicarbonate
	i[Carbonate] = 0
	return i
}

// Hardness returns the total hardness.
//
//	H = Ca/20.039 + Mg/12.1525    Ca, Mg in mg/L, H in mEq/L
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: water without much strontium or barium.
//   - Check: Ca 90, Mg 18 mg/L is 5.9724 mEq/L, 16.746 °dH.
//   - Tag: derived
func Hardness(i Ions) quantity.Charge {
	return i.Charge(Calcium) + i.Charge(Magnesium)
}

// TemporaryHardness returns the part of the hardness that alkalinity matches
// and that boiling can attack.
//
//	T = min(A, H)    in mEq/L
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: every water.
//   - Check: with [PermanentHardness] it adds up to [Hardness].
//   - Tag: derived
func TemporaryHardness(i Ions) quantity.Charge { return min(Alkalinity(i), Hardness(i)) }

// PermanentHardness returns the part of the hardness that stays after boiling.
//
//	P = H − min(A, H)    in mEq/L
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: every water.
//   - Check: report A 1.3834 mEq/L.
//   - Tag: derived
func PermanentHardness(i Ions) quantity.Charge { return Hardness(i) - TemporaryHardness(i) }

// ResidualAlkalinity returns the alkalinity less what calcium and magnesium
// offset in wort by precipitating phosphate.
//
//	RA = A − Ca/3.5 − Mg/7    all in mEq/L
//
// How it is known:
//   - Source: kolbach1953.
//   - Valid: a figure for cast-out wort of 12 °P. As a predictor of mash pH it is
//     too coarse: barth2015, abstract; science/mash goes another way.
//   - Check: report A 3.0942 mEq/L, 154.84 mg/L as CaCO3, 8.676 °dH.
//   - Tag: from memory
func ResidualAlkalinity(i Ions) quantity.Charge {
	return Alkalinity(i) - i.Charge(Calcium)/3.5 - i.Charge(Magnesium)/7
}

// KolbachShift returns by how much a residual alkalinity raises the pH of
// cast-out wort, in pH units.
//
//	ΔpH = 0.3 · RA/10 °dH    RA in °dH: 0.0841 per mEq/L
//
// How it is known:
//   - Source: kolbach1953.
//   - Valid: cooled cast-out wort of 12 °P; not the mash.
//   - Check: 10 °dH gives 0.3.
//   - Tag: from memory
func KolbachShift(residual quantity.Charge) float64 {
	return 0.3 * GermanDegrees(residual) / 10
}

// SulfateToChloride returns the ratio of sulfate to chloride by mass. It is
// undefined, and ok false, when there is no chloride.
//
//	r = SO4/Cl    both in mg/L
//
// How it is known:
//   - Source: practice.
//   - Valid: judge it together with the two values; see [SulfateBand].
//   - Check: report A 1.833.
//   - Tag: common practice
func SulfateToChloride(i Ions) (ratio float64, ok bool) {
	if i[Chloride] <= 0 {
		return 0, false
	}
	return i[Sulfate] / i[Chloride], true
}

// sulfateBands are the customary words for the ratio, each up to its limit.
var sulfateBands = []struct {
	below float64
	word  string
}{
	{0.5, "very full, malt leads"},
	{0.8, "full"},
	{1.3, "balanced"},
	{2, "dry"},
	{4, "dry and bitter"},
}

// SulfateBand puts the ratio of sulfate to chloride into words, or says why it
// means nothing: there is no chloride, or both together stay below 50 mg/L.
// The bands are common practice, not a measurement.
func SulfateBand(i Ions) string {
	ratio, ok := SulfateToChloride(i)
	switch {
	case i[Sulfate]+i[Chloride] < 50:
		return "too little of either to tell"
	case !ok:
		return "undefined without chloride"
	}
	for _, band := range sulfateBands {
		if ratio < band.below {
			return band.word
		}
	}
	return "may turn harsh"
}
