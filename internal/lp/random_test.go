// SPDX-License-Identifier: MIT

package lp

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// families are the kinds of random problems on which solvers are known to fail.
var families = []string{"generic", "equalities", "dependent equalities", "degenerate", "badly scaled", "infeasible"}

// randomProblem makes a blend: columns, half of them with an upper end, range
// rows around a known point, one mass balance, costs in cents. With integers a
// part of the columns is whole.
func randomProblem(r *rand.Rand, family string, columns, rows int, integers bool) *Problem {
	p := &Problem{Name: family}
	point := make([]float64, columns)
	for j := range columns {
		c := Column{Name: fmt.Sprintf("x%d", j), High: math.Inf(1), Cost: math.Round(100*(r.Float64()*10-2)) / 100}
		c.Integer = integers && r.IntN(5) < 2
		if r.IntN(2) == 0 {
			c.High = float64(1 + r.IntN(10))
		}
		if r.IntN(10) == 0 && !c.Integer {
			c.Low = -float64(r.IntN(5))
		}
		point[j] = math.Round(r.Float64() * min(c.High, 10))
		p.AddColumn(c)
	}
	for i := range rows {
		p.AddRow(randomRow(r, family, i, point))
	}
	addFamilyRows(r, p, family, point)
	balance, sum := Row{Name: "balance"}, 0.0
	for j, v := range point {
		balance.Terms = append(balance.Terms, Term{j, 1})
		sum += v
	}
	balance.Low, balance.High = sum, sum
	p.AddRow(balance)
	return p
}

func randomRow(r *rand.Rand, family string, i int, point []float64) Row {
	row := Row{Name: fmt.Sprintf("r%d", i)}
	scale := 1.0
	if family == "badly scaled" {
		scale = math.Pow(10, 6*r.Float64()-3)
	}
	sum := 0.0
	for j, v := range point {
		if r.IntN(3) == 0 {
			continue
		}
		f := math.Round(1e4*(r.Float64()*4-1)) / 1e4 * scale
		if family == "degenerate" {
			f = float64(r.IntN(5) - 2)
		}
		row.Terms = append(row.Terms, Term{j, f})
		sum += f * v
	}
	if len(row.Terms) == 0 {
		row.Terms = []Term{{0, 1}}
		sum = point[0]
	}
	width := r.Float64() * 3 * scale
	if family == "degenerate" {
		width = 0
	}
	switch r.IntN(3) {
	case 0:
		row.Low, row.High = sum-width, math.Inf(1)
	case 1:
		row.Low, row.High = math.Inf(-1), sum+width
	default:
		row.Low, row.High = sum-width, sum+width*2
	}
	return row
}

// addFamilyRows adds what makes a family special.
func addFamilyRows(r *rand.Rand, p *Problem, family string, point []float64) {
	switch family {
	case "equalities", "dependent equalities":
		first := len(p.Rows)
		for i := range min(4, len(point)/3) {
			row := randomRow(r, "generic", 100+i, point)
			row.Low, _ = row.activity(point)
			row.High = row.Low
			p.AddRow(row)
		}
		if family == "equalities" || len(p.Rows) == first {
			return
		}
		for i := range 3 {
			twice := p.Rows[first+i%(len(p.Rows)-first)]
			twice.Name = fmt.Sprintf("again%d", i)
			twice.Terms = append([]Term(nil), twice.Terms...)
			for k := range twice.Terms {
				twice.Terms[k].Factor *= 2
			}
			twice.Low, twice.High = 2*twice.Low, 2*twice.High
			p.AddRow(twice)
		}
	case "infeasible":
		row := randomRow(r, "generic", 200, point)
		sum, _ := row.activity(point)
		row.Low, row.High = sum, math.Inf(1)
		against := row
		against.Name, against.Low, against.High = "against", math.Inf(-1), sum-1-r.Float64()
		p.AddRow(row)
		p.AddRow(against)
	}
}
