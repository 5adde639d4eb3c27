// SPDX-License-Identifier: MIT

package hops

import (
	"testing"

	"gyle/quantity"
)

// Computed from the conventions (Daniels 1996, second-hand; hobby literature
// of about 2009); tolerance 0.0005.
func TestBalance(t *testing.T) {
	for _, test := range []struct{ ibu, og, fg, bugu, adf, rbr float64 }{
		{35, 1.052, 1.012, 0.673, 0.7692, 0.6756},
		{65, 1.065, 1.010, 1.000, 0.8462, 1.0807},
		{60, 1.095, 1.028, 0.632, 0.7053, 0.5935},
		{25, 1.050, 1.016, 0.5, 0.68, 0.4572},
	} {
		b, og, fg := quantity.IBU(test.ibu), quantity.SG(test.og), quantity.SG(test.fg)
		near(t, "BU:GU", BUGU(b, og), test.bugu, 0.0005)
		near(t, "ADF", ApparentAttenuation(og, fg), test.adf, 0.0005)
		near(t, "RBR", RelativeBitterness(b, og, fg), test.rbr, 0.0005)
	}
}

// Computed; units.
func TestOilAndSubstitution(t *testing.T) {
	near(t, "oil dose", OilDose(4, 1.5), 6.0, 0.0005)
	near(t, "by alpha", SubstituteByAlpha(quantity.Grams(139), 0.071, 0.079).Grams(), 125, 0.5)
	near(t, "by oil", SubstituteByOil(quantity.Grams(125), 0.9, 0.7).Grams(), 161, 0.5)
}

// Practice, apart from the weighed test: 11.1 g of cones held 53.9 g of water
// after draining for 2 min (a single practitioner's, second-hand).
func TestLostInHops(t *testing.T) {
	near(t, "dry pellets", LostInHops(quantity.Grams(100), DryPellets.Typical).Litres(), 0.80, 1e-9)
	near(t, "kettle cones", LostInHops(quantity.Grams(60), KettleCones.Typical).Litres(), 0.36, 1e-9)
	dose := quantity.Grams(5 * 20)
	near(t, "share of 20 L", LostInHops(dose, DryPellets.Typical).Litres()/20, 0.04, 1e-9)
	perPound := quantity.USGallons(1).Litres() / quantity.Pounds(1).Kilograms()
	near(t, "1 US gal/lb in mL/g", perPound, 8.345, 0.0005)
	near(t, "weighed test", 53.9/11.1, 4.86, 0.005)
	for _, s := range []Soak{KettleCones, KettlePellets, BagPellets, DryPellets, DryCones} {
		if s.Typical < s.Range.Low || s.Typical > s.Range.High {
			t.Errorf("%s: typical %g outside %v", s.Name, s.Typical, s.Range)
		}
	}
	if weighed := quantity.Ratio(53.9 / 11.1); weighed < KettleCones.Range.Low || weighed > KettleCones.Range.High {
		t.Errorf("the weighed test, %.2f L/kg, lies outside the range of cones", weighed)
	}
}
