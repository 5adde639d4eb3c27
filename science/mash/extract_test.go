// SPDX-License-Identifier: MIT

package mash

import (
	"testing"

	"gyle/quantity"
	"gyle/science/gravity"
)

// Values computed from the mass and volume balances (regression values).

func TestPotential(t *testing.T) {
	for _, c := range []struct{ dry, moisture, difference, asIs, coarse, litre, gallon float64 }{
		{81.5, 4.0, 1.5, 78.24, 76.80, 302.0, 36.19},
		{80.0, 4.5, 1.7, 76.40, 74.78, 294.9, 35.34},
	} {
		dry, moisture := quantity.Percent(c.dry), quantity.Percent(c.moisture)
		fine := AsIs(dry, moisture)
		near(t, "as is", fine.Percent(), c.asIs, 0.05)
		near(t, "coarse", AsIs(CoarseExtract(dry, quantity.Percent(c.difference)), moisture).Percent(), c.coarse, 0.05)
		near(t, "L°/kg", LitreDegrees(fine), c.litre, 0.05)
		near(t, "points per gallon", GallonPoints(fine), c.gallon, 0.05)
		near(t, "back", float64(FromGallonPoints(GallonPoints(fine))), float64(fine), 1e-12)
	}
	grist := []Portion{{4, .80}, {1, .70}}
	near(t, "grist", float64(GristExtract(grist)), .78, 1e-12)
	// 46 and 46.21 ppg are both in print for sucrose.
	near(t, "sucrose", GallonPoints(1), 46.2, 0.1)
}

func TestGravityOfWorts(t *testing.T) {
	for _, c := range []struct{ plato, sg float64 }{
		{10, 1.04003}, {12, 1.04838}, {15, 1.06112}, {18, 1.07414}, {20, 1.08298},
	} {
		near(t, "SG", float64(gravity.SGFromPlato(quantity.Plato(c.plato))), c.sg, 2e-5)
	}
}

func TestFirstWort(t *testing.T) {
	for _, c := range []struct{ ratio, conversion, hydrolysis, want float64 }{
		{2, 1, 0, 27.35}, {2.5, 1, 0, 23.22}, {3, 1, 0, 20.17}, {3.5, 1, 0, 17.83},
		{4, 1, 0, 15.97}, {5, 1, 0, 13.22}, {6, 1, 0, 11.28}, {3, .95, 0, 19.35}, {4, 1, .03, 16.07},
	} {
		ratio := quantity.Ratio(c.ratio)
		wort := FirstWort(.768, quantity.Fraction(c.conversion), .04, ratio, c.hydrolysis)
		near(t, "first wort", float64(wort), c.want, 0.02)
		near(t, "back", float64(Conversion(wort, .768, .04, ratio, c.hydrolysis)), c.conversion, 1e-12)
	}
}

func TestLautering(t *testing.T) {
	near(t, "retention", float64(Retention(1.0, .04, .768, 1)), 1.514, 0.002)
	near(t, "retention, bag", float64(Retention(0.6, .04, .768, 1)), 1.114, 0.002)
	near(t, "absorption", float64(Absorption(Retention(.6, .04, .768, .9), .04, .768, .9)), 0.6, 1e-12)

	liquid := MashLiquid(17.5, 5, .04, .768, 1)
	retention := Retention(.9, .04, .768, 1)
	held := HeldBack(retention, 5, 0)
	near(t, "liquid", float64(liquid), 20.069, 0.001)
	near(t, "retention", float64(retention), 1.4139, 0.001)
	near(t, "held back", float64(held), 7.069, 0.001)
	near(t, "first run-off", float64(liquid-held), 13.000, 0.001)
	near(t, "kettle without sparge", float64(KettleVolume(17.5, .9, 5, 0)), 13.000, 1e-9)
	near(t, "no sparge", float64(NoSparge(liquid, held)), .6478, 0.001)

	near(t, "kettle", float64(KettleVolume(29.5, .9, 5, 0)), 25.0, 1e-9)
	one := BatchSparge(liquid, held, 12)
	near(t, "one batch", float64(one), .8694, 0.001)
	near(t, "extract", 5*.768*float64(MashEfficiency(1, one)), 3.339, 0.001)
	near(t, "two batches", float64(BatchSparge(18, 6, 8, 7)), .9341, 0.0005)

	for _, c := range []struct {
		n    int
		want float64
	}{{1, .7826}, {2, .8724}, {3, .9061}, {4, .9233}, {1_000_000, .9727}} {
		near(t, "equal run-offs", float64(EqualRunoffs(27, 7.5, c.n)), c.want, 0.0005)
	}
	for _, c := range []struct {
		layers int
		want   float64
	}{{1, .9458}, {2, .9770}, {3, .9881}, {5, .9960}} {
		near(t, "fly", float64(FlySparge(20, 7.5, 14.5, c.layers)), c.want, 0.0005)
	}
}

// Computed from the balance, d 0.20. Outside check: spent grain weighs 100 to
// 130 kg per 100 kg of grist at 75 to 80 % of water (an encyclopaedia, read), of
// which 17 to 22 kg would be dry (Briggs et al. 2004, second-hand).
func TestSpentGrain(t *testing.T) {
	for _, c := range []struct{ water, liquid float64 }{{.75, .60}, {.80, .80}, {.85, 1.13}, {.88, 1.47}} {
		near(t, "liquid", float64(SpentGrainLiquid(.20, quantity.Fraction(c.water))), c.liquid, 0.005)
	}
	if wet := .22 + float64(SpentGrainLiquid(.22, .80)); wet < 1.0 || wet > 1.3 {
		t.Errorf("spent grain weighs %.2f kg/kg, published 1.0 to 1.3", wet)
	}
}

func TestYields(t *testing.T) {
	sg := gravity.SGFromPlato(12.5)
	extract := gravity.ExtractMass(23, sg)
	near(t, "extract", float64(extract), 3.0147, 0.0005)
	near(t, "cold wort", ColdWortYield(extract, 5).Percent(), 60.29, 0.05)
	near(t, "overall", OverallBrewhouseYield(extract, 5, .782).Percent(), 77.10, 0.05)
	near(t, "hot wort", HotWortYield(24, 12, gravity.SGFromPlato(12), 5).Percent(), 57.97, 0.05)
	points := PointsEfficiency(sg, 23, 5, LitreDegrees(.782))
	near(t, "points", float64(points)/.7710, 1, 0.005)
	near(t, "brewhouse", float64(BrewhouseEfficiency(.80, .06)), .752, 1e-12)
	near(t, "density ratio", gravity.WaterDensity(celsius(98))/gravity.WaterDensity(celsius(20)), .9615, 0.0002)
}
