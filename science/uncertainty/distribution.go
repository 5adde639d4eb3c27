// SPDX-License-Identifier: MIT

package uncertainty

import "math"

// Distribution is what is believed of one number.
type Distribution interface {
	// Quantile returns the value below which the share u of the distribution
	// lies, u between 0 and 1.
	Quantile(u float64) float64
	// Moments returns mean and standard deviation.
	Moments() (mean, sd float64)
}

// NormalQuantile returns the value below which the share u of the standard
// normal distribution lies.
//
//	z = −√2 · erfc⁻¹(2u)
//
// Units: none.
//
//   - Source: derived, definition of the error function.
//   - Valid: u above 0 and below 1; at the ends it is infinite.
//   - Check: 1.959964 at 0.975, from memory of tables; [NormalShare] there and back.
//   - Tag: derived
func NormalQuantile(u float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*u) }

// NormalShare returns the share of the standard normal distribution below z.
//
//	Φ(z) = erfc(−z/√2)/2
//
// Units: none.
//
//   - Source: derived, definition of the error function.
//   - Valid: any z.
//   - Check: 0.841345 at 1, from memory of tables.
//   - Tag: derived
func NormalShare(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Normal is the normal distribution.
type Normal struct{ Mean, SD float64 }

// Quantile returns the value below which the share u lies.
func (d Normal) Quantile(u float64) float64 { return d.Mean + d.SD*NormalQuantile(u) }

// Moments returns mean and standard deviation.
func (d Normal) Moments() (mean, sd float64) { return d.Mean, d.SD }

// LogNormal is the distribution of a number whose logarithm is normal: of
// factors, which are never negative. SD is that of the natural logarithm, for
// small spreads the relative standard deviation.
type LogNormal struct{ Median, SD float64 }

// Quantile returns the value below which the share u lies.
func (d LogNormal) Quantile(u float64) float64 { return d.Median * math.Exp(d.SD*NormalQuantile(u)) }

// Moments returns mean and standard deviation.
//
//	mean = m·e^(s²/2)    sd = mean·√(e^(s²) − 1)
//
// m is the median, s the standard deviation of the logarithm. Units: those of m.
//
//   - Source: derived, moments of the exponential of a normal variable.
//   - Valid: any s.
//   - Check: against a sample of its own quantiles.
//   - Tag: derived
func (d LogNormal) Moments() (mean, sd float64) {
	mean = d.Median * math.Exp(d.SD*d.SD/2)
	return mean, mean * math.Sqrt(math.Expm1(d.SD*d.SD))
}

// Uniform is the distribution of a number of which only the ends are known.
type Uniform struct{ Low, High float64 }

// Quantile returns the value below which the share u lies.
func (d Uniform) Quantile(u float64) float64 { return d.Low + u*(d.High-d.Low) }

// Moments returns mean and standard deviation.
//
//	mean = (a + b)/2    sd = (b − a)/√12
//
// Units: those of the ends a and b.
//
//   - Source: derived, by integration.
//   - Valid: b not below a.
//   - Check: against a sample of its own quantiles.
//   - Tag: derived
func (d Uniform) Moments() (mean, sd float64) {
	return (d.Low + d.High) / 2, (d.High - d.Low) / math.Sqrt(12)
}

// Triangular is the distribution of a number with a likeliest value and two
// ends beyond which it can't lie.
type Triangular struct{ Low, Mode, High float64 }

// Quantile returns the value below which the share u lies.
//
//	x = a + √(u·(b − a)·(c − a))              u ≤ (c − a)/(b − a)
//	x = b − √((1 − u)·(b − a)·(b − c))        else
//
// c is the likeliest value. Units: those of the ends a and b.
//
//   - Source: derived, by integration.
//   - Valid: a ≤ c ≤ b.
//   - Check: 0 and 1 give the ends; at (c − a)/(b − a) it is c.
//   - Tag: derived
func (d Triangular) Quantile(u float64) float64 {
	width := d.High - d.Low
	if width <= 0 {
		return d.Mode
	}
	if u*width <= d.Mode-d.Low {
		return d.Low + math.Sqrt(u*width*(d.Mode-d.Low))
	}
	return d.High - math.Sqrt((1-u)*width*(d.High-d.Mode))
}

// Moments returns mean and standard deviation.
//
//	mean = (a + b + c)/3    sd = √((a² + b² + c² − ab − ac − bc)/18)
//
// Units: those of the ends a and b and the likeliest value c.
//
//   - Source: derived, by integration.
//   - Valid: a ≤ c ≤ b.
//   - Check: against a sample of its own quantiles.
//   - Tag: derived
func (d Triangular) Moments() (mean, sd float64) {
	a, b, c := d.Low, d.High, d.Mode
	return (a + b + c) / 3, math.Sqrt((a*a + b*b + c*c - a*b - a*c - b*c) / 18)
}

// TruncatedNormal is a normal distribution cut off at two ends and scaled up
// to 1 again. Mean and SD are those before the cut.
type TruncatedNormal struct{ Mean, SD, Low, High float64 }

// Quantile returns the value below which the share u lies.
//
//	x = μ + σ·Φ⁻¹(Φ(α) + u·(Φ(β) − Φ(α)))    α = (a − μ)/σ, β = (b − μ)/σ
//
// Units: those of the ends a and b.
//
//   - Source: derived, inversion of the conditional distribution.
//   - Valid: a below b; far in one tail digits are lost.
//   - Check: ends far away give [Normal]; 0 and 1 give the ends.
//   - Tag: derived
func (d TruncatedNormal) Quantile(u float64) float64 {
	low, high := NormalShare((d.Low-d.Mean)/d.SD), NormalShare((d.High-d.Mean)/d.SD)
	x := d.Mean + d.SD*NormalQuantile(low+u*(high-low))
	return math.Min(math.Max(x, d.Low), d.High)
}

// Moments returns mean and standard deviation after the cut.
//
//	mean = μ + σ·(φ(α) − φ(β))/Z    Z = Φ(β) − Φ(α)
//	var  = σ²·(1 + (αφ(α) − βφ(β))/Z − ((φ(α) − φ(β))/Z)²)
//
// φ is the density of the standard normal distribution; α, β as in Quantile.
// Units: those of the ends.
//
//   - Source: derived, by integration.
//   - Valid: a below b.
//   - Check: against a sample of its own quantiles.
//   - Tag: derived
func (d TruncatedNormal) Moments() (mean, sd float64) {
	a, b := (d.Low-d.Mean)/d.SD, (d.High-d.Mean)/d.SD
	z := NormalShare(b) - NormalShare(a)
	shift := (density(a) - density(b)) / z
	return d.Mean + d.SD*shift, d.SD * math.Sqrt(1+(times(a)-times(b))/z-shift*shift)
}

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// times is z·φ(z), 0 at both infinities.
func times(z float64) float64 {
	if math.IsInf(z, 0) {
		return 0
	}
	return z * density(z)
}
