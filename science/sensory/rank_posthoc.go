// SPDX-License-Identifier: MIT

package sensory

import "math"

// RankLSD returns how far two rank sums must lie apart to differ at a level,
// each pair of beers judged alone. Ask only after [Ranks.Friedman] found a
// difference.
//
//	LSD = z(1 − α/2)·√(n·k·(k + 1)/6)
//
// Units: rank sums; n assessors, k beers.
//
//   - Source: iso8587, as quoted publicly.
//   - Valid: ranks without ties, large panels.
//   - Check: 8 assessors, 5 beers at 5 %: 12.40; 4 beers: 10.121.
//   - Tag: verified
func RankLSD(n, k int, alpha float64) float64 {
	return ratingNormalQuantile(alpha/2) * math.Sqrt(float64(n*k*(k+1))/6)
}

// RankHSD returns how far two rank sums must lie apart to differ at a level,
// all pairs judged together: the chance of any false alarm stays at the level.
//
//	HSD = q(α; k, ∞)·√(n·k·(k + 1)/12)
//
// Units: rank sums; q is the studentised range; n assessors, k beers.
//
//   - Source: tukey1949, method, from memory.
//   - Valid: ranks without ties, large panels.
//   - Check: 8 assessors, 4 beers at 5 %: 13.266; q for 3 to 8 beers 3.3145, 3.6332, 3.8577, 4.0301, 4.1696, 4.2863.
//   - Tag: computed
func RankHSD(n, k int, alpha float64) float64 {
	return StudentisedRange(alpha, k, math.Inf(1)) * math.Sqrt(float64(n*k*(k+1))/12)
}

// StudentisedRange returns the range of k equal means, in standard errors of a
// mean, that chance exceeds with probability alpha. Infinite degrees of freedom
// are allowed.
//
//	P(q) = ∫ f(s; df)·k·∫ φ(z)·(Φ(z) − Φ(z − q·s))^(k−1) dz ds = 1 − α
//
// Units: none.
//
//   - Source: tukey1949, from memory.
//   - Valid: from 2 means and 1 degree of freedom.
//   - Check: against R's qtukey.
//   - Tag: computed
func StudentisedRange(alpha float64, k int, df float64) float64 {
	return ratingRangeQuantile(alpha, k, df)
}

// RankPair is two beers of a ranking, by column, and how their rank sums differ.
type RankPair struct {
	First, Second int
	Difference    float64 // rank sum of the second less that of the first
	Shown         bool    // it reaches the difference asked for
	P             float64 // all pairs judged together, where [PartRanks] shuffled
}

// Pairs compares all beers by a least difference, from [RankLSD] or [RankHSD].
func (r Ranks) Pairs(least float64) (pairs []RankPair) {
	sums := r.Sums()
	for i := range sums {
		for j := i + 1; j < len(sums); j++ {
			difference := sums[j] - sums[i]
			pairs = append(pairs, RankPair{First: i, Second: j, Difference: difference, Shown: math.Abs(difference) >= least})
		}
	}
	return pairs
}
