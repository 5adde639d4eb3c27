// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"

	"gyle/quantity"
)

// Choice is what a panel answered: so many of n independent answers were right,
// or for the first beer of a two-sided protocol. An assessor who answers more
// than once doesn't count as several: see [Replicates].
type Choice struct {
	Protocol Protocol
	Right, N int
}

// Check says what is impossible about the counts.
func (c Choice) Check() error {
	switch {
	case !c.Protocol.Known():
		return fmt.Errorf("protocol %q isn't known", c.Protocol)
	case c.N < 1:
		return fmt.Errorf("%d answers are too few to judge", c.N)
	case c.Right < 0 || c.Right > c.N:
		return fmt.Errorf("%d right answers of %d are impossible", c.Right, c.N)
	}
	return nil
}

// Proportion is the share of right answers, guesses counted in.
func (c Choice) Proportion() float64 { return float64(c.Right) / float64(c.N) }

// Expected is how many right answers guessing alone gives on average.
func (c Choice) Expected() float64 { return c.Protocol.Guess() * float64(c.N) }

// P returns the exact probability of a result at least as far from guessing when
// nobody can tell the beers (or nobody prefers one).
//
//	one-sided:  P(Bin(n, c) ≥ x)
//	two-sided:  min(1, 2·P(Bin(n, ½) ≥ max(x, n−x)))
//
// All are numbers without unit: x right of n, c the chance of a guess.
//
//   - Source: derived, the exact sum; iso4120 uses it for the triangle.
//   - Valid: independent answers.
//   - Check: triangle 11 of 18 gives 0.0144; preference 13 of 18 gives 0.096.
//   - Tag: derived
func (c Choice) P() float64 {
	if c.Protocol.TwoSided() {
		return min(1, 2*BinomialAtLeast(max(c.Right, c.N-c.Right), c.N, 0.5))
	}
	return BinomialAtLeast(c.Right, c.N, c.Protocol.Guess())
}

// Interval is the exact two-sided interval of the proportion of right answers.
func (c Choice) Interval(level float64) quantity.Span[float64] {
	return ClopperPearson(c.Right, c.N, level)
}

// Share estimates the share of tasters that can tell: see [Protocol.Share].
func (c Choice) Share() float64 { return c.Protocol.Share(c.Proportion()) }

// ShareInterval is the exact two-sided interval of [Choice.Share].
func (c Choice) ShareInterval(level float64) quantity.Span[float64] {
	return mapSpan(c.Interval(level), c.Protocol.Share)
}

// Upper is the largest share of tasters that could still tell the beers, at a
// one-sided confidence such as 0.95.
func (c Choice) Upper(confidence float64) float64 {
	return c.Protocol.Share(UpperLimit(c.Right, c.N, confidence))
}

// Lower is the smallest share of tasters that can tell, at a one-sided confidence.
func (c Choice) Lower(confidence float64) float64 {
	return c.Protocol.Share(LowerLimit(c.Right, c.N, confidence))
}

func mapSpan(s quantity.Span[float64], f func(float64) float64) quantity.Span[float64] {
	return quantity.Span[float64]{Low: f(s.Low), High: f(s.High)}
}

// LikelihoodInterval returns the values of the proportion that the answers don't
// speak against: closer to its level than the exact interval, sometimes a little
// below it.
//
//	{p: 2·[l(x/n) − l(p)] ≤ z²}    l(p) = x·ln p + (n−x)·ln(1−p),  z = Φ⁻¹((1+level)/2)
//
// All are numbers without unit.
//
//   - Source: brockhoff2010, likelihood intervals of these protocols.
//   - Valid: n ≥ 12 and three wrong answers or more expected: averaged over d′ it covers
//     its level within a point, 90–98 % at single d′; else prefer [Choice.Interval].
//   - Check: 13 of 24 gives 0.34578–0.72908, 10 of 15 gives 0.41545–0.86523 at 95 %.
//   - Tag: computed
func (c Choice) LikelihoodInterval(level float64) quantity.Span[float64] {
	z := normalQuantile((1 + level) / 2)
	x, misses, p := float64(c.Right), float64(c.N-c.Right), c.Proportion()
	best := logLikelihood(c.Right, c.N, p)
	// excess rises with p above the estimate and falls below it.
	excess := func(q float64) (value, slope float64) {
		return 2*(best-logLikelihood(c.Right, c.N, q)) - z*z, -2 * (x/q - misses/(1-q))
	}
	span := quantity.Span[float64]{Low: 0, High: 1}
	if c.Right > 0 {
		span.Low = invert(func(q float64) (float64, float64) { v, s := excess(q); return -v, -s }, 0, p)
	}
	if c.Right < c.N {
		span.High = invert(excess, p, 1)
	}
	return span
}

