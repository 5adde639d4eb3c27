// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"

	"gyle/brewhouse"
	"gyle/calendar"
	"gyle/gyle"
	"gyle/internal/chart"
	"gyle/quantity"
)

// calendarDays is how many days the sheet shows, calendarBefore how many of them
// lie before the day asked for.
const (
	calendarDays   = 70
	calendarBefore = 14
)

// calendarBody is the calendar of a house as a sheet.
type calendarBody struct {
	Houses          []option
	House           string // its slug
	Name            string
	Drawing         string
	From, To        string
	Earlier, Later  string // addresses
	Stays           []stayRow
	Clashes         []clashRow
	Nowhere         []brief
	Named           bool
	Free            []freeRow
	JSON, HousePath string
	Fault           fieldFault
	Typed           string
}

// stayRow is a stay in the table under the drawing.
type stayRow struct {
	calendar.Stay
	Path     string
	InVessel bool
	From, To string
}

type clashRow struct{ Vessel, Want, WantPath, Has, HasPath, Until, Free string }

// freeRow says from which day a vessel is free for an ordinary beer.
type freeRow struct{ Vessel, From string }

// Title is the name of the gyle.
func (b brief) Title() string { return b.title }

// houseOfCalendar is the house that is asked for, the one that was planned on
// last, or the first of the book.
func (s *Server) houseOfCalendar(r *http.Request) (slug string, house *brewhouse.House, list []option, err error) {
	if slug = r.URL.Query().Get("house"); slug == "" {
		if slug, err = s.book.Setting(r.Context(), recipeHouseSetting, ""); err != nil {
			return "", nil, nil, err
		}
		if _, err := s.book.Get(r.Context(), brewhouse.Kind, slug); err != nil {
			slug = ""
		}
	}
	if list, err = s.documentOptions(r.Context(), brewhouse.Kind, slug); err != nil {
		return "", nil, nil, err
	}
	if slug == "" && len(list) > 0 {
		slug, list[0].Chosen = list[0].Value, true
	}
	if slug == "" {
		return "", nil, list, nil
	}
	if _, err := s.book.Get(r.Context(), brewhouse.Kind, slug); err != nil {
		return "", nil, nil, err
	}
	house, err = optional(r.Context(), s, brewhouse.Kind, slug, brewhouse.Parse)
	return slug, house, list, err
}

// calendarPage shows which fermenter holds which beer on which days.
func (s *Server) calendarPage(w http.ResponseWriter, r *http.Request) error {
	slug, house, houses, err := s.houseOfCalendar(r)
	if err != nil {
		return err
	}
	c, nowhere, err := s.calendarOf(r.Context(), slug, house)
	if err != nil {
		return err
	}
	body := calendarBody{Houses: houses, House: slug, Nowhere: nowhere, Named: house != nil && len(house.Fermenter.Names) > 0,
		Typed: strings.TrimSpace(r.URL.Query().Get("from")), JSON: "/calendar.json?house=" + slug, HousePath: "/brewhouse/" + slug}
	if house != nil {
		body.Name = house.Name
	}
	first, status := calendar.After(c.Today, -calendarBefore), http.StatusOK
	if body.Typed != "" {
		if err := first.UnmarshalText([]byte(body.Typed)); err != nil {
			status, body.Fault = http.StatusUnprocessableEntity, fieldFault{"from", "“" + body.Typed + "” is no day", "write it as 2026-03-07"}
		}
	}
	body.fill(c, house, first, handOf(r).printer())
	return s.show(w, r, status, "page_calendar", Sheet{Title: "Calendar of fermenters", Chapter: gyle.Kind, Body: body})
}

// calendarJSON is the calendar for programs.
func (s *Server) calendarJSON(w http.ResponseWriter, r *http.Request) error {
	slug, house, _, err := s.houseOfCalendar(r)
	if err != nil {
		return err
	}
	c, nowhere, err := s.calendarOf(r.Context(), slug, house)
	if err != nil {
		return err
	}
	var names []string
	for _, b := range nowhere {
		names = append(names, b.Slug)
	}
	return answerJSON(w, http.StatusOK, c.Record(slug, names))
}

func (b *calendarBody) fill(c *calendar.Calendar, house *brewhouse.House, first quantity.Date, pr quantity.Printer) {
	last := calendar.After(first, calendarDays)
	b.From, b.To = first.Format("2 January 2006"), calendar.After(last, -1).Format("2 January 2006")
	at := func(day quantity.Date) string { return "/calendar?house=" + b.House + "&from=" + day.String() }
	b.Earlier, b.Later = at(calendar.After(first, -calendarDays+calendarBefore)), at(calendar.After(first, calendarDays-calendarBefore))
	clashing := map[string]bool{}
	for _, clash := range c.Clashes {
		clashing[clash.Want.Gyle], clashing[clash.Has.Gyle] = true, true
		free := c.FirstFree(clash.Want)
		b.Clashes = append(b.Clashes, clashRow{clash.Want.Vessel, clash.Want.Title, "/gyle/" + clash.Want.Gyle, clash.Has.Title, "/gyle/" + clash.Has.Gyle, clash.Has.To.String(), free.From.String()})
	}
	drawn := chart.Occupancy{Title: "What is in the fermenters of " + b.Name, Today: dayNumber(first, c.Today)}
	for day := range calendarDays {
		drawn.Days = append(drawn.Days, calendar.After(first, day).Format("2 Jan"))
	}
	within := c.Within(first, last)
	for _, vessel := range c.Vessels {
		v := chart.Vessel{Name: vessel}
		for _, s := range within {
			if s.Vessel != vessel {
				continue
			}
			ink := chart.Planned
			if s.State != calendar.Planned {
				ink = chart.Measured
			}
			v.Beers = append(v.Beers, chart.Beer{Name: s.Title, From: dayNumber(first, s.From), To: dayNumber(first, s.To), Ink: ink, Clash: clashing[s.Gyle]})
			b.Stays = append(b.Stays, stayRow{Stay: s, Path: "/gyle/" + s.Gyle, InVessel: s.State != calendar.Planned, From: s.From.String(), To: s.To.String()})
		}
		drawn.Vessels = append(drawn.Vessels, v)
	}
	if b.House != "" {
		b.Drawing = chart.Responsive(chart.Sheet{ID: "fermenters", Printer: pr}, func(s chart.Sheet) string { return chart.OccupancyBars(s, drawn) })
	}
	if !b.Named {
		return
	}
	_, days := calendar.NeedOf(nil, house).Days()
	for _, vessel := range house.Fermenter.Names {
		want := calendar.Stay{Vessel: vessel, From: c.Today, To: calendar.After(c.Today, days)}
		b.Free = append(b.Free, freeRow{vessel, c.FirstFree(want).From.String()})
	}
}

// dayNumber counts the days from one to another.
func dayNumber(first, day quantity.Date) int { return int(day.Sub(first.Time).Hours() / 24) }
