// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"slices"
)

// Protocol is a kind of test in which each answer is right or wrong, or for one
// beer or the other. Its text is the name a document uses.
type Protocol string

// The protocols. All force a choice: an assessor who notices nothing guesses.
const (
	// Triangle: three glasses, two alike; which is the odd one?
	Triangle Protocol = "triangle"
	// DuoTrio: a reference and two glasses; which of the two is the reference?
	DuoTrio Protocol = "duo-trio"
	// TwoAFC: two glasses; which has more of an attribute? The direction was
	// declared before the glasses were poured.
	TwoAFC Protocol = "2-AFC"
	// TwoAFCEither is TwoAFC without a declared direction: the larger of the two
	// counts is judged. Right is the count for one of the beers.
	TwoAFCEither Protocol = "2-AFC either way"
	// ThreeAFC: three glasses, two alike; which has most of an attribute?
	ThreeAFC Protocol = "3-AFC"
	// Tetrad: four glasses; sort them into two groups of two.
	Tetrad Protocol = "tetrad"
	// Preference: two glasses; which do you prefer? Right is the count for one of
	// the beers.
	Preference Protocol = "preference"
)

// law is what a protocol is made of.
type law struct {
	protocol Protocol
	cups     int
	guess    float64
	twoSided bool
	slope    func(d float64) float64 // dpc/dd′
	right    func(d float64) float64 // pc(d′) in closed form, nil if it is integrated
}

var laws = []law{
	{Triangle, 3, 1.0 / 3, false, triangleSlope, nil},
	{DuoTrio, 3, 0.5, false, duoTrioSlope, duoTrioRight},
	{TwoAFC, 2, 0.5, false, pairSlope, pairRight},
	{TwoAFCEither, 2, 0.5, true, pairSlope, pairRight},
	{ThreeAFC, 3, 1.0 / 3, false, threeSlope, nil},
	{Tetrad, 4, 1.0 / 3, false, tetradSlope, nil},
	{Preference, 2, 0.5, true, pairSlope, pairRight},
}

// Protocols returns all protocols in the order of their constants.
func Protocols() []Protocol {
	list := make([]Protocol, len(laws))
	for i, l := range laws {
		list[i] = l.protocol
	}
	return list
}

// Known says whether p is one of [Protocols].
func (p Protocol) Known() bool { return slices.Contains(Protocols(), p) }

func (p Protocol) law() law {
	for _, l := range laws {
		if l.protocol == p {
			return l
		}
	}
	panic("sensory: unknown protocol " + string(p))
}

// Guess is the share of right answers of those who notice nothing.
func (p Protocol) Guess() float64 { return p.law().guess }

// Cups is how many glasses an assessor gets, the reference counted in.
func (p Protocol) Cups() int { return p.law().cups }

// TwoSided says whether either direction is a finding: preference, and pairs
// without a declared direction.
func (p Protocol) TwoSided() bool { return p.law().twoSided }

// AtShare returns the proportion of right answers when a share of the tasters can
// tell the beers and the others guess.
//
//	pc = c + (1 − c)·pd
//
// All are numbers without unit: c is the chance of a guess, pd the share that can tell.
//
//   - Source: ennis1993, guessing model; iso4120 uses the same.
//   - Valid: 0 ≤ pd ≤ 1.
//   - Check: a triangle in which 30 % can tell gives 0.53333.
//   - Tag: from memory
func (p Protocol) AtShare(share float64) float64 { return p.Guess() + (1-p.Guess())*share }

// Share returns the share of tasters that can tell, from the proportion of right
// answers. It depends on the protocol: compare versions by d′, not by this share.
//
//	pd = max(0, (pc − c)/(1 − c))
//
// All are numbers without unit: c is the chance of a guess.
//
//   - Source: ennis1993, guessing model; iso4120 uses the same.
//   - Valid: 0 ≤ pc ≤ 1; without meaning for a preference.
//   - Check: 13 of 24 triangles give 0.3125.
//   - Tag: from memory
func (p Protocol) Share(proportion float64) float64 {
	return max(0, (proportion-p.Guess())/(1-p.Guess()))
}

// farthest is a d′ at which every protocol is right in all 16 digits.
const farthest = 40

// ProportionCorrect returns the proportion of right answers of assessors to whom
// the beers lie d′ apart: d′ is the distance in standard deviations of one
// tasting's perception. As rules of thumb: below 0.5 is hardly noticed side by
// side, 1 is about threshold, 1.5 to 2 is clear to the attentive, 3 is obvious.
//
//	2-AFC     Φ(d/√2)
//	3-AFC     ∫ φ(u−d) Φ(u)² du
//	duo-trio  1 − Φ(d/√2) − Φ(d/√6) + 2 Φ(d/√2) Φ(d/√6)
//	triangle  2 ∫₀^∞ [Φ(−u√3 + d√⅔) + Φ(−u√3 − d√⅔)] φ(u) du
//	tetrad    1 − 2 ∫ φ(u) [2 Φ(u) Φ(u−d) − Φ(u−d)²] du
//
// All are numbers without unit; Φ and φ are the standard normal distribution and
// density. The integrals are computed as guess + ∫₀^d of [Protocol.Slope].
//
//   - Source: ennis1993, the first four; ennis1998, tetrad; green1966, 2-AFC.
//   - Valid: equal variances, one dimension, d′ ≥ 0 (any d′ for two-sided protocols).
//   - Check: agrees with the integrals above and with brockhoff2010 to 5e-7.
//   - Tag: from memory
func (p Protocol) ProportionCorrect(d float64) float64 {
	l := p.law()
	if l.right != nil {
		return l.right(d)
	}
	return min(1, l.guess+integrate(l.slope, 0, math.Min(math.Abs(d), farthest)))
}

// Distance returns the d′ that gives a proportion of right answers: 0 if no more
// than guessing gives (below 0 for two-sided protocols), +∞ if all are right.
func (p Protocol) Distance(proportion float64) float64 {
	l := p.law()
	switch {
	case proportion >= 1:
		return math.Inf(1)
	case l.twoSided && proportion < l.guess:
		return -p.Distance(1 - proportion)
	case proportion <= l.guess:
		return 0
	case p == TwoAFC || l.twoSided:
		return math.Sqrt2 * normalQuantile(proportion)
	}
	// The panel of the quadrature that holds d′, then Newton's rule in it.
	reached, low := l.guess, 0.0
	for low < farthest {
		more := integrate(l.slope, low, low+panelLength)
		if reached+more >= proportion {
			break
		}
		reached, low = reached+more, low+panelLength
	}
	return invert(func(d float64) (float64, float64) {
		return reached + integrate(l.slope, low, d) - proportion, l.slope(d)
	}, low, low+panelLength)
}
