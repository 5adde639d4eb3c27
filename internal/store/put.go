// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Put saves a draft as the next revision of its document. When the document
// changed after the edit began, nothing is saved and a [ConflictError] holds
// what is current. A text that is current already makes no new revision.
func (b *Book) Put(ctx context.Context, d Draft) (Revision, error) {
	r, err := b.put(ctx, d)
	if err != nil {
		return Revision{}, fmt.Errorf("save %s %s: %w", d.Kind, d.Slug, err)
	}
	return r, nil
}

func (b *Book) put(ctx context.Context, d Draft) (r Revision, err error) {
	next, refs, err := b.examine(d)
	if err != nil {
		return Revision{}, err
	}
	err = b.update(ctx, func(tx *sql.Tx) error {
		r, err = putOnto(ctx, tx, d.Base, next, refs)
		return err
	})
	return r, err
}

// examine turns a draft into a revision without a number.
func (b *Book) examine(d Draft) (r Revision, refs []Ref, err error) {
	r = Revision{Kind: d.Kind, Slug: d.Slug, At: b.now(), Act: Put}
	if err := checkName(d.Kind, d.Slug); err != nil {
		return r, nil, err
	}
	if r.Text, err = clean("text", d.Text, MaxText); err != nil {
		return r, nil, err
	}
	if r.Author, r.Why, err = cleanWords(d.Author, d.Why); err != nil {
		return r, nil, err
	}
	title, refs, err := b.options.Check(d.Kind, []byte(r.Text))
	if err != nil {
		return r, nil, err
	}
	if title == "" {
		title = d.Slug
	}
	r.Title, err = clean("title", title, maxTitle)
	return r, refs, err
}

func cleanWords(author, why string) (string, string, error) {
	author, err := clean("author", author, maxName)
	if err != nil {
		return "", "", err
	}
	why, err = clean("reason", why, maxWords)
	return author, why, err
}

func putOnto(ctx context.Context, tx *sql.Tx, base int, next Revision, refs []Ref) (Revision, error) {
	now, err := currentOf(ctx, tx, next.Kind, next.Slug)
	switch {
	case errors.Is(err, ErrNotFound) && base == 0:
		next.Number = 1
		return next, write(ctx, tx, current{}, next, refs)
	case err != nil:
		return Revision{}, err
	case now.Act != Delete && now.Text == next.Text:
		return now.Revision, nil
	case base != now.Number:
		return Revision{}, &ConflictError{Base: base, Current: now.Revision}
	}
	next.Number = now.Number + 1
	return next, write(ctx, tx, now, next, refs)
}

// current is the state of a document with the row numbers behind it.
type current struct {
	Revision
	document, row int64 // 0 for a document that isn't there yet
	touched       time.Time
}

func currentOf(ctx context.Context, db queryer, kind, slug string) (c current, err error) {
	var at, touched int64
	c.Kind, c.Slug = kind, slug
	err = db.QueryRowContext(ctx, queryCurrent, kind, slug).Scan(&c.document, &c.row, &c.Number,
		&at, &c.Act, &c.Author, &c.Why, &c.Title, &c.Text, &touched)
	if errors.Is(err, sql.ErrNoRows) {
		return current{}, ErrNotFound
	}
	c.At, c.touched = fromMilli(at), fromMilli(touched)
	return c, err
}

// write makes next the current revision of a document whose state was now, and
// keeps the words for the search and the references in step.
func write(ctx context.Context, tx *sql.Tx, now current, next Revision, refs []Ref) error {
	document, err := writeDocument(ctx, tx, now, next)
	if err != nil {
		return err
	}
	row, err := insertRevision(ctx, tx, document, next)
	if err != nil {
		return err
	}
	if err := writeWords(ctx, tx, now.row, row, next); err != nil {
		return err
	}
	if next.Act == Put {
		if err := writeRefs(ctx, tx, next, refs); err != nil {
			return err
		}
	}
	wasThere, isThere := now.document != 0 && now.Act != Delete, next.Act != Delete
	if wasThere == isThere {
		return nil
	}
	return markBroken(ctx, tx, next.Kind, next.Slug, !isThere)
}

func writeDocument(ctx context.Context, tx *sql.Tx, now current, next Revision) (id int64, err error) {
	touched := next.At
	if now.touched.After(touched) {
		touched = now.touched
	}
	if now.document == 0 {
		err = tx.QueryRowContext(ctx, `
			INSERT INTO document (kind, slug, title, revision, touched, deleted)
			VALUES (?1, ?2, ?3, ?4, ?5, ?6)
			RETURNING id`,
			next.Kind, next.Slug, next.Title, next.Number, touched.UnixMilli(), next.Act == Delete).Scan(&id)
		return id, err
	}
	_, err = tx.ExecContext(ctx, `
		UPDATE document
		SET title = ?2, revision = ?3, touched = ?4, deleted = ?5
		WHERE id = ?1`,
		now.document, next.Title, next.Number, touched.UnixMilli(), next.Act == Delete)
	return now.document, err
}

func insertRevision(ctx context.Context, tx *sql.Tx, document int64, r Revision) (row int64, err error) {
	err = tx.QueryRowContext(ctx, `
		INSERT INTO revision (document, number, at, act, author, why, title, text)
		VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
		RETURNING id`,
		document, r.Number, r.At.UnixMilli(), r.Act, r.Author, r.Why, r.Title, r.Text).Scan(&row)
	return row, err
}

// writeWords moves the document's words in the search from row old to row.
func writeWords(ctx context.Context, tx *sql.Tx, old, row int64, r Revision) error {
	for _, clear := range []string{
		`DELETE FROM search WHERE rowid = ?1`,
		`DELETE FROM search_title WHERE rowid = ?1`,
	} {
		if old == 0 {
			break
		}
		if _, err := tx.ExecContext(ctx, clear, old); err != nil {
			return err
		}
	}
	if r.Act == Delete {
		return nil
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO search (rowid, kind, title, text) VALUES (?1, ?2, ?3, ?4)`,
		row, r.Kind, r.Title, r.Text)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO search_title (rowid, kind, title) VALUES (?1, ?2, ?3)`,
		row, r.Kind, r.Title)
	return err
}
