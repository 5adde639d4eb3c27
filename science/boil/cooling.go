// SPDX-License-Identifier: MIT

package boil

import (
	"math"

	"gyle/quantity"
)

// waterHeat is the heat capacity of cooling water in kJ/(kg K).
const waterHeat = 4.186

// Conductance is the heat that passes a cooler per kelvin: UA, in kW/K.
type Conductance float64

// CoilConductance is usual for a home coil of 8 to 15 m in stirred wort
// (practice); unstirred it is half.
var CoilConductance = quantity.Span[Conductance]{Low: 0.250, High: 0.600}

// CoolingTemperature returns the temperature after time d of cooling towards
// an ambient temperature with the time constant tau.
//
//	T = Ta + (T0 − Ta)·e^(−t/tau)
//
// Units: temperatures in °C, t and tau in min.
//
//   - Source: practice, Newton's law of cooling.
//   - Valid: a mixed kettle; an open one cools faster above 85 °C, because it steams.
//   - Check: the inverse of [CoolingTime].
//   - Tag: common practice
func CoolingTemperature(from, ambient quantity.Temperature, tau, d quantity.Duration) quantity.Temperature {
	gap := float64(from.Sub(ambient)) * math.Exp(-float64(d/tau))
	return ambient.Add(quantity.Warming(gap))
}

// CoolingTime returns the time to cool from one temperature to another.
//
//	t = tau·ln((T0 − Ta)/(T − Ta))
//
// Units: temperatures in °C, t and tau in min.
//
//   - Source: practice, Newton's law of cooling.
//   - Valid: T between T0 and Ta; below Ta there is no answer (NaN).
//   - Check: 10.24 min from 100 to 25 °C in water of 12 °C with tau 321.4 s.
//   - Tag: common practice
func CoolingTime(from, to, ambient quantity.Temperature, tau quantity.Duration) quantity.Duration {
	return tau * quantity.Duration(math.Log(float64(from.Sub(ambient)/to.Sub(ambient))))
}

// TauFromReadings returns the time constant of a kettle that cooled from t1 to
// t2 in time d.
//
//	tau = dt/ln((T1 − Ta)/(T2 − Ta))
//
// Units: temperatures in °C, dt and tau in min.
//
//   - Source: practice, Newton's law of cooling.
//   - Valid: in the range of temperature of the readings.
//   - Check: 98 to 88 °C in 20 min at 20 °C: 145.8 min.
//   - Tag: common practice
func TauFromReadings(t1, t2, ambient quantity.Temperature, d quantity.Duration) quantity.Duration {
	return d / quantity.Duration(math.Log(float64(t1.Sub(ambient)/t2.Sub(ambient))))
}

// The usual time constants of standing kettles (practice).
var (
	OpenKettleTau    = quantity.Span[quantity.Duration]{Low: 90, High: 140}  // 20 to 25 L
	CoveredKettleTau = quantity.Span[quantity.Duration]{Low: 180, High: 260} // 20 to 25 L
	TenHectolitreTau = quantity.Hours(20)                                    // at least
)

// CoilTau returns the time constant of a mixed kettle with an immersed coil.
//
//	ε = 1 − exp(−UA/(mc·4.186))    tau = m·cp/(mc·4.186·ε)
//
// Units: tau in s, m in kg, cp in kJ/(kg K), mc in kg/s, UA in kW/K.
//
//   - Source: kays1984, effectiveness with one side at one temperature.
//   - Valid: a stirred kettle; let the coil and the tap not be taken for pressure vessels.
//   - Check: 20.96 kg, cp 3.950, 0.1 kg/s, 400 W/K: 321.4 s.
//   - Tag: from memory
func CoilTau(wort quantity.Mass, cp float64, water quantity.MassFlow, ua Conductance) quantity.Duration {
	flow := float64(water) * waterHeat
	effectiveness := -math.Expm1(-float64(ua) / flow)
	return quantity.Seconds(wort.Kilograms() * cp / (flow * effectiveness))
}

// An Exchange is what a plate or tube-in-tube cooler does.
type Exchange struct {
	NTU, Effectiveness float64
	Wort, Water        quantity.Temperature // leaving the cooler
}

// PlateCooler returns what a counterflow cooler does to wort of temperature
// hot with water of temperature cold.
//
//	Cr = Cmin/Cmax    NTU = UA/Cmin    ε = (1 − e^(−NTU(1−Cr)))/(1 − Cr·e^(−NTU(1−Cr)))
//	ε = NTU/(1 + NTU) if Cr is 1    Tout = Thot − ε·Cmin/Cwort·(Thot − Tcold)
//	C = flow·heat capacity
//
// Units: C and UA in kW/K, temperatures in °C; ε has none.
//
//   - Source: kays1984, counterflow.
//   - Valid: clean plates, steady flows.
//   - Check: 0.07 kg/s of cp 3.950, 0.1 kg/s, 700 W/K, 95 and 12 °C: ε 0.8005, out 28.56 and 55.88 °C.
//   - Tag: from memory
func PlateCooler(wort quantity.MassFlow, cp float64, water quantity.MassFlow, ua Conductance, hot, cold quantity.Temperature) Exchange {
	cWort, cWater := float64(wort)*cp, float64(water)*waterHeat
	smaller, larger := min(cWort, cWater), max(cWort, cWater)
	e := Exchange{NTU: float64(ua) / smaller}
	e.Effectiveness = counterflow(e.NTU, smaller/larger)
	heat := e.Effectiveness * smaller * float64(hot.Sub(cold))
	e.Wort = hot.Add(quantity.Warming(-heat / cWort))
	e.Water = cold.Add(quantity.Warming(heat / cWater))
	return e
}

func counterflow(ntu, ratio float64) float64 {
	if 1-ratio < 1e-9 {
		return ntu / (1 + ntu)
	}
	left := math.Exp(-ntu * (1 - ratio))
	return (1 - left) / (1 - ratio*left)
}

// RecirculationTau returns the time constant of a mixed kettle whose wort is
// pumped through a cooler and back.
//
//	tau = m/(flow·ε)
//
// Units: tau in s, m in kg, flow in kg/s; wort the weaker stream.
//
//   - Source: derived, balance of heat.
//   - Valid: ε referred to the wort: (Thot − Tout)/(Thot − Tcold).
//   - Check: 96.5 kg, 0.10 kg/s, ε 0.75: 21.4 min, computed from the formula above (regression value).
//   - Tag: derived
func RecirculationTau(wort quantity.Mass, flow quantity.MassFlow, effectiveness float64) quantity.Duration {
	return quantity.Seconds(wort.Kilograms() / (float64(flow) * effectiveness))
}
