// SPDX-License-Identifier: MIT

package lp

// A Problem asks for the x that makes the sum of Cost·x least while every
// column and every row stays between its ends.
type Problem struct {
	Name    string
	Columns []Column
	Rows    []Row
}

// A Column is one amount to be chosen, between Low and High. An open end is an
// infinity: math.Inf(-1) below, math.Inf(1) above. The zero Column is fixed at 0.
type Column struct {
	Name      string
	Low, High float64
	Cost      float64 // for each unit; negative to ask for as much as possible
	Integer   bool    // only whole numbers
}

// A Row is one rule: the sum of Factor·x over its terms lies between Low and
// High. Equal ends make an equation; an open end is an infinity, and a row with
// two open ends is only reported, never a rule.
//
// A row needs at least one term, and no column twice. A factor may be zero.
type Row struct {
	Name      string
	Low, High float64
	Terms     []Term
}

// A Term is one summand of a row.
type Term struct {
	Column int // index into Problem.Columns
	Factor float64
}

// AddColumn adds a column and returns its index.
func (p *Problem) AddColumn(c Column) int {
	p.Columns = append(p.Columns, c)
	return len(p.Columns) - 1
}

// AddRow adds a row and returns its index.
func (p *Problem) AddRow(r Row) int {
	p.Rows = append(p.Rows, r)
	return len(p.Rows) - 1
}

func (p *Problem) hasIntegers() bool {
	for _, c := range p.Columns {
		if c.Integer {
			return true
		}
	}
	return false
}
