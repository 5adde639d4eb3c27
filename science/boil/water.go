// SPDX-License-Identifier: MIT

package boil

import (
	"math"

	"gyle/quantity"
)

// pascalsPerBar is exact by definition.
const pascalsPerBar = 1e5

// Atmosphere is the standard pressure, exact by definition.
const Atmosphere = quantity.Pressure(101325 / pascalsPerBar)

// The critical point of water, as used by the equations of iapws1992.
const (
	criticalKelvin  = 647.096
	criticalPascals = 22.064e6
	criticalDensity = 322.0 // kg/m³
)

// StationPressure returns the mean pressure of the air at an altitude. Prefer
// a barometer on the spot; the figure in a weather report is reduced to sea
// level and won't do.
//
//	p = 101325·(1 − 2.25577e−5·h)^5.25588
//
// Units: p in Pa, h in m.
//
//   - Source: iso2533, standard atmosphere.
//   - Valid: 0–11 000 m; the weather moves it by ±3 %.
//   - Check: 79 495 Pa at 2000 m.
//   - Tag: from memory
func StationPressure(altitude quantity.Length) quantity.Pressure {
	return Atmosphere * quantity.Pressure(math.Pow(1-2.25577e-5*float64(altitude), 5.25588))
}

// pressureTerms returns the sum in the logarithm of the saturation pressure,
// and its derivative by tau.
func pressureTerms(tau float64) (sum, slope float64) {
	for _, term := range []struct{ a, n float64 }{
		{-7.85951783, 1}, {1.84408259, 1.5}, {-11.7866497, 3},
		{22.6807411, 3.5}, {-15.9618719, 4}, {1.80122502, 7.5},
	} {
		sum += term.a * math.Pow(tau, term.n)
		slope += term.a * term.n * math.Pow(tau, term.n-1)
	}
	return sum, slope
}

// SaturationPressure returns the pressure at which water boils at
// temperature t.
//
//	ln(p/22.064e6) = Tc/T · (a1·τ + a2·τ^1.5 + a3·τ³ + a4·τ^3.5 + a5·τ⁴ + a6·τ^7.5)
//	τ = 1 − T/Tc, Tc = 647.096 K
//	a = −7.85951783, 1.84408259, −11.7866497, 22.6807411, −15.9618719, 1.80122502
//
// Units: p in Pa, T in K.
//
//   - Source: iapws1992, equation for the vapour pressure.
//   - Valid: 273.16–647.096 K.
//   - Check: the release's 611.657 Pa at 273.16 K and 101 325 Pa at 373.1243 K.
//   - Tag: from memory
func SaturationPressure(t quantity.Temperature) quantity.Pressure {
	sum, _ := pressureTerms(1 - t.Kelvin()/criticalKelvin)
	return quantity.Pressure(criticalPascals * math.Exp(criticalKelvin/t.Kelvin()*sum) / pascalsPerBar)
}

// saturationSlope returns dp/dT of [SaturationPressure] in Pa/K.
func saturationSlope(t quantity.Temperature) float64 {
	sum, slope := pressureTerms(1 - t.Kelvin()/criticalKelvin)
	pascals := float64(SaturationPressure(t)) * pascalsPerBar
	return -pascals / t.Kelvin() * (criticalKelvin/t.Kelvin()*sum + slope)
}

// SaturationTemperature returns the temperature at which water boils under
// the pressure p.
//
//	b = p^0.25    E = b² + n3·b + n6    F = n1·b² + n4·b + n7    G = n2·b² + n5·b + n8
//	D = 2G/(−F − √(F² − 4EG))    T = (n10 + D − √((n10 + D)² − 4(n9 + n10·D)))/2
//
// Units: p in MPa, T in K; n1 to n10 as in the release.
//
//   - Source: iapws97, region 4, backward equation.
//   - Valid: 611.213 Pa to 22.064 MPa.
//   - Check: the release's 372.755919 K at 0.1 MPa and 584.149488 K at 10 MPa.
//   - Tag: from memory
func SaturationTemperature(p quantity.Pressure) quantity.Temperature {
	const (
		n1, n2, n3, n4 = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5
		n5, n6, n7     = -0.32325550322333e7, 0.14915108613530e2, -0.48232657361591e4
		n8, n9, n10    = 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3
	)
	b := math.Pow(float64(p)/10, 0.25) // 10 bar are 1 MPa
	e := b*b + n3*b + n6
	f := n1*b*b + n4*b + n7
	g := n2*b*b + n5*b + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return quantity.Kelvin((n10 + d - math.Sqrt((n10+d)*(n10+d)-4*(n9+n10*d))) / 2)
}

