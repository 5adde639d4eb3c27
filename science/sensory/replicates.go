// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"slices"

	"gyle/quantity"
)

// Replicates are answers of assessors who answered more than once. Three answers of
// one assessor are not three assessors: when nobody can tell, all are guesses and
// the pooled test keeps its alpha; estimates, intervals, preferences and claims of
// similarity don't hold.
type Replicates struct {
	Protocol  Protocol
	Assessors []Answered
}

// Answered is one assessor's right answers of all.
type Answered struct{ Right, N int }

// Check says what is impossible about the counts.
func (r Replicates) Check() error {
	for i, a := range r.Assessors {
		if a.N < 1 || a.Right < 0 || a.Right > a.N {
			return fmt.Errorf("assessor %d: %d right answers of %d are impossible", i+1, a.Right, a.N)
		}
	}
	return r.Pooled().Check()
}

// Pooled counts every answer as one. Its P holds; its intervals are too short.
func (r Replicates) Pooled() Choice {
	c := Choice{Protocol: r.Protocol}
	for _, a := range r.Assessors {
		c.Right += a.Right
		c.N += a.N
	}
	return c
}

// Majority gives each assessor one voice: for the beer, or the answer, that more than
// half of its answers name. Those with as many one way as the other are left out and
// counted. It is the way to judge replicated preferences.
func (r Replicates) Majority() (choice Choice, undecided int) {
	choice.Protocol = r.Protocol
	for _, a := range r.Assessors {
		switch {
		case 2*a.Right == a.N:
			undecided++
			continue
		case 2*a.Right > a.N:
			choice.Right++
		}
		choice.N++
	}
	return choice, undecided
}

// Dispersion says how much more the assessors differ than chance lets them.
type Dispersion struct {
	ChiSquare float64 // Pearson
	Freedom   int     // assessors less one
	P         float64 // approximate
	Factor    float64 // φ = χ²/freedom: 1 if assessors don't differ
	Gamma     float64 // correlation of one assessor's answers, by moments
	Tarone    float64 // z of Tarone's test, one-sided
	Effective float64 // independent answers the panel is worth
}

// Dispersion estimates overdispersion by moments; all zero but Effective when one
// assessor answered, nobody answered twice, nobody was right or all were.
//
//	χ² = Σ (xᵢ − rᵢp)²/(rᵢp(1−p)),  φ = χ²/(m−1),  γ = (φ−1)/(r−1)
//	effective = Σ rᵢ / max(1, φ)
//	z = [Σ(xᵢ − rᵢp)²/(p(1−p)) − Σ rᵢ] / √(2 Σ rᵢ(rᵢ−1))
//
// All are numbers without unit: xᵢ right of rᵢ answers of m assessors, r the mean
// of rᵢ, p the pooled proportion.
//
//   - Source: brockhoff2003 and ennisbi1998, overdispersion; tarone1979, z.
//   - Valid: about equal numbers of answers.
//   - Check: 15 assessors, 29 of 45: χ² 24.634, φ 1.75954, γ 0.37977, z 2.1541, effective 25.6.
//   - Tag: computed
func (r Replicates) Dispersion() Dispersion {
	pooled := r.Pooled()
	p, m := pooled.Proportion(), len(r.Assessors)
	d := Dispersion{Freedom: m - 1, Effective: float64(pooled.N)}
	if m < 2 || m == pooled.N || p == 0 || p == 1 {
		return d
	}
	squares, pairs := 0.0, 0.0
	for _, a := range r.Assessors {
		n := float64(a.N)
		gap := float64(a.Right) - n*p
		squares += gap * gap / (p * (1 - p))
		d.ChiSquare += gap * gap / (n * p * (1 - p))
		pairs += n * (n - 1)
	}
	d.P = chiSquareAbove(d.ChiSquare, float64(d.Freedom))
	d.Factor = d.ChiSquare / float64(d.Freedom)
	d.Effective /= max(1, d.Factor)
	d.Gamma = (d.Factor - 1) / (float64(pooled.N)/float64(m) - 1)
	d.Tarone = (squares - float64(pooled.N)) / math.Sqrt(2*pairs)
	return d
}

// Interval returns an interval of the proportion that counts with the effective
// number of answers instead of all: the exact limits with x and n scaled down.
//
//	low = BetaQuantile((1−level)/2; x′, n′−x′+1),  high = BetaQuantile((1+level)/2; x′+1, n′−x′)
//	n′ = effective answers,  x′ = n′·x/n
//
// All are numbers without unit.
//
//   - Source: clopper1934, limits; the scaling is a proposal of this project.
//   - Valid: as the effective number of [Replicates.Dispersion].
//   - Check: equals [Choice.Interval] when assessors don't differ more than chance.
//   - Tag: estimate
func (r Replicates) Interval(level float64) quantity.Span[float64] {
	pooled := r.Pooled()
	n := r.Dispersion().Effective
	x := n * pooled.Proportion()
	span := quantity.Span[float64]{Low: 0, High: 1}
	if pooled.Right > 0 {
		span.Low = betaQuantile((1-level)/2, x, n-x+1)
	}
	if pooled.Right < pooled.N {
		span.High = betaQuantile((1+level)/2, x+1, n-x)
	}
	return span
}

