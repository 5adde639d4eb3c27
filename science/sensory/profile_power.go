// SPDX-License-Identifier: MIT

package sensory

import "math"

// PairedPower returns the chance that a panel finds a mean difference between
// two beers, tested two-sided by [Paired.P].
//
//	∫ f(s; n − 1)·(Φ(δ/σ·√n − t·s) + Φ(−δ/σ·√n − t·s)) ds,  t = t(1 − α/2; n − 1)
//
// Units: difference and SD of the differences between assessors in those of
// the scale; f is the density of the sample SD over σ.
//
//   - Source: student1908; the non-central t distribution, from memory.
//   - Valid: from 2 assessors.
//   - Check: 20 assessors, difference 1, SD 1.8: 0.655; against R's power.t.test.
//   - Tag: computed
func PairedPower(n int, difference, sd, alpha float64) float64 {
	df := float64(n - 1)
	t, shift := ratingStudentQuantile(alpha, df), math.Abs(difference)/sd*math.Sqrt(float64(n))
	return ratingOverSD(df, func(s float64) float64 {
		return ratingNormalTail(t*s-shift) + ratingNormalTail(t*s+shift)
	})
}

// PairedPanel returns the smallest panel that finds a mean difference with a
// power, or false if a thousand assessors don't.
//
//	min n with PairedPower(n) ≥ power
//
// Units: as [PairedPower].
//
//   - Source: student1908.
//   - Valid: differences that are not tiny beside their SD.
//   - Check: difference 1 at 80 %: SD 1.8 needs 28 (27.4), 2.0 needs 34 (33.4).
//   - Tag: computed
func PairedPanel(difference, sd, alpha, power float64) (n int, found bool) {
	const most = 1000
	low, high := 1, most // too few, enough
	if PairedPower(high, difference, sd, alpha) < power {
		return 0, false
	}
	for high-low > 1 {
		if middle := (low + high) / 2; PairedPower(middle, difference, sd, alpha) < power {
			low = middle
		} else {
			high = middle
		}
	}
	return high, true
}

// PairedDetects returns the mean difference that a panel finds with a power.
//
//	δ with PairedPower(n, δ) = power
//
// Units: as [PairedPower].
//
//   - Source: student1908.
//   - Valid: power above alpha and below 1; from 2 assessors.
//   - Check: 12 assessors, SD 1.8, 80 %: 1.60.
//   - Tag: computed
func PairedDetects(n int, sd, alpha, power float64) float64 {
	return ratingSolve(0, 40*sd, func(difference float64) float64 { return PairedPower(n, difference, sd, alpha) - power })
}
