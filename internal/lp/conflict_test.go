// SPDX-License-Identifier: MIT

package lp

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// darkButPale is a style nobody can brew: computed by hand from colours and shares.
func darkButPale() *Problem {
	p := &Problem{Name: "dark but pale"}
	for _, c := range []Column{{Name: "pale"}, {Name: "crystal"}, {Name: "roast"}} {
		c.High = 100
		p.AddColumn(c)
	}
	p.AddRow(row("shares", 100, 100, 1, 1, 1))
	p.AddRow(row("color", 60, inf, 0.05, 1.5, 12)) // in EBC for each percent of the grist
	p.AddRow(row("roast", -inf, 2, 0, 0, 1))
	p.AddRow(row("crystal", -inf, 10, 0, 1, 0))
	p.AddRow(row("pale", 50, inf, 1, 0, 0))
	return p
}

// With 2 % roast and 10 % crystal the colour is 0.05·88 + 1.5·10 + 12·2 = 43.4.
func TestConflictAndRelax(t *testing.T) {
	p := darkButPale()
	got, err := Conflict(t.Context(), p, Options{}, []int{4, 3, 2, 1, 1})
	if err != nil || !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("conflict %v, %v; want colour, roast and crystal", got, err)
	}
	r, err := Relax(t.Context(), p, Options{}, map[int]float64{1: 1})
	if err != nil || r.Status != Optimal || len(r.Gives) != 1 || !near(r.Gives[0].Below, 60-43.4, 1e-9) {
		t.Errorf("colour gives %+v, %v; want 16.6 below", r, err)
	}
	// For each percent more roast, and less pale, 11.95 EBC.
	r, err = Relax(t.Context(), p, Options{}, map[int]float64{1: 100, 2: 1, 3: 9})
	if err != nil || len(r.Gives) != 1 || r.Gives[0].Row != 2 || !near(r.Gives[0].Above, 16.6/11.95, 1e-9) {
		t.Errorf("roast gives %+v, %v; want 1.389 above", r, err)
	}
	if r, err = Relax(t.Context(), p, Options{}, map[int]float64{4: 1}); err != nil || r.Status != Infeasible {
		t.Errorf("pale alone can't help: %+v, %v", r, err)
	}
	p.Rows[2].High = 4
	if _, err := Conflict(t.Context(), p, Options{}, []int{1, 2, 3}); !errors.Is(err, ErrFeasible) {
		t.Errorf("no conflict: %v", err)
	}
	p.Columns[0].High = 20
	if got, err := Conflict(t.Context(), p, Options{}, []int{1, 2}); err != nil || len(got) != 0 {
		t.Errorf("the rows not given conflict: %v, %v", got, err)
	}
}

// The conflict is irreducible, and no smaller one exists: all sets of rows are tried.
func TestConflictIsSmallest(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	compared := 0
	for turn := range 60 {
		p := &Problem{Name: "random rules"}
		for range 3 {
			p.AddColumn(Column{High: 10, Integer: turn%4 == 0})
		}
		for range 8 {
			low := float64(r.IntN(25)) - 5
			p.AddRow(row("rule", low, low+float64(r.IntN(5)), float64(r.IntN(4)), float64(r.IntN(4)-1), float64(1+r.IntN(3))))
		}
		all := []int{0, 1, 2, 3, 4, 5, 6, 7}
		got, err := Conflict(t.Context(), p, Options{}, all)
		if errors.Is(err, ErrFeasible) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		compared++
		if want := smallestByTrying(t, p, all); len(got) != want {
			t.Errorf("turn %d: conflict %v, the smallest has %d rows", turn, got, want)
		}
		if feasible, _ := feasibleWith(t.Context(), p, Options{}, all, got); feasible {
			t.Errorf("turn %d: %v is no conflict", turn, got)
		}
	}
	if compared < 40 {
		t.Errorf("only %d problems had a conflict", compared)
	}
}

func smallestByTrying(t *testing.T, p *Problem, all []int) int {
	least := len(all) + 1
	for set := range 1 << len(all) {
		var chosen []int
		for i := range all {
			if set>>i&1 == 1 {
				chosen = append(chosen, i)
			}
		}
		if len(chosen) >= least {
			continue
		}
		feasible, err := feasibleWith(t.Context(), p, Options{}, all, chosen)
		if err != nil {
			t.Fatal(err)
		}
		if !feasible {
			least = len(chosen)
		}
	}
	return least
}

// Rows let out by what they give leave a point; when they give only 99 % of it,
// none is left. Nothing gives when there is a point.
func TestRelaxIsEnoughAndNeeded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t, rapid.Bool().Draw(t, "integers"))
		prices := map[int]float64{}
		for i := range p.Rows {
			prices[i] = float64(1 + i%3)
		}
		r, err := Relax(t.Context(), p, Options{}, prices)
		if err != nil || r.Status != Optimal || (len(r.Gives) > 0) != (p.Name == "infeasible") {
			t.Fatalf("%s: %v, %+v", p.Name, err, r)
		}
		let := func(part float64) Status {
			q := p.Clone()
			for _, g := range r.Gives {
				q.Rows[g.Row].Low -= g.Below*part + 1e-7
				q.Rows[g.Row].High += g.Above*part + 1e-7
			}
			s, err := Solve(t.Context(), q, Options{})
			if err != nil {
				t.Fatal(err)
			}
			return s.Status
		}
		if got := let(1); got == Infeasible {
			t.Fatalf("%+v is not enough", r.Gives)
		}
		if len(r.Gives) > 0 && let(0.99) != Infeasible {
			t.Fatalf("%+v is more than is needed", r.Gives)
		}
	})
}
