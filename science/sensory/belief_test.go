// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"testing"
)

// Computed in scipy from the formulas of [Belief].
func TestBelief(t *testing.T) {
	for _, test := range []struct {
		c                            Choice
		limit, above, factor, median float64
	}{
		{Choice{Triangle, 2, 6}, .2, .4991, .3714, .1996},
		{Choice{Triangle, 4, 6}, .2, .8635, 2.4857, .4687},
		{Choice{Triangle, 5, 6}, .2, .9632, 12.929, .6592},
		{Choice{Triangle, 7, 12}, .2, .8155, 2.3357, .3711},
		{Choice{Triangle, 13, 24}, .2, .7819, 3.2606, .3122},
		{Choice{Triangle, 4, 12}, .3, .1591, .2671, .1441},
		{Choice{Triangle, 8, 24}, .3, .0484, .1890, .1021},
		{Choice{DuoTrio, 6, 8}, .2, .8440, 1.8492, .4601},
	} {
		b, name := test.c.Belief(), fmt.Sprint(test.c)
		same(t, name+" above", b.Above(test.limit), test.above, 5.1e-5)
		tolerance := 5.1e-5
		if test.factor > 10 {
			tolerance = 5.1e-4
		}
		same(t, name+" factor", b.BayesFactor(), test.factor, tolerance)
		same(t, name+" median", b.Quantile(0.5), test.median, 5.1e-5)
	}
	sameSpan(t, "13 of 24", Choice{Triangle, 13, 24}.Belief().Interval(0.95), .0546, .5839, 5.1e-5)
}

// Computed in scipy from the beta distribution.
func TestBeliefInPreference(t *testing.T) {
	for _, test := range []struct {
		right, n int
		above, p float64
	}{
		{4, 4, .96875, 0.125}, {6, 8, .91016, .28906}, {9, 12, .95386, .14600}, {15, 24, .88524, .30746}, {18, 24, .99268, .022656},
	} {
		c := Choice{Preference, test.right, test.n}
		same(t, fmt.Sprint(c, " above"), c.Belief().Above(0.5), test.above, 5.1e-6)
		same(t, fmt.Sprint(c, " p"), c.P(), test.p, 5.1e-6)
	}
	sameSpan(t, "6 of 8", Choice{Preference, 6, 8}.Belief().Interval(0.95), .3999, .9251, 5.1e-5)
}

// Computed in scipy from the formula of [Worth.Adopt].
func TestAdopt(t *testing.T) {
	for _, test := range []struct {
		right, n   int
		gain, loss float64
		value      float64
	}{
		{9, 12, 10, 30, 8.154}, {7, 12, 10, 20, 1.284},
		{15, 24, 10, 10, 10 * (2*.88524 - 1)}, {18, 24, 10, 30, 10*.99268 - 30*(1-.99268)},
	} {
		adopt, value := Worth{test.gain, test.loss}.Adopt(Choice{Preference, test.right, test.n})
		same(t, fmt.Sprint(test.right, " of ", test.n, " value"), value, test.value, 6e-4)
		if !adopt {
			t.Errorf("%d of %d, gain %g, loss %g: keep", test.right, test.n, test.gain, test.loss)
		}
	}
	if adopt, value := (Worth{10, 40}).Adopt(Choice{Preference, 7, 12}); adopt || value >= 0 {
		t.Errorf("7 of 12 with a dear loss: adopt %v, value %g", adopt, value)
	}
}
