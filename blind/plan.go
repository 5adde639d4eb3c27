// SPDX-License-Identifier: MIT

package blind

import (
	"fmt"

	"gyle/quantity"
	"gyle/science/sensory"
	"gyle/tasting"
)

// Plan is what a panel of a size can find, known before the first glass.
type Plan struct {
	Tasters int     `json:"tasters"`
	Alpha   float64 `json:"alpha"`
	Actual  float64 `json:"actual"` // the true risk of a false alarm, at most alpha
	Needed  int     `json:"needed"` // right answers that show a difference; more than the tasters if none do
	Powers  []Power `json:"powers"`
	First   int     `json:"first,omitempty"`  // smallest panel for the aim
	Stable  int     `json:"stable,omitempty"` // from here on every panel does
	Peak    bool    `json:"peak"`             // a good size: one taster more would need one right answer more
	Says    string  `json:"says"`

	answers int
}

// Power is the chance to find a difference that a share of tasters can tell.
type Power struct {
	Share float64 `json:"share"`
	Power float64 `json:"power"`
	Aim   bool    `json:"aim,omitempty"` // it is what the panel was asked to find
}

// usualAlpha is the risk that is taken when a document names none; usualPower
// and usualShare are the aim (common practice).
const (
	usualAlpha = 0.05
	usualPower = 0.8
	usualShare = 0.5
	smallShare = 0.3
)

// protocolOf is the kind of a flight as the chances know it.
func protocolOf(f *tasting.Flight) (sensory.Protocol, bool) {
	switch f.Kind {
	case tasting.TwoAFC:
		if f.Sides == "two" || len(f.Expect) == 0 {
			return sensory.TwoAFCEither, true
		}
		return sensory.TwoAFC, true
	case tasting.Triangle, tasting.DuoTrio, tasting.Tetrad, tasting.Preference:
		return sensory.Protocol(f.Kind), true
	case tasting.ThreeAFC:
		return sensory.ThreeAFC, true
	}
	return "", false
}

func alphaOf(f *tasting.Flight) float64 {
	if f.Alpha == 0 {
		return usualAlpha
	}
	return float64(f.Alpha)
}

// Size is the size of a panel and of what each taster gets.
type Size struct {
	Tasters int
	Sets    int // of each taster; 0 is 1
	Beers   int // of the flight; 0 is 2
	Glasses int // of each set: of a ranking, or of A or not A; 0 is all beers, or 4
	Stages  int // sets before a look; 0: one stage
}

// sizeOf is the size of the panel that a flight was planned for.
func sizeOf(t *tasting.Tasting, f *tasting.Flight) Size {
	s := Size{Tasters: len(tastersOf(f)), Beers: len(t.Letters(f))}
	for _, set := range f.Serving {
		s.Sets, s.Glasses = max(s.Sets, set.Set), max(s.Glasses, len(set.Codes))
	}
	if f.Look != nil {
		s.Stages = f.Look.After
	}
	return s
}

// PlanOf says what a panel can find in a flight; false where nothing can be
// told beforehand.
func PlanOf(f *tasting.Flight, size Size, pr quantity.Printer) (Plan, bool) {
	return planOf(f, size, words{pr})
}

func planOf(f *tasting.Flight, size Size, w words) (plan Plan, ok bool) {
	if size.Tasters < 1 {
		return plan, false
	}
	protocol, ok := protocolOf(f)
	switch {
	case f.Kind == tasting.Ranking:
		return planRanking(f, size, w), true
	case f.Kind == tasting.ANotA:
		return planRecognition(f, size, w), true
	case !ok:
		return plan, false
	case f.Look != nil:
		return planStages(f, protocol, size, w), true
	}
	answers := size.Tasters * max(1, size.Sets)
	if protocol == sensory.Preference {
		answers = size.Tasters // each has one voice
	}
	d := sensory.Design{Protocol: protocol, Alpha: alphaOf(f)}
	plan = Plan{Tasters: size.Tasters, Alpha: d.Alpha, Actual: d.Size(answers), Needed: d.Critical(answers), Peak: d.Peak(answers), answers: answers}
	aim, power := aimOf(f, protocol)
	chance := func(share float64) float64 {
		if answers == size.Tasters || protocol.TwoSided() {
			return d.Power(answers, protocol.AtShare(share))
		}
		return d.PowerRepeated(size.Tasters, size.Sets, share)
	}
	for _, share := range []float64{usualShare, smallShare} {
		if share != aim {
			plan.Powers = append(plan.Powers, Power{Share: share, Power: chance(share)})
		}
	}
	plan.Powers = append([]Power{{Share: aim, Power: chance(aim), Aim: true}}, plan.Powers...)
	if size, found := d.PanelSize(power, protocol.AtShare(aim)); found {
		plan.First, plan.Stable = size.First, size.Stable
	}
	plan.Says = plan.words(protocol, power, w)
	return plan, true
}

// aimOf is the share of tasters that the panel shall find, and how surely.
func aimOf(f *tasting.Flight, protocol sensory.Protocol) (share, power float64) {
	share, power = usualShare, usualPower
	if f.Aim == nil {
		return share, power
	}
	switch {
	case f.Aim.Share > 0:
		share = float64(f.Aim.Share)
	case f.Aim.DPrime > 0:
		share = protocol.Share(protocol.ProportionCorrect(f.Aim.DPrime))
	}
	if f.Aim.Power > 0 {
		power = float64(f.Aim.Power)
	}
	return share, power
}

func (p Plan) words(protocol sensory.Protocol, power float64, w words) string {
	what, who := "right answers", "can tell"
	if protocol.TwoSided() {
		what, who = "voices for one beer", "lean to one side beyond chance"
	}
	if p.Needed > p.answers {
		return fmt.Sprintf("%d tasters can't show anything at %s: even if all agree, chance would do that too often.", p.Tasters, w.percent(p.Alpha))
	}
	text := fmt.Sprintf("%d tasters: %d %s are needed.", p.Tasters, p.Needed, what)
	if p.answers > p.Tasters {
		text = fmt.Sprintf("%d answers of %d tasters: %d %s are needed; answers of one taster are no further tasters.", p.answers, p.Tasters, p.Needed, what)
	}
	for i, one := range p.Powers {
		join := ","
		if i == 0 {
			join = " If"
		} else {
			join = "; if"
		}
		text += fmt.Sprintf("%s %s of the tasters %s, this is found in %s of such evenings", join, w.percent(one.Share), who, w.percent(one.Power))
	}
	text += "."
	if p.First > 0 && p.Powers[0].Power < power {
		text += fmt.Sprintf(" For %s take %d tasters", w.percent(power), p.First)
		if p.Stable > p.First {
			text += fmt.Sprintf(" (or %d and more)", p.Stable)
		}
		text += "."
	}
	return text
}
