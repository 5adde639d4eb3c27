// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
)

// Block is what one assessor ranked when each got only some of the beers.
type Block struct {
	Beers []int     // columns, from 0
	Ranks []float64 // 1 to len(Beers), in the order of Beers
}

// Durbin tests whether all beers are ranked alike when every assessor ranked
// some of them, each pair of beers together equally often.
//
//	T = 12·(k − 1)/(r·k·(m − 1)·(m + 1))·Σ(Rj − r·(m + 1)/2)²
//
// Units: none; k beers, m to a block, each beer tasted r times. P is exact for
// small designs, chi-square with k − 1 degrees of freedom otherwise.
//
//   - Source: durbin1951, from memory.
//   - Valid: balanced incomplete blocks without ties.
//   - Check: 7 beers in 7 blocks of 3, rank sums 4, 4, 6, 5, 6, 8, 9: T 9.4286, chi-square p 0.1509, exact p 0.14043.
//   - Tag: computed
func Durbin(k int, blocks []Block) (RankTest, error) {
	sums, times := make([]float64, k), make([]int, k)
	m := 0
	for i, b := range blocks {
		if m = len(b.Beers); m < 2 || len(b.Ranks) != m || m != len(blocks[0].Beers) {
			return RankTest{}, fmt.Errorf("rank: block %d has %d beers and %d ranks, the first %d beers", i+1, m, len(b.Ranks), len(blocks[0].Beers))
		}
		for j, beer := range b.Beers {
			if beer < 0 || beer >= k {
				return RankTest{}, fmt.Errorf("rank: block %d names beer %d of %d", i+1, beer+1, k)
			}
			sums[beer] += b.Ranks[j]
			times[beer]++
		}
	}
	for beer, n := range times {
		if n == 0 || n != times[0] {
			return RankTest{}, fmt.Errorf("rank: beer %d was tasted %d times, beer 1 %d times", beer+1, n, times[0])
		}
	}
	factor := 12 * float64(k-1) / float64(times[0]*k*(m-1)*(m+1))
	middle := float64(times[0]*(m+1)) / 2
	t := factor * spreadAbout(sums, middle)
	test := RankTest{Statistic: t, DF: k - 1, ChiSquare: chiSquareAbove(t, float64(k-1)), Method: "chi-square"}
	test.P = test.ChiSquare
	if p, ok := durbinExact(k, blocks, func(sums []float64) float64 { return factor * spreadAbout(sums, middle) }, t); ok {
		test.P, test.Method = p, "exact"
	}
	return test, nil
}

func spreadAbout(sums []float64, middle float64) (spread float64) {
	for _, sum := range sums {
		spread += (sum - middle) * (sum - middle)
	}
	return spread
}

// durbinStates is how many different rank sums the exact distribution may hold.
const durbinStates = 200_000

// durbinExact convolves the rank sums block by block, unless there are too many.
func durbinExact(k int, blocks []Block, statistic func([]float64) float64, t float64) (p float64, ok bool) {
	if k > packedBeers || len(blocks) > 60 {
		return 0, false
	}
	states := newRankStates(1)
	sums := make([]int, k)
	states.add(packSums(sums), 1)
	for _, b := range blocks {
		var orders [][]int
		for _, ranks := range distinctOrders(doubled(b.Ranks)) {
			order := make([]int, k)
			for j, beer := range b.Beers {
				order[beer] = ranks[j] / 2
			}
			orders = append(orders, order)
		}
		if states = states.shift(orders, k); states.used > durbinStates {
			return 0, false
		}
	}
	halves := make([]float64, k)
	for i, key := range states.keys {
		if key == 0 {
			continue
		}
		unpackSums(key, sums)
		for j, sum := range sums {
			halves[j] = float64(sum)
		}
		if statistic(halves) >= t*(1-1e-12) {
			p += states.weights[i]
		}
	}
	return min(p, 1), true
}

// MackSkillings tests whether all beers are ranked alike when every assessor
// scored each beer several times. Scores[i][j] are the scores of assessor i for
// beer j; all cells hold equally many.
//
//	MS = 12/(k·(N + n))·ΣSj² − 3·(N + n),  N = n·k·c
//
// Units: none. Sj is the sum over the assessors of the mean rank of beer j among
// all k·c scores of the assessor; n assessors, k beers, c repeats.
//
//   - Source: mackskillings1980, from memory; recommended for repeated ranks by carabante2016 (abstract).
//   - Valid: no ties between beers; P by chi-square with k − 1 degrees of freedom.
//   - Check: 4 assessors, 3 beers, 2 repeats: S 6.25, 17, 18.75, MS 13.089, p 0.001438; one repeat gives Friedman's statistic.
//   - Tag: computed
func MackSkillings(scores [][][]float64) (RankTest, error) {
	if err := checkCells(scores); err != nil {
		return RankTest{}, err
	}
	n, k, c := len(scores), len(scores[0]), len(scores[0][0])
	sums := make([]float64, k)
	for _, row := range scores {
		var all []float64
		for _, cell := range row {
			all = append(all, cell...)
		}
		for at, rank := range meanRanks(all) {
			sums[at/c] += rank / float64(c)
		}
	}
	squares, total := 0.0, float64(n*k*c+n)
	for _, s := range sums {
		squares += s * s
	}
	ms := 12/(float64(k)*total)*squares - 3*total
	p := chiSquareAbove(ms, float64(k-1))
	return RankTest{Statistic: ms, DF: k - 1, ChiSquare: p, P: p, Method: "chi-square"}, nil
}

// checkCells says whether a table of assessors, beers and repeats has holes.
func checkCells(scores [][][]float64) error {
	if len(scores) < 2 || len(scores[0]) < 2 || len(scores[0][0]) < 1 {
		return fmt.Errorf("scores: two assessors, two beers and a score for each are the least")
	}
	for i, row := range scores {
		if len(row) != len(scores[0]) {
			return fmt.Errorf("scores: assessor %d scored %d beers, the first %d", i+1, len(row), len(scores[0]))
		}
		for j, cell := range row {
			if len(cell) != len(scores[0][0]) {
				return fmt.Errorf("scores: assessor %d scored beer %d %d times, not %d", i+1, j+1, len(cell), len(scores[0][0]))
			}
			for _, x := range cell {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					return fmt.Errorf("scores: assessor %d gave beer %d no number", i+1, j+1)
				}
			}
		}
	}
	return nil
}
