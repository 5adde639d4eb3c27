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

// PlanOf says what a panel of so many tasters can find in a flight; false for
// kinds without right and wrong answers.
func PlanOf(f *tasting.Flight, tasters int, pr quantity.Printer) (Plan, bool) {
	return planOf(f, tasters, words{pr})
}

func planOf(f *tasting.Flight, tasters int, w words) (plan Plan, ok bool) {
	protocol, ok := protocolOf(f)
	if !ok || tasters < 1 {
		return plan, false
	}
	d := sensory.Design{Protocol: protocol, Alpha: alphaOf(f)}
	plan = Plan{Tasters: tasters, Alpha: d.Alpha, Actual: d.Size(tasters), Needed: d.Critical(tasters), Peak: d.Peak(tasters)}
	aim, power := aimOf(f, protocol)
	for _, share := range []float64{usualShare, smallShare} {
		if share != aim {
			plan.Powers = append(plan.Powers, Power{Share: share, Power: d.Power(tasters, protocol.AtShare(share))})
		}
	}
	plan.Powers = append([]Power{{Share: aim, Power: d.Power(tasters, protocol.AtShare(aim)), Aim: true}}, plan.Powers...)
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
	if p.Needed > p.Tasters {
		return fmt.Sprintf("%d tasters can't show anything at %s: even if all agree, chance would do that too often.", p.Tasters, w.percent(p.Alpha))
	}
	text := fmt.Sprintf("%d tasters: %d %s are needed.", p.Tasters, p.Needed, what)
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
