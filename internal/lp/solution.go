// SPDX-License-Identifier: MIT

package lp

import "errors"

// Options bound the work. The zero value suits problems of a recipe's size.
type Options struct {
	// MaxPivots caps the pivots of one call of [Solve], and of each end of each
	// column of [Range]. Zero: 1000 + 100·(rows + columns), and 500 times that
	// when there are integers.
	MaxPivots int

	// MaxNodes caps the nodes of branch and bound. Zero: 50 000.
	MaxNodes int

	// Gap ends branch and bound as soon as the best known point is proven to be
	// within this part of the best possible one: 0.01 for 1 %. Zero: 1e-9.
	Gap float64
}

// Status says how a solve ended.
type Status int

const (
	// Optimal: X is a best point.
	Optimal Status = iota + 1
	// Infeasible: no point keeps all rows and bounds.
	Infeasible
	// Unbounded: the cost can be made as low as one likes.
	Unbounded
	// Stopped: a cap was reached. X is the best point known, or nil.
	Stopped
)

// String returns the status as a word.
func (s Status) String() string {
	switch s {
	case Optimal:
		return "optimal"
	case Infeasible:
		return "infeasible"
	case Unbounded:
		return "unbounded"
	case Stopped:
		return "stopped"
	}
	return "unknown"
}

// A Solution is what [Solve] found.
type Solution struct {
	Status Status
	Value  float64   // the sum of Cost·X; meaningful when X is not nil
	X      []float64 // for each column; nil unless a point is known

	// Activity is the weighted sum of each row at X.
	Activity []float64

	// Duals hold, for each row, what one unit more of its binding end would add
	// to Value: positive when the low end binds, negative when the high end
	// binds, zero when neither does. With integers they are those of the
	// linear problem in which the integers are fixed as in X.
	//
	// When the status is Infeasible and there are no integers, they are the
	// proof instead: the sum of Duals·row can't reach, for any X between the
	// ends of the columns, the least that the ends of the rows ask of it. Rows
	// with a zero have no part in the contradiction.
	Duals []float64

	// Reduced holds, for each column, Cost minus the sum of Duals·Factor: what
	// one unit more of the column would add to Value. Positive only at Low,
	// negative only at High; of either sign for an integer.
	Reduced []float64

	// Worst is the largest amount by which X is outside an end of a row or a
	// column, or off a whole number, computed from the problem as given.
	Worst float64

	Pivots int     // simplex steps
	Nodes  int     // nodes of branch and bound; 1 without integers
	Gap    float64 // how far Value may be from the best possible, as a part of it
}

// ErrInfeasible is returned by [Range] when no point keeps all rows.
var ErrInfeasible = errors.New("no point keeps all rows")

// A Span is the room of a column: the least and the most it may be. An end is
// infinite when nothing bounds it.
type Span struct {
	Low, High float64
	Exact     bool // false: a cap was reached, the room is at least this wide
}
