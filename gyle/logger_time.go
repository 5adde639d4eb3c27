// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"gyle/internal/document"
	"gyle/quantity"
)

// loggerTimes reads the times of a table.
type loggerTimes struct {
	column, clock int      // places in a record; clock −1 where it stands with the day
	means         string   // of the column
	layouts       []string // that may be meant
	last          string   // the one that fitted before
}

// understandTimes finds the columns of the time, and whether the day or the
// month stands first.
func (t *loggerTable) understandTimes() error {
	t.times.clock = -1
	for i, c := range t.columns {
		switch c.Means {
		case LoggerTime, LoggerDate, LoggerDays, LoggerHours, LoggerMinutes, LoggerSeconds:
			t.times.column, t.times.means = i, c.Means
		case LoggerClock:
			t.times.clock = i
		}
	}
	switch t.times.means {
	case LoggerTime, LoggerDate:
	default:
		if t.file.Since.IsZero() {
			return document.Faults{{File: t.file.Name, Line: 1, Col: 1, Msg: "the times count from a beginning, and the log doesn't say when the yeast was pitched", Hint: "log pitch first, or say since when"}}
		}
		return nil
	}
	order := t.file.Dates
	if order == "" {
		var sure bool
		if order, sure = t.orderOfDates(); !sure {
			return &LoggerQuestion{Columns: t.columns, Dates: true, Msg: fmt.Sprintf("“%s” can be read with the day or with the month first: say which", t.example(t.times.column))}
		}
	}
	t.times.layouts = layouts(order)
	return nil
}

// orderOfDates finds out by a day above 12 whether the day or the month stands
// first in dates with slashes.
func (t *loggerTable) orderOfDates() (order string, sure bool) {
	slashes := false
	for _, r := range t.records {
		if t.times.column >= len(r.cells) {
			continue
		}
		parts := strings.FieldsFunc(r.cells[t.times.column], func(r rune) bool { return r < '0' || r > '9' })
		if !strings.Contains(r.cells[t.times.column], "/") || len(parts) < 3 || len(parts[0]) == len("2026") {
			continue
		}
		slashes = true
		const months = 12
		if first, err := strconv.Atoi(parts[0]); err == nil && first > months {
			return DayFirst, true
		}
		if second, err := strconv.Atoi(parts[1]); err == nil && second > months {
			return MonthFirst, true
		}
	}
	return DayFirst, !slashes
}

// layouts are the ways in which a day and a clock may be written.
func layouts(order string) (all []string) {
	days := []string{"2006-1-2", "2006/1/2", "2006.1.2", "2.1.2006", "2.1.06", "2 Jan 2006", "Jan 2 2006", "Jan 2, 2006"}
	if order == MonthFirst {
		days = append(days, "1/2/2006", "1/2/06", "1-2-2006")
	} else {
		days = append(days, "2/1/2006", "2/1/06", "2-1-2006")
	}
	for _, day := range days {
		for _, between := range []string{" ", "T", ", "} {
			for _, clock := range []string{"15:04:05", "15:04", "3:04:05 PM", "3:04 PM", "3:04:05PM", "3:04PM"} {
				for _, zone := range []string{"", "Z07:00", " Z07:00", "Z0700", " -0700", " UTC"} {
					all = append(all, day+between+clock+zone)
				}
			}
		}
		all = append(all, day)
	}
	return all
}

// when reads the time of a line; cell is where a fault is.
func (t *loggerTable) when(r loggerRecord) (when Time, cell int, err error) {
	cell = t.times.column
	text := r.cells[cell]
	switch t.times.means {
	case LoggerDays, LoggerHours, LoggerMinutes, LoggerSeconds:
		when, err = t.elapsed(text)
		return when, cell, err
	}
	if t.times.clock >= 0 {
		text += " " + r.cells[t.times.clock]
	}
	when, err = t.date(strings.Join(strings.Fields(text), " "))
	return when, cell, err
}

func (t *loggerTable) elapsed(text string) (Time, error) {
	x, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || x < 0 || x > 1e9 {
		return Time{}, fmt.Errorf("“%s” is no number of %s", text, t.times.means)
	}
	unit := map[string]quantity.Duration{LoggerDays: quantity.Days(1), LoggerHours: quantity.Hours(1), LoggerMinutes: 1, LoggerSeconds: quantity.Seconds(1)}[t.times.means]
	when := t.file.Since.Add(quantity.Duration(x) * unit)
	return Time{Time: when.Round(time.Second)}, nil
}

// Seconds and milliseconds since 1970 have so many digits from 2001 to 2286.
const (
	secondsLong      = 10
	millisecondsLong = 13
)

func (t *loggerTable) date(text string) (Time, error) {
	if n, err := strconv.ParseInt(text, 10, 64); err == nil {
		switch len(text) {
		case secondsLong:
			return At(time.Unix(n, 0).In(t.file.Zone)), nil
		case millisecondsLong:
			return At(time.UnixMilli(n).In(t.file.Zone).Truncate(time.Second)), nil
		}
	}
	if t.times.last != "" {
		if when, err := time.ParseInLocation(t.times.last, text, t.file.Zone); err == nil {
			return t.sound(when, text)
		}
	}
	i := slices.IndexFunc(t.times.layouts, func(layout string) bool {
		_, err := time.ParseInLocation(layout, text, t.file.Zone)
		return err == nil
	})
	if i < 0 {
		return Time{}, fmt.Errorf("“%s” is no time", text)
	}
	t.times.last = t.times.layouts[i]
	when, err := time.ParseInLocation(t.times.last, text, t.file.Zone)
	if err != nil {
		return Time{}, err
	}
	return t.sound(when, text)
}

// sound refuses years that no logger has seen.
func (t *loggerTable) sound(when time.Time, text string) (Time, error) {
	const first, last = 1990, 2200
	if y := when.Year(); y < first || y > last {
		return Time{}, fmt.Errorf("“%s” is in the year %d", text, y)
	}
	return At(when.Truncate(time.Second)), nil
}
