// SPDX-License-Identifier: MIT

package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// An Event is an entry in the log of a gyle. It never changes; a wrong entry is
// put right by a later one that names it in Corrects.
type Event struct {
	Seq      int       // place in the log, 1, 2, 3 …; given by the store
	At       time.Time // when it happened; zero is now
	Recorded time.Time // when it was written down; given by the store
	Kind     string
	Author   string
	Corrects int    // the place of an earlier entry, or 0
	Token    string // made by the sender, or empty; sending it again adds no second entry
	Body     json.RawMessage
}

// AppendEvent adds an entry to the log of a gyle and returns it with its place.
// An entry whose token the log holds already is returned as it was kept, so that
// a phone that lost the answer may send again.
func (b *Book) AppendEvent(ctx context.Context, gyle string, e Event) (Event, error) {
	kept, err := b.AppendEvents(ctx, gyle, []Event{e})
	if err != nil {
		return Event{}, err
	}
	return kept[0], nil
}

// AppendEvents adds entries to the log of a gyle, all of them or none.
func (b *Book) AppendEvents(ctx context.Context, gyle string, events []Event) (kept []Event, err error) {
	events = slices.Clone(events)
	for i := range events {
		if err := b.examineEvent(&events[i]); err != nil {
			return nil, fmt.Errorf("append to gyle %s: %w", gyle, err)
		}
	}
	err = b.update(ctx, func(tx *sql.Tx) error {
		kept, err = appendAll(ctx, tx, gyle, events)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("append to gyle %s: %w", gyle, err)
	}
	return kept, nil
}

func (b *Book) examineEvent(e *Event) (err error) {
	e.Recorded = b.now()
	if e.At.IsZero() {
		e.At = e.Recorded
	}
	return cleanEvent(e)
}

func cleanEvent(e *Event) (err error) {
	e.At = e.At.UTC().Truncate(time.Millisecond)
	if year := e.At.Year(); year < 1 || year > 9999 {
		return &InvalidError{"time of the entry", "the year is out of range"}
	}
	for _, name := range []struct {
		what string
		text *string
	}{{"kind", &e.Kind}, {"author", &e.Author}, {"token", &e.Token}} {
		if *name.text, err = clean(name.what, *name.text, maxName); err != nil {
			return err
		}
	}
	if strings.TrimSpace(e.Kind) == "" {
		return &InvalidError{"kind of the entry", "empty"}
	}
	e.Body, err = cleanBody(e.Body)
	return err
}

// cleanBody strips the JSON of blanks outside its texts.
func cleanBody(body json.RawMessage) (json.RawMessage, error) {
	if len(body) == 0 {
		return json.RawMessage("{}"), nil
	}
	var compact bytes.Buffer
	if err := json.Compact(&compact, body); err != nil {
		return nil, &InvalidError{"body of the entry", err.Error()}
	}
	if compact.Len() > MaxBody || !utf8.Valid(compact.Bytes()) {
		return nil, &InvalidError{"body of the entry", fmt.Sprintf("not UTF-8 or longer than %d bytes", MaxBody)}
	}
	return compact.Bytes(), nil
}

func appendAll(ctx context.Context, tx *sql.Tx, gyle string, events []Event) (kept []Event, err error) {
	id, touched, err := gyleOf(ctx, tx, gyle)
	if err != nil {
		return nil, err
	}
	var last int
	if err := tx.QueryRowContext(ctx, queryLastSeq, id).Scan(&last); err != nil {
		return nil, err
	}
	insert, err := prepareInsertEvent(ctx, tx)
	if err != nil {
		return nil, err
	}
	defer insert.Close()
	for _, e := range events {
		if before, found, err := repeated(ctx, tx, id, e); err != nil {
			return nil, err
		} else if found {
			kept = append(kept, before)
			continue
		}
		last++
		e.Seq = last
		if e.Corrects < 0 || e.Corrects >= e.Seq {
			return nil, &InvalidError{"correction", fmt.Sprintf("the log has no entry %d yet", e.Corrects)}
		}
		if err := insertEvent(ctx, insert, id, e); err != nil {
			return nil, err
		}
		touched = max(touched, e.Recorded.UnixMilli())
		kept = append(kept, e)
	}
	_, err = tx.ExecContext(ctx, `UPDATE document SET touched = ?2 WHERE id = ?1 AND touched < ?2`, id, touched)
	return kept, err
}

// gyleOf finds a living gyle. A log may be read after its gyle was deleted, but
// no longer written.
func gyleOf(ctx context.Context, db queryer, slug string) (id, touched int64, err error) {
	var deleted bool
	err = db.QueryRowContext(ctx, queryGyle, slug).Scan(&id, &deleted, &touched)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return 0, 0, ErrNotFound
	case err == nil && deleted:
		return id, touched, ErrDeleted
	}
	return id, touched, err
}

