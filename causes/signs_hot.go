// SPDX-License-Identifier: MIT

package causes

import (
	"fmt"
	"math"
	"strings"

	"gyle/data"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/reconstruct"
)

// Where the hot side begins to be suspected. All are common practice.
const (
	darkFrom      = quantity.EBC(400)
	phHigh, phLow = 5.6, 5.3
	spargeHottest = 78   // °C
	spargeOver    = 1.03 // of the plan
	boilLost      = 5    // min
	steamLost     = 0.9  // of the plan
	coolingLost   = 10   // min
	mashOff       = 1.0  // K
	gravityOff    = 0.002
	bitterOff     = 0.1 // of the plan
	sulphateMost  = 150 // mg/L
	alkalineMost  = 2   // mEq/L of residual alkalinity
	strongWort    = 1.065
)

// darkGrain lists the dark grain with its moment, and the pH of the mash with it.
func (r *reader) darkGrain() Sign {
	var found []string
	var entries []gyle.Entry
	last := gyle.Time{}
	for _, e := range r.deeds(gyle.GrainIn) {
		color, moment := r.grainColor(e.Deed)
		if color < darkFrom {
			continue
		}
		text := e.Deed.What
		if e.Deed.Mass != nil {
			text = r.pr.Mass(*e.Deed.Mass) + " of " + text
		}
		text += " at " + r.clock(e.When())
		if moment != "" {
			text += " (" + moment + ")"
		}
		found, entries, last = append(found, text), append(entries, e), e.When()
	}
	if len(found) == 0 {
		if len(r.deeds(gyle.GrainIn)) == 0 {
			return r.darkPlanned()
		}
		return against("no grain above " + r.pr.EBC(darkFrom) + " went in")
	}
	text := strings.Join(found, ", ")
	for _, x := range r.readings(gyle.OfPH, gyle.AtMash) {
		if x.when.After(last.Time) {
			return shows(text+fmt.Sprintf("; mash pH %s afterwards", r.pr.Number(x.value, 2)), append(entries, x.entry)...)
		}
	}
	return shows(text+"; no mash pH was read after it", entries...)
}

// grainColor is the colour of a grain, and the moment it was meant for.
func (r *reader) grainColor(d *gyle.Deed) (color quantity.EBC, moment string) {
	if r.plan != nil {
		for _, g := range r.plan.Grist {
			if g.Malt == d.What {
				color, moment = g.Color, g.In
			}
		}
	}
	if malt, known := data.Malt(d.What); color == 0 && known {
		color = quantity.EBC(malt.ColourEBC.Mid())
	}
	if d.Moment != "" {
		moment = d.Moment
	}
	return color, moment
}

// darkPlanned looks in the plan where no grain stands in the log.
func (r *reader) darkPlanned() Sign {
	if r.plan == nil {
		return silent("no grain is logged")
	}
	var found []string
	for _, g := range r.plan.Grist {
		if g.Color >= darkFrom {
			text := r.pr.Mass(g.Mass) + " of " + g.Malt
			if g.In != "" {
				text += " (" + g.In + ")"
			}
			found = append(found, text)
		}
	}
	if len(found) == 0 {
		return against("the plan has no grain above " + r.pr.EBC(darkFrom))
	}
	return shows(strings.Join(found, ", ") + " in the plan; no grain is logged")
}

// mashPH is the last pH of the mash.
func (r *reader) mashPH(judge func(ph float64) bool) Sign {
	list := r.readings(gyle.OfPH, gyle.AtMash)
	if len(list) == 0 {
		return silent("no mash pH is logged")
	}
	x := list[len(list)-1]
	return decide(judge(x.value), fmt.Sprintf("mash pH %s at %s", r.pr.Number(x.value, 2), r.clock(x.when)), x.entry)
}

