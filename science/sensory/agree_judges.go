// SPDX-License-Identifier: MIT

package sensory

import "slices"

// Opinion is what a judge thinks of one attribute of a beer.
type Opinion int

// The opinions a score sheet can hold.
const (
	TooLittle Opinion = iota - 1
	Right
	TooMuch
)

// Accord is how the opinions of several judges on one attribute go together.
type Accord int

// The ways opinions go together.
const (
	Silent   Accord = iota // nobody said anything
	OneVoice               // one judge only
	Agreed                 // all say the same
	Mixed                  // some say right, others all miss it to the same side
	Conflict               // some say too much, some too little
)

// String returns the accord as a word.
func (a Accord) String() string {
	return [...]string{"silent", "one voice", "agreed", "mixed", "conflict"}[a]
}

// AccordOf compares what judges say about one attribute. A conflict stays open:
// the mean of "too much" and "too little" isn't "right".
func AccordOf(opinions []Opinion) Accord {
	much, little := slices.Contains(opinions, TooMuch), slices.Contains(opinions, TooLittle)
	switch {
	case len(opinions) == 0:
		return Silent
	case len(opinions) == 1:
		return OneVoice
	case much && little:
		return Conflict
	case (much || little) && slices.Contains(opinions, Right):
		return Mixed
	}
	return Agreed
}

// AccordOfLevels compares how much judges find of one attribute, on a scale from
// 0 (none) to 5 (high). A word for how much stands for half a level to either
// side: levels that lie two words apart don't touch, and contradict each other.
func AccordOfLevels(levels []float64) Accord {
	switch spread, _ := Spread(levels, 0); {
	case len(levels) == 0:
		return Silent
	case len(levels) == 1:
		return OneVoice
	case spread >= 2:
		return Conflict
	case spread >= 1:
		return Mixed
	}
	return Agreed
}

// UsualSpread is how far apart the total scores of judges of one beer may lie by
// a wide-spread custom before they talk about it, of 50 points.
const UsualSpread = 7

// Spread returns how far apart total scores lie, and whether that is within the
// allowed spread.
func Spread(totals []float64, allowed float64) (spread float64, within bool) {
	if len(totals) == 0 {
		return 0, true
	}
	spread = slices.Max(totals) - slices.Min(totals)
	return spread, spread <= allowed
}
