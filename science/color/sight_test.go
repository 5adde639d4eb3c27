// SPDX-License-Identifier: MIT

package color

import (
	"math"
	"testing"

	"gyle/quantity"

	"pgregory.net/rapid"
)

// Computed from the two exponentials (regression values), tolerance 1e-5.
func TestPigmentShape(t *testing.T) {
	for _, row := range []struct{ nm, want, tolerance float64 }{
		{380, 2.2159, 5e-5}, {400, 1.54111, 1e-5}, {430, 1, 1e-5}, {450, 0.77243, 1e-5}, {500, 0.41634, 1e-5},
		{550, 0.22626, 1e-5}, {600, 0.12307, 1e-5}, {650, 0.06694, 1e-5}, {700, 0.03642, 1e-5}, {780, 0.01375, 1e-5},
	} {
		near(t, "PigmentShape", PigmentShape(row.nm), row.want, row.tolerance)
	}
}

// White points: with the rounded arrays; exact CIE values beside (computed).
// The 10° rows check the table of the 1964 observer, which is from memory.
func TestWhite(t *testing.T) {
	for _, row := range []struct {
		name         string
		illuminant   Illuminant
		observer     Observer
		x, z, within float64
	}{
		{"D65 2°", DaylightD65, Observer2, 0.9502, 1.0881, 2e-4},
		{"D65 2°, exact", DaylightD65, Observer2, 0.9504, 1.0888, 8e-4},
		{"C 2°, exact", DaylightC, Observer2, 0.9807, 1.1822, 1.2e-3},
		{"D65 10°, exact", DaylightD65, Observer10, 0.9481, 1.0732, 1e-3},
		{"C 10°, exact", DaylightC, Observer10, 0.9729, 1.1614, 5e-4},
	} {
		got := White(row.illuminant, row.observer)
		near(t, row.name+" X", got.X, row.x, row.within)
		near(t, row.name+" Y", got.Y, 1, 1e-12)
		near(t, row.name+" Z", got.Z, row.z, row.within)
	}
}

// Beers under D65 to the 2° observer, computed with sums in steps of 5 nm
// outside this program. Tolerance: XYZ 0.001, Lab 0.1, RGB 1.
func TestBeersSeen(t *testing.T) {
	for _, row := range []struct {
		srm, path   float64
		x, y, z     float64
		l, a, b     float64
		red, gr, bl float64
	}{
		{1, 1, .9064, .9583, .9504, 98.36, -0.80, 6.04, 254, 250, 239},
		{2, 1, .8663, .9187, .8308, 96.77, -1.28, 11.67, 253, 246, 223},
		{4, 1, .7964, .8458, .6377, 93.70, -1.46, 21.80, 251, 236, 195},
		{10, 1, .6419, .6666, .2979, 85.33, 1.90, 44.88, 244, 209, 128},
		{2, 5, .6419, .6666, .2979, 85.33, 1.90, 44.88, 244, 209, 128},
		{4, 2.5, .6419, .6666, .2979, 85.33, 1.90, 44.88, 244, 209, 128},
		{20, 1, .4804, .4615, .0924, 73.64, 11.90, 66.66, 231, 170, 49},
		{4, 5, .4804, .4615, .0924, 73.64, 11.90, 66.66, 231, 170, 49},
		{6, 5, .3739, .3288, .0320, 64.07, 21.27, 76.33, 217, 138, 0},
		{4, 7.5, .3739, .3288, .0320, 64.07, 21.27, 76.33, 217, 138, 0},
		{8, 5, .2964, .2398, .0122, 56.07, 28.44, 79.51, 201, 112, 0},
		{40, 1, .2964, .2398, .0122, 56.07, 28.44, 79.51, 201, 112, 0},
		{10, 5, .2376, .1783, .0051, 49.29, 33.54, 77.73, 186, 91, 0},
		{10, 7.5, .1412, .0911, .0008, 36.19, 39.89, 61.27, 153, 52, 0},
		{20, 5, .0871, .0502, .0002, 26.78, 41.02, 45.91, 125, 25, 0},
		{20, 7.5, .0360, .0178, .0000, 14.29, 37.33, 24.61, 84, 0, 0},
		{40, 5, .0162, .0073, .0000, 6.60, 31.32, 11.37, 57, 0, 0},
		{40, 7.5, .0040, .0016, .0000, 1.47, 10.06, 2.53, 26, 0, 0},
		{40, 0.3, .6026, .6177, .2335, 82.79, 3.72, 50.62, 242, 201, 109},
	} {
		beer := quantity.FromSRM(row.srm)
		xyz, lab := XYZ(beer, row.path), Lab(beer, row.path)
		near(t, "X", xyz.X, row.x, 0.001)
		near(t, "Y", xyz.Y, row.y, 0.001)
		near(t, "Z", xyz.Z, row.z, 0.001)
		near(t, "L*", lab.L, row.l, 0.1)
		near(t, "a*", lab.A, row.a, 0.1)
		near(t, "b*", lab.B, row.b, 0.1)
		wantRGB(t, beer, row.path, row.red, row.gr, row.bl, 1)
	}
}

