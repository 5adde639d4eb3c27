// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"fmt"
	"math"
)

// Range returns the room of each of the given columns: the least and the most
// it may be while all the others are free. Costs don't count. It returns
// [ErrInfeasible] when no point keeps all rows.
func Range(ctx context.Context, p *Problem, o Options, columns []int) ([]Span, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	for _, j := range columns {
		if j < 0 || j >= len(p.Columns) {
			return nil, fmt.Errorf("range of problem %q: there is no column %d", p.Name, j)
		}
	}
	t := newTable(ctx, p, o)
	perSolve := t.cap
	spans := make([]Span, len(columns))
	for i, j := range columns {
		low, exactLow, err := t.extreme(p, o, j, 1, perSolve)
		if err != nil {
			return nil, fmt.Errorf("range of problem %q: least of %s: %w", p.Name, p.columnName(j), err)
		}
		high, exactHigh, err := t.extreme(p, o, j, -1, perSolve)
		if err != nil {
			return nil, fmt.Errorf("range of problem %q: most of %s: %w", p.Name, p.columnName(j), err)
		}
		spans[i] = Span{Low: low, High: high, Exact: exactLow && exactHigh}
	}
	return spans, nil
}

// extreme returns the least (sign 1) or most (sign -1) of column j, starting
// where the table stands.
func (t *table) extreme(p *Problem, o Options, j int, sign float64, perSolve int) (float64, bool, error) {
	cost := make([]float64, t.n)
	cost[j] = sign
	t.cap = t.pivots + perSolve
	var s Solution
	var err error
	if p.hasIntegers() {
		s, err = branchAndBound(p, t.clone(), cost, o)
	} else {
		var status Status
		t.setCost(cost)
		status, err = t.optimise()
		s = t.report(p, status)
		if err == nil && s.X != nil && s.measure(p) > acceptable {
			s, err = t.solveCarefully(p)
			t.careful = false
		}
	}
	switch {
	case err != nil:
		return 0, false, err
	case s.Status == Infeasible:
		return 0, false, ErrInfeasible
	case s.Status == Unbounded:
		return -sign * math.Inf(1), true, nil
	case s.X == nil:
		return 0, false, fmt.Errorf("a cap was reached before any point was found")
	}
	return s.X[j], s.Status == Optimal, nil
}
