// SPDX-License-Identifier: MIT

package gravity

import "gyle/quantity"

// TrueSG is a ratio of true densities (in vacuum), 20/20 °C unless said. It
// lies up to 0.0001 below the apparent [quantity.SG] of the same wort.
type TrueSG float64

const (
	waterDensity20 = 998.2012 // kg/m³ at 20 °C
	waterDensity4  = 999.972  // kg/m³ at 4 °C, the greatest
	airDensity     = 1.2      // kg/m³, of the air in which one weighs
	brassDensity   = 8400     // kg/m³, of the weights
)

// reference is the temperature to which volumes and gravities are referred.
var reference = quantity.Celsius(20)

// WaterValid is the range of [WaterDensity].
var WaterValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(100)}

// WaterDensity returns the density of pure water in kg/m³.
//
//	ρw = (999.83952 + 16.952577·t − 7.9905127e-3·t² − 46.241757e-6·t³
//	     + 105.84601e-9·t⁴ − 281.03006e-12·t⁵) / (1 + 16.887236e-3·t)
//
// Units: ρw in kg/m³, t in °C, at 1 atm. Kell's own print has 16.945176,
// −7.9870401e-3, −46.170461e-6, 105.56302e-9, −280.54253e-12 and 16.879850e-3
// (from memory), for the temperature scale of 1968; the constants here belong
// to that of 1990, on which water boils at 99.974 °C.
//
//   - Source: kell1975, equation for air-free water, constants on the scale of 1990.
//   - Valid: 0 to 100 °C.
//   - Check: 999.972 kg/m³ at 4 °C, 998.203 at 20 °C, 958.345 at 100 °C; those of
//     1968 within 0.02 up to 100 °C; 958.365 at 99.974 °C by iapws1992.
//   - Tag: second-hand
func WaterDensity(t quantity.Temperature) float64 {
	c := t.Celsius()
	return horner(c, 999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12) /
		(1 + 16.887236e-3*c)
}

// SucroseValid is the range of temperature of [SucroseDensity].
var SucroseValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(80)}

