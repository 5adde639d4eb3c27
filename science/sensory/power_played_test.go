// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"testing"
)

// One answer each is the plain power; more answers of the same tasters find no less
// where the sizes of the test are near.
func TestPowerRepeated(t *testing.T) {
	d := Design{Triangle, 0.05}
	for _, n := range []int{6, 12, 18, 24} {
		for _, share := range []float64{0, 0.3, 0.5} {
			same(t, fmt.Sprint(n, share), d.PowerRepeated(n, 1, share), d.Power(n, Triangle.AtShare(share)), 1e-12)
		}
		if size := d.PowerRepeated(n, 3, 0); size > 0.05 {
			t.Errorf("%d tasters, 3 answers each, all guess: %.4f", n, size)
		}
	}
}

// McNemar's exact test, 9 against 2 (R: binom.test(9, 11, alternative = "greater")).
func TestRecognitionBy(t *testing.T) {
	var tables []Table
	for range 9 {
		tables = append(tables, Table{1, 0, 0, 1})
	}
	for range 2 {
		tables = append(tables, Table{0, 1, 1, 0})
	}
	tables = append(tables, Table{1, 0, 1, 0}, Table{0, 1, 0, 1}) // who says the same of both says nothing
	one, _ := McNemar(9, 2)
	same(t, "a cup of each", RecognitionBy(tables), one, 1e-12)
	same(t, "9 against 2", RecognitionBy(tables), 0.03271, 5e-6)
	// One assessor with many cups is Fisher's test.
	many := Table{7, 3, 2, 8}
	same(t, "one assessor", RecognitionBy([]Table{many}), many.FisherGreater(), 1e-12)
}

// Played powers against sums: all cups by one assessor are Fisher's test of
// [RecognitionPower], and nobody finds what isn't there.
func TestPlayedPowers(t *testing.T) {
	want := RecognitionPower(20, 20, 0.05, normalBelow(0.6), normalBelow(-0.6))
	same(t, "one assessor, 40 cups", RecognitionRepeatedPower(1, 20, 20, 0.05, 1.2), want, 4*math.Sqrt(want*(1-want)/playedEvenings))
	if p := RankPower(12, 4, 0.05, 0); p > 0.05+4*math.Sqrt(0.05*0.95/playedEvenings) {
		t.Errorf("ranking of alike beers: %.3f", p)
	}
	if few, many := RankPower(8, 4, 0.05, 1), RankPower(24, 4, 0.05, 1); few >= many || many < 0.8 {
		t.Errorf("power of rankings: 8 %.2f, 24 %.2f", few, many)
	}
}
