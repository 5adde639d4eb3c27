// SPDX-License-Identifier: MIT

package ferment

import (
	"math"
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.6g, want %.6g ± %.2g", what, got, want, tolerance)
	}
}

// The table was computed from the formulas of this package with extracts by
// the ASBC cubic and k = 0.791 (regression values; the formulas are Balling's,
// tags second-hand and from memory). Tolerances: 0.005 °P, 0.01 % alcohol, 0.05 %
// attenuation, 0.1 kcal.
func TestTableOfBeers(t *testing.T) {
	for _, beer := range []struct {
		og, fg                             quantity.SG
		oe, ae, re, abw, abv               float64
		adf, rdf, rdfASBC, kcal            float64
		abvConsistent, abvCutaia, abvShort float64
		abvHall                            float64
	}{
		{1.040, 1.010, 9.994, 2.561, 3.905, 3.107, 3.967, 74.38, 60.93, 62.18, 37.02, 3.92, 3.87, 3.94, 3.95},
		{1.048, 1.010, 11.912, 2.561, 4.251, 3.950, 5.043, 78.50, 64.31, 65.75, 44.30, 4.99, 4.95, 4.99, 5.06},
		{1.050, 1.012, 12.388, 3.068, 4.753, 3.947, 5.049, 75.23, 61.63, 63.18, 46.40, 5.00, 4.96, 4.99, 5.08},
		{1.056, 1.014, 13.805, 3.574, 5.424, 4.367, 5.598, 74.11, 60.71, 62.46, 52.15, 5.54, 5.53, 5.51, 5.68},
		{1.060, 1.012, 14.741, 3.068, 5.179, 5.008, 6.408, 79.19, 64.87, 66.65, 55.53, 6.35, 6.34, 6.30, 6.51},
		{1.080, 1.018, 19.331, 4.580, 7.247, 6.495, 8.360, 76.31, 62.51, 64.94, 74.73, 8.30, 8.37, 8.14, 8.70},
		{1.100, 1.024, 23.769, 6.077, 9.276, 7.994, 10.349, 74.43, 60.98, 64.04, 94.07, 10.29, 10.46, 9.98, 11.05},
		{1.065, 1.002, 15.903, 0.513, 3.296, 6.646, 8.419, 96.77, 79.28, 80.65, 58.76, 8.35, 8.36, 8.27, 8.52},
	} {
		oe, ae := gravity.PlatoFromSGASBC(beer.og), gravity.PlatoFromSGASBC(beer.fg)
		re := RealExtract(oe, ae)
		abw := AlcoholByMass(oe, re)
		volume := func(byMass quantity.Fraction) float64 {
			return AlcoholByVolume(byMass, beer.fg, EthanolSGConventional).Percent()
		}
		near(t, "OE", float64(oe), beer.oe, 0.005)
		near(t, "AE", float64(ae), beer.ae, 0.005)
		near(t, "RE", float64(re), beer.re, 0.005)
		near(t, "alcohol by mass", abw.Percent(), beer.abw, 0.01)
		near(t, "alcohol by volume", volume(abw), beer.abv, 0.01)
		near(t, "ADF", ApparentAttenuation(oe, ae).Percent(), beer.adf, 0.05)
		near(t, "RDF", RealAttenuation(oe, re).Percent(), beer.rdf, 0.05)
		near(t, "RDF (ASBC)", RealAttenuationASBC(oe, re).Percent(), beer.rdfASBC, 0.05)
		near(t, "energy", float64(EnergyPer100mL(abw, re, beer.fg)), beer.kcal, 0.1)
		near(t, "consistent", volume(AlcoholByMassConsistent(oe, beer.fg)), beer.abvConsistent, 0.01)
		near(t, "Cutaia", volume(AlcoholByMassCutaia(oe, ae)), beer.abvCutaia, 0.01)
		near(t, "short form", AlcoholShortForm(beer.og, beer.fg).Percent(), beer.abvShort, 0.01)
		near(t, "Hall", AlcoholHall(beer.og, beer.fg).Percent(), beer.abvHall, 0.01)
	}
}

