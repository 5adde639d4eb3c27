// SPDX-License-Identifier: MIT

package reconstruct

import (
	"slices"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/boil"
	"gyle/science/gravity"
	"gyle/science/hops"
)

// House is what the brews of a brewhouse have taught.
type House struct {
	Constants []Constant // with the priors of this house
	Sights    []Sight    // in the order of the brews
}

// NewHouse begins with what the document of a house says. Where it says
// nothing, or is nil, the priors of any house stand. The house factor begins at
// the prior of any house: the one in a document was made from brews that will
// be added here.
func NewHouse(doc *brewhouse.House) *House {
	h := &House{Constants: []Constant{YieldConstant, EvaporationConstant, LossConstant, AbsorptionConstant, CoolingConstant, FactorConstant, MashPHConstant}}
	if doc == nil {
		return h
	}
	set := func(name string, e quantity.Estimate) {
		for i := range h.Constants {
			if h.Constants[i].Name == name && e.Value != 0 {
				h.Constants[i] = h.Constants[i].From(e)
			}
		}
	}
	if y := doc.Mash.Yield; y != nil {
		set(YieldConstant.Name, quantity.Estimate{Value: y.Value.Percent(), SD: YieldConstant.Prior.SD})
	}
	flow := boil.Evaporation(doc.Kettle.Power, doc.Kettle.Efficiency, doc.Kettle.HeatLoss, boilsAt(doc))
	set(EvaporationConstant.Name, quantity.Estimate{Value: float64(boil.Evaporated(flow, 60))})
	set(LossConstant.Name, quantity.Estimate{Value: float64(doc.Kettle.Loss)})
	set(AbsorptionConstant.Name, quantity.Estimate{Value: float64(doc.Mash.Absorption)})
	if len(doc.Cooling) > 0 && doc.Cooling[0].Tau != nil {
		set(CoolingConstant.Name, quantity.Estimate{Value: doc.Cooling[0].Tau.Minutes()})
	}
	set(MashPHConstant.Name, quantity.Estimate{Value: doc.Mash.PHOffset})
	return h
}

// Add takes the lessons of a brew. newKit names the constants that new kit may
// have moved since the last one; "*" stands for all.
func (h *House) Add(lessons []Sight, newKit ...string) {
	for _, s := range lessons {
		for _, name := range newKit {
			s.NewKit = s.NewKit || name == s.Constant || name == "*"
		}
		h.Sights = append(h.Sights, s)
	}
}

// Learned returns a constant as the brews so far have taught it; an empty one
// where the house has none of that name.
func (h *House) Learned(name string) Learned {
	for _, c := range h.Constants {
		if c.Name == name {
			return c.Learn(h.Sights)
		}
	}
	return Learned{}
}

// All returns every constant as learned.
func (h *House) All() []Learned {
	var out []Learned
	for _, c := range h.Constants {
		out = append(out, c.Learn(h.Sights))
	}
	return out
}

// Known returns what a day's balances may count on before the next brew, whose
// full kettle is expected at an extract.
func (h *House) Known(full quantity.Plato) Constants {
	y := h.Learned(YieldConstant.Name).Next(float64(full))
	return Constants{
		Yield:       quantity.Estimate{Value: y.Value / 100, SD: y.SD / 100},
		Absorption:  h.Learned(AbsorptionConstant.Name).Next(0),
		Evaporation: h.Learned(EvaporationConstant.Name).Next(0),
		Loss:        h.Learned(LossConstant.Name).Next(0),
	}
}

// Apply returns the document of the house with what was learned in it, so that
// the next plan counts on it. Constants without a brew behind them stay as they
// are. An evaporation is laid to the heat that the kettle loses, a time constant
// to the first way of cooling. The yield is that at a full kettle of 11 °P.
func (h *House) Apply(doc brewhouse.House) brewhouse.House {
	for _, l := range h.All() {
		if len(l.Evidence) == 0 {
			continue
		}
		v := l.Value
		switch l.Name {
		case YieldConstant.Name:
			doc.Mash.Yield = &quantity.FractionEstimate{Value: quantity.Percent(v.Value), SD: quantity.Percent(l.Next(l.Middle).SD)}
		case EvaporationConstant.Name:
			k := doc.Kettle
			doc.Kettle.HeatLoss = boil.LossFromBoilOff(k.Power, k.Efficiency, boil.PerHour(quantity.Mass(v.Value)), boilsAt(&doc))
		case LossConstant.Name:
			doc.Kettle.Loss = quantity.Volume(v.Value)
		case AbsorptionConstant.Name:
			doc.Mash.Absorption = quantity.Ratio(v.Value)
		case CoolingConstant.Name:
			if len(doc.Cooling) > 0 && doc.Cooling[0].Tau != nil {
				tau := quantity.Duration(v.Value)
				doc.Cooling = slices.Clone(doc.Cooling)
				doc.Cooling[0].Tau = &tau
			}
		case FactorConstant.Name:
			doc.Bitterness.K = v
		case MashPHConstant.Name:
			doc.Mash.PHOffset = v.Value
		}
	}
	return doc
}

