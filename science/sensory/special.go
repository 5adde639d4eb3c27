// SPDX-License-Identifier: MIT

package sensory

import "math"

// normalDensity is the standard normal density φ.
func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// normalBelow is the standard normal distribution Φ.
func normalBelow(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// normalQuantile is the inverse of [normalBelow]: −∞ at 0, +∞ at 1. Newton's rule on
// the logarithm of the tail keeps all digits far out.
func normalQuantile(p float64) float64 {
	switch {
	case p > 0.5:
		return -normalQuantile(1 - p)
	case p <= 0:
		return math.Inf(-1)
	}
	z := -math.Sqrt2 * math.Erfcinv(2*p)
	if p < 1e-9 {
		z = -math.Sqrt(-2 * math.Log(p))
	}
	for range 5 {
		below := normalBelow(z)
		z -= math.Log(below/p) * below / normalDensity(z)
	}
	return z
}

func logGamma(x float64) float64 {
	v, _ := math.Lgamma(x)
	return v
}

func logBeta(a, b float64) float64 { return logGamma(a) + logGamma(b) - logGamma(a+b) }

func logChoose(n, k int) float64 {
	if k == 0 || k == n {
		return 0
	}
	return logGamma(float64(n+1)) - logGamma(float64(k+1)) - logGamma(float64(n-k+1))
}

const (
	seriesPrecision = 1e-16 // relative, where series and continued fractions stop
	seriesTerms     = 5000  // more than any a panel needs
	tiny            = 1e-300
)

// betaBelow is the regularised incomplete beta function I_x(a, b), the
// distribution of a beta variable, by its continued fraction (Lentz).
func betaBelow(x, a, b float64) float64 {
	switch {
	case math.IsNaN(x):
		return x
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	front := math.Exp(a*math.Log(x) + b*math.Log1p(-x) - logBeta(a, b))
	if x < (a+1)/(a+b+2) {
		return front * betaFraction(x, a, b) / a
	}
	return 1 - front*betaFraction(1-x, b, a)/b
}

// betaAbove is 1 − I_x(a, b) without the loss of digits of a subtraction.
func betaAbove(x, a, b float64) float64 { return betaBelow(1-x, b, a) }

func betaFraction(x, a, b float64) float64 {
	c, d := 1.0, 1/atLeastTiny(1-(a+b)*x/(a+1))
	result := d
	for i := 1; i < seriesTerms; i++ {
		m := float64(i)
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d, c = 1/atLeastTiny(1+even*d), atLeastTiny(1+even/c)
		result *= d * c
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d, c = 1/atLeastTiny(1+odd*d), atLeastTiny(1+odd/c)
		result *= d * c
		if math.Abs(d*c-1) < seriesPrecision {
			break
		}
	}
	return result
}

func atLeastTiny(x float64) float64 {
	if math.Abs(x) < tiny {
		return tiny
	}
	return x
}

// betaQuantile is the inverse of [betaBelow] in x.
func betaQuantile(p, a, b float64) float64 {
	density := func(x float64) float64 {
		return math.Exp((a-1)*math.Log(x) + (b-1)*math.Log1p(-x) - logBeta(a, b))
	}
	return invert(func(x float64) (float64, float64) { return betaBelow(x, a, b) - p, density(x) }, 0, 1)
}

// invert finds the zero of a rising function between low and high. It steps by
// Newton's rule and halves the interval where a step would leave it.
func invert(rising func(x float64) (value, slope float64), low, high float64) float64 {
	x := (low + high) / 2
	for range 200 {
		value, slope := rising(x)
		if value > 0 {
			high = x
		} else {
			low = x
		}
		next := x - value/slope
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= 1e-15*(1+math.Abs(x)) {
			return next
		}
		x = next
	}
	return x
}

// chiSquareAbove is the probability that a χ² variable exceeds x.
func chiSquareAbove(x, freedom float64) float64 {
	if math.IsNaN(x) || freedom <= 0 {
		return math.NaN()
	}
	return gammaAbove(freedom/2, x/2)
}

// gammaAbove is the regularised upper incomplete gamma function Q(a, x): a
// series below the mean, a continued fraction above.
func gammaAbove(a, x float64) float64 {
	if x <= 0 {
		return 1
	}
	front := math.Exp(a*math.Log(x) - x - logGamma(a))
	if x < a+1 {
		term := 1 / a
		sum := term
		for i := 1; i < seriesTerms && term > sum*seriesPrecision; i++ {
			term *= x / (a + float64(i))
			sum += term
		}
		return 1 - front*sum
	}
	b := x + 1 - a
	c, d := 1/tiny, 1/b
	result := d
	for i := 1; i < seriesTerms; i++ {
		step := float64(i) * (a - float64(i))
		b += 2
		d, c = 1/atLeastTiny(step*d+b), atLeastTiny(b+step/c)
		result *= d * c
		if math.Abs(d*c-1) < seriesPrecision {
			break
		}
	}
	return front * result
}
