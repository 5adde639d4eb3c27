// SPDX-License-Identifier: MIT

package calendar

import (
	"slices"
	"time"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
)

// Unnamed stands for the fermenters of a house that names none. Nobody knows how
// many there are, so it is never taken.
const Unnamed = "a fermenter"

// Vessels returns the names of the fermenters of a house, or [Unnamed].
func Vessels(house *brewhouse.House) []string {
	if house == nil || len(house.Fermenter.Names) == 0 {
		return []string{Unnamed}
	}
	return house.Fermenter.Names
}

// State says how far the beer of a stay is.
type State string

// The states of a stay.
const (
	Planned   State = "planned"       // nothing is in the log that fills the vessel
	Fermented State = "in the vessel" // it was filled and not emptied
	Emptied   State = "emptied"       // the log says so
)

// Stay is the time of one gyle in one fermenter: the first day, and the day on
// which the vessel is free again.
type Stay struct {
	Gyle   string // its name in the book
	Title  string
	Vessel string
	From   quantity.Date
	To     quantity.Date // the vessel is free on this day
	State  State
	Need   Need   // of a planned end
	Why    string // where the end comes from
}

// Days is how many days the stay lasts, counting days that were begun.
func (s Stay) Days() int { return daysBetween(s.From, s.To) }

// meets reports whether two stays want one vessel on one day.
func (s Stay) meets(other Stay) bool {
	return s.Vessel == other.Vessel && s.Vessel != Unnamed && s.From.Before(other.To.Time) && other.From.Before(s.To.Time)
}

func daysBetween(a, b quantity.Date) int { return int(b.Sub(a.Time).Hours()/24 + 0.5) }

// After returns the day a number of days after another.
func After(day quantity.Date, days int) quantity.Date {
	return quantity.Date{Time: day.AddDate(0, 0, days)}
}

// DayOf returns the day of a moment, where it is.
func DayOf(t time.Time) quantity.Date {
	return quantity.Date{Time: time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)}
}

// StayOf returns the stay of a gyle in its fermenter; false where it has no
// day or names no fermenter of a house that has several. A day that the gyle
// gives for its vessel to be free goes before the days that beers usually need;
// what the log says goes before both.
func StayOf(name string, g *gyle.Gyle, house *brewhouse.House) (Stay, bool) {
	s := Stay{Gyle: name, Title: g.Name, State: Planned, From: g.Date}
	vessel := fermenterOf(g)
	log := g.Log.Standing()
	s.Vessel = vessel.Name
	for _, e := range log {
		if e.Deed == nil {
			continue
		}
		day := DayOf(e.When().Time)
		switch e.Deed.Do {
		case gyle.Transfer, gyle.Pitched:
			if s.State == Planned {
				s.From, s.State = day, Fermented
			}
			if s.Vessel == "" && e.Deed.Vessel != "" {
				s.Vessel = e.Deed.Vessel
			}
		case gyle.Packaged:
			s.To, s.State, s.Why = day, Emptied, "packaged, as the log says"
		}
	}
	if s.Vessel == "" {
		if names := Vessels(house); len(names) == 1 {
			s.Vessel = names[0]
		}
	}
	if s.From.IsZero() || s.Vessel == "" {
		return s, false
	}
	s.end(g, vessel, house)
	return s, true
}

// end sets the last day of a stay that nobody has ended yet. A stay lasts a day
// at least.
func (s *Stay) end(g *gyle.Gyle, vessel gyle.Vessel, house *brewhouse.House) {
	switch {
	case s.State == Emptied:
	case !vessel.Free.IsZero():
		s.To, s.Why = vessel.Free, "as the gyle says"
	default:
		s.Need = NeedOf(g.Plan, house)
		_, days := s.Need.Days()
		s.To, s.Why = After(s.From, days), s.Need.String()
	}
	if !s.From.Before(s.To.Time) {
		s.To = After(s.From, 1)
	}
}

// fermenterOf returns the vessel that a gyle names for fermenting.
func fermenterOf(g *gyle.Gyle) gyle.Vessel {
	i := slices.IndexFunc(g.Vessels, func(v gyle.Vessel) bool { return v.For == "fermenter" })
	if i < 0 {
		return gyle.Vessel{}
	}
	return g.Vessels[i]
}
