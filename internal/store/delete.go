// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// A Removal is a document to be deleted, or brought back.
type Removal struct {
	Kind, Slug  string
	Author, Why string
	Base        int  // the revision the reader saw
	Anyway      bool // delete although other documents name it
}

// listedReferrers is how many names a refused deletion tells.
const listedReferrers = 5

// Delete puts a document away. Its history stays, [Book.Undelete] brings it
// back. A document that others name is deleted only with Anyway set; without
// it the [ReferencedError] says by whom.
func (b *Book) Delete(ctx context.Context, d Removal) (Revision, error) {
	r, err := b.turn(ctx, d, Delete)
	if err != nil {
		return Revision{}, fmt.Errorf("delete %s %s: %w", d.Kind, d.Slug, err)
	}
	return r, nil
}

// Undelete brings a deleted document back as it was.
func (b *Book) Undelete(ctx context.Context, d Removal) (Revision, error) {
	r, err := b.turn(ctx, d, Restore)
	if err != nil {
		return Revision{}, fmt.Errorf("undelete %s %s: %w", d.Kind, d.Slug, err)
	}
	return r, nil
}

func (b *Book) turn(ctx context.Context, d Removal, act Act) (next Revision, err error) {
	if d.Author, d.Why, err = cleanWords(d.Author, d.Why); err != nil {
		return Revision{}, err
	}
	err = b.update(ctx, func(tx *sql.Tx) error {
		now, err := currentOf(ctx, tx, d.Kind, d.Slug)
		if err != nil {
			return err
		}
		if next = now.Revision; (now.Act == Delete) == (act == Delete) {
			return nil // it is so already
		}
		if d.Base != now.Number {
			return &ConflictError{Base: d.Base, Current: now.Revision}
		}
		if act == Delete && !d.Anyway {
			if err := refuseReferenced(ctx, tx, d.Kind, d.Slug); err != nil {
				return err
			}
		}
		next.Number, next.At, next.Act = now.Number+1, b.now(), act
		next.Author, next.Why = d.Author, d.Why
		return write(ctx, tx, now, next, nil)
	})
	if err != nil {
		return Revision{}, err
	}
	return next, nil
}

func refuseReferenced(ctx context.Context, tx *sql.Tx, kind, slug string) error {
	refused := &ReferencedError{Kind: kind, Slug: slug}
	err := tx.QueryRowContext(ctx, queryReferrerCount, kind, slug).Scan(&refused.Total)
	if err != nil || refused.Total == 0 {
		return err
	}
	rows, err := tx.QueryContext(ctx, queryReferrers, kind, slug, "", "", "", listedReferrers)
	if err != nil {
		return err
	}
	refused.By, err = scanReferrers(rows)
	return errors.Join(err, refused)
}
