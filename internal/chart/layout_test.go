// SPDX-License-Identifier: MIT

package chart

import (
	"math"
	"slices"
	"testing"
)

// TestTicks: the expected steps follow from the rule of 1, 2 and 5.
func TestTicks(t *testing.T) {
	for _, test := range []struct {
		low, high float64
		count     int
		want      []float64
		decimals  int
	}{
		{0, 10, 5, []float64{0, 2, 4, 6, 8, 10}, 0},
		{5, 6, 5, []float64{5, 5.2, 5.4, 5.6, 5.8, 6}, 1},
		{-3, 3, 3, []float64{-2, 0, 2}, 0},
		{1.043, 1.057, 3, []float64{1.045, 1.05, 1.055}, 3},
	} {
		got, decimals := ticks(test.low, test.high, test.count)
		near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
		if !slices.EqualFunc(got, test.want, near) || decimals != test.decimals {
			t.Errorf("ticks(%g, %g, %d) = %v with %d decimals, want %v with %d", test.low, test.high, test.count, got, decimals, test.want, test.decimals)
		}
	}
}

// TestSpread: places keep their order and their distances, and stay inside.
func TestSpread(t *testing.T) {
	wishes := []float64{50, 52, 10, 51, 99}
	places := spread(wishes, []float64{10, 10, 10, 10, 10}, 0, 100)
	if places[2] != 10 || places[0] != 50 || places[3] != 60 || places[1] != 70 || places[4] != 95 {
		t.Errorf("spread moved %v to %v", wishes, places)
	}
	for i, place := range spread([]float64{5, 5, 5}, []float64{10, 10, 10}, 0, 15) {
		if want := 2.5 + 5*float64(i); place != want {
			t.Errorf("without room, place %d is %g, want %g", i, place, want)
		}
	}
}

// TestClip cuts the unit square along its diagonal: a triangle of area ½.
func TestClip(t *testing.T) {
	triangle := clip(box{0, 0, 1, 1}.corners(), halfPlane{1, 1, 1})
	area := 0.0
	for i, p := range triangle {
		q := triangle[(i+1)%len(triangle)]
		area += (p.x*q.y - q.x*p.y) / 2
	}
	if math.Abs(area-0.5) > 1e-12 {
		t.Errorf("the clipped square has area %g, want 0.5: %v", area, triangle)
	}
}

// TestThinning: layers of equal ink follow the normal density exp(−z²/2) to
// half a layer.
func TestThinning(t *testing.T) {
	for z := 0.0; z < cloudReach; z += 0.05 {
		layers := 0
		for _, deviations := range thinning {
			if deviations > z {
				layers++
			}
		}
		got, want := float64(layers)/float64(len(thinning)), math.Exp(-z*z/2)
		if math.Abs(got-want) > 0.5/float64(len(thinning))+1e-9 {
			t.Errorf("at %g standard deviations the ink is %g, the density %g", z, got, want)
		}
	}
}

// TestWrapKeepsUnits: a number and its unit stand on one line.
func TestWrapKeepsUnits(t *testing.T) {
	got := wrap("Chocolate malt in, 0.18 kg", letters{}, textWidth("Chocolate malt in, 0.18", letters{}))
	if want := []string{"Chocolate malt in,", "0.18 kg"}; !slices.Equal(got, want) {
		t.Errorf("wrap = %q, want %q", got, want)
	}
}
