// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"math"
	"testing"
)

func near(a, b, part float64) bool {
	return math.Abs(a-b) <= part*max(1, math.Abs(a), math.Abs(b))
}

// mustSolve solves p and fails the test on an error.
func mustSolve(t *testing.T, p *Problem) Solution {
	t.Helper()
	s, err := Solve(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

var inf = math.Inf(1)

// row makes a row out of the factors of columns 0, 1, 2, ...
func row(name string, low, high float64, factors ...float64) Row {
	r := Row{Name: name, Low: low, High: high}
	for j, f := range factors {
		if f != 0 {
			r.Terms = append(r.Terms, Term{j, f})
		}
	}
	return r
}

// Problems that textbooks work through by hand.
func TestTextbooks(t *testing.T) {
	for _, test := range []struct {
		source string
		p      Problem
		value  float64
		x      []float64
		duals  []float64
	}{
		{
			source: "Hillier and Lieberman, Introduction to Operations Research, Wyndor Glass (from memory: 36 at (2, 6), shadow prices 0, 1.5, 1)",
			p: Problem{
				Columns: []Column{{"doors", 0, inf, -3, false}, {"windows", 0, inf, -5, false}},
				Rows:    []Row{row("plant 1", -inf, 4, 1, 0), row("plant 2", -inf, 12, 0, 2), row("plant 3", -inf, 18, 3, 2)},
			},
			value: -36, x: []float64{2, 6}, duals: []float64{0, -1.5, -1},
		},
		{
			source: "Chvátal, Linear Programming, 1983, chapter 2, first example (from memory: 13 at (2, 0, 1))",
			p: Problem{
				Columns: []Column{{"x1", 0, inf, -5, false}, {"x2", 0, inf, -4, false}, {"x3", 0, inf, -3, false}},
				Rows:    []Row{row("1", -inf, 5, 2, 3, 1), row("2", -inf, 11, 4, 1, 2), row("3", -inf, 8, 3, 4, 2)},
			},
			value: -13, x: []float64{2, 0, 1}, duals: []float64{-1, 0, -1},
		},
		{
			source: "E. M. L. Beale, 1955, the example on which the largest-coefficient rule cycles (from memory: -1/20 at (1/25, 0, 1, 0))",
			p: Problem{
				Columns: []Column{{"x4", 0, inf, -0.75, false}, {"x5", 0, inf, 150, false}, {"x6", 0, inf, -0.02, false}, {"x7", 0, inf, 6, false}},
				Rows:    []Row{row("1", -inf, 0, 0.25, -60, -0.04, 9), row("2", -inf, 0, 0.5, -90, -0.02, 3), row("3", -inf, 1, 0, 0, 1, 0)},
			},
			value: -0.05, x: []float64{0.04, 0, 1, 0},
		},
		{
			source: "V. Klee and G. J. Minty, 1972, three dimensions (from memory: 10000 at (0, 0, 10000))",
			p: Problem{
				Columns: []Column{{"x1", 0, inf, -100, false}, {"x2", 0, inf, -10, false}, {"x3", 0, inf, -1, false}},
				Rows:    []Row{row("1", -inf, 1, 1), row("2", -inf, 100, 20, 1), row("3", -inf, 10000, 200, 20, 1)},
			},
			value: -10000, x: []float64{0, 0, 10000},
		},
	} {
		s := mustSolve(t, &test.p)
		if s.Status != Optimal || !near(s.Value, test.value, 1e-9) {
			t.Errorf("%s: %v with %g, want %g", test.source, s.Status, s.Value, test.value)
			continue
		}
		for j, want := range test.x {
			if !near(s.X[j], want, 1e-9) {
				t.Errorf("%s: x[%d] = %g, want %g", test.source, j, s.X[j], want)
			}
		}
		for i, want := range test.duals {
			if !near(s.Duals[i], want, 1e-9) {
				t.Errorf("%s: dual of row %d = %g, want %g", test.source, i, s.Duals[i], want)
			}
		}
	}
}
