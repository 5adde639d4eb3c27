// SPDX-License-Identifier: MIT

package lp

import (
	"fmt"
	"math"
)

// largest and smallest bound the size of the numbers of a problem: beyond them
// the arithmetic of a solve would overflow or mean nothing.
const (
	largest  = 1e20
	smallest = 1e-20
)

// check returns what is wrong with the problem itself, the first fault in order.
func (p *Problem) check() error {
	for j, c := range p.Columns {
		if err := checkColumn(c); err != nil {
			return fmt.Errorf("problem %q: %s: %w", p.Name, p.columnName(j), err)
		}
	}
	seen := make([]int, len(p.Columns)) // row number + 1 in which the column was seen last
	for i, r := range p.Rows {
		if err := p.checkRow(r, i, seen); err != nil {
			return fmt.Errorf("problem %q: %s: %w", p.Name, p.rowName(i), err)
		}
	}
	return nil
}

func checkColumn(c Column) error {
	if err := checkEnds(c.Low, c.High); err != nil {
		return err
	}
	if !(math.Abs(c.Cost) <= largest) {
		return fmt.Errorf("the cost %g is not a usable number", c.Cost)
	}
	return nil
}

func (p *Problem) checkRow(r Row, i int, seen []int) error {
	if err := checkEnds(r.Low, r.High); err != nil {
		return err
	}
	if len(r.Terms) == 0 {
		return fmt.Errorf("it has no terms")
	}
	for _, t := range r.Terms {
		if t.Column < 0 || t.Column >= len(p.Columns) {
			return fmt.Errorf("a term names column %d, but there are %d columns", t.Column, len(p.Columns))
		}
		if seen[t.Column] == i+1 {
			return fmt.Errorf("%s stands in it twice", p.columnName(t.Column))
		}
		seen[t.Column] = i + 1
		size := math.Abs(t.Factor)
		if !(size <= largest) || (size > 0 && size < smallest) {
			return fmt.Errorf("the factor %g of %s is not a usable number", t.Factor, p.columnName(t.Column))
		}
	}
	return nil
}

func checkEnds(low, high float64) error {
	switch {
	case math.IsNaN(low) || math.IsInf(low, 1) || (!math.IsInf(low, -1) && math.Abs(low) > largest):
		return fmt.Errorf("the low end %g is not a usable number", low)
	case math.IsNaN(high) || math.IsInf(high, -1) || (!math.IsInf(high, 1) && math.Abs(high) > largest):
		return fmt.Errorf("the high end %g is not a usable number", high)
	case low > high:
		return fmt.Errorf("the low end %g is above the high end %g", low, high)
	}
	return nil
}

func (p *Problem) columnName(j int) string { return fmt.Sprintf("column %d %q", j, p.Columns[j].Name) }
func (p *Problem) rowName(i int) string    { return fmt.Sprintf("row %d %q", i, p.Rows[i].Name) }

// activity returns the weighted sum of a row at x, and the sum of the sizes of
// its summands, against which a difference is measured.
func (r *Row) activity(x []float64) (sum, size float64) {
	for _, t := range r.Terms {
		sum += t.Factor * x[t.Column]
		size += math.Abs(t.Factor * x[t.Column])
	}
	return sum, size
}

// outside returns by how much v is outside its ends.
func outside(v, low, high float64) float64 {
	return max(low-v, v-high, 0)
}

// acceptable is the part of a row's size by which an answer may miss an end.
const acceptable = 1e-7

// measure fills in what follows from X and the problem as given: Value, Activity
// and Worst. It returns the worst violation as a part of its row's size.
func (s *Solution) measure(p *Problem) (relative float64) {
	s.Value, s.Worst = 0, 0
	s.Activity = make([]float64, len(p.Rows))
	note := func(off, size float64) {
		s.Worst = max(s.Worst, off)
		relative = max(relative, off/max(1, size))
	}
	for j, c := range p.Columns {
		s.Value += c.Cost * s.X[j]
		note(outside(s.X[j], c.Low, c.High), math.Abs(s.X[j]))
		if c.Integer {
			note(math.Abs(s.X[j]-math.Round(s.X[j])), 1)
		}
	}
	for i := range p.Rows {
		r := &p.Rows[i]
		sum, size := r.activity(s.X)
		s.Activity[i] = sum
		note(outside(sum, r.Low, r.High), size)
	}
	return relative
}
