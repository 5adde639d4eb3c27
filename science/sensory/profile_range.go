// SPDX-License-Identifier: MIT

package sensory

import (
	"math"
	"slices"

	"gyle/quantity"
)

// Fit is where a panel finds one attribute of a beer against the range that a
// style gives it.
type Fit string

// The ways an attribute lies to its range.
const (
	FitInside    Fit = "inside"
	FitOutside   Fit = "outside"
	FitUndecided Fit = "undecided" // the panel is too small or too divided to say
)

// RangeFit is an attribute of a panel's profile against a range.
type RangeFit struct {
	N         int
	Middle    float64 // the mean; the median of fewer than four assessors
	Low, High float64 // the 95 % interval of the mean; the range of fewer than four
	Fit       Fit
	Deviation float64 // how far the middle lies outside the range, in levels
}

// fewFit is below how many assessors there is no interval of a mean.
const fewFit = 4

// FitRange compares the scores of one attribute with the range that a style
// gives it. A word for how much stands for half a level to either side, so the
// range is widened by that half. It is inside when all of the interval is, outside
// when none of it is, and else undecided.
//
//	m ± t(0.975; n − 1)·s/√n  against  low − h .. high + h
//	deviation = max(0, low − h − m, m − high − h)
//
// Units: levels; h is half a level: 0.5 on a scale of six words from 0 to 5.
//
//   - Source: iso13299, from memory; the widening by half a level and the three classes are this program's own.
//   - Valid: from 4 assessors; below, the median and the range of the scores stand in, and one alone decides nothing.
//   - Check: eight assessors, 4 5 4 4 5 4 3 4 against 2 to 3: 4.125 (3.589 to 4.661), outside by 0.625; intervals against R's t.test.
//   - Tag: computed
func FitRange(scores []float64, wanted quantity.Span[float64], half float64) RangeFit {
	f := RangeFit{N: len(scores), Fit: FitUndecided}
	switch n := len(scores); {
	case n == 0:
		f.Middle, f.Low, f.High = math.NaN(), math.NaN(), math.NaN()
		return f
	case n < fewFit:
		sorted := slices.Sorted(slices.Values(scores))
		f.Middle, f.Low, f.High = (sorted[(n-1)/2]+sorted[n/2])/2, sorted[0], sorted[n-1]
	default:
		f.Middle = mean(scores)
		reach := ratingStudentQuantile(0.05, float64(n-1)) * math.Sqrt(variance(scores)/float64(n))
		f.Low, f.High = f.Middle-reach, f.Middle+reach
	}
	low, high := wanted.Low-half, wanted.High+half
	f.Deviation = max(0, low-f.Middle, f.Middle-high)
	switch {
	case f.N == 1: // one voice is no panel
	case f.Low >= low && f.High <= high:
		f.Fit = FitInside
	case f.High < low || f.Low > high:
		f.Fit = FitOutside
	}
	return f
}
