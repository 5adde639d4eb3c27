// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"
	"time"

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
	now := s.now()
	g := gyle.Gyle{
		Name: p.in.Recipe.Name, Date: gyle.Date{Time: time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)},
		Brewer: handOf(r).Author, Recipe: gyle.Ref{ID: q.Recipe, Version: p.in.Recipe.Version},
		House: q.House, Stock: q.Stock, Water: q.Water, Style: q.Style, Instruments: usualInstruments(),
	}
	if g.Style == "" {
		g.Style = p.in.Recipe.Style
	}
	if v := p.in.Recipe.Version; v > 0 {
		g.Name = fmt.Sprintf("%s %d", g.Name, v)
	}
	if typed := strings.TrimSpace(r.PostFormValue("brewday")); typed != "" {
		if err := g.Date.UnmarshalText([]byte(typed)); err != nil {
			return &RefusedError{"“" + typed + "” is no day: write it as 2026-03-07."}
		}
	}
	g.Plan = brewday.Snapshot(p.plan, program, now)
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
