// SPDX-License-Identifier: MIT

package sensory

// Similarity is the rule of a tasting that is to show that hardly anybody can tell
// two beers apart. That is a claim of its own: a difference that wasn't shown
// doesn't show it. For one-sided protocols, and one answer an assessor.
type Similarity struct {
	Protocol Protocol
	Limit    float64 // share of tasters that may tell: 0.2 to 0.3 is common
	Beta     float64 // largest chance of calling beers similar that are at the limit
}

// Most returns how many right answers of n still show similarity: −1 if no number
// does.
//
//	max {x: P(Bin(n, c + (1−c)·limit) ≤ x) ≤ β}
//
// All are numbers without unit: c is the chance of a guess. It is the same as asking
// that the upper exact limit of the share at confidence 1 − β lies below the limit.
//
//   - Source: iso4120, similarity by the binomial; the printed table wasn't read.
//   - Valid: one-sided protocols, independent answers (no replicates).
//   - Check: triangle n 36, limit 0.3, β 0.05: 13; 12 has p 0.012406.
//   - Tag: computed
func (s Similarity) Most(n int) int {
	atLimit := s.Protocol.AtShare(s.Limit)
	low, high := -1, n
	for low < high {
		middle := (low + high + 1) / 2
		if BinomialAtMost(middle, n, atLimit) <= s.Beta {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}

// P is the chance of so few right answers when the share that can tell is the limit.
func (s Similarity) P(c Choice) float64 {
	return BinomialAtMost(c.Right, c.N, s.Protocol.AtShare(s.Limit))
}

// Power is the chance that n tasters show similarity when a share of them can tell.
func (s Similarity) Power(n int, share float64) float64 {
	return BinomialAtMost(s.Most(n), n, s.Protocol.AtShare(share))
}

// Attainable says whether n tasters can show similarity otherwise than by luck: even
// when nobody can tell the beers, the chance must be a half (made explicit here).
func (s Similarity) Attainable(n int) bool { return s.Power(n, 0) >= 0.5 }

// PanelSize finds the panel that shows similarity with a given power when nobody can
// tell; false if none up to 20000 does.
func (s Similarity) PanelSize(power float64) (size PanelSize, found bool) {
	atLimit, guess := s.Protocol.AtShare(s.Limit), s.Protocol.Guess()
	most, missed, end := -1, 0, mostTasters
	for n := 1; n <= end; n++ {
		for BinomialAtMost(most+1, n, atLimit) <= s.Beta {
			most++
		}
		switch reached := BinomialAtMost(most, n, guess) >= power; {
		case !reached:
			missed = n
		case size.First == 0:
			size.First, end = n, min(mostTasters, 2*n+100)
		}
	}
	size.Stable = missed + 1
	return size, size.First > 0
}

// Outcome is what a tasting says about a difference.
type Outcome string

// The four outcomes. None of them says that beers are the same.
const (
	Different       Outcome = "difference shown"
	SmallDifference Outcome = "small difference shown" // shown, and below the limit
	BelowLimit      Outcome = "difference below the limit, if any"
	NotConclusive   Outcome = "not conclusive"
)

// Rule is all that is fixed before a tasting. Without a limit (0) similarity isn't
// judged.
type Rule struct {
	Alpha float64
	Limit float64 // share of tasters that may tell
	Beta  float64
}

// Judgement is an outcome and what must be told with it.
type Judgement struct {
	Finding
	Outcome Outcome

	SimilarityP float64 // chance of so few right answers at the limit; 1 without a limit
	MostSimilar int     // right answers that still show similarity; −1 if none
	Attainable  bool    // similarity could have been shown otherwise than by luck

	PowerAtLimit float64   // the chance this panel had to find a share of the limit
	Needed       PanelSize // for a power of 80 % at the limit; zero without a limit
	TooSmall     bool      // the panel misses even a clear difference (d′ 2) more often than not
}

const (
	usualPower    = 0.80
	clearDistance = 2.0 // d′
)

// Judge names the outcome by a rule fixed before the tasting: a difference is shown
// if p is at most alpha; it is below the limit if so few right answers would be rarer
// than beta at the limit.
func (c Choice) Judge(rule Rule) Judgement {
	design := Design{c.Protocol, rule.Alpha}
	j := Judgement{Finding: c.Test(rule.Alpha), SimilarityP: 1, MostSimilar: -1}
	j.TooSmall = design.Power(c.N, c.Protocol.ProportionCorrect(clearDistance)) < 0.5
	if rule.Limit > 0 && !c.Protocol.TwoSided() {
		s := Similarity{c.Protocol, rule.Limit, rule.Beta}
		j.SimilarityP, j.MostSimilar, j.Attainable = s.P(c), s.Most(c.N), s.Attainable(c.N)
		atLimit := c.Protocol.AtShare(rule.Limit)
		j.PowerAtLimit = design.Power(c.N, atLimit)
		j.Needed, _ = design.PanelSize(usualPower, atLimit)
	}
	similar := c.Right <= j.MostSimilar
	switch {
	case j.Shown && similar:
		j.Outcome = SmallDifference
	case j.Shown:
		j.Outcome = Different
	case similar:
		j.Outcome = BelowLimit
	default:
		j.Outcome = NotConclusive
	}
	return j
}
