// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"gyle/day"
	"gyle/gyle"
	"gyle/internal/web"
	"gyle/publish/table"
	"gyle/quantity"
)

// logCommand prints the log of a gyle, or adds to it.
type logCommand struct {
	Gyle   string   `arg:"" help:"Gyle: a file, or a name in the book."`
	Said   []string `arg:"" optional:"" help:"What to log, as said at the kettle; without it the log is printed."`
	Of     string   `placeholder:"WHAT" help:"What was read: volume, gravity, ph …; where the words don't say it."`
	At     string   `placeholder:"PLACE" help:"Where: full kettle, mash …; the same as the words at PLACE."`
	With   string   `placeholder:"INSTRUMENT" help:"Instrument of the reading."`
	Time   string   `placeholder:"TIME" help:"When it was, as 2026-03-07T10:30:00+01:00; without it, now."`
	Who    string   `placeholder:"NAME" help:"Who reads."`
	Strike string   `placeholder:"ID" help:"Take an entry back. It stays visible."`
	For    string   `placeholder:"ID" help:"What is said stands in the place of this entry."`
	Why    string   `placeholder:"WORDS" help:"Why it is struck or corrected."`
	JSON   bool     `name:"json" help:"Print for programs."`
	Table  string   `enum:",log,readings" default:"" placeholder:"NAME" help:"Print a table as CSV, with units in its head: log, or the readings at the fermenter as --csv reads them."`
	tabling
	shelving
	printing
}

// Help is shown by "gyle log --help".
func (logCommand) Help() string {
	return `Examples:

  gyle log gyle-17 --book my.gylebook
  gyle log gyle-17 "26.4 @95" at full-kettle --book my.gylebook
  gyle log gyle-17 "5,46" of ph at mash --book my.gylebook
  gyle log gyle-17 hops in challenger 35 g --book my.gylebook
  gyle log gyle-17 note the sacks stood in the cold shed
  gyle log gyle-17 element off 35–47 min
  gyle log gyle-17 --csv floating-hydrometer.csv --book my.gylebook
  gyle log gyle-17 --strike 01JNQ5 --why "read the wrong scale"

Nothing in a log is overwritten: a correction is an entry of its own, and both stay to be seen. Readings are kept as they
were read; what they mean at 20 °C stands beside them. The table of a logger becomes one entry, or a few, with all its readings;
read again when it has grown, it adds only what is new.`
}

// Run prints the log or adds an entry.
func (c *logCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	g, p, err := readGyle(l, c.Gyle)
	if err != nil {
		return err
	}
	switch c.Table {
	case "log":
		return printTable(s, table.Log(g, c.printer()), c.printer())
	case "readings":
		return printTable(s, table.Readings(g, c.printer()), c.printer())
	}
	if c.CSV != "" {
		return c.readTable(s, l, p, g)
	}
	if len(c.Said) == 0 && c.Strike == "" {
		if c.JSON {
			return printJSON(s.out, logJSON(g, c.printer()))
		}
		printLog(&sheet{w: s.out}, g, c.printer())
		return nil
	}
	e, echo, err := c.entry(g)
	if err != nil {
		return err
	}
	if err := appendTo(l, p, c.Gyle, e); err != nil {
		return err
	}
	g.Log = append(g.Log, e)
	return c.echo(s, l, g, e, echo)
}

