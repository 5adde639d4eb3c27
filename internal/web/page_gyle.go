// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/internal/document"
	"gyle/quantity"
)

// gyleBody is the sheet of one brewing.
type gyleBody struct {
	Document Document
	Gyle     *gyle.Gyle
	Path     string
	Rows     []dayRow
	Loose    []logLine // of the log, before and after the day
	Offers   []offerBody
	Next     string // what is due
	NextAt   string
	Over     bool // pitched
	BoilBy   string
	Fault    *gyleFault
	Vessels  []brewday.Use
	NoPlan   string
	EntryID  gyle.ID
	opened   gyle.ID // of a long run of readings: some are shown from here on
}

// gyleFault is what couldn't be logged, in the form that it came from.
type gyleFault struct {
	Task, Field, Typed, Text, Hint string
}

// dayRow is one task on the axis.
type dayRow struct {
	brewday.Task
	Clock, Planned string
	Slip           string
	Length         int // class of the row's height
	Slice          string
	Weight         string // hop charge that hangs here
	WeightAt       int    // place across the axis, in twentieths
	Lines          []logLine
	Asks           []askField
	Now            string // the ruler lies here
	IsNext         bool
}

// askField is one line of the form under a task.
type askField struct {
	brewday.Ask
	N     int
	Did   bool // the deed isn't in the log yet
	Fault *gyleFault
}

// logLine is one event of the log, as it counts and as it was.
type logLine struct {
	ID            gyle.ID
	Clock, Date   string
	Says, Meaning string
	Aside         string
	Was           []wasLine
	Struck        bool
	IsChoice      bool
	Cautions      []string // that were set aside in writing
	Folded        *foldedLines
	entry         gyle.Entry
}

// wasLine is what was first written of a corrected entry.
type wasLine struct{ Says, Why string }

// gylePage shows the brew day of a gyle.
func (s *Server) gylePage(w http.ResponseWriter, r *http.Request) error {
	return s.showGyle(w, r, http.StatusOK, nil)
}

func (s *Server) showGyle(w http.ResponseWriter, r *http.Request, status int, fault *gyleFault) error {
	g, d, err := s.gyle(r.Context(), r.PathValue("slug"))
	var faults document.Faults
	if errors.As(err, &faults) {
		return s.document(w, r)
	}
	if err != nil {
		return err
	}
	body := gyleBody{Document: d, Gyle: g, Path: d.Path(), Fault: fault, EntryID: NewEntryID(s.now()), opened: gyle.ID(r.URL.Query().Get("open"))}
	if err := s.fillDay(r.Context(), &body, handOf(r).printer()); err != nil {
		return err
	}
	if d.Deleted {
		status = http.StatusGone
	}
	return s.show(w, r, status, "page_gyle", Sheet{Title: d.Title, Chapter: gyle.Kind, Folio: folio(d), Notice: savedNotice(r, d), Path: d.Path(), Body: body})
}

// fillDay lays the day out and hangs the log on it.
func (s *Server) fillDay(ctx context.Context, b *gyleBody, pr quantity.Printer) error {
	laid, err := brewday.Of(b.Gyle, brewday.Options{Printer: pr, Now: s.nowIn(b.Gyle)})
	if err != nil {
		b.NoPlan, b.Loose = "This gyle was begun without a plan: there is only its log.", logLines(b.Gyle, pr, nil, b.opened)
		return nil
	}
	b.Vessels = laid.Uses
	b.BoilBy = boilNow(laid, pr)
	axis := newAxis(b.Gyle, laid, pr)
	standing, named := b.Gyle.Log.Standing(), map[gyle.ID]bool{}
	next, hasNext := laid.Next()
	pitched, _ := laid.Find("pitch")
	b.Over = pitched.State == brewday.Done
	if hasNext && !b.Over {
		b.Next, b.NextAt = next.What, next.At.Format("15:04")
	}
	for i, t := range laid.Tasks {
		row := dayRow{Task: t, Clock: t.At.Format("15:04"), Planned: t.Planned.Format("15:04"), Slip: slipWords(t), IsNext: hasNext && !b.Over && t.Key == next.Key}
		row.Slice, row.Length = axis.slice(i)
		row.Weight, row.WeightAt = axis.weight(t)
		for n, ask := range brewday.Asks(b.Gyle, t, pr) {
			row.Asks = append(row.Asks, askField{Ask: ask, N: n, Did: ask.Deed != nil && !logged(standing, ask), Fault: b.Fault.of(t.Key, n)})
		}
		b.Rows = append(b.Rows, row)
		for _, id := range t.Entries {
			named[id] = true
		}
	}
	b.hang(logLines(b.Gyle, pr, named, b.opened), pitched)
	s.rule(b)
	b.Offers, err = s.offers(ctx, b.Gyle, pr)
	return err
}

