// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http"

	"gyle/brewhouse"
	"gyle/calendar"
	"gyle/gyle"
)

// vesselAsk asks for another day or vessel, with what was typed.
type vesselAsk struct {
	Title       string
	Query       planQuery
	Fields      []option // of the query
	Day, Vessel string
	Fermenters  []option
	Fault       fieldFault
	Clash       *calendar.Clash
	Free        string // day that one press takes
	Calendar    string // its address
}

// fermenterOptions are the named fermenters of a house to choose from; none where
// there is nothing to choose.
func fermenterOptions(house *brewhouse.House) (list []option) {
	if house == nil || len(house.Fermenter.Names) < 2 {
		return nil
	}
	list = []option{{Value: "", Name: "the first that is free"}}
	for _, name := range house.Fermenter.Names {
		list = append(list, option{Value: name, Name: name})
	}
	return list
}

// reserve puts a new gyle into a fermenter of its house. It returns what is in
// the way, if anything is. Where a house names one fermenter it is that; where
// several have names and none was chosen, the first that is free on the day.
func (s *Server) reserve(ctx context.Context, slug string, house *brewhouse.House, g *gyle.Gyle, chosen string) (*calendar.Clash, error) {
	if house == nil || len(house.Fermenter.Names) == 0 {
		return nil, nil // nobody knows how many there are
	}
	c, _, err := s.calendarOf(ctx, slug, house)
	if err != nil {
		return nil, err
	}
	names := house.Fermenter.Names
	if chosen != "" {
		names = []string{chosen}
	}
	var first *calendar.Clash
	for _, name := range names {
		g.Vessels = []gyle.Vessel{{Name: name, For: "fermenter", Holds: house.Fermenter.Vessel}}
		want, ok := calendar.StayOf("", g, house)
		if !ok {
			return nil, nil
		}
		clash := c.Reserve(want)
		if clash == nil {
			return nil, nil
		}
		if first == nil {
			first = clash
		}
	}
	return first, nil
}

// askVessel shows the form again: why not, and what would do by one press.
func (s *Server) askVessel(w http.ResponseWriter, r *http.Request, p planned, ask vesselAsk) error {
	ask.Title, ask.Fields = recipeName(p), s.brewFields(ask.Query)
	ask.Fermenters = fermenterOptions(p.in.House)
	for i := range ask.Fermenters {
		ask.Fermenters[i].Chosen = ask.Fermenters[i].Value == ask.Vessel
	}
	ask.Calendar = "/calendar?house=" + ask.Query.House
	if ask.Clash != nil && ask.Clash.Free != nil {
		ask.Free = ask.Clash.Free.String()
	}
	return s.show(w, r, http.StatusUnprocessableEntity, "page_calendar_begin", Sheet{Title: "Brew " + ask.Title, Chapter: gyle.Kind, Body: ask})
}
