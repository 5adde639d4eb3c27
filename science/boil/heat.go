// SPDX-License-Identifier: MIT

package boil

import (
	"gyle/quantity"
	"gyle/science/gravity"
)

const secondsPerHour = 3600.0

// SpecificHeat returns the heat capacity of wort in kJ/(kg K).
//
//	cp = 4.1868 − 0.0251·P + 7.5e−5·P·T
//
// Units: P in °P, T in °C.
//
//   - Source: practice, formula of the sugar industry for pure sucrose.
//   - Valid: 0–100 °C, 0–30 °P.
//   - Check: 3.940 at 12 °P and 60 °C.
//   - Tag: from memory
func SpecificHeat(p quantity.Plato, t quantity.Temperature) float64 {
	return 4.1868 - 0.0251*float64(p) + 7.5e-5*float64(p)*t.Celsius()
}

// SpecificHeatOfPurity returns the heat capacity of wort in kJ/(kg K) with the
// purity of its extract, the share of sucrose. Wort is reckoned with about
// 0.90; at 1 it is [SpecificHeat].
//
//	cp = 4.1868 − 0.0297·P + 4.6e−5·P·Pu + 7.5e−5·P·T
//
// Units: P in °P, Pu in %, T in °C.
//
//   - Source: practice, formula of the sugar industry.
//   - Valid: 0–100 °C, 0–30 °P.
//   - Check: 3.898 and 3.939 at 12 °P and 90 %, 20 and 65 °C; with 100 % it is [SpecificHeat].
//   - Tag: from memory
func SpecificHeatOfPurity(p quantity.Plato, purity quantity.Fraction, t quantity.Temperature) float64 {
	return 4.1868 + float64(p)*(-0.0297+4.6e-5*purity.Percent()+7.5e-5*t.Celsius())
}

// SpecificHeatLinear is the short form of [SpecificHeat].
//
//	cp = 4.186·(1 − 0.0056·P)
//
// Units: cp in kJ/(kg K), P in °P.
//
//   - Source: practice, line through figures of sugar solutions.
//   - Valid: 0–25 °P, ±1.5 %.
//   - Check: 3.905 at 12 °P.
//   - Tag: from memory
func SpecificHeatLinear(p quantity.Plato) float64 { return 4.186 * (1 - 0.0056*float64(p)) }

// The share of a heater's power that reaches the wort (practice).
var (
	ImmersedEfficiency  = quantity.Span[quantity.Fraction]{Low: 1, High: 1}
	InductionEfficiency = quantity.Span[quantity.Fraction]{Low: 0.85, High: 0.90}
	GasEfficiency       = quantity.Span[quantity.Fraction]{Low: 0.35, High: 0.60}
)

// OpenKettleLoss is the usual loss of heat of an open kettle of 30 to 50 L at
// the boil (practice). Calibrate it by [LossFromBoilOff].
var OpenKettleLoss = quantity.Span[quantity.Power]{Low: 0.3, High: 0.7}

// Evaporation returns the flow of steam from wort that boils at temperature t.
// Multiply by 3600 for kg/h, or use [Evaporated].
//
//	m = (η·P − Q)/h
//
// Units: m in kg/s, P and Q in kW, h in kJ/kg.
//
//   - Source: derived, balance of heat.
//   - Valid: η·P above Q.
//   - Check: 2.4 kW immersed, loss 0.5 kW: 3.031 kg/h.
//   - Tag: derived
func Evaporation(power quantity.Power, efficiency quantity.Fraction, loss quantity.Power, t quantity.Temperature) quantity.MassFlow {
	return quantity.MassFlow((float64(efficiency)*float64(power) - float64(loss)) / LatentHeat(t))
}