func (f *gyleFault) of(task string, n int) *gyleFault {
	if f == nil || f.Task != task || f.Field != fmt.Sprint(n) {
		return nil
	}
	return f
}

// nowIn is the moment that pushes what is overdue: now, on the day of brewing;
// nothing on other days, so that an old day stays as it was.
func (s *Server) nowIn(g *gyle.Gyle) gyle.Time {
	now := s.now()
	if g.Date.IsZero() || now.Format(time.DateOnly) != g.Date.Format(time.DateOnly) {
		return gyle.Time{}
	}
	return gyle.At(now)
}

// rule lays the ruler of now before the first task that is still to come.
func (s *Server) rule(b *gyleBody) {
	if s.nowIn(b.Gyle).IsZero() || b.Over {
		return
	}
	for i := range b.Rows {
		if b.Rows[i].State == brewday.Ahead || b.Rows[i].State == brewday.Due {
			b.Rows[i].Now = s.now().Format("15:04")
			return
		}
	}
}

// boilNow says how long the boil is and what decided on it, where it isn't
// the plan.
func boilNow(d *brewday.Day, pr quantity.Printer) string {
	switch d.BoilBy {
	case brewday.ByChoice:
		return "The boil is " + pr.Duration(d.Boil) + ", as chosen."
	case brewday.ByEvaporation:
		return "The boil is " + pr.Duration(d.Boil) + ", by the evaporation that was measured."
	}
	return ""
}

func slipWords(t brewday.Task) string {
	switch slip := t.Slip(); {
	case slip >= 1:
		return fmt.Sprintf("%.0f min late", slip.Minutes())
	case slip <= -1:
		return fmt.Sprintf("%.0f min early", -slip.Minutes())
	}
	return ""
}

// logged reports whether the log has the deed of an ask.
func logged(standing []gyle.Entry, ask brewday.Ask) bool {
	return slices.ContainsFunc(standing, func(e gyle.Entry) bool {
		return e.Deed != nil && e.Deed.Do == ask.Deed.Do && e.Deed.What == ask.Deed.What &&
			(e.Deed.Moment == "" || e.Deed.Moment == ask.Deed.Moment) && (e.Deed.Place == "" || e.Deed.Place == ask.Deed.Place)
	})
}

// logLineOf is the line of an event.
func logLineOf(g *gyle.Gyle, f gyle.Fact, pr quantity.Printer) logLine {
	e := f.Entry
	when := e.When()
	l := logLine{ID: e.ID, Clock: when.Format("15:04"), Date: when.Format("2 Jan 2006"), Says: e.WordsIn(pr), Meaning: meaning(g, e, pr), Aside: e.Note, Struck: f.Struck, IsChoice: e.Choice != nil, entry: e}
	if c := e.Choice; c != nil {
		l.Aside = strings.TrimSpace(strings.Join([]string{c.Why, e.Note}, " "))
	}
	if e.Override != nil {
		l.Cautions = e.Override.Refused
	}
	if e.Reading != nil {
		l.Aside = strings.Trim(strings.Join([]string{e.Reading.With, e.Note}, ", "), ", ")
	}
	if l.Says == "" {
		l.Says, l.Aside = l.Aside, ""
	}
	before := f.Original
	for _, c := range f.Corrections {
		l.Was = append(l.Was, wasLine{before.WordsIn(pr), c.Correction.Why})
		if c.Sort() != "strike" {
			before = c
		}
	}
	return l
}

// hang puts each line of the log under its task: the one that it shows done,
// else the last that had begun.
func (b *gyleBody) hang(lines []logLine, pitched brewday.Task) {
	for _, l := range lines {
		when := l.entry.When()
		at := -1
		for n, r := range b.Rows { // the last is the most particular: chocolate in, not dough in
			if slices.Contains(r.Entries, l.ID) {
				at = n
			}
		}
		if d := l.entry.Deed; at < 0 || d != nil && d.Do == gyle.HeatOn && d.Place == gyle.AtMash {
			at = b.place(l.entry)
		}
		if pitched.State == brewday.Done && when.After(pitched.At.Time.Add(time.Hour)) {
			at = -1
		}
		if at < 0 {
			b.Loose = append(b.Loose, l)
			continue
		}
		b.Rows[at].Lines = append(b.Rows[at].Lines, l)
	}
}

// place finds the row of an entry that no task names: the one that asks for
// such a reading, else the last that had begun.
func (b *gyleBody) place(e gyle.Entry) int {
	at := -1
	for i, r := range b.Rows {
		if r.State == brewday.Done && !r.At.After(e.When().Time) {
			at = i
		}
		for _, a := range r.Asks {
			if e.Reading != nil && a.Reading != nil && a.Reading.At == e.Reading.At && a.Reading.Of == e.Reading.Of && e.Reading.At != gyle.AtMash {
				return i
			}
		}
	}
	return at
}
