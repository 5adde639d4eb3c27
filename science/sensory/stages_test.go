// SPDX-License-Identifier: MIT

package sensory

import (
	"fmt"
	"testing"
)

// Computed in scipy by summing over all outcomes. Power at 40 % that can tell.
func TestTwoStage(t *testing.T) {
	design := Design{Triangle, 0.05}
	for _, test := range []struct {
		plan         TwoStage
		alpha, power float64 // 0 where none is at hand
	}{
		{TwoStage{Triangle, 12, 9, 24, 13}, .0298, .789},
		{TwoStage{Triangle, 15, 10, 30, 15}, .0465, .905},
		{TwoStage{Triangle, 18, 12, 36, 18}, .0298, .918},
		{TwoStage{Triangle, 20, 13, 40, 19}, .0450, .961},
		{TwoStage{Triangle, 17, 11, 30, 15}, .0457, 0},
	} {
		got, found := design.TwoStage(test.plan.First, test.plan.Total)
		if !found || got != test.plan {
			t.Errorf("plan %+v, want %+v", got, test.plan)
		}
		_, alpha := test.plan.Crossing(1.0 / 3)
		same(t, fmt.Sprint(test.plan, " alpha"), alpha, test.alpha, 5.1e-5)
		if test.power > 0 {
			_, power := test.plan.Crossing(Triangle.AtShare(0.4))
			same(t, fmt.Sprint(test.plan, " power"), power, test.power, 5.1e-4)
		}
	}
	early, _ := TwoStage{Triangle, 12, 9, 24, 13}.Crossing(Triangle.AtShare(0.4))
	same(t, "stop early", early, .23, .005)
	same(t, "single stage", design.Power(24, Triangle.AtShare(0.4)), .787, 5.1e-4)
}

// In every plan offered the true alpha is at most alpha, and p is at most alpha when
// and only when a difference is shown; by all outcomes.
func TestTwoStageKeepsAlpha(t *testing.T) {
	for _, protocol := range Protocols() {
		for first := 4; first <= 24; first += 4 {
			total := first + 9
			plan, found := Design{protocol, 0.05}.TwoStage(first, total)
			if !found {
				t.Errorf("%s has no plan for %d and %d", protocol, first, total)
				continue
			}
			shown := 0.0
			for x := 0; x <= first; x++ {
				for y := 0; y <= total-first; y++ {
					if plan.Shown(x, x+y) {
						shown += binomial(x, first, protocol.Guess()) * binomial(y, total-first, protocol.Guess())
					}
					if plan.Shown(x, x+y) && plan.P(x, x+y) > 0.05 {
						t.Errorf("%+v: %d then %d is shown with p %g", plan, x, x+y, plan.P(x, x+y))
					}
				}
			}
			_, alpha := plan.Crossing(protocol.Guess())
			same(t, fmt.Sprintf("%+v alpha", plan), shown, alpha, 1e-12)
			if alpha > 0.05 {
				t.Errorf("%+v: true alpha %g", plan, alpha)
			}
		}
	}
}

// Computed in scipy by recursion.
func TestEverCrossed(t *testing.T) {
	every := func(from, to int) (looks []int) {
		for n := from; n <= to; n++ {
			looks = append(looks, n)
		}
		return looks
	}
	triangle, pair := Design{Triangle, 0.05}, Design{DuoTrio, 0.05}
	for _, test := range []struct {
		design          Design
		looks           []int
		want, tolerance float64
	}{
		{triangle, []int{8, 16, 24}, .0679, 5.1e-5},
		{triangle, []int{12, 24}, .0392, 5.1e-5},
		{triangle, every(5, 24), .125, 5.1e-4},
		{triangle, every(5, 40), .154, 5.1e-4},
		{triangle, every(5, 100), .209, 5.1e-4},
		{pair, every(5, 40), .145, 5.1e-4},
		{pair, []int{24}, .0320, 5.1e-5},
	} {
		same(t, fmt.Sprint(test.design, test.looks), test.design.EverCrossed(test.looks, test.design.Protocol.Guess()), test.want, test.tolerance)
	}
}

func TestOutlook(t *testing.T) {
	design := Design{Triangle, 0.05}
	// Computed in scipy.
	same(t, "6 of 12 now", design.Outlook(Choice{Triangle, 6, 12}, 24), .4625, 5.1e-5)
	same(t, "already there", design.Outlook(Choice{Triangle, 13, 20}, 24), 1, 1e-12)
	same(t, "out of reach", design.Outlook(Choice{Triangle, 2, 20}, 24), 0, 1e-12)
}

// Computed in scipy from Wald's formulas.
func TestSequential(t *testing.T) {
	for _, test := range []struct {
		poor, good, alpha, beta float64
		slope, low, high        float64
	}{
		{1.0 / 3, 2.0 / 3, .05, .2, .5, -1.1240, 2.0000},
		{1.0 / 3, .6, .05, .1, .46497, -2.0492, 2.6309},
		{1.0 / 3, .5, .05, .05, .41504, -4.2479, 4.2479},
	} {
		s := NewSequential(test.poor, test.good, test.alpha, test.beta)
		same(t, "slope", s.Slope, test.slope, 5.1e-6)
		sameSpan(t, "lines", s.Lines, test.low, test.high, 5.1e-5)
	}
	s := NewSequential(1.0/3, 2.0/3, .05, .2)
	for want, got := range map[Step]Step{Take: s.Step(4, 4), TurnAway: s.Step(1, 5), GoOn: s.Step(2, 3)} {
		if got != want {
			t.Errorf("step %q, want %q", got, want)
		}
	}
}
