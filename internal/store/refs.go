// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
)

// A Referrer is a place in a living document that names another document.
type Referrer struct {
	FromKind, FromSlug, FromTitle string
	Ref                                // what is named, and where
	Broken                        bool // the named document is missing or deleted
}

func writeRefs(ctx context.Context, tx *sql.Tx, r Revision, refs []Ref) error {
	_, err := tx.ExecContext(ctx, `DELETE FROM reference WHERE from_kind = ?1 AND from_slug = ?2`, r.Kind, r.Slug)
	if err != nil {
		return err
	}
	for _, ref := range refs {
		_, err := tx.ExecContext(ctx, `
			INSERT INTO reference (from_kind, from_slug, kind, slug, field, broken)
			VALUES (?1, ?2, ?3, ?4, ?5, NOT EXISTS (
				SELECT 1 FROM document WHERE kind = ?3 AND slug = ?4 AND deleted = 0))
			ON CONFLICT DO NOTHING`,
			r.Kind, r.Slug, ref.Kind, ref.Slug, ref.Field)
		if err != nil {
			return err
		}
	}
	return nil
}

// markBroken notes in all references to a document whether it is there.
func markBroken(ctx context.Context, tx *sql.Tx, kind, slug string, broken bool) error {
	_, err := tx.ExecContext(ctx, `UPDATE reference SET broken = ?3 WHERE kind = ?1 AND slug = ?2`, kind, slug, broken)
	return err
}

// References lists the living documents that name the document, by kind and
// slug. It answers for a missing document too.
func (b *Book) References(ctx context.Context, kind, slug string, page Page) (found []Referrer, next string, err error) {
	at := cursor(page.After, 3)
	found, err = b.referrers(ctx, queryReferrers, kind, slug, at[0], at[1], at[2], page.limit())
	if err != nil {
		return nil, "", fmt.Errorf("list what names %s %s: %w", kind, slug, err)
	}
	if len(found) == page.limit() {
		last := found[len(found)-1]
		next = join(last.FromKind, last.FromSlug, last.Field)
	}
	return found, next, nil
}

// A Brew is a living gyle as far as it is written: it changed only if its
// revision or the number of its log entries did.
type Brew struct {
	Slug              string
	Revision, Entries int
}

// Brews lists the living gyles that name a house, or another document, all of
// them, by slug.
func (b *Book) Brews(ctx context.Context, kind, slug string) (found []Brew, err error) {
	rows, err := b.readers.QueryContext(ctx, queryBrews, kind, slug)
	if err != nil {
		return nil, fmt.Errorf("list the brews of %s %s: %w", kind, slug, err)
	}
	defer rows.Close()
	for rows.Next() {
		var one Brew
		if err := rows.Scan(&one.Slug, &one.Revision, &one.Entries); err != nil {
			return nil, fmt.Errorf("list the brews of %s %s: %w", kind, slug, err)
		}
		found = append(found, one)
	}
	return found, rows.Err()
}

// Named lists what the current revision of a document names, broken or not.
func (b *Book) Named(ctx context.Context, kind, slug string) (found []Referrer, err error) {
	found, err = b.referrers(ctx, queryNamed, kind, slug)
	if err != nil {
		return nil, fmt.Errorf("list what %s %s names: %w", kind, slug, err)
	}
	return found, nil
}

// Broken lists the references of living documents that lead nowhere.
func (b *Book) Broken(ctx context.Context, page Page) (found []Referrer, next string, err error) {
	at := cursor(page.After, 5)
	found, err = b.referrers(ctx, queryBroken, at[0], at[1], at[2], at[3], at[4], page.limit())
	if err != nil {
		return nil, "", fmt.Errorf("list broken references: %w", err)
	}
	if len(found) == page.limit() {
		last := found[len(found)-1]
		next = join(last.FromKind, last.FromSlug, last.Kind, last.Slug, last.Field)
	}
	return found, next, nil
}

func (b *Book) referrers(ctx context.Context, query string, args ...any) ([]Referrer, error) {
	rows, err := b.readers.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	return scanReferrers(rows)
}

func scanReferrers(rows *sql.Rows) (found []Referrer, err error) {
	defer rows.Close()
	for rows.Next() {
		var r Referrer
		if err := rows.Scan(&r.FromKind, &r.FromSlug, &r.FromTitle, &r.Kind, &r.Slug, &r.Field, &r.Broken); err != nil {
			return nil, err
		}
		found = append(found, r)
	}
	return found, rows.Err()
}

// A cursor is the sort key of the last line of a page, its parts divided by a
// character that no part holds.
const cursorMark = "\x1f"

func join(parts ...string) string { return strings.Join(parts, cursorMark) }

// cursor splits a cursor into n parts, all empty for the first page or for a
// cursor that isn't one.
func cursor(after string, n int) []string {
	parts := strings.Split(after, cursorMark)
	if len(parts) != n {
		return make([]string, n)
	}
	return parts
}