// boilsAt is the boiling point of a house.
func boilsAt(doc *brewhouse.House) quantity.Temperature {
	const ordinary = 12 // °P
	if doc.Kettle.BoilsAt != nil {
		return *doc.Kettle.BoilsAt
	}
	return boil.BoilingTemperature(doc.Altitude, ordinary)
}

// Factor is the house factor K as learned, and nothing where no laboratory value
// is behind it: the one in the document of the house then stands.
func (h *House) Factor() quantity.Estimate {
	l := h.Learned(FactorConstant.Name)
	if len(l.Evidence) == 0 {
		return quantity.Estimate{}
	}
	return l.Value
}

// Lessons returns what a reconstructed brew shows of the constants of its
// house. Readings that were suspected and have no certain correction teach
// nothing; the balances have left them out.
func (r *Reconstruction) Lessons(brew string) []Sight {
	var out []Sight
	add := func(c Constant, value, sd, at float64) {
		out = append(out, Sight{Constant: c.Name, Brew: brew, Value: value, SD: sd, At: at})
	}
	seen, s := r.Smoothed.Seen, r.Smoothed
	if y := seen.Yield; y != nil && !s.Guessed {
		add(YieldConstant, 100*y.Value, 100*y.SD, float64(gravity.PlatoFromSG(quantity.SG(s.Points[0].SG.Value))))
	}
	if a := seen.Absorption; a != nil && !s.Guessed {
		add(AbsorptionConstant, a.Value, a.SD, 0)
	}
	hours := r.Brewed.boilTime().Hours()
	if len(seen.Evaporated) > 0 && seen.Evaporated[0] != nil && hours > 0 {
		e := seen.Evaporated[0]
		add(EvaporationConstant, e.Value/hours, e.SD/hours, 0)
	}
	if n := len(seen.Lost); n > 0 && seen.Lost[n-1] != nil && r.Day.Points[n].Hot.IsZero() {
		add(LossConstant, seen.Lost[n-1].Value, seen.Lost[n-1].SD, 0)
	}
	if tau, sd, ok := r.chill(); ok {
		add(CoolingConstant, tau, sd, 0)
	}
	if r.Planned.MashPH > 0 && r.firstMashPH > 0 {
		add(MashPHConstant, float64(r.firstMashPH-r.Planned.MashPH), float64(PHMeter.Absolute), 0)
	}
	if ratio, sd, ok := r.bitternessRatio(); ok {
		add(FactorConstant, ratio, sd, 0)
	}
	return out
}

// chill is the time constant of the coil or cooler as the log shows it: of the
// pieces of the first cooling leg together.
func (r *Reconstruction) chill() (tau, sd float64, ok bool) {
	if len(r.Brewed.Cooling) == 0 || !r.chillRead {
		return 0, 0, false
	}
	first := r.Brewed.Cooling[0]
	from := r.Brewed.boilsAt()
	now, minutes := from, 0.0
	for _, l := range r.Brewed.Cooling {
		if l.Name != first.Name || l.Tau <= 0 {
			break
		}
		s := l.segment(now)
		now = s.End()
		minutes += s.Duration.Minutes()
	}
	toward := first.Toward
	decades := boil.CoolingTime(from, now, toward, 1).Minutes() // in time constants
	if !(decades > 0.1) {
		return 0, 0, false
	}
	// An error of the thermometer counts the more, the nearer the wort is to the water.
	end := Thermometer.Absolute / (float64(now.Sub(toward)) * decades)
	const clock = 0.5 // min
	return minutes / decades, minutes / decades * (end + clock/minutes), true
}

// bitternessRatio is bitterness by a laboratory over bitterness as computed
// with a house factor of 1. Dry-hopped beer says nothing of it.
func (r *Reconstruction) bitternessRatio() (ratio, sd float64, ok bool) {
	if r.labIBU <= 0 || r.dryHopped || r.Beer.IBU <= 0 {
		return 0, 0, false
	}
	one := r.Brewed
	one.House = quantity.Estimate{Value: 1, SD: hops.UncalibratedSpread}
	ratio = r.labIBU / float64(one.Brew().IBU)
	return ratio, 0, true // the scatter of the constant holds laboratory and alpha acids
}

// taught gathers what Lessons need beside the facts.
func (r *Reconstruction) taught(l *logbook) {
	if read := l.of(gyle.OfPH, gyle.AtMash); len(read) > 0 {
		r.firstMashPH = phOf(read[0])
	}
	if out, ok := l.when(gyle.KnockOut); ok {
		r.chillRead = len(l.marks(out)) > 0
	}
	r.dryHopped = len(l.deeds[gyle.DryHops]) > 0
	for _, m := range l.readings {
		if m.Of == gyle.OfBitterness {
			r.labIBU = m.Value
		}
		if m.Of == gyle.OfColor {
			r.labColor = m.Value
		}
	}
}
