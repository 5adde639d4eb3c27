// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math/rand/v2"
	"testing"
)

// BenchmarkSmooth balances the books of an ordinary day.
func BenchmarkSmooth(b *testing.B) {
	d := simulate(rand.New(rand.NewPCG(1, 1))).day
	for b.Loop() {
		if _, err := Smooth(d); err != nil {
			b.Fatal(err)
		}
	}
}
