// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// Sessions are tastings of the same two beers by different assessors, of one
// protocol or several. An assessor who comes again is a replicate: [Replicates].
type Sessions []Choice

// Pooled adds the counts up; false if the protocols differ. Look at
// [Sessions.Homogeneity] first.
func (s Sessions) Pooled() (pooled Choice, same bool) {
	for i, c := range s {
		if i > 0 && c.Protocol != pooled.Protocol {
			return Choice{}, false
		}
		pooled.Protocol = c.Protocol
		pooled.Right += c.Right
		pooled.N += c.N
	}
	return pooled, len(s) > 0
}

// P returns the exact one-sided probability of so many right answers in all when
// nobody can tell, whatever the protocols: each session guesses at its own chance.
//
//	P(Σ Xᵢ ≥ Σ xᵢ)    Xᵢ ~ Bin(nᵢ, cᵢ), independent, by convolution
//
// All are numbers without unit. With one protocol it is the pooled binomial test.
//
//   - Source: derived, exact convolution.
//   - Valid: one-sided protocols; different assessors in each session.
//   - Check: triangles 5 of 10 and 15 of 30 give the p of 20 of 40, 0.02144.
//   - Tag: computed
func (s Sessions) P() float64 {
	distribution, right := []float64{1}, 0
	for _, c := range s {
		right += c.Right
		distribution = sumOfCounts(distribution, binomials(c.N, c.Protocol.Guess()))
	}
	return margin{0, distribution}.atLeast(right)
}

func binomials(n int, p float64) []float64 {
	list := make([]float64, n+1)
	for i := range list {
		list[i] = binomial(i, n, p)
	}
	return list
}

// sumOfCounts is the distribution of the sum of two independent counts.
func sumOfCounts(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, p := range a {
		for j, q := range b {
			sum[i+j] += p * q
		}
	}
	return sum
}

// Common is a d′ that several sessions share.
type Common struct {
	Distance  quantity.Estimate
	Estimable bool                   // false at 0, and at +∞ when all was right: then without SD
	Interval  quantity.Span[float64] // likelihood
	// G2 is how much better each session fits with a d′ of its own; P its probability
	// when all share one (χ², approximate).
	G2, P   float64
	Freedom int
}

// Common estimates one d′ from sessions of any protocols by their joint
// likelihood. Sessions with all or none right are no difficulty.
//
//	max_d Σ [xᵢ ln pcᵢ(d) + (nᵢ−xᵢ) ln(1−pcᵢ(d))]
//	SE = 1/√(Σ nᵢ pc′ᵢ²/(pcᵢ(1−pcᵢ))),  G² = 2·Σ [lᵢ(d̂ᵢ) − lᵢ(d̂)],  m−1 degrees of freedom
//
// All are numbers without unit.
//
//   - Source: brockhoff2010, common d′ by likelihood.
//   - Valid: one-sided protocols; different assessors in each session.
//   - Check: triangles 5/10, 6/12, 15/18: 2.233 ± 0.396, G² 5.077, p 0.0790.
//   - Tag: computed
func (s Sessions) Common(level float64) Common {
	joint := func(d float64) float64 {
		sum := 0.0
		for _, c := range s {
			sum += logLikelihood(c.Right, c.N, c.Protocol.ProportionCorrect(d))
		}
		return sum
	}
	d := s.mostLikely(joint)
	top := joint(d)
	common := Common{Distance: quantity.Estimate{Value: d}}
	if pooled := s.total(); pooled.Right == pooled.N {
		common.Distance.Value, top = math.Inf(1), 0
	} else if d > 0 {
		common.Estimable, common.Distance.SD = true, 1/math.Sqrt(s.information(d))
	}
	own := 0.0
	for _, c := range s {
		own += logLikelihood(c.Right, c.N, max(c.Proportion(), c.Protocol.Guess()))
	}
	common.G2, common.Freedom = max(0, 2*(own-top)), len(s)-1
	common.P = 1
	if common.Freedom > 0 {
		common.P = chiSquareAbove(common.G2, float64(common.Freedom))
	}
	z := normalQuantile((1 + level) / 2)
	common.Interval = unbounded(reach(func(d float64) float64 { return 2 * (top - joint(d)) }, z, d, 0, distanceReach))
	return common
}

// mostLikely is the d′ at the top of the joint likelihood. It lies between those of the
// sessions; sessions that disagree may have two tops.
func (s Sessions) mostLikely(joint func(d float64) float64) float64 {
	low, high := distanceReach, 0.0
	for _, c := range s {
		own := min(c.Protocol.Distance(c.Proportion()), distanceReach)
		low, high = min(low, own), max(high, own)
	}
	start := highest(joint, low, high)
	d, top := maximize(joint, max(low, start-scanStep), min(high, start+scanStep))
	for _, end := range []float64{low, high} {
		if value := joint(end); value >= top {
			d, top = end, value
		}
	}
	return d
}

