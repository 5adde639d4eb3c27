// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// blocksOf are whole rows as blocks.
func blocksOf(r Ranks) (blocks []Block) {
	for _, row := range r {
		b := Block{Ranks: row}
		for j := range row {
			b.Beers = append(b.Beers, j)
		}
		blocks = append(blocks, b)
	}
	return blocks
}

// Whole rows give Friedman's statistic, balanced blocks Durbin's (Skillings and Mack
// 1981, from memory): identities between three formulas written apart.
func TestPartRanksAreFriedmanAndDurbin(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		ranks := randomRanks(random, 3+random.IntN(8), 3+random.IntN(4))
		got, _, err := partRanks(ranks.Beers(), blocksOf(ranks), 9)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "whole rows", got.Statistic, ranks.FriedmanStatistic(), 1e-9)
	}
	var blocks []Block
	for i, beers := range [][]int{{0, 1, 3}, {1, 2, 4}, {2, 3, 5}, {3, 4, 6}, {4, 5, 0}, {5, 6, 1}, {6, 0, 2}} {
		ranks := [][]float64{{1, 2, 3}, {1, 2, 3}, {2, 1, 3}, {1, 2, 3}, {1, 3, 2}, {2, 3, 1}, {3, 1, 2}}[i]
		blocks = append(blocks, Block{beers, ranks})
	}
	got, pairs, err := PartRanks(7, blocks)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "balanced blocks", got.Statistic, 9.4286, 5e-5)
	same(t, "p of balanced blocks, exact 0.14043", got.P, 0.14043, 0.015) // four standard errors of 9999 shuffles
	closest := 1.0
	for _, pair := range pairs {
		closest = min(closest, pair.P)
	}
	if len(pairs) != 21 || closest < 0.05 {
		t.Errorf("%d pairs, the clearest %.3f, where nothing is shown", len(pairs), closest)
	}
	fewer, _, err := PartRanks(7, blocks[:6])
	if err != nil || fewer.P <= 0 || fewer.P > 1 {
		t.Errorf("one block lost: %+v %v", fewer, err)
	}
	if _, _, err := PartRanks(4, []Block{{[]int{0, 1}, []float64{1, 2}}, {[]int{2, 3}, []float64{1, 2}}}); err == nil {
		t.Error("beers that were never compared are judged")
	}
}

func BenchmarkPartRanks(b *testing.B) {
	for _, n := range []int{10, 20} {
		b.Run(fmt.Sprintf("%d blocks of 3 of 6 beers", n), func(b *testing.B) {
			random := rand.New(rand.NewPCG(1, 2))
			var blocks []Block
			for range n {
				blocks = append(blocks, Block{random.Perm(6)[:3], []float64{1, 2, 3}})
			}
			for b.Loop() {
				PartRanks(6, blocks)
			}
		})
	}
}
