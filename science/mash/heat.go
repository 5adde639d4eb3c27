// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// WaterHeat is the specific heat of water between 0 and 100 °C, kJ/(kg K).
// Tag: from memory.
const WaterHeat = 4.186

// Grain is dry malt before it meets the liquor.
type Grain struct {
	Mass        quantity.Mass
	Temperature quantity.Temperature
	Moisture    quantity.Fraction // zero means bone dry; DefaultMoisture where unknown
}

// DefaultMoisture is that of common malt. Tag: common practice.
const DefaultMoisture quantity.Fraction = 0.04

// Vessel is the wetted part of the mash vessel. Its heat counts from its own
// temperature; a vessel whose temperature was not set is at that of the mash
// already, because it was preheated with the strike liquor.
type Vessel struct {
	HeatCapacity quantity.HeatCapacity
	Temperature  quantity.Temperature
}

// MaltHeat returns the specific heat of malt in kJ/(kg K).
//
//	c = 4.186·(0.38 + 0.005·w)
//
// Units: c in kJ/(kg K), w (moisture) in % of mass.
//
//   - Source: brewingroom1985, second-hand: a maltster's brewing-room table, read in a supplier's appendix; the line is fitted to it.
//   - Valid: 0..8 % moisture.
//   - Check: the table's 0.38, 0.40, 0.42 at 0, 4, 8 % within 0.01.
//   - Tag: second-hand
func MaltHeat(moisture quantity.Fraction) float64 {
	return WaterHeat * (0.38 + 0.005*moisture.Percent())
}

// slaking is the heat of wetting in kJ per kg of grain, by moisture in %.
var slaking = []struct{ moisture, heat float64 }{
	{0, 39.1}, {1, 35.6}, {2, 28.6}, {3, 25.0}, {4, 21.5}, {6, 18.0}, {8, 14.4},
}

// SlakingHeat returns the heat that malt gives off when it is wetted, in kJ/kg.
// Small kettles often lose it during doughing in; [StrikeTemperature] takes it
// as an argument so that it may be left out.
//
//	linear between 39.1, 35.6, 28.6, 25.0, 21.5, 18.0, 14.4 kJ/kg
//	at 0, 1, 2, 3, 4, 6, 8 % of moisture
//
// Units: kJ per kg of grain.
//
//   - Source: brewingroom1985: temperature rises of the table, turned into energy at its 2.68 L/kg; barth2024, abstract, treats it as an enthalpy of hydration.
//   - Valid: 0..8 % moisture; beyond, the end values.
//   - Check: 21.5 at 4 %.
//   - Tag: computed
func SlakingHeat(moisture quantity.Fraction) float64 {
	w := moisture.Percent()
	if w <= slaking[0].moisture {
		return slaking[0].heat
	}
	for i := 1; i < len(slaking); i++ {
		low, high := slaking[i-1], slaking[i]
		if w <= high.moisture {
			return low.heat + (high.heat-low.heat)*(w-low.moisture)/(high.moisture-low.moisture)
		}
	}
	return slaking[len(slaking)-1].heat
}

// HeatCapacity returns the heat the mash takes up per kelvin, vessel included.
//
//	C = m(grain)·c(grain) + m(liquor)·4.186 + C(vessel)
//
// Units: C in kJ/K, m in kg, c in kJ/(kg K).
//
//   - Source: derived, heat balance.
//   - Valid: 0..100 °C.
//   - Check: 5 kg at 4 % with 15 kg and a vessel of 4 kJ/K: 75.16.
//   - Tag: derived
func HeatCapacity(grain Grain, liquor quantity.Mass, vessel Vessel) quantity.HeatCapacity {
	return quantity.HeatCapacity(float64(grain.Mass)*MaltHeat(grain.Moisture)+float64(liquor)*WaterHeat) +
		vessel.HeatCapacity
}

