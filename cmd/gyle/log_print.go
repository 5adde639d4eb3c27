// SPDX-License-Identifier: MIT

package main

import (
	"strings"

	"gyle/day"
	"gyle/gyle"
	"gyle/quantity"
)

// entryJSON is one event of a log, for programs.
type entryJSON struct {
	ID          string   `json:"id"`
	Time        string   `json:"time"` // the error of the clock taken off
	Who         string   `json:"who,omitempty"`
	Sort        string   `json:"sort"`
	At          string   `json:"at,omitempty"`
	Says        string   `json:"says"`              // as it counts
	Meaning     string   `json:"meaning,omitempty"` // corrected to 20 °C
	With        string   `json:"with,omitempty"`
	Note        string   `json:"note,omitempty"`
	Was         string   `json:"was,omitempty"` // as it was first written, where it was corrected
	Why         string   `json:"why,omitempty"` // of the last correction
	Struck      bool     `json:"struck,omitempty"`
	Corrections []string `json:"corrections,omitempty"` // ids
}

func logJSON(g *gyle.Gyle, pr quantity.Printer) []entryJSON {
	list := []entryJSON{}
	for _, f := range g.Log.Current() {
		list = append(list, entryJSONOf(g, f, pr))
	}
	return list
}

func entryJSONOf(g *gyle.Gyle, f gyle.Fact, pr quantity.Printer) entryJSON {
	e := f.Entry
	out := entryJSON{
		ID: string(e.ID), Time: e.When().String(), Who: e.Who, Sort: e.Sort(), Says: e.WordsIn(pr), Meaning: meaningOf(g, e, pr),
		Note: e.Note, Struck: f.Struck, At: string(placeOf(e)),
	}
	if e.Reading != nil {
		out.With = e.Reading.With
	}
	if f.Corrected() {
		if was := f.Original.WordsIn(pr); was != out.Says {
			out.Was = was
		}
		for _, c := range f.Corrections {
			out.Corrections, out.Why = append(out.Corrections, string(c.ID)), c.Correction.Why
		}
	}
	return out
}

func placeOf(e gyle.Entry) gyle.Place {
	switch {
	case e.Reading != nil:
		return e.Reading.At
	case e.Deed != nil:
		return e.Deed.Place
	case e.Series != nil:
		return e.Series.At
	}
	return ""
}

// meaningOf says what a reading means: a hot volume at 20 °C, a gravity of a
// warm sample corrected. It is empty where the reading means what it says.
func meaningOf(g *gyle.Gyle, e gyle.Entry, pr quantity.Printer) string {
	m, ok := day.MeaningOf(g, e)
	switch {
	case ok && m.Gravity == 0:
		return pr.Volume(m.Volume) + " at 20 °C"
	case ok && pr.SG(m.Gravity) != e.Reading.Value:
		return pr.SG(m.Gravity)
	}
	return ""
}

// printLog prints a log: as it counts, what was first written crossed below.
func printLog(out *sheet, g *gyle.Gyle, pr quantity.Printer) {
	out.note("○", gyleTitle(g)+", "+g.Date.String())
	date := ""
	for _, f := range g.Log.Current() {
		e := f.Entry
		when := e.When()
		if d := when.Format("Monday 2 January 2006"); d != date {
			out.heading("%s", d)
			date = d
		}
		mark := "●"
		switch {
		case f.Struck:
			mark = "✕"
		case e.Choice != nil:
			mark = "→"
		case e.Override != nil:
			mark = "!"
		case e.Reading == nil && e.Series == nil:
			mark = "·"
		}
		says := e.WordsIn(pr)
		if meaning := meaningOf(g, e, pr); meaning != "" {
			says += " → " + meaning
		}
		out.row(mark, when.Format("15:04"), string(placeOf(e)), strings.TrimSpace(says), strings.Join(asides(f, pr), "; "), string(e.ID))
		for _, c := range f.Corrections {
			out.row("✕", "", "", f.Original.WordsIn(pr), strings.TrimPrefix(c.Correction.Why, " "), string(c.ID))
		}
	}
	out.flush()
}

// asides are what stands behind an entry in smaller words.
func asides(f gyle.Fact, pr quantity.Printer) (list []string) {
	add := func(text string) {
		if text != "" {
			list = append(list, text)
		}
	}
	e := f.Entry
	if e.Reading != nil {
		add(e.Reading.With)
		add(e.Reading.Mark)
	}
	if e.Series != nil {
		add(e.Series.With)
	}
	if e.Override != nil {
		list = append(list, e.Override.Refused...)
	}
	if c := e.Choice; c != nil {
		add(c.Why)
		if len(c.Offered) > 0 {
			add("of " + strings.Join(c.Offered, ", "))
		}
	}
	if e.Interruption != nil && e.Interruption.To.IsZero() {
		add("not over")
	}
	add(e.Note)
	return list
}
