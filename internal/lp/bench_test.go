// SPDX-License-Identifier: MIT

package lp

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"
	"time"
)

// maltProblem is a style of fifteen malts: shares that add up to 100 %, each
// with its own room, and range rows for colour, extract, diastatic power and
// groups of malts. The figures are made up (regression values), of a usual size.
func maltProblem() *Problem {
	r := rand.New(rand.NewPCG(15, 30))
	p := &Problem{Name: "fifteen malts"}
	shares := Row{Name: "shares", Low: 100, High: 100}
	sums := []Row{
		{Name: "color", Low: 30, High: 45}, {Name: "extract", Low: 76, High: 81},
		{Name: "diastatic power", Low: 120, High: math.Inf(1)}, {Name: "protein", Low: 9, High: 11.5},
		{Name: "price", Low: math.Inf(-1), High: 2.2},
	}
	for j := range 15 {
		high := []float64{90, 30, 15, 6}[j%4]
		p.AddColumn(Column{Name: fmt.Sprintf("malt %d", j), High: high, Cost: 0.8 + r.Float64()})
		shares.Terms = append(shares.Terms, Term{j, 1})
		color := []float64{0.05, 0.3, 1.2, 8}[j%4]
		for i, f := range []float64{color * (0.8 + 0.4*r.Float64()), 0.72 + 0.1*r.Float64(), []float64{3, 1, 0, 0}[j%4], 0.08 + 0.05*r.Float64(), 0.01 + 0.015*r.Float64()} {
			sums[i].Terms = append(sums[i].Terms, Term{j, f})
		}
	}
	p.AddRow(shares)
	for _, s := range sums {
		p.AddRow(s)
	}
	for group := range 10 {
		g := Row{Name: fmt.Sprintf("group %d", group), Low: math.Inf(-1), High: 20 + float64(5*group)}
		for j := range 15 {
			if j%4 != 0 && (j+group)%3 != 0 {
				g.Terms = append(g.Terms, Term{j, 1})
			}
		}
		p.AddRow(g)
	}
	return p
}

// BenchmarkRooms: one solve and the room of each of fifteen malts, 30 solves.
func BenchmarkRooms(b *testing.B) {
	p := maltProblem()
	columns := make([]int, 15)
	for j := range columns {
		columns[j] = j
	}
	for b.Loop() {
		s, err := Solve(context.Background(), p, Options{})
		if err != nil || s.Status != Optimal {
			b.Fatal(s.Status, err)
		}
		if _, err := Range(context.Background(), p, Options{}, columns); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSolve: one solve, the same problem by glpsol beside it. Glpsol's
// "Time used" has a resolution of 0.1 s, so what is compared is the whole
// process less that of an empty problem; both are reported.
func BenchmarkSolve(b *testing.B) {
	for _, p := range []*Problem{maltProblem(), oracleProblems(1)[0], wholeMalts()} {
		b.Run(p.Name, func(b *testing.B) {
			for b.Loop() {
				if s, err := Solve(context.Background(), p, Options{}); err != nil || s.Status != Optimal {
					b.Fatal(s.Status, err)
				}
			}
			if _, err := exec.LookPath("glpsol"); err == nil {
				empty := glpsolTime(b, &Problem{Columns: []Column{{High: 1}}, Rows: []Row{row("", 0, 1, 1)}})
				b.ReportMetric(1e3*max(0, glpsolTime(b, p)-empty).Seconds(), "glpsol-ms")
				b.ReportMetric(1e3*empty.Seconds(), "glpsol-empty-ms")
			}
		})
	}
}

// glpsolTime is the shortest of twenty runs of glpsol on a problem.
func glpsolTime(b *testing.B, p *Problem) time.Duration {
	folder, best := b.TempDir(), time.Hour
	for range 20 {
		start := time.Now()
		if _, _, log, err := glpsol(folder, "bench", p); err != nil {
			b.Fatal(err, log)
		}
		best = min(best, time.Since(start))
	}
	return best
}

// wholeMalts is the style in whole percents and with the fewest malts.
func wholeMalts() *Problem {
	p := maltProblem()
	p.Name = "fifteen malts, whole percents, fewest"
	for j := range 15 {
		p.Columns[j].Integer, p.Columns[j].Cost = true, 0
		used := p.AddColumn(Column{Name: "used", High: 1, Cost: 1, Integer: true})
		p.AddRow(Row{Name: "used", Low: math.Inf(-1), High: 0, Terms: []Term{{j, 1}, {used, -p.Columns[j].High}}})
	}
	return p
}

// The problems of the benchmarks have solutions; the values are computed
// (regression values).
func TestBenchmarkProblems(t *testing.T) {
	for _, test := range []struct {
		p    *Problem
		want float64
	}{{maltProblem(), 100.8467001}, {wholeMalts(), 3}} {
		s := mustSolve(t, test.p)
		t.Logf("%s: %v, %g, %d pivots, %d nodes", test.p.Name, s.Status, s.Value, s.Pivots, s.Nodes)
		if s.Status != Optimal || !near(s.Value, test.want, 1e-8) || s.Worst > 1e-7 {
			t.Errorf("%s: %v, %.10g, worst %g", test.p.Name, s.Status, s.Value, s.Worst)
		}
	}
}
