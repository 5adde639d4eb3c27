// SPDX-License-Identifier: MIT

package reconstruct

import (
	"cmp"
	"math"
	"slices"

	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/boil"
	"gyle/science/gravity"
	"gyle/science/mash"
)

// brewedFacts puts what the log says of boil, cooling, hops and beer in the
// place of the plan. What it doesn't say stays as planned.
func (l *logbook) brewedFacts(planned Facts) Facts {
	f := planned.clone()
	l.boiled(&f, planned)
	l.cooled(&f, planned)
	l.hopped(&f, planned)
	if ph, ok := l.mashPH(); ok {
		f.MashPH = ph
	}
	if fg, ok := l.finalGravity(); ok {
		f.FG = fg
	}
	return f
}

// boiled lays out the boil: its time, its temperature where that was read, and
// the pauses in which it fell below.
func (l *logbook) boiled(f *Facts, planned Facts) {
	temperature := planned.boilsAt()
	if read := l.of(gyle.OfTemperature, gyle.AtBoil); len(read) > 0 {
		sum := 0.0
		for _, m := range read {
			sum += m.Value
		}
		temperature = quantity.Celsius(sum / float64(len(read)))
	}
	whole := Leg{Name: "boil", From: temperature, Time: l.boilTime(planned), Boils: true}
	f.Boil = []Leg{whole}
	start, ok := l.when(gyle.BoilStart)
	if !ok {
		return
	}
	f.Boil = nil
	now := quantity.Duration(0)
	for _, p := range l.pauses {
		from, to := p.From.Since(start), p.To.Since(start)
		if p.Lowest.IsZero() || p.To.IsZero() || from < now || to > whole.Time || to <= from {
			continue
		}
		again := min(l.heatUp(p.Lowest, temperature), whole.Time-to)
		f.Boil = append(f.Boil, Leg{Name: "boil", From: temperature, Time: from - now, Boils: true},
			Leg{Name: p.What, From: temperature, To: p.Lowest, Time: to - from},
			Leg{Name: "heating up again", From: p.Lowest, To: temperature, Time: again})
		now = to + again
	}
	f.Boil = append(f.Boil, Leg{Name: "boil", From: temperature, Time: whole.Time - now, Boils: true})
}

// heatUp is how long the kettle takes to the boil again.
func (l *logbook) heatUp(from, to quantity.Temperature) quantity.Duration {
	h, p := l.in.House, l.in.Gyle.Plan
	if h == nil || p == nil || !from.Below(to) {
		return 0
	}
	sg := p.Gravity.FullKettle
	k := h.Kettle
	return boil.HeatUpTime(gravity.WortMass(p.Volumes.FullKettle, sg), gravity.PlatoFromSG(sg), from, to, k.Power, k.Efficiency, k.HeatLoss)
}

// mark is a temperature of the kettle after flame-out.
type mark struct {
	after quantity.Duration // flame-out
	at    quantity.Temperature
}

// cooled lays out the cooling from the temperatures that were read, the stand
// and the run-off. It keeps the names of the plan's legs, so that they can be
// compared.
func (l *logbook) cooled(f *Facts, planned Facts) {
	out, ok := l.when(gyle.KnockOut)
	if !ok {
		return
	}
	stand, stood := l.when(gyle.StandStart)
	standEnd, ended := l.when(gyle.StandEnd)
	first := "chill"
	if len(planned.Cooling) > 0 {
		first = planned.Cooling[0].Name
	}
	marks := l.marks(out)
	var legs []Leg
	now := mark{0, f.Boil[len(f.Boil)-1].segment(f.boilsAt()).End()}
	until := quantity.Duration(1e9)
	if stood {
		until = stand.Since(out)
		legs = append(legs, l.legs(first, &now, marks, until, planned)...)
		length := legNamed(planned, "stand").Time
		if ended {
			length = standEnd.Since(stand)
		}
		legs = append(legs, l.legs("stand", &now, marks, until+length, planned)...)
		until = 1e9
	}
	if transfer, moved := l.when(gyle.Transfer); moved && legNamed(planned, "run-off").RunOff {
		if gap := transfer.Since(out); gap > now.after+0.5 {
			name := "rest"
			if !stood {
				name = first
			}
			legs = append(legs, l.legs(name, &now, marks, gap, planned)...)
		}
		leg := legNamed(planned, "run-off")
		if t := l.deeds[gyle.Transfer][0].Deed.Time; t > 0 {
			leg.Time = t
		}
		f.Cooling = append(legs, leg)
		return
	}
	last := first
	if n := len(planned.Cooling); stood && n > 0 {
		last = planned.Cooling[n-1].Name
	}
	rest := l.legs(last, &now, marks, until, planned)
	if len(rest) == 0 {
		rest = legsNamed(planned, last)
	}
	f.Cooling = append(legs, rest...)
}

