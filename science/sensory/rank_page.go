// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"math/bits"
)

// PageStatistic measures how far the rank sums rise in the order of the
// columns, which the question must have named beforehand.
//
//	L = Σ j·Rj
//
// Units: none; Rj is the rank sum of the beer that is expected in place j.
//
//   - Source: page1963, from memory.
//   - Valid: an order declared before pouring.
//   - Check: rank sums 12, 16, 23, 29 give 229.
//   - Tag: from memory
func (r Ranks) PageStatistic() (l float64) {
	for j, sum := range r.Sums() {
		l += float64(j+1) * sum
	}
	return l
}

// Page tests whether the beers rise in the order of the columns. The
// probability is exact for up to 12 beers, beyond it the normal approximation.
// DF and ChiSquare of the outcome are left empty.
//
//	P(L' ≥ L), the distribution of L convolved assessor by assessor
//
// Units: none.
//
//   - Source: page1963, from memory; the enumeration derived.
//   - Valid: an order declared before pouring; one-sided.
//   - Check: 8 assessors, L 229: exact p 8.086e-5; critical values of printed tables for 3 to 6 beers (from memory).
//   - Tag: computed
func (r Ranks) Page() RankTest {
	test := RankTest{Statistic: r.PageStatistic(), Method: "exact"}
	if r.Beers() > mostPlacedBeers {
		test.P, test.Method = ratingNormalTail(r.PageZ()), "normal"
		return test
	}
	chances := []float64{1}
	for _, row := range r {
		chances = convolve(chances, placedSums(doubled(row)))
	}
	target := int(math.Round(2 * test.Statistic))
	test.P = min(1, sumFrom(chances, target))
	return test
}

// PageZ returns the Page statistic in standard deviations.
//
//	z = (L − n·k·(k + 1)²/4)/√(n·k²·(k + 1)²·(k − 1)/144)
//
// Units: none; n assessors, k beers.
//
//   - Source: page1963, from memory.
//   - Valid: no ties; large panels.
//   - Check: 8 assessors, 4 beers, L 229 give 3.5518.
//   - Tag: computed
func (r Ranks) PageZ() float64 {
	n, k := float64(r.Assessors()), float64(r.Beers())
	return (r.PageStatistic() - n*k*(k+1)*(k+1)/4) / math.Sqrt(n*k*k*(k+1)*(k+1)*(k-1)/144)
}

// PageCritical returns the smallest L without ties that is significant at a
// level, or false when even complete agreement isn't.
//
//	min L with P(L' ≥ L) ≤ α
//
// Units: none; n assessors, k beers.
//
//   - Source: page1963, table, from memory; computed here by convolution.
//   - Valid: up to 12 beers.
//   - Check: 3 beers, 20 assessors: 251, 256, 260 at 5, 1 and 0.1 %.
//   - Tag: computed
func PageCritical(n, k int, alpha float64) (int, bool) {
	row := make([]int, k)
	for j := range row {
		row[j] = j + 1
	}
	one, chances := placedSums(row), []float64{1}
	for range n {
		chances = convolve(chances, one)
	}
	best, tail, found := 0, 0.0, false
	for l := len(chances) - 1; l >= 0; l-- {
		if tail += chances[l]; tail > alpha*(1+1e-12) {
			break
		}
		if chances[l] > 0 {
			best, found = l, true
		}
	}
	return best, found
}

// mostPlacedBeers bounds the table of [placedSums]: 2¹² sets of ranks.
const mostPlacedBeers = 12

// placedSums returns the distribution of Σ j·x(j) when the numbers of a row
// stand in random order. It places them one after the other and remembers
// which are used.
func placedSums(row []int) []float64 {
	most := 0
	for _, x := range row {
		most += len(row) * x // more than any order reaches
	}
	bySet := make([][]float64, 1<<len(row))
	bySet[0] = make([]float64, most+1)
	bySet[0][0] = 1
	for set := range bySet {
		place := bits.OnesCount(uint(set)) + 1
		for i, x := range row {
			if set&(1<<i) != 0 {
				continue
			}
			next := set | 1<<i
			if bySet[next] == nil {
				bySet[next] = make([]float64, most+1)
			}
			share := 1 / float64(len(row)-place+1)
			for sum, chance := range bySet[set] {
				if chance > 0 {
					bySet[next][sum+place*x] += chance * share
				}
			}
		}
		if set != len(bySet)-1 {
			bySet[set] = nil
		}
	}
	return bySet[len(bySet)-1]
}

// convolve returns the distribution of the sum of two whole numbers.
func convolve(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, x := range a {
		if x == 0 {
			continue
		}
		for j, y := range b {
			sum[i+j] += x * y
		}
	}
	for len(sum) > 1 && sum[len(sum)-1] == 0 {
		sum = sum[:len(sum)-1]
	}
	return sum
}

func sumFrom(chances []float64, from int) (p float64) {
	for i := len(chances) - 1; i >= max(from, 0); i-- {
		p += chances[i]
	}
	return p
}
