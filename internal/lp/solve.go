// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"fmt"
	"math"
)

// Solve returns a best point of p. The error is about p itself (a bound that is
// not a number, a column that doesn't exist), about an answer that doesn't hold
// in the final check, or ctx's; that there is no point is a status.
func Solve(ctx context.Context, p *Problem, o Options) (Solution, error) {
	if err := p.check(); err != nil {
		return Solution{}, err
	}
	if err := ctx.Err(); err != nil {
		return Solution{Status: Stopped}, err
	}
	t := newTable(ctx, p, o)
	cost := make([]float64, len(p.Columns))
	for j, c := range p.Columns {
		cost[j] = c.Cost
	}
	if p.hasIntegers() {
		return branchAndBound(p, t, cost, o)
	}
	t.setCost(cost)
	status, err := t.optimise()
	s := t.report(p, status)
	if err != nil || s.X == nil || s.measure(p) <= acceptable {
		return s, err
	}
	return t.solveCarefully(p)
}

// solveCarefully solves once more, slowly, after an answer failed the final check.
func (t *table) solveCarefully(p *Problem) (Solution, error) {
	t.careful = true
	t.reset()
	t.cap += t.pivots
	status, err := t.optimise()
	s := t.report(p, status)
	if err == nil && s.X != nil {
		if off := s.measure(p); off > acceptable {
			err = fmt.Errorf("check the answer of problem %q: it is off by %g", p.Name, off)
		}
	}
	return s, err
}

// report reads the solution of a linear problem off the table.
func (t *table) report(p *Problem, status Status) Solution {
	s := Solution{Status: status, Pivots: t.pivots, Nodes: 1}
	switch status {
	case Infeasible:
		s.Duals, s.Reduced = t.proof(), nil
	case Optimal:
		s.X = t.point()
		s.Duals, s.Reduced = t.duals()
	case Stopped:
		if !t.anyOutside() {
			s.X = t.point()
			s.Gap = math.Inf(1)
		}
	}
	if s.X != nil {
		s.measure(p)
	}
	return s
}

// point returns the columns in the units of the problem.
func (t *table) point() []float64 {
	x := make([]float64, t.n)
	for j := range x {
		x[j] = min(max(t.x[j], t.low[j]), t.high[j]) * t.columnScale[j]
	}
	return x
}

// duals returns the slopes of the rows and columns in the units of the problem.
func (t *table) duals() (rows, columns []float64) {
	rows, columns = make([]float64, t.m), make([]float64, t.n)
	for k, v := range t.other {
		if v < t.n {
			columns[v] = t.slope[k] * t.costScale / t.columnScale[v]
		} else {
			rows[v-t.n] = t.slope[k] * t.costScale * t.rowScale[v-t.n]
		}
	}
	return rows, columns
}

// proof returns the multipliers of the rows that contradict each other, after
// phase 1 has ended without a feasible point (J. Farkas, 1902).
func (t *table) proof() []float64 {
	y := make([]float64, t.m)
	for k, v := range t.other {
		if v >= t.n && math.Abs(t.slope[k]) > improving {
			y[v-t.n] = t.slope[k] * t.rowScale[v-t.n]
		}
	}
	for _, v := range t.basic {
		if v >= t.n {
			y[v-t.n] = -t.side(v) * t.rowScale[v-t.n]
		}
	}
	return y
}
