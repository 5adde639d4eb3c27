// SPDX-License-Identifier: MIT

package day

import (
	"slices"
	"strings"

	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/boil"
)

// facts is what a log says, in the order in which it was.
type facts struct{ entries []gyle.Entry }

func newFacts(standing []gyle.Entry) *facts { return &facts{standing} }

// first returns when the first entry was that shows something, from a time on.
func (f *facts) first(shows func(gyle.Entry) bool, since gyle.Time) (gyle.Time, bool) {
	if shows == nil {
		return gyle.Time{}, false
	}
	for _, e := range f.entries {
		if shows(e) && !e.When().Before(since.Time) {
			return e.When(), true
		}
	}
	return gyle.Time{}, false
}

// earliest returns the first entry that shows something.
func (f *facts) earliest(shows func(gyle.Entry) bool) (gyle.Entry, bool) {
	if i := slices.IndexFunc(f.entries, shows); i >= 0 {
		return f.entries[i], true
	}
	return gyle.Entry{}, false
}

// last returns the last entry that shows something.
func (f *facts) last(shows func(gyle.Entry) bool) (gyle.Entry, bool) {
	for _, e := range slices.Backward(f.entries) {
		if shows(e) {
			return e, true
		}
	}
	return gyle.Entry{}, false
}

func (f *facts) ids(shows func(gyle.Entry) bool, since gyle.Time) []gyle.ID {
	var ids []gyle.ID
	for _, e := range f.entries {
		if shows(e) && !e.When().Before(since.Time) {
			ids = append(ids, e.ID)
		}
	}
	return ids
}

// fill puts the reading of each number beside what was planned: in the mash and
// the fermenter the first, because later ones follow a correction; elsewhere the
// last, because it was taken again for a reason.
func (f *facts) fill(numbers []Number) {
	for i := range numbers {
		n := &numbers[i]
		if n.of == "" {
			continue
		}
		find := f.last
		if n.at == gyle.AtMash || n.at == gyle.AtFermenter {
			find = f.earliest
		}
		if e, found := find(read(n.of, n.at)); found {
			if m, err := e.Reading.Measured(); err == nil {
				n.Measured = m.Echo
			}
		}
	}
}

// The ways in which an entry shows that a task is done.

func did(what gyle.Do) func(gyle.Entry) bool {
	return func(e gyle.Entry) bool { return e.Deed != nil && e.Deed.Do == what }
}

func didWith(do gyle.Do, what string) func(gyle.Entry) bool {
	return func(e gyle.Entry) bool { return did(do)(e) && e.Deed.What == what }
}

// hopsIn shows a charge: by its moment where the entry says it.
func hopsIn(hop, moment string) func(gyle.Entry) bool {
	return func(e gyle.Entry) bool {
		return didWith(gyle.HopsIn, hop)(e) && (e.Deed.Moment == "" || e.Deed.Moment == moment)
	}
}

func read(of gyle.Of, at gyle.Place) func(gyle.Entry) bool {
	return func(e gyle.Entry) bool { return e.Reading != nil && e.Reading.Of == of && e.Reading.At == at }
}

func readAt(at gyle.Place, of ...gyle.Of) func(gyle.Entry) bool {
	return func(e gyle.Entry) bool {
		return e.Reading != nil && e.Reading.At == at && slices.Contains(of, e.Reading.Of)
	}
}

func either(a, b func(gyle.Entry) bool) func(gyle.Entry) bool {
	return func(e gyle.Entry) bool { return a(e) || b(e) }
}

// stepShows returns what shows that a step of the path has begun.
func stepShows(name string) func(gyle.Entry) bool {
	switch {
	case name == "stand":
		return did(gyle.StandStart)
	case name == "run-off":
		return did(gyle.Transfer)
	case cools(name):
		return did(gyle.CoolerOn)
	}
	return nil
}

// course returns the times of the kettle as the log has them so far, and what
// decided on the boil.
func (f *facts) course(p *gyle.Plan, now gyle.Time) (course, string) {
	c, by := course{boil: p.Boil.Time, tau: p.Cooler.Tau}, ByPlan
	if e, found := f.last(func(e gyle.Entry) bool { return e.Choice != nil && e.Choice.Boil > 0 }); found {
		c.boil, by = e.Choice.Boil, ByChoice
	} else if boil, found := f.boilBy(p); found {
		c.boil, by = boil, ByEvaporation
	}
	if tau, found := f.tau(p); found {
		c.tau = tau
	}
	c.waiting = f.without(gyle.KettleFull, readAt(gyle.AtFullKettle, gyle.OfVolume), did(gyle.BoilStart), now)
	c.heating = f.without(gyle.HeatOn, did(gyle.HeatOn), did(gyle.GrainIn), now)
	return c, by
}

// boilBy returns the boil that drives off as much as planned, by the
// evaporation measured in it.
func (f *facts) boilBy(p *gyle.Plan) (quantity.Duration, bool) {
	e, found := f.last(read(gyle.OfEvaporation, gyle.AtBoil))
	if !found {
		return 0, false
	}
	m, err := e.Reading.Measured()
	if err != nil || m.Value <= 0 || p.Boil.PerHour <= 0 {
		return 0, false
	}
	if ended, done := f.first(did(gyle.KnockOut), gyle.Time{}); done && !e.When().Before(ended.Time) {
		return 0, false // read when all was over
	}
	return p.Boil.Time * quantity.Duration(float64(p.Boil.PerHour)/m.Value), true
}

// tau returns the time constant of the cooling by the last temperature that
// was read since the cooler is on.
func (f *facts) tau(p *gyle.Plan) (quantity.Duration, bool) {
	on, found := f.first(did(gyle.CoolerOn), gyle.Time{})
	if !found || p.Cooler.Tau <= 0 {
		return 0, false
	}
	e, found := f.last(func(e gyle.Entry) bool {
		return read(gyle.OfTemperature, gyle.AtCooling)(e) && e.When().After(on.Time)
	})
	if !found {
		return 0, false
	}
	m, err := e.Reading.Measured()
	if err != nil || !p.Cooler.Water.Below(m.Temperature()) || !m.Temperature().Below(p.Boil.Temperature) {
		return 0, false
	}
	return boil.TauFromReadings(p.Boil.Temperature, m.Temperature(), p.Cooler.Water, e.When().Since(on)), true
}

// without adds up the interruptions between two events, or from the first on.
func (f *facts) without(begun gyle.Do, or, ended func(gyle.Entry) bool, now gyle.Time) quantity.Duration {
	from, found := f.first(either(did(begun), or), gyle.Time{})
	if !found {
		return 0
	}
	if _, over := f.first(ended, gyle.Time{}); over {
		return 0 // it is known when it happened
	}
	sum := quantity.Duration(0)
	for _, e := range f.entries {
		i := e.Interruption
		if i == nil || i.From.Before(from.Time) {
			continue
		}
		switch {
		case !i.To.IsZero():
			sum += i.To.Since(i.From)
		case now.After(i.From.Time):
			sum += now.Since(i.From)
		}
	}
	return sum
}

// sameName compares names of people and vessels as people write them.
func sameName(a, b string) bool {
	return a != "" && strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}
