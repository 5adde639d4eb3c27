// SPDX-License-Identifier: MIT

package gravity

import "math"

// solve returns the root of f between low and high by bisection, to the last
// digit of a float. f must rise through its root. Without a root there it
// returns NaN: no number rather than a wrong one.
func solve(low, high float64, f func(float64) float64) float64 {
	if !(f(low) <= 0 && f(high) >= 0) {
		return math.NaN()
	}
	for range 200 {
		middle := low + (high-low)/2
		if middle == low || middle == high {
			break
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low + (high-low)/2
}
