// SPDX-License-Identifier: MIT

package lp

import "math"

// repair takes some steps of the dual simplex method: it starts at a point that
// would be best if some basic variables weren't outside their ends, as after a
// branch, and brings them inside without losing that. It may give up at any
// time: [table.optimise] comes after it and decides.
func (t *table) repair() error {
	t.price()
	for range 10 + 2*(t.m+t.n) {
		row, side := t.furthestOutside()
		if row < 0 {
			return nil
		}
		k := t.dualEnter(row, side)
		if k < 0 {
			return nil
		}
		v := t.basic[row]
		end := t.low[v]
		if side > 0 {
			end = t.high[v]
		}
		t.move(k, (end-t.x[v])/t.cell[row*t.n+k])
		t.x[v] = end
		t.exchange(row, k)
		on, err := t.turn(1)
		if err != nil || !on {
			return err
		}
		if t.due() {
			t.rebuild()
			t.price()
		}
	}
	return nil
}

// furthestOutside returns the row whose basic variable is furthest outside its ends.
func (t *table) furthestOutside() (row int, side float64) {
	row = -1
	most := 0.0
	for i, v := range t.basic {
		if s := t.side(v); s != 0 {
			if off := outside(t.x[v], t.low[v], t.high[v]); off > most {
				row, side, most = i, s, off
			}
		}
	}
	return row, side
}

// dualEnter returns the position that brings the basic variable of a row back
// at the least cost per unit, and among nearly equal ones the largest pivot.
func (t *table) dualEnter(row int, side float64) int {
	best, size, chosen := math.Inf(1), 0.0, -1
	for k, f := range t.cell[row*t.n : (row+1)*t.n] {
		v := t.other[k]
		if math.Abs(f) < 1e-7 || t.low[v] == t.high[v] {
			continue
		}
		up := f*side < 0 // whether the variable has to grow
		if (up && t.x[v] >= t.high[v]) || (!up && t.x[v] <= t.low[v]) {
			continue
		}
		ratio := math.Abs(t.slope[k]) / math.Abs(f)
		if ratio < best-standing || (ratio < best+standing && math.Abs(f) > size) {
			best, size, chosen = min(ratio, best), math.Abs(f), k
		}
	}
	return chosen
}