func wantRGB(t *testing.T, beer quantity.EBC, path, red, green, blue, within float64) {
	t.Helper()
	r, g, b := SRGB(beer, path)
	near(t, "red", float64(r), red, within)
	near(t, "green", float64(g), green, within)
	near(t, "blue", float64(b), blue, within)
}

// 35 EBC in a cuvette, a sample glass and a pint (computed outside this
// program).
func TestBrownAleSeen(t *testing.T) {
	wantRGB(t, 35, 1, 234, 178, 64, 1)
	wantRGB(t, 35, 5, 137, 36, 0, 1)
	wantRGB(t, 35, 7.5, 96, 0, 0, 1) // the middle of a pint of 7.5 cm, with EBC/1.97 for SRM
}

// L*a*b* as Beer-10C reports it, computed outside this program; tolerance 0.1. This also
// checks the 10° table, which is from memory.
func TestLabBeer10C(t *testing.T) {
	for _, row := range []struct{ srm, l, a, b float64 }{
		{2, 96.45, -0.86, 11.82}, {5, 91.53, -0.31, 26.73}, {10, 84.24, 3.40, 45.51},
		{20, 72.22, 13.63, 67.59}, {40, 54.70, 28.92, 80.65},
	} {
		got := LabBeer10C(quantity.FromSRM(row.srm))
		near(t, "L*", got.L, row.l, 0.1)
		near(t, "a*", got.A, row.a, 0.1)
		near(t, "b*", got.B, row.b, 0.1)
	}
}

// Stated errors of the analytic observers (computed against the CIE tables).
func TestAnalyticObservers(t *testing.T) {
	for _, test := range []struct {
		name         string
		table, curve Observer
		x, y, z      float64
	}{
		{"2°", Observer2, AnalyticObserver2(), 0.014, 0.007, 0.022},
		{"10°", Observer10, AnalyticObserver10(), 0.047, 0.025, 0.057},
	} {
		var x, y, z float64
		for i := range wavelengthCount {
			x = max(x, math.Abs(test.table.X[i]-test.curve.X[i]))
			y = max(y, math.Abs(test.table.Y[i]-test.curve.Y[i]))
			z = max(z, math.Abs(test.table.Z[i]-test.curve.Z[i]))
		}
		if x > test.x+5e-4 || y > test.y+5e-4 || z > test.z+5e-4 {
			t.Errorf("%s: errors %.4f %.4f %.4f, want at most %v %v %v", test.name, x, y, z, test.x, test.y, test.z)
		}
	}
}

// Beers seen through the analytic observer, each against its own white: 0.8 Lab
// units off at SRM·cm 50 and 1.4 at 300, and 2.2 at most between (computed).
func TestBeersToAnalyticObserver(t *testing.T) {
	analytic := AnalyticObserver2()
	white := White(DaylightD65, analytic)
	off := func(product float64) float64 {
		beer := quantity.FromSRM(product)
		return Seen(Spectrum(beer, 1), DaylightD65, analytic).Lab(white).Difference(Lab(beer, 1))
	}
	near(t, "off at 50", off(50), 0.8, 0.05)
	near(t, "off at 300", off(300), 1.4, 0.06)
	for product := 1.0; product <= 300; product++ {
		if far := off(product); far > 2.2 || product <= 50 && far > 0.85 {
			t.Errorf("SRM·cm %g: %.2f Lab units off", product, far)
		}
	}
}

// Colour depends on the product of SRM and path alone, and more path is never
// brighter.
func TestPathInvariant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := quantity.EBC(rapid.Float64Range(2, 100).Draw(t, "ebc"))
		path := rapid.Float64Range(0.2, 10).Draw(t, "path")
		factor := rapid.Float64Range(1, 5).Draw(t, "factor")
		one, other := Lab(c*quantity.EBC(factor), path), Lab(c, path*factor)
		if one.Difference(other) > 1e-9 {
			t.Errorf("%v and %v differ", one, other)
		}
		if XYZ(c, path*factor).Y > XYZ(c, path).Y {
			t.Errorf("%v EBC brightens from %v to %v cm", c, path, path*factor)
		}
	})
}

// A softened swatch equals the clipped one where the screen can show the
// colour, and has its luminance elsewhere (to the rounding of 8 bits).
func TestSwatch(t *testing.T) {
	for _, product := range []float64{1, 4, 10, 20, 40, 75, 150} {
		c := quantity.FromSRM(product)
		r, g, b := Swatch(c, 1)
		luminance := 0.2126729*decode(r) + 0.7151522*decode(g) + 0.0721750*decode(b)
		near(t, "luminance", luminance, XYZ(c, 1).Y, 0.004)
		if product <= 20 {
			wantRGB(t, c, 1, float64(r), float64(g), float64(b), 0)
		}
	}
}

func decode(c uint8) float64 {
	x := float64(c) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}
