// SPDX-License-Identifier: MIT

package ferment

import "gyle/quantity"

// Kilojoules is an amount of heat.
type Kilojoules float64

// The heat set free per kg of real extract fermented, in kJ/kg, as different
// authors have it. HeatPerExtract is what the program takes, ± 50 kJ/kg.
const (
	HeatPerExtract       = 600 // kJ/kg, between the three below; an estimate
	HeatPerExtractFarber = 560 // kJ/kg, farber2019, quoted by an author of the book
	HeatPerExtractBriggs = 587 // kJ/kg, briggs2004, from memory
	HeatPerExtractRule   = 651 // kJ/kg, 280 Btu/lb, old refrigeration rule, from memory
)

// HeatOfFermentation returns the heat that a wort sets free in fermenting.
//
//	q = m·(OE − RE)/100·h    q in kJ, m in kg of wort, extracts in °P, h in kJ/kg
//
// It takes the fall of real extract in % of the wort; the extract that really
// disappears is 2 % more, well inside the spread of h.
//
//   - Source: briggs2004, from memory; other values of h beside HeatPerExtract.
//   - Valid: ordinary worts.
//   - Check: 20 L from 12 °P to AE 2.4 with h 587 give 966 kJ.
//   - Tag: from memory
func HeatOfFermentation(wort quantity.Mass, original, realExtract quantity.Plato, perExtract float64) Kilojoules {
	return Kilojoules(wort.Kilograms() * float64(original-realExtract) / 100 * perExtract)
}

// heatCapacityOfWort is the heat that warms a kg of wort by 1 K, in kJ/(kg·K).
const heatCapacityOfWort = 4.0

// WarmingUncooled returns by how much a wort would warm if no heat left it.
//
//	ΔT = (OE − RE)/100·h/4.0
//
// Units: ΔT in K, extracts in °P, h in kJ/kg, 4.0 kJ/(kg·K).
//
//   - Source: derived, heat balance without vessel and losses.
//   - Valid: ordinary worts; no fermenter is free of losses.
//   - Check: 12 °P to AE 2.4 with h 587 gives 11.5 K.
//   - Tag: derived
func WarmingUncooled(original, realExtract quantity.Plato, perExtract float64) quantity.Warming {
	return quantity.Warming(float64(original-realExtract) / 100 * perExtract / heatCapacityOfWort)
}

// HeatingPower returns the power that a fermentation sets free while its
// apparent extract falls at a rate: what a cooler must take away.
//
//	W = m·0.8192·r/100·h/3600
//
// Units: W in kW, m in kg, r in °P/h (apparent), h in kJ/kg.
//
//   - Source: derived, from [RealExtract] and [HeatOfFermentation].
//   - Valid: ordinary worts.
//   - Check: 20.9 kg at 0.2375 °P/h with h 600 give 6.8 W.
//   - Tag: derived
func HeatingPower(wort quantity.Mass, platoPerHour, perExtract float64) quantity.Power {
	return quantity.Power(wort.Kilograms() * 0.8192 * platoPerHour / 100 * perExtract / 3600)
}

// VolatileRetention returns how much of a volatile aroma stays in the beer when
// fermentation gas leaves at a gauge pressure, relative to an open vessel: the
// volume of the gas is what strips. A tendency, not a measured figure.
//
//	r = 1/(1 + p/1.013)
//
// Units: p in bar gauge.
//
//   - Source: derived, ideal gas at constant mass.
//   - Valid: 0 to 2 bar gauge. Mind the relief rating of the vessel.
//   - Check: 1.0 bar gives 0.50, 0.5 gives 0.67, 2.0 gives 0.34.
//   - Tag: derived
func VolatileRetention(p quantity.GaugePressure) quantity.Fraction {
	return quantity.Fraction(1 / (1 + float64(p)/1.013))
}