// marks are the temperatures of the kettle after flame-out, in order. A logger
// may have left thousands: one in each half minute will do.
func (l *logbook) marks(out gyle.Time) []mark {
	const apart = 0.5 // min
	var marks []mark
	for _, place := range []gyle.Place{gyle.AtKnockOut, gyle.AtCooling, gyle.AtStand} {
		for _, m := range l.of(gyle.OfTemperature, place) {
			if after := m.entry.When().Since(out); after > 0 {
				marks = append(marks, mark{after, quantity.Celsius(m.Value)})
			}
		}
	}
	slices.SortStableFunc(marks, func(a, b mark) int { return cmp.Compare(a.after, b.after) })
	var kept []mark
	for _, m := range marks {
		if len(kept) == 0 || m.after-kept[len(kept)-1].after >= apart {
			kept = append(kept, m)
		}
	}
	return kept
}

// legs leads from where the kettle is along the marks until a time; the last
// stretch without a mark goes on as the plan has it.
func (l *logbook) legs(name string, now *mark, marks []mark, until quantity.Duration, planned Facts) []Leg {
	var out []Leg
	for _, m := range marks {
		if m.after <= now.after || m.after > until+0.25 {
			continue
		}
		leg := l.between(name, now.at, m.at, m.after-now.after)
		if !m.at.Below(now.at) {
			leg = Leg{Name: name, To: m.at, Time: m.after - now.after}
		}
		out = append(out, leg)
		*now = m
	}
	if left := until - now.after; left > 0.25 && until < 1e8 {
		leg := legNamed(planned, name)
		leg.Name, leg.Time, leg.To = name, left, quantity.Temperature{}
		if leg.Tau == 0 {
			leg.Tau, leg.Toward = 120, l.room() // an open kettle left alone; common practice
		}
		out = append(out, leg)
		*now = mark{until, leg.segment(now.at).End()}
	}
	return out
}

// legNamed returns the planned cooling leg of a name, an empty one where there
// is none.
func legNamed(f Facts, name string) Leg {
	if legs := legsNamed(f, name); len(legs) > 0 {
		return legs[0]
	}
	return Leg{Name: name}
}

func legsNamed(f Facts, name string) []Leg {
	var out []Leg
	for _, l := range f.Cooling {
		if l.Name == name {
			out = append(out, l)
		}
	}
	return out
}

// hopped takes the hops as they went in. Charges of the plan keep their place;
// one that never went in weighs nothing.
func (l *logbook) hopped(f *Facts, planned Facts) {
	added := l.deeds[gyle.HopsIn]
	out, ok := l.when(gyle.KnockOut)
	if len(added) == 0 || !ok {
		return
	}
	for i := range f.Charges {
		f.Charges[i].Mass = 0
	}
	taken := make([]bool, len(f.Charges))
	h, flameOut := f.history()
	for _, e := range added {
		if e.Deed.Mass == nil {
			continue
		}
		i := l.chargeOf(e.Deed, planned, taken)
		if i < 0 {
			i = len(f.Charges)
			f.Charges = append(f.Charges, Charge{Hop: e.Deed.What, Alpha: l.alphaOf(e.Deed)})
			taken = append(taken, true)
		}
		taken[i] = true
		c := &f.Charges[i]
		c.Mass, c.At, c.Boil = *e.Deed.Mass, quantity.Temperature{}, 0
		if before := out.Since(e.When()); before >= 0 {
			c.Boil = before
		} else if c.At = e.Deed.Temperature; c.At.IsZero() {
			c.At = h.TemperatureAt(flameOut - before)
		}
	}
}

