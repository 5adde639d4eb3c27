// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// Votes are answers to a preference that allowed "no preference". Those are
// reported; they are never split between the beers.
type Votes struct{ A, None, B int }

// Expressed is the exact test's part: the votes for B among those with a preference.
func (v Votes) Expressed() Choice { return Choice{Preference, v.B, v.A + v.B} }

// Liking is how far B is liked above A, and how near two beers must be for an
// assessor to have no preference, both in standard deviations of one tasting.
type Liking struct {
	Distance  quantity.Estimate // d′, positive when B is liked better
	Threshold float64           // τ
	Interval  quantity.Span[float64]
	P         float64 // two-sided, by the likelihood ratio; approximate
}

// Liking estimates d′ and τ from votes for both beers; false if one got no vote, or
// "no preference" none: then the exact test of [Votes.Expressed] must do.
//
//	p_A = Φ((−τ−d)/√2),  p_none = Φ((τ−d)/√2) − p_A
//	z₁ = Φ⁻¹(p_A),  z₂ = Φ⁻¹(p_A + p_none)
//	τ = (z₂ − z₁)/√2,  d = −(z₁ + z₂)/√2
//
// All are numbers without unit. The interval is {d: 2·[l̂ − max_τ l(d, τ)] ≤ z²}.
//
//   - Source: brockhoff2010, the two-alternative choice with ties (2-AC).
//   - Valid: equal variances, all assessors with the same threshold.
//   - Check: 4, 5, 11 gives τ 0.50626, d′ 0.68400 ± 0.3744, −0.0430 to 1.427, p 0.0653.
//   - Tag: computed
func (v Votes) Liking(level float64) (liking Liking, estimable bool) {
	if v.A == 0 || v.B == 0 || v.None == 0 {
		return Liking{}, false
	}
	n := float64(v.A + v.None + v.B)
	first, second := float64(v.A)/n, float64(v.A+v.None)/n
	z1, z2 := normalQuantile(first), normalQuantile(second)
	f1, f2 := normalDensity(z1), normalDensity(z2)
	variance := (first*(1-first)/(f1*f1) + second*(1-second)/(f2*f2) + 2*first*(1-second)/(f1*f2)) / (2 * n)
	liking.Distance = quantity.Estimate{Value: -(z1 + z2) / math.Sqrt2, SD: math.Sqrt(variance)}
	liking.Threshold = (z2 - z1) / math.Sqrt2

	best := v.logLikelihood(liking.Distance.Value, liking.Threshold)
	against := func(d float64) float64 {
		_, l := maximize(func(threshold float64) float64 { return v.logLikelihood(d, threshold) }, 0, distanceReach)
		return 2 * (best - l)
	}
	z := normalQuantile((1 + level) / 2)
	liking.Interval = unbounded(reach(against, z, liking.Distance.Value, -distanceReach, distanceReach))
	liking.P = chiSquareAbove(against(0), 1)
	return liking, true
}

func (v Votes) logLikelihood(d, threshold float64) float64 {
	low, high := (-threshold-d)/math.Sqrt2, (threshold-d)/math.Sqrt2
	a, b := normalBelow(low), normalBelow(-high)
	none := normalBelow(high) - a
	if low > 0 { // the upper tails keep their digits
		none = normalBelow(-low) - b
	}
	return float64(v.A)*logOf(a) + float64(v.None)*logOf(none) + float64(v.B)*logOf(b)
}

// logOf is ln p, and a number instead of −∞ where a probability vanishes.
func logOf(p float64) float64 { return math.Log(max(p, tiny)) }
