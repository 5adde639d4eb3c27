// SPDX-License-Identifier: MIT

package ferment

import (
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

// OIML R 22: water and ethanol at 20 °C are printed (ethanol in an erratum,
// 789.24); the other rows are computed from the formula above (regression
// values), of which one copy was compared with 49 printed cells.
func TestEthanolDensity(t *testing.T) {
	for _, test := range []struct{ q, celsius, want float64 }{
		{0, 20, 998.2012}, {1, 20, 789.2391}, {0, 0, 999.8369}, {1, 0, 806.2151}, {0.5, 20, 913.7706},
		{1, 40, 771.9323}, {0.05, 20, 989.378}, {0.10, 20, 981.848}, {0.12, 15, 980.417}, {0.05, 4, 991.336},
	} {
		near(t, "density", EthanolDensity(quantity.Fraction(test.q), quantity.Celsius(test.celsius)), test.want, 0.001)
	}
}

// Perry's Chemical Engineers' Handbook, ethanol and water at 20 °C, second-hand.
func TestEthanolDensityPerry(t *testing.T) {
	near(t, "5 %", EthanolDensity(0.05, quantity.Celsius(20))/1000, 0.98938, 4e-5)
	near(t, "10 %", EthanolDensity(0.10, quantity.Celsius(20))/1000, 0.98187, 4e-5)
}

// Computed from OIML R 22 (regression values).
func TestVolumeFractionOfEthanol(t *testing.T) {
	for _, test := range []struct{ mass, volume float64 }{
		{1, 1.2624}, {2, 2.5201}, {3, 3.7735}, {4, 5.0227}, {5, 6.2679}, {6, 7.5094}, {8, 9.9816}, {10, 12.4404},
	} {
		near(t, "by volume", VolumeFractionOfEthanol(quantity.Percent(test.mass)).Percent(), test.volume, 0.0005)
	}
}

func TestConsistentAlcohol(t *testing.T) {
	for _, beer := range []struct {
		oe quantity.Plato
		fg quantity.SG
	}{{8, 1.004}, {12, 1.010}, {16, 0.998}, {24, 1.030}} {
		a := AlcoholByMassConsistent(beer.oe, beer.fg)
		re := float64(beer.oe)*(100+1.0665*a.Percent())/100 - 2.0665*a.Percent()
		near(t, "gravity of the solution", float64(gravity.BeerSG(a, quantity.Plato(re))), float64(beer.fg), 1e-9)
	}
}

// Table VI of Cutaia, Reid & Speers 2009: its three forms must describe the
// same beers; the tolerances are twice the printed standard errors' effect.
func TestCutaiaFormsAgree(t *testing.T) {
	const oe, ae = 12.0, 2.4
	re := RealExtract(oe, ae)
	a := AlcoholByMassCutaia(oe, ae).Percent()
	near(t, "form b", AlcoholByMassCutaiaReal(oe, re).Percent(), a, 0.24)
	near(t, "form c", AlcoholByMassCutaiaExtracts(oe, re, ae).Percent(), a, 0.30)
	near(t, "reference", AlcoholByMassPawlowski(oe, ae).Percent(), a, 0.06)
	reference := AlcoholByMassPawlowski(oe, ae).Percent()
	near(t, "reference form b", AlcoholByMassPawlowskiReal(oe, re).Percent(), reference, 0.01*reference)
	near(t, "reference form c", AlcoholByMassPawlowskiExtracts(oe, re, ae).Percent(), reference, 0.06*reference)
	near(t, "Q", AttenuationQuotientCutaia(oe), 0.814+0.000862*12, 1e-12)
	near(t, "reference Q", AttenuationQuotientPawlowski(oe), 0.8121, 0.00005)
	// Balling's rule for real extract says 0.8192 for both, without the correction of the ASBC.
	near(t, "Q of Balling", float64(RealAttenuation(oe, re)/ApparentAttenuation(oe, ae)), 0.8192, 1e-9)
	near(t, "Q of Balling against the reference", 0.8192, AttenuationQuotientPawlowski(oe), 0.01)
}

func TestAlcoholByFactor(t *testing.T) {
	near(t, "38 points", AlcoholByFactor(1.048, 1.010, 0.129).Percent(), 4.902, 0.0005)
}

// OE 12, AE 2.4 °P: Balling's RE 4.136 and A 4.057 make, by Tabarié, 1.00894
// against 1.00937 measured (computed from the formulas above, regression values).
func TestTabarieRow(t *testing.T) {
	re := RealExtract(12, 2.4)
	a := AlcoholByMass(12, re)
	near(t, "RE", float64(re), 4.136, 0.0005)
	near(t, "A", a.Percent(), 4.057, 0.0005)
	near(t, "SG by Tabarié", float64(gravity.BeerSG(a, re)), 1.00894, 2e-5)
	near(t, "SG measured", float64(gravity.SGFromPlato(2.4)), 1.00937, 2e-5)
}

// Balling's figures, put through Tabarié's relation, give an apparent extract
// 0.08 to 0.14 °P below the one they came from, for 12 to 20 °P (computed from
// the formulas above, regression value at 80 % attenuation).
func TestTabarieAgainstBalling(t *testing.T) {
	for oe := quantity.Plato(12); oe <= 20; oe += 2 {
		ae := 0.2 * oe
		re := RealExtract(oe, ae)
		below := ae - gravity.PlatoFromSG(gravity.BeerSG(AlcoholByMass(oe, re), re))
		near(t, "apparent extract lost", float64(below), 0.11, 0.035)
	}
}
