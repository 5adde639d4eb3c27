// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// hittingTurns caps the search for the smallest conflict.
const hittingTurns = 60

// Conflict returns rows out of the given ones that contradict each other,
// together with the other rows and the columns: without any one of them a point
// exists. It looks for the smallest such set as long as that is cheap. An empty
// answer means that the rows which were not given, or the columns, conflict
// among themselves. It returns [ErrFeasible] when there is no conflict.
func Conflict(ctx context.Context, p *Problem, o Options, rows []int) ([]int, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	rows = slices.Compact(slices.Sorted(slices.Values(rows)))
	for _, i := range rows {
		if i < 0 || i >= len(p.Rows) {
			return nil, fmt.Errorf("conflict in problem %q: there is no row %d", p.Name, i)
		}
	}
	feasible, err := feasibleWith(ctx, p, o, rows, rows)
	if err != nil {
		return nil, err
	}
	if feasible {
		return nil, ErrFeasible
	}
	suspects, err := smallestConflict(ctx, p, o, rows)
	if err != nil {
		return nil, err
	}
	return deletionFilter(ctx, p, o, rows, suspects)
}

// deletionFilter drops each suspect in turn and keeps it out when the rest
// still conflicts (J. W. Chinneck and E. W. Dravnieks, ORSA Journal on
// Computing 3 (1991) 157, from memory).
func deletionFilter(ctx context.Context, p *Problem, o Options, rows, suspects []int) ([]int, error) {
	kept := slices.Clone(suspects)
	for _, i := range suspects {
		at := slices.Index(kept, i)
		without := slices.Delete(slices.Clone(kept), at, at+1)
		feasible, err := feasibleWith(ctx, p, o, rows, without)
		if err != nil {
			return nil, err
		}
		if !feasible {
			kept = without
		}
	}
	return kept, nil
}

// feasibleWith says whether a point keeps the chosen ones of the given rows,
// and all rows not given.
func feasibleWith(ctx context.Context, p *Problem, o Options, rows, chosen []int) (bool, error) {
	q := p.openRows(rows, chosen)
	s, err := Solve(ctx, q, o)
	if err != nil {
		return false, fmt.Errorf("conflict in problem %q: %w", p.Name, err)
	}
	if s.Status == Stopped && s.X == nil {
		return false, fmt.Errorf("conflict in problem %q: a cap was reached before it was known whether %d rows conflict", p.Name, len(chosen))
	}
	return s.Status != Infeasible, nil
}

// openRows returns p without costs, and with the given rows open but the chosen ones.
func (p *Problem) openRows(rows, chosen []int) *Problem {
	q := &Problem{Name: p.Name, Columns: slices.Clone(p.Columns), Rows: slices.Clone(p.Rows)}
	for j := range q.Columns {
		q.Columns[j].Cost = 0
	}
	for _, i := range rows {
		if !slices.Contains(chosen, i) {
			q.Rows[i].Low, q.Rows[i].High = math.Inf(-1), math.Inf(1)
		}
	}
	return q
}

// smallestConflict looks for a conflict with the fewest rows. Every set of rows
// that has to give when some rows are held has a member in each conflict among
// the given ones. So the smallest set that hits all such sets is held next; when it conflicts
// itself, no conflict is smaller (A. Ignatiev and others, CP 2015, LNCS 9255,
// 173, from memory). When that takes too many turns it returns all rows.
func smallestConflict(ctx context.Context, p *Problem, o Options, rows []int) ([]int, error) {
	var corrections [][]int
	for range hittingTurns {
		held, err := smallestHittingSet(ctx, rows, corrections)
		if err != nil || held == nil && len(corrections) > 0 {
			return rows, err
		}
		prices := map[int]float64{}
		for _, i := range rows {
			if !slices.Contains(held, i) {
				prices[i] = 1 / p.Rows[i].size()
			}
		}
		r, err := Relax(ctx, p, o, prices)
		switch {
		case err != nil:
			return nil, err
		case r.Status == Infeasible:
			return held, nil
		case r.Solution.X == nil || len(r.Gives) == 0:
			return rows, nil
		}
		var gives []int
		for _, g := range r.Gives {
			gives = append(gives, g.Row)
		}
		corrections = append(corrections, gives)
	}
	return rows, nil
}

// size is the largest factor of a row, 1 when all are zero.
func (r *Row) size() float64 {
	most := 0.0
	for _, t := range r.Terms {
		most = max(most, math.Abs(t.Factor))
	}
	if most == 0 {
		return 1
	}
	return most
}

// smallestHittingSet returns the fewest rows of which at least one is in each
// set, or nil when that isn't cheap to find out.
func smallestHittingSet(ctx context.Context, rows []int, sets [][]int) ([]int, error) {
	p := &Problem{Name: "hitting set"}
	for range rows {
		p.AddColumn(Column{High: 1, Cost: 1, Integer: true})
	}
	for _, set := range sets {
		r := Row{Low: 1, High: math.Inf(1)}
		for _, i := range set {
			at, _ := slices.BinarySearch(rows, i)
			r.Terms = append(r.Terms, Term{Column: at, Factor: 1})
		}
		p.AddRow(r)
	}
	s, err := Solve(ctx, p, Options{MaxNodes: 500})
	if err != nil || s.Status != Optimal {
		return nil, err
	}
	var chosen []int
	for at, i := range rows {
		if s.X[at] > 0.5 {
			chosen = append(chosen, i)
		}
	}
	return chosen, nil
}
