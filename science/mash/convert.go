// SPDX-License-Identifier: MIT

package mash

import (
	"math"

	"gyle/quantity"
)

// Kinetics are the constants of the conversion model that were fitted to
// attenuations. The others are fixed: see [GelatinisationRate] and its kin.
// The zero value is no model; start from [DefaultKinetics].
type Kinetics struct {
	Alpha       float64          // sugar made by all alpha-amylase at 65 °C, 1/s
	Beta        float64          // the same for beta-amylase, 1/s
	LimitShare  float64          // share of starch extract that never becomes fermentable
	ThickShift  quantity.Warming // delay of gelatinisation in thick mashes; 0: off
	Preformed   float64          // share of the extract that is sugar from the start
	Unfermented float64          // share of the extract that is neither starch nor sugar
}

// DefaultKinetics are the constants of an all-malt mash.
//
//   - Source: derived: fitted to apparent attenuations of 82, 70, 50, 30 % after an hour at 65, 70, 75, 80 °C (trial with 10 % of dextrin malt, 3 L/kg, as reported, duration assumed).
//   - Valid: as Convert.
//   - Check: the four attenuations within 1 point.
//   - Tag: estimate
var DefaultKinetics = Kinetics{
	Alpha: 8.0e-4, Beta: 1.74e-3, LimitShare: 0.2715, Preformed: 0.08, Unfermented: 0.10,
}

// The gas constant, J/(mol K), rounded as in the model, and its reference
// temperatures.
const gasConstant = 8.314

var (
	sugarReference = quantity.Celsius(65).Kelvin()
	gelatinSplit   = quantity.Celsius(60).Kelvin()
)

// GelatinisationRate returns the rate at which starch gelatinises, in 1/s. The
// jump at 60 °C is part of the model.
//
//	k = 5.7e31·exp(−220600/RT)  below 60 °C
//	k = 3.1e14·exp(−108300/RT)  from 60 °C
//
// Units: k in 1/s, T in K, R = 8.314 J/(mol K).
//
//   - Source: brandam2003, constants from memory.
//   - Valid: 50..80 °C; below 57 °C probably too fast.
//   - Check: 5.774e-3 at 65 °C, 1.012e-2 at 70 °C.
//   - Tag: from memory
func GelatinisationRate(t quantity.Temperature) float64 {
	if t.Kelvin() < gelatinSplit {
		return 5.7e31 * math.Exp(-220600/(gasConstant*t.Kelvin()))
	}
	return 3.1e14 * math.Exp(-108300/(gasConstant*t.Kelvin()))
}

// AlphaLossRate returns the rate at which alpha-amylase is lost, in 1/s.
//
//	k = 6.9e30·exp(−224200/RT)
//
// Units: k in 1/s, T in K, R = 8.314 J/(mol K).
//
//   - Source: brandam2003, constants from memory.
//   - Valid: 50..80 °C.
//   - Check: 1.603e-4 at 65 °C, 5.125e-4 at 70 °C; after an hour at 65 °C more than half is left (Muller, as read second-hand).
//   - Tag: from memory
func AlphaLossRate(t quantity.Temperature) float64 {
	return 6.9e30 * math.Exp(-224200/(gasConstant*t.Kelvin()))
}

// BetaLossRate returns the rate at which beta-amylase is lost, in 1/s.
//
//	k = 9.2e-4·exp[(410700/R)·(1/338.15 − 1/T)]
//
// Units: k in 1/s, T in K, R = 8.314 J/(mol K).
//
//   - Source: muller1990, second-hand: 83 % lost after 30, 92 % after 60 min at 65 °C; brandam2003, from memory, for the energy.
//   - Valid: 50..80 °C.
//   - Check: 9.20e-4 at 65 °C, 7.731e-3 at 70 °C.
//   - Tag: from memory
func BetaLossRate(t quantity.Temperature) float64 {
	return 9.2e-4 * math.Exp(410700/gasConstant*(1/sugarReference-1/t.Kelvin()))
}

// SugarFactor returns how much faster both amylases make sugar than at 65 °C,
// were none lost.
//
//	r = exp[(50000/R)·(1/338.15 − 1/T)]
//
// Units: r without unit, T in K, R = 8.314 J/(mol K).
//
//   - Source: derived, assumed activation energy of the model.
//   - Valid: 50..80 °C.
//   - Check: 1 at 65 °C.
//   - Tag: estimate
func SugarFactor(t quantity.Temperature) float64 {
	return math.Exp(50000 / gasConstant * (1/sugarReference - 1/t.Kelvin()))
}

