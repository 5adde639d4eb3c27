// SPDX-License-Identifier: MIT

package reconstruct

import (
	"math"
	"slices"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/boil"
	"gyle/science/color"
	"gyle/science/hops"
	"gyle/science/mash"
)

// plannedFacts turns the snapshot of the plan into facts.
func (l *logbook) plannedFacts() Facts {
	f := Facts{reader: l.in.Reader}
	l.houseFacts(&f)
	p := l.in.Gyle.Plan
	if p == nil {
		l.note("the gyle has no plan: nothing can be compared")
		return f
	}
	for _, g := range p.Grist {
		way, _ := wayOf(g.In)
		extract := g.Extract
		entry := mash.FromStart
		switch way.Way {
		case recipe.InKettle:
			f.ExtractIn += g.Mass
			f.Extract += quantity.Mass(float64(g.Mass) * float64(extract))
			f.Lovibond += float64(g.Mass) * color.LovibondFromEBC(g.Color)
			continue
		case recipe.LateMash:
			entry = mash.Late
		case recipe.ColdSteep:
			entry = mash.ColdSteep
			extract *= mash.ExtractYield(mash.ColdSteep)
		}
		f.Grist += g.Mass
		f.Lab += quantity.Mass(float64(g.Mass) * float64(extract))
		f.Lovibond += float64(g.Mass) * color.LovibondFromEBC(g.Color) * float64(mash.ColorYield(entry))
		span := precursor(g)
		f.DMS.Low += boil.MicrogramsPerLitre(g.Mass) * span.Low
		f.DMS.High += boil.MicrogramsPerLitre(g.Mass) * span.High
	}
	if f.Grist > 0 {
		f.DMS.Low /= boil.MicrogramsPerLitre(f.Grist)
		f.DMS.High /= boil.MicrogramsPerLitre(f.Grist)
	}
	f.Liquor = p.Liquor.Mash + p.Liquor.Infused + p.Liquor.Sparge
	f.Absorption, f.Dead, f.Yield, f.MashPH = p.Yield.Absorption, p.Yield.Dead, p.Yield.Value, p.Mash.PH
	f.Boil = []Leg{{Name: "boil", From: p.Boil.Temperature, Time: p.Boil.Time, Boils: true}}
	f.PerHour = p.Boil.PerHour
	f.Cooling = l.plannedCooling(p)
	f.Charges = l.plannedCharges(p)
	f.KettleLoss = p.Volumes.KnockOut - p.Volumes.Collected
	f.FG = p.Gravity.FG
	return f
}

// precursor is what a malt brings of the precursor of DMS, as a plan has it.
func precursor(g gyle.Grain) quantity.Span[boil.MicrogramsPerLitre] {
	switch mash.ClassFor(g.Malt, "", g.Color) {
	case mash.Pilsner, mash.PaleTwoRow, mash.WheatPale:
		return boil.PilsnerPrecursor
	case mash.PaleAle, mash.Vienna, mash.Smoked, mash.BaseByColor:
		return boil.PalePrecursor
	case mash.RawBarley, mash.RawOats, mash.RawRye, mash.RawWheat, mash.RiceMaize, mash.Inert, mash.Extract:
		return quantity.Span[boil.MicrogramsPerLitre]{}
	}
	return boil.KilnedPrecursor
}

// houseFacts takes what only the house knows.
func (l *logbook) houseFacts(f *Facts) {
	if h := l.in.House; h != nil {
		f.Recovery, f.House = float64(h.Bitterness.R), h.Bitterness.K
	}
	if l.in.Factor.SD > 0 {
		f.House = l.in.Factor
	}
}

// room is the temperature around the kettle, and water that of the cooling
// water of the plan's way of cooling.
func (l *logbook) room() quantity.Temperature {
	if h := l.in.House; h != nil && !h.Kettle.Room.IsZero() {
		return h.Kettle.Room
	}
	return roomTemperature
}

func (l *logbook) water() quantity.Temperature {
	const usual = 12 // °C; common practice
	h, p := l.in.House, l.in.Gyle.Plan
	if h == nil || p == nil {
		return quantity.Celsius(usual)
	}
	i := slices.IndexFunc(h.Cooling, func(c brewhouse.Cooling) bool { return c.Name == p.Cooling })
	if i < 0 || h.Cooling[i].Water.IsZero() {
		return quantity.Celsius(usual)
	}
	return h.Cooling[i].Water
}

// plannedCooling turns the path of the plan after the boil into legs.
func (l *logbook) plannedCooling(p *gyle.Plan) []Leg {
	var out []Leg
	for i, s := range p.Path {
		if i == 0 && s.Name != "boil" || s.Name == "boil" {
			continue // the boil, and heating up to it
		}
		leg := l.between(s.Name, s.From, s.To, s.Time)
		leg.RunOff = s.Name == "run-off"
		out = append(out, leg)
	}
	return out
}

// between is the leg that leads from one temperature to another in a time:
// towards the cooling water while the wort is cooled, towards the room while it
// stands or runs off.
func (l *logbook) between(name string, from, to quantity.Temperature, time quantity.Duration) Leg {
	toward := l.water()
	if name == "stand" || name == "rest" || name == "run-off" {
		toward = l.room()
	}
	leg := Leg{Name: name, To: to, Time: time}
	if to.Below(from) && toward.Below(to) && time > 0 {
		gap := float64(from.Sub(toward)) / float64(to.Sub(toward))
		leg.Tau, leg.Toward = quantity.Duration(time.Minutes()/math.Log(gap)), toward
	}
	return leg
}

// plannedCharges turns the hops of the plan into charges.
func (l *logbook) plannedCharges(p *gyle.Plan) []Charge {
	var out []Charge
	for _, h := range p.Hops {
		var at recipe.Moment
		if err := at.UnmarshalText([]byte(h.At)); err != nil || at.Stage == recipe.AtDry {
			continue
		}
		c := Charge{Hop: h.Hop, Mass: h.Mass, Alpha: l.effective(h.Alpha)}
		switch at.Stage {
		case recipe.AtBoil:
			c.Boil = at.Time
		case recipe.AtFirstWort:
			c.Boil = p.Boil.Time
		case recipe.AtMash:
			c.Boil = p.Boil.Time
			c.Alpha *= hops.MashHopCarryOver
		case recipe.AtStand:
			c.At = at.Temperature
		}
		out = append(out, c)
		l.planned = append(l.planned, h)
	}
	return out
}

// effective is what hops of the house's form give up of their alpha acids.
func (l *logbook) effective(alpha quantity.Fraction) quantity.Fraction {
	form := hops.Pellets
	if h := l.in.House; h != nil {
		switch h.Bitterness.Form {
		case "cones":
			form = hops.WholeCones
		case "bag":
			form = hops.InBag
		}
	}
	return quantity.Fraction(float64(alpha) * float64(form))
}