// StrikeTemperature returns how hot the liquor must be for the mash to land at
// a temperature. slaking is the heat of wetting to count, in kJ/kg: either
// SlakingHeat(grain.Moisture) or 0. A result above the boiling point cannot be
// reached.
//
//	T = [Tm·C − m(g)·c(g)·T(g) − C(v)·T(v) − m(g)·q] / (m(w)·4.186)
//
// with the heat capacity C of mash and vessel in kJ/K, masses in kg, q in kJ/kg.
//
//   - Source: derived, heat balance; barth2024, abstract, for the term q.
//   - Valid: liquor 1..8 kg per kg of grain.
//   - Check: 5 kg at 20 °C, 15 kg, 66 °C: 72.13 without and 70.42 with slaking heat.
//   - Tag: derived
func StrikeTemperature(grain Grain, liquor quantity.Mass, vessel Vessel, target quantity.Temperature, slaking float64) quantity.Temperature {
	deficit := float64(grain.Mass)*(MaltHeat(grain.Moisture)*float64(target.Sub(grain.Temperature))-slaking) +
		vesselDeficit(vessel, target)
	return target.Add(quantity.Warming(deficit / (float64(liquor) * WaterHeat)))
}

// vesselDeficit is the heat the vessel lacks to be at a temperature, in kJ.
func vesselDeficit(vessel Vessel, target quantity.Temperature) float64 {
	if vessel.Temperature.IsZero() {
		return 0
	}
	return float64(vessel.HeatCapacity) * float64(target.Sub(vessel.Temperature))
}

// LandingTemperature returns where the mash lands when the liquor has a given
// temperature: the inverse of [StrikeTemperature]. A vessel whose temperature
// was not set has that given as hot, usually the temperature aimed at.
//
//	T = [m(w)·4.186·T(w) + m(g)·c(g)·T(g) + C(v)·T(v) + m(g)·q] / C
//
// Units: T in °C, m in kg, c in kJ/(kg K), C in kJ/K, q in kJ/kg.
//
//   - Source: derived, heat balance.
//   - Valid: as StrikeTemperature.
//   - Check: gives back the target of StrikeTemperature.
//   - Tag: derived
func LandingTemperature(grain Grain, liquor quantity.Mass, vessel Vessel, strike, hot quantity.Temperature, slaking float64) quantity.Temperature {
	if vessel.Temperature.IsZero() {
		vessel.Temperature = hot
	}
	c := float64(HeatCapacity(grain, liquor, vessel))
	lost := float64(grain.Mass)*(MaltHeat(grain.Moisture)*float64(strike.Sub(grain.Temperature))-slaking) +
		vesselDeficit(vessel, strike)
	return strike.Add(quantity.Warming(-lost / c))
}

// InfusionMass returns how much hot water raises the mash from one temperature
// to another, or how much cold water lowers it.
//
//	m = C·(T2 − T1) / (4.186·(Tw − T2))
//
// Units: m in kg, C in kJ/K, T in °C.
//
//   - Source: derived, heat balance.
//   - Valid: added water beyond the temperature aimed at.
//   - Check: 5 kg and 12.5 kg, 50 to 65 °C with boiling water: 6.214 kg.
//   - Tag: derived
func InfusionMass(c quantity.HeatCapacity, from, to, water quantity.Temperature) quantity.Mass {
	return quantity.Mass(float64(c) * float64(to.Sub(from)) / (WaterHeat * float64(water.Sub(to))))
}

// DecoctionLoss is the customary share of a decoction's heat that is lost by
// evaporation and on its way back; 0.05 to 0.20 occur. Tag: common practice.
const DecoctionLoss quantity.Fraction = 0.10

