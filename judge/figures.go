// SPDX-License-Identifier: MIT

package judge

import (
	"math"

	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/style"
)

func (w *work) onFigure(r *style.Rule, v *Verdict) {
	f := r.FigureName()
	p, judged := w.figurePlaces(r, v)
	if !judged {
		return
	}
	got, known := w.beer.figures[f]
	if !known {
		lack := w.beer.lacks[f]
		if lack == "" {
			lack = "the plan doesn't say"
		}
		v.unknown(lack)
		return
	}
	p.put(v, shown(f, got.value, p))
	v.Chance = chance(p, f, got)
	if v.Broken() {
		w.mendFigure(p, f, v)
	}
}

// figurePlaces returns the range of a rule on a figure as it is printed: in
// degrees Plato if the author wrote them.
func (w *work) figurePlaces(r *style.Rule, v *Verdict) (places, bool) {
	f := r.FigureName()
	g := r.GravityRange()
	if g == nil {
		return w.spread(v, measureOf(f), r.Range(), f.Shown(1))
	}
	m := measureOf(f)
	if g.Low.Scale == quantity.ScalePlato || g.High.Scale == quantity.ScalePlato {
		m = plato
	}
	return w.spread(v, m, quantity.Span[float64]{Low: g.Low.Value, High: g.High.Value}, 1)
}

// shown turns a figure into the number that p compares.
func shown(f quantity.Figure, value float64, p places) float64 {
	if f.IsGravity() && p.unit == plato.unit {
		return float64(gravity.PlatoFromSG(quantity.SG(value)))
	}
	return f.Shown(value)
}

// meant turns a number of p back into a figure.
func meant(f quantity.Figure, x float64, p places) float64 {
	if f.IsGravity() && p.unit == plato.unit {
		return float64(gravity.SGFromPlato(quantity.Plato(x)))
	}
	return x / f.Shown(1)
}

func (w *work) onYeast(r *style.Rule, v *Verdict) {
	m, factor := yeastMeasure(r.Yeast)
	p, judged := w.spread(v, m, r.Range(), factor)
	if !judged {
		return
	}
	span, known := w.yeastSpan(r.Yeast)
	if !known {
		v.unknown("the recipe doesn't say the " + r.Yeast + " of its yeast")
		return
	}
	p.put(v, worst(p, span))
	spanText := places{measure: p.measure, low: span.Low, high: span.High}
	v.Text = spanText.rangeText()
	if v.Broken() {
		w.mendYeast(p, r.Yeast, span, v)
	}
}

func yeastMeasure(trait string) (measure, float64) {
	switch trait {
	case "temperature":
		return celsius, 1
	case "pitch":
		return pitch, 1
	}
	return percent, 100
}

// yeastSpan returns what the recipe says of its yeast, as it is printed.
func (w *work) yeastSpan(trait string) (span quantity.Span[float64], known bool) {
	y := w.beer.yeast
	switch {
	case y == nil:
		return span, false
	case trait == "temperature":
		if y.Temperature == nil {
			return span, false
		}
		return quantity.Span[float64]{Low: y.Temperature.Low.Celsius(), High: y.Temperature.High.Celsius()}, true
	case trait == "pitch":
		if y.Pitch == nil {
			return span, false
		}
		return quantity.Exactly(float64(*y.Pitch)), true
	}
	a, known := attenuation(y)
	return quantity.Span[float64]{Low: a.Low.Percent(), High: a.High.Percent()}, known
}

// worst returns the end of a span that lies farthest outside, or its middle if
// all of it lies inside.
func worst(p places, s quantity.Span[float64]) float64 {
	low, high := p.excess(s.Low), p.excess(s.High)
	switch {
	case math.Abs(high) > math.Abs(low):
		return s.High
	case low != 0:
		return s.Low
	case math.IsInf(s.Low, 0):
		return s.High
	case math.IsInf(s.High, 0):
		return s.Low
	}
	return (s.Low + s.High) / 2
}
