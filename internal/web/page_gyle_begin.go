// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"

	"gyle/calendar"
	brewday "gyle/day"
	"gyle/gyle"
	"gyle/quantity"
)

// program names what makes the plans that gyles keep.
const program = "gyle 0.1"

// usualInstruments are what a new gyle lists; the brewer changes them as text.
func usualInstruments() []gyle.Instrument {
	return []gyle.Instrument{
		{Name: "stick", Of: gyle.OfVolume, SD: "0.2 L"}, {Name: "hydrometer", Of: gyle.OfGravity, SD: "0.0005", At: quantity.Celsius(20)},
		{Name: "refractometer", Of: gyle.OfRefractometer, SD: "0.1 °Bx"}, {Name: "probe", Of: gyle.OfTemperature, SD: "0.5 K"}, {Name: "pH meter", Of: gyle.OfPH, SD: "0.05"},
	}
}

// beginGyle begins a gyle from a plan: the plan as it stands now goes into a
// new document.
func (s *Server) beginGyle(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	q := readPlanQuery(r.PostForm)
	p, err := s.readPlan(r.Context(), q)
	if err == nil {
		err = missingDocuments(p)
	}
	if err != nil {
		return &RefusedError{"The plan can't be read any more: " + err.Error() + "."}
	}
	if err := p.make(); err != nil {
		return &RefusedError{"The plan can't be made any more: " + err.Error() + "."}
	}
	g := s.newGyle(q, p, handOf(r).Author)
	g.Plan = brewday.Snapshot(p.plan, program, s.now()) // its dry hops and temperatures decide the days
	ask := vesselAsk{Query: q, Day: strings.TrimSpace(r.PostFormValue("brewday")), Vessel: strings.TrimSpace(r.PostFormValue("fermenter"))}
	if ask.Day != "" {
		if err := g.Date.UnmarshalText([]byte(ask.Day)); err != nil {
			ask.Fault = fieldFault{"brewday", "“" + ask.Day + "” is no day", "write it as 2026-03-07"}
			return s.askVessel(w, r, p, ask)
		}
	}
	s.starting.Lock() // two gyles that begin at once can't both find a vessel free
	defer s.starting.Unlock()
	clash, err := s.reserve(r.Context(), q.House, p.in.House, &g, ask.Vessel)
	if err != nil {
		return err
	}
	if clash != nil {
		ask.Day, ask.Vessel, ask.Clash = g.Date.String(), clash.Want.Vessel, clash
		ask.Fault = fieldFault{"brewday", clash.Error(), ""}
		return s.askVessel(w, r, p, ask)
	}
	text, err := g.Text()
	if err != nil {
		return err
	}
	saved, err := s.saveUnder(w, r, gyle.Kind, g.Name+" "+g.Date.String(), string(text), handOf(r).Author)
	if err != nil {
		return err
	}
	return seeOther(w, r, saved.Path())
}

// newGyle is the gyle of a plan that begins today, without its plan.
func (s *Server) newGyle(q planQuery, p planned, author string) gyle.Gyle {
	g := gyle.Gyle{
		Name: p.in.Recipe.Name, Date: calendar.DayOf(s.now()),
		Brewer: author, Recipe: gyle.Ref{ID: q.Recipe, Version: p.in.Recipe.Version},
		House: q.House, Stock: q.Stock, Water: q.Water, Style: q.Style, Instruments: usualInstruments(),
	}
	if g.Style == "" {
		g.Style = p.in.Recipe.Style
	}
	if v := p.in.Recipe.Version; v > 0 {
		g.Name = fmt.Sprintf("%s %d", g.Name, v)
	}
	return g
}

// brewFields are the fields of a form that begins a gyle from a plan; none
// where the book keeps no gyles.
func (s *Server) brewFields(q planQuery) (fields []option) {
	if _, err := s.chapter(gyle.Kind); err != nil {
		return nil
	}
	values := q.values()
	for _, key := range slices.Sorted(maps.Keys(values)) {
		for _, v := range values[key] {
			fields = append(fields, option{Value: key, Name: v})
		}
	}
	return fields
}
