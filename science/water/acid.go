// SPDX-License-Identifier: MIT

package water

import (
	"math"

	"gyle/quantity"
)

// An Acid is a product as it is bought.
type Acid struct {
	ID, Name string
	// Density at 20 °C, in g/mL, and the share of acid in the mass.
	Density      float64
	MassFraction quantity.Fraction
	// MolarMass of the acid in g/mol.
	MolarMass float64
	// Strong is the number of protons given up at any pH of brewing.
	Strong int
	// PKa are the acidity constants of the other protons, at 25 °C.
	PKa []float64
	// Anion is what remains, and AnionMass its molar mass in g/mol.
	Anion     string
	AnionMass float64
	// Safety is the caution to show with it.
	Safety string
	// NeedsConfirmation marks an acid that isn't planned with before the brewer
	// has confirmed; Confirmed says that it happened.
	NeedsConfirmation, Confirmed bool
}

// Molar masses of the acids in g/mol.
const (
	massLactic       = 3*weightC + 6*weightH + 3*weightO
	massPhosphoric   = 3*weightH + massPhosphate
	massHydrochloric = weightH + weightCl
	massSulfuric     = 2*weightH + massSulfate
)

// Acidity constants at 25 °C.
var (
	pkLactic     = []float64{3.86}                 // from memory
	pkPhosphoric = []float64{2.148, 7.198, 12.350} // goldberg2002, second-hand
	pkSulfuric   = []float64{1.99}                 // second proton, from memory
)

func lactic(id, name string, density float64, share quantity.Fraction) Acid {
	return Acid{ID: id, Name: name, Density: density, MassFraction: share, MolarMass: massLactic,
		PKa: pkLactic, Anion: "lactic acid", AnionMass: massLactic, Safety: safetyLactic}
}

func phosphoric(id, name string, density float64, share quantity.Fraction, safety string) Acid {
	return Acid{ID: id, Name: name, Density: density, MassFraction: share, MolarMass: massPhosphoric,
		PKa: pkPhosphoric, Anion: "PO4", AnionMass: massPhosphate, Safety: safety}
}

func hydrochloric(id, name string, density float64, share quantity.Fraction, safety string) Acid {
	return Acid{ID: id, Name: name, Density: density, MassFraction: share, MolarMass: massHydrochloric,
		Strong: 1, Anion: Chloride.Symbol(), AnionMass: weightCl, Safety: safety}
}

func sulfuric(id, name string, density float64, share quantity.Fraction, safety string) Acid {
	return Acid{ID: id, Name: name, Density: density, MassFraction: share, MolarMass: massSulfuric,
		Strong: 1, PKa: pkSulfuric, Anion: Sulfate.Symbol(), AnionMass: massSulfate, Safety: safety}
}

// Acids are the usual products, in percent of mass. Densities are from memory,
// those of lactic acid within 0.01; that of phosphoric 85 % was read (1.6845 at
// 25 °C).
var Acids = []Acid{
	lactic("lactic-acid-80", "lactic acid 80 %", 1.187, 0.80),
	lactic("lactic-acid-88", "lactic acid 88 %", 1.206, 0.88),
	phosphoric("phosphoric-acid-10", "phosphoric acid 10 %", 1.053, 0.10, safetyDilute),
	phosphoric("phosphoric-acid-75", "phosphoric acid 75 %", 1.579, 0.75, safetyPhosphoric),
	phosphoric("phosphoric-acid-85", "phosphoric acid 85 %", 1.685, 0.85, safetyPhosphoric),
	hydrochloric("hydrochloric-acid-10", "hydrochloric acid 10 %", 1.047, 0.10, safetyHydrochloric),
	hydrochloric("hydrochloric-acid-37", "hydrochloric acid 37 %", 1.184, 0.37, safetyFuming),
	sulfuric("sulfuric-acid-10", "sulfuric acid 10 %", 1.066, 0.10, safetySulfuric),
	confirm(sulfuric("sulfuric-acid-96", "sulfuric acid 96 %", 1.8355, 0.96, safetyConcentrated)),
}

func confirm(a Acid) Acid {
	a.NeedsConfirmation = true
	return a
}

// AcidByID returns the acid of [Acids] with the id; false when there is none.
// Ids are those of the data tables; turn other names into them there.
func AcidByID(id string) (Acid, bool) {
	for _, a := range Acids {
		if a.ID == id {
			return a, true
		}
	}
	return Acid{}, false
}

// WeightPerVolume returns the acid with a strength that was labelled in grams
// per 100 mL (w/v), which differs from percent of mass by the density.
//
//	x = p/ρ    p in g/mL, ρ in g/mL, x share of mass
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: the density of the acid at that strength.
//   - Check: 106.13 g of lactic acid in 100 mL at 1.206 g/mL is 88 %.
//   - Tag: derived
func (a Acid) WeightPerVolume(p quantity.Fraction) Acid {
	a.MassFraction = p / quantity.Fraction(a.Density)
	return a
}

// Molarity returns the strength in mol/L.
//
//	c = 1000·ρ·x/M    ρ in g/mL, x share of mass, M in g/mol
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: 20 °C.
//   - Check: lactic 88 % 11.782, phosphoric 10 % 1.075 mol/L.
//   - Tag: derived
func (a Acid) Molarity() float64 {
	return 1000 * a.Density * float64(a.MassFraction) / a.MolarMass
}

