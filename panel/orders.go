// SPDX-License-Identifier: MIT

package panel

import (
	"fmt"
	"slices"
	"strings"

	"gyle/tasting"
)

// UsualGlasses is how many glasses A or not A has when nothing is said.
const UsualGlasses = 4

// ordersFor returns the order of beers of each set: those of the first taster,
// then those of the second.
func ordersFor(t *tasting.Tasting, f *tasting.Flight, wish Wish, random *Random) ([]string, error) {
	count := len(wish.Tasters) * max(wish.Sets, 1)
	letters := t.Letters(f)
	switch f.Kind {
	case tasting.Ranking, tasting.Profile:
		return squareOrders(letters, wish, count, random)
	case tasting.ANotA:
		return mixedOrders(letters, wish, count, random), nil
	}
	patterns := t.Patterns(f)
	if len(letters) != 2 || len(patterns) == 0 {
		return nil, fmt.Errorf("a %s compares two beers, not %d", f.Kind, len(letters))
	}
	return inBlocks(patterns, count, wish.InTurn, random), nil
}

// inBlocks gives every pattern once before any is given again. The patterns of
// an incomplete last block are drawn by lot.
func inBlocks(patterns []string, count int, inTurn bool, random *Random) (orders []string) {
	for len(orders) < count {
		block := slices.Clone(patterns)
		if !inTurn {
			shuffle(random, block)
		}
		orders = append(orders, block...)
	}
	return orders[:count]
}

// mixedOrders gives each taster equally many glasses of both beers in random
// order; an odd glass is drawn by lot.
func mixedOrders(letters []string, wish Wish, count int, random *Random) (orders []string) {
	n := wish.Glasses
	if n < 1 {
		n = UsualGlasses
	}
	for range count {
		var set []string
		for i := range n / 2 * 2 {
			set = append(set, letters[i%2])
		}
		if n%2 == 1 {
			set = append(set, letters[random.Below(2)])
		}
		shuffle(random, set)
		orders = append(orders, strings.Join(set, ""))
	}
	return orders
}

// squareOrders follows Williams squares. When a taster gets some of the beers
// only, blocks decide which, and each block is served in the orders of a square
// of its size.
func squareOrders(letters []string, wish Wish, count int, random *Random) ([]string, error) {
	m := wish.PerTaster
	if m <= 0 || m > len(letters) {
		m = len(letters)
	}
	blocks, ok := Blocks(len(letters), m)
	if !ok {
		return nil, fmt.Errorf("no balanced plan is known that serves %d of %d beers to each; try %s", m, len(letters), BlockSizes(len(letters)))
	}
	names := slices.Clone(letters) // which beer plays which part is drawn by lot
	shuffle(random, names)
	square := Williams(m)
	rows := make([]int, len(blocks)) // of the square, next for each block
	start := make([][][]int, len(blocks))
	var orders []string
	for len(orders) < count {
		turn := make([]int, len(blocks))
		for i := range turn {
			turn[i] = i
		}
		if !wish.InTurn {
			shuffle(random, turn)
		}
		for _, b := range turn {
			if rows[b]%len(square) == 0 {
				start[b] = slices.Clone(square)
				if !wish.InTurn {
					shuffleSquare(random, start[b], m)
				}
			}
			row := start[b][rows[b]%len(square)]
			rows[b]++
			var order strings.Builder
			for _, place := range row {
				order.WriteString(names[blocks[b][place]])
			}
			orders = append(orders, order.String())
		}
	}
	return orders[:count], nil
}

// shuffleSquare shuffles the rows of a square and of its mirror each for itself:
// after m rows of either every beer has been in every place once.
func shuffleSquare(random *Random, rows [][]int, m int) {
	for from := 0; from < len(rows); from += m {
		shuffle(random, rows[from:from+m])
	}
	if len(rows) == 2*m && random.Below(2) == 1 {
		copy(rows, slices.Concat(rows[m:], rows[:m]))
	}
}

// BlockSizes names how many of so many beers may be served to each by a balanced
// plan: "2, 3, 4".
func BlockSizes(beers int) string {
	var known []string
	for m := 2; m <= beers; m++ {
		if _, ok := Blocks(beers, m); ok {
			known = append(known, fmt.Sprint(m))
		}
	}
	return strings.Join(known, ", ")
}