// DecoctionShare returns the share of a uniform mash to boil for a rise of
// temperature.
//
//	f = (C(mash) + C(vessel))·(T2 − T1) / (C(mash)·(Tb − T1)) / (1 − loss)
//
// The enzymes of the boiled part are lost.
//
//   - Source: derived, heat balance; loss: common practice.
//   - Valid: shares below 1.
//   - Check: 5 kg and 15 kg, 50 to 65 °C: 0.3000; with a vessel of 4 kJ/K 0.3169.
//   - Tag: derived
func DecoctionShare(mash, vessel quantity.HeatCapacity, from, to, boiling quantity.Temperature, loss quantity.Fraction) quantity.Fraction {
	return quantity.Fraction(float64(mash+vessel) * float64(to.Sub(from)) /
		(float64(mash) * float64(boiling.Sub(from))) / float64(1-loss))
}

// ThickDecoctionMass returns the mass of thick mash to boil for a rise of
// temperature, when the part drawn holds ratio kg of liquor per kg of grain.
// Its grain is the result divided by 1 + ratio.
//
//	c = (c(grain) + R·4.186)/(1 + R)
//	m = C·(T2 − T1) / (c·(Tb − T1)) / (1 − loss)
//
// Units: c in kJ/(kg K), R in kg/kg, m in kg, C (with vessel) in kJ/K, T in °C;
// loss is a share.
//
//   - Source: derived, heat balance; loss: common practice.
//   - Valid: ratio 1..4.
//   - Check: R 1.5, 50 to 65 °C, 5 kg and 15 kg without vessel: 6.711 kg.
//   - Tag: derived
func ThickDecoctionMass(c quantity.HeatCapacity, moisture quantity.Fraction, ratio quantity.Ratio, from, to, boiling quantity.Temperature, loss quantity.Fraction) quantity.Mass {
	specific := (MaltHeat(moisture) + float64(ratio)*WaterHeat) / (1 + float64(ratio))
	return quantity.Mass(float64(c) * float64(to.Sub(from)) / (specific * float64(boiling.Sub(from))) / float64(1-loss))
}

// The customary share of a heater's power that reaches the mash. Tag: common
// practice.
var (
	ImmersedHeater  = quantity.Span[quantity.Fraction]{Low: 0.95, High: 1}
	InductionHeater = quantity.Span[quantity.Fraction]{Low: 0.80, High: 0.90}
	GasBurner       = quantity.Span[quantity.Fraction]{Low: 0.35, High: 0.55}
)

// MaxHeatingRate is how fast a mash is customarily heated through a wall, in
// K/min. Tag: common practice.
var MaxHeatingRate = quantity.Span[float64]{Low: 1, High: 1.5}

// Heater is what heats the mash and what cools it.
type Heater struct {
	Power      quantity.Power    // kW at the socket or the burner
	Efficiency quantity.Fraction // share that reaches the mash
	Loss       float64           // UA of the vessel, W/K; 0: none
	Ambient    quantity.Temperature
}

// HeatingTime returns how long direct heat takes from one temperature to
// another; it is infinite when the losses win before that.
//
//	t = τ·ln[(Tx − T1)/(Tx − T2)]    τ = C/UA    Tx = Ta + ε·P/UA
//	t = C·(T2 − T1)/(ε·P)            when UA is 0
//
// Units: t and τ in s, T in °C, C in J/K, UA in W/K, P in W; ε is a share.
//
//   - Source: derived, from C·dT/dt = ε·P − UA·(T − Ta).
//   - Valid: well mixed mash; common practice keeps the rate below 1.5 K/min.
//   - Check: 75.162 kJ/K, 2 kW at 0.95, 5 W/K, 52 to 63 °C: 8.047 min; 7.252 without losses.
//   - Tag: derived
func HeatingTime(c quantity.HeatCapacity, heater Heater, from, to quantity.Temperature) quantity.Duration {
	power := float64(heater.Power) * float64(heater.Efficiency)
	if heater.Loss == 0 {
		return quantity.Seconds(float64(c) * float64(to.Sub(from)) / power)
	}
	loss := heater.Loss / 1000
	limit := heater.Ambient.Add(quantity.Warming(power / loss))
	if !to.Below(limit) {
		return quantity.Duration(math.Inf(1))
	}
	return quantity.Seconds(float64(c) / loss * math.Log(float64(limit.Sub(from))/float64(limit.Sub(to))))
}

