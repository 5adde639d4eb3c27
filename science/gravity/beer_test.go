// SPDX-License-Identifier: MIT

package gravity

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// All formulas side by side, computed (regression values), 2e-4; A and RE of
// the physical model within 0.01.
func TestRefractometerInBeer(t *testing.T) {
	for _, row := range []struct{ ri, rf, bonham, cubic, linear, n1, n2, sg, alcohol, left float64 }{
		{10, 5, 1.0074, 1.0103, 1.0089, 1.0079, 1.0073, 1.0085, 3.23, 3.67},
		{12, 6, 1.0085, 1.0117, 1.0107, 1.0095, 1.0089, 1.0101, 3.93, 4.38},
		{12, 7, 1.0147, 1.0150, 1.0142, 1.0157, 1.0151, 1.0164, 3.26, 5.67},
		{16, 8, 1.0107, 1.0140, 1.0142, 1.0126, 1.0122, 1.0133, 5.40, 5.77},
		{20, 10, 1.0129, 1.0160, 1.0178, 1.0158, 1.0155, 1.0163, 6.95, 7.12},
		{12, 12, 1.0467, 1.0407, 1.0316, 1.0471, 1.0470, 1.0484, 0.00, 12.00},
	} {
		ri, rf := quantity.Plato(row.ri), quantity.Plato(row.rf)
		near(t, "Bonham", float64(BeerSGBonham(ri, rf)), row.bonham, 2e-4)
		near(t, "Terrill cubic", float64(BeerSGTerrillCubic(ri, rf)), row.cubic, 2e-4)
		near(t, "Terrill linear", float64(BeerSGTerrillLinear(ri, rf)), row.linear, 2e-4)
		near(t, "Novotný linear", float64(BeerSGNovotnyLinear(ri, rf)), row.n1, 2e-4)
		near(t, "Novotný quadratic", float64(BeerSGNovotnyQuadratic(ri, rf)), row.n2, 2e-4)
		beer := BeerFromBrix(ri, rf)
		near(t, "SG", float64(beer.SG), row.sg, 2e-4)
		near(t, "alcohol", beer.Alcohol.Percent(), row.alcohol, 0.01)
		near(t, "real extract", float64(beer.Real), row.left, 0.01)
		band := RefractometerBand(ri, rf)
		near(t, "middle of band", band.Mid, float64(beer.SG), 0)
		if band.Low > band.Mid || band.High < band.Mid || band.High-band.Low > 0.006 {
			t.Errorf("RefractometerBand(%v, %v) = %v", ri, rf, band)
		}
	}
	if band := RefractometerBand(12, 12); band.Low < 1.0465 {
		t.Errorf("band of wort = %v: Terrill's regressions don't hold there", band)
	}
	band := RefractometerBand(12, 6)
	near(t, "band low is Bonham", band.Low, float64(BeerSGBonham(12, 6)), 0)
	near(t, "band high is Terrill's cubic", band.High, float64(BeerSGTerrillCubic(12, 6)), 0)
}

// Two instruments, computed (regression values), 0.02.
func TestBeerFromSGAndBrix(t *testing.T) {
	for _, row := range []struct{ sg, rf, left, alcohol, original float64 }{
		{1.0094, 5.90, 4.24, 4.02, 12.03}, {1.0140, 7.20, 5.47, 4.22, 13.57}, {1.0200, 9.50, 7.37, 5.23, 17.22},
	} {
		beer := BeerFromSGAndBrix(quantity.SG(row.sg), quantity.Plato(row.rf))
		near(t, "RE", float64(beer.Real), row.left, 0.02)
		near(t, "A", beer.Alcohol.Percent(), row.alcohol, 0.02)
		near(t, "OE", float64(beer.Original), row.original, 0.02)
	}
	change := BeerFromSGAndBrix(1.0094, 6.0).Alcohol - BeerFromSGAndBrix(1.0094, 5.9).Alcohol
	near(t, "% alcohol for 0.1 °Bx", change.Percent(), 0.1, 0.02)
}

// Ethanol and water at 20 °C: check values of OIML R 22, computed from its
// formula, and two rows of Perry's handbook as reproduced (second-hand).
func TestEthanolDensity(t *testing.T) {
	for _, row := range []struct{ fraction, want, tolerance float64 }{
		{0, 998.2012, 0.001}, {1, 789.2391, 0.001}, {0.5, 913.7706, 0.001}, {0.05, 989.378, 0.001}, {0.10, 981.848, 0.001},
		{0.05, 989.38, 0.04}, {0.10, 981.87, 0.04},
	} {
		near(t, "ethanol", ethanol20(row.fraction), row.want, row.tolerance)
	}
	near(t, "Tabarié", float64(BeerSG(quantity.Percent(4.057), 4.136)), 1.00894, 2e-5)
}

// Indices of ethanol and water from a handbook (from memory).
func TestEthanolIndex(t *testing.T) {
	for i, want := range []float64{1.3330, 1.3342, 1.3354, 1.3367, 1.3381, 1.3395} {
		near(t, "n", BeerIndex(quantity.Percent(float64(2*i)), 0), want, 1e-4)
	}
}

// A beer made on paper is found again from its readings.
func TestBeerThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		original := quantity.Plato(rapid.Float64Range(5, 22).Draw(t, "original"))
		part := rapid.Float64Range(0, 0.9).Draw(t, "part")
		alcohol := quantity.Percent(part * alcoholLimit(original))
		left := realExtract(original, alcohol)
		brix := BrixFromIndex(BeerIndex(alcohol, left))
		one := BeerFromBrix(original, brix)
		other := BeerFromSGAndBrix(BeerSG(alcohol, left), brix)
		for _, beer := range []Beer{one, other} {
			if math.Abs((beer.Alcohol-alcohol).Percent()) > 1e-7 || math.Abs(float64(beer.Original-original)) > 1e-6 {
				t.Errorf("alcohol %v of %v °P came back as %+v", alcohol, original, beer)
			}
		}
	})
}

// Readings that can't be: the model runs on a little and says so by its signs,
// and gives no number far outside.
func TestImpossibleReadings(t *testing.T) {
	if beer := BeerFromBrix(12, 12.1); beer.Alcohol >= 0 || beer.SG <= SGFromPlato(12) {
		t.Errorf("reading that rose: %+v, want negative alcohol", beer)
	}
	if beer := BeerFromBrix(12, 2); beer.Real >= 0 {
		t.Errorf("reading below a dry beer: %+v, want negative extract", beer)
	}
	if beer := BeerFromBrix(12, 30); !math.IsNaN(float64(beer.SG)) {
		t.Errorf("reading of 30 °Bx from 12: %+v, want NaN", beer)
	}
	if _, p := HydrometerSG(1.5, reference, reference); !math.IsNaN(float64(p)) {
		t.Errorf("hydrometer at 1.5: %v, want NaN", p)
	}
}
