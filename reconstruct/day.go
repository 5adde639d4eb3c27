// SPDX-License-Identifier: MIT

package reconstruct

import "gyle/quantity"

// A Day is what a log says of the hot side of a brew, sorted into what went in,
// the wort at some moments, and what happened in between.
type Day struct {
	reader quantity.Printer // of the sentences about it

	// Grist is the malt in the mash as weighed, and what a laboratory says of it.
	Grist []Malt
	// Liquor is all water that went through the mash.
	Liquor []Reading
	// Points are the moments at which the wort is known, in order: the full
	// kettle first, knock-out and the fermenter as a rule.
	Points []Point
	// Steps lead from one point to the next: Steps[i] to Points[i+1].
	Steps []Step
	// Known is what is known of the house before this brew.
	Known Constants
}

// A Malt is one malt of the mash.
type Malt struct {
	Name    string
	Mass    Reading
	Extract quantity.Fraction // by the laboratory, as is
}

// A Point is the wort at one moment.
type Point struct {
	Name      string // "full kettle", "knock-out", "fermenter"
	Volumes   []Reading
	Gravities []Reading
	// Hot is how hot the wort is then; unset: cold.
	Hot quantity.Temperature
	// Layered says that it may not be mixed: run-off and sparge lie over one
	// another before the boil stirs them.
	Layered bool
}

// A Step is what happens to the wort between two points. Each part is known
// beforehand only with a standard deviation, and the balances make it better.
type Step struct {
	Evaporated quantity.Estimate // kg
	Lost       quantity.Estimate // L of wort left behind at 20 °C
	Water      []Reading         // added
	Extract    []Malt            // sugar or malt extract dissolved in it
}

// Constants are what is known of a house before a brew. SD is one standard
// deviation; a value without SD gets the usual one of [Usual].
type Constants struct {
	Yield      quantity.Estimate // extract in the full kettle over extract by the laboratory
	Absorption quantity.Estimate // L of water kept per kg of grist
	Dead       quantity.Estimate // L of wort that can't be drained from the mash
	// Evaporation in kg/h and the wort left in the kettle in L are of use when a
	// log is sorted into a day; without SD those of the plan stand in.
	Evaporation, Loss quantity.Estimate
}

// Usual is what is known of any house: the standard deviations stand in where
// a house has none of its own. All are estimates.
var Usual = Constants{
	Yield:      quantity.Estimate{Value: 0.75, SD: 0.06},
	Absorption: quantity.Estimate{Value: 0.8, SD: 0.06},
	Dead:       quantity.Estimate{Value: 0, SD: 0.2},
}

// withUsual fills in what is missing.
func (c Constants) withUsual() Constants {
	fill := func(e *quantity.Estimate, usual quantity.Estimate) {
		if e.Value == 0 && e.SD == 0 {
			*e = usual
		}
		if e.SD <= 0 {
			e.SD = usual.SD
		}
	}
	fill(&c.Yield, Usual.Yield)
	fill(&c.Absorption, Usual.Absorption)
	fill(&c.Dead, Usual.Dead)
	return c
}

// labExtractSpread is how far the extract of a sack may be from its analysis,
// relative. Estimate: two points of moisture cost as much.
const labExtractSpread = 0.01
