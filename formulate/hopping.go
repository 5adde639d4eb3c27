// SPDX-License-Identifier: MIT

package formulate

import (
	"math"

	"gyle/internal/lp"
	"gyle/quantity"
)

// mostDose is the largest dose of one charge that is looked at, g/L. Estimate:
// beyond what any style asks for.
const mostDose = 30

// hopSheet writes the rules of the hops. The bitterness of a beer is the sum of
// what its charges give, each in proportion to its dose. An original gravity of
// 0 leaves the ratio of bitterness to gravity out.
func (w *work) hopSheet(ds []demand, og float64, margin func(*sheet)) *sheet {
	s := w.newSheet("hops", len(w.charges), mostDose)
	if margin != nil {
		margin(s)
	}
	bitterness := s.terms(func(i int) float64 { return w.charges[i].yield })
	for i := range ds {
		d := &ds[i]
		switch d.kind {
		case onDose:
			s.between(d, s.terms(d.picked), d.low, d.high, w.width(d))
		case onCharges:
			s.AddRow(lp.Row{Name: d.Phrase, Low: math.Inf(-1), High: 0, Terms: s.terms(func(i int) float64 { return 1 - d.picked(i) })})
		case onIBUFrom:
			s.ibuFrom(d)
		case onHopStock:
			s.AddRow(lp.Row{Name: d.Phrase, Low: math.Inf(-1), High: d.high, Terms: s.terms(func(i int) float64 {
				return d.picked(i) * w.massPerDose(i)
			})})
		case onFigure:
			switch {
			case d.figure == quantity.Bitterness:
				s.between(d, bitterness, d.low, d.high, w.width(d))
			case d.figure == quantity.BUGU && og > 0:
				points := quantity.SG(og).Points()
				s.between(d, bitterness, d.low*points, d.high*points, w.width(d)*points)
			}
		}
	}
	return s
}

// massPerDose is the kg that 1 g/L of a charge weighs in this brew.
func (w *work) massPerDose(i int) float64 {
	if w.charges[i].dry() {
		return float64(w.collected) / 1000
	}
	return float64(w.knockOut) / 1000
}

// ibuFrom asks a part of the bitterness of some charges. Its margin is measured
// at a middling bitterness.
func (s *sheet) ibuFrom(d *demand) {
	const usualIBU = 30 // estimate
	part := func(end float64) []lp.Term {
		return s.terms(func(i int) float64 { return s.w.charges[i].yield * (d.picked(i) - end) })
	}
	width := s.w.width(d) * usualIBU
	if !math.IsInf(d.low, 0) {
		s.between(d, part(d.low), 0, math.Inf(1), math.Min(width, (1-d.low)*usualIBU))
	}
	if !math.IsInf(d.high, 0) {
		s.between(d, part(d.high), math.Inf(-1), 0, width)
	}
}

// bitternessRange returns the range of bitterness that the rules of the hops
// leave, without regard to gravity.
func (w *work) bitternessRange(ds []demand) (span, bool) {
	var out span
	for _, sign := range []float64{1, -1} {
		s := w.hopSheet(ds, 0, nil)
		for i := range s.n {
			s.Columns[i].Cost = sign * w.charges[i].yield
		}
		x, ok := w.solve(s)
		if !ok {
			return out, false
		}
		if ibu := w.bitterness(x); sign > 0 {
			out.Low = ibu
		} else {
			out.High = ibu
		}
	}
	return out, true
}

func (w *work) bitterness(doses []float64) float64 {
	sum := 0.0
	for i := range w.charges {
		sum += w.charges[i].yield * doses[i]
	}
	return sum
}

// solve returns a best point of a sheet.
func (w *work) solve(s *sheet) ([]float64, bool) {
	w.solves++
	got, err := lp.Solve(w.ctx, &s.Problem, lp.Options{})
	if err != nil {
		w.fail(err)
		return nil, false
	}
	ok := got.X != nil && (got.Status == lp.Optimal || got.Status == lp.Stopped)
	return got.X, ok
}
