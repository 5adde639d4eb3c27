// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// binomial is the probability of exactly right answers among n.
func binomial(right, n int, p float64) float64 {
	switch {
	case right < 0 || right > n:
		return 0
	case p <= 0:
		return oneIf(right == 0)
	case p >= 1:
		return oneIf(right == n)
	}
	return math.Exp(logChoose(n, right) + float64(right)*math.Log(p) + float64(n-right)*math.Log1p(-p))
}

func oneIf(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// BinomialAtLeast returns the probability of right or more correct answers
// among n independent ones.
//
//	P(X ≥ x) = Σ_{i=x..n} C(n,i) p^i (1−p)^{n−i} = I_p(x, n−x+1)
//
// All are numbers without unit.
//
//   - Source: derived, the exact sum; the beta form is the identity used to compute it.
//   - Valid: 0 ≤ p ≤ 1; n up to some thousands.
//   - Check: the sum and the beta form agree to 1e-12 up to n 300; 11 of 18 at 1/3
//     gives 0.0144.
//   - Tag: derived
func BinomialAtLeast(right, n int, p float64) float64 {
	switch {
	case right <= 0:
		return 1
	case right > n:
		return 0
	}
	return betaBelow(p, float64(right), float64(n-right+1))
}

// BinomialAtMost is the probability of right or fewer correct answers among n.
func BinomialAtMost(right, n int, p float64) float64 {
	switch {
	case right < 0:
		return 0
	case right >= n:
		return 1
	}
	return betaAbove(p, float64(right+1), float64(n-right))
}

// LowerLimit returns the exact one-sided lower limit of a proportion, right of
// n, at a confidence such as 0.95.
//
//	low = BetaQuantile(1 − confidence; x, n−x+1), 0 if x = 0
//
// All are numbers without unit.
//
//   - Source: clopper1934, the limits; the beta form is common.
//   - Valid: any n; it covers at least as often as it says.
//   - Check: 13 of 24 at 0.975 gives 0.32821 (R: binom.test).
//   - Tag: from memory
func LowerLimit(right, n int, confidence float64) float64 {
	if right <= 0 {
		return 0
	}
	return betaQuantile(1-confidence, float64(right), float64(n-right+1))
}

// UpperLimit returns the exact one-sided upper limit of a proportion, right of
// n, at a confidence such as 0.95.
//
//	high = BetaQuantile(confidence; x+1, n−x), 1 if x = n
//
// All are numbers without unit.
//
//   - Source: clopper1934, the limits; the beta form is common.
//   - Valid: any n; it covers at least as often as it says.
//   - Check: 13 of 24 at 0.975 gives 0.74447 (R: binom.test).
//   - Tag: from memory
func UpperLimit(right, n int, confidence float64) float64 {
	if right >= n {
		return 1
	}
	return betaQuantile(confidence, float64(right+1), float64(n-right))
}

// ClopperPearson is the exact two-sided interval of a proportion: each end is a
// one-sided limit with half of the error.
func ClopperPearson(right, n int, level float64) quantity.Span[float64] {
	each := 1 - (1-level)/2
	return quantity.Span[float64]{Low: LowerLimit(right, n, each), High: UpperLimit(right, n, each)}
}

// Wilson returns the score interval of a proportion. It is shorter than the exact
// one and covers its level only on average; offer it for shares of preference.
//
//	(p̂ + z²/2n ± z √(p̂(1−p̂)/n + z²/4n²)) / (1 + z²/n)    z = Φ⁻¹((1+level)/2)
//
// All are numbers without unit.
//
//   - Source: wilson1927, formula.
//   - Valid: n ≥ 5 or so.
//   - Check: 13 of 24 gives 0.35075–0.72109, 0 of 6 gives 0–0.39033 at 95 %.
//   - Tag: from memory
func Wilson(right, n int, level float64) quantity.Span[float64] {
	z := normalQuantile((1 + level) / 2)
	trials := float64(n)
	p := float64(right) / trials
	mid := p + z*z/(2*trials)
	half := z * math.Sqrt(p*(1-p)/trials+z*z/(4*trials*trials))
	scale := 1 + z*z/trials
	return quantity.Span[float64]{Low: max(0, (mid-half)/scale), High: min(1, (mid+half)/scale)}
}
