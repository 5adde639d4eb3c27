// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// Book is what the pages need of a gyle book. Its methods are called by
// several requests at the same time.
type Book interface {
	// Name is what the book is called until somebody names it.
	Name() string

	// Check reads a text as a document of a kind and returns its title. The
	// error is document.Faults where the text is at fault.
	Check(kind, text string) (title string, err error)

	// Get returns the current revision. For a deleted document it returns the
	// last state with Deleted set.
	Get(ctx context.Context, kind, slug string) (Document, error)
	GetRevision(ctx context.Context, kind, slug string, number int) (Document, error)
	History(ctx context.Context, kind, slug string, part Part) (found []Document, next string, err error)

	List(ctx context.Context, kind string, part Part) (found []Document, next string, err error)
	// Titled returns the living documents of a kind whose titles begin so, with
	// their texts, by title.
	Titled(ctx context.Context, kind, beginning string, limit int) ([]Document, error)
	Recent(ctx context.Context, n int) ([]Document, error)
	Search(ctx context.Context, words, kind string, part Part) (found []Hit, next string, err error)
	References(ctx context.Context, kind, slug string) ([]Referrer, error)
	// Brews lists all living gyles that name a house, or another document.
	Brews(ctx context.Context, kind, slug string) ([]Brew, error)

	Save(ctx context.Context, d Draft) (Document, error)
	Delete(ctx context.Context, d Removal) (Document, error)
	Undelete(ctx context.Context, d Removal) (Document, error)

	// Events reads the log of a gyle from the entry after a place, oldest first.
	Events(ctx context.Context, gyle string, after, limit int) ([]Event, error)
	// EventsOf reads the first entries of one kind, as many as a book gives at once.
	EventsOf(ctx context.Context, gyle, kind string) ([]Event, error)
	// AppendEvents adds entries to the log of a gyle, all of them or none; an
	// entry whose token the log has adds nothing.
	AppendEvents(ctx context.Context, gyle string, events []Event) error

	Setting(ctx context.Context, key, other string) (string, error)
	SetSetting(ctx context.Context, key, value string) error
}

// Document is one revision of a document. In lists its Text is empty.
type Document struct {
	Kind, Slug, Title string
	Revision          int
	At                time.Time // of the revision
	Author, Why       string
	Deleted           bool
	Text              string
}

// Path is the address of the document's page.
func (d Document) Path() string { return "/" + d.Kind + "/" + d.Slug }

// Part asks for a part of a list: Limit lines after the place that the part
// before gave as next.
type Part struct {
	Limit int
	After string
}

// Hit is a document found, with a piece of its text.
type Hit struct{ Kind, Slug, Title, Snippet string }

// Referrer is a place in a document that names another one.
type Referrer struct{ Kind, Slug, Title, Field string }

// Brew is a gyle as far as it is written: it changed only if its revision or the
// number of its appended log entries did.
type Brew struct {
	Slug              string
	Revision, Entries int
}

// Draft is a document to be saved. Base is the revision that the edit began
// with, 0 for a new document.
type Draft struct {
	Kind, Slug, Text, Author, Why string
	Base                          int
}

// Removal is a document to be deleted or brought back.
type Removal struct {
	Kind, Slug, Author, Why string
	Base                    int
	Anyway                  bool // delete it although others name it
}

// Event is an entry in the log of a gyle. It never changes; Corrects names the
// entry that it puts right.
type Event struct {
	Seq          int
	At, Recorded time.Time
	Kind, Author string
	Corrects     int
	Token        string
	Body         json.RawMessage
}

// ErrNotFound says that the book has no such document or revision.
var ErrNotFound = errors.New("not in this book")

// ConflictError says that somebody saved the document after the edit began.
// Nothing was saved; Current is what the book holds now.
type ConflictError struct {
	Base    int
	Current Document
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("%s/%s is at revision %d, the edit began with %d", e.Current.Kind, e.Current.Slug, e.Current.Revision, e.Base)
}

// ReferencedError says which documents name the one to be deleted.
type ReferencedError struct{ By []Referrer }

func (e *ReferencedError) Error() string {
	return fmt.Sprintf("%d other documents name it", len(e.By))
}

// RefusedError says in words for the reader why something wasn't done, such as
// a title that is too long or a book that another program keeps busy.
type RefusedError struct{ Reason string }

func (e *RefusedError) Error() string { return e.Reason }