// Computed from the formula above (regression values).
func TestChoiceOfEthanolDensity(t *testing.T) {
	oe, ae := gravity.PlatoFromSGASBC(1.048), gravity.PlatoFromSGASBC(1.010)
	abw := AlcoholByMass(oe, RealExtract(oe, ae))
	near(t, "k 0.791", AlcoholByVolume(abw, 1.010, EthanolSGConventional).Percent(), 5.043, 0.0005)
	near(t, "k at 20 °C", AlcoholByVolume(abw, 1.010, EthanolSGThermodynamic).Percent(), 5.046, 0.0005)
	near(t, "k at 60 °F", AlcoholByVolume(abw, 1.010, EthanolSG60F).Percent(), 5.024, 0.0015)
}

func TestBallingThereAndBack(t *testing.T) {
	near(t, "OE from RE 4.136 and A 4.057 (Balling's balance)", float64(gravity.OriginalExtract(quantity.Percent(4.057), 4.136)), 12.000, 0.001)
	for oe := quantity.Plato(5); oe <= 25; oe += 2.5 {
		for re := quantity.Plato(1); re < oe; re += 1.5 {
			// The printed coefficient 0.010665 is 1.0665/100, so the pair is exact.
			near(t, "OE", float64(gravity.OriginalExtract(AlcoholByMass(oe, re), re)), float64(oe), 1e-9)
			near(t, "RE", float64(RealExtract(oe, ApparentExtract(oe, re))), float64(re), 1e-12)
		}
	}
}

// The default scale is the NBS cubic, which differs from the ASBC table by less
// than 0.002 °P: 0.01 % of alcohol covers it.
func TestAlcohol(t *testing.T) {
	near(t, "1.048 to 1.010", Alcohol(1.048, 1.010).Percent(), 5.043, 0.01)
	near(t, "1.065 to 1.002", Alcohol(1.065, 1.002).Percent(), 8.419, 0.01)
	near(t, "nothing fermented", Alcohol(1.050, 1.050).Percent(), 0, 1e-9)
	if dry, drier := Alcohol(1.050, 1.000), Alcohol(1.050, 0.997); drier <= dry {
		t.Errorf("a beer at 0.997 has %.3f %%, no more than one at 1.000 with %.3f %%", drier.Percent(), dry.Percent())
	}
}

func TestFinalGravity(t *testing.T) {
	near(t, "1.048 at 78.5 %", float64(FinalGravity(1.048, 0.785)), 1.010, 0.00002)
	for og := quantity.SG(1.030); og < 1.12; og += 0.01 {
		for _, attenuation := range []quantity.Fraction{0, 0.25, 0.62, 0.76, 0.90, 1.0, 1.04} {
			fg := FinalGravity(og, attenuation)
			near(t, "attenuation", float64(Attenuation(og, fg)), float64(attenuation), 1e-9)
		}
	}
	if fg := FinalGravity(1.050, 1.03); fg >= 1 {
		t.Errorf("103 %% attenuation ends at %.4f, not below 1", float64(fg))
	}
}

// Balance of masses, computed from the formula above (regression values).
func TestGasReleased(t *testing.T) {
	for _, test := range []struct{ oe, ae, want float64 }{
		{10, 2.5, 30.1}, {12, 2.4, 38.9}, {16, 4, 50.0}, {20, 4, 68.0},
	} {
		og, fg := gravity.SGFromPlato(quantity.Plato(test.oe)), gravity.SGFromPlato(quantity.Plato(test.ae))
		near(t, "CO2 in g/L", float64(GasReleased(og, fg)), test.want, 0.06)
	}
}

// 12 US fluid ounces, 128 to the gallon, hold 3.55 times 100 mL (Oxford
// Companion to Beer, after ASBC Beer-33).
func TestEnergyOfServing(t *testing.T) {
	near(t, "12 fl oz", float64(EnergyOf(1, quantity.USGallons(12.0/128))), 3.55, 0.005)
	near(t, "a pint of 568 mL", float64(EnergyOf(44.30, 0.568)), 251.6, 0.05)
}

// 1 kcal = 4.184 kJ by definition.
func TestKilojoules(t *testing.T) {
	near(t, "44.30 kcal", Kilocalories(44.30).Kilojoules(), 185.35, 0.005)
}
