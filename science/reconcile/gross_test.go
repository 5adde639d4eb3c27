// SPDX-License-Identifier: MIT

package reconcile

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The points of the chi-square and normal distributions are those of any
// printed table (from memory); tolerance half a digit of the point.
func TestTails(t *testing.T) {
	for _, test := range []struct {
		x    float64
		n    int
		want float64
	}{
		{3.841, 1, 0.05}, {5.991, 2, 0.05}, {11.070, 5, 0.05}, {18.307, 10, 0.05},
		{6.635, 1, 0.01}, {15.086, 5, 0.01}, {0.554, 5, 0.99}, {29.588, 10, 0.001},
	} {
		if got := ChiSquareTail(test.x, test.n); math.Abs(got-test.want) > 5e-4*test.want+2e-5 {
			t.Errorf("ChiSquareTail(%g, %d) = %.6f, want %g", test.x, test.n, got, test.want)
		}
	}
	for _, test := range []struct{ z, want float64 }{{1.960, 0.05}, {-2.576, 0.01}, {0, 1}} {
		if got := NormalTails(test.z); math.Abs(got-test.want) > 5e-5 {
			t.Errorf("NormalTails(%g) = %.6f, want %g", test.z, got, test.want)
		}
	}
	// Computed from the formula: ten tests at this level miss all with probability 0.95.
	if got := math.Pow(1-Level(0.05, 10), 10); math.Abs(got-0.95) > 1e-12 {
		t.Errorf("ten tests at Level(0.05, 10) are quiet with probability %g, want 0.95", got)
	}
}

// TestCleanSets: with nothing wrong, about 5 % of the sets fall below 0.05 in
// the global test, and no more in the measurement tests. The sets are fixed by
// the seed; the bounds are three standard deviations of 2 000 draws.
func TestCleanSets(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	const sets = 2000
	global, single := 0, 0
	for range sets {
		p := curved(random.NormFloat64)
		s, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		if GlobalTest(s) < 0.05 {
			global++
		}
		if worst, _ := Worst(Tests(p, s), nil); worst.P < 0.05 {
			single++
		}
	}
	if bound := 3 * math.Sqrt(sets*0.05*0.95); math.Abs(float64(global)-0.05*sets) > bound {
		t.Errorf("the global test alarms on %d of %d clean sets, want 100 ± %.0f", global, sets, bound)
	} else if float64(single) > 0.05*sets+bound {
		t.Errorf("the measurement tests alarm on %d of %d clean sets", single, sets)
	}
}

// chain has five readings of one true value in a row, each checked by its
// neighbours, so that any one can be told from the rest.
func chain(noise func() float64) Problem {
	var p Problem
	for range 5 {
		p.Variables = append(p.Variables, Variable{Value: 50 + noise(), SD: 1})
	}
	p.Count = 4
	p.Balances = func(x, left []float64) {
		for i := range left {
			left[i] = x[i+1] - x[i]
		}
	}
	return p
}

func TestOneGrossErrorIsFound(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	const sets = 2000
	found := 0
	for range sets {
		p := chain(random.NormFloat64)
		bad := random.IntN(5)
		p.Variables[bad].Value += 8
		gross, s, err := Eliminate(p, 0.01, 1, nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(gross) == 1 && gross[0].Variable == bad && math.Abs(gross[0].Error-8) < 4*gross[0].ErrorSD {
			found++
		}
		if math.Abs(s.Values[0]-50) > 4 && len(gross) == 1 && gross[0].Variable == bad {
			t.Errorf("the rest says %g, want about 50", s.Values[0])
		}
	}
	// An error of eight standard deviations stands out by 7.2 in its own test
	// and by a quarter of that in the others: all but a few are found.
	if found < sets*99/100 {
		t.Errorf("%d of %d errors of 8 SD were found and measured", found, sets)
	}
}

func TestEliminateAndCompensateAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	p := chain(random.NormFloat64)
	p.Variables[2].Value += 12
	gone, a, err := Eliminate(p, 0.01, 3, nil)
	if err != nil {
		t.Fatal(err)
	}
	off, b, err := Compensate(p, 0.01, 3, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(gone) != 1 || len(off) != 1 || gone[0].Variable != 2 || off[0].Variable != 2 {
		t.Fatalf("took away %v, compensated %v, want variable 2 alone", gone, off)
	}
	if math.Abs(gone[0].Error-off[0].Error) > 1e-9 || math.Abs(a.Values[0]-b.Values[0]) > 1e-9 {
		t.Errorf("errors %.10g and %.10g, values %.10g and %.10g", gone[0].Error, off[0].Error, a.Values[0], b.Values[0])
	}
	if none, _, err := Eliminate(p, 0.01, 3, func(v int) bool { return v != 2 }); err != nil || len(none) > 0 && none[0].Variable == 2 {
		t.Errorf("a variable that must stay was taken away: %v, %v", none, err)
	}
}
