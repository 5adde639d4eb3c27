// SPDX-License-Identifier: MIT

package chance_test

import (
	"testing"

	"gyle/chance"
)

// BenchmarkSimulate brews Ferry Brown 4 ten thousand times on paper. Aim: 400 ms
// on two processors, and no slower than the same model in numpy: see bench.
func BenchmarkSimulate(b *testing.B) {
	p, s := made(b, on(b, "4", "garage")), oatBrown(b)
	b.ReportAllocs()
	for b.Loop() {
		simulated(b, p, s, chance.Options{})
	}
}