// Starch is the state of conversion.
type Starch struct {
	Raw         float64 // share of starch not yet gelatinised
	Fermentable float64 // fermentable share of the extract from starch
	Alpha, Beta float64 // share of the amylases still active
}

// DoughIn is the state at the start of a mash.
var DoughIn = Starch{Raw: 1, Alpha: 1, Beta: 1}

// Rest is a stretch of the mash. It holds one temperature, or runs evenly from
// Temperature to End if End was set.
type Rest struct {
	Temperature quantity.Temperature
	End         quantity.Temperature
	Duration    quantity.Duration
}

// at returns the temperature after a share of the rest.
func (r Rest) at(share float64) quantity.Temperature {
	if r.End.IsZero() {
		return r.Temperature
	}
	return r.Temperature.Add(r.End.Sub(r.Temperature) * quantity.Warming(share))
}

// conversionStep is the longest step of the integration, in seconds.
const conversionStep = 2.0

// Convert returns the state of the starch after a series of rests, by a reduced
// model: starch gelatinises, two amylases that die of heat make sugar from it.
//
//	dS/dt = −kg·S    dea/dt = −kda·ea    deb/dt = −kdb·eb
//	dF/dt = (va·r·ea + vb·r·eb)·max(0, (1 − λ)(1 − S) − F)        1/s
//
// S, ea and eb follow their exponentials exactly within each step, F is
// integrated by the classical Runge-Kutta method.
//
//   - Source: derived; structure of brandam2003, loss of beta-amylase after muller1990, three constants fitted.
//   - Valid: all-malt, 55..80 °C, 10..120 min, 2.5..5 L/kg; see Caveats.
//   - Check: an hour at 65 °C: F 0.7073, alpha 0.5615, beta 0.0364; independently integrated in testdata.
//   - Tag: estimate
func Convert(k Kinetics, start Starch, rests ...Rest) Starch {
	state := start
	for _, rest := range rests {
		steps := math.Ceil(rest.Duration.Seconds() / conversionStep)
		if !(steps > 0) {
			continue
		}
		dt := rest.Duration.Seconds() / steps
		var rates conversionRates
		for i := range int(steps) {
			if i == 0 || !rest.End.IsZero() {
				rates = k.rates(rest.at((float64(i)+0.5)/steps), dt)
			}
			state = rates.step(state)
		}
	}
	return state
}

// conversionRates are the rates at one temperature, and what is left of starch
// and amylases after half a step.
type conversionRates struct {
	dt                  float64
	alpha, beta, limit  float64
	rawHalf             float64
	alphaHalf, betaHalf float64
}

func (k Kinetics) rates(t quantity.Temperature, dt float64) conversionRates {
	factor := SugarFactor(t)
	return conversionRates{
		dt:        dt,
		alpha:     k.Alpha * factor,
		beta:      k.Beta * factor,
		limit:     1 - k.LimitShare,
		rawHalf:   math.Exp(-GelatinisationRate(t.Add(-k.ThickShift)) * dt / 2),
		alphaHalf: math.Exp(-AlphaLossRate(t) * dt / 2),
		betaHalf:  math.Exp(-BetaLossRate(t) * dt / 2),
	}
}

// sugar is dF/dt.
func (r *conversionRates) sugar(s Starch, fermentable float64) float64 {
	return (r.alpha*s.Alpha + r.beta*s.Beta) * math.Max(0, r.limit*(1-s.Raw)-fermentable)
}

func (r *conversionRates) half(s Starch) Starch {
	return Starch{s.Raw * r.rawHalf, s.Fermentable, s.Alpha * r.alphaHalf, s.Beta * r.betaHalf}
}

func (r *conversionRates) step(s Starch) Starch {
	middle := r.half(s)
	end := r.half(middle)
	k1 := r.sugar(s, s.Fermentable)
	k2 := r.sugar(middle, s.Fermentable+r.dt/2*k1)
	k3 := r.sugar(middle, s.Fermentable+r.dt/2*k2)
	k4 := r.sugar(end, s.Fermentable+r.dt*k3)
	end.Fermentable = s.Fermentable + r.dt/6*(k1+2*k2+2*k3+k4)
	return end
}

