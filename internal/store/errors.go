// SPDX-License-Identifier: MIT

package store

import (
	"errors"
	"fmt"
	"strings"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Errors that a caller tells apart with errors.Is.
var (
	// ErrNotFound says that the book has no such document or revision.
	ErrNotFound = errors.New("not in this book")
	// ErrDeleted says that the document was deleted; its last text comes with it.
	ErrDeleted = errors.New("deleted; undelete brings it back")
	// ErrNotBook says that the file is something else than a gyle book.
	ErrNotBook = errors.New("not a gyle book")
	// ErrBusy says that another program kept writing to the book for too long.
	ErrBusy = errors.New("another program is writing to the book; nothing was saved, try again")
	// ErrTokenReused says that one token came with two different log entries.
	ErrTokenReused = errors.New("the token belongs to another log entry")
)

// A ConflictError says that a document changed after the edit began. Nothing
// was saved; Current is what the book holds now.
type ConflictError struct {
	Base    int // the revision the edit began with
	Current Revision
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("%s %s was changed since revision %d: revision %d by %s is current",
		e.Current.Kind, e.Current.Slug, e.Base, e.Current.Number, orSomebody(e.Current.Author))
}

// A NewerError says that the book was written by a newer gyle. The file is as
// it was.
type NewerError struct {
	Path        string
	Have, Known int // schema of the file, newest schema this program knows
}

func (e *NewerError) Error() string {
	return fmt.Sprintf("%s was written by a newer gyle (book format %d, this program knows %d); "+
		"nothing was touched, use the newer program", e.Path, e.Have, e.Known)
}

// A DamagedError says that the file failed the check after a crash.
type DamagedError struct {
	Path     string
	Problems []string
}

func (e *DamagedError) Error() string {
	return fmt.Sprintf("%s is damaged; keep it, and go on from a backup:\n  %s",
		e.Path, strings.Join(e.Problems, "\n  "))
}

// A ReferencedError says which documents name the one to be deleted.
type ReferencedError struct {
	Kind, Slug string
	Total      int
	By         []Referrer // the first of them
}

func (e *ReferencedError) Error() string {
	names := make([]string, len(e.By))
	for i, by := range e.By {
		names[i] = by.FromKind + " " + by.FromSlug
	}
	more := ""
	if e.Total > len(e.By) {
		more = fmt.Sprintf(" and %d more places", e.Total-len(e.By))
	}
	return fmt.Sprintf("%s %s is named by %s%s", e.Kind, e.Slug, strings.Join(names, ", "), more)
}

// An InvalidError says what is wrong with a value handed to the store.
type InvalidError struct{ What, Problem string }

func (e *InvalidError) Error() string { return e.What + ": " + e.Problem }

func orSomebody(author string) string {
	if author == "" {
		return "somebody"
	}
	return author
}

// plain puts the driver's word for a lasting lock into the store's.
func plain(err error) error {
	var driver *sqlite.Error
	if !errors.As(err, &driver) {
		return err
	}
	switch driver.Code() & 0xff {
	case sqlite3.SQLITE_BUSY:
		return fmt.Errorf("%w (%v)", ErrBusy, err)
	case sqlite3.SQLITE_NOTADB:
		return fmt.Errorf("%w (%v)", ErrNotBook, err)
	}
	return err
}

// asDamage tells of a file so damaged that it couldn't even be checked.
func asDamage(err error, path string) error {
	var driver *sqlite.Error
	if errors.As(err, &driver) && driver.Code()&0xff == sqlite3.SQLITE_CORRUPT {
		return &DamagedError{Path: path, Problems: []string{err.Error()}}
	}
	return err
}
