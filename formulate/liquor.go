// SPDX-License-Identifier: MIT

package formulate

import (
	"math"

	"gyle/internal/lp"
	"gyle/quantity"
	chem "gyle/science/water"
)

// plainFigures are the figures that a recipe simply aims at: the ions of the
// liquor, the mash pH, the carbonation. The values are where they may lie; wide
// limits of brewing (estimate).
var plainFigures = []struct {
	figure quantity.Figure
	span   span
	ion    chem.Ion // of the ions
}{
	{quantity.Calcium, span{Low: 0, High: 500}, chem.Calcium},
	{quantity.Magnesium, span{Low: 0, High: 200}, chem.Magnesium},
	{quantity.Sodium, span{Low: 0, High: 400}, chem.Sodium},
	{quantity.Chloride, span{Low: 0, High: 600}, chem.Chloride},
	{quantity.Sulfate, span{Low: 0, High: 1000}, chem.Sulfate},
	{quantity.Bicarbonate, span{Low: 0, High: 600}, chem.Bicarbonate},
	{quantity.MashPH, span{Low: 4.8, High: 6.2}, 0},
	{quantity.CO2, span{Low: 0.5, High: 5}, 0},
}

func placeOf(f quantity.Figure) int {
	for i := range plainFigures {
		if plainFigures[i].figure == f {
			return i
		}
	}
	return -1
}

// usualChloride is a middling content by which the margin of a ratio is
// measured, mg/L. Estimate.
const usualChloride = 60

// liquor finds the figures that a recipe simply aims at: in the middle of what
// the rules leave, or near those of the start. What no rule and no start speaks
// of isn't known.
func (w *work) liquor(ds []demand) (map[quantity.Figure]float64, bool) {
	s := w.newSheet("liquor", len(plainFigures), 0)
	for i, f := range plainFigures {
		s.Columns[i].Low, s.Columns[i].High = f.span.Low, f.span.High
	}
	known := make([]bool, len(plainFigures))
	near := w.startLiquor()
	if w.wish.Objective == Near {
		s.near(known, near)
	} else {
		s.withMargin()
	}
	for i := range ds {
		if ds[i].kind == onFigure {
			s.plain(&ds[i], known)
		}
	}
	x, ok := w.solve(s)
	if ok && s.t >= 0 {
		x, ok = w.evenLiquor(ds, x[s.t])
	}
	if !ok {
		return nil, false
	}
	out := map[quantity.Figure]float64{}
	for i, f := range plainFigures {
		if value, is := near[f.figure]; is && !known[i] {
			out[f.figure] = value
		} else if known[i] {
			out[f.figure] = x[i]
		}
	}
	return out, true
}

// evenLiquor gives each rule as much margin as it may have beside the least.
func (w *work) evenLiquor(ds []demand, least float64) ([]float64, bool) {
	s := w.newSheet("liquor", len(plainFigures), 0)
	for i, f := range plainFigures {
		s.Columns[i].Low, s.Columns[i].High = f.span.Low, f.span.High
	}
	s.withOwn(least * 0.999)
	known := make([]bool, len(plainFigures))
	for i := range ds {
		if ds[i].kind == onFigure {
			s.plain(&ds[i], known)
		}
	}
	return w.solve(s)
}

// near asks for as little as possible between the figures and those of a start.
func (s *sheet) near(known []bool, near map[quantity.Figure]float64) {
	for i, f := range plainFigures {
		if value, is := near[f.figure]; is {
			known[i] = true
			s.distance([]lp.Term{{Column: i, Factor: 1}}, value, 1/(f.span.High-f.span.Low))
		}
	}
}

// distance adds what a sum lies off a value, times a price, to the cost.
func (s *sheet) distance(sum []lp.Term, value, price float64) {
	over := s.AddColumn(lp.Column{Name: "over", High: math.Inf(1), Cost: price})
	under := s.AddColumn(lp.Column{Name: "under", High: math.Inf(1), Cost: price})
	row := append([]lp.Term{{Column: over, Factor: -1}, {Column: under, Factor: 1}}, sum...)
	s.AddRow(lp.Row{Name: "distance", Low: value, High: value, Terms: row})
}

// plain adds a demand on the liquor, the mash pH or the carbonation.
func (s *sheet) plain(d *demand, known []bool) {
	if i := placeOf(d.figure); i >= 0 {
		known[i] = true
		s.between(d, []lp.Term{{Column: i, Factor: 1}}, d.low, d.high, s.w.width(d))
		return
	}
	low, high := d.low, d.high
	if high-low > 1e-3 { // what follows from two numbers is kept off its ends by more than they are rounded
		const inset = 1e-6
		low, high = low+inset*math.Max(math.Abs(finite(low)), 1), high-inset*math.Max(math.Abs(finite(high)), 1)
	}
	switch d.figure {
	case quantity.SulfateToChloride:
		so4, cl := placeOf(quantity.Sulfate), placeOf(quantity.Chloride)
		known[so4], known[cl] = true, true
		s.AddRow(lp.Row{Name: "some chloride", Low: 1, High: math.Inf(1), Terms: []lp.Term{{Column: cl, Factor: 1}}})
		ratio := func(end float64) []lp.Term {
			return []lp.Term{{Column: so4, Factor: 1}, {Column: cl, Factor: -end}}
		}
		width := s.w.width(d) * usualChloride
		if !math.IsInf(low, 0) {
			s.between(d, ratio(low), 0, math.Inf(1), width)
		}
		if !math.IsInf(high, 0) {
			s.between(d, ratio(high), math.Inf(-1), 0, width)
		}
	case quantity.ResidualAlkalinity:
		var sum []lp.Term
		for _, f := range []quantity.Figure{quantity.Calcium, quantity.Magnesium, quantity.Bicarbonate} {
			i := placeOf(f)
			known[i] = true
			var one chem.Ions
			one[plainFigures[i].ion] = 1
			perUnit := float64(chem.ResidualAlkalinity(one))
			sum = append(sum, lp.Term{Column: i, Factor: perUnit})
		}
		s.between(d, sum, low, high, s.w.width(d))
	}
}

// startLiquor returns what the start aims at.
func (w *work) startLiquor() map[quantity.Figure]float64 {
	out := map[quantity.Figure]float64{}
	r := w.wish.Start
	if r == nil {
		return out
	}
	if r.Mash.PH != nil {
		out[quantity.MashPH] = float64(*r.Mash.PH)
	}
	if r.Aims.CO2 != nil {
		out[quantity.CO2] = float64(*r.Aims.CO2)
	}
	if r.Water == nil {
		return out
	}
	for f, c := range map[quantity.Figure]*quantity.Concentration{
		quantity.Calcium: r.Water.Ca, quantity.Magnesium: r.Water.Mg, quantity.Sodium: r.Water.Na,
		quantity.Chloride: r.Water.Cl, quantity.Sulfate: r.Water.SO4, quantity.Bicarbonate: r.Water.HCO3,
	} {
		if c != nil {
			out[f] = float64(*c)
		}
	}
	return out
}
