// SPDX-License-Identifier: MIT

package sensory

import "slices"

// Sorted rank sums of up to 8 beers are packed into one word, so that a table
// of them is quick to search.
const (
	packedBeers = 8
	wordBits    = 64
)

func packedBits(k int) uint { return wordBits / uint(k) }

// packSums packs the sums and adds one: zero marks an empty place.
func packSums(sums []int) uint64 {
	bits, key := packedBits(len(sums)), uint64(0)
	for _, sum := range sums {
		key = key<<bits | uint64(sum)
	}
	return key + 1
}

// unpackSums writes the sums of a packed word into a row.
func unpackSums(key uint64, sums []int) {
	bits := packedBits(len(sums))
	key--
	for j := len(sums) - 1; j >= 0; j-- {
		sums[j] = int(key & (1<<bits - 1))
		key >>= bits
	}
}

func squareSum(sums []int) (total int) {
	for _, sum := range sums {
		total += sum * sum
	}
	return total
}

// distinctOrders returns all different orders of a row.
func distinctOrders(row []int) [][]int {
	row = slices.Sorted(slices.Values(row))
	orders := [][]int{slices.Clone(row)}
	for nextOrder(row) {
		orders = append(orders, slices.Clone(row))
	}
	return orders
}

// nextOrder steps to the next order of a row in the order of the dictionary.
func nextOrder(row []int) bool {
	i := len(row) - 2
	for i >= 0 && row[i] >= row[i+1] {
		i--
	}
	if i < 0 {
		return false
	}
	j := len(row) - 1
	for row[j] <= row[i] {
		j--
	}
	row[i], row[j] = row[j], row[i]
	slices.Reverse(row[i+1:])
	return true
}

// rankStates is a table of packed rank sums and their probabilities, with open
// addressing.
type rankStates struct {
	keys    []uint64 // 0: empty
	weights []float64
	used    int
}

func newRankStates(expected int) *rankStates {
	size := 64
	for size < 2*expected {
		size *= 2
	}
	return &rankStates{keys: make([]uint64, size), weights: make([]float64, size)}
}

func (s *rankStates) add(key uint64, weight float64) {
	mask := uint64(len(s.keys) - 1)
	at := (key * 0x9E3779B97F4A7C15) >> 20 & mask
	for s.keys[at] != key {
		if s.keys[at] == 0 {
			s.keys[at] = key
			s.used++
			break
		}
		at = (at + 1) & mask
	}
	s.weights[at] += weight
	if 2*s.used > len(s.keys) {
		s.grow()
	}
}

func (s *rankStates) grow() {
	wider := newRankStates(2 * s.used)
	for i, key := range s.keys {
		if key != 0 {
			wider.add(key, s.weights[i])
		}
	}
	*s = *wider
}

// convolve adds one assessor: each order of the row with the same probability.
// The sums stand sorted, since names make no difference.
func (s *rankStates) convolve(orders [][]int, k int) *rankStates {
	return s.moved(orders, k, sortFew)
}

// shift adds one assessor and keeps the sums in the order of the beers.
func (s *rankStates) shift(orders [][]int, k int) *rankStates {
	return s.moved(orders, k, func([]int) {})
}

func (s *rankStates) moved(orders [][]int, k int, tidy func([]int)) *rankStates {
	next := newRankStates(2 * s.used)
	share, sums, old := 1/float64(len(orders)), make([]int, k), make([]int, k)
	for i, key := range s.keys {
		if key == 0 {
			continue
		}
		unpackSums(key, old)
		weight := s.weights[i] * share
		for _, order := range orders {
			for j := range sums {
				sums[j] = old[j] + order[j]
			}
			tidy(sums)
			next.add(packSums(sums), weight)
		}
	}
	return next
}

// tail adds the last assessor and returns the probability that the squares of
// the sums reach the target.
func (s *rankStates) tail(orders [][]int, k, target int) (p float64) {
	share, old := 1/float64(len(orders)), make([]int, k)
	for i, key := range s.keys {
		if key == 0 {
			continue
		}
		unpackSums(key, old)
		hits := 0
		for _, order := range orders {
			squares := 0
			for j, sum := range old {
				squares += (sum + order[j]) * (sum + order[j])
			}
			if squares >= target {
				hits++
			}
		}
		p += s.weights[i] * float64(hits) * share
	}
	return min(p, 1)
}

// sortFew sorts a handful of numbers by insertion.
func sortFew(x []int) {
	for i := 1; i < len(x); i++ {
		moved, j := x[i], i
		for ; j > 0 && moved < x[j-1]; j-- {
			x[j] = x[j-1]
		}
		x[j] = moved
	}
}
