// SPDX-License-Identifier: MIT

package gravity

import "gyle/quantity"

// Wort is an amount of a liquid with extract. Water is a Wort of 0 °P.
type Wort struct {
	Volume  quantity.Volume // at 20 °C
	Extract quantity.Plato
}

// Mass returns the mass of w, from the density of a sucrose solution.
//
//	m = V·ρ(P, 20 °C)/1000
//
// Units: m in kg, V in L, ρ in kg/m³.
//
//   - Source: icumsasps4, density at 20 °C.
//   - Valid: 0 to 70 °P.
//   - Check: 20 L of 16 °P weigh 21.27 kg.
//   - Tag: computed
func (w Wort) Mass() quantity.Mass {
	return quantity.Mass(w.Volume.Litres() * SucroseDensity(w.Extract, reference) / 1000)
}

// ExtractMass returns the extract in w.
func (w Wort) ExtractMass() quantity.Mass { return w.Mass() * quantity.Mass(w.Extract) / 100 }

// SG returns the apparent gravity of w.
func (w Wort) SG() quantity.SG { return SGFromPlato(w.Extract) }

// wortOf returns the wort of a total mass in which there is a mass of extract.
func wortOf(total, extract quantity.Mass) Wort {
	if total == 0 {
		return Wort{}
	}
	p := quantity.Plato(100 * extract / total)
	return Wort{quantity.Volume(1000 * total.Kilograms() / SucroseDensity(p, reference)), p}
}

// Mix returns what comes of pouring parts together. Masses and extracts add
// exactly; volumes do not quite.
//
//	P = Σ mᵢ·Pᵢ/Σ mᵢ    V = Σ mᵢ/ρ(P)    mᵢ = Vᵢ·ρ(Pᵢ)
//
// Units: m in kg, V in L at 20 °C, ρ in kg/L, P in °P.
//
//   - Source: derived, balance of mass and extract, densities of icumsasps4.
//   - Valid: 0 to 70 °P.
//   - Check: 15 L of 20 °P and 9 L of water give 23.996 L of 12.870 °P.
//   - Tag: computed
func Mix(parts ...Wort) Wort {
	var total, extract quantity.Mass
	for _, part := range parts {
		total += part.Mass()
		extract += part.ExtractMass()
	}
	return wortOf(total, extract)
}

// MixPoints returns the gravity of a blend by the rule of gravity points.
//
//	S = 1 + Σ Vᵢ·(Sᵢ − 1)/Σ Vᵢ
//
// Units: V in L, S apparent SG.
//
//   - Source: practice, points times volume.
//   - Valid: ordinary worts; within 0.0002 of [Mix], worse with syrups.
//   - Check: 15 L of 20 °P and 9 L of water give 1.05189, by mass 1.05206.
//   - Tag: common practice
func MixPoints(parts ...Wort) quantity.SG {
	var volume, points float64
	for _, part := range parts {
		volume += part.Volume.Litres()
		points += part.Volume.Litres() * part.SG().Points()
	}
	return quantity.SG(1 + points/volume/1000)
}

// MassAverage returns the mean by mass of a property of parts, such as the
// grams of carbon dioxide per kilogram of beer.
//
//	x = Σ mᵢ·xᵢ/Σ mᵢ
//
// Units: m in kg, x in the unit of the property per kg.
//
//   - Source: derived, balance of mass.
//   - Valid: properties that belong to a mass; for colour and bitterness, which
//     belong to a volume, take the mean by volume.
//   - Check: equal properties give the same property.
//   - Tag: derived
func MassAverage(parts []Wort, property []float64) float64 {
	var total, sum float64
	for i, part := range parts {
		total += part.Mass().Kilograms()
		sum += part.Mass().Kilograms() * property[i]
	}
	return sum / total
}

