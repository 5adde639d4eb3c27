// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/quantity"
)

// logForm is a form under a task, or the line in which anything may be said.
type logForm struct {
	id   gyle.ID // of its entries; sent twice, it adds nothing
	at   gyle.Time
	who  string
	back string
}

// readLogForm reads the gyle of a form and what every such form has.
func (s *Server) readLogForm(r *http.Request) (g *gyle.Gyle, f logForm, fault *gyleFault, err error) {
	if g, _, err = s.gyle(r.Context(), r.PathValue("slug")); err != nil {
		return nil, f, nil, err
	}
	if err := readForm(r); err != nil {
		return nil, f, nil, err
	}
	f.who = handOf(r).Author
	if err := f.id.UnmarshalText([]byte(r.PostFormValue("id"))); err != nil || f.id == "" {
		return nil, f, nil, errBadForm
	}
	typed := strings.TrimSpace(r.PostFormValue("when"))
	if f.at, err = s.readWhen(typed, g); err != nil {
		return g, f, &gyleFault{Task: r.PostFormValue("task"), Field: "when", Typed: typed, Text: err.Error(), Hint: "write 10:30, or 2026-03-07 10:30"}, nil
	}
	f.back = "/gyle/" + url.PathEscape(r.PathValue("slug"))
	if back := r.PostFormValue("back"); back == "kettle" || back == "cellar" {
		f.back += "/" + back
	}
	return g, f, nil, nil
}

// readWhen reads a time as it is typed; nothing is now. A clock alone is that
// of the day of brewing, or of today where that is over.
func (s *Server) readWhen(typed string, g *gyle.Gyle) (gyle.Time, error) {
	if typed == "" {
		return gyle.At(s.now()), nil
	}
	zone := g.Zone()
	for _, form := range []string{time.RFC3339, "2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04"} {
		if t, err := time.ParseInLocation(form, typed, zone); err == nil {
			return gyle.At(t), nil
		}
	}
	clock, err := time.ParseInLocation("15:04", strings.ReplaceAll(typed, ".", ":"), zone)
	if err != nil {
		return gyle.Time{}, fmt.Errorf("“%s” is no time of the clock", typed)
	}
	date := s.now().In(zone)
	if !g.Date.IsZero() && date.Before(g.Date.AddDate(0, 0, 2)) {
		date = g.Date.Time
	}
	return gyle.At(time.Date(date.Year(), date.Month(), date.Day(), clock.Hour(), clock.Minute(), 0, 0, zone)), nil
}

// logGyle appends what a form says.
func (s *Server) logGyle(w http.ResponseWriter, r *http.Request) error {
	g, f, fault, err := s.readLogForm(r)
	if err != nil {
		return err
	}
	var entries []gyle.Entry
	if fault == nil {
		entries, fault = entriesOf(r, g)
	}
	if fault != nil {
		return s.showGyle(w, r, http.StatusUnprocessableEntity, fault)
	}
	for i := range entries {
		entries[i].ID, entries[i].Time, entries[i].Who = f.id, f.at, f.who
		if i > 0 {
			entries[i].ID += gyle.ID(fmt.Sprintf("-%d", i))
		}
	}
	if err := AppendEntries(r.Context(), s.book, r.PathValue("slug"), entries...); err != nil {
		return err
	}
	return seeOther(w, r, f.back+"#"+anchor(r.PostFormValue("task")))
}

// anchor is the id of a task on the page.
func anchor(task string) string {
	if task == "" {
		return "log"
	}
	return "task-" + strings.ReplaceAll(task, " ", "-")
}

// Anchor is the id of the row on the page.
func (r dayRow) Anchor() string { return anchor(r.Key) }

