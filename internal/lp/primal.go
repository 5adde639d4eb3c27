// SPDX-License-Identifier: MIT

package lp

import (
	"cmp"
	"math"
	"slices"
)

// optimise brings the table to a best point, from wherever it stands.
func (t *table) optimise() (Status, error) {
	for range 20 {
		status, err := t.reachFeasible()
		if status != Optimal || err != nil {
			return status, err
		}
		t.price()
		status, err = t.descend()
		if status != Optimal || err != nil {
			return status, err
		}
		if t.sinceRebuild > 0 && (t.drifted() || t.careful) {
			t.rebuild()
		}
		if !t.anyOutside() {
			t.price()
			return Optimal, nil
		}
	}
	return Stopped, nil
}

// drifted says whether the basic variables no longer agree with the rows as
// they were, which is the sum of the roundings since the last rebuild.
func (t *table) drifted() bool {
	for i := range t.m {
		sum, size := 0.0, 1.0
		for j, f := range t.origin[i*t.n : (i+1)*t.n] {
			if f != 0 {
				sum += f * t.x[j]
				size = max(size, math.Abs(f*t.x[j]))
			}
		}
		if math.Abs(sum-t.x[t.n+i]) > 1e-11*size {
			return true
		}
	}
	return false
}

func (t *table) anyOutside() bool {
	for _, v := range t.basic {
		if t.side(v) != 0 {
			return true
		}
	}
	return false
}

// turn is called once for each pivot: it counts, looks at the caps and rebuilds
// the table when it is due. It says whether to go on.
func (t *table) turn(step float64) (bool, error) {
	t.pivots++
	if t.pivots%64 == 0 {
		if err := t.ctx.Err(); err != nil {
			return false, err
		}
	}
	clear(t.banned)
	if math.Abs(step) <= standing {
		t.degenerate++
	} else {
		t.degenerate = 0
	}
	t.bland = t.careful || t.degenerate > patience
	return t.pivots < t.cap, nil
}

// due says whether the table should be computed afresh.
func (t *table) due() bool {
	return t.sinceRebuild >= rebuildAt || (t.careful && t.sinceRebuild >= rebuildAt/5)
}

// enter chooses the non-basic position to change and the direction, by the
// steepest slope or, under Bland's rule, the first variable. It returns -1 when
// no change improves.
func (t *table) enter() (k int, direction float64) {
	k = -1
	best := improving
	for l, d := range t.slope {
		v := t.other[l]
		if t.banned[l] || t.low[v] == t.high[v] || math.Abs(d) <= improving {
			continue
		}
		if (d < 0 && t.x[v] >= t.high[v]) || (d > 0 && t.x[v] <= t.low[v]) {
			continue
		}
		switch {
		case t.bland:
			if k < 0 || v < t.other[k] {
				k = l
			}
		case math.Abs(d) > best:
			k, best = l, math.Abs(d)
		}
	}
	if k >= 0 {
		direction = -math.Copysign(1, t.slope[k])
	}
	return k, direction
}

// reachFeasible is phase 1: it brings all variables between their ends, by
// making the sum of what they are outside smaller and smaller. Optimal means
// that it has; Infeasible, that the slopes prove it can't.
func (t *table) reachFeasible() (Status, error) {
	t.degenerate, t.bland = 0, t.careful
	clear(t.banned)
	certain := t.sinceRebuild == 0
	for {
		if !t.priceOutside() {
			return Optimal, nil
		}
		k, direction := t.enter()
		if k < 0 {
			if certain {
				return Infeasible, nil
			}
			t.rebuild()
			clear(t.banned)
			certain = true
			continue
		}
		step, i, end := t.longStep(k, direction)
		if i == none {
			t.banned[k] = true
			continue
		}
		certain = false
		t.take(k, i, step, end)
		on, err := t.turn(step)
		if err != nil || !on {
			return Stopped, err
		}
		if t.due() {
			t.rebuild()
		}
		certain = t.sinceRebuild == 0
	}
}

// priceOutside computes the slopes of the sum of what is outside, and says
// whether anything is.
func (t *table) priceOutside() bool {
	clear(t.slope)
	found := false
	for i, v := range t.basic {
		side := t.side(v)
		if side == 0 {
			continue
		}
		found = true
		for k, f := range t.cell[i*t.n : (i+1)*t.n] {
			t.slope[k] += side * f
		}
	}
	return found
}

// A breakpoint is a step at which a basic variable reaches an end, and by how
// much that changes the slope of the sum of what is outside.
type breakpoint struct {
	step, size, end float64
	row             int
}

// none and flip stand for rows: no row stops the step, or the entering variable's own other end does.
const (
	none = -1
	flip = -2
)

