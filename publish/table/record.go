// SPDX-License-Identifier: MIT

package table

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"gyle/day"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/tasting"
)

// Log is the log of a gyle as it counts, an entry a line. What was typed stands
// as it was typed; what it means has columns of its own.
func Log(g *gyle.Gyle, pr quantity.Printer) Table {
	u := units{pr}
	t := Table{Head: []string{"id", "time", "who", "sort", "at", "of", "as read", "value", "unit", "volume at 20 °C L", "gravity SG", "says", "with", "note", "struck", "corrected by"}}
	for _, f := range g.Log.Current() {
		e := f.Entry
		row := []string{string(e.ID), e.When().String(), e.Who, e.Sort(), "", "", "", "", "", "", "", e.WordsIn(pr), "", e.Note, "", ""}
		switch {
		case e.Reading != nil:
			row[4], row[5], row[6], row[12] = string(e.Reading.At), string(e.Reading.Of), e.Reading.Value, e.Reading.With
			if m, err := e.Reading.Measured(); err == nil {
				row[7], row[8] = u.number(m.Value, 6), m.Unit
			}
		case e.Deed != nil:
			row[4] = string(e.Deed.Place)
		case e.Series != nil:
			row[4], row[12] = string(e.Series.At), e.Series.With
		}
		if m, ok := day.MeaningOf(g, e); ok {
			row[9], row[10] = u.known(float64(m.Volume), 3), u.known(float64(m.Gravity), 5)
		}
		if f.Struck {
			row[14] = "yes"
		}
		var by []string
		for _, c := range f.Corrections {
			by = append(by, string(c.ID))
		}
		row[15] = strings.Join(by, " ")
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Readings are the readings at the fermenter by time, single ones and those of
// loggers, as "gyle log --csv" reads them back.
func Readings(g *gyle.Gyle, pr quantity.Printer) Table {
	u := units{pr}
	rows := map[string]map[gyle.Column]string{} // by the time as it is written
	put := func(at gyle.Time, c gyle.Column, text string) {
		key := at.Format(time.RFC3339)
		if rows[key] == nil {
			rows[key] = map[gyle.Column]string{}
		}
		rows[key][c] = text
	}
	for _, e := range g.Log.Standing() {
		if e.Series != nil {
			for _, s := range e.Series.Samples() {
				for i, c := range e.Series.Columns {
					if i < len(s.Values) && !math.IsNaN(s.Values[i]) {
						put(s.When, plain(c), u.number(s.Values[i], 6))
					}
				}
			}
		}
		if e.Reading == nil || e.Reading.At != gyle.AtFermenter {
			continue
		}
		m, err := e.Reading.Measured()
		at := slices.IndexFunc(gyle.SeriesColumns(), func(c gyle.Column) bool { return plain(c) == plain(gyle.Column{Of: m.Of, Unit: m.Unit}) })
		if err == nil && at >= 0 {
			put(e.When(), plain(gyle.Column{Of: m.Of, Unit: m.Unit}), u.number(m.Value, 6))
		}
	}
	return laidOut(rows)
}

// plain is the column whose unit is that of [gyle.Measured].
func plain(c gyle.Column) gyle.Column {
	switch {
	case c.Of == gyle.OfRefractometer:
		c.Unit = "°Bx"
	case c.Unit == "°Bx":
		c.Unit = "°P"
	case c.Unit == "°F":
		c.Unit = "°C"
	case c.Unit == "psi":
		c.Unit = "bar"
	}
	return c
}

// laidOut puts readings into columns, the columns that hold something.
func laidOut(rows map[string]map[gyle.Column]string) Table {
	t := Table{Head: []string{"time"}}
	var have []gyle.Column
	for _, c := range gyle.SeriesColumns() {
		for _, row := range rows {
			if row[c] != "" {
				have = append(have, c)
				t.Head = append(t.Head, c.String())
				break
			}
		}
	}
	moment := func(text string) time.Time {
		at, _ := time.Parse(time.RFC3339, text) // it was written so
		return at
	}
	for _, at := range slices.SortedFunc(maps.Keys(rows), func(a, b string) int { return cmp.Or(moment(a).Compare(moment(b)), cmp.Compare(a, b)) }) {
		row := []string{at}
		for _, c := range have {
			row = append(row, rows[at][c])
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Answers are the answers of a tasting that count, a line for each answer or
// score. Beers stand in it only where the key is open.
func Answers(d *tasting.Tasting, pr quantity.Printer) Table {
	u := units{pr}
	t := Table{Head: []string{"flight", "kind", "taster", "set", "served", "answer", "beer", "says", "attribute", "score", "at", "comment"}}
	for i := range d.Flights {
		f := &d.Flights[i]
		for _, a := range f.Standing() {
			row := []string{f.Name, string(f.Kind), a.Taster, "", served(f, a.Answer), answer(a.Answer), beer(f, a.Answer), a.Says, "", "", a.At.String(), a.Comment}
			if a.Set > 0 {
				row[3] = strconv.Itoa(a.Set)
			}
			if len(a.Scores) == 0 {
				t.Rows = append(t.Rows, row)
			}
			for _, s := range a.Scores {
				one := slices.Clone(row)
				one[8], one[9] = s.Key, u.number(s.Value, 3)
				t.Rows = append(t.Rows, one)
			}
		}
	}
	return t
}

func served(f *tasting.Flight, a tasting.Answer) string {
	for _, s := range f.Serving {
		if s.Taster == a.Taster && s.Set == a.Set {
			return joined(s.Codes)
		}
	}
	return ""
}

func answer(a tasting.Answer) string {
	return cmp.Or(string(a.Code), joined(a.Codes))
}

// beer names the beer of the answer's glass once the key is open.
func beer(f *tasting.Flight, a tasting.Answer) string {
	if f.Key == nil || a.Code == "" {
		return ""
	}
	return f.Key.BeerOf(a.Code)
}

func joined(codes []tasting.Code) string {
	var list []string
	for _, c := range codes {
		list = append(list, string(c))
	}
	return strings.Join(list, " ")
}