// Abilities is a beta-binomial fit: assessors differ in how often they are right.
type Abilities struct {
	Mean          float64 // of the proportion right; corrected: of the share above guessing
	Gamma         float64 // 0: all alike, 1: all or nothing
	LogLikelihood float64
	Proportion    float64 // mean proportion of right answers
	Distance      float64 // d′ of that
	G2            float64 // twice the log likelihood gained over no differences
}

// BetaBinomial fits proportions of right answers that follow a beta distribution
// from 0 to 1 among the assessors.
//
//	P(x) = C(r,x)·B(a+x, b+r−x)/B(a, b)    a = μ(1/γ−1), b = (1−μ)(1/γ−1)
//
// All are numbers without unit: x right of r, μ the mean, γ the correlation.
//
//   - Source: ennisbi1998, beta-binomial.
//   - Valid: two answers an assessor or more.
//   - Check: 29 of 45 in threes: μ 0.64452, γ 0.32126, log likelihood −19.6430.
//   - Tag: computed
func (r Replicates) BetaBinomial() Abilities {
	return r.fit(func(a Answered, alpha, beta float64) float64 {
		return logChoose(a.N, a.Right) + logBeta(alpha+float64(a.Right), beta+float64(a.N-a.Right)) - logBeta(alpha, beta)
	}, func(mean float64) float64 { return mean })
}

// CorrectedBetaBinomial is [Replicates.BetaBinomial] with proportions from guessing
// to 1: the share that an assessor tells, not guesses, follows a beta distribution.
//
//	P(x) = C(r,x)(1−c)^r/B(a,b) · Σ_{i=0..x} C(x,i)·(c/(1−c))^{x−i}·B(a+i, r+b−x)
//
// All are numbers without unit: c is the chance of a guess, x right of r.
//
//   - Source: brockhoff2003, chance-corrected beta-binomial.
//   - Valid: two answers an assessor or more; one-sided protocols.
//   - Check: 29 of 45 triangles in threes: μ 0.47073, γ 0.59764, log likelihood
//     −19.7222, d′ 2.218.
//   - Tag: second-hand
func (r Replicates) CorrectedBetaBinomial() Abilities {
	guess := r.Protocol.Guess()
	return r.fit(func(a Answered, alpha, beta float64) float64 {
		terms := make([]float64, a.Right+1)
		for i := range terms {
			terms[i] = logChoose(a.Right, i) + float64(a.Right-i)*math.Log(guess/(1-guess)) +
				logBeta(alpha+float64(i), beta+float64(a.N-a.Right))
		}
		return logChoose(a.N, a.Right) + float64(a.N)*math.Log1p(-guess) - logBeta(alpha, beta) + logSum(terms)
	}, r.Protocol.AtShare)
}

// logSum is ln Σ exp(termᵢ).
func logSum(terms []float64) float64 {
	largest := slices.Max(terms)
	sum := 0.0
	for _, term := range terms {
		sum += math.Exp(term - largest)
	}
	return largest + math.Log(sum)
}

// The range of means and correlations of a fit: off the edges, where the beta
// function has none.
const (
	smallestShare = 1e-6
	largestShare  = 1 - 1e-6
)

// fit finds the mean and the correlation by one search inside another.
func (r Replicates) fit(logP func(a Answered, alpha, beta float64) float64, proportion func(mean float64) float64) Abilities {
	total := func(mean, gamma float64) float64 {
		size := 1/gamma - 1
		sum := 0.0
		for _, a := range r.Assessors {
			sum += logP(a, mean*size, (1-mean)*size)
		}
		return sum
	}
	bestGamma := func(mean float64) (float64, float64) {
		return maximize(func(gamma float64) float64 { return total(mean, gamma) }, smallestShare, largestShare)
	}
	mean, _ := maximize(func(mean float64) float64 { _, l := bestGamma(mean); return l }, smallestShare, largestShare)
	gamma, top := bestGamma(mean)
	pooled := r.Pooled()
	alike := 0.0
	for _, a := range r.Assessors {
		alike += logChoose(a.N, a.Right) + logLikelihood(a.Right, a.N, pooled.Proportion())
	}
	return Abilities{
		Mean: mean, Gamma: gamma, LogLikelihood: top,
		Proportion: proportion(mean), Distance: r.Protocol.Distance(proportion(mean)),
		G2: max(0, 2*(top-alike)),
	}
}
