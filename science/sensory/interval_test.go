// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"math"
	"testing"
)

// Tolerances of this file: half of the last digit of the source, or 1e-5 for d′.
// Numbers were computed twice where nothing else is said: in scipy, and in R (base
// or the statistics package of brockhoff2010).

func TestDistances(t *testing.T) {
	for _, test := range []struct {
		c                      Choice
		p, d, sd               float64
		exactLow, exactHigh    float64
		likelyLow, likelyHigh  float64
		likeProportionLow, top float64 // of the proportion; 0 where none is at hand
	}{
		{Choice{Triangle, 13, 24}, .028441, 1.68069, .51626, 0, 2.76344, .37013, 2.67095, .34578, .72908},
		{Choice{Triangle, 10, 15}, .008504, 2.32138, .65104, .75886, 3.82428, .98328, 3.65994, .41545, .86523},
		{Choice{Tetrad, 14, 24}, .010341, 1.30692, .33639, .42983, 2.00509, .54189, 1.94693, 0, 0},
		{Choice{TwoAFC, 18, 24}, .011328, .95387, .39336, .11671, 1.83083, .20309, 1.75097, 0, 0},
		{Choice{TwoAFCEither, 18, 24}, .022656, .95387, .39336, .11671, 1.83083, .20309, 1.75097, 0, 0},
		{Choice{DuoTrio, 16, 24}, .075795, 1.51885, .56594, 0, 2.69477, 0, 2.59317, 0, 0},
	} {
		name := fmt.Sprint(test.c)
		same(t, name+" p", test.c.P(), test.p, 1e-6)
		d, estimable := test.c.Distance()
		same(t, name+" d′", d.Value, test.d, 1.1e-5)
		same(t, name+" SE", d.SD, test.sd, 1.1e-5)
		sameSpan(t, name+" exact", test.c.DistanceExactInterval(0.95), test.exactLow, test.exactHigh, 2e-5)
		sameSpan(t, name+" likelihood", test.c.DistanceInterval(0.95), test.likelyLow, test.likelyHigh, 2e-5)
		if test.top > 0 {
			sameSpan(t, name+" proportion", test.c.LikelihoodInterval(0.95), test.likeProportionLow, test.top, 1e-5)
		}
		if !estimable {
			t.Errorf("%s: d′ isn't estimable", name)
		}
	}
	same(t, "13 of 24: share", Choice{Triangle, 13, 24}.Share(), 0.3125, 1e-12)
}

func TestNothingToEstimate(t *testing.T) {
	for _, protocol := range Protocols() {
		c := Choice{protocol, 12, 12}
		d, estimable := c.Distance()
		if span := c.DistanceInterval(0.95); estimable || !math.IsInf(d.Value, 1) || !math.IsInf(span.High, 1) || !(span.Low > 0.3) {
			t.Errorf("%s, all right: %v %v %v", protocol, d, estimable, span)
		}
		if protocol.TwoSided() {
			same(t, "mirrored d′", Choice{protocol, 3, 12}.Protocol.Distance(0.25), -protocol.Distance(0.75), 1e-12)
			continue
		}
		c = Choice{protocol, 3, 12}
		d, estimable = c.Distance()
		if span := c.DistanceInterval(0.95); estimable || d.Value != 0 || span.Low != 0 || c.Share() != 0 {
			t.Errorf("%s, fewer right than by guessing: %v %v %v", protocol, d, estimable, span)
		}
	}
}

// The last three decimals of R's binom.test. Wilson computed from the formula in scipy.
func TestProportionIntervals(t *testing.T) {
	for _, test := range []struct {
		right, n  int
		low, high float64
	}{
		{0, 6, 0, .45926}, {6, 6, .54074, 1}, {7, 12, .27667, .84835}, {5, 8, .24486, .91477}, {3, 4, .19412, .99369},
		{14, 24, .36643, .77890}, {18, 24, .53289, .90227}, {13, 24, .32821, .74447}, {10, 15, .38380, .88176},
	} {
		sameSpan(t, fmt.Sprint(test.right, " of ", test.n), ClopperPearson(test.right, test.n, 0.95), test.low, test.high, 5.1e-6)
	}
	sameSpan(t, "Wilson 13 of 24", Wilson(13, 24, 0.95), .35075, .72109, 5.1e-6)
	sameSpan(t, "Wilson 0 of 6", Wilson(0, 6, 0.95), 0, .39033, 5.1e-6)
}

