// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
	"strconv"
	"unicode/utf8"
)

// Get returns the current revision of a document. For a deleted one it returns
// the last state together with [ErrDeleted].
func (b *Book) Get(ctx context.Context, kind, slug string) (Revision, error) {
	c, err := currentOf(ctx, b.readers, kind, slug)
	if err == nil && c.Act == Delete {
		err = ErrDeleted
	}
	if err != nil {
		return c.Revision, fmt.Errorf("get %s %s: %w", kind, slug, err)
	}
	return c.Revision, nil
}

// GetRevision returns one revision of a document, also of a deleted one.
func (b *Book) GetRevision(ctx context.Context, kind, slug string, number int) (Revision, error) {
	rows, err := b.readers.QueryContext(ctx, queryRevision, kind, slug, number)
	if err != nil {
		return Revision{}, fmt.Errorf("get %s %s revision %d: %w", kind, slug, number, err)
	}
	found, err := scanRevisions(rows, kind, slug)
	if err == nil && len(found) == 0 {
		err = ErrNotFound
	}
	if err != nil {
		return Revision{}, fmt.Errorf("get %s %s revision %d: %w", kind, slug, number, err)
	}
	return found[0], nil
}

// History lists the revisions of a document without their texts, newest first.
// A document that never was has none.
func (b *Book) History(ctx context.Context, kind, slug string, page Page) (found []Revision, next string, err error) {
	rows, err := b.readers.QueryContext(ctx, queryHistory, kind, slug, before(page.After), page.limit())
	if err != nil {
		return nil, "", fmt.Errorf("list revisions of %s %s: %w", kind, slug, err)
	}
	found, err = scanRevisions(rows, kind, slug)
	if err != nil {
		return nil, "", fmt.Errorf("list revisions of %s %s: %w", kind, slug, err)
	}
	if last := len(found) - 1; len(found) == page.limit() && found[last].Number > 1 {
		next = strconv.Itoa(found[last].Number)
	}
	return found, next, nil
}

// before reads a cursor that is a number to stay below.
func before(after string) int64 {
	n, err := strconv.ParseInt(after, 10, 64)
	if err != nil {
		return math.MaxInt64
	}
	return n
}

func scanRevisions(rows *sql.Rows, kind, slug string) (found []Revision, err error) {
	defer rows.Close()
	for rows.Next() {
		r := Revision{Kind: kind, Slug: slug}
		var at int64
		if err := rows.Scan(&r.Number, &at, &r.Act, &r.Author, &r.Why, &r.Title, &r.Text); err != nil {
			return nil, err
		}
		r.At = fromMilli(at)
		found = append(found, r)
	}
	return found, rows.Err()
}

// List lists the living documents of a kind by title.
func (b *Book) List(ctx context.Context, kind string, page Page) (found []Item, next string, err error) {
	at := cursor(page.After, 2)
	found, err = b.items(ctx, queryByTitle, kind, at[0], at[1], page.limit())
	if err != nil {
		return nil, "", fmt.Errorf("list %s documents: %w", kind, err)
	}
	if len(found) == page.limit() {
		last := found[len(found)-1]
		next = join(last.Title, last.Slug)
	}
	return found, next, nil
}

// Titled returns the living documents of a kind whose titles begin so, with
// their texts, by title. Capitals of the plain alphabet count as small letters.
func (b *Book) Titled(ctx context.Context, kind, beginning string, limit int) (found []Revision, err error) {
	rows, err := b.readers.QueryContext(ctx, queryTitled, kind, beginning, beginning+string(utf8.MaxRune), Page{Limit: limit}.limit())
	if err != nil {
		return nil, fmt.Errorf("list %s documents beginning with %s: %w", kind, quote(beginning), err)
	}
	defer rows.Close()
	for rows.Next() {
		r := Revision{Kind: kind}
		var at int64
		if err := rows.Scan(&r.Slug, &r.Number, &at, &r.Act, &r.Author, &r.Why, &r.Title, &r.Text); err != nil {
			return nil, fmt.Errorf("list %s documents beginning with %s: %w", kind, quote(beginning), err)
		}
		r.At = fromMilli(at)
		found = append(found, r)
	}
	return found, rows.Err()
}

