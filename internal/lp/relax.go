// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// Relax returns the least costly way to let rows out of their ends so that a
// point exists. Prices gives, for the index of each row that may give, the
// price of one unit of its activity; the other rows and all columns stay as
// they are. The costs of the columns don't count.
func Relax(ctx context.Context, p *Problem, o Options, prices map[int]float64) (Relaxation, error) {
	if err := p.check(); err != nil {
		return Relaxation{}, err
	}
	rows := make([]int, 0, len(prices))
	for i := range prices {
		rows = append(rows, i)
	}
	slices.Sort(rows)
	for _, i := range rows {
		if i < 0 || i >= len(p.Rows) {
			return Relaxation{}, fmt.Errorf("relax problem %q: there is no row %d", p.Name, i)
		}
		if price := prices[i]; !(price > 0) || price > largest {
			return Relaxation{}, fmt.Errorf("relax problem %q: the price %g of %s is not above zero", p.Name, price, p.rowName(i))
		}
	}
	solution, err := Solve(ctx, p.elastic(rows, prices), o)
	r := Relaxation{Status: solution.Status}
	if solution.X != nil {
		solution.X = solution.X[:len(p.Columns)]
		solution.measure(p)
		r.list(p, &solution, rows, prices)
	}
	solution.Duals, solution.Reduced = nil, nil
	r.Solution = solution
	return r, err
}

// elastic returns p with a priced column beside each end of the given rows,
// that takes up what the row is outside.
func (p *Problem) elastic(rows []int, prices map[int]float64) *Problem {
	e := p.Clone()
	for j := range e.Columns {
		e.Columns[j].Cost = 0
	}
	for _, i := range rows {
		r := &e.Rows[i]
		if !math.IsInf(r.Low, -1) {
			j := e.AddColumn(Column{Name: r.Name + " below", High: math.Inf(1), Cost: prices[i]})
			r.Terms = append(r.Terms, Term{Column: j, Factor: 1})
		}
		if !math.IsInf(r.High, 1) {
			j := e.AddColumn(Column{Name: r.Name + " above", High: math.Inf(1), Cost: prices[i]})
			r.Terms = append(r.Terms, Term{Column: j, Factor: -1})
		}
	}
	return e
}

// list notes the rows that give, leaving out what is rounding only.
func (r *Relaxation) list(p *Problem, s *Solution, rows []int, prices map[int]float64) {
	for _, i := range rows {
		row := &p.Rows[i]
		sum, size := row.activity(s.X)
		give := Give{Row: i, Below: max(0, row.Low-sum), Above: max(0, sum-row.High)}
		if give.Below+give.Above <= 1e-8*max(1, size) {
			continue
		}
		r.Gives = append(r.Gives, give)
		r.Price += prices[i] * (give.Below + give.Above)
	}
}