// chargeOf returns the charge of the plan that a deed carries out, or −1.
func (l *logbook) chargeOf(d *gyle.Deed, planned Facts, taken []bool) int {
	found := -1
	for at, h := range l.planned {
		if at >= len(planned.Charges) || taken[at] || h.Hop != d.What {
			continue
		}
		if h.At == d.Moment && (d.Lot == "" || h.Lot == d.Lot) {
			return at
		}
		if found < 0 {
			found = at
		}
	}
	return found
}

// alphaOf is what the plan says of the alpha acids of hops that it has no charge
// for.
func (l *logbook) alphaOf(d *gyle.Deed) quantity.Fraction {
	if p := l.in.Gyle.Plan; p != nil {
		for _, h := range p.Hops {
			if h.Hop == d.What {
				return l.effective(h.Alpha)
			}
		}
	}
	l.note("the alpha acids of %s aren't in the plan: its bitterness isn't counted", d.What)
	return 0
}

// mashPH is the last pH read in the mash, as of a cooled sample.
func (l *logbook) mashPH() (quantity.PH, bool) {
	read := l.of(gyle.OfPH, gyle.AtMash)
	if len(read) == 0 {
		return 0, false
	}
	return phOf(read[len(read)-1]), true
}

// phOf is a pH as of a cooled sample.
func phOf(m measured) quantity.PH {
	if cold.Below(m.Sample) {
		return mash.CooledPH(quantity.PH(m.Value), m.Sample)
	}
	return quantity.PH(m.Value)
}

// finalGravity is the median of the last readings of the hydrometer in the
// fermenter, if they are days after pitching.
func (l *logbook) finalGravity() (quantity.SG, bool) {
	pitched, ok := l.when(gyle.Pitched)
	read := l.of(gyle.OfGravity, gyle.AtFermenter)
	if !ok {
		return 0, false
	}
	if len(read) == 0 || read[len(read)-1].entry.When().Since(pitched) < quantity.Days(3) {
		return l.loggedEnd(pitched)
	}
	end := read[len(read)-1].entry.When()
	var last []float64
	for _, m := range read {
		if end.Since(m.entry.When()) <= quantity.Days(3) {
			last = append(last, l.reading(m).True().Value)
		}
	}
	return quantity.SG(median(last)), true
}

// loggedEnd is the median of the last day of an instrument that reads by itself,
// for beers of which nobody took the gravity by hand.
func (l *logbook) loggedEnd(pitched gyle.Time) (quantity.SG, bool) {
	type sight struct {
		when gyle.Time
		sg   float64
	}
	var sights []sight
	for _, s := range l.series {
		column := s.Column(gyle.OfGravity)
		if column < 0 {
			continue
		}
		for _, row := range s.Samples() {
			if value := row.Values[column]; !math.IsNaN(value) && row.When.Since(pitched) >= quantity.Days(3) {
				sights = append(sights, sight{row.When, float64(gravity.SGOf(s.Columns[column].Measured(value).Gravity()))})
			}
		}
	}
	if len(sights) == 0 {
		return 0, false
	}
	end := slices.MaxFunc(sights, func(a, b sight) int { return a.when.Compare(b.when.Time) }).when
	var last []float64
	for _, s := range sights {
		if end.Since(s.when) <= quantity.Days(1) {
			last = append(last, s.sg)
		}
	}
	l.note("the final gravity is that of the logger, %.4f: nobody read a hydrometer so late", median(last))
	return quantity.SG(median(last)), true
}
