// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// TwoStage is a plan that looks at the answers once before the end, and may stop
// then. Only such a plan keeps alpha: stopping when it happens to be significant
// doesn't (see [Design.EverCrossed]).
type TwoStage struct {
	Protocol Protocol
	First    int // answers at the look
	Stop     int // right ones that end the tasting with a difference shown
	Total    int // answers at the end, those of the look counted in
	Reject   int // right ones that show a difference at the end
}

// earlyShare is the part of alpha that the look may use up (made explicit here): a
// look that stops only on a clear result costs hardly any power at the end.
const earlyShare = 0.2

// TwoStage plans a look after first answers of total: it may use up a fifth of
// alpha, and the whole plan keeps alpha exactly. False if no such plan exists.
func (d Design) TwoStage(first, total int) (plan TwoStage, found bool) {
	early := Design{d.Protocol, d.Alpha * earlyShare}
	plan = TwoStage{d.Protocol, first, early.Critical(first), total, d.Critical(total)}
	for ; plan.Reject <= total; plan.Reject++ {
		if _, all := plan.Crossing(d.Protocol.Guess()); all <= d.Alpha {
			return plan, true
		}
	}
	return plan, false
}

// side is the count that is judged: the larger of the two in two-sided protocols.
func (p Protocol) side(right, n int) int {
	if p.TwoSided() {
		return max(right, n-right)
	}
	return right
}

// Crossing returns the chance to stop at the look and the chance to show a
// difference at all, when a proportion of answers is right. At the guess the second
// is the true alpha, elsewhere the power.
//
//	early = P(X₁ ≥ k₁);  all = early + Σ_{x₁<k₁} P(X₁ = x₁)·P(Bin(n₂−n₁, pc) ≥ k₂ − x₁)
//
// All are numbers without unit: k₁, k₂ the numbers needed, n₁, n₂ the answers.
//
//   - Source: derived, sum over all outcomes.
//   - Valid: independent answers.
//   - Check: triangle 9 of 12 or 13 of 24: alpha 0.0298, power at pd 0.4 0.789, 23 % stop early.
//   - Tag: computed
func (t TwoStage) Crossing(proportion float64) (early, all float64) {
	for first := 0; first <= t.First; first++ {
		chance := binomial(first, t.First, proportion)
		if t.Protocol.side(first, t.First) >= t.Stop {
			early += chance
			continue
		}
		all += chance * t.secondStage(first, t.Reject, proportion)
	}
	return early, early + all
}

// secondStage is the chance that the total reaches a number after first right ones.
func (t TwoStage) secondStage(first, needed int, proportion float64) float64 {
	rest := t.Total - t.First
	chance := BinomialAtLeast(needed-first, rest, proportion)
	if t.Protocol.TwoSided() {
		chance += BinomialAtMost(t.Total-needed-first, rest, proportion)
	}
	return chance
}

// P is the exact p of a two-stage result: stopping early counts as farther from
// guessing than any end. Give the right answers at the look, and in total if the
// tasting went on.
func (t TwoStage) P(first, total int) float64 {
	guess := t.Protocol.Guess()
	if side := t.Protocol.side(first, t.First); side >= t.Stop {
		stopped := t
		stopped.Stop = side
		p, _ := stopped.Crossing(guess)
		return min(1, p)
	}
	reached := t
	reached.Reject = t.Protocol.side(total, t.Total)
	_, p := reached.Crossing(guess)
	return min(1, p)
}

// Shown says whether a two-stage result shows a difference.
func (t TwoStage) Shown(first, total int) bool {
	return t.Protocol.side(first, t.First) >= t.Stop || t.Protocol.side(total, t.Total) >= t.Reject
}

