// SPDX-License-Identifier: MIT

package panel

// Random makes the random numbers of a plan from its seed. It is written out
// here so that a seed gives the same plan for ever, whatever the libraries do:
// SplitMix64 by Steele, Lea and Flood (2014), from memory, and checked against
// its widely published first numbers.
type Random struct{ state uint64 }

// NewRandom begins at a seed.
func NewRandom(seed uint64) *Random { return &Random{seed} }

// Next returns the next 64 random bits.
func (r *Random) Next() uint64 {
	r.state += 0x9E3779B97F4A7C15
	z := r.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

// Below returns a number from 0 to n − 1, all equally likely.
func (r *Random) Below(n int) int {
	m := uint64(n)
	excess := -m % m // 2⁶⁴ mod m: the numbers at the top that would favour the first few
	for {
		if v := r.Next(); v <= ^uint64(0)-excess {
			return int(v % m)
		}
	}
}

// shuffle brings a list into random order (Fisher and Yates).
func shuffle[T any](r *Random, list []T) {
	for i := len(list) - 1; i >= 1; i-- {
		j := r.Below(i + 1)
		list[i], list[j] = list[j], list[i]
	}
}
