// SPDX-License-Identifier: MIT

package uncertainty

import "math/rand/v2"

// Stream returns the random stream of one block of samples. Streams of other
// blocks or seeds have nothing in common with it.
func Stream(seed uint64, block int) *rand.Rand {
	return rand.New(rand.NewPCG(seed, mixed(uint64(block)+1)))
}

// mixed spreads the bits of a small number over all of a word.
//
//	the finaliser of SplitMix64
//
// Units: none.
//
//   - Source: steele2014, finaliser; constants from memory.
//   - Valid: any.
//   - Check: neighbours differ in about half of their bits.
//   - Tag: from memory
func mixed(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// A Hypercube draws samples of many independent inputs at once, so that each
// input is spread evenly: of n samples exactly one lies in each nth part of its
// distribution (a Latin hypercube). One block is drawn with n = rows. It isn't
// for several goroutines at once.
type Hypercube struct {
	Seed   uint64
	Inputs []Distribution

	order  []int32
	shares []float64 // a place in each nth part
	scores []float64 // their quantiles of the standard normal distribution
}

// Draw fills rows samples of one block: values[j][i] is input j in sample i.
// The slices must be as long as rows. The same seed, block and rows always give
// the same numbers.
//
//	x[j][i] = F⁻¹ⱼ((k + U[k])/n)    k = πⱼ(i)
//
// π is a random order of 0 … n−1 for each input, U random between 0 and 1 for
// each part of the block. Units: those of the inputs.
//
//   - Source: mckay1979, plan of the Latin hypercube; from memory. That all inputs of a block share their places in the parts is a choice of this program.
//   - Valid: independent inputs. Means have less error than those of plain random samples where the inputs act one by one.
//   - Check: each nth part of each input holds one sample.
//   - Tag: from memory
func (h *Hypercube) Draw(block, rows int, values [][]float64) {
	r := Stream(h.Seed, block)
	h.places(r, rows)
	order := h.order[:rows]
	for j, d := range h.Inputs {
		for i := range order { // a shuffle as it is filled
			k := int(r.Uint64N(uint64(i) + 1))
			order[i] = order[k]
			order[k] = int32(i)
		}
		column := values[j][:rows]
		if normal, ok := d.(Normal); ok { // the most frequent by far
			for i, k := range order {
				column[i] = normal.Mean + normal.SD*h.scores[k]
			}
			continue
		}
		for i, k := range order {
			column[i] = d.Quantile(h.shares[k])
		}
	}
}

// places draws a place in each part.
func (h *Hypercube) places(r *rand.Rand, rows int) {
	if cap(h.order) < rows {
		h.order, h.shares, h.scores = make([]int32, rows), make([]float64, rows), make([]float64, rows)
	}
	for k := range rows {
		h.shares[k] = (float64(k) + r.Float64()) / float64(rows)
		h.scores[k] = NormalQuantile(h.shares[k])
	}
}

// Blocks returns into how many blocks of a size n samples fall, the last being
// smaller.
func Blocks(n, size int) int { return (n + size - 1) / size }
