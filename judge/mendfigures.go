// SPDX-License-Identifier: MIT

package judge

import (
	"fmt"
	"math"

	"gyle/quantity"
	"gyle/science/ferment"
)

// mendFigure proposes what to aim at instead. Figures that follow from others
// are mended by those.
func (w *work) mendFigure(p places, f quantity.Figure, v *Verdict) {
	end, over := p.nearest(v.Value), p.excess(v.Value) > 0
	limit := meant(f, end, p)
	switch f {
	case quantity.Bitterness:
		w.mendIBU(limit, v)
	case quantity.BUGU:
		og := quantity.SG(w.beer.figures[quantity.OG].value)
		w.mendIBU(inward(limit*og.Points(), 1, over), v)
	case quantity.ABV:
		w.mendAlcohol(limit, over, v)
	case quantity.Attenuation:
		og := quantity.SG(w.beer.figures[quantity.OG].value)
		w.aim(quantity.FG, inward(float64(ferment.FinalGravity(og, quantity.Fraction(limit))), 4, !over), !over, v)
	case quantity.SulfateToChloride:
		w.aim(quantity.Sulfate, inward(limit*w.beer.figures[quantity.Chloride].value, 1, over), over, v)
	case quantity.ResidualAlkalinity:
		w.mendAlkalinity(limit, v)
	default:
		w.aim(f, limit, over, v)
		if f.IsGravity() && p.unit == plato.unit {
			v.Mend = fmt.Sprintf("%s %s or %s", f, p.withUnit(p.fine(end)), lessOrMore(over))
		}
	}
}

func lessOrMore(over bool) string {
	if over {
		return "less"
	}
	return "more"
}

// inward rounds x to so many decimals, down if it is an upper limit.
func inward(x float64, decimals int, upper bool) float64 {
	scale := math.Pow(10, float64(decimals))
	if upper {
		return math.Floor(x*scale+1e-6) / scale
	}
	return math.Ceil(x*scale-1e-6) / scale
}

// aim proposes another aim for a figure.
func (w *work) aim(f quantity.Figure, to float64, over bool, v *Verdict) {
	v.Changes = append(v.Changes, Change{What: FigureTo, Name: string(f), Index: -1, To: to})
	m := w.in(measureOf(f))
	text := m.withUnit(m.fine(f.Shown(to)))
	now, known := w.beer.figures[f]
	if m.unit == "" || !known {
		v.Mend = fmt.Sprintf("%s %s or %s", f, text, lessOrMore(over))
		return
	}
	v.Mend = fmt.Sprintf("%s, to %s", signed(m, f.Shown(to-now.value)), text)
	if f != quantity.Bitterness && f != quantity.BeerColor {
		v.Mend = f.Label() + " " + v.Mend
	}
}

// signed prints a difference with its sign: "−9 IBU".
func signed(m measure, d float64) string {
	sign := "+"
	if d < 0 {
		sign = "−"
	}
	return sign + m.difference(d)
}

// mendIBU proposes another bitterness and lets the bittering charge take the
// difference.
func (w *work) mendIBU(to float64, v *Verdict) {
	now := w.beer.figures[quantity.Bitterness].value
	w.aim(quantity.Bitterness, to, to < now, v)
	best := -1
	for i, c := range w.beer.charges {
		if c.ibu != nil && c.meansIBU && (best < 0 || *c.ibu > *w.beer.charges[best].ibu) {
			best = i
		}
	}
	if best < 0 {
		return
	}
	c := w.beer.charges[best]
	after := *c.ibu + to - now
	if after < 0 || *c.ibu <= 0 {
		return
	}
	factor := after / *c.ibu
	v.Changes = append(v.Changes, c.scaled(factor))
	v.Mend += fmt.Sprintf(": %s %s → %s%s", c, w.in(measureOf(aimIBU)).number(*c.ibu, 1), w.ibuText(after), w.gramsText(c, factor))
}

// mendAlcohol finds the original gravity that gives the alcohol of the limit.
func (w *work) mendAlcohol(limit float64, over bool, v *Verdict) {
	low, high := 1.001, 1.200
	for range 60 {
		og := quantity.SG((low + high) / 2)
		fg, _ := w.beer.fg(og)
		if float64(ferment.Alcohol(og, fg)) > limit {
			high = float64(og)
		} else {
			low = float64(og)
		}
	}
	w.aim(quantity.OG, inward((low+high)/2, 4, over), over, v)
}

// bicarbonateEquivalent is the mass of bicarbonate per charge, mg/mEq: its
// molar mass, 61.017 g/mol.
const bicarbonateEquivalent = 61.017

// mendAlkalinity lets the bicarbonate take the difference.
func (w *work) mendAlkalinity(limit float64, v *Verdict) {
	now, known := w.beer.figures[quantity.Bicarbonate]
	over := limit < w.beer.figures[quantity.ResidualAlkalinity].value
	to := inward(now.value+(limit-w.beer.figures[quantity.ResidualAlkalinity].value)*bicarbonateEquivalent, 1, over)
	switch {
	case known && to >= 0:
		w.aim(quantity.Bicarbonate, to, over, v)
	case over:
		v.Mend = "less alkalinity, or more calcium"
	}
}

// mendYeast proposes the part of the recipe's span that lies inside, or the
// nearest span that does.
func (w *work) mendYeast(p places, trait string, s quantity.Span[float64], v *Verdict) {
	to := quantity.Span[float64]{Low: math.Max(s.Low, p.low), High: math.Min(s.High, p.high)}
	if to.Low > to.High {
		if s.Low > p.high {
			to = quantity.Span[float64]{Low: math.Max(p.low, p.high-(s.High-s.Low)), High: p.high}
		} else {
			to = quantity.Span[float64]{Low: p.low, High: math.Min(p.high, p.low+s.High-s.Low)}
		}
	}
	text := places{measure: p.measure, low: to.Low, high: to.High}.rangeText()
	factor := 1.0
	switch trait {
	case "attenuation":
		v.Mend, factor = "a yeast that attenuates "+text, 0.01
	case "temperature":
		v.Mend = "ferment at " + text
	default:
		v.Mend = "pitch " + text
	}
	v.Changes = []Change{{What: YeastTo, Name: trait, Index: -1, To: to.Low * factor, Upto: to.High * factor}}
}