// entriesOf makes entries of a form: the fields of a task, or a line.
func entriesOf(r *http.Request, g *gyle.Gyle) ([]gyle.Entry, *gyleFault) {
	key := r.PostFormValue("task")
	if key == "" {
		said := r.PostFormValue("said")
		e, _, err := g.Said(said)
		if err != nil {
			return nil, logFault("", "said", said, err)
		}
		return []gyle.Entry{e}, nil
	}
	task, ok := taskOf(g, key)
	if !ok {
		return nil, &gyleFault{Task: key, Field: "when", Text: "the plan has no such task"}
	}
	var entries []gyle.Entry
	for n, ask := range brewday.Asks(g, task, quantity.Printer{}) {
		typed := strings.TrimSpace(r.PostFormValue("v" + strconv.Itoa(n)))
		if ask.Deed != nil && r.PostFormValue("d"+strconv.Itoa(n)) == "" {
			continue
		}
		e, _, err := ask.Entry(g, typed)
		if err != nil {
			return nil, logFault(key, strconv.Itoa(n), typed, err)
		}
		if e.Sort() != "strike" {
			entries = append(entries, e)
		}
	}
	if note := strings.TrimSpace(r.PostFormValue("note")); note != "" {
		if len(entries) == 0 {
			entries = append(entries, gyle.Entry{})
		}
		entries[0].Note = note
	}
	if len(entries) == 0 {
		return nil, &gyleFault{Task: key, Field: "when", Text: "nothing was typed, so there is nothing to log"}
	}
	return entries, nil
}

// taskOf finds a task of the day of a gyle. Asks don't depend on units.
func taskOf(g *gyle.Gyle, key string) (brewday.Task, bool) {
	laid, err := brewday.Of(g, brewday.Options{})
	if err != nil {
		return brewday.Task{}, false
	}
	return laid.Find(key)
}

func logFault(task, field, typed string, err error) *gyleFault {
	f := &gyleFault{Task: task, Field: field, Typed: typed, Text: err.Error()}
	var parse *quantity.ParseError
	if errors.As(err, &parse) {
		f.Text, f.Hint = parse.Msg, parse.Hint
	}
	return f
}

// strikeGyle takes an entry back. Both stay in the log.
func (s *Server) strikeGyle(w http.ResponseWriter, r *http.Request) error {
	g, f, fault, err := s.readLogForm(r)
	if err != nil {
		return err
	}
	of := gyle.ID(r.PostFormValue("of"))
	for _, e := range g.Log {
		if e.ID != of || fault != nil {
			continue
		}
		strike := gyle.Strike(of, f.id, gyle.At(s.now()), f.who, strings.TrimSpace(r.PostFormValue("why")))
		if strike.Time.Before(e.Time.Time) { // typed for a later hour
			strike.Time = e.Time.Add(quantity.Seconds(1))
		}
		if err := AppendEntries(r.Context(), s.book, r.PathValue("slug"), strike); err != nil {
			return err
		}
		return seeOther(w, r, f.back+"#log")
	}
	return errBadForm
}

// correctGyle writes what a reading or deed should have been.
func (s *Server) correctGyle(w http.ResponseWriter, r *http.Request) error {
	g, f, _, err := s.readLogForm(r)
	if err != nil {
		return err
	}
	of, typed := gyle.ID(r.PostFormValue("of")), strings.TrimSpace(r.PostFormValue("value"))
	for _, e := range g.Log.Standing() {
		if e.ID != of {
			continue
		}
		by, err := instead(g, e, typed)
		if err != nil {
			return s.showGyle(w, r, http.StatusUnprocessableEntity, logFault("", "said", typed, err))
		}
		by.ID, by.Time, by.Who = f.id, f.at, f.who
		if by.Time.Before(e.Time.Time) {
			by.Time = e.Time.Add(quantity.Seconds(1))
		}
		by.Correction = &gyle.Correction{Of: of, Why: strings.TrimSpace(r.PostFormValue("why"))}
		if err := AppendEntries(r.Context(), s.book, r.PathValue("slug"), by); err != nil {
			return err
		}
		return seeOther(w, r, f.back+"#log")
	}
	return errBadForm
}

// instead is the body that stands in the place of an entry.
func instead(g *gyle.Gyle, e gyle.Entry, typed string) (gyle.Entry, error) {
	switch {
	case e.Reading != nil:
		next := *e.Reading
		next.Value, next.Sample = typed, quantity.Temperature{}
		if m, err := gyle.ParseReading(typed, next.Of); err == nil && m.Sample.IsZero() {
			next.Sample = e.Reading.Sample
		}
		by, _, err := g.Read(next)
		return by, err
	case e.Deed != nil:
		next := *e.Deed
		next.Mass, next.Volume = nil, nil
		err := next.SetAmount(typed)
		return gyle.Entry{Deed: &next}, err
	}
	return gyle.Entry{Note: typed}, nil
}
