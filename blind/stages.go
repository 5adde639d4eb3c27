// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"

	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

// Look is what a plan in two stages found at its look.
type Look struct {
	After  int  `json:"after"` // sets of the first stage
	Right  int  `json:"right"` // or voices for the beer named more often
	Stop   int  `json:"stop"`
	Needed int  `json:"needed"` // at the end
	Early  bool `json:"early"`  // it ended there
}

// twoStage is the plan of a flight as the chances know it.
func twoStage(f *tasting.Flight, protocol sensory.Protocol) sensory.TwoStage {
	return sensory.TwoStage{Protocol: protocol, First: f.Look.After, Stop: f.Look.Stop, Total: len(f.Serving), Reject: f.Look.Needed}
}

// counted is how many answers of a flight are right, or for the first of its
// beers where either may be named; so many sets weren't answered.
func counted(f *tasting.Flight, protocol sensory.Protocol, first string) (right, missing int) {
	tally, _ := f.Tally()
	right = tally.Right
	if protocol.TwoSided() {
		right = tally.For[first]
	}
	return right, len(f.Serving) - tally.Answered
}

// against counts what wasn't answered against a difference: as wrong, or, where
// either beer may be named, so that the two come as near as they can.
func against(protocol sensory.Protocol, right, missing, of int) int {
	if !protocol.TwoSided() {
		return right
	}
	return min(max(right, of/2), right+missing)
}

// stages judges a choice by the plan in two stages that was fixed for it.
func (c *Choice) stages(f *tasting.Flight, protocol sensory.Protocol) {
	plan := twoStage(f, protocol)
	beer := ""
	if sorted := letters(f); len(sorted) > 0 {
		beer = sorted[0]
	}
	first, _ := f.Stages()
	look, early := counted(&first, protocol, beer)
	all, missing := counted(f, protocol, beer)
	look = against(protocol, look, early, plan.First)
	all = against(protocol, all, missing, plan.Total)
	c.P, c.Needed = plan.P(look, all), plan.Reject
	c.Look = &Look{After: plan.First, Right: look, Stop: plan.Stop, Needed: plan.Reject}
	if protocol.TwoSided() {
		c.Look.Right = max(look, plan.First-look)
	}
	c.Look.Early = c.Look.Right >= plan.Stop
	c.Outcome = string(sensory.NotConclusive)
	if plan.Shown(look, all) && c.P <= alphaOf(f) { // also where the panel isn’t the one that was planned for
		c.Outcome = string(sensory.Different)
	}
}

// lookSays tells what the look found, and what the plan as a whole risks.
func lookSays(f *tasting.Flight, l *Look, w words) string {
	text := fmt.Sprintf("Planned in two stages: after %d sets %d were counted, %d end it there; of all %d, %d are needed.", l.After, l.Right, l.Stop, len(f.Serving), l.Needed)
	protocol, _ := protocolOf(f)
	if f.Kind == tasting.Preference {
		protocol = sensory.Preference
	}
	_, risk := twoStage(f, protocol).Crossing(protocol.Guess())
	text += fmt.Sprintf(" The whole plan gives a false alarm in %s of evenings.", w.Fraction(quantity.Fraction(risk), 1))
	if l.Early {
		text += " It ended at the look; shares and distances that ended early look larger than they are."
	}
	return text
}

// AtLook says whether the first stage of a flight is answered, and whether it
// ends there, for who holds the key. Nothing else of the answers is told.
func AtLook(t *tasting.Tasting, f *tasting.Flight, key *tasting.Key) (says string, ready bool) {
	if f.Look == nil || key == nil {
		return "", false
	}
	protocol, ok := protocolOf(f)
	if !ok {
		return "", false
	}
	opened := *f
	opened.Key = &tasting.Key{Glasses: key.Glasses}
	first, _ := opened.Stages()
	if missing := len(first.Missing()); missing > 0 {
		return fmt.Sprintf("The look comes after the first %d sets; %d of them aren't answered yet.", f.Look.After, missing), false
	}
	right, missing := counted(&first, protocol, t.Letters(f)[0])
	plan := twoStage(f, protocol)
	right = against(protocol, right, missing, plan.First)
	if protocol.TwoSided() {
		right = max(right, plan.First-right)
	}
	if right >= plan.Stop {
		return "The first stage shows a difference: nothing more needs to be poured. Close the answers and open the key.", true
	}
	return "The first stage doesn't end it: pour the second stage.", true
}