func (r *reader) mashPHHigh() Sign { return r.mashPH(func(ph float64) bool { return ph > phHigh }) }
func (r *reader) mashPHLow() Sign  { return r.mashPH(func(ph float64) bool { return ph < phLow }) }

func (r *reader) spargeHot() Sign {
	var hottest gyle.Entry
	for _, e := range r.deeds(gyle.Sparged) {
		if hottest.Deed == nil || hottest.Deed.Temperature.Below(e.Deed.Temperature) {
			hottest = e
		}
	}
	if hottest.Deed == nil || hottest.Deed.Temperature.IsZero() {
		return silent("no temperature of the sparge is logged")
	}
	t := hottest.Deed.Temperature
	return decide(t.Celsius() > spargeHottest, "sparge at "+r.pr.Temperature(t), hottest)
}

func (r *reader) spargeMuch() Sign {
	sum, list := quantity.Volume(0), r.deeds(gyle.Sparged)
	for _, e := range list {
		if e.Deed.Volume != nil {
			sum += e.Deed.Volume.Volume
		}
	}
	if r.plan == nil || sum == 0 {
		return silent("the log has no volume of the sparge beside a plan")
	}
	text := fmt.Sprintf("%s of sparge instead of %s", r.pr.Volume(sum), r.pr.Volume(r.plan.Liquor.Sparge))
	return decide(sum > r.plan.Liquor.Sparge*spargeOver, text, list...)
}

// mashTemperature compares the mean of what was read in the mash with the plan's
// first rest.
func (r *reader) mashTemperature(side float64) Sign {
	list := r.readings(gyle.OfTemperature, gyle.AtMash)
	if len(list) == 0 || r.plan == nil || len(r.plan.Steps) == 0 || len(r.plan.Steps) > 1 && r.plan.Steps[1].What == "rest" {
		return silent("no mash temperature is logged beside a single rest")
	}
	sum := 0.0
	for _, x := range list {
		sum += x.value
	}
	mean, planned := sum/float64(len(list)), r.plan.Steps[0].Temperature
	text := fmt.Sprintf("mash at %s by %d readings, %s planned", r.celsius(mean), len(list), r.pr.Temperature(planned))
	return decide(side*(mean-planned.Celsius()) > mashOff, text, list[0].entry)
}

// boiling counts the minutes at the boil.
func boiling(f reconstruct.Facts) (minutes float64) {
	for _, leg := range f.Boil {
		if leg.Boils {
			minutes += leg.Time.Minutes()
		}
	}
	return minutes
}

// boilShort compares time and steam of the boil with the plan.
func (r *reader) boilShort() Sign {
	if r.Made == nil || r.plan == nil {
		return silent("the boil can’t be reconstructed from this log")
	}
	var entries []gyle.Entry
	for _, e := range r.standing {
		if e.Interruption != nil || e.Deed != nil && (e.Deed.Do == gyle.BoilStart || e.Deed.Do == gyle.KnockOut) {
			entries = append(entries, e)
		}
	}
	planned, brewed := boiling(r.Made.Planned), boiling(r.Made.Brewed)
	steam := float64(r.Made.Brewed.PerHour / r.Made.Planned.PerHour)
	text := fmt.Sprintf("it boiled %s min", r.pr.Number(brewed, 0))
	if lost := planned - brewed; lost >= 1 {
		text += fmt.Sprintf(" instead of %s: the boil lost %s min", r.pr.Number(planned, 0), r.pr.Number(lost, 0))
	} else {
		text += fmt.Sprintf(", %s planned", r.pr.Number(planned, 0))
	}
	if r.Made.Planned.PerHour > 0 {
		text += fmt.Sprintf("; %s kg/h boiled off, %s planned", r.pr.Number(float64(r.Made.Brewed.PerHour), 2), r.pr.Number(float64(r.Made.Planned.PerHour), 2))
	}
	return decide(planned-brewed >= boilLost || r.Made.Planned.PerHour > 0 && steam < steamLost, text, entries...)
}

