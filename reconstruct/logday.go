// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"

	"gyle/gyle"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
	"gyle/science/mash"
)

// The usual scatter of what a plan expects. All are estimates.
const (
	evaporationSpread = 0.10 // relative, of a boil as planned
	lossSpread        = 0.15 // relative, of the wort left in the kettle
	lossLeast         = 0.3  // L
)

// day sorts the log into what the balances need.
func (l *logbook) day(planned Facts) Day {
	d := Day{Known: l.known(planned), reader: l.in.Reader}
	d.Grist = l.grist(planned)
	d.Liquor = l.liquor(planned)
	l.points(&d)
	l.steps(&d, planned)
	return d
}

// liquor lists the water that went through the mash. What wasn't logged is
// taken as planned, roughly.
func (l *logbook) liquor(planned Facts) []Reading {
	asPlanned := Instrument{Name: "as planned", Relative: 0.05} // estimate: nobody looked
	meant := []quantity.Volume{planned.Liquor, 0}
	if p := l.in.Gyle.Plan; p != nil {
		meant = []quantity.Volume{p.Liquor.Mash + p.Liquor.Infused, p.Liquor.Sparge}
	}
	var out []Reading
	for i, do := range []gyle.Do{gyle.LiquorIn, gyle.Sparged} {
		logged := 0
		hot := l.liquorHeat(do)
		for _, e := range l.deeds[do] {
			if v := e.Deed.Volume; v != nil {
				logged++
				out = append(out, Reading{Entry: string(e.ID), Kind: Litres, Value: float64(v.Volume), At: v.At, Instrument: FlowMeter, Hot: hot})
			}
		}
		if logged == 0 && meant[i] > 0 {
			out = append(out, Reading{Kind: Litres, Value: float64(meant[i]), Instrument: asPlanned})
			l.note("no %s was logged: taken as planned", []string{"mash liquor", "sparge"}[i])
		}
	}
	return out
}

// liquorHeat is how hot the liquor was when it was used.
func (l *logbook) liquorHeat(do gyle.Do) quantity.Temperature {
	p := l.in.Gyle.Plan
	switch {
	case p == nil:
		return quantity.Temperature{}
	case do == gyle.Sparged:
		return p.Liquor.SpargeAt
	}
	return p.Liquor.Strike
}

// known is what is known of the house before this brew.
func (l *logbook) known(planned Facts) Constants {
	known := l.in.Known
	p := l.in.Gyle.Plan
	if p == nil {
		return known
	}
	if known.Yield.SD == 0 {
		known.Yield = quantity.Estimate{Value: float64(p.Yield.Value), SD: float64(p.Yield.SD)}
	}
	if known.Absorption.SD == 0 {
		known.Absorption = quantity.Estimate{Value: float64(p.Yield.Absorption), SD: 0.05 * float64(p.Yield.Absorption)}
	}
	if known.Dead.SD == 0 {
		known.Dead = quantity.Estimate{Value: float64(p.Yield.Dead), SD: 0.1 + 0.1*float64(p.Yield.Dead)}
	}
	return known
}

// grist lists the malts that went into the mash. What the plan doesn't know is
// taken as the mean of the rest.
func (l *logbook) grist(planned Facts) []Malt {
	var out []Malt
	for _, e := range l.deeds[gyle.GrainIn] {
		if e.Deed.Mass == nil {
			continue
		}
		extract := l.extractOf(e.Deed.What, e.Deed.Lot)
		if extract <= 0 && planned.Grist > 0 {
			extract = quantity.Fraction(planned.Lab / planned.Grist)
			l.note("the extract of %s isn't in the plan: taken as the mean of the grist", e.Deed.What)
		}
		if extract <= 0 {
			extract = usualMaltExtract
			l.note("the extract of %s isn't known: taken as %.0f %%", e.Deed.What, extract.Percent())
		}
		out = append(out, Malt{Name: e.Deed.What, Extract: extract,
			Mass: Reading{Entry: string(e.ID), Kind: Kilos, Value: float64(*e.Deed.Mass)}})
	}
	if len(out) == 0 && l.in.Gyle.Plan != nil {
		for _, g := range l.in.Gyle.Plan.Grist {
			if way, ok := wayOf(g.In); ok && way.Way != recipe.InKettle {
				out = append(out, Malt{Name: g.Malt, Extract: g.Extract, Mass: Reading{Kind: Kilos, Value: float64(g.Mass)}})
			}
		}
		l.note("no grain was logged: taken as planned")
	}
	return out
}

