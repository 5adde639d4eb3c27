// SPDX-License-Identifier: MIT

package formulate

import (
	"math"

	"gyle/internal/lp"
	"gyle/quantity"
)

// step is the step of shares; 0: any.
func (w *work) step() float64 {
	switch {
	case w.wish.Step < 0:
		return 0
	case w.wish.Step == 0:
		return float64(UsualStep)
	}
	return float64(w.wish.Step)
}

// weigh turns a draft into one in practical steps: shares in whole steps, hops
// as they are weighed. The steps are chosen by whole numbers that keep every
// rule, as near as possible to the draft. Where that can't be, finer steps are
// tried; exact is the share of the step that was kept.
func (w *work) weigh(d draft) (draft, bool) {
	shares, ok := w.wholeShares(&d, w.step())
	if !ok {
		return d, false
	}
	doses, ok := w.wholeDoses(&d)
	if !ok {
		return d, false
	}
	d.shares, d.doses = shares, doses
	return d, true
}

// wholeShares returns the shares in whole steps that are nearest to those of d.
func (w *work) wholeShares(d *draft, step float64) ([]float64, bool) {
	if step <= 0 || w.isStart(d) {
		return d.shares, true
	}
	for _, reach := range []float64{1, 4, math.Inf(1)} {
		s := w.gristSheet(d.ds, quantity.Exactly(d.og), nil)
		for i := range w.columns {
			s.inSteps(i, d.shares[i], step, reach, 1)
		}
		if x, ok := w.solveWhole(s); ok {
			shares := make([]float64, len(w.columns))
			for i := range shares {
				shares[i] = math.Round(x[i]/step) * step
			}
			return shares, true
		}
	}
	return nil, false
}

// inSteps asks that a column is a whole number of steps, not farther than reach
// steps from x, and as near to it as may be.
func (s *sheet) inSteps(i int, x, step, reach, price float64) {
	c := lp.Column{Name: "steps", Integer: true, Low: 0, High: math.Ceil(s.Columns[i].High / step)}
	if !math.IsInf(reach, 0) {
		c.Low = math.Max(c.Low, math.Floor(x/step+1e-9)-reach+1)
		c.High = math.Min(c.High, math.Ceil(x/step-1e-9)+reach-1)
		if x < step/1000 {
			c.High = reach - 1 // what isn't there stays away
		}
	}
	k := s.AddColumn(c)
	s.AddRow(lp.Row{Name: "whole steps", Low: 0, High: 0, Terms: []lp.Term{{Column: i, Factor: 1}, {Column: k, Factor: -step}}})
	s.distance([]lp.Term{{Column: k, Factor: step}}, x, price)
}

// Steps of hops where no house says what a dose weighs (common practice).
const (
	usualIBUStep  = 0.5  // IBU
	usualDoseStep = 0.05 // g/L
)

// hopStep is the step of the dose of a charge, g/L; 0: any.
func (w *work) hopStep(i int) float64 {
	c := w.charges[i]
	switch {
	case w.wish.HopStep < 0:
		return 0
	case w.wish.House != nil:
		step := w.wish.HopStep
		if step == 0 {
			step = UsualHopStep
		}
		return float64(step) / w.massPerDose(i)
	case c.byDose || c.yield <= 0:
		return usualDoseStep
	}
	return usualIBUStep / c.yield
}

// fineStep is the finest share that people weigh by. Common practice.
const fineStep = 0.001

// isStart reports whether a draft has the grist of the start, in shares that
// somebody weighed before.
func (w *work) isStart(d *draft) bool {
	if w.wish.Objective != Near {
		return false
	}
	for i, c := range w.columns {
		share := w.startShare(c)
		if math.Abs(d.shares[i]-share) > 1e-6 || math.Abs(share/fineStep-math.Round(share/fineStep)) > 1e-6 {
			return false
		}
	}
	return true
}

// wholeDoses returns the doses in steps, and in whole sachets where a hop comes
// in them, that are nearest to those of d.
func (w *work) wholeDoses(d *draft) ([]float64, bool) {
	for _, reach := range []float64{1, 3, math.Inf(1)} {
		s := w.hopSheet(d.ds, d.og, nil)
		for i := range w.charges {
			if step := w.hopStep(i); step > 0 {
				s.inSteps(i, d.doses[i], step, reach, math.Max(w.charges[i].yield, 1))
			} else {
				s.distance([]lp.Term{{Column: i, Factor: 1}}, d.doses[i], math.Max(w.charges[i].yield, 1))
			}
		}
		s.sachets()
		if x, ok := w.solveWhole(s); ok {
			doses := x[:len(w.charges)]
			for i := range doses {
				if step := w.hopStep(i); step > 0 {
					doses[i] = math.Round(doses[i]/step) * step
				}
			}
			return doses, true
		}
	}
	return nil, false
}

// sachets asks for whole sachets of the hops that come in them.
func (s *sheet) sachets() {
	for h, hop := range s.w.wish.Hops {
		if hop.Sachet <= 0 || s.w.wish.House == nil {
			continue
		}
		k := s.AddColumn(lp.Column{Name: "sachets", High: 1000, Integer: true})
		mass := s.terms(func(i int) float64 {
			if s.w.charges[i].hop == h {
				return s.w.massPerDose(i)
			}
			return 0
		})
		s.AddRow(lp.Row{Name: "whole sachets", Low: 0, High: 0, Terms: append(mass, lp.Term{Column: k, Factor: -float64(hop.Sachet)})})
	}
}

// mostNodes bounds the search for whole numbers.
const mostNodes = 3000

// solveWhole solves a sheet with whole numbers; a good point will do.
func (w *work) solveWhole(s *sheet) ([]float64, bool) {
	w.solves++
	got, err := lp.Solve(w.ctx, &s.Problem, lp.Options{MaxNodes: mostNodes, Gap: 0.02})
	if err != nil {
		w.fail(err)
		return nil, false
	}
	return got.X, got.X != nil && (got.Status == lp.Optimal || got.Status == lp.Stopped)
}
