// SPDX-License-Identifier: MIT

package panel

import (
	"fmt"
	"strings"
	"testing"
)

// TestRandom compares with the first numbers of SplitMix64. Those of seed
// 1234567 are widely published; all were computed in two languages.
func TestRandom(t *testing.T) {
	r := NewRandom(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		if got := r.Next(); got != want {
			t.Errorf("seed 1234567 gives %d, want %d", got, want)
		}
	}
	r = NewRandom(0)
	for _, want := range []uint64{0xe220a8397b1dcdaf, 0x6e789e6aa1b965f4, 0x06c45d188009454f} {
		if got := r.Next(); got != want {
			t.Errorf("seed 0 gives %x, want %x", got, want)
		}
	}
	r = NewRandom(42)
	var below []int
	for range 10 {
		below = append(below, r.Below(6))
	}
	if got := fmt.Sprint(below); got != "[1 1 0 0 4 0 1 2 1 2]" {
		t.Errorf("ten numbers below 6 of seed 42: %s", got)
	}
}

func TestShuffle(t *testing.T) {
	ten := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}
	shuffle(NewRandom(42), ten)
	if got := fmt.Sprint(ten); got != "[0 9 5 8 6 4 7 2 1 3]" {
		t.Errorf("seed 42 shuffles to %s", got)
	}
	orders := []string{"AAB", "ABA", "BAA", "BBA", "BAB", "ABB"}
	got := inBlocks(orders, 12, false, NewRandom(7))
	if want := "ABA ABB AAB BAA BAB BBA AAB ABA BAB BAA ABB BBA"; strings.Join(got, " ") != want {
		t.Errorf("seed 7 gives the orders %v, want %s", got, want)
	}
}

func TestCoder(t *testing.T) {
	c := newCoder(NewRandom(20240501), nil)
	if len(c.pool) != 490 {
		t.Fatalf("the pool has %d codes", len(c.pool))
	}
	// Computed in two languages.
	if got := fmt.Sprint(c.pool[:12]); got != "[435 394 564 429 418 286 529 843 729 548 492 283]" {
		t.Errorf("seed 20240501 deals %s", got)
	}
	for range 400 {
		if _, err := c.tray(3); err != nil {
			return // the pool is used up, as it should be
		}
	}
	t.Errorf("the pool never ends: %d codes are left", len(c.pool))
}

// TestWilliams checks the printed squares and the balance of all sizes: every
// beer equally often in each place, every ordered pair of neighbours equally
// often.
func TestWilliams(t *testing.T) {
	for k, want := range map[int]string{
		3: "012 120 201 210 021 102", // computed from the construction
		4: "0132 1203 2310 3021",
		5: "01423 12034 23140 34201 40312 32410 43021 04132 10243 21304",
	} {
		if got := inDigits(Williams(k)); got != want {
			t.Errorf("%d beers: %s, want %s", k, got, want)
		}
	}
	for k := 2; k <= 16; k++ {
		rows := Williams(k)
		times := len(rows) / k
		places, follows := map[[2]int]int{}, map[[2]int]int{}
		for _, row := range rows {
			for place, beer := range row {
				places[[2]int{place, beer}]++
				if place > 0 {
					follows[[2]int{row[place-1], beer}]++
				}
			}
		}
		if len(places) != k*k || len(follows) != k*(k-1) {
			t.Errorf("%d beers: %d places and %d pairs occur", k, len(places), len(follows))
		}
		for what, count := range places {
			if count != times {
				t.Errorf("%d beers: beer %d stands in place %d %d times, want %d", k, what[1], what[0], count, times)
			}
		}
		for pair, count := range follows {
			if count != times {
				t.Errorf("%d beers: %v follow each other %d times, want %d", k, pair, count, times)
			}
		}
	}
}

func inDigits(rows [][]int) string {
	var words []string
	for _, row := range rows {
		word := ""
		for _, beer := range row {
			word += fmt.Sprint(beer)
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// TestBlocks checks the parameters of all designs: blocks, tastings of each
// beer, tastings of each pair (the usual tables, and b·m = k·r, λ·(k − 1) =
// r·(m − 1)).
func TestBlocks(t *testing.T) {
	for _, d := range []struct{ k, m, b, r, lambda int }{
		{4, 2, 6, 3, 1}, {4, 3, 4, 3, 2}, {5, 2, 10, 4, 1}, {5, 3, 10, 6, 3}, {5, 4, 5, 4, 3}, {6, 2, 15, 5, 1}, {6, 3, 10, 5, 2},
		{7, 3, 7, 3, 1}, {7, 4, 7, 4, 2}, {8, 4, 14, 7, 3}, {9, 3, 12, 4, 1}, {11, 5, 11, 5, 2}, {13, 4, 13, 4, 1}, {3, 3, 1, 1, 1},
	} {
		blocks, ok := Blocks(d.k, d.m)
		if !ok || len(blocks) != d.b {
			t.Errorf("%d of %d beers: %d blocks, want %d", d.m, d.k, len(blocks), d.b)
			continue
		}
		tasted, together := map[int]int{}, map[[2]int]int{}
		for _, block := range blocks {
			for i, beer := range block {
				tasted[beer]++
				for _, other := range block[:i] {
					together[[2]int{min(beer, other), max(beer, other)}]++
				}
			}
		}
		if len(tasted) != d.k || len(together) != d.k*(d.k-1)/2 {
			t.Errorf("%d of %d beers: %d beers and %d pairs occur", d.m, d.k, len(tasted), len(together))
		}
		for beer, count := range tasted {
			if count != d.r {
				t.Errorf("%d of %d beers: beer %d is tasted %d times, want %d", d.m, d.k, beer, count, d.r)
			}
		}
		for pair, count := range together {
			if count != d.lambda {
				t.Errorf("%d of %d beers: the pair %v meets %d times, want %d", d.m, d.k, pair, count, d.lambda)
			}
		}
	}
	for _, none := range [][2]int{{13, 6}, {4, 1}, {3, 4}} {
		if blocks, ok := Blocks(none[0], none[1]); ok {
			t.Errorf("%d of %d beers: %v", none[1], none[0], blocks)
		}
	}
}
