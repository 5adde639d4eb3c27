// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
)

// A faulty problem is refused with the name of the column or row and the reason.
func TestMalformed(t *testing.T) {
	nan := math.NaN()
	pale := Column{Name: "pale", High: 1}
	for _, test := range []struct {
		name string
		p    Problem
		want string
	}{
		{"crossed column", Problem{Columns: []Column{{Name: "pale", Low: 2, High: 1}}}, `column 0 "pale": the low end 2 is above the high end 1`},
		{"low not a number", Problem{Columns: []Column{{Name: "pale", Low: nan}}}, `column 0 "pale": the low end NaN`},
		{"high not a number", Problem{Columns: []Column{{Name: "pale", High: nan}}}, `column 0 "pale": the high end NaN`},
		{"low above all", Problem{Columns: []Column{{Name: "pale", Low: inf, High: inf}}}, `the low end +Inf`},
		{"high below all", Problem{Columns: []Column{{Name: "pale", Low: -inf, High: -inf}}}, `the high end -Inf`},
		{"cost", Problem{Columns: []Column{{Name: "pale", Cost: inf}}}, `the cost +Inf`},
		{"huge", Problem{Columns: []Column{{Name: "pale", High: 1e300}}}, `the high end 1e+300`},
		{"empty row", Problem{Columns: []Column{pale}, Rows: []Row{{Name: "og"}}}, `row 0 "og": it has no terms`},
		{"crossed row", Problem{Columns: []Column{pale}, Rows: []Row{row("og", 3, 2, 1)}}, `row 0 "og": the low end 3 is above the high end 2`},
		{"row end", Problem{Columns: []Column{pale}, Rows: []Row{row("og", nan, 2, 1)}}, `row 0 "og": the low end NaN`},
		{"twice", Problem{Columns: []Column{pale}, Rows: []Row{{Name: "og", Terms: []Term{{0, 1}, {0, 2}}}}}, `row 0 "og": column 0 "pale" stands in it twice`},
		{"no such column", Problem{Columns: []Column{pale}, Rows: []Row{{Name: "og", Terms: []Term{{1, 1}}}}}, `row 0 "og": a term names column 1, but there are 1`},
		{"negative column", Problem{Columns: []Column{pale}, Rows: []Row{{Name: "og", Terms: []Term{{-1, 1}}}}}, `a term names column -1`},
		{"factor", Problem{Columns: []Column{pale}, Rows: []Row{{Name: "og", Terms: []Term{{0, nan}}}}}, `the factor NaN of column 0 "pale"`},
	} {
		ctx := context.Background()
		_, solve := Solve(ctx, &test.p, Options{})
		_, span := Range(ctx, &test.p, Options{}, nil)
		for _, err := range []error{solve, span} {
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("%s: error %v, want %q", test.name, err, test.want)
			}
		}
	}
}

// Problems at the rim of sense have answers, not errors.
func TestRim(t *testing.T) {
	for _, test := range []struct {
		name   string
		p      Problem
		status Status
		value  float64
	}{
		{"nothing", Problem{}, Optimal, 0},
		{"no rows", Problem{Columns: []Column{{Low: -1, High: 2, Cost: -3}}}, Optimal, -6},
		{"no rows, open", Problem{Columns: []Column{{Low: -1, High: inf, Cost: -3}}}, Unbounded, 0},
		{"free and useless", Problem{Columns: []Column{{Low: -inf, High: inf}}}, Optimal, 0},
		{"fixed", Problem{Columns: []Column{{Low: 2, High: 2, Cost: 1}}, Rows: []Row{row("", 2, 2, 1)}}, Optimal, 2},
		{"fixed elsewhere", Problem{Columns: []Column{{Low: 2, High: 2, Cost: 1}}, Rows: []Row{row("", 3, 3, 1)}}, Infeasible, 0},
		{"row of zeros", Problem{Columns: []Column{{High: 1}}, Rows: []Row{{Low: 0, High: 1, Terms: []Term{{0, 0}}}}}, Optimal, 0},
		{"row of zeros asked for more", Problem{Columns: []Column{{High: 1}}, Rows: []Row{{Low: 1, High: 1, Terms: []Term{{0, 0}}}}}, Infeasible, 0},
		{"no whole number", Problem{Columns: []Column{{Low: 0.2, High: 0.8, Integer: true}}}, Infeasible, 0},
		{"parity", Problem{Columns: []Column{{High: 9, Integer: true}, {High: 9, Integer: true}}, Rows: []Row{row("", 3, 3, 2, 2)}}, Infeasible, 0},
		{"whole and open", Problem{Columns: []Column{{High: inf, Cost: -1, Integer: true}}}, Unbounded, 0},
		{"whole, open, no point", Problem{Columns: []Column{{High: inf, Cost: -1}, {High: 1, Integer: true}}, Rows: []Row{row("", 0.5, 0.5, 0, 1)}}, Infeasible, 0},
		{"rows with open ends", Problem{Columns: []Column{{High: 4, Cost: -1}}, Rows: []Row{row("", -inf, inf, 1)}}, Optimal, -4},
		{"negative whole", Problem{Columns: []Column{{Low: -2.5, High: 9, Cost: 1, Integer: true}}}, Optimal, -2},
	} {
		s := mustSolve(t, &test.p)
		if s.Status != test.status || (s.Status == Optimal && !near(s.Value, test.value, 1e-12)) {
			t.Errorf("%s: %v with %g, want %v with %g", test.name, s.Status, s.Value, test.status, test.value)
		}
	}
}

// Caps and a cancelled context end the work and say so.
func TestCaps(t *testing.T) {
	p := oracleProblems(6)[0]
	s, err := Solve(t.Context(), p, Options{MaxPivots: 3})
	if err != nil || s.Status != Stopped {
		t.Errorf("3 pivots: %v, %v", s.Status, err)
	}
	knapsack := knapsack(30)
	s, err = Solve(t.Context(), knapsack, Options{MaxNodes: 5})
	if err != nil || s.Status != Stopped || s.X == nil || !(s.Gap > 0) {
		t.Errorf("5 nodes: %v, %v, gap %g, x %v", s.Status, err, s.Gap, s.X)
	}
	wide, err := Solve(t.Context(), knapsack, Options{Gap: 0.05})
	if err != nil || wide.Status != Optimal || wide.Gap > 0.05 {
		t.Errorf("gap 5 %%: %v, %v, gap %g", wide.Status, err, wide.Gap)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Solve(ctx, p, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if _, err := Range(ctx, p, Options{}, []int{0}); err != nil && !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled range: %v", err)
	}
}

// knapsack packs things whose worth and weight are nearly proportional, which
// takes many nodes.
func knapsack(count int) *Problem {
	p := &Problem{Name: "knapsack"}
	r := Row{Name: "weight", Low: math.Inf(-1)}
	for j := range count {
		weight := float64(100 + (j*37)%97)
		p.AddColumn(Column{High: 1, Cost: -weight - 10 - float64(j*13%7)/8, Integer: true})
		r.Terms = append(r.Terms, Term{j, weight})
		r.High += weight / 2.1
	}
	p.AddRow(r)
	return p
}