// repeated finds the entry that came with the same token before.
func repeated(ctx context.Context, tx *sql.Tx, gyle int64, e Event) (before Event, found bool, err error) {
	if e.Token == "" {
		return Event{}, false, nil
	}
	before, err = scanEvent(tx.QueryRowContext(ctx, queryEventByToken, gyle, e.Token))
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return Event{}, false, nil
	case err != nil:
		return Event{}, false, err
	case before.Kind != e.Kind || before.Corrects != e.Corrects || !bytes.Equal(before.Body, e.Body):
		return Event{}, false, fmt.Errorf("%w: number %d", ErrTokenReused, before.Seq)
	}
	return before, true, nil
}

func prepareInsertEvent(ctx context.Context, tx *sql.Tx) (*sql.Stmt, error) {
	return tx.PrepareContext(ctx, `
		INSERT INTO event (gyle, seq, at, recorded, kind, author, corrects, token, body)
		VALUES (?1, ?2, ?3, ?4, ?5, ?6, nullif(?7, 0), nullif(?8, ''), ?9)`)
}

func insertEvent(ctx context.Context, insert *sql.Stmt, gyle int64, e Event) error {
	_, err := insert.ExecContext(ctx, gyle, e.Seq, e.At.UnixMilli(), e.Recorded.UnixMilli(),
		e.Kind, e.Author, e.Corrects, e.Token, string(e.Body))
	return err
}

// EventPage asks for a part of a log.
type EventPage struct {
	Kind   string // only entries of this kind; empty for all
	Newest bool   // from the end of the log backwards
	From   int    // go on after this place (with Newest: before it); 0 begins
	Limit  int
}

// Events reads from the log of a gyle, also of a deleted one.
func (b *Book) Events(ctx context.Context, gyle string, page EventPage) ([]Event, error) {
	id, _, err := gyleOf(ctx, b.readers, gyle)
	if err != nil && !errors.Is(err, ErrDeleted) {
		return nil, fmt.Errorf("read log of gyle %s: %w", gyle, err)
	}
	query, from := page.query()
	args := []any{id, from, Page{Limit: page.Limit}.limit()}
	if page.Kind != "" {
		args = append(args, page.Kind)
	}
	found, err := readEvents(ctx, b.readers, query, args...)
	if err != nil {
		return nil, fmt.Errorf("read log of gyle %s: %w", gyle, err)
	}
	return found, nil
}

func (p EventPage) query() (query string, from int64) {
	from = int64(p.From)
	if p.Newest && from == 0 {
		from = math.MaxInt64
	}
	switch {
	case p.Newest && p.Kind != "":
		return queryLastEventsOfKind, from
	case p.Newest:
		return queryLastEvents, from
	case p.Kind != "":
		return queryEventsOfKind, from
	}
	return queryEvents, from
}

type rowsQueryer interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

func readEvents(ctx context.Context, db rowsQueryer, query string, args ...any) (found []Event, err error) {
	rows, err := db.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		e, err := scanEvent(rows)
		if err != nil {
			return nil, err
		}
		found = append(found, e)
	}
	return found, rows.Err()
}

func scanEvent(row interface{ Scan(...any) error }) (e Event, err error) {
	var at, recorded int64
	var body string
	err = row.Scan(&e.Seq, &at, &recorded, &e.Kind, &e.Author, &e.Corrects, &e.Token, &body)
	e.At, e.Recorded, e.Body = fromMilli(at), fromMilli(recorded), json.RawMessage(body)
	return e, err
}
