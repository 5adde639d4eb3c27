// SPDX-License-Identifier: MIT

package color

import (
	"math"

	"gyle/quantity"
)

// MashReflectance returns the light that a deep, scattering mash throws back,
// after Kubelka and Munk.
//
//	R = 1 + q − √(q² + 2q)    q = K/S    K = 2·ln 10·A(λ)
//
// A mash throws light back after a short path, so it looks brown where the
// beer in the glass is black. Never judge a recipe by it. Units: absorbance A,
// absorption K and scattering S per cm; the colour is that of the mash liquor,
// about twice the beer's.
//
//   - Source: derived, two-flux theory of Kubelka and Munk; S is an assumption,
//     1 to 10 per cm.
//   - Valid: to show the effect only.
//   - Check: liquor of SRM 80 with S = 3 gives Y = 0.177, (152, 108, 63).
//   - Tag: estimate
func MashReflectance(liquor quantity.EBC, scatteringPerCentimetre float64) Light {
	var light Light
	for i := range light {
		absorption := 2 * math.Ln10 * Absorbance(liquor, 1, Wavelength(i))
		q := absorption / scatteringPerCentimetre
		light[i] = 1 + q - math.Sqrt(q*q+2*q)
	}
	return light
}

// MashXYZ returns the colour of a mash in daylight D65 to the 2° observer.
func MashXYZ(liquor quantity.EBC, scatteringPerCentimetre float64) Tristimulus {
	return Seen(MashReflectance(liquor, scatteringPerCentimetre), DaylightD65, Observer2)
}

// MashSRGB returns the screen colour of a mash.
func MashSRGB(liquor quantity.EBC, scatteringPerCentimetre float64) (r, g, b uint8) {
	return MashXYZ(liquor, scatteringPerCentimetre).SRGB()
}
