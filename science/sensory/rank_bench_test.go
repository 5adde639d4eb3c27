// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

func randomRanks(random *rand.Rand, n, k int) Ranks {
	ranks := make(Ranks, n)
	for i := range ranks {
		for _, j := range random.Perm(k) {
			ranks[i] = append(ranks[i], float64(j+1))
		}
	}
	return ranks
}

func BenchmarkFriedman(b *testing.B) {
	for _, size := range []struct{ n, k int }{{18, 3}, {12, 4}, {20, 4}, {8, 5}, {10, 5}, {4, 6}, {20, 6}} {
		b.Run(fmt.Sprintf("%d assessors, %d beers", size.n, size.k), func(b *testing.B) {
			ranks := randomRanks(rand.New(rand.NewPCG(1, 2)), size.n, size.k)
			for b.Loop() {
				ranks.Friedman()
			}
		})
	}
}
func BenchmarkFriedmanExact(b *testing.B) {
	for _, size := range []struct{ n, k int }{{12, 5}, {15, 5}, {5, 6}, {6, 6}} {
		b.Run(fmt.Sprintf("%d assessors, %d beers", size.n, size.k), func(b *testing.B) {
			ranks := randomRanks(rand.New(rand.NewPCG(1, 2)), size.n, size.k)
			for b.Loop() {
				ranks.FriedmanExact()
			}
		})
	}
}
