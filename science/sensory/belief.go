// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// Belief is what the answers make of a flat opinion held before: that any share of
// tasters that can tell, from none to all, is as likely as any other. It is a second
// voice beside the exact test of a tiny panel, not a replacement. For preferences it
// is about the share for the beer, from 0 to 1.
type Belief struct {
	choice Choice
	floor  float64 // smallest proportion thought possible
}

// Belief returns what one believes after the answers, with a flat prior.
func (c Choice) Belief() Belief {
	if c.Protocol.TwoSided() {
		return Belief{c, 0}
	}
	return Belief{c, c.Protocol.Guess()}
}

// above is the distribution of the proportion before it is cut at the floor.
func (b Belief) above(proportion float64) float64 {
	return betaAbove(proportion, float64(b.choice.Right+1), float64(b.choice.N-b.choice.Right+1))
}

// logWeight is the logarithm of the probability of the answers in a given order,
// but for a factor that is the same for all answers to a protocol.
func (b Belief) logWeight() float64 {
	return math.Log(b.above(b.floor)) + logBeta(float64(b.choice.Right+1), float64(b.choice.N-b.choice.Right+1))
}

func (b Belief) share(proportion float64) float64 { return (proportion - b.floor) / (1 - b.floor) }

// Above returns the probability that more than a share of tasters can tell the beers
// (or prefer the beer).
//
//	P(pd > t) = [1 − I(c + (1−c)t)] / [1 − I(c)]    I(q) = I_q(x+1, n−x+1)
//
// All are numbers without unit: x right of n, c the chance of a guess (0 for preferences).
//
//   - Source: derived, Bayes' rule with a flat prior.
//   - Valid: independent answers; say that the prior was flat.
//   - Check: triangle 4 of 6: more than 0.2 can tell with 0.8635; preference 9 of 12:
//     more than half with 0.95386.
//   - Tag: computed
func (b Belief) Above(share float64) float64 {
	return b.above(b.floor+(1-b.floor)*share) / b.above(b.floor)
}

// Quantile is the share below which the true one lies with a probability: 0.5 gives
// the median.
func (b Belief) Quantile(probability float64) float64 {
	x, rest := float64(b.choice.Right+1), float64(b.choice.N-b.choice.Right+1)
	return b.share(1 - betaQuantile((1-probability)*b.above(b.floor), rest, x))
}

// Interval is the credible interval of the share, equal parts left out at both ends.
func (b Belief) Interval(level float64) quantity.Span[float64] {
	return quantity.Span[float64]{Low: b.Quantile((1 - level) / 2), High: b.Quantile((1 + level) / 2)}
}

// BayesFactor returns how much better the answers fit "some can tell" (flat) than
// "nobody can": 1/3 to 3 says little, 3 to 10 is moderate, above 10 strong (a rule of
// thumb). For preferences "nobody prefers one" is a share of a half.
//
//	BF = [1 − I(c)]·B(x+1, n−x+1)/(1−c) / [g^x (1−g)^{n−x}]
//
// All are numbers without unit: g is the chance of a guess, c the floor (g, or 0 for
// preferences), B the beta function.
//
//   - Source: derived, ratio of the marginal likelihoods.
//   - Valid: independent answers; say that the prior was flat.
//   - Check: triangle 13 of 24 gives 3.2606 although p is 0.028.
//   - Tag: computed
func (b Belief) BayesFactor() float64 {
	x, n, guess := b.choice.Right, b.choice.N, b.choice.Protocol.Guess()
	return math.Exp(b.logWeight() - math.Log(1-b.floor) - logLikelihood(x, n, guess))
}

// Worth is what changing to the new beer wins if it is truly better and loses if it
// truly isn't, in any one unit.
type Worth struct{ Gain, Loss float64 }

// Adopt returns whether a change pays on average, with its expected value: x of n
// preferred the new beer.
//
//	adopt if P(p > ½) ≥ L/(G+L);  expected value P·G − (1−P)·L    p ~ Beta(1+x, 1+n−x)
//
// P is a number without unit, G and L have the unit of the brewer's choice.
//
//   - Source: derived, expected value with a flat prior.
//   - Valid: preferences of tasters like the drinkers; at a tie keep the beer.
//   - Check: 9 of 12, gain 10, loss 30: P 0.95386 against 0.75, value 8.154.
//   - Tag: computed
func (w Worth) Adopt(c Choice) (adopt bool, value float64) {
	better := c.Belief().Above(0.5)
	return better >= w.Loss/(w.Gain+w.Loss), better*w.Gain - (1-better)*w.Loss
}
