// SPDX-License-Identifier: MIT

package uncertainty

import "math"

// Probability is the share of samples for which something holds, with its own
// standard error from the number of samples.
type Probability struct {
	Share float64 `json:"share"`
	Error float64 `json:"error"`
}

// ProbabilityOf returns the probability of what held in some of n samples. The
// error is the half width of the interval of Wilson at one standard deviation:
// unlike √(p(1 − p)/n) it isn't 0 when it held always or never.
//
//	error = √(p·(1 − p)/n + 1/(4n²))/(1 + 1/n)    p = hits/n
//
// Units: none.
//
//   - Source: wilson1927, score interval with z = 1; from memory.
//   - Valid: independent samples. Those of a [Hypercube] err rather less.
//   - Check: 50 of 100 give 0.0498; 0 of 100 give 0.0050: computed from the formula above.
//   - Tag: from memory
func ProbabilityOf(hits, n int) Probability {
	if n <= 0 {
		return Probability{math.NaN(), math.NaN()}
	}
	low, high := Wilson(hits, n, 1)
	return Probability{float64(hits) / float64(n), (high - low) / 2}
}

// Wilson returns the interval in which the true share lies, z standard
// deviations of the normal distribution to either side (1.96 for 95 %).
//
//	(p + z²/2n ± z·√(p(1 − p)/n + z²/4n²))/(1 + z²/n)
//
// Units: none.
//
//   - Source: wilson1927, score interval; from memory.
//   - Valid: independent samples.
//   - Check: 8 of 10 at 1.96: 0.490 to 0.943, from memory of a common example.
//   - Tag: from memory
func Wilson(hits, n int, z float64) (low, high float64) {
	p, k := float64(hits)/float64(n), float64(n)
	middle := p + z*z/(2*k)
	half := z * math.Sqrt(p*(1-p)/k+z*z/(4*k*k))
	return (middle - half) / (1 + z*z/k), (middle + half) / (1 + z*z/k)
}
