// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"gyle/gyle"
	"gyle/quantity"
)

// The log of a gyle lies in two places: what its document was written with, and
// the entries that were appended since. An entry is appended whole, under its
// own ID, in one transaction; sent again, it adds nothing. So two devices never
// overwrite one another, and a device that lost the answer may send again.

// entryBody is the body of an event: the text of the entry.
type entryBody struct {
	Entry string `json:"entry"`
}

// eventsAtOnce is how many events are asked for in one step; a book may give
// fewer, and has no more when it gives none.
const eventsAtOnce = 500

// ReadGyle reads a gyle with its whole log: that of its document and what was
// appended since. The document it was read from comes with it.
func ReadGyle(ctx context.Context, b Book, slug string) (*gyle.Gyle, Document, error) {
	d, err := b.Get(ctx, gyle.Kind, slug)
	if err != nil {
		return nil, d, err
	}
	g, err := gyle.Parse(slug+".yaml", []byte(d.Text))
	if err != nil {
		return nil, d, err
	}
	o := openGyle{gyle: g}
	return o.gyle, d, o.catchUp(ctx, b, slug)
}

// openGyle is a gyle as far as it was read.
type openGyle struct {
	mu   sync.Mutex
	gyle *gyle.Gyle
	seq  int // of the last event that was read
}

// catchUp reads the events since the last time. The gyle that was handed out
// before stays as it was.
func (o *openGyle) catchUp(ctx context.Context, b Book, slug string) error {
	var events []Event
	for seq := o.seq; ; seq = events[len(events)-1].Seq {
		some, err := b.Events(ctx, slug, seq, eventsAtOnce)
		if err != nil {
			return err
		}
		if len(some) == 0 {
			break
		}
		events = append(events, some...)
	}
	if len(events) == 0 {
		return nil
	}
	o.seq = events[len(events)-1].Seq
	next := *o.gyle
	next.Log = slices.Grow(o.gyle.Log[:len(o.gyle.Log):len(o.gyle.Log)], len(events))
	for some := range slices.Chunk(events, eventsAtOnce) {
		next.Log = append(next.Log, entriesIn(some)...)
	}
	o.gyle = &next
	return nil
}

// entriesIn reads the entries of events. Events that another program wrote, and
// that are no entries, count for nothing.
func entriesIn(events []Event) (entries []gyle.Entry) {
	var texts []string
	var from []Event
	for _, e := range events {
		var body entryBody
		if err := json.Unmarshal(e.Body, &body); err == nil && body.Entry != "" {
			texts, from = append(texts, body.Entry), append(from, e)
		}
	}
	if all, err := gyle.ParseEntries(texts); err == nil {
		for i, entry := range all {
			entries = append(entries, arrived(entry, from[i].At))
		}
		return entries
	}
	for i, text := range texts { // one of them is no entry
		if entry, err := gyle.ParseEntry([]byte(text)); err == nil {
			entries = append(entries, arrived(entry, from[i].At))
		}
	}
	return entries
}

// arrived is an entry with the error of the clock that it was made by, where
// the book knows better when it was.
func arrived(entry gyle.Entry, at time.Time) gyle.Entry {
	if ahead := entry.Time.Sub(at); ahead >= time.Second || ahead <= -time.Second {
		entry.Clock = quantity.Duration(ahead.Minutes())
	}
	return entry
}

// AppendEntries appends entries to the log of a gyle, each once, and all of them
// or none. The error of the device's clock may stand in an entry's Clock. What
// the document holds already isn't appended again.
func AppendEntries(ctx context.Context, b Book, slug string, entries ...gyle.Entry) error {
	d, err := b.Get(ctx, gyle.Kind, slug)
	if err != nil {
		return err
	}
	known, err := written(d, entries)
	if err != nil {
		return err
	}
	var events []Event
	for _, e := range entries {
		if known[e.ID] {
			continue
		}
		event, err := eventOf(e)
		if err != nil {
			return err
		}
		events = append(events, event)
	}
	if len(events) == 0 {
		return nil
	}
	if err := b.AppendEvents(ctx, slug, events); err != nil {
		return fmt.Errorf("log entry %s: %w", entries[0].ID, err)
	}
	return nil
}

// written returns the IDs of the entries that a document holds. It is read only
// if its text has one of the IDs: most are drawn at random.
func written(d Document, entries []gyle.Entry) (known map[gyle.ID]bool, err error) {
	known = map[gyle.ID]bool{}
	mentions := func(e gyle.Entry) bool { return strings.Contains(d.Text, string(e.ID)) }
	if !strings.Contains(d.Text, `\`) && !slices.ContainsFunc(entries, mentions) {
		return known, nil // a letter behind a backslash could hide an ID
	}
	g, err := gyle.Parse(d.Slug+".yaml", []byte(d.Text))
	if err != nil {
		return nil, err
	}
	for _, e := range g.Log {
		known[e.ID] = true
	}
	return known, nil
}

// eventOf is the event that keeps an entry.
func eventOf(e gyle.Entry) (Event, error) {
	text, err := e.Text()
	if err != nil {
		return Event{}, err
	}
	body, err := json.Marshal(entryBody{string(text)})
	if err != nil {
		return Event{}, err
	}
	return Event{At: e.When().Time, Kind: e.Sort(), Author: e.Who, Token: string(e.ID), Body: body}, nil
}

// NewEntryID draws the ID of an entry.
func NewEntryID(at time.Time) gyle.ID {
	var random [10]byte
	rand.Read(random[:]) // never fails
	return gyle.NewID(at, random)
}

// mostOpen is how many gyles are kept open, so that a page reads only what is new.
// A log of five hundred entries takes half a megabyte.
const mostOpen = 128

// gyle reads a gyle with its whole log. Nobody changes it.
func (s *Server) gyle(ctx context.Context, slug string) (*gyle.Gyle, Document, error) {
	d, err := s.book.Get(ctx, gyle.Kind, slug)
	if err != nil {
		return nil, d, err
	}
	key := parsedKey{slug, d.Text}
	o, ok := s.gyles.get(key)
	if !ok {
		g, err := gyle.Parse(slug+".yaml", []byte(d.Text))
		if err != nil {
			return nil, d, err
		}
		s.gyles.put(key, &openGyle{gyle: g})
		o, _ = s.gyles.get(key) // another page may have been faster
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	err = o.catchUp(ctx, s.book, slug)
	return o.gyle, d, err
}
