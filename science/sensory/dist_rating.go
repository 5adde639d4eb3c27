// SPDX-License-Identifier: MIT

package sensory

import "math"

// The distributions that the tests of ranks and scores need. Their checks are
// in dist_rating_test.go: printed points of tables, and R where it is installed.

// ratingStudentTails returns the probability that Student's t with df degrees
// of freedom is at least as far from zero as t, on both sides together.
func ratingStudentTails(t, df float64) float64 {
	if math.IsInf(t, 0) {
		return 0
	}
	return betaBelow(df/(df+t*t), df/2, 0.5)
}

// ratingStudentTail returns the probability that Student's t is at least t.
func ratingStudentTail(t, df float64) float64 {
	half := ratingStudentTails(t, df) / 2
	if t < 0 {
		return 1 - half
	}
	return half
}

// ratingFTail returns the probability that Fisher's F is at least f.
func ratingFTail(f, df1, df2 float64) float64 {
	if math.IsInf(f, 1) {
		return 0
	}
	if f <= 0 {
		return 1
	}
	return betaBelow(df2/(df2+df1*f), df2/2, df1/2)
}

// ratingNormalTail returns the probability that a standard normal variable is
// at least z.
func ratingNormalTail(z float64) float64 { return math.Erfc(z/math.Sqrt2) / 2 }

// ratingNormalQuantile returns z with the given probability at and above it.
func ratingNormalQuantile(tail float64) float64 { return math.Sqrt2 * math.Erfinv(1-2*tail) }

// ratingStudentQuantile returns t with the given probability beyond it on both
// sides together.
func ratingStudentQuantile(tails, df float64) float64 {
	high := 1.0
	for ratingStudentTails(high, df) > tails && high < 1e150 {
		high *= 2
	}
	return ratingSolve(0, high, func(t float64) float64 { return tails - ratingStudentTails(t, df) })
}

// ratingSolve finds where a rising function crosses zero between two ends.
func ratingSolve(low, high float64, f func(float64) float64) float64 {
	for range 200 {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			return middle
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// ratingRange returns the probability that the range of k standard normal
// variables is at most q:
//
//	k ∫ φ(z)·(Φ(z) − Φ(z − q))^(k−1) dz
//
// The trapezoidal rule is exact enough here: the integrand is smooth and dies
// away to both sides.
func ratingRange(q float64, k int) float64 {
	if q <= 0 {
		return 0
	}
	const step = 0.25
	sum := 0.0
	for z := -8.0; z <= 8; z += step {
		inside := ratingNormalTail(z-q) - ratingNormalTail(z)
		sum += math.Exp(-z*z/2) * math.Pow(inside, float64(k-1))
	}
	return min(1, float64(k)*sum*step/math.Sqrt(2*math.Pi))
}

// ratingStudentRange returns the probability that the studentised range of k
// means is at most q, the standard deviation known with df degrees of freedom,
// which may be infinite.
func ratingStudentRange(q float64, k int, df float64) float64 {
	if math.IsInf(df, 1) {
		return ratingRange(q, k)
	}
	if q <= 0 {
		return 0
	}
	return min(1, ratingOverSD(df, func(s float64) float64 { return ratingRange(q*s, k) }))
}

// ratingOverSD returns the mean of f(s) over the sample standard deviation s of
// a unit normal variable, known with df degrees of freedom. It is summed in
// ln s by the trapezoidal rule.
func ratingOverSD(df float64, f func(s float64) float64) float64 {
	lg, _ := math.Lgamma(df / 2)
	front := math.Ln2 + df/2*math.Log(df/2) - lg
	width := 1 / math.Sqrt(2*df)
	low, high := -40*width-40/df, math.Log1p(40/(df+3))+8*width
	step := min(width/3, 0.1)
	sum := 0.0
	for u := low; u <= high; u += step {
		if weight := math.Exp(front + df*u - df/2*math.Exp(2*u)); weight > 1e-18 {
			sum += weight * f(math.Exp(u))
		}
	}
	return sum * step
}

// ratingRangeQuantile returns the studentised range q that k equal means exceed
// with probability alpha.
func ratingRangeQuantile(alpha float64, k int, df float64) float64 {
	high := 4.0
	for ratingStudentRange(high, k, df) < 1-alpha && high < 1e6 {
		high *= 2
	}
	f := func(q float64) float64 { return ratingStudentRange(q, k, df) - (1 - alpha) }
	return ratingSecant(0, high, f)
}

// ratingSecant finds where a rising function crosses zero, with fewer calls
// than [ratingSolve]: regula falsi with the weight of the standing end halved
// (the Illinois rule).
func ratingSecant(low, high float64, f func(float64) float64) float64 {
	fLow, fHigh := f(low), f(high)
	side := 0
	for range 100 {
		x := high - fHigh*(high-low)/(fHigh-fLow)
		y := f(x)
		if math.Abs(y) < 1e-12 || high-low < 1e-10 {
			return x
		}
		if y < 0 {
			low, fLow = x, y
			if side == -1 {
				fHigh /= 2
			}
			side = -1
		} else {
			high, fHigh = x, y
			if side == 1 {
				fLow /= 2
			}
			side = 1
		}
	}
	return (low + high) / 2
}