// EverCrossed returns the chance that p is at most alpha at one of several looks,
// when a proportion of answers is right. At the guess it is the true alpha of stopping
// as soon as something shows: far above alpha with many looks.
//
//	1 − P(X_n < x_crit(n) for all looks n), by recursion over the answers
//
// All are numbers without unit.
//
//   - Source: derived, sum over all paths.
//   - Valid: independent answers; looks are numbers of answers, rising.
//   - Check: triangle at 0.05: looks at 8, 16, 24 0.0679; after each taster 5–40 0.154.
//   - Tag: computed
func (d Design) EverCrossed(looks []int, proportion float64) float64 {
	// going[x] is the chance of x right so far and no crossing yet.
	going := []float64{1}
	crossed, n := 0.0, 0
	for _, look := range looks {
		for ; n < look; n++ {
			next := make([]float64, n+2)
			for right, chance := range going {
				next[right] += chance * (1 - proportion)
				next[right+1] += chance * proportion
			}
			going = next
		}
		critical := d.Critical(n)
		for right := range going {
			if d.Protocol.side(right, n) >= critical {
				crossed += going[right]
				going[right] = 0
			}
		}
	}
	return crossed
}

// Outlook returns the chance that a tasting broken off for a look ends with a
// difference shown, given the answers so far. It may say whether more glasses are worth
// pouring; it is never the verdict.
//
//	Σ_y P(y right of the rest | answers)·[x + y ≥ x_crit(n)]    prior of pc flat on c..1
//
// All are numbers without unit.
//
//   - Source: derived, beta-binomial with a prior cut at the guess.
//   - Valid: one-sided protocols, independent answers.
//   - Check: triangle 6 of 12 now, 13 of 24 needed: 0.4625.
//   - Tag: computed
func (d Design) Outlook(now Choice, total int) float64 {
	critical, rest := d.Critical(total), total-now.N
	b := now.Belief()
	chance := 0.0
	for more := max(0, critical-now.Right); more <= rest; more++ {
		after := Choice{now.Protocol, now.Right + more, total}.Belief()
		chance += math.Exp(logChoose(rest, more) + after.logWeight() - b.logWeight())
	}
	return chance
}

// Sequential is Wald's test for screening an assessor: go on while the right
// answers lie between two parallel lines over the number of answers.
type Sequential struct {
	Slope float64                // right answers for each answer
	Lines quantity.Span[float64] // right answers minus slope times answers
}

// NewSequential returns the test that tells an assessor with a poor proportion of
// right answers from one with a good proportion: alpha is the chance to take a poor
// one, beta to turn a good one away.
//
//	s = ln((1−p₀)/(1−p₁))/G,  low = ln(β/(1−α))/G,  high = ln((1−β)/α)/G
//	G = ln(p₁(1−p₀)/(p₀(1−p₁)))
//
// All are numbers without unit: p₀ poor, p₁ good.
//
//   - Source: wald1947, sequential test of a proportion.
//   - Valid: 0 < p₀ < p₁ < 1; the errors hold nearly.
//   - Check: 1/3 against 2/3, alpha 0.05, beta 0.2: s 0.5, lines −1.1240 and 2.0000.
//   - Tag: from memory
func NewSequential(poor, good, alpha, beta float64) Sequential {
	scale := math.Log(good * (1 - poor) / (poor * (1 - good)))
	return Sequential{
		Slope: math.Log((1-poor)/(1-good)) / scale,
		Lines: quantity.Span[float64]{Low: math.Log(beta/(1-alpha)) / scale, High: math.Log((1-beta)/alpha) / scale},
	}
}

// Step is what a screening test says after some answers.
type Step string

// The steps of a screening test.
const (
	GoOn     Step = "go on"
	Take     Step = "take"
	TurnAway Step = "turn away"
)

// Step says what to do after right answers of n.
func (s Sequential) Step(right, n int) Step {
	switch excess := float64(right) - s.Slope*float64(n); {
	case excess >= s.Lines.High:
		return Take
	case excess <= s.Lines.Low:
		return TurnAway
	}
	return GoOn
}