// Cooled returns the temperature of a mash that stands without heat.
//
//	T = Ta + (T0 − Ta)·exp(−UA·t/C)
//
// Units: T in °C, UA in kW/K, t in s, C in kJ/K.
//
//   - Source: derived, Newton's law of cooling.
//   - Valid: covered vessel; an open one loses more by evaporation, which a fitted UA takes in.
//   - Check: 75.162 kJ/K, 5 W/K, 66 °C in a room of 20 °C: 56.20 °C after an hour.
//   - Tag: derived
func Cooled(c quantity.HeatCapacity, loss float64, start, ambient quantity.Temperature, t quantity.Duration) quantity.Temperature {
	return ambient.Add(start.Sub(ambient) * quantity.Warming(math.Exp(-loss/1000*t.Seconds()/float64(c))))
}

// LossFromCooling returns the UA of a vessel, in W/K, from two readings of a
// mash that stands without heat.
//
//	UA = 1000·C/t · ln[(T0 − Ta)/(T1 − Ta)]
//
// Units: UA in W/K, C in kJ/K, t in s, T in °C.
//
//   - Source: derived, the inverse of Cooled.
//   - Valid: readings at least a few kelvin apart.
//   - Check: gives back the 5 W/K of Cooled.
//   - Tag: derived
func LossFromCooling(c quantity.HeatCapacity, start, end, ambient quantity.Temperature, t quantity.Duration) float64 {
	return 1000 * float64(c) / t.Seconds() * math.Log(float64(start.Sub(ambient))/float64(end.Sub(ambient)))
}

// VesselHeat returns the heat capacity of a vessel from a trial: hot water is
// poured in and its temperature read when it has settled.
//
//	C = m·4.186·(Th − Tf)/(Tf − Tv)
//
// Units: C in kJ/K, m in kg, T in °C.
//
//   - Source: derived, heat balance.
//   - Valid: vessel at least 30 K colder than the water.
//   - Check: 10 kg at 80 °C settling at 75 °C in a vessel of 20 °C: 3.805.
//   - Tag: derived
func VesselHeat(water quantity.Mass, hot, settled, vessel quantity.Temperature) quantity.HeatCapacity {
	return quantity.HeatCapacity(float64(water) * WaterHeat * float64(hot.Sub(settled)) / float64(settled.Sub(vessel)))
}

// WithGrainAdded returns the temperature of the mash after cold grain is
// stirred in.
//
//	T = (C·T1 + m·c·Tg)/(C + m·c)
//
// Units: T in °C, C in kJ/K, m in kg, c in kJ/(kg K).
//
//   - Source: derived, heat balance.
//   - Valid: without slaking heat.
//   - Check: 0.5 kg at 20 °C into 75.16 kJ/K at 72 °C: 71.43 °C.
//   - Tag: derived
func WithGrainAdded(c quantity.HeatCapacity, at quantity.Temperature, grain Grain) quantity.Temperature {
	heat := float64(grain.Mass) * MaltHeat(grain.Moisture)
	return at.Add(quantity.Warming(-heat * float64(at.Sub(grain.Temperature)) / (float64(c) + heat)))
}

// GrainDisplacement is the volume that a kilogram of grain takes up in the
// mash; 0.65 to 0.70 occur. Tag: common practice.
const GrainDisplacement quantity.Ratio = 0.67

// MashVolume returns the room the mash needs in its vessel.
//
//	V = V(liquor) + 0.67·m
//
// Units: V in L, m in kg.
//
//   - Source: practice.
//   - Valid: crushed malt, ±0.03 L/kg.
//   - Check: 15 L and 5 kg: 18.35 L, computed from the formula.
//   - Tag: common practice
func MashVolume(liquor quantity.Volume, grain quantity.Mass) quantity.Volume {
	return liquor + quantity.Volume(float64(GrainDisplacement)*float64(grain))
}
