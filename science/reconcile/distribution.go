// SPDX-License-Identifier: MIT

package reconcile

import "math"

// ChiSquareTail returns the probability that a sum of squares of n independent
// standard normal numbers is larger than x.
//
//	Q(n/2, x/2) = 1 − γ(n/2, x/2)/Γ(n/2)    by its series below n/2 + 1, by its continued fraction above
//
// Units: none.
//
//   - Source: abramowitz1964, 26.4 and 6.5.29, 6.5.31, from memory.
//   - Valid: n from 1, x from 0.
//   - Check: 0.05 at 3.841 for one and at 11.070 for five degrees, the printed points of any table; against scipy in the test.
//   - Tag: from memory
func ChiSquareTail(x float64, n int) float64 {
	a, z := float64(n)/2, x/2
	if !(z > 0) || n <= 0 {
		return 1
	}
	gamma, _ := math.Lgamma(a)
	front := math.Exp(a*math.Log(z) - z - gamma)
	if z < a+1 {
		term, sum := 1/a, 1/a
		for k := 1.0; k < 1000 && term > sum*1e-16; k++ {
			term *= z / (a + k)
			sum += term
		}
		return max(1-front*sum, 0)
	}
	return front * upperFraction(a, z)
}

// upperFraction is the continued fraction of the upper incomplete gamma
// function, by Lentz's method.
func upperFraction(a, z float64) float64 {
	const tiny = 1e-300
	b := z + 1 - a
	c, d := 1/tiny, 1/b
	h := d
	for k := 1.0; k < 1000; k++ {
		numerator := -k * (k - a)
		b += 2
		if d = numerator*d + b; math.Abs(d) < tiny {
			d = tiny
		}
		if c = b + numerator/c; math.Abs(c) < tiny {
			c = tiny
		}
		d = 1 / d
		change := d * c
		h *= change
		if math.Abs(change-1) < 1e-15 {
			break
		}
	}
	return h
}

// NormalTails returns the probability that a standard normal number is further
// from zero than z, to either side.
//
//	p = erfc(|z|/√2)
//
// Units: none.
//
//   - Source: abramowitz1964, 7.1 and 26.2, from memory.
//   - Valid: any z.
//   - Check: 0.05 at 1.960.
//   - Tag: from memory
func NormalTails(z float64) float64 { return math.Erfc(math.Abs(z) / math.Sqrt2) }
