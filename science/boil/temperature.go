// SPDX-License-Identifier: MIT

package boil

import (
	"math"

	"gyle/quantity"
)

const (
	sucroseMolar = 342.3    // g/mol
	waterMolar   = 18.01528 // g/mol
	gasConstant  = 8.314462618
)

// Molality returns the moles of extract per kilogram of water, taking all
// extract for sucrose.
//
//	m = 1000·(P/342.3)/(100 − P)
//
// Units: m in mol/kg, P in °P.
//
//   - Source: derived, definition of molality.
//   - Valid: below 100 °P.
//   - Check: 0.398 mol/kg at 12 °P.
//   - Tag: derived
func Molality(p quantity.Plato) float64 {
	return 1000 * (float64(p) / sucroseMolar) / (100 - float64(p))
}

// ElevationSimple returns how much higher than water wort boils, by the law of
// dilute solutions.
//
//	dT = 0.513·m
//
// Units: dT in K, m in mol/kg.
//
//   - Source: practice, ebullioscopic constant of water.
//   - Valid: up to 10 °P; 6 % short at 25 °P.
//   - Check: 0.204 K at 12 °P.
//   - Tag: computed
func ElevationSimple(p quantity.Plato) quantity.Warming {
	return quantity.Warming(0.513 * Molality(p))
}

// WaterActivity returns the vapour pressure of a sucrose solution against that
// of water at the same temperature.
//
//	a = (1 − x)·exp(Q/(R·T)·x²·(1 − 1.0038·x − 0.24653·x²))
//	x mole fraction of sucrose, Q = −17638 J/mol, T in K
//
// Wort holds a little more dissolved matter than sucrose of its mass; that
// moves its boiling point by less than 0.1 K.
//
//   - Source: starzak1997, constants quoted second-hand, form from memory.
//   - Valid: 0–60 °P, 0–130 °C.
//   - Check: raises the boiling point by 0.209 K at 12 °P.
//   - Tag: second-hand
func WaterActivity(p quantity.Plato, t quantity.Temperature) float64 {
	sugar := float64(p) / sucroseMolar
	x := sugar / (sugar + (100-float64(p))/waterMolar)
	return (1 - x) * math.Exp(-17638/(gasConstant*t.Kelvin())*x*x*(1-1.0038*x-0.24653*x*x))
}

// BoilingTemperature returns the temperature at which wort of extract p boils
// at an altitude.
//
//	psat(T)·a(P, T) = p(h)
//
// At the bottom of a kettle it is 0.3 K more per 10 cm of depth.
//
//   - Source: derived, from iapws1992, starzak1997 and iso2533.
//   - Valid: 0–5000 m, 0–40 °P.
//   - Check: 94.983 °C for water at 1500 m.
//   - Tag: computed
func BoilingTemperature(altitude quantity.Length, p quantity.Plato) quantity.Temperature {
	return BoilingTemperatureAt(StationPressure(altitude), p)
}

// BoilingTemperatureAt is [BoilingTemperature] for a pressure that was
// measured.
//
//	psat(T)·a(P, T) = p
//
// Units: p in Pa, T in K, P in °P.
//
//   - Source: derived, from iapws1992 and starzak1997.
//   - Valid: 0.5–2 bar, 0–40 °P.
//   - Check: 0.209 K above water at 12 °P and 1.01325 bar.
//   - Tag: computed
func BoilingTemperatureAt(pressure quantity.Pressure, p quantity.Plato) quantity.Temperature {
	t := SaturationTemperature(pressure)
	for range 4 { // the activity hardly moves with temperature: each pass gains three digits
		t = SaturationTemperature(pressure / quantity.Pressure(WaterActivity(p, t)))
	}
	return t
}
