// SPDX-License-Identifier: MIT

package carbonation

import (
	"math"

	"gyle/quantity"
)

// SeaLevel is the standard atmosphere.
const SeaLevel quantity.Pressure = 1.01325

const (
	psiPerBar    = 14.5037738 // by definition of the pound-force
	barPerAtm    = 1.01325    // exact
	co2MolarMass = 44.0095    // g/mol, from standard atomic weights
)

// AirPressure returns the usual pressure of the air at an altitude.
//
//	p = 1.01325·(1 − 2.25577e-5·h)^5.25588
//
// Units: p in bar, h in m.
//
//   - Source: iso2533, troposphere, from memory.
//   - Valid: −500 to 11 000 m; weather moves it by 3 %.
//   - Check: 500 m 0.9546 bar, 1500 m 0.8456 bar.
//   - Tag: from memory
func AirPressure(altitude quantity.Length) quantity.Pressure {
	return SeaLevel * quantity.Pressure(math.Pow(1-2.25577e-5*float64(altitude), 5.25588))
}

// Absolute returns the absolute pressure of what a gauge shows.
func Absolute(gauge quantity.GaugePressure, air quantity.Pressure) quantity.Pressure {
	return quantity.Pressure(gauge) + air
}

// Gauge returns what a gauge shows at an absolute pressure.
func Gauge(absolute, air quantity.Pressure) quantity.GaugePressure {
	return quantity.GaugePressure(absolute - air)
}

// DeLangeValid is the range of temperatures of [VolumesDeLange]: 32 to 80 °F.
var DeLangeValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Fahrenheit(80)}

// deLangeSlope returns the volumes per psi of absolute pressure.
func deLangeSlope(t quantity.Temperature) float64 {
	return 0.01821 + 0.090115*math.Exp(-(t.Fahrenheit()-32)/43.11)
}

const deLangeOffset = 0.003342 // volumes

// VolumesDeLange returns the CO2 in beer in equilibrium with the gas above it:
// a fit to the table of the ASBC, and the default of the program. Where that
// table comes from is unknown; reckoned back it is for a beer of 4.22 % of
// alcohol by mass and 5.78 °P of real extract (speers2013, abstract).
//
//	C = p·(0.01821 + 0.090115·exp(−(F − 32)/43.11)) − 0.003342
//
// Units: C in volumes, p absolute in psi, F in °F.
//
//   - Source: delange2009, fit to ASBC Beer-13; coefficients from memory.
//   - Valid: 0 to 27 °C, beer of about 4.2 % alcohol by mass; less gas dissolves the more extract there is.
//   - Check: rows of an archived table within 0.03 volumes; 20 °C and 1 bar gauge
//     give 1.670.
//   - Tag: from memory
func VolumesDeLange(p quantity.Pressure, t quantity.Temperature) quantity.Carbonation {
	return quantity.Carbonation(float64(p)*psiPerBar*deLangeSlope(t) - deLangeOffset)
}

// PressureDeLange returns the absolute pressure that holds a carbonation in
// beer: the inverse of [VolumesDeLange].
//
//	p = (C + 0.003342)/(0.01821 + 0.090115·exp(−(F − 32)/43.11))
//
// Units: p absolute in psi (returned in bar), C in volumes, F in °F.
//
//   - Source: delange2009, fit to ASBC Beer-13; coefficients from memory.
//   - Valid: 0 to 27 °C.
//   - Check: 2.4 volumes at 20 °C want 1.88 bar gauge at sea level.
//   - Tag: from memory
func PressureDeLange(c quantity.Carbonation, t quantity.Temperature) quantity.Pressure {
	return quantity.Pressure((float64(c) + deLangeOffset) / deLangeSlope(t) / psiPerBar)
}

// HenryValid is the range of temperatures [VolumesHenry] is compared over here.
var HenryValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(40)}

// henrySlope returns the g/L of CO2 per bar of absolute pressure.
func henrySlope(t quantity.Temperature) float64 {
	return 10 * math.Exp(-10.73797+2617.25/t.Kelvin())
}

// VolumesHenry returns the CO2 in beer in equilibrium with the gas above it, by
// the exponential form of Central-European practice. It lies within 2 % of
// [VolumesDeLange] up to 25 °C and 8 % below it at 40 °C.
//
//	c = 10·p·exp(−10.73797 + 2617.25/T)
//
// Units: c in g/L, p absolute in bar, T in K.
//
//   - Source: practice, Central-European textbooks, second-hand.
//   - Valid: 0 to 30 °C; at 40 °C it serves as the cautious one for bottles.
//   - Check: 20 °C and 1 bar gauge give 1.666 volumes.
//   - Tag: second-hand
func VolumesHenry(p quantity.Pressure, t quantity.Temperature) quantity.Carbonation {
	return quantity.CarbonationGrams(float64(p) * henrySlope(t))
}

