// SPDX-License-Identifier: MIT

package calendar

import (
	"cmp"
	"fmt"
	"slices"

	"gyle/quantity"
)

// Calendar is the fermenters of a house with what is in them, day by day.
type Calendar struct {
	Vessels []string // those of the house, then others that gyles name
	Stays   []Stay   // by vessel and day
	Clashes []Clash  // gyles of the book that want one vessel on one day
	Today   quantity.Date
}

// Of puts stays in order for a house with these vessels. A beer that was put
// into a vessel, and of which no log says that it left, stays there beyond the
// day on which it was expected to leave, until today or until the next beer.
func Of(vessels []string, stays []Stay, today quantity.Date) *Calendar {
	c := &Calendar{Vessels: slices.Clone(vessels), Stays: slices.Clone(stays), Today: today}
	for _, s := range stays {
		if !slices.Contains(c.Vessels, s.Vessel) {
			c.Vessels = append(c.Vessels, s.Vessel)
		}
	}
	place := func(s Stay) int { return slices.Index(c.Vessels, s.Vessel) }
	slices.SortStableFunc(c.Stays, func(a, b Stay) int {
		return cmp.Or(cmp.Compare(place(a), place(b)), a.From.Compare(b.From.Time), a.To.Compare(b.To.Time), cmp.Compare(a.Gyle, b.Gyle))
	})
	for i := range c.Stays {
		c.stretch(i)
	}
	c.findClashes()
	return c
}

// stretch lets a beer stay until somebody logs that it left.
func (c *Calendar) stretch(i int) {
	s := &c.Stays[i]
	tomorrow := After(c.Today, 1)
	if s.State != Fermented || c.Today.IsZero() || !s.To.Before(tomorrow.Time) {
		return
	}
	until := tomorrow
	if i+1 < len(c.Stays) && c.Stays[i+1].Vessel == s.Vessel && c.Stays[i+1].From.Before(tomorrow.Time) {
		until = c.Stays[i+1].From
	}
	if s.To.Before(until.Time) {
		s.To = until
		s.Why = "nothing in the log says that it was packaged"
	}
}

// findClashes lists neighbours that want one vessel on one day.
func (c *Calendar) findClashes() {
	var longest Stay // of the stays so far, the one that ends last
	for i, s := range c.Stays {
		if i > 0 && longest.meets(s) {
			c.Clashes = append(c.Clashes, Clash{Want: s, Has: longest})
		}
		if longest.Vessel != s.Vessel || longest.To.Before(s.To.Time) {
			longest = s
		}
	}
}

// Clash says that a vessel is wanted while another beer is in it.
type Clash struct {
	Want Stay
	Has  Stay
	Free *quantity.Date // first day on which the vessel is free for as long as it is wanted
	Else string         // another vessel that is free on the day that was wanted
}

// Error says what is in the way and what can be done.
func (c *Clash) Error() string {
	text := fmt.Sprintf("%s is taken by %s from %s until %s", c.Want.Vessel, c.Has.Title, c.Has.From, c.Has.To)
	if c.Free != nil {
		text += fmt.Sprintf("; for %d days it is free from %s", c.Want.Days(), c.Free)
	}
	if c.Else != "" {
		text += fmt.Sprintf("; %s is free on %s", c.Else, c.Want.From)
	}
	return text
}

// Reserve asks for a vessel for a stay. It returns nil where the vessel is free
// for all of it, and otherwise what is in the way, the first day on which the
// vessel is free for as long, and another vessel that would be free on the day.
// A gyle is never in its own way.
func (c *Calendar) Reserve(want Stay) *Clash {
	has, taken := c.inTheWay(want)
	if !taken {
		return nil
	}
	clash := &Clash{Want: want, Has: has}
	free := c.FirstFree(want)
	clash.Free = &free.From
	for _, other := range c.Vessels {
		moved := want
		moved.Vessel = other
		if _, taken := c.inTheWay(moved); !taken {
			clash.Else = other
			break
		}
	}
	return clash
}

// FirstFree moves a stay to the first day, not before its own, on which its
// vessel is free for all of it.
func (c *Calendar) FirstFree(want Stay) Stay {
	days := want.Days()
	for has, taken := c.inTheWay(want); taken; has, taken = c.inTheWay(want) {
		want.From = has.To // after this stay at the earliest, so it ends
		want.To = After(want.From, days)
	}
	return want
}

// inTheWay finds the first stay of another gyle that meets a wanted one.
func (c *Calendar) inTheWay(want Stay) (Stay, bool) {
	for _, s := range c.Stays {
		if s.meets(want) && (want.Gyle == "" || s.Gyle != want.Gyle) {
			return s, true
		}
	}
	return Stay{}, false
}

// Within returns the stays that touch the days from one to before another.
func (c *Calendar) Within(from, to quantity.Date) (list []Stay) {
	for _, s := range c.Stays {
		if s.From.Before(to.Time) && from.Before(s.To.Time) {
			list = append(list, s)
		}
	}
	return list
}
