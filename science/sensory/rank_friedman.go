// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// friedmanWork is how many steps the exact distribution may take within
// [Ranks.Friedman]: about a tenth of a second.
const friedmanWork = 1e6

// FriedmanStatistic measures how far the rank sums of the beers lie apart.
//
//	F = (k − 1)·Σ(Rj − n·(k + 1)/2)² / (A − n·k·(k + 1)²/4)
//
// Units: none. Rj is the rank sum of beer j, A the sum of all squared ranks; n
// assessors, k beers. Without ties this is 12/(n·k·(k + 1))·ΣRj² − 3·n·(k + 1).
//
//   - Source: friedman1937, from memory; iso8587, worked example as quoted publicly.
//   - Valid: each assessor ranks all beers; ties share their mean rank. All tied: 0.
//   - Check: sums 17, 31, 32, 23, 17 of 8 assessors give 10.60; a table with ties gives 11.618; against R's friedman.test.
//   - Tag: verified
func (r Ranks) FriedmanStatistic() float64 {
	n, k := float64(r.Assessors()), float64(r.Beers())
	squares, spread := 0.0, 0.0
	for _, row := range r {
		for _, rank := range row {
			squares += rank * rank
		}
	}
	for _, sum := range r.Sums() {
		spread += (sum - n*(k+1)/2) * (sum - n*(k+1)/2)
	}
	below := squares - n*k*(k+1)*(k+1)/4
	if below <= 0 {
		return 0
	}
	return (k - 1) * spread / below
}

// Friedman tests whether all beers are ranked alike. For small panels the
// probability is exact; where that would take longer than a tenth of a second it is
// the share of up to 9999 shuffles of each assessor's ranks, from a fixed seed, that
// lie as far apart, the ranks themselves counted in: no approximation, only coarse.
//
//	P(F' ≥ F) over all orders, each equally likely within each assessor
//	shuffled: P = (1 + how many of s shuffles have F' ≥ F)/(s + 1)
//
// Units: none.
//
//   - Source: friedman1937 and kendall1939, from memory.
//   - Valid: from 2 assessors and 2 beers.
//   - Check: 8 assessors, sums 12, 16, 23, 29: F 12.75, chi-square p 0.00521, exact p 0.002337; with ties 11.618, 0.00881 and 0.003046.
//   - Tag: computed
func (r Ranks) Friedman() RankTest {
	f, df := r.FriedmanStatistic(), r.Beers()-1
	test := RankTest{Statistic: f, DF: df, ChiSquare: chiSquareAbove(f, float64(df))}
	if friedmanCost(r.Assessors(), r.Beers()) <= friedmanWork {
		test.P, test.Method = r.FriedmanExact(), "exact"
	} else {
		test.P, test.Method = r.shuffled(max(999, min(partDraws, shuffleWork/(r.Assessors()*r.Beers()))))
	}
	return test
}

// shuffleWork is how many ranks are moved at most, about a fiftieth of a second.
const shuffleWork = 3_000_000

// shuffled finds the probability by shuffles.
func (r Ranks) shuffled(draws int) (p float64, method string) {
	random := rand.New(rand.NewPCG(partSeed, uint64(len(r))))
	rows, sums, target := make([][]int, len(r)), make([]int, r.Beers()), 0
	for i, row := range r {
		rows[i] = doubled(row)
	}
	for _, sum := range r.doubledSums() {
		target += sum * sum
	}
	asFar := 1
	for range draws {
		clear(sums)
		for _, row := range rows {
			for j := len(row) - 1; j > 0; j-- {
				other := random.IntN(j + 1)
				row[j], row[other] = row[other], row[j]
			}
			for j, x := range row {
				sums[j] += x
			}
		}
		squares := 0
		for _, sum := range sums {
			squares += sum * sum
		}
		if squares >= target {
			asFar++
		}
	}
	return float64(asFar) / float64(draws+1), fmt.Sprintf("%d shuffles", draws)
}

// friedmanCost estimates the steps of the exact distribution: about nᵏ⁻¹·kᵏ⁻²/k!
// sorted rank sums after n assessors, each met by k! orders.
func friedmanCost(n, k int) float64 {
	if k > packedBeers {
		return math.Inf(1)
	}
	return math.Pow(float64(n-1), float64(k)) / float64(k) * math.Pow(float64(k), float64(k-2))
}

