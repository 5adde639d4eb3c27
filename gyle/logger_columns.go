// SPDX-License-Identifier: MIT

package gyle

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gyle/internal/document"
)

// What a column of a table may be, beside the columns of a series.
const (
	LoggerTime    = "time" // a day and a clock, or seconds since 1970
	LoggerDate    = "date"
	LoggerClock   = "clock"
	LoggerDays    = "days"
	LoggerHours   = "hours" // since pitching
	LoggerMinutes = "minutes"
	LoggerSeconds = "seconds"
	LoggerUnread  = "-"
)

// LoggerMeanings returns all that a column of a table may be.
func LoggerMeanings() []string {
	list := []string{LoggerTime, LoggerDate, LoggerClock, LoggerDays, LoggerHours, LoggerMinutes, LoggerSeconds}
	for _, c := range columns {
		list = append(list, c.String())
	}
	return append(list, LoggerUnread)
}

// unsure is the meaning of a column that has to be asked for.
const unsure = ""

// understand finds out what the columns are.
func (t *loggerTable) understand() error {
	if n := len(t.file.Columns); n > len(t.heads) {
		return document.Faults{{File: t.file.Name, Line: 1, Col: 1, Msg: fmt.Sprintf("%d columns were named, and the table has %d", n, len(t.heads)), Hint: "name them in their order, with - for one that isn't wanted"}}
	}
	for i, head := range t.heads {
		c := LoggerColumn{Head: head, Example: t.example(i)}
		switch {
		case i < len(t.file.Columns) && strings.TrimSpace(t.file.Columns[i]) != "":
			means, err := meaningNamed(t.file.Columns[i])
			if err != nil {
				return err
			}
			c.Means = means
		case t.numbered:
			c.Means = unsure
		default:
			c.Means = t.meaningOf(head, i)
		}
		t.columns = append(t.columns, c)
	}
	t.clocks()
	if err := t.ask(); err != nil {
		return err
	}
	for i, c := range t.columns {
		var column Column
		if c.Means != LoggerUnread && column.UnmarshalText([]byte(c.Means)) == nil {
			t.series, t.places = append(t.series, column), append(t.places, i)
		}
	}
	return t.understandTimes()
}

// meaningNamed reads a meaning as somebody wrote it.
func meaningNamed(text string) (string, error) {
	word := strings.ToLower(strings.TrimSpace(text))
	if slices.Contains(LoggerMeanings(), word) {
		return word, nil
	}
	var column Column
	if err := column.UnmarshalText([]byte(word)); err != nil {
		return "", document.Faults{{Msg: fmt.Sprintf("“%s” is nothing that a column can be", text), Hint: "write one of " + strings.Join(LoggerMeanings(), ", ")}}
	}
	return column.String(), nil
}

// example is the first value of a column that is one.
func (t *loggerTable) example(column int) string {
	for _, r := range t.records {
		if column < len(r.cells) && !slices.Contains(nothing, strings.ToLower(r.cells[column])) {
			return r.cells[column]
		}
	}
	return ""
}

// ask asks for what nobody can tell: columns that aren't sure, two of a kind,
// no time or no reading.
func (t *loggerTable) ask() error {
	count := map[string]int{}
	for _, c := range t.columns {
		count[c.Means]++
		var column Column
		if c.Means != unsure && c.Means != LoggerUnread && column.UnmarshalText([]byte(c.Means)) == nil {
			count["readings"]++
			if count[string(column.Of)]++; count[string(column.Of)] > 1 {
				return &LoggerQuestion{Columns: t.columns, Msg: "two columns hold a " + string(column.Of) + ": say which one is that of the beer"}
			}
		}
	}
	times := count[LoggerTime] + count[LoggerDate] + count[LoggerDays] + count[LoggerHours] + count[LoggerMinutes] + count[LoggerSeconds]
	switch {
	case count[unsure] > 0:
		return &LoggerQuestion{Columns: t.columns, Msg: "say what each column is: the table doesn't"}
	case times == 0:
		return &LoggerQuestion{Columns: t.columns, Msg: "say which column is the time"}
	case times > 1 || count[LoggerClock] > 1:
		return &LoggerQuestion{Columns: t.columns, Msg: "several columns are times: say which one counts"}
	case count["readings"] == 0:
		return &LoggerQuestion{Columns: t.columns, Msg: "say which column is the gravity or the temperature"}
	}
	return nil
}

