// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// Caveat is a reason to doubt a figure of [Convert].
type Caveat int

// The caveats of the conversion model. It never knows of limit dextrinase nor
// of the effect of pH.
const (
	TooCold      Caveat = iota // a rest below 55 °C: outside the model; stands for little alone
	SlowGelatin                // no rest reaches 57 °C: gelatinisation is over-predicted
	TooHot                     // a rest above 80 °C
	TooShort                   // less than 10 min in all
	TooLong                    // more than 120 min in all
	TooThick                   // below 2.5 L/kg
	TooThin                    // above 5 L/kg
	WithAdjuncts               // grain without amylases in the grist
)

// The ranges in which the conversion model is worth something. Tag: estimate.
var (
	ConvertTemperatures = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(55), High: quantity.Celsius(80)}
	ConvertDurations    = quantity.Span[quantity.Duration]{Low: 10, High: 120}
	ConvertRatios       = quantity.Span[quantity.Ratio]{Low: 2.5, High: 5}
)

// slowGelatin is the temperature below which the model gelatinises too fast.
var slowGelatin = quantity.Celsius(57)

// Caveats returns what to doubt in the conversion of a mash.
func Caveats(rests []Rest, ratio quantity.Ratio, adjuncts bool) []Caveat {
	var total quantity.Duration
	low, high := ConvertTemperatures.High, quantity.Kelvin(0)
	for _, rest := range rests {
		total += rest.Duration
		for _, t := range []quantity.Temperature{rest.at(0), rest.at(1)} {
			if t.Below(low) {
				low = t
			}
			if high.Below(t) {
				high = t
			}
		}
	}
	var caveats []Caveat
	for _, c := range []struct {
		caveat Caveat
		holds  bool
	}{
		{TooCold, low.Below(ConvertTemperatures.Low)},
		{SlowGelatin, high.Below(slowGelatin)},
		{TooHot, ConvertTemperatures.High.Below(high)},
		{TooShort, total < ConvertDurations.Low},
		{TooLong, total > ConvertDurations.High},
		{TooThick, ratio < ConvertRatios.Low},
		{TooThin, ratio > ConvertRatios.High},
		{WithAdjuncts, adjuncts},
	} {
		if c.holds {
			caveats = append(caveats, c.caveat)
		}
	}
	return caveats
}

// LimitSpread returns the standard deviation to expect of an apparent limit
// attenuation from [Convert]: 3 points if all rests lie between 62 and 68 °C,
// else 6. Tag: estimate.
func LimitSpread(rests []Rest) quantity.Fraction {
	for _, rest := range rests {
		for _, t := range []quantity.Temperature{rest.at(0), rest.at(1)} {
			if t.Below(quantity.Celsius(62)) || quantity.Celsius(68).Below(t) {
				return 0.06
			}
		}
	}
	return 0.03
}