// PressureHenry returns the absolute pressure that holds a carbonation in beer:
// the inverse of [VolumesHenry].
//
//	p = c/(10·exp(−10.73797 + 2617.25/T))
//
// Units: p absolute in bar, c in g/L, T in K.
//
//   - Source: practice, Central-European textbooks, second-hand.
//   - Valid: 0 to 30 °C.
//   - Check: there and back is the same number.
//   - Tag: second-hand
func PressureHenry(c quantity.Carbonation, t quantity.Temperature) quantity.Pressure {
	return quantity.Pressure(c.GramsPerLitre() / henrySlope(t))
}

// PressureForced returns the gauge pressure at sea level that carbonates beer,
// by a polynomial through a table in use for forced carbonation.
//
//	p = −16.6999 − 0.0101059·F + 0.00116512·F² + 0.173354·F·C + 4.24267·C − 0.0684226·C²
//
// Units: p gauge in psi (returned in bar), F in °F, C in volumes.
//
//   - Source: forcedtable, archived brewing text.
//   - Valid: 30 to 60 °F; at 68 °F it is 1.3 psi too low for 2.5 volumes.
//   - Check: 38 °F and 2.5 volumes want 11.2 psi.
//   - Tag: verified
func PressureForced(c quantity.Carbonation, t quantity.Temperature) quantity.GaugePressure {
	f, v := t.Fahrenheit(), float64(c)
	psi := -16.6999 - 0.0101059*f + 0.00116512*f*f + 0.173354*f*v + 4.24267*v - 0.0684226*v*v
	return quantity.GaugePressure(psi / psiPerBar)
}

// ForcedValid is the range of temperatures of [PressureForced].
var ForcedValid = quantity.Span[quantity.Temperature]{Low: quantity.Fahrenheit(30), High: quantity.Fahrenheit(60)}

// SolubilityWeiss returns the solubility of CO2 in pure water, in mol/(kg·atm).
//
//	ln K0 = −58.0931 + 90.5069·(100/T) + 22.2940·ln(T/100)
//
// Units: T in K.
//
//   - Source: weiss1974, constants for zero salinity, second-hand.
//   - Valid: 0 to 40 °C.
//   - Check: 0.07758 at 0 °C, 0.03910 at 20 °C.
//   - Tag: second-hand
func SolubilityWeiss(t quantity.Temperature) float64 {
	hundreds := t.Kelvin() / 100
	return math.Exp(-58.0931 + 90.5069/hundreds + 22.2940*math.Log(hundreds))
}

// VaporPressure returns the pressure of water vapour over pure water.
//
//	ln p = 24.4543 − 67.4509·(100/T) − 4.8489·ln(T/100)
//
// Units: p in atm, T in K.
//
//   - Source: weiss1980, zero salinity, from memory.
//   - Valid: 0 to 40 °C.
//   - Check: 0.0231 atm at 20 °C, the usual table value of 23.4 hPa.
//   - Tag: from memory
func VaporPressure(t quantity.Temperature) quantity.Pressure {
	hundreds := t.Kelvin() / 100
	return quantity.Pressure(barPerAtm * math.Exp(24.4543-67.4509/hundreds-4.8489*math.Log(hundreds)))
}

// VolumesWaterWeiss returns the CO2 in pure water under moist CO2: the
// independent yardstick of the two formulas for beer.
//
//	C = K0·(p − pw)·44.0095/1.977
//
// Units: C in volumes (1 kg of water taken as 1 L), K0 in mol/(kg·atm), p
// absolute and vapour pressure pw in atm, 44.0095 g/mol, 1.977 g/L per volume.
//
//   - Source: weiss1974, solubility; weiss1980, vapour pressure.
//   - Valid: 0 to 40 °C, pure water: beer takes up 1 to 8 % less when cold.
//   - Check: 1.717 volumes at 0 °C, 0.850 at 20 °C, at 0 bar gauge.
//   - Tag: second-hand
func VolumesWaterWeiss(p quantity.Pressure, t quantity.Temperature) quantity.Carbonation {
	dry := float64(p-VaporPressure(t)) / barPerAtm
	return quantity.CarbonationGrams(SolubilityWeiss(t) * dry * co2MolarMass)
}

// PressureFor returns the gauge pressure to set for a carbonation: at the keg,
// or at the relief valve of a closed fermenter. Mind the rating of the vessel.
//
//	p = PressureDeLange(C, t) − air
//
// Units: p gauge in bar, C in volumes, air in bar.
//
//   - Source: delange2009, fit to ASBC Beer-13; coefficients from memory.
//   - Valid: 0 to 27 °C.
//   - Check: at sea level 2.4 volumes: 0.74 bar at 4 °C, 1.88 at 20 °C.
//   - Tag: from memory
func PressureFor(c quantity.Carbonation, t quantity.Temperature, air quantity.Pressure) quantity.GaugePressure {
	return Gauge(PressureDeLange(c, t), air)
}
