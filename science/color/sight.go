// SPDX-License-Identifier: MIT

package color

import (
	"math"

	"gyle/quantity"
)

// Tristimulus is a colour as the eye takes it, with Y of white = 1.
type Tristimulus struct{ X, Y, Z float64 }

// LabColor is a colour in the space CIE L*a*b* 1976.
type LabColor struct{ L, A, B float64 }

// Seen returns the colour of light under an illuminant to an observer.
//
//	XYZ = Σ T·I·(x̄, ȳ, z̄)/Σ I·ȳ
//
// The sum runs over 380 to 780 nm in steps of 10, within 0.06 Lab units of
// steps of 5. Units: relative, Y of white = 1.
//
//   - Source: cie15, definition of tristimulus values.
//   - Valid: 380 to 780 nm.
//   - Check: white under D65 to the 2° observer is (0.9502, 1, 1.0883).
//   - Tag: second-hand
func Seen(light Light, i Illuminant, o Observer) Tristimulus {
	var sum Tristimulus
	var white float64
	for n, share := range light {
		white += i[n] * o.Y[n]
		sum.X += share * i[n] * o.X[n]
		sum.Y += share * i[n] * o.Y[n]
		sum.Z += share * i[n] * o.Z[n]
	}
	return Tristimulus{sum.X / white, sum.Y / white, sum.Z / white}
}

// White returns the colour of a perfect white under an illuminant.
func White(i Illuminant, o Observer) Tristimulus {
	var all Light
	for n := range all {
		all[n] = 1
	}
	return Seen(all, i, o)
}

// XYZ returns the colour of a path of beer in cm, in daylight D65 to the 2°
// observer.
func XYZ(c quantity.EBC, centimetres float64) Tristimulus {
	return Seen(Spectrum(c, centimetres), DaylightD65, Observer2)
}

// Lab returns the colour of a path of beer in cm in L*a*b*, in daylight D65 to
// the 2° observer.
func Lab(c quantity.EBC, centimetres float64) LabColor {
	return XYZ(c, centimetres).Lab(White(DaylightD65, Observer2))
}

// LabBeer10C returns L*a*b* as method Beer-10C reports it: 1 cm of beer,
// illuminant C, 10° observer.
func LabBeer10C(c quantity.EBC) LabColor {
	return Seen(Spectrum(c, 1), DaylightC, Observer10).Lab(White(DaylightC, Observer10))
}

// SRGB returns the screen colour of a path of beer in cm. What the screen
// can't show is clipped; see [Swatch].
func SRGB(c quantity.EBC, centimetres float64) (r, g, b uint8) {
	return XYZ(c, centimetres).SRGB()
}

// Swatch returns a screen colour of a path of beer in cm that keeps the
// brightness: a colour that the screen can't show is greyed until it can.
func Swatch(c quantity.EBC, centimetres float64) (r, g, b uint8) {
	return XYZ(c, centimetres).Softened()
}

// Lab returns the colour in L*a*b* relative to a white.
//
//	L* = 116·f(Y/Yw) − 16    a* = 500·(f(X/Xw) − f(Y/Yw))    b* = 200·(f(Y/Yw) − f(Z/Zw))
//	f(t) = ∛t, and below t = (6/29)³ the line t/(3·(6/29)²) + 4/29
//
// Units: none.
//
//   - Source: cie15, CIE 1976 L*a*b*.
//   - Valid: any.
//   - Check: white is (100, 0, 0); SRM·cm 10 is (85.33, 1.90, 44.88).
//   - Tag: from memory
func (t Tristimulus) Lab(white Tristimulus) LabColor {
	x, y, z := labRoot(t.X/white.X), labRoot(t.Y/white.Y), labRoot(t.Z/white.Z)
	return LabColor{L: 116*y - 16, A: 500 * (x - y), B: 200 * (y - z)}
}

func labRoot(t float64) float64 {
	const edge = 6.0 / 29
	if t > edge*edge*edge {
		return math.Cbrt(t)
	}
	return t/(3*edge*edge) + 4.0/29
}

// Difference returns how far two colours are apart; about 2 is just seen.
//
//	ΔE = √(ΔL*² + Δa*² + Δb*²)
//
// Units: Lab units.
//
//   - Source: cie15, CIE 1976 colour difference.
//   - Valid: any.
//   - Check: zero for equal colours.
//   - Tag: from memory
func (c LabColor) Difference(d LabColor) float64 {
	return math.Sqrt(square(c.L-d.L) + square(c.A-d.A) + square(c.B-d.B))
}

// SRGB returns the screen colour. What the screen can't show is clipped.
// Only a colour seen under D65 may be turned into a screen colour.
//
//	R =  3.2404542·X − 1.5371385·Y − 0.4985314·Z
//	G = −0.9692660·X + 1.8760108·Y + 0.0415560·Z
//	B =  0.0556434·X − 0.2040259·Y + 1.0572252·Z
//	c ≤ 0.0031308: 12.92·c, else 1.055·c^(1/2.4) − 0.055; times 255, rounded
//
// Units: X, Y, Z with Y of white = 1; results 0 to 255.
//
//   - Source: iec61966, sRGB.
//   - Valid: illuminant D65. Beer leaves the range of screens above SRM·cm 25.
//   - Check: SRM·cm 10 is (244, 209, 128).
//   - Tag: from memory
func (t Tristimulus) SRGB() (r, g, b uint8) {
	linear := t.linear()
	return encode(linear[0]), encode(linear[1]), encode(linear[2])
}

// Softened returns the screen colour, greyed at equal Y until no part of it is
// negative or above 1.
//
//	c' = Y + k·(c − Y) for c = R, G, B, with the greatest k ≤ 1 that keeps 0 ≤ c' ≤ 1
//
// Units: linear sRGB, as in [Tristimulus.SRGB].
//
//   - Source: derived, mixing towards the grey of equal luminance.
//   - Valid: illuminant D65, Y at most 1.
//   - Check: the luminance is kept; in range it equals SRGB.
//   - Tag: estimate
func (t Tristimulus) Softened() (r, g, b uint8) {
	linear := t.linear()
	keep := 1.0
	for _, c := range linear {
		if c < 0 {
			keep = min(keep, t.Y/(t.Y-c))
		}
		if c > 1 && t.Y < 1 {
			keep = min(keep, (1-t.Y)/(c-t.Y))
		}
	}
	for i, c := range linear {
		linear[i] = t.Y + keep*(c-t.Y)
	}
	return encode(linear[0]), encode(linear[1]), encode(linear[2])
}

func (t Tristimulus) linear() [3]float64 {
	return [3]float64{
		3.2404542*t.X - 1.5371385*t.Y - 0.4985314*t.Z,
		-0.9692660*t.X + 1.8760108*t.Y + 0.0415560*t.Z,
		0.0556434*t.X - 0.2040259*t.Y + 1.0572252*t.Z,
	}
}

// encode clips a linear part of a screen colour and turns it into 0 to 255.
func encode(c float64) uint8 {
	c = min(max(c, 0), 1)
	if c <= 0.0031308 {
		c *= 12.92
	} else {
		c = 1.055*math.Pow(c, 1/2.4) - 0.055
	}
	return uint8(math.Round(255 * c))
}
