// SPDX-License-Identifier: MIT

package gravity

// solve returns the root of f between low and high by bisection, to the last
// digit of a float. f must rise through its root. A root outside comes out as
// the nearer end, which lies outside the valid range of every caller.
func solve(low, high float64, f func(float64) float64) float64 {
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
