// SPDX-License-Identifier: MIT

package lp

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// drawProblem makes a random problem of any family, small enough to shrink.
func drawProblem(t *rapid.T, integers bool) *Problem {
	seed := rapid.Uint64().Draw(t, "seed")
	family := rapid.SampledFrom(families).Draw(t, "family")
	most := 14
	if integers { // equations with long decimals and many integers take too many nodes
		most = 7
	}
	columns := rapid.IntRange(1, most).Draw(t, "columns")
	rows := rapid.IntRange(0, 14).Draw(t, "rows")
	return randomProblem(rand.New(rand.NewPCG(seed, 1)), family, columns, rows, integers)
}

// A best point and its duals prove each other: signs follow the ends that bind
// (dual feasibility, complementary slackness), and the dual value, a lower bound
// of every point's cost, equals the cost. A proof of infeasibility adds up too.
func TestDuality(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, false)
		s, err := Solve(t.Context(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		switch s.Status {
		case Optimal:
			checkDuals(t, p, s)
		case Infeasible:
			checkProof(t, p, s.Duals)
		default:
			t.Fatalf("%v", s.Status)
		}
	})
}

func checkDuals(t *rapid.T, p *Problem, s Solution) {
	value := 0.0
	reduced := make([]float64, len(p.Columns))
	for j, c := range p.Columns {
		reduced[j] = c.Cost
	}
	side := func(name string, price, low, high, at float64) {
		end := low
		if price < 0 {
			end = high
		}
		if math.Abs(price) < 1e-8 {
			return
		}
		if !near(at, end, 1e-6) {
			t.Fatalf("%s: price %g at %g, between %g and %g", name, price, at, low, high)
		}
		value += price * end
	}
	for i, r := range p.Rows {
		side(p.rowName(i), s.Duals[i], r.Low, r.High, s.Activity[i])
		for _, term := range r.Terms {
			reduced[term.Column] -= s.Duals[i] * term.Factor
		}
	}
	for j, c := range p.Columns {
		if !near(reduced[j], s.Reduced[j], 1e-7) {
			t.Fatalf("%s: reduced cost %g, from the duals %g", p.columnName(j), s.Reduced[j], reduced[j])
		}
		side(p.columnName(j), s.Reduced[j], c.Low, c.High, s.X[j])
	}
	if !near(value, s.Value, 1e-6) {
		t.Fatalf("value %g, dual value %g", s.Value, value)
	}
}

// checkProof checks that the weighted rows ask for more than the columns give.
func checkProof(t *rapid.T, p *Problem, duals []float64) {
	asked, given := 0.0, 0.0
	factors := make([]float64, len(p.Columns))
	for i, r := range p.Rows {
		y := duals[i]
		switch {
		case y > 0:
			asked += y * r.Low
		case y < 0:
			asked += y * r.High
		}
		for _, term := range r.Terms {
			factors[term.Column] += y * term.Factor
		}
	}
	for j, f := range factors {
		switch {
		case math.Abs(f) < 1e-7:
		case f > 0:
			given += f * p.Columns[j].High
		default:
			given += f * p.Columns[j].Low
		}
	}
	if !(given < asked) {
		t.Fatalf("no proof: the rows ask for %g, the columns give %g", asked, given)
	}
}

// No point that keeps all rows costs less: the problems are made around one.
// And the same problem gives the same answer, to the last bit.
func TestSameAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, rapid.Bool().Draw(t, "integers"))
		a, errA := Solve(t.Context(), p, Options{})
		b, errB := Solve(t.Context(), p.Clone(), Options{})
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if a.Status != b.Status || a.Pivots != b.Pivots || a.Value != b.Value {
			t.Fatalf("%v %v, %d %d, %v %v", a.Status, b.Status, a.Pivots, b.Pivots, a.Value, b.Value)
		}
		if (a.Status == Infeasible) != (p.Name == "infeasible") {
			t.Fatalf("%s: %v", p.Name, a.Status)
		}
		for j, x := range a.X {
			if x != b.X[j] {
				t.Fatalf("x[%d] = %v, then %v", j, x, b.X[j])
			}
			if p.Columns[j].Integer && x != math.Round(x) {
				t.Fatalf("x[%d] = %v is not whole", j, x)
			}
		}
	})
}

// The room of a column is what solving for the least and the most of it alone
// gives, with integers and without.
func TestRangeIsTwoSolves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, rapid.Bool().Draw(t, "integers"))
		columns := []int{0, len(p.Columns) - 1, len(p.Columns) / 2}
		spans, err := Range(t.Context(), p, Options{}, columns)
		if p.Name == "infeasible" {
			if err == nil {
				t.Fatal("a range without a point")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for i, j := range columns {
			if low := extremeAlone(t, p, j, 1); !near(low, spans[i].Low, 1e-7) && low != spans[i].Low {
				t.Fatalf("least of column %d: %g, alone %g", j, spans[i].Low, low)
			}
			if high := extremeAlone(t, p, j, -1); !near(high, spans[i].High, 1e-7) && high != spans[i].High {
				t.Fatalf("most of column %d: %g, alone %g", j, spans[i].High, high)
			}
		}
	})
}

func extremeAlone(t *rapid.T, p *Problem, j int, sign float64) float64 {
	q := p.Clone()
	for k := range q.Columns {
		q.Columns[k].Cost = 0
	}
	q.Columns[j].Cost = sign
	s, err := Solve(t.Context(), q, Options{})
	switch {
	case err != nil:
		t.Fatal(err)
	case s.Status == Unbounded:
		return -sign * math.Inf(1)
	case s.Status != Optimal:
		t.Fatal(s.Status)
	}
	return s.X[j]
}

// Clone returns a copy that can be changed without changing p.
func (p *Problem) Clone() *Problem {
	c := &Problem{Name: p.Name, Columns: append([]Column(nil), p.Columns...), Rows: append([]Row(nil), p.Rows...)}
	for i := range c.Rows {
		c.Rows[i].Terms = append([]Term(nil), c.Rows[i].Terms...)
	}
	return c
}
