// SPDX-License-Identifier: MIT

package water

import (
	"math"

	"gyle/quantity"
)

// CarbonateValid is the range in which the constants of the carbonate system
// were fitted.
var CarbonateValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(90)}

// fivefold is the common shape of the fits: a + bT + c/T + d log T + e/T².
func fivefold(t quantity.Temperature, a, b, c, d, e float64) float64 {
	k := t.Kelvin()
	return a + b*k + c/k + d*math.Log10(k) + e/(k*k)
}

// PK1 returns the negative logarithm of the first acidity constant of carbonic
// acid, dissolved carbon dioxide included.
//
//	log K1 = −356.3094 − 0.06091964·T + 21834.37/T + 126.8339·log T − 1684915/T²    T in K, K1 in mol/kg
//
// How it is known:
//   - Source: plummer1982, as copied in independent codes that agree.
//   - Valid: 0 to 90 °C, infinite dilution; see [CarbonateValid].
//   - Check: 6.3819 at 20 °C, 6.3519 at 25 °C (computed).
//   - Tag: second-hand
func PK1(t quantity.Temperature) float64 {
	return -fivefold(t, -356.3094, -0.06091964, 21834.37, 126.8339, -1684915)
}

// PK2 returns the negative logarithm of the second acidity constant of carbonic acid.
//
//	log K2 = −107.8871 − 0.03252849·T + 5151.79/T + 38.92561·log T − 563713.9/T²    T in K, K2 in mol/kg
//
// How it is known:
//   - Source: plummer1982, as copied in independent codes that agree.
//   - Valid: 0 to 90 °C, infinite dilution.
//   - Check: 10.3756 at 20 °C, 10.3289 at 25 °C (computed).
//   - Tag: second-hand
func PK2(t quantity.Temperature) float64 {
	return -fivefold(t, -107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
}

// PKHenry returns the negative logarithm of Henry's constant of carbon dioxide.
//
//	log KH = 108.3865 + 0.01985076·T − 6919.53/T − 40.45154·log T + 669365/T²    T in K, KH in mol/(kg atm)
//
// How it is known:
//   - Source: plummer1982, as copied in independent codes that agree.
//   - Valid: 0 to 90 °C, water.
//   - Check: 1.4069 at 20 °C, 1.4679 at 25 °C (computed).
//   - Tag: second-hand
func PKHenry(t quantity.Temperature) float64 {
	return -fivefold(t, 108.3865, 0.01985076, -6919.53, -40.45154, 669365)
}

// PKCalcite returns the negative logarithm of the solubility product of calcite.
//
//	log K = −171.9065 − 0.077993·T + 2839.319/T + 71.595·log T    T in K, K in mol²/kg²
//
// How it is known:
//   - Source: plummer1982, as copied in independent codes that agree.
//   - Valid: 0 to 90 °C.
//   - Check: 8.4533 at 20 °C, 8.4798 at 25 °C (computed).
//   - Tag: second-hand
func PKCalcite(t quantity.Temperature) float64 {
	return -fivefold(t, -171.9065, -0.077993, 2839.319, 71.595, 0)
}

// PKWater returns the negative logarithm of the ion product of water.
//
//	log Kw = −283.971 − 0.05069842·T + 13323/T + 102.24447·log T − 1119669/T²    T in K, Kw in mol²/kg²
//
// How it is known:
//   - Source: nordstrom1990, as copied in geochemistry codes.
//   - Valid: 0 to 90 °C.
//   - Check: 14.1682 at 20 °C, 13.9995 at 25 °C (computed).
//   - Tag: second-hand
func PKWater(t quantity.Temperature) float64 {
	return -fivefold(t, -283.971, -0.05069842, 13323, 102.24447, -1119669)
}

// DebyeHuckel returns the constant A of the activity formulas for water.
//
//	A = 1.82483·10⁶ · (ε·T)^−1.5    T in K
//	ε = 87.74 − 0.4008·t + 9.398·10⁻⁴·t² − 1.41·10⁻⁶·t³    t in °C
//
// How it is known:
//   - Source: malmberg1956 (ε), as copied in a drinking-water code.
//   - Valid: 0 to 100 °C.
//   - Check: 0.5073 at 20 °C, 0.5117 at 25 °C (computed).
//   - Tag: second-hand
func DebyeHuckel(t quantity.Temperature) float64 {
	c := t.Celsius()
	permittivity := 87.74 - 0.4008*c + 9.398e-4*c*c - 1.41e-6*c*c*c
	return 1.82483e6 * math.Pow(permittivity*t.Kelvin(), -1.5)
}

// Activity returns the activity coefficient of an ion after Davies.
//
//	log γ = −A·z²·(√I/(1 + √I) − 0.3·I)    I in mol/L, z charge number
//
// How it is known:
//   - Source: malmberg1956 for A; the Davies equation as copied beside it.
//   - Valid: I up to 0.1 mol/L, far above any brewing liquor.
//   - Check: I 0.01 mol/L, 20 °C, z 1: 0.9024 (computed).
//   - Tag: second-hand
func Activity(t quantity.Temperature, ionicStrength float64, valence int) float64 {
	root := math.Sqrt(ionicStrength)
	z := float64(valence)
	return math.Pow(10, -DebyeHuckel(t)*z*z*(root/(1+root)-0.3*ionicStrength))
}

// IonicStrength estimates the ionic strength from the dissolved solids.
//
//	I = 2.5·10⁻⁵ · TDS    TDS in mg/L, I in mol/L
//
// How it is known:
//   - Source: practice, as read in a drinking-water code.
//   - Valid: ordinary drinking water.
//   - Check: 400 mg/L gives 0.01 mol/L.
//   - Tag: second-hand
func IonicStrength(solids quantity.Concentration) float64 { return 2.5e-5 * float64(solids) }

// IonicStrengthFromConductivity estimates the ionic strength from the
// electrical conductivity.
//
//	I = 1.6·10⁻⁵ · EC    EC in µS/cm, I in mol/L
//
// How it is known:
//   - Source: practice, as read in a drinking-water code.
//   - Valid: ordinary drinking water.
//   - Check: 625 µS/cm gives 0.01 mol/L, as 400 mg/L do.
//   - Tag: second-hand
func IonicStrengthFromConductivity(microsiemens float64) float64 { return 1.6e-5 * microsiemens }

// carbonates are the constants of one water at one temperature, as plain
// numbers in mol/L.
type carbonates struct{ k1, k2, pkw float64 }

// carbonatesAt returns the constants. An ionic strength above zero turns them
// into constants between activities of H and concentrations of carbonate:
// K1' = K1/γ1, K2' = K2·γ1/γ2.
func carbonatesAt(t quantity.Temperature, ionicStrength float64) carbonates {
	c := carbonates{math.Pow(10, -PK1(t)), math.Pow(10, -PK2(t)), PKWater(t)}
	if ionicStrength > 0 {
		g1, g2 := Activity(t, ionicStrength, 1), Activity(t, ionicStrength, 2)
		c.k1 /= g1
		c.k2 *= g1 / g2
	}
	return c
}

// charge is g(pH), the mean number of negative charges of a carbonate.
func (c carbonates) charge(ph quantity.PH) float64 {
	h := math.Pow(10, -float64(ph))
	return (c.k1*h + 2*c.k1*c.k2) / (h*h + c.k1*h + c.k1*c.k2)
}

// gas is the share of the carbonate that is carbonic acid and dissolved CO2.
func (c carbonates) gas(ph quantity.PH) float64 {
	h := math.Pow(10, -float64(ph))
	return h * h / (h*h + c.k1*h + c.k1*c.k2)
}

// water is w(pH), hydroxide less hydrogen ions, in mEq/L.
func (c carbonates) water(ph quantity.PH) float64 {
	return 1000 * (math.Pow(10, float64(ph)-c.pkw) - math.Pow(10, -float64(ph)))
}

// CarbonateCharge returns the mean negative charge of a dissolved carbonate.
//
//	g = (K1·h + 2·K1·K2)/(h² + K1·h + K1·K2)    h = 10^−pH in mol/L
//
// How it is known:
//   - Source: derived, mass action; constants from [PK1] and [PK2].
//   - Valid: 0 to 90 °C.
//   - Check: 20 °C, pH 5.4: 0.0944; pH 7.8: 0.9659 (computed).
//   - Tag: derived
func CarbonateCharge(ph quantity.PH, t quantity.Temperature) float64 {
	return carbonatesAt(t, 0).charge(ph)
}