func TestSimilarity(t *testing.T) {
	s := Similarity{Triangle, 0.3, 0.05}
	c := Choice{Triangle, 12, 36}
	same(t, "12 of 36: p", s.P(c), .012406, 5e-7)
	// The exact upper limit; the normal approximation of the standard gives 0.1938.
	same(t, "12 of 36: at most", c.Upper(0.95), .2251, 5e-5)
	// Both forms of the rule agree for all results.
	for n := 1; n <= 40; n++ {
		most := s.Most(n)
		for right := 0; right <= n; right++ {
			if (right <= most) != (Choice{Triangle, right, n}.Upper(0.95) <= s.Limit) {
				t.Errorf("%d of %d: most %d, upper limit %g", right, n, most, Choice{Triangle, right, n}.Upper(0.95))
			}
		}
	}
	size, found := s.PanelSize(0.8)
	if !found || s.Power(size.First, 0) < 0.8 || s.Power(size.First-1, 0) >= 0.8 || s.Power(size.Stable-1, 0) >= 0.8 && size.Stable > size.First {
		t.Errorf("similarity needs %+v", size)
	}
}

// 24 triangles at alpha 0.05, limit 0.3, beta 0.10: 13 and more differ, 9 and fewer
// are similar. Computed from the exact sums (regression values).
func TestJudge(t *testing.T) {
	rule := Rule{Alpha: 0.05, Limit: 0.3, Beta: 0.10}
	for right := 0; right <= 24; right++ {
		want := NotConclusive
		switch {
		case right >= 13:
			want = Different
		case right <= 9:
			want = BelowLimit
		}
		if got := (Choice{Triangle, right, 24}).Judge(rule); got.Outcome != want {
			t.Errorf("%d of 24: %s, want %s", right, got.Outcome, want)
		}
	}
	// 200 triangles find a share that is below 40 % all the same.
	if got := (Choice{Triangle, 85, 200}).Judge(Rule{0.05, 0.4, 0.05}); got.Outcome != SmallDifference {
		t.Errorf("85 of 200: %s", got.Outcome)
	}
	j := Choice{Triangle, 6, 14}.Judge(rule)
	same(t, "power at the limit", j.PowerAtLimit, 0.29, 0.005)
	if j.Outcome != NotConclusive || j.Needed != (PanelSize{40, 42}) || j.TooSmall {
		t.Errorf("6 of 14: %+v", j)
	}
	if !(Choice{Triangle, 2, 6}).Judge(rule).TooSmall {
		t.Error("six triangles aren't called too few")
	}
	if j := (Choice{Preference, 9, 18}).Judge(rule); j.Outcome != NotConclusive || j.SimilarityP != 1 {
		t.Errorf("a preference is judged for similarity: %+v", j)
	}
}

func TestPlanHelpers(t *testing.T) {
	design := Design{Triangle, 0.05}
	// True alpha peaks right before one more right answer is asked for.
	for n := 3; n < 60; n++ {
		if design.Peak(n) != (design.Size(n+1) < design.Size(n)) {
			t.Errorf("n %d: peak %v, sizes %g, %g", n, design.Peak(n), design.Size(n), design.Size(n+1))
		}
	}
	share, found := design.Detectable(18, 0.8)
	if !found {
		t.Fatal("18 tasters detect nothing")
	}
	same(t, "power at what 18 detect", design.Power(18, Triangle.AtShare(share)), 0.8, 1e-9)
	if _, found := design.Detectable(2, 0.8); found {
		t.Error("two tasters detect something")
	}
}

func TestCheck(t *testing.T) {
	for _, c := range []Choice{{"trio", 1, 2}, {Triangle, 3, 2}, {Triangle, -1, 2}, {Triangle, 0, 0}} {
		if c.Check() == nil {
			t.Errorf("%+v is accepted", c)
		}
	}
	if err := (Choice{Triangle, 2, 2}).Check(); err != nil {
		t.Error(err)
	}
}
