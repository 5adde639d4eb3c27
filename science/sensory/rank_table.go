// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"slices"
)

// Ranks are the orders that a panel gave: row i holds the ranks that assessor i
// gave to each beer. Equal beers share the mean of their ranks. Which end is
// first is the affair of the question; the tests don't care.
type Ranks [][]float64

// RanksOf turns scores, a row for each assessor, into ranks: the lowest score of
// a row gets rank 1, equal ones share the mean of their ranks.
func RanksOf(scores [][]float64) Ranks {
	ranks := make(Ranks, len(scores))
	for i, row := range scores {
		ranks[i] = meanRanks(row)
	}
	return ranks
}

// meanRanks ranks one row.
func meanRanks(scores []float64) []float64 {
	order, ranks := risingOrder(scores), make([]float64, len(scores))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && scores[order[to]] == scores[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			ranks[i] = float64(from+1+to) / 2
		}
		from = to
	}
	return ranks
}

// Check says what is wrong with the table: too small, rows of unequal length,
// or a row that is no order of all beers.
func (r Ranks) Check() error {
	if len(r) < 1 || len(r[0]) < 2 {
		return fmt.Errorf("rank: a table needs an assessor and two beers at least")
	}
	for i, row := range r {
		if len(row) != len(r[0]) {
			return fmt.Errorf("rank: assessor %d ranked %d beers, the first %d", i+1, len(row), len(r[0]))
		}
		if !slices.Equal(row, meanRanks(row)) {
			return fmt.Errorf("rank: what assessor %d gave is no order of %d beers: %v", i+1, len(row), row)
		}
	}
	return nil
}

// Assessors returns how many rows the table has.
func (r Ranks) Assessors() int { return len(r) }

// Beers returns how many beers each assessor ranked.
func (r Ranks) Beers() int {
	if len(r) == 0 {
		return 0
	}
	return len(r[0])
}

// Sums returns the rank sum of each beer.
func (r Ranks) Sums() []float64 {
	sums := make([]float64, r.Beers())
	for _, row := range r {
		for j, rank := range row {
			sums[j] += rank
		}
	}
	return sums
}

// Tied reports whether any assessor called two beers equal.
func (r Ranks) Tied() bool {
	return slices.ContainsFunc(r, func(row []float64) bool { return tieSum(row) > 0 })
}

// tieSum returns Σ(t³ − t) over the groups of t equal ranks in a row.
func tieSum(row []float64) (sum float64) {
	sorted := slices.Sorted(slices.Values(row))
	for from := 0; from < len(sorted); {
		to := from + 1
		for to < len(sorted) && sorted[to] == sorted[from] {
			to++
		}
		t := float64(to - from)
		sum += t*t*t - t
		from = to
	}
	return sum
}

// doubled returns the ranks of a row as whole numbers: twice their value, so
// that shared ranks such as 2.5 stay exact.
func doubled(row []float64) []int {
	whole := make([]int, len(row))
	for j, rank := range row {
		whole[j] = int(math.Round(2 * rank))
	}
	return whole
}

// RankTest is the outcome of a test on ranks.
type RankTest struct {
	Statistic float64
	DF        int     // degrees of freedom of the chi-square reference
	ChiSquare float64 // p by the chi-square reference, for comparison with other programs
	P         float64 // the p to use
	Method    string  // how P was found: "exact", or the name of the approximation
}
