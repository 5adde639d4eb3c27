// SPDX-License-Identifier: MIT

package ferment

import (
	"math"

	"gyle/quantity"
)

// GravityCurve is a model of how the apparent extract of a gyle falls with the
// time since pitching.
type GravityCurve interface {
	At(time quantity.Duration) quantity.Plato
}

// PerHour returns the rate of r per hour.
func PerHour(r float64) quantity.Rate { return quantity.Rate(r / 60) }

// perHour returns a rate in 1/h.
func perHour(r quantity.Rate) float64 { return float64(r) * 60 }

// Logistic is the four-parameter logistic curve (4PL) of a fermentation.
type Logistic struct {
	Start, End quantity.Plato    // apparent extract before and long after
	Steepness  quantity.Rate     // B, above 0
	Middle     quantity.Duration // M, when half of the fall is done
}

// At returns the apparent extract at a time since pitching.
//
//	P = Pe + (P0 − Pe)/(1 + exp(B·(t − M)))
//
// Units: P in °P, B in 1/h, t and M in h.
//
//   - Source: speers2003, abstract; ASBC Yeast-14.
//   - Valid: batch fermentations with one smooth fall.
//   - Check: 12 to 2.5 °P, B 0.1/h, M 40 h: 5.445 °P at 48 h.
//   - Tag: verified
func (c Logistic) At(time quantity.Duration) quantity.Plato {
	growth := math.Exp(perHour(c.Steepness) * (time - c.Middle).Hours())
	return c.End + (c.Start-c.End)/quantity.Plato(1+growth)
}

// MaxRate returns the steepest fall, in °P/h; it happens at the middle.
//
//	r = B·(P0 − Pe)/4
//
// Units: r in °P/h, B in 1/h.
//
//   - Source: derived, slope of [Logistic.At].
//   - Valid: as the curve.
//   - Check: 12 to 2.5 °P at B 0.1/h: 0.2375 °P/h.
//   - Tag: derived
func (c Logistic) MaxRate() float64 {
	return perHour(c.Steepness) * float64(c.Start-c.End) / 4
}

// Lag returns when the tangent at the middle leaves the starting gravity.
//
//	lag = M − 2/B
//
// Units: in h, B in 1/h.
//
//   - Source: derived, tangent of [Logistic.At].
//   - Valid: as the curve.
//   - Check: M 40 h, B 0.1/h: 20 h.
//   - Tag: derived
func (c Logistic) Lag() quantity.Duration {
	return c.Middle - quantity.Hours(2/perHour(c.Steepness))
}

// TangentEnd returns when the tangent at the middle reaches the end.
//
//	end = M + 2/B
//
// Units: in h, B in 1/h.
//
//   - Source: derived, tangent of [Logistic.At].
//   - Valid: as the curve.
//   - Check: M 40 h, B 0.1/h: 60 h.
//   - Tag: derived
func (c Logistic) TangentEnd() quantity.Duration {
	return c.Middle + quantity.Hours(2/perHour(c.Steepness))
}

// TimeToWithin returns when the curve is within a distance of its end.
//
//	t = M + ln((P0 − Pe)/ε − 1)/B
//
// Units: t and M in h, ε in °P, B in 1/h.
//
//   - Source: derived, [Logistic.At] solved for time.
//   - Valid: ε below P0 − Pe.
//   - Check: 12 to 2.5 °P, B 0.1/h, M 40 h: within 0.1 °P at 85.43 h.
//   - Tag: derived
func (c Logistic) TimeToWithin(distance quantity.Plato) quantity.Duration {
	odds := float64((c.Start-c.End)/distance) - 1
	return c.Middle + quantity.Hours(math.Log(odds)/perHour(c.Steepness))
}

// AsymmetricLogistic is the five-parameter logistic curve (5PL): a fall that
// begins faster than it ends, or the other way round.
type AsymmetricLogistic struct {
	Logistic
	Asymmetry float64 // s; 1 is the symmetric curve
}

// At returns the apparent extract at a time since pitching. The middle stays
// the time at which half of the fall is done.
//
//	P = Pe + (P0 − Pe)/(1 + (2^(1/s) − 1)·exp(B·(t − M)))^s
//
// Units: P in °P, B in 1/h, t and M in h.
//
//   - Source: fermentation2021, abstract, compares 4PL, 5PL and a third form;
//     this way to write the parameters is derived.
//   - Valid: as the symmetric curve; s between about 0.3 and 3.
//   - Check: 12 to 2.5 °P, B 0.1/h, M 40 h, s 0.5: 5.929 °P at 48 h.
//   - Tag: derived
func (c AsymmetricLogistic) At(time quantity.Duration) quantity.Plato {
	growth := math.Exp(perHour(c.Steepness) * (time - c.Middle).Hours())
	base := 1 + (math.Pow(2, 1/c.Asymmetry)-1)*growth
	return c.End + (c.Start-c.End)/quantity.Plato(math.Pow(base, c.Asymmetry))
}

// Gompertz is the modified Gompertz curve of a fermentation.
type Gompertz struct {
	Start, End   quantity.Plato    // apparent extract before and long after
	PlatoPerHour float64           // μ, the steepest fall, above 0
	LagTime      quantity.Duration // λ
}

// At returns the apparent extract at a time since pitching.
//
//	P = P0 − (P0 − Pe)·exp(−exp(e·μ/(P0 − Pe)·(λ − t) + 1))
//
// Units: P in °P, μ in °P/h, λ and t in h, e = 2.71828.
//
//   - Source: zwietering1990, form of the curve, from memory.
//   - Valid: batch fermentations with one smooth fall.
//   - Check: 12 to 2.5 °P, μ 0.25 °P/h, λ 12 h: 4.276 °P at 48 h.
//   - Tag: from memory
func (c Gompertz) At(time quantity.Duration) quantity.Plato {
	fall := float64(c.Start - c.End)
	inner := math.E*c.PlatoPerHour/fall*(c.LagTime-time).Hours() + 1
	return c.Start - quantity.Plato(fall*math.Exp(-math.Exp(inner)))
}
