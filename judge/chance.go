// SPDX-License-Identifier: MIT

package judge

import (
	"math"

	"gyle/quantity"
	"gyle/science/ferment"
	"gyle/style"
)

// chance returns the probability that a figure of a plan turns out inside, its
// error being normal; nil where the plan gives no error.
func chance(p places, f quantity.Figure, got figure) *float64 {
	if got.sd <= 0 {
		return nil
	}
	low, high := ends(p, f)
	share := below((high-got.value)/got.sd) - below((low-got.value)/got.sd)
	return &share
}

// ends returns a range as numbers of the figure.
func ends(p places, f quantity.Figure) (low, high float64) {
	low, high = p.low, p.high
	if !math.IsInf(low, 0) {
		low = meant(f, low, p)
	}
	if !math.IsInf(high, 0) {
		high = meant(f, high, p)
	}
	return low, high
}

// below returns the share of a normal distribution below z.
func below(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// five are the numbers by which a beer is entered for its style.
var five = []quantity.Figure{quantity.OG, quantity.FG, quantity.ABV, quantity.Bitterness, quantity.BeerColor}

// allFive returns the probability that all five numbers turn out inside.
//
// Original gravity and attenuation are taken as independent and normal; final
// gravity and alcohol follow from the two, so they hang together as they do in
// the fermenter. Bitterness and colour are independent of these and of each
// other.
func (w *work) allFive(j Judgement) *float64 {
	limits := w.limitsOfFive(j)
	if len(limits) == 0 {
		return nil
	}
	all := w.gravitiesInside(limits)
	for _, f := range []quantity.Figure{quantity.Bitterness, quantity.BeerColor} {
		got, known := w.beer.figures[f]
		s, limited := limits[f]
		switch {
		case !limited || !known:
		case got.sd > 0:
			all *= math.Max(below((s.High-got.value)/got.sd)-below((s.Low-got.value)/got.sd), 0)
		case !within(s, got.value):
			all = 0
		}
	}
	return &all
}

// limitsOfFive returns what the rules that hold demand of the five numbers.
func (w *work) limitsOfFive(j Judgement) map[quantity.Figure]quantity.Span[float64] {
	limits := map[quantity.Figure]quantity.Span[float64]{}
	for _, v := range j.Verdicts {
		r := &w.style.Rules[v.Rule]
		if v.Subject != style.OnFigure || v.Severity == style.Option || v.Word == Idle {
			continue
		}
		for _, f := range five {
			if r.FigureName() != f {
				continue
			}
			p, _ := w.figurePlaces(r, &Verdict{})
			low, high := ends(p, f)
			if s, ok := limits[f]; ok {
				low, high = math.Max(low, s.Low), math.Min(high, s.High)
			}
			limits[f] = quantity.Span[float64]{Low: low, High: high}
		}
	}
	return limits
}

func within(s quantity.Span[float64], x float64) bool { return s.Low <= x && x <= s.High }

// nodes is into how many equally likely slices a normal error is cut.
const nodes = 40

// gravitiesInside returns the probability that original gravity, final gravity
// and alcohol lie inside, summed over slices of original gravity and attenuation.
func (w *work) gravitiesInside(limits map[quantity.Figure]quantity.Span[float64]) float64 {
	og, attenuation := w.beer.figures[quantity.OG], w.beer.figures[quantity.Attenuation]
	ok := func(f quantity.Figure, x float64) bool {
		s, limited := limits[f]
		return !limited || within(s, x)
	}
	hits := 0
	for i := range nodes {
		o := quantity.SG(og.value + og.sd*slice(i))
		if !ok(quantity.OG, float64(o)) {
			continue
		}
		for k := range nodes {
			fg := ferment.FinalGravity(o, quantity.Fraction(attenuation.value+attenuation.sd*slice(k)))
			if ok(quantity.FG, float64(fg)) && ok(quantity.ABV, float64(ferment.Alcohol(o, fg))) {
				hits++
			}
		}
	}
	return float64(hits) / (nodes * nodes)
}

// slice returns the middle of a slice of the normal distribution, in standard
// deviations.
func slice(i int) float64 { return middles[i] }

var middles = func() (z [nodes]float64) {
	for i := range z {
		z[i] = math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/nodes-1)
	}
	return z
}()