// ChargePerMole returns how many protons a molecule has given up at a pH.
//
//	z = s + Σ i·b_i/Σ b_i    b_0 = 1, b_i = b_(i−1)·10^(pH − pKa_i), s strong protons
//
// The constants of 25 °C are used throughout; 5 K shift z by less than 0.001.
//
//   - Source: goldberg2002 (phosphoric); lactic 3.86 and sulfuric 1.99 from memory.
//   - Valid: dilute solution, 20 to 25 °C.
//   - Check: lactic at pH 5.4 0.9720; phosphoric at pH 5.4 1.0151 (computed).
//   - Tag: second-hand
func (a Acid) ChargePerMole(ph quantity.PH) float64 {
	weight, weights, charges := 1.0, 1.0, 0.0
	for n, pk := range a.PKa {
		weight *= math.Pow(10, float64(ph)-pk)
		weights += weight
		charges += float64(n+1) * weight
	}
	return float64(a.Strong) + charges/weights
}

// MilliequivalentsPerML returns the charge that one mL gives up at a pH.
//
//	q = c·z(pH)    c in mol/L which is mmol/mL, q in mEq/mL
//
// How it is known:
//   - Source: derived from [Acid.Molarity] and [Acid.ChargePerMole].
//   - Valid: as those.
//   - Check: at pH 5.4 lactic 88 % 11.45, phosphoric 10 % 1.091 mEq/mL (computed);
//     practitioners reckon with about 11.5 and 1.05.
//   - Tag: derived
func (a Acid) MilliequivalentsPerML(ph quantity.PH) float64 {
	return a.Molarity() * a.ChargePerMole(ph)
}

// AnionPerML returns what one mL per litre adds of the acid's anion, in mg/L.
// Lactic acid is counted whole.
//
//	m = c·Ma    c in mmol/mL, Ma molar mass of the anion in g/mol
//
// How it is known:
//   - Source: derived, definition.
//   - Valid: as [Acid.Molarity].
//   - Check: lactic 88 % 1061, hydrochloric 10 % 101.8, sulfuric 10 % 104.4 mg.
//   - Tag: derived
func (a Acid) AnionPerML() float64 { return a.Molarity() * a.AnionMass }

// phosphoricHeats are the enthalpies and heat capacities of the three
// ionisations of phosphoric acid at 25 °C: goldberg2002, second-hand.
var phosphoricHeats = []struct{ enthalpy, heatCapacity float64 }{ // J/mol, J/(mol K)
	{-8000, -141}, {3600, -230}, {16000, -242},
}

// PhosphoricPKa returns the nth acidity constant of phosphoric acid, n from 1
// to 3, at a temperature.
//
//	ln K = ln K0 − ΔH/R·(1/T − 1/T0) + ΔCp/R·(T0/T − 1 + ln(T/T0))    T in K, T0 298.15 K
//
// [Acid.ChargePerMole] keeps to 25 °C: the difference doesn't show.
//
//   - Source: goldberg2002, page 321, values as attributed in a water code.
//   - Valid: 0 to 60 °C.
//   - Check: 2.125, 7.210, 12.400 at 20 °C (computed).
//   - Tag: second-hand
func PhosphoricPKa(n int, t quantity.Temperature) float64 {
	const gas, reference = 8.314462618, 298.15 // J/(mol K), K
	heat, k := phosphoricHeats[n-1], t.Kelvin()
	change := -heat.enthalpy/gas*(1/k-1/reference) +
		heat.heatCapacity/gas*(reference/k-1+math.Log(k/reference))
	return pkPhosphoric[n-1] - change/math.Ln10
}

// LacticThreshold is where lactic acid begins to be tasted in beer:
// briggs2004, second-hand, conditions not known.
const LacticThreshold quantity.Concentration = 400

// LacticInBeer returns the lactic acid in the beer that comes from liquid acid
// and from acidulated malt. What yeast and bacteria make is left out.
//
//	c = (m·V + 10⁶·x·M)/B    V mL of acid with m mg/mL, M kg of malt with the share x, B litres of beer
//
// How it is known:
//   - Source: derived, conservation of mass; all of it reaches the beer.
//   - Valid: an upper bound, as some stays with grain and trub.
//   - Check: 5.1 mL of lactic 88 % in 20.0 L: 271 mg/L.
//   - Tag: derived
func LacticInBeer(a Acid, millilitres float64, malt quantity.Mass, content quantity.Fraction, beer quantity.Volume) quantity.Concentration {
	milligrams := 1e6 * float64(content) * malt.Kilograms()
	if a.Anion == "lactic acid" {
		milligrams += millilitres * a.AnionPerML()
	}
	return quantity.Concentration(milligrams / beer.Litres())
}

// Acidulated malt: its usual content of lactic acid, the range found, and the
// customary largest share of the grist (Narziß and Back 2009, second-hand).
const (
	AcidMaltLactic   quantity.Fraction = 0.028
	AcidMaltMaxShare quantity.Fraction = 0.08
)

// AcidMaltLacticRange is the range of the lactic acid in acidulated malt.
var AcidMaltLacticRange = quantity.Span[quantity.Fraction]{Low: 0.020, High: 0.035}

// AcidMaltPerKilogram returns the charge that a kilogram of acidulated malt
// gives up at a pH, beyond what a plain malt would.
//
//	q = 10⁶·x/M·z(pH)    x share of lactic acid, M 90.078 g/mol, q in mEq/kg
//
// How it is known:
//   - Source: practice (the content); derived.
//   - Valid: content 2 to 3.5 %. Rule of thumb: 1 % of the grist lowers the mash
//     pH by about 0.1.
//   - Check: 2.8 % is 311 mEq/kg fully given up.
//   - Tag: estimate
func AcidMaltPerKilogram(content quantity.Fraction, ph quantity.PH) float64 {
	return 1e6 * float64(content) / massLactic * Acid{PKa: pkLactic}.ChargePerMole(ph)
}
