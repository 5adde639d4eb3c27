// SPDX-License-Identifier: MIT

package sensory

import (
	"math"

	"gyle/quantity"
)

// distanceReach is a d′ beyond which an interval counts as open.
const distanceReach = 12.0

// reach is the range of values that the data don't speak against: those whose twice
// the loss of log likelihood is at most z². An end that isn't reached is low or high.
func reach(against func(float64) float64, z, top, low, high float64) quantity.Span[float64] {
	// The root of the loss is nearly a straight line on each side of the top.
	excess := func(x float64) float64 { return math.Sqrt(max(0, against(x))) - z }
	return quantity.Span[float64]{Low: edge(excess, top, low), High: edge(excess, top, high)}
}

// unbounded makes an end at a far end of the search infinite.
func unbounded(s quantity.Span[float64]) quantity.Span[float64] {
	if s.Low == -distanceReach {
		s.Low = math.Inf(-1)
	}
	if s.High == distanceReach {
		s.High = math.Inf(1)
	}
	return s
}

// edge finds the zero of a function between inside, where it is below 0, and outside,
// by false position (Illinois). It returns outside if the function isn't above 0 there.
func edge(excess func(float64) float64, inside, outside float64) float64 {
	under, over := excess(inside), excess(outside)
	if over <= 0 {
		return outside
	}
	last, x := 0, inside
	for range peakIterations {
		x = inside - under*(outside-inside)/(over-under)
		value := excess(x)
		switch {
		case value > 0:
			if outside, over = x, value; last > 0 {
				under /= 2
			}
			last = 1
		default:
			if inside, under = x, value; last < 0 {
				over /= 2
			}
			last = -1
		}
		if math.Abs(value) < peakPrecision || math.Abs(outside-inside) < peakPrecision {
			break
		}
	}
	return x
}

const (
	golden         = 0.3819660112501051 // (3 − √5)/2
	peakPrecision  = 1e-8               // finer isn't seen: a top is flat
	peakIterations = 100
)

// scanStep is the distance of the points of a first search.
const scanStep = 0.5

// highest is the point of a first search at which a function is highest.
func highest(f func(float64) float64, low, high float64) float64 {
	at, top := low, f(low)
	for x := low + scanStep; x <= high; x += scanStep {
		if value := f(x); value > top {
			at, top = x, value
		}
	}
	return at
}

// maximize finds the top of a function with one top between low and high: the top of
// the parabola through the best three points, a golden section where that leads
// nowhere (Brent's method).
func maximize(f func(float64) float64, low, high float64) (at, top float64) {
	x := low + golden*(high-low)
	fx := f(x)
	second, third, fSecond, fThird := x, x, fx, fx
	step, before := 0.0, 0.0
	for range peakIterations {
		middle := (low + high) / 2
		finest := peakPrecision * (math.Abs(x) + 0.01)
		if math.Abs(x-middle) <= 2*finest-(high-low)/2 {
			break
		}
		parabola, ok := vertex(x, second, third, fx, fSecond, fThird)
		if ok && math.Abs(parabola) < math.Abs(before)/2 && x+parabola > low+finest && x+parabola < high-finest {
			before, step = step, parabola
		} else {
			before = high - x
			if x >= middle {
				before = low - x
			}
			step = golden * before
		}
		u := x + math.Copysign(max(math.Abs(step), finest), step)
		fu := f(u)
		if fu >= fx {
			if u >= x {
				low = x
			} else {
				high = x
			}
			third, fThird, second, fSecond, x, fx = second, fSecond, x, fx, u, fu
			continue
		}
		if u < x {
			low = u
		} else {
			high = u
		}
		switch {
		case fu >= fSecond || second == x:
			third, fThird, second, fSecond = second, fSecond, u, fu
		case fu >= fThird || third == x || third == second:
			third, fThird = u, fu
		}
	}
	return x, fx
}

// vertex is the step from x to the top of the parabola through three points; false if
// they lie on a line or on a valley.
func vertex(x, a, b, fx, fa, fb float64) (step float64, ok bool) {
	left, right := (x-a)*(fx-fb), (x-b)*(fx-fa)
	curve := 2 * (right - left)
	if curve == 0 || math.IsNaN(curve) {
		return 0, false
	}
	return -((x-b)*right - (x-a)*left) / curve, true
}
