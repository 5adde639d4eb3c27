// SPDX-License-Identifier: MIT

package causes

import (
	"gyle/gyle"
	"gyle/quantity"
)

// A reader finds things in the log of one brew.
type reader struct {
	Brew
	pr       quantity.Printer
	plan     *gyle.Plan // nil: none
	standing []gyle.Entry
}

func newReader(b Brew, pr quantity.Printer) *reader {
	return &reader{Brew: b, pr: pr, plan: b.Gyle.Plan, standing: b.Gyle.Log.Standing()}
}

// shows, silent and against make the three kinds of signs.
func shows(text string, entries ...gyle.Entry) Sign   { return Sign{Shows, text, ids(entries)} }
func against(text string, entries ...gyle.Entry) Sign { return Sign{Against, text, ids(entries)} }
func silent(text string) Sign                         { return Sign{State: Silent, Text: text} }

// decide makes a sign that either shows a cause or speaks against it.
func decide(yes bool, text string, entries ...gyle.Entry) Sign {
	if yes {
		return shows(text, entries...)
	}
	return against(text, entries...)
}

func ids(entries []gyle.Entry) (list []gyle.ID) {
	for _, e := range entries {
		if e.ID != "" {
			list = append(list, e.ID)
		}
	}
	return list
}

// deeds lists the entries of a kind of deed.
func (r *reader) deeds(do gyle.Do) (list []gyle.Entry) {
	for _, e := range r.standing {
		if e.Deed != nil && e.Deed.Do == do {
			list = append(list, e)
		}
	}
	return list
}

// first is the first deed of a kind.
func (r *reader) first(do gyle.Do) (gyle.Entry, bool) {
	list := r.deeds(do)
	if len(list) == 0 {
		return gyle.Entry{}, false
	}
	return list[0], true
}

// read is one number of the log.
type read struct {
	entry gyle.Entry
	when  gyle.Time
	value float64 // as gyle.Measured has it
}

// readings lists what was read of something at a place, by hand or by an
// instrument, in the order of time.
func (r *reader) readings(of gyle.Of, at gyle.Place) (list []read) {
	for _, e := range r.standing {
		switch {
		case e.Reading != nil && e.Reading.Of == of && e.Reading.At == at:
			if m, err := e.Reading.Measured(); err == nil {
				list = append(list, read{e, e.When(), m.Value})
			}
		case e.Series != nil && e.Series.At == at && e.Series.Column(of) >= 0:
			column := e.Series.Column(of)
			for _, sample := range e.Series.Samples() {
				if v := sample.Values[column]; v == v { // a number
					list = append(list, read{e, sample.When, v})
				}
			}
		}
	}
	return list
}

// highest returns the largest of some readings.
func highest(list []read) (most read) {
	for i, x := range list {
		if i == 0 || x.value > most.value {
			most = x
		}
	}
	return most
}

// between keeps the readings of a time; a zero end is open.
func between(list []read, from, to gyle.Time) (kept []read) {
	for _, x := range list {
		if !x.when.Before(from.Time) && (to.IsZero() || !x.when.After(to.Time)) {
			kept = append(kept, x)
		}
	}
	return kept
}

// clock prints a time of the brew day, with its day when it is another.
func (r *reader) clock(t gyle.Time) string {
	if r.Gyle.Date.IsZero() || t.Format("2006-01-02") == r.Gyle.Date.String() {
		return t.Format("15:04")
	}
	return t.Format("2 January 15:04")
}

// figure is a figure of the plan.
func (r *reader) figure(of quantity.Figure) (float64, bool) {
	if r.plan == nil {
		return 0, false
	}
	for _, f := range r.plan.Figures {
		if f.Figure == of {
			return f.Value, true
		}
	}
	return 0, false
}

// celsius prints a temperature that was read.
func (r *reader) celsius(c float64) string { return r.pr.Temperature(quantity.Celsius(c)) }

// days counts the days between two moments.
func days(from, to gyle.Time) float64 { return to.Sub(from.Time).Hours() / 24 }
