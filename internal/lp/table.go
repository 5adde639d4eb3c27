// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"math"
)

// A table is a problem in the middle of the simplex method. Its variables are
// the columns, 0 to n-1, and the activities of the rows, n to n+m-1. Of these m
// are basic: they are written as sums of the n others,
//
//	x[basic[i]] = Σ_k cell[i·n+k] · x[nonbasic[k]]
//
// and every non-basic variable stands at one of its ends (at 0 when it has
// none). Rows and columns are scaled by powers of two, so scaling loses nothing.
type table struct {
	ctx  context.Context
	m, n int

	origin []float64 // the scaled rows, m×n
	cell   []float64
	basic  []int
	other  []int // the non-basic variables
	where  []int // position of a variable: k when non-basic, ^i when basic

	low, high, x []float64 // for each variable, scaled
	cost         []float64 // for each column, scaled, the largest 1
	costScale    float64   // what the largest was
	slope        []float64 // for each non-basic position: cost of one unit more of it
	banned       []bool    // for each non-basic position: no usable pivot in this turn

	rowScale, columnScale []float64

	pivots, cap  int
	sinceRebuild int
	degenerate   int  // steps of length zero in a row
	bland        bool // choose by Bland's rule
	careful      bool // always choose by Bland's rule and rebuild often
	breaks       []breakpoint
}

// The tolerances, on the scaled problem.
const (
	feasible  = 1e-9  // how far a variable may be outside its ends, as a part of 1 + the end
	improving = 1e-9  // a slope smaller than this doesn't improve
	pivotable = 1e-9  // a cell smaller than this is no pivot
	standing  = 1e-12 // a step shorter than this is degenerate
	patience  = 25    // degenerate steps before Bland's rule takes over
	rebuildAt = 100   // exchanges after which the table is computed afresh
)

// newTable builds the table of p with all rows basic.
func newTable(ctx context.Context, p *Problem, o Options) *table {
	m, n := len(p.Rows), len(p.Columns)
	t := &table{
		ctx: ctx, m: m, n: n, cap: o.MaxPivots,
		origin: make([]float64, m*n), cell: make([]float64, m*n),
		basic: make([]int, m), other: make([]int, n), where: make([]int, n+m),
		low: make([]float64, n+m), high: make([]float64, n+m), x: make([]float64, n+m),
		cost: make([]float64, n), slope: make([]float64, n), banned: make([]bool, n),
	}
	if t.cap <= 0 {
		t.cap = 1000 + 100*(m+n)
		if p.hasIntegers() {
			t.cap *= 500
		}
	}
	for i, r := range p.Rows {
		for _, term := range r.Terms {
			t.origin[i*n+term.Column] = term.Factor
		}
	}
	t.scale()
	for j, c := range p.Columns {
		t.setColumn(j, c)
	}
	for i, r := range p.Rows {
		t.low[n+i], t.high[n+i] = r.Low*t.rowScale[i], r.High*t.rowScale[i]
	}
	t.reset()
	return t
}

// setColumn takes over the ends of a column; those of an integer move inwards
// to whole numbers, which can cross them.
func (t *table) setColumn(j int, c Column) {
	low, high := c.Low, c.High
	if c.Integer {
		low, high = math.Ceil(low-1e-9), math.Floor(high+1e-9)
	}
	t.low[j], t.high[j] = low/t.columnScale[j], high/t.columnScale[j]
}

// scale makes the cells of each row and each column of size 1 in the geometric
// mean of their largest and smallest, in a few turns.
func (t *table) scale() {
	t.rowScale, t.columnScale = ones(t.m), ones(t.n)
	for range 3 {
		for i := range t.m {
			t.rowScale[i] *= t.rescale(t.origin[i*t.n:(i+1)*t.n], 1, t.n)
		}
		for j := range t.n {
			if t.m > 0 {
				t.columnScale[j] *= t.rescale(t.origin[j:], t.n, t.m)
			}
		}
	}
}

// rescale multiplies count cells by a power of two and returns it.
func (t *table) rescale(cells []float64, stride, count int) float64 {
	least, most := math.Inf(1), 0.0
	for k := range count {
		if size := math.Abs(cells[k*stride]); size > 0 {
			least, most = min(least, size), max(most, size)
		}
	}
	if most == 0 {
		return 1
	}
	_, exponent := math.Frexp(math.Sqrt(least * most))
	factor := math.Ldexp(1, 1-exponent)
	for k := range count {
		cells[k*stride] *= factor
	}
	return factor
}

func ones(count int) []float64 {
	list := make([]float64, count)
	for i := range list {
		list[i] = 1
	}
	return list
}

// reset makes all rows basic and puts every column at its end nearest to 0.
func (t *table) reset() {
	copy(t.cell, t.origin)
	for j := range t.n {
		t.other[j], t.where[j] = j, j
		t.x[j] = min(max(0, t.low[j]), t.high[j])
	}
	for i := range t.m {
		t.basic[i], t.where[t.n+i] = t.n+i, ^i
	}
	t.sinceRebuild = 0
	t.evaluate()
}

// evaluate computes the basic variables from the others.
func (t *table) evaluate() {
	for i, v := range t.basic {
		sum := 0.0
		for k, f := range t.cell[i*t.n : (i+1)*t.n] {
			if f != 0 {
				sum += f * t.x[t.other[k]]
			}
		}
		t.x[v] = sum
	}
}

// setCost takes over the costs of the columns, brought to a largest of 1.
func (t *table) setCost(cost []float64) {
	t.costScale = 0
	for j, c := range cost {
		t.cost[j] = c * t.columnScale[j]
		t.costScale = max(t.costScale, math.Abs(t.cost[j]))
	}
	if t.costScale == 0 {
		t.costScale = 1
	}
	for j := range t.cost {
		t.cost[j] /= t.costScale
	}
}

// price computes the slopes of the cost.
func (t *table) price() {
	cost := t.cost
	for k, v := range t.other {
		t.slope[k] = 0
		if v < t.n {
			t.slope[k] = cost[v]
		}
	}
	for i, v := range t.basic {
		if v >= t.n || cost[v] == 0 {
			continue
		}
		for k, f := range t.cell[i*t.n : (i+1)*t.n] {
			t.slope[k] += cost[v] * f
		}
	}
}

// clone returns a copy that can go its own way.
func (t *table) clone() *table {
	c := *t
	for _, list := range []*[]float64{&c.cell, &c.low, &c.high, &c.x, &c.cost, &c.slope} {
		*list = append([]float64(nil), *list...)
	}
	for _, list := range []*[]int{&c.basic, &c.other, &c.where} {
		*list = append([]int(nil), *list...)
	}
	c.banned = make([]bool, c.n)
	c.breaks = nil
	return &c
}
