// SPDX-License-Identifier: MIT

package chance

import (
	"gyle/quantity"
	"gyle/science/uncertainty"
	"gyle/style"
)

// Outlook is what the beers of a plan may turn out to be.
type Outlook struct {
	Samples int    `json:"samples"`
	Seed    uint64 `json:"seed"`

	Figures []Band `json:"figures"` // of the plan, then the volumes
	// Together holds how figures go with one another, from −1 to 1: a row and a
	// column for each of Figures.
	Together [][]float64 `json:"together"`

	Style   string       `json:"style,omitempty"`
	Rules   []RuleChance `json:"rules,omitempty"`
	Limits  *Probability `json:"limits,omitempty"`  // all limits of the style at once; nil: it has none that can be judged
	AllFive *Probability `json:"allFive,omitempty"` // gravities, alcohol, bitterness and colour at once; nil: it limits none

	Inputs []Input `json:"inputs"`
	Cloud  Cloud   `json:"cloud"`

	kept *kept // the beers, where they were to be kept
}

// Probability is a chance with its own standard error from the number of
// samples.
type Probability = uncertainty.Probability

// The names of the volumes among the figures of an [Outlook].
const (
	Collected quantity.Figure = "collected"
	Packaged  quantity.Figure = "packaged"
)

// Band is what one figure may turn out to be.
type Band struct {
	Figure  quantity.Figure
	Name    string // of Figure
	Planned float64
	uncertainty.Summary

	// Blame lists the inputs by their share of the variance, largest first, as
	// far as they make a hundredth of it.
	Blame []Blame
	// Explained is the sum of all shares: what is missing to 1 is in bends of the
	// model and in inputs that act only together.
	Explained float64
}

// Blame is the part of one input in the variance of a figure.
type Blame struct {
	Input string  `json:"input"`
	Share float64 `json:"share"`
	Per   float64 `json:"per"` // change of the figure with one standard deviation of the input
}

// RuleChance is the chance that a beer turns out inside a rule.
type RuleChance struct {
	Rule int `json:"rule"`           // place among the rules of the style, from 0
	Part int `json:"part,omitempty"` // place among the parts of the rule, from 1
	// Figure is what the rule limits, where it limits a figure.
	Figure   quantity.Figure `json:"figure,omitempty"`
	Phrase   string          `json:"phrase"`
	Severity style.Severity  `json:"severity"`
	Inside   Probability     `json:"inside"`
	// Settled says that the rule is kept or broken when the grist is weighed and
	// the hops are timed; nothing that is uncertain here moves it.
	Settled bool `json:"settled,omitempty"`
}

// Cloud is what a map of original gravity and bitterness needs: the middle of
// the beers, their spread and how the two go together, and some of the beers.
type Cloud struct {
	X           quantity.Figure `json:"x"`
	Y           quantity.Figure `json:"y"`
	MeanX       float64         `json:"meanX"`
	MeanY       float64         `json:"meanY"`
	SDX         float64         `json:"sdX"`
	SDY         float64         `json:"sdY"`
	Correlation float64         `json:"correlation"`
	Points      [][2]float64    `json:"points"`
}

// Find returns the band of a figure.
func (o *Outlook) Find(f quantity.Figure) (Band, bool) {
	for _, b := range o.Figures {
		if b.Figure == f {
			return b, true
		}
	}
	return Band{}, false
}

// Correlation returns how far two figures go together, from −1 to 1.
func (o *Outlook) Correlation(a, b quantity.Figure) float64 {
	row, column := -1, -1
	for i, f := range o.Figures {
		if f.Figure == a {
			row = i
		}
		if f.Figure == b {
			column = i
		}
	}
	if row < 0 || column < 0 {
		return 0
	}
	return o.Together[row][column]
}
