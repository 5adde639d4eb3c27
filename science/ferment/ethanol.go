// SPDX-License-Identifier: MIT

package ferment

import (
	"gyle/quantity"
	"gyle/science/gravity"
)

// The coefficients of the international alcoholometric table (OIML R 22),
// in kg/m³. The powers of the mass fraction start at 0 in oimlA and at 1 in
// the others; the powers of t − 20 °C start at 1.
var (
	oimlA = []float64{
		998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
		306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
	}
	oimlB = []float64{
		-2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11,
	}
	oimlC = [][]float64{
		{0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792, 3924.090430035045,
			-12101.64659068747, 22486.46550400788, -26055.62982188164, 18523.73922069467, -7420.201433430137, 1285.617841998974},
		{-0.01193013005057010, 0.2517399633803461, -2.170575700536993, 13.53034988843029, -50.29988758547014,
			109.6355666577570, -142.2753946421155, 108.0435942856230, -44.14153236817392, 7.442971530188783},
		{-6.802995733503803e-4, 1.876837790289664e-2, -0.2002561813734156, 1.022992966719220, -2.895696483903638,
			4.810060584300675, -4.672147440794683, 2.458043105903461, -0.5411227621436812},
		{4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6},
		{-2.788074354782409e-8, 1.345612883493354e-8},
	}
)

// EthanolValid is the range of temperatures of [EthanolDensity].
var EthanolValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(-20), High: quantity.Celsius(40)}

// EthanolDensity returns the density of a mixture of ethanol and water, in
// kg/m³. It is far off for hot liquor: use gravity.WaterDensity there.
//
//	ρ = Σ a[k]·q^k + Σ b[i]·d^i + Σ Σ c[i][k]·q^k·d^i
//
// Units: ρ in kg/m³, q = mass of ethanol / mass of mixture, d = t − 20 °C.
//
//   - Source: oimlr22, general formula, p. 12–13; three copies agree.
//   - Valid: −20 to 40 °C, 0 to 100 %.
//   - Check: 998.2012 for water and 789.2391 for ethanol at 20 °C.
//   - Tag: second-hand
func EthanolDensity(byMass quantity.Fraction, t quantity.Temperature) float64 {
	q, d := float64(byMass), t.Celsius()-20
	density := polynomial(oimlA, q) + d*polynomial(oimlB, d)
	power := 1.0
	for _, row := range oimlC {
		power *= d
		density += power * q * polynomial(row, q)
	}
	return density
}

// polynomial returns c[0] + c[1]·x + c[2]·x² + …
func polynomial(c []float64, x float64) (y float64) {
	for i := len(c) - 1; i >= 0; i-- {
		y = y*x + c[i]
	}
	return y
}

// VolumeFractionOfEthanol turns alcohol by mass into alcohol by volume for pure
// mixtures of ethanol and water (a distillate) at 20 °C.
//
//	ABV = A·ρ(A, 20 °C)/ρ(100 %, 20 °C)
//
// Units: A by mass, ABV by volume, ρ in kg/m³.
//
//   - Source: oimlr22, definition of alcohol by volume.
//   - Valid: 0 to 100 %.
//   - Check: 5 % by mass is 6.2679 % by volume.
//   - Tag: computed
func VolumeFractionOfEthanol(byMass quantity.Fraction) quantity.Fraction {
	at := quantity.Celsius(20)
	return byMass * quantity.Fraction(EthanolDensity(byMass, at)/EthanolDensity(1, at))
}

// AlcoholByMassConsistent returns the alcohol at which the balance of masses
// and Tabarié's relation (gravity.BeerSG) hold at once ("density-consistent"), instead of the
// rule 0.1808/0.8192 for real extract. It is about 1 % lower than Balling's.
//
//	RE(A) = OE·(100 + 1.0665·A)/100 − 2.0665·A
//	SG_ethanol(A) + SG_sucrose(RE(A)) − 1 = FG, solved for A by bisection
//
// Units: A in % by mass, OE and RE in °P, FG the SG of the beer.
//
//   - Source: derived, from balling and mebak.
//   - Valid: ordinary beers, FG between 0.990 and the original gravity;
//     the answer is 0 for a FG above that.
//   - Check: OE 11.912 °P, FG 1.010 give 4.99 % by volume (Balling 5.04).
//   - Tag: derived
func AlcoholByMassConsistent(original quantity.Plato, final quantity.SG) quantity.Fraction {
	oe := float64(original)
	low, high := 0.0, oe/(extractPerAlcohol-lossPerAlcohol*oe/100)
	for high-low > 1e-10 {
		a := (low + high) / 2
		residue := oe*(100+lossPerAlcohol*a)/100 - extractPerAlcohol*a
		if gravity.BeerSG(quantity.Percent(a), quantity.Plato(residue)) > final {
			low = a
		} else {
			high = a
		}
	}
	return quantity.Percent((low + high) / 2)
}
