// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"errors"
)

var errNotBuilt = errors.New("not built yet")

// Solve returns a best point of p. The error is about p itself (a bound that is
// not a number, a column that doesn't exist), about an answer that doesn't hold
// in the final check, or ctx's; that there is no point is a status.
func Solve(ctx context.Context, p *Problem, o Options) (Solution, error) {
	return Solution{}, errNotBuilt
}

// Range returns the room of each of the given columns: the least and the most
// it may be while all the others are free. Costs don't count. It returns
// [ErrInfeasible] when no point keeps all rows.
func Range(ctx context.Context, p *Problem, o Options, columns []int) ([]Span, error) {
	return nil, errNotBuilt
}

// Relax returns the least costly way to let rows out of their ends so that a
// point exists. Prices gives, for the index of each row that may give, the
// price of one unit of its activity; the other rows and all columns stay as
// they are. The costs of the columns don't count.
func Relax(ctx context.Context, p *Problem, o Options, prices map[int]float64) (Relaxation, error) {
	return Relaxation{}, errNotBuilt
}

// Conflict returns rows out of the given ones that contradict each other,
// together with the other rows and the columns: without any one of them a point
// exists. It looks for the smallest such set as long as that is cheap. An empty
// answer means that the rows which were not given, or the columns, conflict
// among themselves. It returns [ErrFeasible] when there is no conflict.
func Conflict(ctx context.Context, p *Problem, o Options, rows []int) ([]int, error) {
	return nil, errNotBuilt
}