// longStep looks how far position k may go so that the sum of what is outside
// falls all the way. It passes breakpoints as long as the slope stays negative.
func (t *table) longStep(k int, direction float64) (step float64, row int, end float64) {
	t.listBreaks(k, direction)
	slices.SortFunc(t.breaks, func(a, b breakpoint) int {
		if c := cmp.Compare(a.step, b.step); c != 0 {
			return c
		}
		if c := cmp.Compare(b.size, a.size); c != 0 && !t.bland {
			return c
		}
		return cmp.Compare(t.basic[a.row], t.basic[b.row])
	})
	own := t.high[t.other[k]] - t.low[t.other[k]]
	slope := -math.Abs(t.slope[k])
	row = none
	best := 0.0
	for _, b := range t.breaks {
		if b.step > own {
			break
		}
		if b.size > 1e-6*best { // a much smaller pivot is not worth the longer step
			step, row, end, best = b.step, b.row, b.end, max(best, b.size)
		}
		slope += b.size
		if slope >= 0 || t.bland {
			return step, row, end
		}
	}
	if !math.IsInf(own, 1) {
		return own, flip, 0
	}
	return step, row, end
}

// listBreaks collects the breakpoints of position k in a direction.
func (t *table) listBreaks(k int, direction float64) {
	t.breaks = t.breaks[:0]
	for i, v := range t.basic {
		f := t.cell[i*t.n+k] * direction
		size := math.Abs(f)
		if size < pivotable {
			continue
		}
		near, far := t.low[v], t.high[v] // in the order in which they are met
		if f < 0 {
			near, far = far, near
		}
		outside := t.side(v)
		if outside*f < 0 && !math.IsInf(near, 0) {
			t.breaks = append(t.breaks, breakpoint{max(0, (near-t.x[v])/f), size, near, i})
		}
		if outside*f <= 0 && !math.IsInf(far, 0) {
			t.breaks = append(t.breaks, breakpoint{max(0, (far-t.x[v])/f), size, far, i})
		}
	}
}

// take makes a step of position k: up to its other end, or until the basic
// variable of a row reaches the given end and leaves the basis.
func (t *table) take(k, row int, step, end float64) {
	direction := -math.Copysign(1, t.slope[k])
	v := t.other[k]
	t.move(k, direction*step)
	if row == flip {
		t.x[v] = t.high[v]
		if direction < 0 {
			t.x[v] = t.low[v]
		}
		return
	}
	t.x[t.basic[row]] = end
	t.exchange(row, k)
}

// descend is phase 2: from a feasible point it goes down the slopes to a best one.
func (t *table) descend() (Status, error) {
	t.degenerate, t.bland = 0, t.careful
	clear(t.banned)
	for {
		k, direction := t.enter()
		if k < 0 {
			return Optimal, nil
		}
		step, row, end := t.firstStop(k, direction)
		if row == none {
			if t.sinceRebuild > 0 {
				t.rebuild()
				t.price()
				if t.anyOutside() {
					return Optimal, nil // the caller goes back to phase 1
				}
				continue
			}
			return Unbounded, nil
		}
		t.take(k, row, step, end)
		on, err := t.turn(step)
		if err != nil || !on {
			return Stopped, err
		}
		if t.due() {
			t.rebuild()
			t.price()
			if t.anyOutside() {
				return Optimal, nil
			}
		}
	}
}

// firstStop looks how far position k may go with all variables staying between
// their ends. Among rows that stop it at nearly the same step it takes the
// largest pivot (P. M. J. Harris, Mathematical Programming 5 (1973) 1, from
// memory), under Bland's rule the first variable.
func (t *table) firstStop(k int, direction float64) (step float64, row int, end float64) {
	furthest := math.Inf(1) // with every end let out by its tolerance
	t.breaks = t.breaks[:0]
	for i, v := range t.basic {
		f := t.cell[i*t.n+k] * direction
		if math.Abs(f) < pivotable {
			continue
		}
		stop := t.high[v]
		if f < 0 {
			stop = t.low[v]
		}
		if math.IsInf(stop, 0) {
			continue
		}
		b := breakpoint{max(0, (stop-t.x[v])/f), math.Abs(f), stop, i}
		t.breaks = append(t.breaks, b)
		slack := standing
		if !t.bland {
			slack = 0.1 * tolerance(stop) / b.size
		}
		furthest = min(furthest, b.step+slack)
	}
	own := t.high[t.other[k]] - t.low[t.other[k]]
	row = none
	best := 0.0
	for _, b := range t.breaks {
		switch {
		case b.step > furthest:
		case t.bland:
			if row == none || t.basic[b.row] < t.basic[row] {
				step, row, end = b.step, b.row, b.end
			}
		case b.size > best:
			step, row, end, best = b.step, b.row, b.end, b.size
		}
	}
	if own <= step || (row == none && !math.IsInf(own, 1)) {
		return own, flip, 0
	}
	return step, row, end
}
