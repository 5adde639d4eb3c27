// SPDX-License-Identifier: MIT

package sensory

import "testing"

// Twelve tasters a pair. Computed as a logistic regression in R.
func TestCompare(t *testing.T) {
	duels := []Duel{{0, 1, 3, 9}, {0, 2, 2, 10}, {1, 2, 5, 7}, {0, 3, 5, 7}, {1, 3, 8, 4}, {2, 3, 9, 3}}
	s, found := Compare(4, duels)
	if !found {
		t.Fatal("no scale found")
	}
	for i, want := range []struct{ log, sd, share float64 }{
		{0, 0, .09980}, {1.11709, .45956, .30497}, {1.50274, .48081, .44848}, {.38565, .44324, .14676},
	} {
		same(t, "log", s.Log[i].Value, want.log, 5.1e-6)
		same(t, "SE", s.Log[i].SD, want.sd, 5.1e-6)
		same(t, "share", s.Share[i], want.share, 1e-5)
	}
	same(t, "deviance", s.Deviance, .0389, 5.1e-5)
	if s.Freedom != 3 || s.P < 0.99 {
		t.Errorf("freedom %d, p %g", s.Freedom, s.P)
	}
	// Two sittings of a pair, one of them written the other way round, count as one.
	split := append([]Duel{{1, 0, 4, 1}, {0, 1, 2, 5}}, duels[1:]...)
	again, _ := Compare(4, split)
	same(t, "split deviance", again.Deviance, s.Deviance, 1e-9)
	same(t, "split log", again.Log[2].Value, s.Log[2].Value, 1e-9)
	if again.Freedom != 3 {
		t.Errorf("split freedom %d", again.Freedom)
	}
}

func TestCompareRefuses(t *testing.T) {
	for name, duels := range map[string][]Duel{
		"a version that lost to none": {{0, 1, 6, 6}, {1, 2, 0, 12}, {0, 2, 0, 12}},
		"two islands":                 {{0, 1, 6, 6}},
	} {
		if _, found := Compare(3, duels); found {
			t.Errorf("%s: a scale is found", name)
		}
	}
	two, found := Compare(2, []Duel{{0, 1, 5, 13}})
	if !found || two.Freedom != 0 || two.P != 1 {
		t.Errorf("two versions: %+v", two)
	}
	same(t, "share of two", two.Share[1], 13.0/18, 1e-9)
}