// KendallF returns the probability of a Friedman statistic as large as f by the
// F distribution whose mean and variance fit those of the concordance W.
//
//	W = f/(n·(k − 1)),  F = (n − 1)·W/(1 − W)
//	ν1 = k − 1 − 2/n,   ν2 = (n − 1)·ν1
//
// Units: none; n assessors, k beers.
//
//   - Source: kendall1939, from memory.
//   - Valid: 4 beers or more, where the exact probability is out of reach: within 0.005 of it, mostly below; under 1 % it may be only half of it.
//   - Check: against the exact distribution and against simulated panels in the test.
//   - Tag: from memory
func KendallF(f float64, n, k int) float64 {
	w := f / (float64(n) * float64(k-1))
	if w >= 1-1e-12 { // all agree: one of k!ⁿ⁻¹
		lg, _ := math.Lgamma(float64(k + 1))
		return math.Exp(-float64(n-1) * lg)
	}
	df1 := float64(k-1) - 2/float64(n)
	return ratingFTail(float64(n-1)*w/(1-w), df1, float64(n-1)*df1)
}

// FriedmanExact returns the exact probability of a Friedman statistic as large
// as that of the table, ties included. It takes a fraction of a millisecond for
// 3 beers or a dozen assessors and 4 beers, and minutes for large panels:
// [Ranks.Friedman] knows when to ask for it.
//
//	P(ΣRj'² ≥ ΣRj²), the distribution of the sorted rank sums convolved assessor by assessor
//
// Units: none.
//
//   - Source: derived, complete enumeration; iso8587 asks for the test.
//   - Valid: up to 8 beers and, with 8, up to 15 assessors (more with fewer beers).
//   - Check: critical values for 3 beers, 3 to 15 assessors; 4 beers, 2 to 10; 5 beers, 2 to 7 as in printed tables (from memory).
//   - Tag: computed
func (r Ranks) FriedmanExact() float64 {
	target := 0
	for _, sum := range r.doubledSums() {
		target += sum * sum
	}
	// Row order makes no difference: take those with many ties first, they
	// spread least.
	rows := slices.Clone(r)
	slices.SortStableFunc(rows, func(a, b []float64) int { return int(tieSum(b) - tieSum(a)) })
	k := r.Beers()
	states := newRankStates(1)
	states.add(packSums(make([]int, k)), 1)
	for _, row := range rows[:len(rows)-1] {
		states = states.convolve(distinctOrders(doubled(row)), k)
	}
	return states.tail(distinctOrders(doubled(rows[len(rows)-1])), k, target)
}

func (r Ranks) doubledSums() []int {
	sums := make([]int, r.Beers())
	for _, row := range r {
		for j, rank := range doubled(row) {
			sums[j] += rank
		}
	}
	return sums
}

// FriedmanCritical returns the smallest Friedman statistic without ties that is
// significant at a level, or false when even complete agreement isn't.
//
//	min F with P(F' ≥ F) ≤ α
//
// Units: none; n assessors, k beers.
//
//   - Source: derived, complete enumeration.
//   - Valid: small panels; the time grows as nᵏ.
//   - Check: 3 beers, 8 assessors: 6.25 at 5 %, 9.0 at 1 %; 5 beers, 7 assessors: 9.143 and 11.867 to 12.114.
//   - Tag: computed
func FriedmanCritical(n, k int, alpha float64) (float64, bool) {
	row := make([]int, k)
	for j := range row {
		row[j] = 2 * (j + 1)
	}
	orders, states := distinctOrders(row), newRankStates(1)
	states.add(packSums(make([]int, k)), 1)
	for range n {
		states = states.convolve(orders, k)
	}
	chances, sums := map[int]float64{}, make([]int, k)
	for i, key := range states.keys {
		if key != 0 {
			unpackSums(key, sums)
			chances[squareSum(sums)] += states.weights[i]
		}
	}
	var squares []int
	for s := range chances {
		squares = append(squares, s)
	}
	slices.Sort(squares)
	best, tail, found := 0, 0.0, false
	for i := len(squares) - 1; i >= 0; i-- {
		if tail += chances[squares[i]]; tail > alpha*(1+1e-12) {
			break
		}
		best, found = squares[i], true
	}
	fn, fk := float64(n), float64(k)
	return 12/(fn*fk*(fk+1))*float64(best)/4 - 3*fn*(fk+1), found
}
