// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"
)

// A symmetric binary channel with 11 % of errors carries half a bit (Shannon 1948;
// 1 − H(0.11) = 0.50008, a textbook value); one without errors a whole one, one that
// guesses nothing.
func TestExpectedBits(t *testing.T) {
	even := []float64{0.5, 0.5}
	same(t, "11 % of errors", expectedBits(even, []float64{0.11, 0.89}, 1), 0.50008, 1e-5)
	same(t, "no errors", expectedBits(even, []float64{0, 1}, 1), 1, 1e-12)
	same(t, "guesses", expectedBits(even, []float64{0.5, 0.5}, 12), 0, 1e-12)
	for _, protocol := range Protocols() {
		belief := EvenDistances(protocol)
		before := 0.0
		for _, n := range []int{1, 6, 12, 24, 48} {
			bits := belief.ExpectedBits(protocol, n)
			if bits <= before || bits > math.Log2(float64(n+1)) || bits > math.Log2(float64(len(belief.At))) {
				t.Errorf("%s, %d tasters: %.3f bits after %.3f", protocol, n, bits, before)
			}
			before = bits
		}
		if protocol.TwoSided() {
			continue
		}
		known := belief.After(Choice{protocol, 40, 60})
		if known.ExpectedBits(protocol, 12) >= belief.ExpectedBits(protocol, 12) {
			t.Errorf("%s: what is known already teaches as much", protocol)
		}
	}
}

// What triangles and 2-AFC say of the same distance goes together; the belief moves to
// where the answers point.
func TestDistancesAfter(t *testing.T) {
	belief := EvenDistances(Triangle)
	far := belief.After(Choice{Triangle, 16, 18}).After(Choice{TwoAFC, 18, 18})
	close := belief.After(Choice{Triangle, 6, 18}).After(Choice{TwoAFC, 9, 18})
	if far.Beyond(1) < 0.99 || close.Beyond(1) > 0.2 || far.Mean().Value < 2 || close.Mean().Value > 0.8 {
		t.Errorf("far %.3f %v, close %.3f %v", far.Beyond(1), far.Mean(), close.Beyond(1), close.Mean())
	}
	liked := EvenDistances(Preference).After(Choice{Preference, 15, 18})
	if liked.Mean().Value < 0.5 {
		t.Errorf("15 of 18 prefer it: %v", liked.Mean())
	}
	mixed := Pooled(far, close)
	same(t, "half of each", mixed.Beyond(1), (far.Beyond(1)+close.Beyond(1))/2, 1e-12)
	sum := 0.0
	for _, w := range mixed.Weights {
		sum += w
	}
	same(t, "weights", sum, 1, 1e-12)
}
