// SPDX-License-Identifier: MIT

package color

import "math"

// AnalyticObserver2 returns the 2° observer from sums of split Gaussians, which
// needs no table.
//
//	g(λ; α, μ, s₁, s₂) = α·exp(−½·((λ − μ)·s)²), s = s₁ below μ, else s₂
//	x̄ = g(0.362, 442.0, .0624, .0374) + g(1.056, 599.8, .0264, .0323) + g(−0.065, 501.1, .0490, .0382)
//	ȳ = g(0.821, 568.8, .0213, .0247) + g(0.286, 530.9, .0613, .0322)
//	z̄ = g(1.217, 437.0, .0845, .0278) + g(0.681, 459.0, .0385, .0725)
//
// Units: λ and μ in nm, s in 1/nm.
//
//   - Source: wyman2013, multi-lobe fit of the CIE 1931 functions.
//   - Valid: 380 to 780 nm.
//   - Check: within 0.014, 0.007 and 0.022 of [Observer2]; beers within 0.85 Lab
//     units to SRM·cm 50 and 2.2 to 300.
//   - Tag: second-hand
func AnalyticObserver2() Observer {
	var o Observer
	for i := range wavelengthCount {
		nm := Wavelength(i)
		o.X[i] = lobe(nm, 0.362, 442.0, 0.0624, 0.0374) + lobe(nm, 1.056, 599.8, 0.0264, 0.0323) +
			lobe(nm, -0.065, 501.1, 0.0490, 0.0382)
		o.Y[i] = lobe(nm, 0.821, 568.8, 0.0213, 0.0247) + lobe(nm, 0.286, 530.9, 0.0613, 0.0322)
		o.Z[i] = lobe(nm, 1.217, 437.0, 0.0845, 0.0278) + lobe(nm, 0.681, 459.0, 0.0385, 0.0725)
	}
	return o
}

// AnalyticObserver10 returns the 10° observer from single lobes.
//
//	x̄ = 0.398·exp(−1250·ln²((λ + 570.1)/1014)) + 1.132·exp(−234·ln²((1338 − λ)/743.5))
//	ȳ = 1.011·exp(−½·((λ − 556.1)/46.14)²)
//	z̄ = 2.060·exp(−32·ln²((λ − 265.8)/180.4))
//
// Units: λ in nm.
//
//   - Source: wyman2013, single-lobe fit of the CIE 1964 functions.
//   - Valid: 380 to 780 nm.
//   - Check: within 0.047, 0.025 and 0.057 of [Observer10].
//   - Tag: second-hand
func AnalyticObserver10() Observer {
	var o Observer
	for i := range wavelengthCount {
		nm := Wavelength(i)
		o.X[i] = 0.398*math.Exp(-1250*square(math.Log((nm+570.1)/1014))) +
			1.132*math.Exp(-234*square(math.Log((1338-nm)/743.5)))
		o.Y[i] = 1.011 * math.Exp(-0.5*square((nm-556.1)/46.14))
		o.Z[i] = 2.060 * math.Exp(-32*square(math.Log((nm-265.8)/180.4)))
	}
	return o
}

func lobe(nm, height, middle, below, above float64) float64 {
	width := above
	if nm < middle {
		width = below
	}
	return height * math.Exp(-0.5*square((nm-middle)*width))
}

func square(x float64) float64 { return x * x }
