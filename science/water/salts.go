// SPDX-License-Identifier: MIT

package water

import (
	"fmt"

	"gyle/quantity"
)

// A Salt is a solid that is weighed into liquor.
type Salt struct {
	ID, Name, Formula string
	// MolarMass is in g/mol, water of crystallisation included.
	MolarMass float64
	// Gives is what 1 g/L of the pure salt adds when all of it dissolves, in mg/L.
	// The hydroxide of slaked lime is counted as the bicarbonate it turns into.
	Gives Ions
	// AlkalinityPerGram is the alkalinity of one gram, in mEq.
	AlkalinityPerGram float64
	// Assay is the mass fraction of the pure salt in the product.
	Assay quantity.Fraction
	// Effectiveness is the share that acts in practice.
	Effectiveness quantity.Fraction
	// DoseCap is the dose beyond which more adds nothing; 0 means none.
	DoseCap quantity.Dose
	// Solubility is in cold water, in g/L; 0 means far above any dose.
	Solubility quantity.Dose
	Note       string
}

// The caps on doses: one salt, and all together.
const (
	SaltDoseCap  quantity.Dose = 2
	TotalDoseCap quantity.Dose = 3
)

// salt builds the pure salt from the moles of each ion in a mole of it.
func salt(id, name, formula string, moles Ions, crystalWater float64) Salt {
	s := Salt{ID: id, Name: name, Formula: formula, Assay: 1, Effectiveness: 1}
	s.MolarMass = crystalWater * massWater
	for _, ion := range AllIons() {
		s.MolarMass += moles[ion] * ion.MolarMass()
		s.Gives[ion] = 1000 * moles[ion] * ion.MolarMass()
	}
	s.Gives = s.Gives.Scaled(1 / s.MolarMass)
	s.AlkalinityPerGram = float64(Alkalinity(s.Gives))
	return s
}

// slakedLime is Ca(OH)2, whose two hydroxides take up CO2 and become bicarbonate.
func slakedLime() Salt {
	const molarMass = weightCa + 2*(weightO+weightH)
	s := Salt{ID: "slaked-lime", Name: "slaked lime", Formula: "Ca(OH)2", MolarMass: molarMass, Assay: 1}
	s.Gives[Calcium] = 1000 * weightCa / molarMass
	s.Gives[Bicarbonate] = 1000 * 2 * massBicarbonate / molarMass
	s.AlkalinityPerGram = float64(Alkalinity(s.Gives))
	s.Effectiveness, s.Solubility = 0.8, 1.7
	s.Note = "caustic dust: goggles and gloves; old lime is partly carbonate"
	return s
}

// Salts are the usual salts.
//
// What a gram gives follows from atomic weights (IUPAC, from memory). The
// assays of calcium chloride products and the solubilities are from memory.
// That chalk acts by half, and not at all beyond 0.45 g/L, and lime by four
// fifths, are this project's estimates: troester2009 (abstract) found that
// undissolved chalk does poorly and that most of the effect is lost above 400
// to 500 mg/L, delange2013 (abstract) that neither delivers what stoichiometry
// promises.
var Salts = []Salt{
	note(soluble(salt("gypsum", "gypsum", "CaSO4·2H2O", Ions{Calcium: 1, Sulfate: 1}, 2), 2.0),
		"dissolves slowly, less in hot water"),
	note(salt("calcium-chloride-dihydrate", "calcium chloride dihydrate", "CaCl2·2H2O", Ions{Calcium: 1, Chloride: 2}, 2),
		"draws moisture: keep the jar closed"),
	note(salt("calcium-chloride-anhydrous", "calcium chloride, anhydrous", "CaCl2", Ions{Calcium: 1, Chloride: 2}, 0),
		"draws moisture fast: keep the jar closed or dose as a solution of measured density"),
	product(salt("calcium-chloride-flakes", "calcium chloride flakes, 77 %", "CaCl2", Ions{Calcium: 1, Chloride: 2}, 0), 0.77,
		"77 to 80 % CaCl2: read the label"),
	product(salt("calcium-chloride-prills", "calcium chloride prills, 94 %", "CaCl2", Ions{Calcium: 1, Chloride: 2}, 0), 0.94,
		"94 to 97 % CaCl2: read the label; draws moisture fast"),
	note(salt("epsom-salt", "Epsom salt", "MgSO4·7H2O", Ions{Magnesium: 1, Sulfate: 1}, 7),
		"loses water in dry air and grows stronger"),
	salt("magnesium-chloride-hexahydrate", "magnesium chloride", "MgCl2·6H2O", Ions{Magnesium: 1, Chloride: 2}, 6),
	note(salt("table-salt", "table salt", "NaCl", Ions{Sodium: 1, Chloride: 1}, 0),
		"without iodine and without anti-caking agent"),
	note(salt("potassium-chloride", "potassium chloride", "KCl", Ions{Potassium: 1, Chloride: 1}, 0),
		"rarely needed: malt brings potassium; mind potassium-restricted diets"),
	note(salt("baking-soda", "baking soda", "NaHCO3", Ions{Sodium: 1, Bicarbonate: 1}, 0),
		"the most predictable way to raise a mash pH; mind the sodium"),
	note(salt("potassium-bicarbonate", "potassium bicarbonate", "KHCO3", Ions{Potassium: 1, Bicarbonate: 1}, 0),
		"as baking soda, without its sodium; mind potassium-restricted diets"),
	chalk(),
	slakedLime(),
}

