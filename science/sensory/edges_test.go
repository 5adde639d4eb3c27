// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"testing"
)

// What happens at the ends of the ranges. Numbers computed from the formulas.
func TestEdgesOfChoices(t *testing.T) {
	c := Choice{Triangle, 11, 18}
	same(t, "expected", c.Expected(), 6, 1e-12)
	sameSpan(t, "share interval", c.ShareInterval(0.9), c.Lower(0.95), c.Upper(0.95), 1e-12)
	same(t, "certain", BinomialAtLeast(5, 5, 1), 1, 1e-15)
	same(t, "impossible", BinomialAtLeast(1, 5, 0), 0, 1e-15)
	for _, test := range []struct {
		right, n int
		p, want  float64
	}{{0, 5, 0, 1}, {1, 5, 0, 0}, {5, 5, 1, 1}, {4, 5, 1, 0}, {-1, 5, 0.5, 0}, {6, 5, 0.5, 0}} {
		same(t, "binomial", binomial(test.right, test.n, test.p), test.want, 1e-15)
	}
	if !math.IsInf(normalQuantile(0), -1) || !math.IsInf(normalQuantile(1), 1) {
		t.Error("the quantiles of 0 and 1 are finite")
	}
	defer func() {
		if recover() == nil {
			t.Error("an unknown protocol has a guess")
		}
	}()
	Protocol("trio").Guess()
}

func TestEdgesOfRecognition(t *testing.T) {
	for _, r := range []Recognition{{1, 0, 1, 2}, {3, 2, 1, 2}, {1, 2, 3, 2}, {-1, 2, 1, 2}} {
		if r.Check() == nil {
			t.Errorf("%+v is accepted", r)
		}
	}
	if err := (Recognition{2, 2, 0, 2}).Check(); err != nil {
		t.Error(err)
	}
	if span := (Recognition{0, 12, 9, 12}).DistanceInterval(0.95); !math.IsInf(span.Low, -1) || span.High >= 0 {
		t.Errorf("no hits: interval %v", span)
	}
	if span := (Recognition{0, 3, 0, 3}).DistanceInterval(0.95); !math.IsInf(span.Low, -1) || !math.IsInf(span.High, 1) {
		t.Errorf("nothing called A: interval %v", span)
	}
}

// Where outcomes are too many to count, the χ² distribution answers about the same.
func TestManyOutcomes(t *testing.T) {
	large := Sessions{{Triangle, 18, 40}, {Triangle, 25, 40}, {Triangle, 15, 40}, {Triangle, 20, 40}}
	chi, p := large.Homogeneity()
	same(t, "large sessions", p, chiSquareAbove(chi, 3), 1e-15)
	few := Sessions{{Triangle, 18, 40}, {Triangle, 25, 40}, {Triangle, 15, 40}}
	chi, p = few.Homogeneity()
	same(t, "exact near χ²", p, chiSquareAbove(chi, 2), 0.02)
	if _, p := (Sessions{{Triangle, 4, 4}}).Homogeneity(); p != 1 {
		t.Errorf("one session differs from itself: %g", p)
	}
	chi, p = Positions{20, 31, 27, 30}.Bias()
	same(t, "four places", p, chiSquareAbove(chi, 3), 1e-15)
	if _, p := (Positions{0, 0, 0}).Bias(); p != 1 {
		t.Errorf("no answers are biased: %g", p)
	}
	if _, found := (Design{Triangle, 0.001}).TwoStage(2, 4); found {
		t.Error("four triangles can be planned at 0.001")
	}
}

func TestEdgesOfCommonDistance(t *testing.T) {
	all := Sessions{{Triangle, 6, 6}, {TwoAFC, 8, 8}}.Common(0.95)
	if all.Estimable || !math.IsInf(all.Distance.Value, 1) || !math.IsInf(all.Interval.High, 1) || !(all.Interval.Low > 1) || all.G2 > 1e-6 {
		t.Errorf("all right: %+v", all)
	}
	none := Sessions{{Triangle, 2, 12}, {DuoTrio, 5, 12}}.Common(0.95)
	if none.Estimable || none.Distance.Value != 0 || none.Distance.SD != 0 || none.Interval.Low != 0 || !(none.Interval.High > 0.5) {
		t.Errorf("no more than guessing: %+v", none)
	}
}
