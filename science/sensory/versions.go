// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// Duel is a preference between two of several versions, numbered from 0.
type Duel struct{ A, B, ForA, ForB int }

// Strengths places versions on one scale of liking from preferences between pairs.
type Strengths struct {
	Log      []quantity.Estimate // logarithm of the strength; the first version has 0
	Share    []float64           // of preferences, were all on one table; they sum to 1
	Deviance float64             // how badly one scale fits all pairs
	Freedom  int
	P        float64 // of the deviance; approximate, 1 without freedom
}

// Compare puts versions on one scale; false if the pairs don't hang together, or if
// some versions never won against, or never lost to, all others: then no scale
// exists. The best of many looks better than it is: taste the winner again.
//
//	P(i preferred to j) = πᵢ/(πᵢ + πⱼ)
//
// All are numbers without unit. The strengths π are the most likely ones, found by
// Newton's rule on their logarithms.
//
//   - Source: bradley1952, model.
//   - Valid: independent preferences; versions linked by a common reference.
//   - Check: 12 for each of six pairs, 3:9, 2:10, 5:7, 5:7, 8:4, 9:3: 1.11709 ± 0.45956,
//     1.50274 ± 0.48081, 0.38565 ± 0.44324, deviance 0.0389.
//   - Tag: computed
func Compare(versions int, duels []Duel) (strengths Strengths, found bool) {
	if versions < 2 || !connected(versions, duels) {
		return Strengths{}, false
	}
	logs := make([]float64, versions)
	var inverse [][]float64
	for range 50 {
		slope, curve := gradient(logs, duels)
		inverse = invertMatrix(curve)
		largest := 0.0
		for i := range slope {
			step := 0.0
			for j, s := range slope {
				step += inverse[i][j] * s
			}
			step = max(-1, min(1, step)) // far out the curve says little
			logs[i+1] += step
			largest = max(largest, math.Abs(step))
		}
		if largest < 1e-12 {
			break
		}
	}
	return describe(logs, inverse, duels), true
}

func describe(logs []float64, inverse [][]float64, duels []Duel) Strengths {
	s := Strengths{Log: make([]quantity.Estimate, len(logs)), Share: make([]float64, len(logs)), P: 1}
	sum := 0.0
	for i, l := range logs {
		s.Log[i].Value = l
		if i > 0 {
			s.Log[i].SD = math.Sqrt(inverse[i-1][i-1])
		}
		s.Share[i] = math.Exp(l)
		sum += s.Share[i]
	}
	for i := range s.Share {
		s.Share[i] /= sum
	}
	pairs := merged(duels)
	for _, d := range pairs {
		n := d.ForA + d.ForB
		s.Deviance += 2 * (logLikelihood(d.ForA, n, float64(d.ForA)/float64(n)) - logLikelihood(d.ForA, n, logistic(logs[d.A]-logs[d.B])))
	}
	s.Freedom = len(pairs) - (len(logs) - 1)
	if s.Freedom > 0 {
		s.P = chiSquareAbove(s.Deviance, float64(s.Freedom))
	}
	return s
}

func logistic(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// merged adds up duels of the same pair, the lower number first, in order of
// appearance; pairs without a preference are left out.
func merged(duels []Duel) []Duel {
	var list []Duel
	place := map[[2]int]int{}
	for _, d := range duels {
		if d.A > d.B {
			d = Duel{d.B, d.A, d.ForB, d.ForA}
		}
		if d.ForA+d.ForB == 0 {
			continue
		}
		i, known := place[[2]int{d.A, d.B}]
		if !known {
			place[[2]int{d.A, d.B}] = len(list)
			list = append(list, d)
			continue
		}
		list[i].ForA += d.ForA
		list[i].ForB += d.ForB
	}
	return list
}

// connected says whether from each version every other is reached by steps from a
// winner to one it beat at least once.
func connected(versions int, duels []Duel) bool {
	for start := range versions {
		seen := make([]bool, versions)
		seen[start] = true
		for range versions {
			for _, d := range duels {
				seen[d.B] = seen[d.B] || seen[d.A] && d.ForA > 0
				seen[d.A] = seen[d.A] || seen[d.B] && d.ForB > 0
			}
		}
		for _, s := range seen {
			if !s {
				return false
			}
		}
	}
	return true
}

// gradient is the slope and the negative curvature of the log likelihood in the
// logarithms of all strengths but the first.
func gradient(logs []float64, duels []Duel) (slope []float64, curve [][]float64) {
	k := len(logs) - 1
	slope, curve = make([]float64, k), make([][]float64, k)
	for i := range curve {
		curve[i] = make([]float64, k)
	}
	for _, d := range duels {
		n, p := float64(d.ForA+d.ForB), logistic(logs[d.A]-logs[d.B])
		gap, weight, a, b := float64(d.ForA)-n*p, n*p*(1-p), d.A-1, d.B-1
		if a >= 0 {
			slope[a] += gap
			curve[a][a] += weight
		}
		if b >= 0 {
			slope[b] -= gap
			curve[b][b] += weight
		}
		if a >= 0 && b >= 0 {
			curve[a][b] -= weight
			curve[b][a] -= weight
		}
	}
	return slope, curve
}

// invertMatrix inverts a positive definite matrix by Gauss and Jordan.
func invertMatrix(m [][]float64) [][]float64 {
	n := len(m)
	inverse := make([][]float64, n)
	for i := range inverse {
		inverse[i] = make([]float64, n)
		inverse[i][i] = 1
	}
	for i := range n {
		pivot := m[i][i]
		for j := range n {
			m[i][j] /= pivot
			inverse[i][j] /= pivot
		}
		for row := range n {
			factor := m[row][i]
			if row == i || factor == 0 {
				continue
			}
			for j := range n {
				m[row][j] -= factor * m[i][j]
				inverse[row][j] -= factor * inverse[i][j]
			}
		}
	}
	return inverse
}