// ListRecent lists the living documents of a kind, the last touched first.
func (b *Book) ListRecent(ctx context.Context, kind string, page Page) (found []Item, next string, err error) {
	at := cursor(page.After, 2)
	found, err = b.items(ctx, queryByTouch, kind, before(at[0]), at[1], page.limit())
	if err != nil {
		return nil, "", fmt.Errorf("list recent %s documents: %w", kind, err)
	}
	if len(found) == page.limit() {
		last := found[len(found)-1]
		next = join(strconv.FormatInt(last.Touched.UnixMilli(), 10), last.Slug)
	}
	return found, next, nil
}

// Recent lists the n documents last touched, of all kinds, deleted ones too.
func (b *Book) Recent(ctx context.Context, n int) ([]Item, error) {
	found, err := b.items(ctx, queryRecent, int64(math.MaxInt64), Page{Limit: n}.limit())
	if err != nil {
		return nil, fmt.Errorf("list recent documents: %w", err)
	}
	return found, nil
}

// Deleted lists the n documents last deleted, for taking a deletion back.
func (b *Book) Deleted(ctx context.Context, n int) ([]Item, error) {
	found, err := b.items(ctx, queryDeleted, int64(math.MaxInt64), Page{Limit: n}.limit())
	if err != nil {
		return nil, fmt.Errorf("list deleted documents: %w", err)
	}
	return found, nil
}

func (b *Book) items(ctx context.Context, query string, args ...any) (found []Item, err error) {
	rows, err := b.readers.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var i Item
		var at, touched int64
		if err := rows.Scan(&i.Kind, &i.Slug, &i.Title, &i.Revision, &at, &touched, &i.Act, &i.Author, &i.Why); err != nil {
			return nil, err
		}
		i.At, i.Touched = fromMilli(at), fromMilli(touched)
		found = append(found, i)
	}
	return found, rows.Err()
}

// Setting returns the value kept under a key, or other when there is none.
func (b *Book) Setting(ctx context.Context, key, other string) (value string, err error) {
	err = b.readers.QueryRowContext(ctx, querySetting, key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return other, nil
	}
	if err != nil {
		return "", fmt.Errorf("read setting %s: %w", key, err)
	}
	return value, nil
}

// SetSetting keeps a value under a key, such as the units the pages speak in.
func (b *Book) SetSetting(ctx context.Context, key, value string) error {
	key, err := clean("key", key, maxName)
	if err != nil {
		return err
	}
	if value, err = clean("setting "+key, value, maxWords); err != nil {
		return err
	}
	err = b.update(ctx, func(tx *sql.Tx) error { return writeSetting(ctx, tx, key, value) })
	if err != nil {
		return fmt.Errorf("save setting %s: %w", key, err)
	}
	return nil
}

func writeSetting(ctx context.Context, tx *sql.Tx, key, value string) error {
	_, err := tx.ExecContext(ctx, `
		INSERT INTO setting (key, value)
		VALUES (?1, ?2)
		ON CONFLICT (key) DO UPDATE SET value = excluded.value`,
		key, value)
	return err
}

// Settings returns all settings.
func (b *Book) Settings(ctx context.Context) (map[string]string, error) {
	rows, err := b.readers.QueryContext(ctx, `SELECT key, value FROM setting`)
	if err != nil {
		return nil, fmt.Errorf("read settings: %w", err)
	}
	defer rows.Close()
	found := map[string]string{}
	for rows.Next() {
		var key, value string
		if err := rows.Scan(&key, &value); err != nil {
			return nil, fmt.Errorf("read settings: %w", err)
		}
		found[key] = value
	}
	return found, rows.Err()
}
