// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// partDraws is how often [PartRanks] shuffles the ranks; partSeed makes that the
// same every time.
const (
	partDraws = 9999
	partSeed  = 1981
)

// PartRanks tests whether all beers are ranked alike when assessors ranked some of
// them, in blocks of any size and however often: also when a balanced plan lost some
// of its assessors.
//
//	Aⱼ = Σᵢ √(12/(mᵢ + 1))·(rᵢⱼ − (mᵢ + 1)/2),  T = Aᵀ·Σ⁻·A
//	Σⱼⱼ = Σₜ λⱼₜ,  Σⱼₜ = −λⱼₜ
//
// Units: none; mᵢ beers in block i, λ how many blocks have both beers. With whole rows
// it is Friedman's statistic, with balanced blocks Durbin's. P is the share of 9999
// shuffles of the ranks within their blocks, from a fixed seed, that give as much; the
// answers themselves are counted in, so that it keeps its alpha. The difference of a
// pair is that of the beers' Σ⁻·A in its standard deviations; its P is the share of
// shuffles in which any pair lies so far apart: all pairs judged together.
//
//   - Source: skillings1981, statistic, from memory; the shuffles derived.
//   - Valid: blocks that hang together; shared ranks are allowed, P stays right.
//   - Check: the statistics of [Ranks.FriedmanStatistic] and [Durbin], which it must give: 9.4286 for the seven blocks there.
//   - Tag: from memory
func PartRanks(k int, blocks []Block) (RankTest, []RankPair, error) {
	return partRanks(k, blocks, partDraws)
}

func partRanks(k int, blocks []Block, draws int) (RankTest, []RankPair, error) {
	table, err := newPartTable(k, blocks)
	if err != nil {
		return RankTest{}, nil, err
	}
	ranks := make([][]float64, len(blocks))
	for i, b := range blocks {
		ranks[i] = slices.Clone(b.Ranks)
	}
	t := table.statistic(ranks)
	pairs := table.pairs()
	random := rand.New(rand.NewPCG(partSeed, uint64(len(blocks))))
	asFar := 1
	for range draws {
		for _, row := range ranks {
			random.Shuffle(len(row), func(i, j int) { row[i], row[j] = row[j], row[i] })
		}
		if table.statistic(ranks) >= t*(1-1e-9) {
			asFar++
		}
		widest := table.widest()
		for i := range pairs {
			if widest >= math.Abs(pairs[i].Difference)*(1-1e-9) {
				pairs[i].P++
			}
		}
	}
	for i := range pairs {
		pairs[i].P = (pairs[i].P + 1) / float64(draws+1)
	}
	test := RankTest{Statistic: t, DF: k - 1, ChiSquare: chiSquareAbove(t, float64(k-1)), Method: fmt.Sprintf("%d shuffles", draws)}
	test.P = float64(asFar) / float64(draws+1)
	return test, pairs, nil
}

// partTable is what stays when ranks are shuffled within their blocks.
type partTable struct {
	blocks  []Block
	inverse [][]float64 // of Σ without the last beer
	sums    []float64   // A, filled anew each time
	effects []float64   // Σ⁻·A, likewise; the last beer has 0
	spread  [][]float64 // standard deviation of the difference of two effects
}

func newPartTable(k int, blocks []Block) (*partTable, error) {
	covariance := make([][]float64, k)
	for j := range covariance {
		covariance[j] = make([]float64, k)
	}
	reach := newLinks(k)
	for i, b := range blocks {
		if len(b.Beers) < 2 || len(b.Ranks) != len(b.Beers) {
			return nil, fmt.Errorf("rank: block %d has %d beers and %d ranks", i+1, len(b.Beers), len(b.Ranks))
		}
		for x, beer := range b.Beers {
			if beer < 0 || beer >= k {
				return nil, fmt.Errorf("rank: block %d names beer %d of %d", i+1, beer+1, k)
			}
			for _, other := range b.Beers[:x] {
				covariance[beer][beer]++
				covariance[other][other]++
				covariance[beer][other]--
				covariance[other][beer]--
				reach.join(beer, other)
			}
		}
	}
	if k < 2 || !reach.whole() {
		return nil, fmt.Errorf("rank: the beers don't hang together: some were never tasted beside the others")
	}
	small := make([][]float64, k-1)
	for j := range small {
		small[j] = covariance[j][:k-1]
	}
	p := &partTable{blocks: blocks, inverse: invertMatrix(small), sums: make([]float64, k), effects: make([]float64, k), spread: covariance}
	at := func(i, j int) float64 {
		if i == k-1 || j == k-1 {
			return 0
		}
		return p.inverse[i][j]
	}
	for i := range p.spread {
		p.spread[i] = make([]float64, k)
		for j := range p.spread[i] {
			p.spread[i][j] = math.Sqrt(at(i, i) + at(j, j) - 2*at(i, j))
		}
	}
	return p, nil
}

// statistic is Aᵀ·Σ⁻·A; A sums to nothing, so that the last beer adds none.
func (p *partTable) statistic(ranks [][]float64) (t float64) {
	clear(p.sums)
	for i, b := range p.blocks {
		m := float64(len(b.Beers))
		weight, middle := math.Sqrt(12/(m+1)), (m+1)/2
		for x, beer := range b.Beers {
			p.sums[beer] += weight * (ranks[i][x] - middle)
		}
	}
	for i, row := range p.inverse {
		p.effects[i] = 0
		for j, c := range row {
			p.effects[i] += c * p.sums[j]
		}
		t += p.sums[i] * p.effects[i]
	}
	return t
}

// pairs are the differences of the effects in their standard deviations.
func (p *partTable) pairs() (pairs []RankPair) {
	for i, from := range p.effects {
		for j := i + 1; j < len(p.effects); j++ {
			pairs = append(pairs, RankPair{First: i, Second: j, Difference: (p.effects[j] - from) / p.spread[i][j]})
		}
	}
	return pairs
}

// widest is the largest of those differences.
func (p *partTable) widest() (most float64) {
	for i, from := range p.effects {
		for j := i + 1; j < len(p.effects); j++ {
			most = max(most, math.Abs(p.effects[j]-from)/p.spread[i][j])
		}
	}
	return most
}

// links says which beers hang together.
type links []int

func newLinks(k int) links {
	l := make(links, k)
	for i := range l {
		l[i] = i
	}
	return l
}

func (l links) join(a, b int) {
	from, to := l[a], l[b]
	for i := range l {
		if l[i] == from {
			l[i] = to
		}
	}
}

func (l links) whole() bool {
	return !slices.ContainsFunc(l, func(root int) bool { return root != l[0] })
}