// dmsLight is what the reconstruction says of dimethyl sulphide.
func (r *reader) dmsLight() Sign {
	if r.Made == nil || r.Made.Brewed.DMS.High <= 0 {
		return silent("dimethyl sulphide can’t be worked out from this log")
	}
	d := r.Made.Beer.DMS
	text := fmt.Sprintf("the wort as brewed is worked out at %s to %s µg/L, light %s", r.pr.Number(float64(d.Mid), 0), r.pr.Number(float64(d.High), 0), d.Light)
	if was := r.Made.Plan.DMS.Light; was != "" && was != d.Light {
		text += ", " + was + " in the plan"
	}
	return decide(d.Light != "green", text)
}

// coolingSlow compares the time from knock-out to the fermenter with the plan's.
func (r *reader) coolingSlow() Sign {
	out, knocked := r.first(gyle.KnockOut)
	moved, transferred := r.first(gyle.Transfer)
	if !knocked || !transferred || r.plan == nil {
		return silent("no knock-out and transfer are logged beside a plan")
	}
	planned := 0.0
	for _, step := range r.plan.Path {
		if step.Name != "boil" && step.Name != "heat-up" {
			planned += step.Time.Minutes()
		}
	}
	took := moved.When().Since(out.When()).Minutes() + moved.Deed.Time.Minutes()
	text := fmt.Sprintf("%s min from knock-out into the fermenter, %s planned", r.pr.Number(took, 0), r.pr.Number(planned, 0))
	return decide(took-planned > coolingLost, text, out, moved)
}

func (r *reader) gravityHigh() Sign {
	og, known := r.original()
	if !known {
		return silent("no gravity of the wort is logged")
	}
	return decide(float64(og) > strongWort, "wort of "+r.pr.SG(og))
}

// original is the gravity of the wort at knock-out as brewed, else as planned.
func (r *reader) original() (quantity.SG, bool) {
	switch {
	case r.Made != nil && r.Made.Beer.KnockOut.SG > 1:
		return r.Made.Beer.KnockOut.SG, true
	case r.plan != nil && r.plan.Gravity.OG > 1:
		return r.plan.Gravity.OG, true
	}
	return 0, false
}

func (r *reader) gravityUnder() Sign {
	og, known := r.original()
	if !known || r.plan == nil || r.plan.Gravity.OG <= 1 {
		return silent("no gravity of the wort is logged beside a plan")
	}
	return decide(float64(r.plan.Gravity.OG-og) > gravityOff, "wort of "+r.pr.SG(og)+", "+r.pr.SG(r.plan.Gravity.OG)+" planned")
}

// bitterness compares what was brewed with what was planned.
func (r *reader) bitterness(side float64) Sign {
	if r.Made != nil {
		for _, c := range r.Made.Compared {
			if c.Figure == quantity.Bitterness && c.Planned > 0 {
				text := r.pr.FigureBand(c.Figure, c.Brewed) + " as brewed, " + r.pr.Figure(c.Figure, c.Planned) + " planned"
				return decide(side*(c.Brewed.Mid-c.Planned) > bitterOff*c.Planned, text)
			}
		}
	}
	return silent("the bitterness can’t be worked out from this log")
}

func (r *reader) sulphateHigh() Sign {
	so4, known := r.figure(quantity.Sulfate)
	if !known {
		return silent("the plan says nothing of sulphate")
	}
	return decide(so4 > sulphateMost, r.pr.Figure(quantity.Sulfate, so4)+" of sulphate in the plan’s liquor")
}

func (r *reader) alkaline() Sign {
	ra, known := r.figure(quantity.ResidualAlkalinity)
	if !known || math.IsNaN(ra) {
		return silent("the plan says nothing of alkalinity")
	}
	return decide(ra > alkalineMost, "residual alkalinity of the plan’s liquor "+r.pr.Figure(quantity.ResidualAlkalinity, ra))
}
