// SPDX-License-Identifier: MIT

package lp

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// writeLP writes p in CPLEX LP format. Numbers are written with all digits.
func writeLP(p *Problem) string {
	var b strings.Builder
	b.WriteString("Minimize\n cost:")
	for j, c := range p.Columns {
		fmt.Fprintf(&b, " %+.17g x%d\n", c.Cost, j)
	}
	b.WriteString("Subject To\n")
	for i, r := range p.Rows {
		var terms strings.Builder
		for _, t := range r.Terms {
			fmt.Fprintf(&terms, " %+.17g x%d\n", t.Factor, t.Column)
		}
		if r.Low == r.High {
			fmt.Fprintf(&b, " e%d: %s = %.17g\n", i, terms.String(), r.Low)
			continue
		}
		if !math.IsInf(r.Low, -1) {
			fmt.Fprintf(&b, " l%d: %s >= %.17g\n", i, terms.String(), r.Low)
		}
		if !math.IsInf(r.High, 1) {
			fmt.Fprintf(&b, " h%d: %s <= %.17g\n", i, terms.String(), r.High)
		}
	}
	b.WriteString("Bounds\n")
	for j, c := range p.Columns {
		fmt.Fprintf(&b, " %s <= x%d <= %s\n", end(c.Low), j, end(c.High))
	}
	b.WriteString("General\n")
	for j, c := range p.Columns {
		if c.Integer {
			fmt.Fprintf(&b, " x%d\n", j)
		}
	}
	b.WriteString("End\n")
	return b.String()
}

func end(v float64) string {
	switch {
	case math.IsInf(v, 1):
		return "+inf"
	case math.IsInf(v, -1):
		return "-inf"
	}
	return strconv.FormatFloat(v, 'g', 17, 64)
}

// glpsol solves p by GLPK's program and returns status and value. Its
// presolver is on, as an independent way, and its gap for integers is 0.
func glpsol(folder, name string, p *Problem) (Status, float64, string, error) {
	file, answer := filepath.Join(folder, name+".lp"), filepath.Join(folder, name+".txt")
	if err := os.WriteFile(file, []byte(writeLP(p)), 0o600); err != nil {
		return 0, 0, "", err
	}
	log, err := exec.Command("glpsol", "--lp", file, "--write", answer, "--tmlim", "20").CombinedOutput()
	if err != nil {
		return 0, 0, string(log), err
	}
	text, err := os.ReadFile(answer)
	if err != nil {
		return 0, 0, string(log), err
	}
	status, value, err := readAnswer(string(text))
	switch { // after the presolver the file may say only that there is no solution
	case status != Stopped:
	case strings.Contains(string(log), "NO PRIMAL FEASIBLE"):
		status = Infeasible
	case strings.Contains(string(log), "UNBOUNDED") || strings.Contains(string(log), "NO DUAL FEASIBLE"):
		status = Unbounded
	}
	return status, value, string(log), err
}

// readAnswer reads the s line of GLPK's solution format: "s bas rows columns
// primal dual value" or "s mip rows columns status value".
func readAnswer(text string) (Status, float64, error) {
	scanner := bufio.NewScanner(strings.NewReader(text))
	for scanner.Scan() {
		f := strings.Fields(scanner.Text())
		if len(f) < 6 || f[0] != "s" {
			continue
		}
		value, err := strconv.ParseFloat(f[len(f)-1], 64)
		switch key := strings.Join(f[4:len(f)-1], " "); {
		case err != nil:
			return 0, 0, err
		case key == "f f" || key == "o":
			return Optimal, value, nil
		case strings.HasPrefix(key, "n") || strings.HasPrefix(key, "i"):
			return Infeasible, 0, nil
		case key == "f n":
			return Unbounded, 0, nil
		default:
			return Stopped, value, nil
		}
	}
	return 0, 0, fmt.Errorf("no s line in %q", text)
}

// oracleProblems makes the problems that are compared: count linear ones and a
// quarter as many with integers, of all families in turn.
func oracleProblems(count int) []*Problem {
	r := rand.New(rand.NewPCG(4, 2026))
	var list []*Problem
	for i := range count {
		list = append(list, randomProblem(r, families[i%len(families)], 30, 38, false))
	}
	for i := range count / 4 {
		family := families[i%len(families)]
		list = append(list, randomProblem(r, family, 6+r.IntN(10), 3+r.IntN(8), true))
	}
	return list
}

// The truth is GLPK's glpsol 5.0. By default 96 linear problems and 24 with
// integers are compared; with GYLE_SOAK=1 600 and 150.
func TestAgainstGLPK(t *testing.T) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		t.Skip("NOT COMPARED: glpsol (Debian package glpk-utils) is not installed, so no other solver has checked the answers")
	}
	count := 96
	if os.Getenv("GYLE_SOAK") != "" {
		count = 600
	}
	folder := t.TempDir()
	problems := oracleProblems(count)
	var group sync.WaitGroup
	turns := make(chan int)
	for range runtime.NumCPU() {
		group.Go(func() {
			for i := range turns {
				compareGLPK(t, folder, i, problems[i])
			}
		})
	}
	for i := range problems {
		turns <- i
	}
	close(turns)
	group.Wait()
}

func compareGLPK(t *testing.T, folder string, i int, p *Problem) {
	status, value, log, err := glpsol(folder, fmt.Sprint(i), p)
	if err != nil {
		t.Errorf("problem %d (%s): glpsol: %v\n%s", i, p.Name, err, log)
		return
	}
	compare(t, fmt.Sprintf("problem %d (%s), glpsol", i, p.Name), p, status, value)
}

// compare solves p and compares with another solver's answer.
func compare(t *testing.T, name string, p *Problem, status Status, value float64) {
	s, err := Solve(t.Context(), p, Options{})
	switch {
	case err != nil:
		t.Errorf("%s: %v", name, err)
	case s.Status != status:
		t.Errorf("%s: %v after %d pivots, %d nodes, value %g; want %v, value %g", name, s.Status, s.Pivots, s.Nodes, s.Value, status, value)
	case status == Optimal && !near(s.Value, value, 1e-7):
		t.Errorf("%s: value %.12g, want %.12g, worst %g", name, s.Value, value, s.Worst)
	case status == Optimal && s.Worst > 1e-6:
		t.Errorf("%s: worst %g", name, s.Worst)
	}
}
