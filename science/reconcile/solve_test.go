// SPDX-License-Identifier: MIT

package reconcile

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
)

// network is a small plant: a stream is split in two, one part is heated and
// lost a little, and both meet again. All flows are measured but one.
//
//	x0 = x1 + x2,   x1 = x3 + x5,   x3 + x2 = x4;   x5 isn't measured
func network(noise func() float64) Problem {
	truth := []float64{100, 60, 40, 55, 95, 5}
	sd := []float64{1, 0.8, 0.5, 0.7, 1.2, Unmeasured}
	var p Problem
	for i, x := range truth {
		v := Variable{Name: fmt.Sprint("flow ", i), Value: x, SD: sd[i]}
		if v.Measured() {
			v.Value += float64(sd[i] * noise()) // rounded: the same on every processor
		}
		p.Variables = append(p.Variables, v)
	}
	p.Count = 3
	p.Balances = func(x, left []float64) {
		left[0] = x[0] - x[1] - x[2]
		left[1] = x[1] - x[3] - x[5]
		left[2] = x[3] + x[2] - x[4]
	}
	return p
}

// curved is a problem whose balances are products: two streams with a
// concentration each are mixed.
func curved(noise func() float64) Problem {
	truth := []float64{20, 0.12, 5, 0.08, 25, 0.112}
	sd := []float64{0.2, 0.001, 0.1, 0.001, 0.3, 0.001}
	var p Problem
	for i, x := range truth {
		p.Variables = append(p.Variables, Variable{Value: x + float64(sd[i]*noise()), SD: sd[i]})
	}
	p.Count = 2
	p.Balances = func(x, left []float64) {
		left[0] = x[0] + x[2] - x[4]
		left[1] = x[0]*x[1] + x[2]*x[3] - x[4]*x[5]
	}
	return p
}

func quiet() float64 { return 0 }

func TestSolveLeavesTheTruthAlone(t *testing.T) {
	for _, p := range []Problem{network(quiet), curved(quiet)} {
		s, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range p.Variables {
			if math.Abs(s.Values[i]-v.Value) > 1e-9 {
				t.Errorf("variable %d moved from %g to %g", i, v.Value, s.Values[i])
			}
		}
	}
}

func TestBalancesClose(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		for _, p := range []Problem{network(random.NormFloat64), curved(random.NormFloat64)} {
			s, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			for i, left := range s.Left {
				if math.Abs(left) > 1e-9 {
					t.Fatalf("balance %d is open by %g after %d rounds", i, left, s.Rounds)
				}
			}
		}
	}
}

// TestTwoReadingsOfOne has an answer that can be written down: the weighted
// mean, with the adjustment of each in the ratio of the variances.
func TestTwoReadingsOfOne(t *testing.T) {
	p := Problem{
		Variables: []Variable{{Value: 10, SD: 1}, {Value: 13, SD: 2}},
		Count:     1,
		Balances:  func(x, left []float64) { left[0] = x[0] - x[1] },
	}
	s, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, check := range []struct {
		what      string
		got, want float64
	}{
		{"value: (10/1 + 13/4)/(1 + 1/4)", s.Values[0], 10.6},
		{"SD: 1/√1.25", s.SD(0), 1 / math.Sqrt(1.25)},
		{"sum of squares: 3²/(1 + 4)", s.Sum, 1.8},
		{"z of the first: −3/√5", Tests(p, s)[0].Z, -3 / math.Sqrt(5)},
		{"z of the second", Tests(p, s)[1].Z, 3 / math.Sqrt(5)},
		{"error of the first if it alone is wrong", Tests(p, s)[0].Error, -3},
	} {
		if math.Abs(check.got-check.want) > 1e-9 {
			t.Errorf("%s = %.10g, want %.10g", check.what, check.got, check.want)
		}
	}
}

func TestUnobservable(t *testing.T) {
	p := network(quiet)
	p.Variables[0].SD, p.Variables[1].SD, p.Variables[2].SD = Unmeasured, Unmeasured, Unmeasured
	if _, err := Solve(p); !errors.Is(err, ErrUnobservable) {
		t.Errorf("three unmeasured flows in a loop gave %v, want ErrUnobservable", err)
	}
}

