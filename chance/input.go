// SPDX-License-Identifier: MIT

package chance

import (
	"math"

	"gyle/plan"
	"gyle/quantity"
	"gyle/science/uncertainty"
)

// Kind says what an input belongs to.
type Kind string

// The kinds of inputs.
const (
	OfLot     Kind = "lot"
	OfHouse   Kind = "house"
	OfFormula Kind = "formula"
	OfReading Kind = "reading"
	OfYeast   Kind = "yeast"
	OfWater   Kind = "water"
)

// Input is one thing that isn't known exactly.
type Input struct {
	Name   string  `json:"name"` // "house factor of bitterness"
	Kind   Kind    `json:"kind"`
	SD     float64 `json:"sd"`             // standard deviation
	Unit   string  `json:"unit,omitempty"` // of SD; empty: of the value itself, a share
	Source string  `json:"source"`         // where the spread comes from

	distribution uncertainty.Distribution
	set          func(t *plan.Truth, x float64)
}

// Spread prints the standard deviation of the input: "± 2.6 %", "± 0.3 K".
func (in Input) Spread(pr quantity.Printer) string {
	value, unit := in.SD, in.Unit
	if unit == "" {
		value, unit = 100*value, "%"
	}
	decimals := max(0, 1-int(math.Floor(math.Log10(math.Max(value, 1e-6)))))
	return "± " + pr.Number(value, decimals) + " " + unit
}

// known returns the input with its spread in a ratio to what it was.
func (in Input) known(ratio float64) Input {
	if ratio == 1 {
		return in
	}
	mean, sd := in.distribution.Moments()
	in.distribution, in.SD = narrowed{in.distribution, mean, ratio}, sd*ratio
	return in
}

// narrowed is a distribution drawn together about its mean.
type narrowed struct {
	uncertainty.Distribution
	mean, ratio float64
}

// Quantile returns the value below which the share u lies.
func (d narrowed) Quantile(u float64) float64 {
	return d.mean + d.ratio*(d.Distribution.Quantile(u)-d.mean)
}

// Moments returns mean and standard deviation.
func (d narrowed) Moments() (mean, sd float64) {
	mean, sd = d.Distribution.Moments()
	return mean, sd * d.ratio
}

// list gathers inputs; what has no spread is none.
type list struct {
	day    *plan.Brewday
	plan   *plan.Plan
	inputs []Input
}

func (l *list) add(in Input, d uncertainty.Distribution, set func(t *plan.Truth, x float64)) {
	_, in.SD = d.Moments()
	if !(in.SD > 0) {
		return
	}
	in.distribution, in.set = d, set
	l.inputs = append(l.inputs, in)
}

// ratio is a factor about 1 with a relative standard deviation, normal and
// never negative.
func ratio(sd float64) uncertainty.Distribution {
	const never = 8 // standard deviations, beyond the last digit of a share
	if sd*never < 1 {
		return uncertainty.Normal{Mean: 1, SD: sd}
	}
	return uncertainty.TruncatedNormal{Mean: 1, SD: sd, Low: 0, High: math.Inf(1)}
}

// Inputs lists what is taken as uncertain of a plan: lots first, then the
// house, the readings, water and yeast, and the formulas.
func Inputs(p *plan.Plan) ([]Input, error) {
	d, err := p.Brewday()
	if err != nil {
		return nil, err
	}
	l := &list{day: d, plan: p}
	l.malts()
	l.hops()
	l.house()
	l.readings()
	l.water()
	l.formulas()
	l.gas()
	return l.inputs, nil
}