// LossFromBoilOff returns the loss of heat that explains a measured boil-off:
// [Evaporation] solved for the loss.
//
//	Q = η·P − m·h
//
// Units: Q and P in kW, m in kg/s, h in kJ/kg.
//
//   - Source: derived, balance of heat.
//   - Valid: as [Evaporation].
//   - Check: there and back.
//   - Tag: derived
func LossFromBoilOff(power quantity.Power, efficiency quantity.Fraction, boilOff quantity.MassFlow, t quantity.Temperature) quantity.Power {
	return quantity.Power(float64(efficiency)*float64(power) - float64(boilOff)*LatentHeat(t))
}

// PerHour returns the flow of m kilograms in an hour.
func PerHour(m quantity.Mass) quantity.MassFlow {
	return quantity.MassFlow(m.Kilograms() / secondsPerHour)
}

// Evaporated returns the mass that a flow carries off in time d.
func Evaporated(flow quantity.MassFlow, d quantity.Duration) quantity.Mass {
	return quantity.Mass(float64(flow) * d.Seconds())
}

// HeatUpTime returns the time to heat wort from one temperature to another.
// The loss is that at the boil; on the way half of it counts.
//
//	t = m·cp·dT/(η·P − Q/2)
//
// Units: t in s, m in kg, cp in kJ/(kg K), P and Q in kW.
//
//   - Source: derived, balance of heat.
//   - Valid: η·P above Q/2; the kettle itself isn't counted.
//   - Check: 25 kg of water, 60 to 100 °C, 2.4 kW, no loss: 29.1 min, computed from the formula above (regression value).
//   - Tag: derived
func HeatUpTime(m quantity.Mass, p quantity.Plato, from, to quantity.Temperature, power quantity.Power, efficiency quantity.Fraction, loss quantity.Power) quantity.Duration {
	rise := to.Sub(from)
	cp := SpecificHeat(p, from.Add(rise/2))
	kilowatts := float64(efficiency)*float64(power) - float64(loss)/2
	return quantity.Seconds(m.Kilograms() * cp * float64(rise) / kilowatts)
}

// Concentrate returns what is left, at 20 °C, of wort that loses the given
// mass of water.
//
//	m1 = V1·ρ(P1)    m2 = m1 − steam    P2 = P1·m1/m2    V2 = m2/ρ(P2)
//
// Units: m in kg, V in L.
//
//   - Source: derived, balance of mass and extract; densities by science/gravity.
//   - Valid: wort up to 30 °P.
//   - Check: 28 L of 10.5 °P less 3.5 kg: 24.49 L of 11.934 °P, 1.0481.
//   - Tag: derived
func Concentrate(v quantity.Volume, p quantity.Plato, steam quantity.Mass) (quantity.Volume, quantity.Plato) {
	before := gravity.WortMass(v, gravity.SGFromPlato(p))
	after := before - steam
	stronger := p * quantity.Plato(before/after)
	return gravity.WortVolume(after, gravity.SGFromPlato(stronger)), stronger
}

// SteamFor returns the mass of water to boil off so that wort reaches the
// wanted extract: [Concentrate] solved for the steam.
//
//	steam = m1·(1 − P1/P2)
//
// Units: m in kg.
//
//   - Source: derived, balance of extract.
//   - Valid: P2 above zero; negative when the wort must be diluted.
//   - Check: there and back through [Concentrate].
//   - Tag: derived
func SteamFor(v quantity.Volume, p, wanted quantity.Plato) quantity.Mass {
	return gravity.WortMass(v, gravity.SGFromPlato(p)) * quantity.Mass(1-p/wanted)
}

// The boil-off in practice: per hour at home, in total in industry formerly
// and now (orourke2002, second-hand).
var (
	HomeBoilOff         = quantity.Span[quantity.Fraction]{Low: 0.08, High: 0.15} // per hour
	IndustryOnceBoilOff = quantity.Span[quantity.Fraction]{Low: 0.12, High: 0.20} // total
	IndustryNowBoilOff  = quantity.Span[quantity.Fraction]{Low: 0.04, High: 0.08} // total
)

// WetTrub is the wet hot break of a boil in g/L, four fifths of it water
// (handbook chapter on wort boiling).
var WetTrub = quantity.Span[quantity.Dose]{Low: 2, High: 4}