// usualMaltExtract is the extract of pale malt as it lies in the sack. Common
// practice.
const usualMaltExtract quantity.Fraction = 0.77

// extractOf returns what the plan says of the extract of a lot, with what the
// way it comes in takes away.
func (l *logbook) extractOf(malt, lot string) quantity.Fraction {
	if l.in.Gyle.Plan == nil {
		return 0
	}
	found := quantity.Fraction(0)
	for _, g := range l.in.Gyle.Plan.Grist {
		if g.Malt != malt || found > 0 && g.Lot != lot {
			continue
		}
		found = g.Extract
		if way, ok := wayOf(g.In); ok && way.Way == recipe.ColdSteep {
			found *= mash.ExtractYield(mash.ColdSteep)
		}
	}
	return found
}

// wayOf reads when a grain comes in.
func wayOf(in string) (recipe.Entry, bool) {
	var e recipe.Entry
	if in == "" {
		return e, true
	}
	err := e.UnmarshalText([]byte(in))
	return e, err == nil
}

// wortPlaces are the points of the wort in order, and how hot it usually is.
var wortPlaces = []struct {
	at  gyle.Place
	hot quantity.Temperature
}{
	{gyle.AtFullKettle, quantity.Celsius(95)},
	{gyle.AtKnockOut, quantity.Celsius(98)},
	{gyle.AtFermenter, quantity.Temperature{}},
}

// points gathers the readings of the wort. Readings that repeat one another
// many times are thinned out: a hundred readings of one kettle are no hundred
// independent ones.
func (l *logbook) points(d *Day) {
	read := 0
	for _, place := range wortPlaces {
		p := Point{Name: string(place.at), Hot: place.hot, Layered: place.at == gyle.AtFullKettle}
		for _, m := range l.readings {
			if m.at != place.at || place.at == gyle.AtFermenter && !l.beforePitch(m) {
				continue
			}
			switch m.Of {
			case gyle.OfVolume:
				p.Volumes = append(p.Volumes, l.reading(m))
			case gyle.OfGravity, gyle.OfRefractometer:
				p.Gravities = append(p.Gravities, l.reading(m))
			}
		}
		p.Volumes, p.Gravities = thin(p.Volumes), thin(p.Gravities)
		read += len(p.Volumes) + len(p.Gravities)
		// The kettle was there even if nobody looked.
		if len(p.Volumes)+len(p.Gravities) > 0 || !place.hot.IsZero() {
			d.Points = append(d.Points, p)
		}
	}
	if read == 0 {
		d.Points = nil
	}
}

// most is how many readings of one thing are kept.
const most = 4

// thin keeps some of many readings, evenly spread.
func thin(r []Reading) []Reading {
	if len(r) <= most {
		return r
	}
	var out []Reading
	for i := range most {
		out = append(out, r[i*(len(r)-1)/(most-1)])
	}
	return out
}

// beforePitch reports whether a reading of the fermenter is of unfermented
// wort: not long after the yeast went in.
func (l *logbook) beforePitch(m measured) bool {
	const soon = 120 // min; nothing ferments in the first two hours
	pitched, ok := l.when(gyle.Pitched)
	if !ok {
		pitched, ok = l.when(gyle.Transfer)
	}
	return !ok || m.entry.When().Since(pitched) <= soon
}

