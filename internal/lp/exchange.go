// SPDX-License-Identifier: MIT

package lp

import "math"

// exchange makes the basic variable of row i non-basic and the non-basic one of
// position k basic. The values of the variables stay.
func (t *table) exchange(i, k int) {
	n := t.n
	row := t.cell[i*n : (i+1)*n]
	pivot := row[k]
	inverse := 1 / pivot
	for l := range row {
		row[l] *= -inverse
	}
	row[k] = inverse
	for r := range t.m {
		if r != i {
			addRow(t.cell[r*n:(r+1)*n], row, k)
		}
	}
	addRow(t.slope, row, k)
	leaving, entering := t.basic[i], t.other[k]
	t.basic[i], t.other[k] = entering, leaving
	t.where[entering], t.where[leaving] = ^i, k
	t.sinceRebuild++
}

// addRow replaces the variable of position k in target by its row.
func addRow(target, row []float64, k int) {
	factor := target[k]
	target[k] = 0
	if math.Abs(factor) < 1e-14 {
		return
	}
	target = target[:len(row)]
	for l, f := range row {
		target[l] += factor * f
	}
}

// rebuild computes the table of the present basis afresh from the rows, with
// the largest pivots first. Variables that turn out to depend on the others
// leave the basis.
func (t *table) rebuild() {
	var enter, leave []int // columns that must become basic, rows that must not
	for v := range t.n + t.m {
		switch {
		case v < t.n && t.where[v] < 0:
			enter = append(enter, v)
		case v >= t.n && t.where[v] >= 0:
			leave = append(leave, v)
		}
	}
	copy(t.cell, t.origin)
	for j := range t.n {
		t.other[j], t.where[j] = j, j
	}
	for i := range t.m {
		t.basic[i], t.where[t.n+i] = t.n+i, ^i
	}
	for len(enter) > 0 {
		a, b, size := t.largestCell(leave, enter)
		if size < 1e-11 {
			break
		}
		t.exchange(^t.where[leave[a]], t.where[enter[b]])
		leave = append(leave[:a], leave[a+1:]...)
		enter = append(enter[:b], enter[b+1:]...)
	}
	for _, v := range t.other {
		t.settle(v)
	}
	t.sinceRebuild = 0
	t.evaluate()
}

// largestCell finds the best pivot among rows and columns, as places in the lists.
func (t *table) largestCell(rows, columns []int) (a, b int, size float64) {
	for r, v := range rows {
		row := t.cell[^t.where[v]*t.n:]
		for c, w := range columns {
			if f := math.Abs(row[t.where[w]]); f > size {
				a, b, size = r, c, f
			}
		}
	}
	return a, b, size
}

// settle puts a non-basic variable at the nearer of its ends, or leaves it when
// it has none.
func (t *table) settle(v int) {
	low, high := t.low[v], t.high[v]
	switch {
	case math.IsInf(low, -1) && math.IsInf(high, 1):
	case t.x[v]-low <= high-t.x[v]:
		t.x[v] = low
	default:
		t.x[v] = high
	}
}

// move changes the non-basic variable of position k by step and all basic ones with it.
func (t *table) move(k int, step float64) {
	if step == 0 {
		return
	}
	t.x[t.other[k]] += step
	for i, v := range t.basic {
		if f := t.cell[i*t.n+k]; f != 0 {
			t.x[v] += f * step
		}
	}
}

// tolerance returns how far a variable may be beyond the given end.
func tolerance(end float64) float64 { return feasible * (1 + math.Abs(end)) }

// side returns -1 when v is below its low end, 1 when above its high end, else 0.
func (t *table) side(v int) float64 {
	switch {
	case t.x[v] < t.low[v]-tolerance(t.low[v]):
		return -1
	case t.x[v] > t.high[v]+tolerance(t.high[v]):
		return 1
	}
	return 0
}
