// SPDX-License-Identifier: MIT

package color

import (
	"math"
	"testing"

	"gyle/quantity"
)

// A beer of SRM 40 in 7.5 cm and at the rim (computed).
func TestGlassBlackRimRed(t *testing.T) {
	beer := quantity.FromSRM(40)
	near(t, "A430 per cm", Absorbance(beer, 1, 430), 3.15, 0.005)
	near(t, "A600 per cm", Absorbance(beer, 1, 600), 0.388, 0.0005)
	near(t, "A650 per cm", Absorbance(beer, 1, 650), 0.211, 0.0005)
	glass := Spectrum(beer, 7.5)
	near(t, "log T430", math.Log10(glass[5]), -23.6, 0.05)
	near(t, "log T600", math.Log10(glass[22]), -2.91, 0.005)
	near(t, "Y of the glass", XYZ(beer, 7.5).Y, 0.0016, 0.00005)
	near(t, "Y of the rim", XYZ(beer, 0.3).Y, 0.62, 0.005)
	near(t, "chord of a glass", MeanChord(7.5), 5.9, 0.05)
}

// Mashes whose scattering is assumed: computed, RGB within 2.
func TestMashSeen(t *testing.T) {
	for _, row := range []struct{ srm, scattering, y, red, green, blue float64 }{
		{80, 3, 0.177, 152, 108, 63}, {80, 1, 0.077, 109, 70, 34}, {80, 10, 0.352, 192, 153, 105},
		{3, 10, 0, 242, 230, 211}, {10, 3, 0, 213, 182, 139},
	} {
		liquor := quantity.FromSRM(row.srm)
		r, g, b := MashSRGB(liquor, row.scattering)
		near(t, "red", float64(r), row.red, 2)
		near(t, "green", float64(g), row.green, 2)
		near(t, "blue", float64(b), row.blue, 2)
		if row.y > 0 {
			near(t, "Y", MashXYZ(liquor, row.scattering).Y, row.y, 0.0006)
		}
	}
}

// The mash is as bright as SRM·cm 50, a path of 0.6 cm: 100 times the glass.
func TestMashOutshinesGlass(t *testing.T) {
	mash := MashXYZ(quantity.FromSRM(80), 3).Y
	near(t, "SRM·cm of equal brightness", XYZ(quantity.FromSRM(50), 1).Y, mash, 0.002)
	near(t, "times the glass", mash/XYZ(quantity.FromSRM(40), 7.5).Y, 110, 11)
	light := MashReflectance(quantity.FromSRM(80), 3)
	if light[5] >= light[17] || light[17] >= light[22] || light[22] >= light[27] {
		t.Errorf("reflectance falls towards the red: %v", light)
	}
}