// icumsa holds the coefficients of SucroseDensity: a row for each power of
// (t − 20)/100, in each row the powers 1, 2, … of P/100.
var icumsa = [][]float64{
	{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
	{-46.2720, -7.1720, 1.1597, 5.1126, 17.5254},
	{59.7712, 7.2491, 12.3630, -35.4791},
	{-47.2207, -21.6977, 27.6301},
	{18.3184, 12.3081},
}

// SucroseDensity returns the density in kg/m³ of a sucrose solution, which
// stands for wort of the same extract.
//
//	ρ = ρw(t) + Σᵢ uⁱ·Σₖ c[i][k]·xᵏ    i = 0…4, k = 1…6
//	ρ in kg/m³, x = P/100, u = (t − 20)/100, t in °C
//
// The coefficients c are those of the table icumsa in the source.
//
//   - Source: icumsasps4, polynomial of Emmerich and the PTB.
//   - Valid: 0 to 70 % by mass, 0 to 80 °C.
//   - Check: 1046.44 kg/m³ for 12 °P at 20 °C; pounds per gallon of chen1992
//     within 0.12 kg/m³.
//   - Tag: second-hand
func SucroseDensity(p quantity.Plato, t quantity.Temperature) float64 {
	x := float64(p) / 100
	u := (t.Celsius() - 20) / 100
	excess := 0.0
	for i := len(icumsa) - 1; i >= 0; i-- {
		excess = excess*u + x*horner(x, icumsa[i]...)
	}
	return WaterDensity(t) + excess
}

// TrueSGAt returns the true gravity of a wort of p at t against water at t:
// 20/20 °C for 20 °C, 60/60 °F for 60 °F.
//
//	SG = ρ(P,t)/ρw(t)
//
// Units: densities in kg/m³.
//
//   - Source: icumsasps4, with the water of kell1975.
//   - Valid: 0 to 70 °P, 0 to 80 °C.
//   - Check: 12 °P is 1.04833 at 20/20 °C and 1.04855 at 60/60 °F.
//   - Tag: computed
func TrueSGAt(p quantity.Plato, t quantity.Temperature) TrueSG {
	return TrueSG(SucroseDensity(p, t) / WaterDensity(t))
}

// TrueSGFromPlatoHackbarth returns the true gravity 20/20 °C of sucrose by
// Hackbarth's polynomial of the table AOAC 942.33. These are the figures
// printed in many "Plato tables"; do not mix them with [SGFromPlato].
//
//	S = 1 + 0.3875135555·b + 0.09702881653·b² + 0.3883357480·b³ − 1.782845295·b⁴
//	    + 5.591472292·b⁵ − 11.00667976·b⁶ + 13.62230734·b⁷ − 10.33082001·b⁸
//	    + 4.387787019·b⁹ − 0.7995558730·b¹⁰
//
// Units: b = P/100, P in °P.
//
//   - Source: hackbarth2011, polynomial of AOAC 942.33.
//   - Valid: 0 to 95 % by mass.
//   - Check: 12 °P gives 1.04831; exactly 1 at 0.
//   - Tag: second-hand
func TrueSGFromPlatoHackbarth(p quantity.Plato) TrueSG {
	return TrueSG(horner(float64(p)/100, 1, 0.3875135555, 0.09702881653, 0.3883357480, -1.782845295,
		5.591472292, -11.00667976, 13.62230734, -10.33082001, 4.387787019, -0.7995558730))
}

// SG20over4 returns the gravity of a wort at 20 °C against water at 4 °C.
//
//	SG 20/4 = SG 20/20 · ρw(20)/ρw(4) = SG 20/20 · 0.998229
//
// Units: true gravities.
//
//   - Source: derived, from the densities of water at 20 and 4 °C.
//   - Valid: any.
//   - Check: factor 0.998229.
//   - Tag: computed
func SG20over4(s TrueSG) float64 {
	return float64(s) * waterDensity20 / waterDensity4
}

// Apparent returns the gravity in air of a liquid whose true gravity is s.
//
//	S = (s·998.2012 − 1.2)/(998.2012 − 1.2)
//
// Units: densities in kg/m³, air 1.2.
//
//   - Source: derived, weighing in air of 1.2 kg/m³.
//   - Valid: any.
//   - Check: 12 °P: 1.04831 true, 1.04837 apparent.
//   - Tag: derived
func (s TrueSG) Apparent() quantity.SG {
	return quantity.SG((float64(s)*waterDensity20 - airDensity) / (waterDensity20 - airDensity))
}

// TrueSGOf returns the true gravity of a liquid whose gravity in air is s.
//
//	s = (S·(998.2012 − 1.2) + 1.2)/998.2012
//
// Units: densities in kg/m³, air 1.2.
//
//   - Source: derived, weighing in air of 1.2 kg/m³.
//   - Valid: any.
//   - Check: there and back within 1e-12.
//   - Tag: derived
func TrueSGOf(s quantity.SG) TrueSG {
	return TrueSG((float64(s)*(waterDensity20-airDensity) + airDensity) / waterDensity20)
}

// DensityFromWeight returns the true density in kg/m³ of a liquid of which a
// volume v weighs m in air against brass weights.
//
//	ρ = m/V·(1 − 1.2/8400) + 1.2
//
// Units: ρ in kg/m³, m in kg, V in m³.
//
//   - Source: derived, buoyancy of the liquid and of the weights.
//   - Valid: any.
//   - Check: 8.322 lb per US gallon of water at 20 °C gives 998.25 kg/m³.
//   - Tag: derived
func DensityFromWeight(m quantity.Mass, v quantity.Volume) float64 {
	return m.Kilograms()/(v.Litres()/1000)*(1-airDensity/brassDensity) + airDensity
}

// horner returns c[0] + c[1]·x + c[2]·x² + …
func horner(x float64, c ...float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}