// logLikelihood is x·ln p + (n−x)·ln(1−p), with 0·ln 0 = 0.
func logLikelihood(right, n int, p float64) float64 {
	sum := 0.0
	if right > 0 {
		sum += float64(right) * math.Log(p)
	}
	if right < n {
		sum += float64(n-right) * math.Log1p(-p)
	}
	return sum
}

// Distance estimates d′ with its standard error. It isn't estimable (false) when
// no more than guessing was right, or when all was: then only
// [Choice.DistanceInterval] says something.
//
//	d′ = pc⁻¹(x/n)    SE = √(pc(1−pc)/n) / (dpc/dd′)
//
// All are numbers without unit.
//
//   - Source: ennis1993 and bi2013, delta method.
//   - Valid: the standard error describes n ≥ 12 or so away from guessing and from 1.
//   - Check: triangle 13 of 24 gives 1.68069 ± 0.51626.
//   - Tag: computed
func (c Choice) Distance() (estimate quantity.Estimate, estimable bool) {
	p := c.Proportion()
	d := c.Protocol.Distance(p)
	slope := c.Protocol.Slope(d)
	if p <= 0 || p >= 1 || slope <= 0 || d == 0 && !c.Protocol.TwoSided() {
		return quantity.Estimate{Value: d}, false
	}
	return quantity.Estimate{Value: d, SD: math.Sqrt(p*(1-p)/float64(c.N)) / slope}, true
}

// DistanceInterval is the likelihood interval of d′, open to +∞ if all was right.
func (c Choice) DistanceInterval(level float64) quantity.Span[float64] {
	return mapSpan(c.LikelihoodInterval(level), c.Protocol.Distance)
}

// DistanceExactInterval is the exact interval of d′: it covers at least its level.
func (c Choice) DistanceExactInterval(level float64) quantity.Span[float64] {
	return mapSpan(c.Interval(level), c.Protocol.Distance)
}

// Finding is what a test of a [Choice] found, with what is needed to say it well.
type Finding struct {
	Choice
	Alpha    float64 // as fixed before the tasting
	Actual   float64 // the true error of the first kind: smaller, because answers are whole
	P        float64
	Critical int // right answers that were needed; N+1 if no number would have done
	Shown    bool

	Level      float64                // of the intervals: their ends are what the test is made of
	Proportion quantity.Span[float64] // of right answers

	// Of tasters that can tell; without meaning for a preference.
	Share         float64
	ShareInterval quantity.Span[float64]

	Distance          quantity.Estimate // d′
	DistanceEstimable bool
	DistanceInterval  quantity.Span[float64] // likelihood, to +∞ if all was right
	DistanceExact     quantity.Span[float64] // matches the test
}

// Test judges the answers at an alpha fixed before the tasting. The exact
// intervals match the test: 90 % for a one-sided test at 0.05, 95 % for a two-sided
// one. Their lower end leaves guessing when the test shows something.
func (c Choice) Test(alpha float64) Finding {
	design := Design{c.Protocol, alpha}
	f := Finding{
		Choice: c,
		Alpha:  alpha, Actual: design.Size(c.N),
		P:        c.P(),
		Critical: design.Critical(c.N),
		Level:    1 - 2*alpha,
		Share:    c.Share(),
	}
	if c.Protocol.TwoSided() {
		f.Level = 1 - alpha
	}
	f.Shown = f.P <= alpha
	f.Proportion = c.Interval(f.Level)
	f.ShareInterval = mapSpan(f.Proportion, c.Protocol.Share)
	f.Distance, f.DistanceEstimable = c.Distance()
	f.DistanceInterval = c.DistanceInterval(f.Level)
	f.DistanceExact = mapSpan(f.Proportion, c.Protocol.Distance)
	return f
}