// Evaporate returns the wort w boiled down (or topped up with water) to a volume. The
// extract stays.
//
//	V₂·ρ(P₂)·P₂ = V₁·ρ(P₁)·P₁, solved for P₂
//
// Units: L at 20 °C, kg/m³, °P.
//
//   - Source: derived, balance of extract, densities of icumsasps4.
//   - Valid: 0 to 70 °P.
//   - Check: 30 L of 10 °P to 25 L gives 11.909 °P.
//   - Tag: computed
func Evaporate(w Wort, to quantity.Volume) Wort {
	return Wort{to, PlatoFromConcentration(ExtractConcentration(w.Extract) * float64(w.Volume/to))}
}

// DilutionWater returns the water that brings w down to a target.
//
//	m_water = m·(P/P_target − 1)
//
// Units: kg, °P.
//
//   - Source: derived, balance of extract.
//   - Valid: targets above 0 and not above P; a negative result is water to take away.
//   - Check: 20 L of 16 °P to 12 °P takes 7.09 kg.
//   - Tag: derived
func DilutionWater(w Wort, target quantity.Plato) quantity.Mass {
	return w.Mass() * quantity.Mass(w.Extract/target-1)
}

// AddWater returns the wort w with a mass of water poured in.
func AddWater(w Wort, water quantity.Mass) Wort {
	return wortOf(w.Mass()+water, w.ExtractMass())
}

// SugarFor returns the sugar, or malt extract, that brings w up to a target.
// The yield is the extract in it: 1 for dry sucrose, about 0.96 for dry malt
// extract.
//
//	s = m·(P_target − P)/(100·y − P_target)
//
// Units: kg, °P, y a fraction.
//
//   - Source: derived, balance of extract.
//   - Valid: targets below 100·y.
//   - Check: 20 L of 11 °P to 12 °P takes 0.237 kg of sucrose.
//   - Tag: derived
func SugarFor(w Wort, target quantity.Plato, yield quantity.Fraction) quantity.Mass {
	return w.Mass() * quantity.Mass(float64(target-w.Extract)/(yield.Percent()-float64(target)))
}

// AddSugar returns the wort w with a mass of sugar of an extract yield dissolved in it.
//
//	P = 100·(e + y·s)/(m + s)
//
// Units: kg, °P, y a fraction.
//
//   - Source: derived, balance of extract, densities of icumsasps4.
//   - Valid: 0 to 70 °P.
//   - Check: 1 kg sucrose in 10 L of water gives 10.617 L of 9.106 °P.
//   - Tag: computed
func AddSugar(w Wort, sugar quantity.Mass, yield quantity.Fraction) Wort {
	return wortOf(w.Mass()+sugar, w.ExtractMass()+sugar*quantity.Mass(yield))
}

// ExtractConcentration returns the extract in a litre of wort, in g/L.
//
//	c = ρ(P, 20 °C)·P/100
//
// Units: c in g/L, ρ in kg/m³ (which is g/L), P in °P.
//
//   - Source: icumsasps4, density at 20 °C.
//   - Valid: 0 to 70 °P.
//   - Check: 12 °P hold 125.57 g/L.
//   - Tag: computed
func ExtractConcentration(p quantity.Plato) float64 {
	return SucroseDensity(p, reference) * float64(p) / 100
}

// PlatoFromConcentration returns the extract by mass of a wort that holds c
// grams of extract per litre at 20 °C.
//
//	ρ(P, 20 °C)·P/100 = c, solved for P by bisection
//
// Units: c in g/L, ρ in kg/m³.
//
//   - Source: icumsasps4, density at 20 °C.
//   - Valid: 0 to 900 g/L; NaN beyond 95 °P.
//   - Check: 1 kg of sucrose made up to 10 L is 9.646 °P.
//   - Tag: computed
func PlatoFromConcentration(c float64) quantity.Plato {
	return quantity.Plato(solve(-10, 95, func(p float64) float64 {
		return ExtractConcentration(quantity.Plato(p)) - c
	}))
}