// steps says what happened between the points.
func (l *logbook) steps(d *Day, planned Facts) {
	for i := 1; i < len(d.Points); i++ {
		step := Step{}
		if d.Points[i-1].Hot != (quantity.Temperature{}) && d.Points[i-1].Name == string(gyle.AtFullKettle) {
			step.Evaporated = l.evaporated(planned)
			l.additions(&step)
		}
		if d.Points[i].Hot.IsZero() {
			loss := float64(planned.KettleLoss)
			step.Lost = quantity.Estimate{Value: loss, SD: math.Max(lossLeast, lossSpread*loss)}
			if l.in.Known.Loss.SD > 0 {
				step.Lost = l.in.Known.Loss
			}
			l.waterIn(&step, true)
		}
		d.Steps = append(d.Steps, step)
	}
}

// evaporated is what boiled off, by a measured evaporation or by the plan's.
func (l *logbook) evaporated(planned Facts) quantity.Estimate {
	boiled := planned.clone()
	l.boiled(&boiled, planned)
	hours := boiled.boilTime().Hours()
	perHour := float64(planned.PerHour)
	if m := l.of(gyle.OfEvaporation, gyle.AtBoil); len(m) > 0 {
		perHour = m[len(m)-1].Value
	}
	if known := l.in.Known.Evaporation; known.SD > 0 && len(l.of(gyle.OfEvaporation, gyle.AtBoil)) == 0 {
		return quantity.Estimate{Value: known.Value * hours, SD: known.SD * hours}
	}
	if perHour <= 0 {
		perHour = usualEvaporation
		l.note("neither plan nor log knows the evaporation: taken as %.1f kg/h", perHour)
		return quantity.Estimate{Value: perHour * hours, SD: perHour * hours / 2}
	}
	return quantity.Estimate{Value: perHour * hours, SD: math.Max(evaporationSpread*perHour*hours, 0.05)}
}

// usualEvaporation is that of a small open kettle in kg/h. Common practice: 2 to 4.
const usualEvaporation = 2.5

// boilTime is how long the wort boiled.
func (l *logbook) boilTime(planned Facts) quantity.Duration {
	start, ok := l.when(gyle.BoilStart)
	end, over := l.when(gyle.KnockOut)
	if ok && over && end.Since(start) > 0 {
		return end.Since(start)
	}
	return planned.boilTime()
}

// additions are water and extract that went into the kettle.
func (l *logbook) additions(step *Step) {
	l.waterIn(step, false)
	for _, e := range l.deeds[gyle.ExtractIn] {
		if e.Deed.Mass == nil {
			continue
		}
		share := l.extractOf(e.Deed.What, e.Deed.Lot)
		if share <= 0 {
			share = usualExtract
			l.note("the extract in %s isn't in the plan: taken as %.0f %%", e.Deed.What, share.Percent())
		}
		step.Extract = append(step.Extract, Malt{Name: e.Deed.What, Extract: share,
			Mass: Reading{Entry: string(e.ID), Kind: Kilos, Value: float64(*e.Deed.Mass)}})
	}
	for _, e := range l.deeds[gyle.WortAway] {
		if e.Deed.Volume != nil {
			step.Lost.Value += float64(gravity.VolumeAt20(*e.Deed.Volume))
			step.Lost.SD = math.Hypot(step.Lost.SD, Dipstick.SD(step.Lost.Value))
		}
	}
}

// usualExtract is the extract of dry malt extract. Common practice.
const usualExtract quantity.Fraction = 0.95

// waterIn gathers the water that went into the fermenter, or into the kettle.
func (l *logbook) waterIn(step *Step, fermenter bool) {
	for _, e := range l.deeds[gyle.WaterIn] {
		if e.Deed.Volume != nil && (e.Deed.Place == gyle.AtFermenter) == fermenter {
			step.Water = append(step.Water, Reading{Entry: string(e.ID), Kind: Litres, Value: float64(e.Deed.Volume.Volume), At: e.Deed.Volume.At, Instrument: Jug})
		}
	}
}