// information is that of all sessions about a common d′.
func (s Sessions) information(d float64) float64 {
	sum := 0.0
	for _, c := range s {
		p, slope := c.Protocol.ProportionCorrect(d), c.Protocol.Slope(d)
		sum += float64(c.N) * slope * slope / (p * (1 - p))
	}
	return sum
}

// total adds the counts up whatever the protocols.
func (s Sessions) total() Answered {
	sum := Answered{}
	for _, c := range s {
		sum.Right += c.Right
		sum.N += c.N
	}
	return sum
}

// Homogeneity returns the probability of sessions that differ so much in right
// answers when all have the same proportion: Pearson's χ², exactly when there are few
// outcomes.
//
//	χ² = Σ (xᵢ − nᵢp)²/(nᵢp(1−p)),  m−1 degrees of freedom
//
// All are numbers without unit: p is the pooled proportion. Exactly means over all
// outcomes with the same total of right answers.
//
//   - Source: practice, χ² of a 2 × m table; exact form as fisher1935.
//   - Valid: sessions of one protocol.
//   - Check: 5/10, 6/12, 9/18 don't differ: χ² 0, p 1.
//   - Tag: common practice
func (s Sessions) Homogeneity() (chiSquare, p float64) {
	all := s.total()
	right, n := all.Right, all.N
	if len(s) < 2 || right == 0 || right == n {
		return 0, 1
	}
	chiSquare = s.chiSquare(right, n)
	if s.outcomes() > mostOutcomes {
		return chiSquare, chiSquareAbove(chiSquare, float64(len(s)-1))
	}
	return chiSquare, s.exactHomogeneity(right, n, chiSquare)
}

// mostOutcomes is where counting all outcomes gives way to the χ² distribution.
const mostOutcomes = 20000

func (s Sessions) outcomes() float64 {
	product := 1.0
	for _, c := range s[1:] {
		product *= float64(c.N + 1)
	}
	return product
}

func (s Sessions) chiSquare(right, n int) float64 {
	p, sum := float64(right)/float64(n), 0.0
	for _, c := range s {
		gap := float64(c.Right) - float64(c.N)*p
		sum += gap * gap / (float64(c.N) * p * (1 - p))
	}
	return sum
}

// exactHomogeneity walks through all outcomes with the same number of right answers.
func (s Sessions) exactHomogeneity(right, n int, seen float64) float64 {
	outcome := append(Sessions(nil), s...)
	all, p := logChoose(n, right), 0.0
	var walk func(i, left int, weight float64)
	walk = func(i, left int, weight float64) {
		c := &outcome[i]
		if i == 0 { // the first session takes what is left
			if left > c.N {
				return
			}
			c.Right = left
			if outcome.chiSquare(right, n) >= seen/ties-1e-12 {
				p += math.Exp(weight + logChoose(c.N, left) - all)
			}
			return
		}
		for c.Right = 0; c.Right <= min(c.N, left); c.Right++ {
			walk(i-1, left-c.Right, weight+logChoose(c.N, c.Right))
		}
	}
	walk(len(s)-1, right, 0)
	return min(1, p)
}

// FisherCombined returns the probability of sessions this far from guessing by
// combining their p. Whole answers make it timid: prefer [Sessions.P].
//
//	−2 Σ ln pᵢ ~ χ² with 2m degrees of freedom
//
// All are numbers without unit.
//
//   - Source: fisher1935, combination of tests.
//   - Valid: independent sessions.
//   - Check: triangles 5/10, 6/12, 9/18: 11.005, p 0.0882.
//   - Tag: from memory
func (s Sessions) FisherCombined() (chiSquare, p float64) {
	for _, c := range s {
		chiSquare -= 2 * math.Log(c.P())
	}
	return chiSquare, chiSquareAbove(chiSquare, float64(2*len(s)))
}

// Stouffer returns the probability of sessions this far from guessing by adding
// their z, weighted with the square root of the answers. Prefer [Sessions.P].
//
//	z = Σ √nᵢ·Φ⁻¹(1−pᵢ) / √(Σ nᵢ)
//
// All are numbers without unit.
//
//   - Source: practice, weighted addition of z (Stouffer).
//   - Valid: independent sessions.
//   - Check: triangles 5/10, 6/12, 9/18: 1.7353, p 0.0413.
//   - Tag: common practice
func (s Sessions) Stouffer() (z, p float64) {
	n := 0.0
	for _, c := range s {
		z -= math.Sqrt(float64(c.N)) * normalQuantile(c.P())
		n += float64(c.N)
	}
	z /= math.Sqrt(n)
	return z, normalBelow(-z)
}