// entry makes the entry that is to be added.
func (c *logCommand) entry(g *gyle.Gyle) (e gyle.Entry, echo string, err error) {
	at := gyle.At(time.Now())
	if c.Time != "" {
		if err := at.UnmarshalText([]byte(c.Time)); err != nil {
			return e, "", fmt.Errorf("--time: %w", err)
		}
	}
	id := web.NewEntryID(time.Now())
	if c.Strike != "" {
		found, err := findEntry(g, c.Strike)
		return gyle.Strike(found.ID, id, at, c.Who, c.Why), "struck: " + found.Words(), err
	}
	words := strings.Join(c.Said, " ")
	for _, more := range []struct{ word, text string }{{"of", c.Of}, {"at", c.At}, {"with", c.With}} {
		if more.text != "" {
			words += " " + more.word + " " + more.text
		}
	}
	if e, echo, err = g.Said(words); err != nil {
		return e, "", hinted(err)
	}
	e.ID, e.Time, e.Who = id, at, c.Who
	if c.For != "" {
		found, err := findEntry(g, c.For)
		if err != nil {
			return e, "", err
		}
		e.Correction = &gyle.Correction{Of: found.ID, Why: c.Why}
		echo += ", instead of " + found.Words()
	}
	return e, echo, nil
}

// hinted puts the hint of a reading that isn't understood below the fault.
func hinted(err error) error {
	var parse *quantity.ParseError
	if errors.As(err, &parse) && parse.Hint != "" {
		return fmt.Errorf("%w\n   %s", err, parse.Hint)
	}
	return err
}

// findEntry finds an entry by the beginning of its ID.
func findEntry(g *gyle.Gyle, id string) (found gyle.Entry, err error) {
	n := 0
	for _, e := range g.Log {
		if string(e.ID) == id {
			return e, nil
		}
		if strings.HasPrefix(string(e.ID), id) {
			found, n = e, n+1
		}
	}
	if n != 1 {
		return found, fmt.Errorf("%d entries of the log have an id that begins with %s", n, id)
	}
	return found, nil
}

// readGyle reads a gyle with its whole log.
func readGyle(l *library, name string) (*gyle.Gyle, page, error) {
	p, err := l.find(gyle.Kind, name)
	if err != nil {
		return nil, p, err
	}
	if p.kind != gyle.Kind {
		return nil, p, fmt.Errorf("%s is a %s, and a %s is wanted here", p.file, p.kind, gyle.Kind)
	}
	if isFile(name) || l.path == "" {
		g, err := gyle.Parse(p.file, p.text)
		return g, p, err
	}
	g, _, err := web.ReadGyle(context.Background(), webBook{l.book}, slugIn(name))
	return g, p, err
}

// slugIn is the name of a document in a book, without its kind.
func slugIn(name string) string { return strings.TrimPrefix(name, gyle.Kind+"/") }

// appendTo adds entries to the log in the book, or to the file.
func appendTo(l *library, p page, name string, entries ...gyle.Entry) error {
	if !isFile(name) {
		return web.AppendEntries(context.Background(), webBook{l.book}, slugIn(name), entries...)
	}
	g, err := gyle.Parse(p.file, p.text)
	if err != nil {
		return err
	}
	g.Log = append(g.Log, entries...)
	text, err := g.Text()
	if err != nil {
		return err
	}
	return replaceFile(name, text)
}

// replaceFile writes a file beside the old one and then puts it in its place.
func replaceFile(name string, text []byte) error {
	part := name + ".part"
	if err := os.WriteFile(part, text, 0o644); err != nil {
		return fmt.Errorf("write %s: %w", part, err)
	}
	return os.Rename(part, name)
}

// echo says what was understood, what can be done about it, and when the next
// task is due.
func (c *logCommand) echo(s *streams, l *library, g *gyle.Gyle, e gyle.Entry, echo string) error {
	if c.JSON {
		return printJSON(s.out, entryJSONOf(g, gyle.Fact{Entry: e, Original: e}, c.printer()))
	}
	out := &sheet{w: s.out}
	if meaning := meaningOf(g, e, c.printer()); meaning != "" {
		echo += " → " + meaning
	}
	out.note("logged", echo)
	out.row("id", string(e.ID))
	out.flush()
	c.options(out, l, g, e)
	if d, err := day.Of(g, day.Options{Printer: c.printer()}); err == nil {
		if next, ok := d.Next(); ok {
			out.note("next", fmt.Sprintf("%s, %s", next.At.Format("15:04"), next.What))
		}
	}
	return nil
}