// ConvertAtRest returns the fermentable share after one rest in closed form,
// with all starch gelatinised from the start.
//
//	I = r·[va·(1 − e^(−kda·t))/kda + vb·(1 − e^(−kdb·t))/kdb]
//	F = (1 − λ)·(1 − e^(−I))
//
// Units: rates in 1/s, t in s; I and F without unit.
//
//   - Source: derived, from the equations of Convert.
//   - Valid: 62..75 °C; 0.2 to 3.5 points of attenuation above Convert.
//   - Check: an hour at 65 °C: 82.29 % of apparent attenuation.
//   - Tag: estimate
func ConvertAtRest(k Kinetics, t quantity.Temperature, d quantity.Duration) Starch {
	alphaLoss, betaLoss, seconds := AlphaLossRate(t), BetaLossRate(t), d.Seconds()
	alphaLeft, betaLeft := math.Exp(-alphaLoss*seconds), math.Exp(-betaLoss*seconds)
	made := SugarFactor(t) * (k.Alpha*(1-alphaLeft)/alphaLoss + k.Beta*(1-betaLeft)/betaLoss)
	return Starch{Fermentable: (1 - k.LimitShare) * (1 - math.Exp(-made)), Alpha: alphaLeft, Beta: betaLeft}
}

// realPerApparent is the ratio of real to apparent attenuation.
const realPerApparent = 0.81

// starchShare is the share of the extract that comes from starch.
func (k Kinetics) starchShare() float64 { return 1 - k.Preformed - k.Unfermented }

// RelativeExtract returns the extract in solution over that of complete
// conversion.
//
//	X = 0.18 + 0.82·(1 − S)
//
// Units: shares, 0 to 1; S is the starch not yet gelatinised.
//
//   - Source: derived: 0.08 sugars and 0.10 other solubles of the malt assumed.
//   - Valid: as Convert.
//   - Check: an hour at 55 °C: 0.8295.
//   - Tag: estimate
func (k Kinetics) RelativeExtract(s Starch) quantity.Fraction {
	return quantity.Fraction(1 - k.starchShare()*s.Raw)
}

// RealLimit returns the real limit attenuation of the wort.
//
//	RDF = (0.08 + 0.82·F) / (0.18 + 0.82·(1 − S))
//
// Units: shares, 0 to 1; S and F as in Convert.
//
//   - Source: derived, as RelativeExtract.
//   - Valid: as Convert.
//   - Check: 0.81 of the apparent limit.
//   - Tag: estimate
func (k Kinetics) RealLimit(s Starch) quantity.Fraction {
	return quantity.Fraction((k.Preformed + k.starchShare()*s.Fermentable) / float64(k.RelativeExtract(s)))
}

// ApparentLimit returns the apparent limit attenuation of the wort: what a
// yeast that leaves no fermentable sugar reaches. No yeast goes beyond it.
//
//	AAL = RDF / 0.81
//
// Units: shares, 0 to 1.
//
//   - Source: derived, as RelativeExtract; 0.81 is the usual ratio of the two.
//   - Valid: as Convert; ±3 points between 62 and 68 °C, ±6 elsewhere.
//   - Check: an hour at 65 °C: 81.48 %.
//   - Tag: estimate
func (k Kinetics) ApparentLimit(s Starch) quantity.Fraction {
	return k.RealLimit(s) / realPerApparent
}

// WithAttenuation returns the constants that give a lot of malt its apparent
// limit attenuation, as the laboratory found it, after an hour at 65 °C.
//
//	λ = 1 − (1 − λ0)·F(AAL)/F0
//
// Units: shares, 0 to 1; λ0 and F0 are those before the change. F is
// proportional to 1 − λ.
//
//   - Source: derived, from the equations of Convert.
//   - Valid: limits 70..88 %.
//   - Check: gives back the limit put in.
//   - Tag: derived
func (k Kinetics) WithAttenuation(limit quantity.Fraction) Kinetics {
	state := Convert(k, DoughIn, Rest{Temperature: quantity.Celsius(65), Duration: 60})
	real := float64(limit) * realPerApparent * float64(k.RelativeExtract(state))
	wanted := (real - k.Preformed) / k.starchShare()
	k.LimitShare = 1 - (1-k.LimitShare)*wanted/state.Fermentable
	return k
}

// WithThickness returns the constants for a mash of a given extract, with the
// delay of gelatinisation in thick mashes switched on.
//
//	shift = (P − 12)/2.5
//
// Units: shift in K, P (extract of the mash) in °P.
//
//   - Source: deschepper2022, abstract: 1 °C per 2.5 g of extract in 100 g.
//   - Valid: 12..25 °P.
//   - Check: 17 °P: 2 K.
//   - Tag: verified
func (k Kinetics) WithThickness(p quantity.Plato) Kinetics {
	k.ThickShift = quantity.Warming((float64(p) - 12) / 2.5)
	return k
}
