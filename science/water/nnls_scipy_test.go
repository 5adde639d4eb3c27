// SPDX-License-Identifier: MIT

package water

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"
)

// scipyScript solves the problems that come in as JSON.
const scipyScript = `
import json, sys, numpy as np
from scipy.optimize import nnls
print(json.dumps([list(nnls(np.array(p["A"]), np.array(p["b"]))[0]) for p in json.load(sys.stdin)]))`

// usual are salts that no mixture of the others replaces.
var usual = []string{"calcium-chloride-dihydrate", "gypsum", "epsom-salt", "table-salt", "baking-soda"}

// The solver agrees with scipy.optimize.nnls on random choices of salts, aims
// and waters.
func TestNonNegativeAgreesWithScipy(t *testing.T) {
	python := "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import scipy").Run(); err != nil {
		t.Skip("no scipy on this machine: install python3-scipy to compare the least squares with it")
	}
	type problem struct {
		A [][]float64 `json:"A"`
		B []float64   `json:"b"`
	}
	random := rand.New(rand.NewPCG(3, 11))
	var problems []problem
	for range 300 {
		random.Shuffle(len(usual), func(i, j int) { usual[i], usual[j] = usual[j], usual[i] })
		salts := usual[:1+random.IntN(len(usual))]
		var p problem
		for _, ion := range []Ion{Calcium, Magnesium, Sodium, Chloride, Sulfate, Bicarbonate} {
			aim := 10 + 240*random.Float64()
			row := make([]float64, len(salts))
			for i, id := range salts {
				s, ok := SaltByID(id)
				if !ok {
					t.Fatalf("no salt %s", id)
				}
				row[i] = s.PerGram()[ion] / max(aim, aimFloor)
			}
			p.A = append(p.A, row)
			p.B = append(p.B, (aim-150*random.Float64())/max(aim, aimFloor))
		}
		problems = append(problems, p)
	}
	input, err := json.Marshal(problems)
	if err != nil {
		t.Fatal(err)
	}
	run := exec.Command(python, "-c", scipyScript)
	run.Stdin = bytes.NewReader(input)
	said, err := run.Output()
	if err != nil {
		t.Fatal(err)
	}
	var want [][]float64
	if err := json.Unmarshal(said, &want); err != nil {
		t.Fatal(err)
	}
	for n, p := range problems {
		got := nonNegative(normal(p.A, p.B))
		if math.Abs(leftSquares(p.A, p.B, got)-leftSquares(p.A, p.B, want[n])) > 1e-9 {
			t.Errorf("problem %d: %v leaves %v, scipy's %v leaves %v", n, got, leftSquares(p.A, p.B, got), want[n], leftSquares(p.A, p.B, want[n]))
		}
		for i := range got {
			if math.Abs(got[i]-want[n][i]) > 1e-9 {
				t.Errorf("problem %d: %v, scipy %v", n, got, want[n])
				break
			}
		}
	}
}

// normal returns AᵀA and Aᵀb.
func normal(a [][]float64, b []float64) (gram [][]float64, target []float64) {
	n := len(a[0])
	gram, target = make([][]float64, n), make([]float64, n)
	for i := range n {
		gram[i] = make([]float64, n)
		for row := range a {
			target[i] += a[row][i] * b[row]
			for j := range n {
				gram[i][j] += a[row][i] * a[row][j]
			}
		}
	}
	return gram, target
}

func leftSquares(a [][]float64, b, x []float64) (sum float64) {
	for row := range a {
		left := -b[row]
		for i := range x {
			left += a[row][i] * x[i]
		}
		sum += left * left
	}
	return sum
}