// TestUnchecked: a reading that no balance speaks of stays where it is and gets
// no test.
func TestUnchecked(t *testing.T) {
	p := network(quiet)
	p.Variables = append(p.Variables, Variable{Value: 7, SD: 1})
	s, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if s.Values[6] != 7 || math.Abs(s.SD(6)-1) > 1e-12 {
		t.Errorf("the lonely reading became %g ± %g", s.Values[6], s.SD(6))
	}
	for _, test := range Tests(p, s) {
		if test.Variable == 6 {
			t.Error("the lonely reading was judged")
		}
	}
}

// scipyAnswer is what testdata/reconciled.py prints for one problem.
type scipyAnswer struct {
	Values, SDs []float64
	Sum         float64
}

// TestAgainstScipy compares the linear core with the closed form in numpy and
// the nonlinear one with a general optimiser of scipy: with the answers that are
// kept in testdata, and with a fresh run where there is a scipy.
func TestAgainstScipy(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	problems := []Problem{network(random.NormFloat64), curved(random.NormFloat64)}
	given := map[string][]float64{}
	for i, name := range []string{"network", "curved"} {
		for _, v := range problems[i].Variables {
			if v.Measured() {
				given[name] = append(given[name], v.Value)
				given[name+"SD"] = append(given[name+"SD"], v.SD)
			}
		}
	}
	readings, err := json.MarshalIndent(given, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("testdata/reconciled-readings.json", append(readings, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile("testdata/reconciled-readings.json")
	if err != nil || string(kept) != string(readings)+"\n" {
		t.Fatalf("testdata/reconciled-readings.json isn't what is solved here (%v): run with -update, then testdata/reconciled.py", err)
	}
	t.Run("kept", func(t *testing.T) {
		answers, err := os.ReadFile("testdata/reconciled-answers.json")
		if err != nil {
			t.Fatal(err)
		}
		compareAll(t, problems, answers)
	})
	t.Run("live", func(t *testing.T) {
		const python = "/usr/bin/python3"
		if exec.Command(python, "-c", "import scipy.optimize").Run() != nil {
			t.Skip("python3 with scipy isn't installed: only the kept answers were compared")
		}
		command := exec.Command(python, "testdata/reconciled.py")
		command.Stdin = bytes.NewReader(readings)
		answers, err := command.Output()
		if err != nil {
			t.Fatal(err)
		}
		compareAll(t, problems, answers)
	})
}

var update = flag.Bool("update", false, "write the readings that testdata/reconciled.py solves")

func compareAll(t *testing.T, problems []Problem, text []byte) {
	t.Helper()
	var answers []scipyAnswer
	if err := json.Unmarshal(text, &answers); err != nil || len(answers) != len(problems) {
		t.Fatalf("%d answers: %v", len(answers), err)
	}
	for k, p := range problems {
		s, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		// The closed form is exact; the optimiser stops where its sum no longer falls.
		tolerance := []float64{1e-9, 1e-5}[k]
		compareWithScipy(t, fmt.Sprint("problem ", k), s, answers[k], tolerance)
	}
}

func compareWithScipy(t *testing.T, name string, s *Solution, want scipyAnswer, tolerance float64) {
	t.Helper()
	for i, x := range want.Values {
		if math.Abs(s.Values[i]-x) > tolerance*max(1, math.Abs(x)) {
			t.Errorf("%s: variable %d is %.12g here and %.12g in scipy", name, i, s.Values[i], x)
		}
	}
	for i, sd := range want.SDs {
		if math.Abs(s.SD(i)-sd) > tolerance {
			t.Errorf("%s: the SD of variable %d is %.12g here and %.12g in numpy", name, i, s.SD(i), sd)
		}
	}
	if math.Abs(s.Sum-want.Sum) > 10*tolerance {
		t.Errorf("%s: the sum is %.12g here and %.12g in scipy", name, s.Sum, want.Sum)
	}
}
