// SPDX-License-Identifier: MIT

package gravity

import (
	"math"

	"gyle/quantity"
)

// indexOfWater is the refractive index of water at 20 °C and 589.3 nm.
const indexOfWater = 1.332986

// RefractometerValid is the range of [RefractiveIndex].
var RefractometerValid = quantity.Span[quantity.Plato]{Low: 0, High: 30}

// RefractiveIndex returns the index of a sucrose solution at 20 °C and 589.3 nm.
//
//	n = 1.332986 + 1.42926e-3·P + 5.3026e-6·P² + 1.9160e-8·P³
//
// Units: P in % by mass (°Bx).
//
//   - Source: icumsasps3, fitted to the rows printed in oivas202 and in a French
//     decree; the index of water from memory.
//   - Valid: 0 to 30 %.
//   - Check: within 8e-6 of five printed rows, 10 to 25 %.
//   - Tag: derived
func RefractiveIndex(p quantity.Plato) float64 {
	return horner(float64(p), indexOfWater, 1.42926e-3, 5.3026e-6, 1.9160e-8)
}

// BrixFromIndex returns the sucrose of a refractive index: the inverse of
// [RefractiveIndex].
//
//	n(P) = n, solved by Newton's method from P = (n − 1.332986)/1.5e-3
//
// Units: n at 20 °C and 589.3 nm, P in % by mass (°Bx).
//
//   - Source: icumsasps3, fitted to the rows printed in oivas202.
//   - Valid: 0 to 30 %.
//   - Check: there and back within 1e-9.
//   - Tag: computed
func BrixFromIndex(n float64) quantity.Plato {
	p := (n - indexOfWater) / 1.5e-3
	for range 20 {
		slope := horner(p, 1.42926e-3, 2*5.3026e-6, 3*1.9160e-8)
		step := (RefractiveIndex(quantity.Plato(p)) - n) / slope
		p -= step
		if math.Abs(step) < 1e-12 {
			break
		}
	}
	return quantity.Plato(p)
}

// BrixFromIndexQuintic returns the sucrose of a refractive index by a quintic
// that is often quoted. It is 0.019 °Bx low at every printed row; prefer
// [BrixFromIndex].
//
//	Bx = ((((11758.74·n − 88885.21)·n + 270177.93)·n − 413145.80)·n + 318417.95)·n − 99127.4536
//
// Units: n at 20 °C and 589.3 nm, Bx in % by mass.
//
//   - Source: practice, quoted widely without author.
//   - Valid: 0 to 30 %.
//   - Check: 0.019 °Bx below the rows of oivas202.
//   - Tag: second-hand
func BrixFromIndexQuintic(n float64) quantity.Plato {
	return quantity.Plato(horner(n, -99127.4536, 318417.95, -413145.80, 270177.93, -88885.21, 11758.74))
}

// RefractometerTemperatureValid is the range of the table behind [BrixAt20].
var RefractometerTemperatureValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(10), High: quantity.Celsius(20)}

// BrixAt20 returns the reading of a refractometer without temperature
// compensation, corrected to 20 °C.
//
//	Bx20 = Bx + (0.067 + 0.0002·Bx)·τ + (0.0014 − 0.00004·Bx)·τ²
//
// Units: Bx in °Bx, τ = t − 20 °C in K.
//
//   - Source: oivas202, table I; the polynomial is fitted to its rows at 10 and 20 %.
//   - Valid: 10 to 20 °C; warmer is extrapolation.
//   - Check: rows of table I within 0.006 °Bx.
//   - Tag: derived
func BrixAt20(read quantity.Plato, t quantity.Temperature) quantity.Plato {
	warmer, bx := t.Celsius()-20, float64(read)
	return read + quantity.Plato(horner(warmer, 0, 0.067+0.0002*bx, 0.0014-0.00004*bx))
}

// DefaultWortFactor is the usual ratio of a refractometer's reading of wort to
// its extract; 1.02 to 1.06 is found (common practice).
const DefaultWortFactor = 1.04

// PlatoFromBrix returns the extract of unfermented wort from a refractometer.
//
//	P = Bx/f
//
// Units: P in °P, Bx in °Bx; f belongs to the instrument and the wort.
//
//   - Source: practice, wort correction factor.
//   - Valid: unfermented wort.
//   - Check: 12.48 °Bx with a factor of 1.04 are 12 °P.
//   - Tag: common practice
func PlatoFromBrix(read quantity.Plato, factor float64) quantity.Plato {
	return read / quantity.Plato(factor)
}

// Reading is the same wort by refractometer and by hydrometer.
type Reading struct{ Brix, Extract quantity.Plato }

// WortFactor returns the factor of one's refractometer from paired readings.
//
//	f = Σ Bx²/Σ Bx·P
//
// Units: Bx in °Bx, P in °P.
//
//   - Source: derived, regression of P on Bx through the origin.
//   - Valid: at least one pair; more are better.
//   - Check: pairs made with a factor give that factor.
//   - Tag: derived
func WortFactor(readings []Reading) float64 {
	var squares, products float64
	for _, r := range readings {
		squares += float64(r.Brix * r.Brix)
		products += float64(r.Brix * r.Extract)
	}
	return squares / products
}