// clocks tells a clock from a time: beside a date, a time is only a clock.
func (t *loggerTable) clocks() {
	dated := slices.ContainsFunc(t.columns, func(c LoggerColumn) bool { return c.Means == LoggerDate })
	for i, c := range t.columns {
		switch {
		case dated && c.Means == LoggerTime && i >= len(t.file.Columns):
			t.columns[i].Means = LoggerClock
		case !dated && c.Means == LoggerDate:
			t.columns[i].Means = LoggerTime
			return
		}
	}
	dated = false
	for i, c := range t.columns {
		if c.Means == LoggerDate && strings.Contains(c.Example, ":") { // day and clock in one
			t.columns[i].Means = LoggerTime
			dated = true
		}
	}
	for i, c := range t.columns {
		if dated && c.Means == LoggerClock {
			t.columns[i].Means = LoggerUnread
		}
	}
}

// words of a head, in small letters, without signs.
func wordsOf(head string) []string {
	return strings.FieldsFunc(strings.ToLower(head), func(r rune) bool {
		return strings.ContainsRune(" ()[]{}_-,;:/.", r)
	})
}

func anyOf(words []string, of ...string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(of, w) })
}

func begins(words []string, with ...string) bool {
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.ContainsFunc(with, func(p string) bool { return strings.HasPrefix(w, p) })
	})
}

// meaningOf says what a head means.
func (t *loggerTable) meaningOf(head string, column int) string {
	w := wordsOf(head)
	switch {
	case begins(w, "temp") || len(w) == 1 && anyOf(w, "°c", "°f", "celsius", "fahrenheit"):
		if begins(w, "ambient", "chamber", "fridge", "room", "air", "outside", "target", "set", "aux", "board", "case") {
			return LoggerUnread
		}
		return temperatureMeant(w, t.example(column))
	case begins(w, "press"):
		return pressureMeant(w, t.example(column))
	case begins(w, "target", "start", "original", "final", "og", "fg"):
		return LoggerUnread
	case anyOf(w, "sg", "gravity", "density", "extract", "°p", "plato", "brix", "bx", "°bx", "specific") || begins(w, "refract"):
		return t.gravityMeant(w, column)
	case anyOf(w, "elapsed", "since", "age", "hours", "days", "h", "d"):
		return elapsedMeant(w)
	case begins(w, "timestamp", "datetime", "epoch", "unix") || anyOf(w, "time", "when", "at", "created", "recorded"):
		if !anyOf(w, "date") && strings.Contains(t.example(column), ":") && len(t.example(column)) <= len("12:00:00 pm") {
			return LoggerClock
		}
		return LoggerTime
	case anyOf(w, "date", "day"):
		return LoggerDate
	case anyOf(w, "clock"):
		return LoggerClock
	}
	return LoggerUnread
}

func temperatureMeant(w []string, example string) string {
	unit := strings.ToLower(strings.TrimLeft(example, "+-0123456789., °"))
	switch {
	case anyOf(w, "c", "°c", "celsius", "degc", "tempc") || unit == "c":
		return Column{OfTemperature, "°C"}.String()
	case anyOf(w, "f", "°f", "fahrenheit", "degf", "tempf") || unit == "f":
		return Column{OfTemperature, "°F"}.String()
	}
	return unsure
}

func pressureMeant(w []string, example string) string {
	unit := strings.ToLower(strings.TrimLeft(example, "+-0123456789., "))
	switch {
	case anyOf(w, "bar") || unit == "bar":
		return Column{OfPressure, "bar"}.String()
	case anyOf(w, "psi") || unit == "psi":
		return Column{OfPressure, "psi"}.String()
	}
	return unsure
}

// gravityMeant tells the scales apart: by the words, else by the values, where
// those can be of one scale only.
func (t *loggerTable) gravityMeant(w []string, column int) string {
	switch {
	case begins(w, "refract"):
		return Column{OfRefractometer, "°Bx"}.String()
	case anyOf(w, "plato", "°p", "p"):
		return Column{OfGravity, "°P"}.String()
	case anyOf(w, "brix", "bx", "°bx"):
		return unsure // of a refractometer, or of something that floats
	}
	low, high, any := 0.0, 0.0, false
	for _, r := range t.records {
		if column >= len(r.cells) {
			continue
		}
		x, err := strconv.ParseFloat(strings.Replace(bareCell(r.cells[column], Column{OfGravity, "SG"}), ",", ".", 1), 64)
		if err != nil {
			continue
		}
		if !any {
			low, high, any = x, x, true
		}
		low, high = min(low, x), max(high, x)
	}
	const points = 1000
	if any && (low > 0.9 && high < highestSG+0.1 || low > 0.9*points && high < (highestSG+0.1)*points) || anyOf(w, "sg") {
		return Column{OfGravity, "SG"}.String()
	}
	return unsure
}

func elapsedMeant(w []string) string {
	switch {
	case anyOf(w, "days", "day", "d"):
		return LoggerDays
	case anyOf(w, "hours", "hour", "h", "hr", "hrs"):
		return LoggerHours
	case anyOf(w, "minutes", "min", "mins"):
		return LoggerMinutes
	case anyOf(w, "seconds", "sec", "s"):
		return LoggerSeconds
	}
	return unsure
}
