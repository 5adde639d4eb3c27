// SPDX-License-Identifier: MIT

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"gyle/gyle"
	"gyle/internal/web"
)

// tabling are the flags that read the table of an instrument into a log.
type tabling struct {
	CSV      string `name:"csv" placeholder:"FILE" help:"Read the table of a logger into the log; - is the standard input."`
	Columns  string `placeholder:"LIST" help:"What its columns are, in their order: \"time, gravity SG, -, temperature °C\"; an empty word leaves it to the head."`
	Dates    string `placeholder:"ORDER" enum:",day-first,month-first" default:"" help:"How dates with slashes are written: day-first or month-first."`
	Since    string `placeholder:"TIME" help:"Of times that count from a beginning; without it, the pitching."`
	LeaveOut bool   `help:"Leave out the lines that can't be read, and list them."`
}

// readTable reads a table into the log: all that is new, or nothing.
func (c *logCommand) readTable(s *streams, l *library, p page, g *gyle.Gyle) error {
	text, err := c.tableText(s)
	if err != nil {
		return err
	}
	f := gyle.LoggerFile{Name: c.CSV, Dates: strings.ReplaceAll(c.Dates, "-", " "), With: c.With, LeaveOut: c.LeaveOut}
	if c.Columns != "" {
		f.Columns = strings.Split(c.Columns, ",")
	}
	if c.At != "" {
		if err := f.At.UnmarshalText([]byte(strings.ReplaceAll(c.At, "-", " "))); err != nil {
			return hinted(fmt.Errorf("--at: %w", err))
		}
	}
	if c.Since != "" {
		if err := f.Since.UnmarshalText([]byte(c.Since)); err != nil {
			return fmt.Errorf("--since: %w", err)
		}
	}
	read, err := g.ReadLogger(text, f)
	var question *gyle.LoggerQuestion
	if errors.As(err, &question) {
		return asked(question)
	}
	if err != nil {
		return err
	}
	var entries []gyle.Entry
	now := time.Now()
	for i := range read.Series {
		entries = append(entries, gyle.Entry{ID: web.NewEntryID(now), Time: gyle.At(now), Who: c.Who, Series: &read.Series[i]})
	}
	if len(entries) > 0 {
		if n := len(read.LeftOut); n > 0 {
			entries[0].Note = fmt.Sprintf("%d lines of the table couldn't be read: %s", n, strings.Join(read.LeftOut[:min(n, 5)], "; "))
		}
		if err := appendTo(l, p, c.Gyle, entries...); err != nil {
			return err
		}
	}
	c.tell(s, read, entries)
	return nil
}

func (c *logCommand) tableText(s *streams) (string, error) {
	if c.CSV == "-" {
		text, err := io.ReadAll(s.in)
		return string(text), err
	}
	text, err := os.ReadFile(c.CSV)
	return string(text), err
}

// tell says how the table was understood and what became of it.
func (c *logCommand) tell(s *streams, read gyle.LoggerRead, entries []gyle.Entry) {
	out := &sheet{w: s.out}
	for _, column := range read.Columns {
		means := column.Means
		if means == gyle.LoggerUnread {
			means = "left out"
		}
		out.row(column.Head, means, column.Example)
	}
	out.flush()
	for _, line := range read.LeftOut {
		out.note("✕", line)
	}
	switch {
	case len(entries) == 0:
		out.note("logged", fmt.Sprintf("nothing: the log has all %d lines of the table", read.Rows))
	default:
		out.note("logged", fmt.Sprintf("%d of %d lines are new", read.New, read.Rows))
	}
	for _, e := range entries {
		out.row(string(e.ID), e.WordsIn(c.printer()))
	}
	out.flush()
}

// asked turns a question about a table into an error with the way to answer.
func asked(q *gyle.LoggerQuestion) error {
	var words []string
	for _, c := range q.Columns {
		word := c.Means
		if word == "" {
			word = "?"
		}
		words = append(words, word)
	}
	hint := fmt.Sprintf("--columns %q, with each ? as one of %s", strings.Join(words, ", "), strings.Join(gyle.LoggerMeanings(), ", "))
	if q.Dates {
		hint = "--dates day-first, or --dates month-first"
	}
	text := q.Msg
	for _, c := range q.Columns {
		text += fmt.Sprintf("\n   %s: %s", c.Head, c.Example)
	}
	return fmt.Errorf("%s\n   say %s", text, hint)
}