func chalk() Salt {
	s := salt("chalk", "chalk", "CaCO3", Ions{Calcium: 1, Carbonate: 1}, 0)
	s.Effectiveness, s.DoseCap, s.Solubility = 0.5, 0.45, 0.014
	s.Note = "hardly dissolves without CO2; act on a measured pH, or take baking soda"
	return s
}

func note(s Salt, text string) Salt {
	s.Note = text
	return s
}

func soluble(s Salt, limit quantity.Dose) Salt {
	s.Solubility = limit
	return s
}

func product(s Salt, assay quantity.Fraction, text string) Salt {
	s.Assay = assay
	return note(s, text)
}

// SaltByID returns the salt of [Salts] with the id; false when there is none.
// Ids are those of the data tables; turn other names into them there.
func SaltByID(id string) (Salt, bool) {
	for _, s := range Salts {
		if s.ID == id {
			return s, true
		}
	}
	return Salt{}, false
}

// PerGram returns the ions that 1 g/L of the product adds in practice.
//
//	c = gives · assay · effectiveness    in mg/L per g/L
//
// What doesn't dissolve brings neither its calcium nor its alkalinity.
//
//   - Source: derived, molar masses; the effectiveness is an estimate, see [Salts].
//   - Valid: below the solubility and the dose cap of the salt.
//   - Check: calcium chloride flakes of 77 %: Ca 278.1, Cl 491.9.
//   - Tag: derived
func (s Salt) PerGram() Ions {
	return s.Gives.Scaled(float64(s.Assay * s.Effectiveness))
}

// Delivers returns the ions that a dose adds in practice.
//
//	c = min(dose, cap) · gives · assay · effectiveness    dose, cap in g/L, c in mg/L
//
// How it is known:
//   - Source: derived, as [Salt.PerGram] with the dose cap of the salt.
//   - Valid: below the solubility of the salt.
//   - Check: chalk above 0.45 g/L delivers what 0.45 g/L does.
//   - Tag: derived
func (s Salt) Delivers(dose quantity.Dose) Ions {
	if s.DoseCap > 0 {
		dose = min(dose, s.DoseCap)
	}
	return s.PerGram().Scaled(float64(dose))
}

// An Addition is a weighed salt.
type Addition struct {
	Salt Salt
	Mass quantity.Mass
}

// AddSalts returns the ions of a volume of liquor after the additions.
//
//	c = c0 + Σ delivers(m/V)    m in g, V in L, c in mg/L
//
// How it is known:
//   - Source: derived, conservation of mass.
//   - Valid: doses that dissolve; see [DoseWarnings].
//   - Check: 20 L of distilled water with 4 g gypsum, 3 g CaCl2·2H2O and 1 g Epsom
//     salt: Ca 87.45, SO4 131.07, Cl 72.34, Mg 4.93.
//   - Tag: derived
func AddSalts(base Ions, volume quantity.Volume, additions []Addition) Ions {
	for _, a := range additions {
		base = base.Plus(a.Salt.Delivers(a.dose(volume)))
	}
	return base
}

func (a Addition) dose(volume quantity.Volume) quantity.Dose {
	return quantity.Dose(a.Mass.Grams() / volume.Litres())
}

// DoseWarnings says which additions are too large for their volume: above the
// solubility, above the cap on one salt or above the cap on all together.
func DoseWarnings(pr quantity.Printer, volume quantity.Volume, additions []Addition) []string {
	var warnings []string
	var total quantity.Dose
	for _, a := range additions {
		dose := a.dose(volume)
		total += dose
		switch {
		case a.Salt.DoseCap > 0 && dose > a.Salt.DoseCap:
			warnings = append(warnings, fmt.Sprintf("%s: %s; above %s more adds nothing", a.Salt.Name, pr.Dose(dose), pr.Dose(a.Salt.DoseCap)))
		case dose > SaltDoseCap:
			warnings = append(warnings, fmt.Sprintf("%s: %s is above the cap of %s for one salt", a.Salt.Name, pr.Dose(dose), pr.Dose(SaltDoseCap)))
		case a.Salt.DoseCap == 0 && a.Salt.Solubility > 0 && dose > a.Salt.Solubility:
			warnings = append(warnings, fmt.Sprintf("%s: %s is above its solubility of %s", a.Salt.Name, pr.Dose(dose), pr.Dose(a.Salt.Solubility)))
		}
	}
	if total > TotalDoseCap {
		warnings = append(warnings, fmt.Sprintf("all salts: %s is above the cap of %s", pr.Dose(total), pr.Dose(TotalDoseCap)))
	}
	return warnings
}