// SaturationTemperatureAntoine is the short form of [SaturationTemperature].
//
//	log10 p = 8.07131 − 1730.63/(233.426 + T)
//
// Units: p in mmHg, T in °C.
//
//   - Source: practice, constants in common use.
//   - Valid: 60–100 °C; 0.06 K too high at 3000 m.
//   - Check: against [SaturationTemperature].
//   - Tag: from memory
func SaturationTemperatureAntoine(p quantity.Pressure) quantity.Temperature {
	mmHg := float64(p/Atmosphere) * 760
	return quantity.Celsius(1730.63/(8.07131-math.Log10(mmHg)) - 233.426)
}

// SaturatedWaterDensity returns the density of boiling water at temperature t
// in kg/m³. For cold water of the laboratory use science/gravity.
//
//	ρ = 322·(1 + b1·τ^⅓ + b2·τ^⅔ + b3·τ^(5/3) + b4·τ^(16/3) + b5·τ^(43/3) + b6·τ^(110/3))
//	τ = 1 − T/647.096
//	b = 1.99274064, 1.09965342, −0.510839303, −1.75493479, −45.5170352, −6.74694450e5
//
// Units: ρ in kg/m³, T in K.
//
//   - Source: iapws1992, equation for the saturated liquid.
//   - Valid: 273.16–647.096 K.
//   - Check: the release's 999.789 at 273.16 K and 958.365 kg/m³ at 373.1243 K.
//   - Tag: from memory
func SaturatedWaterDensity(t quantity.Temperature) float64 {
	tau := 1 - t.Kelvin()/criticalKelvin
	sum := 1.0
	for _, term := range []struct{ b, n float64 }{
		{1.99274064, 1. / 3}, {1.09965342, 2. / 3}, {-0.510839303, 5. / 3},
		{-1.75493479, 16. / 3}, {-45.5170352, 43. / 3}, {-6.74694450e5, 110. / 3},
	} {
		sum += term.b * math.Pow(tau, term.n)
	}
	return criticalDensity * sum
}

// SaturatedSteamDensity returns the density of steam over boiling water at
// temperature t in kg/m³.
//
//	ln(ρ/322) = c1·τ^⅓ + c2·τ^⅔ + c3·τ^(4/3) + c4·τ³ + c5·τ^(37/6) + c6·τ^(71/6)
//	τ = 1 − T/647.096
//	c = −2.03150240, −2.68302940, −5.38626492, −17.2991605, −44.7586581, −63.9201063
//
// Units: ρ in kg/m³, T in K.
//
//   - Source: iapws1992, equation for the saturated vapour.
//   - Valid: 273.16–647.096 K.
//   - Check: the release's 0.00485426 at 273.16 K and 0.597586 kg/m³ at 373.1243 K.
//   - Tag: from memory
func SaturatedSteamDensity(t quantity.Temperature) float64 {
	tau := 1 - t.Kelvin()/criticalKelvin
	sum := 0.0
	for _, term := range []struct{ c, n float64 }{
		{-2.03150240, 2. / 6}, {-2.68302940, 4. / 6}, {-5.38626492, 8. / 6},
		{-17.2991605, 18. / 6}, {-44.7586581, 37. / 6}, {-63.9201063, 71. / 6},
	} {
		sum += term.c * math.Pow(tau, term.n)
	}
	return criticalDensity * math.Exp(sum)
}

// LatentHeat returns the heat that turns a kilogram of boiling water into
// steam at temperature t, in kJ/kg.
//
//	h = T·(1/ρ'' − 1/ρ')·dp/dT
//
// Units: h in J/kg, T in K, ρ in kg/m³, p in Pa.
//
//   - Source: iapws1992, by the equation of Clausius and Clapeyron.
//   - Valid: 273.16–647 K.
//   - Check: 2256.6 kJ/kg at 100 °C.
//   - Tag: computed
func LatentHeat(t quantity.Temperature) float64 {
	expansion := 1/SaturatedSteamDensity(t) - 1/SaturatedWaterDensity(t)
	return t.Kelvin() * expansion * saturationSlope(t) / 1000
}

// LatentHeatLinear is the short form of [LatentHeat].
//
//	h = 2510.8 − 2.540·T
//
// Units: h in kJ/kg, T in °C.
//
//   - Source: derived, a line through [LatentHeat].
//   - Valid: 60–105 °C, within 1.5 kJ/kg.
//   - Check: against [LatentHeat].
//   - Tag: computed
func LatentHeatLinear(t quantity.Temperature) float64 { return 2510.8 - 2.540*t.Celsius() }

// Contraction returns the volume at 20 °C of liquid that fills a litre at
// temperature t. Water's ratio is taken for wort.
//
//	V20/V = ρ(T)/ρ(20 °C)
//
// Units: ρ in kg/m³; the ratio has none.
//
//   - Source: iapws1992, equation for the saturated liquid.
//   - Valid: 0–105 °C; for wort up to 20 °P within 0.3 %.
//   - Check: 0.96012 from 100 °C.
//   - Tag: computed
func Contraction(t quantity.Temperature) float64 {
	return SaturatedWaterDensity(t) / SaturatedWaterDensity(quantity.Celsius(20))
}
