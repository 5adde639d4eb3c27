// SPDX-License-Identifier: MIT

package lp

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// smallProblem makes a problem with few columns and small whole numbers, so
// that many rows meet in one point and many bounds coincide.
func smallProblem(seed uint64) *Problem {
	r := rand.New(rand.NewPCG(seed, 3))
	p := &Problem{Name: fmt.Sprintf("small %d", seed)}
	for range 1 + r.IntN(3) {
		c := Column{Low: float64(r.IntN(4) - 2), Cost: float64(r.IntN(7) - 3), Integer: r.IntN(3) == 0}
		c.High = c.Low + float64(r.IntN(5))
		p.AddColumn(c)
	}
	for range r.IntN(5) {
		factors := make([]float64, len(p.Columns))
		for j := range factors {
			factors[j] = float64(r.IntN(5) - 2)
		}
		factors[0]++
		rule := row("rule", float64(r.IntN(9)-5), 0, factors...)
		rule.High = rule.Low + float64(r.IntN(4))
		if r.IntN(3) == 0 {
			rule.High = inf
		}
		if len(rule.Terms) > 0 {
			p.AddRow(rule)
		}
	}
	return p
}

// byVertices solves a small problem the slow way: for every choice of whole
// numbers it tries all corners, the points in which as many ends meet as there
// are columns left. All columns must have two finite ends.
func byVertices(p *Problem) (value float64, found bool) {
	value = inf
	var choose func(j int, q *Problem)
	choose = func(j int, q *Problem) {
		if j == len(p.Columns) {
			corners(q, func(x []float64) {
				s := Solution{X: x}
				if s.measure(p) < 1e-7 {
					value, found = min(value, s.Value), true
				}
			})
			return
		}
		c := p.Columns[j]
		if !c.Integer {
			choose(j+1, q)
			return
		}
		for v := math.Ceil(c.Low); v <= c.High; v++ {
			fixed := q.Clone()
			fixed.Columns[j].Low, fixed.Columns[j].High = v, v
			choose(j+1, fixed)
		}
	}
	choose(0, p)
	return value, found
}

// corners calls visit with every point in which len(Columns) independent ends meet.
func corners(p *Problem, visit func([]float64)) {
	n := len(p.Columns)
	var planes [][]float64 // n factors and the end
	for j, c := range p.Columns {
		for _, end := range []float64{c.Low, c.High} {
			plane := make([]float64, n+1)
			plane[j], plane[n] = 1, end
			planes = append(planes, plane)
		}
	}
	for _, r := range p.Rows {
		for _, end := range []float64{r.Low, r.High} {
			if math.IsInf(end, 0) {
				continue
			}
			plane := make([]float64, n+1)
			for _, t := range r.Terms {
				plane[t.Column] = t.Factor
			}
			plane[n] = end
			planes = append(planes, plane)
		}
	}
	var pick func(from int, chosen [][]float64)
	pick = func(from int, chosen [][]float64) {
		if len(chosen) == n {
			if x, ok := meet(chosen); ok {
				visit(x)
			}
			return
		}
		for i := from; i < len(planes); i++ {
			pick(i+1, append(chosen[:len(chosen):len(chosen)], planes[i]))
		}
	}
	pick(0, nil)
}

// meet solves n equations by Gauss and Jordan's elimination.
func meet(planes [][]float64) ([]float64, bool) {
	n := len(planes)
	a := make([][]float64, n)
	for i := range a {
		a[i] = append([]float64(nil), planes[i]...)
	}
	for k := range n {
		best := k
		for i := k; i < n; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[best][k]) {
				best = i
			}
		}
		if math.Abs(a[best][k]) < 1e-9 {
			return nil, false
		}
		a[k], a[best] = a[best], a[k]
		for i := range n {
			if f := a[i][k] / a[k][k]; i != k && f != 0 {
				for l := k; l <= n; l++ {
					a[i][l] -= f * a[k][l]
				}
			}
		}
	}
	x := make([]float64, n)
	for k := range x {
		x[k] = a[k][n] / a[k][k]
	}
	return x, true
}

func checkByVertices(t *testing.T, seed uint64) {
	p := smallProblem(seed)
	s, err := Solve(t.Context(), p, Options{})
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	value, found := byVertices(p)
	switch {
	case found != (s.Status == Optimal) || found == (s.Status == Infeasible):
		t.Errorf("seed %d: %v, by all corners a point: %v", seed, s.Status, found)
	case found && !near(value, s.Value, 1e-9):
		t.Errorf("seed %d: %g, by all corners %g", seed, s.Value, value)
	}
}

// The first 1500 small problems; the fuzz target goes on from there.
func TestByAllCorners(t *testing.T) {
	for seed := range uint64(1500) {
		checkByVertices(t, seed)
	}
}

func FuzzSolve(f *testing.F) {
	f.Add(uint64(1))
	f.Add(uint64(1 << 40))
	f.Fuzz(checkByVertices)
}
