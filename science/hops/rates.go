// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// isomerisationStart is the temperature below which no alpha acid is taken to
// turn: isomerisation was seen to begin between 60 and 70 °C (kishimoto2021).
var isomerisationStart = quantity.Celsius(60)

// boiling is the temperature to which equivalent minutes of boil refer.
var boiling = quantity.Celsius(100)

// IsoRate returns the rate at which alpha acids turn into iso-alpha acids at
// temperature t, a first-order reaction. Below 60 °C it is zero.
//
//	k1 = 7.9e11 · exp(−11858/T)    k1 in 1/min, T in K
//
// Neither pH (4.8 to 6.0) nor sugar nor calcium changed the rate.
//
//   - Source: malowicki2005, abstract, k1; the unit 1/min follows from the half-life of 55 min at 100 °C.
//   - Valid: 90–130 °C measured in water of pH 5.2; 80–90 °C supported by jaskula2008; 60–80 °C extrapolated.
//   - Check: activation energy 98.6 kJ/mol of the same abstract; 0.0124903/min at 100 °C.
//   - Tag: verified
func IsoRate(t quantity.Temperature) quantity.Rate {
	return quantity.Rate(Published.iso(t))
}

// DegradationRate returns the rate at which iso-alpha acids break down at
// temperature t, a first-order reaction.
//
//	k2 = 4.1e12 · exp(−12994/T)
//
// Units: k2 in 1/min, T in K.
//
//   - Source: malowicki2005, abstract, k2.
//   - Valid: 90–130 °C measured in water of pH 5.2; below that extrapolated.
//   - Check: activation energy 108.0 kJ/mol of the same abstract; kappler2010 lost more than 20 % in 90 min of boiling, the formula 24.3 %.
//   - Tag: verified
func DegradationRate(t quantity.Temperature) quantity.Rate {
	return quantity.Rate(Published.broken.at(t))
}

// IsoRateValid is the range in which [IsoRate] was measured.
var IsoRateValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(90), High: quantity.Celsius(130)}

// IsoRateSupported is the range in which [IsoRate] was measured or its form
// was confirmed by other work. Between 60 °C and its low end it is extrapolated.
var IsoRateSupported = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(80), High: quantity.Celsius(130)}

// A State is what became of the alpha acids of a dose of hops: alpha acids
// and iso-alpha acids in the kettle, as mass per mass of alpha acids dosed.
// Masses are followed, not concentrations, so that evaporation doesn't matter.
type State struct{ Alpha, Iso float64 }

// Fresh is the state of hops just dosed.
var Fresh = State{Alpha: 1}

// Hold returns the state that s becomes in time d at constant temperature t.
//
//	A = A0·e^(−k1·t)
//	I = I0·e^(−k2·t) + A0·k1/(k2−k1)·(e^(−k1·t) − e^(−k2·t))
//
// Units: A, I per mass of alpha dosed; t in min; k1, k2 in 1/min.
//
//   - Source: malowicki2005, abstract; the integral of two first-order steps in a row.
//   - Valid: as [IsoRate].
//   - Check: 60 min at 100 °C: A 0.4726, I 0.4759.
//   - Tag: derived
func Hold(s State, t quantity.Temperature, d quantity.Duration) State {
	k1, k2 := float64(IsoRate(t)), float64(DegradationRate(t))
	return transferOf(k1*d.Minutes(), k2*d.Minutes()).apply(s)
}

// Peak returns how long fresh hops must be held at constant temperature t to
// give the most iso-alpha acids, and how much that is.
//
//	tmax = ln(k1/k2)/(k1−k2)    Imax = (k1/k2)^(k2/(k2−k1))
//
// Units: tmax in min.
//
//   - Source: derived, from malowicki2005: where dI/dt = k1·A − k2·I is zero.
//   - Valid: as [IsoRate].
//   - Check: 148.6 min and 0.6320 at 100 °C.
//   - Tag: derived
func Peak(t quantity.Temperature) (after quantity.Duration, iso float64) {
	k1, k2 := float64(IsoRate(t)), float64(DegradationRate(t))
	return quantity.Duration(math.Log(k1/k2) / (k1 - k2)), math.Pow(k1/k2, k2/(k2-k1))
}

// HalfLife returns the time in which a first-order reaction of rate k halves
// what it consumes.
//
//	t½ = ln 2 / k
//
// Units: t½ in min, k in 1/min.
//
//   - Source: derived, from the definition of a first-order reaction.
//   - Valid: k above zero.
//   - Check: 55.5 min for alpha acids at 100 °C.
//   - Tag: derived
func HalfLife(k quantity.Rate) quantity.Duration {
	return quantity.Duration(math.Ln2 / float64(k))
}
