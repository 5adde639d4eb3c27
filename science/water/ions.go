// SPDX-License-Identifier: MIT

package water

import (
	"strings"

	"gyle/quantity"
)

// Atomic weights in g/mol: conventional values, IUPAC, from memory.
const (
	weightH  = 1.008
	weightC  = 12.011
	weightN  = 14.007
	weightO  = 15.999
	weightNa = 22.990
	weightMg = 24.305
	weightP  = 30.974
	weightS  = 32.06
	weightCl = 35.45
	weightK  = 39.098
	weightCa = 40.078
)

// Molar masses of groups of atoms, in g/mol.
const (
	massBicarbonate = weightH + weightC + 3*weightO
	massCarbonate   = weightC + 3*weightO
	massSulfate     = weightS + 4*weightO
	massNitrate     = weightN + 3*weightO
	massPhosphate   = weightP + 4*weightO
	massWater       = 2*weightH + weightO
	massCaCO3       = weightCa + massCarbonate
	massCaO         = weightCa + weightO
)

// Ion is one of the dissolved ions a water report lists.
type Ion int

// The ions, cations first.
const (
	Calcium Ion = iota
	Magnesium
	Sodium
	Potassium
	Bicarbonate
	Carbonate
	Chloride
	Sulfate
	Nitrate
	// IonCount is how many ions there are; it is no ion itself.
	IonCount
)

var ionTable = [IonCount]struct {
	name, symbol string
	molarMass    float64 // g/mol
	valence      int
}{
	Calcium:     {"calcium", "Ca", weightCa, 2},
	Magnesium:   {"magnesium", "Mg", weightMg, 2},
	Sodium:      {"sodium", "Na", weightNa, 1},
	Potassium:   {"potassium", "K", weightK, 1},
	Bicarbonate: {"bicarbonate", "HCO3", massBicarbonate, -1},
	Carbonate:   {"carbonate", "CO3", massCarbonate, -2},
	Chloride:    {"chloride", "Cl", weightCl, -1},
	Sulfate:     {"sulfate", "SO4", massSulfate, -2},
	Nitrate:     {"nitrate", "NO3", massNitrate, -1},
}

// AllIons returns the ions in their order, cations first.
func AllIons() []Ion {
	all := make([]Ion, IonCount)
	for ion := range all {
		all[ion] = Ion(ion)
	}
	return all
}

// ParseIon finds an ion by its symbol ("SO4") or its name ("sulfate"), in
// whatever case. The second result is false when there is none.
func ParseIon(text string) (Ion, bool) {
	text = strings.TrimSpace(text)
	for _, ion := range AllIons() {
		if strings.EqualFold(text, ion.Symbol()) || strings.EqualFold(text, ion.String()) {
			return ion, true
		}
	}
	return 0, false
}

// String returns the name of the ion: "calcium".
func (ion Ion) String() string { return ionTable[ion].name }

// Symbol returns the chemical symbol without its charge: "HCO3".
func (ion Ion) Symbol() string { return ionTable[ion].symbol }

// MolarMass returns the molar mass in g/mol.
func (ion Ion) MolarMass() float64 { return ionTable[ion].molarMass }

// Valence returns the charge number: +2 for calcium, −1 for chloride.
func (ion Ion) Valence() int { return ionTable[ion].valence }

// EquivalentMass returns the mass that carries one milliequivalent of charge,
// in mg.
//
//	e = M/|z|    M molar mass in g/mol, z charge number
//
// How it is known:
//   - Source: derived, definition of the equivalent.
//   - Valid: every ion.
//   - Check: Ca 20.039, Mg 12.1525, CO3 30.004, SO4 48.028 mg/mEq.
//   - Tag: derived
func (ion Ion) EquivalentMass() float64 {
	valence := ion.Valence()
	if valence < 0 {
		valence = -valence
	}
	return ion.MolarMass() / float64(valence)
}

// Ions are concentrations in mg/L, indexed by [Ion]. The zero value is
// distilled water.
type Ions [IonCount]float64

// Charge returns the equivalent concentration of one ion, always positive.
//
//	q = c/e    c in mg/L, e in mg/mEq (see [Ion.EquivalentMass]), q in mEq/L
//
// How it is known:
//   - Source: derived, definition of the equivalent.
//   - Valid: dilute water, where 1 ppm is 1 mg/L within 0.3 %.
//   - Check: the sums of report A in [Balance].
//   - Tag: derived
func (i Ions) Charge(ion Ion) quantity.Charge {
	return quantity.Charge(i[ion] / ion.EquivalentMass())
}

// Cations returns the sum of the positive charges.
//
//	S = Σ c/e    over Ca, Mg, Na, K; in mEq/L
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: pH 3 to 10; hydrogen ions are left out.
//   - Check: report A 6.7016 mEq/L.
//   - Tag: derived
func (i Ions) Cations() quantity.Charge { return i.sum(+1) }

// Anions returns the sum of the negative charges, as a positive number.
//
//	S = Σ c/e    over HCO3, CO3, Cl, SO4, NO3; in mEq/L
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: pH 3 to 10; hydroxide is left out.
//   - Check: report A 6.7739 mEq/L.
//   - Tag: derived
func (i Ions) Anions() quantity.Charge { return i.sum(-1) }

func (i Ions) sum(sign int) quantity.Charge {
	var sum quantity.Charge
	for _, ion := range AllIons() {
		if ion.Valence()*sign > 0 {
			sum += i.Charge(ion)
		}
	}
	return sum
}

// Plus returns the ions of both.
func (i Ions) Plus(other Ions) Ions {
	for ion := range i {
		i[ion] += other[ion]
	}
	return i
}

// Scaled returns the ions multiplied by f.
func (i Ions) Scaled(f float64) Ions {
	for ion := range i {
		i[ion] *= f
	}
	return i
}

// Mix returns the water with a share of another mixed in: Mix(0.4, Ions{}) is
// 60 % of this water and 40 % distilled.
//
//	c = (1 − f) · c1 + f · c2    f share of the other water by volume
//
// Bicarbonate and carbonate mix by mass only. When the pH of the two differs,
// [Blend] keeps the carbonate system in step.
//
//   - Source: derived, conservation of mass.
//   - Valid: f from 0 to 1.
//   - Check: report A 60:40 with distilled: Ca 54.0, HCO3 168.0 mg/L.
//   - Tag: derived
func (i Ions) Mix(f quantity.Fraction, other Ions) Ions {
	return i.Scaled(1 - float64(f)).Plus(other.Scaled(float64(f)))
}
