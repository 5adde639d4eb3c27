// SPDX-License-Identifier: MIT

package store

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// Kinds are the kinds of document a book holds, in the order of the work.
var Kinds = []string{"style", "recipe", "brewhouse", "stock", "water", "gyle", "tasting"}

// Limits on what is kept, far above what a brewer writes.
const (
	MaxText  = 1 << 20 // bytes of a document
	MaxBody  = 1 << 16 // bytes of a log entry
	maxTitle = 300     // bytes
	maxWords = 4000    // bytes of a reason
	maxName  = 200     // bytes of an author, a kind of entry, a token
)

// A Ref is a place in a document that names another document.
type Ref struct {
	Kind, Slug string
	Field      string // where it stands: "style", "grist[2].lot"
}

// A Checker judges a document and finds its title and what it names. The store
// keeps no document that the checker refuses. Where the error has a method
// WithFile(name string) error, import calls it to name the faulty file.
type Checker func(kind string, text []byte) (title string, refs []Ref, err error)

// An Act is what a revision did to its document.
type Act string

// The acts.
const (
	Put     Act = "put"
	Delete  Act = "delete"
	Restore Act = "restore"
)

// A Draft is a document to be saved.
type Draft struct {
	Kind, Slug  string
	Text        string
	Author, Why string
	Base        int // the revision the edit began with; 0 for a new document
}

// A Revision is one state of a document. It never changes.
type Revision struct {
	Kind, Slug  string
	Number      int // 1, 2, 3 …
	At          time.Time
	Act         Act
	Author, Why string
	Title       string
	Text        string // empty in lists
}

// An Item is a line in a list of documents, with its current revision.
type Item struct {
	Kind, Slug, Title string
	Revision          int
	At                time.Time // of the revision
	Touched           time.Time // of the revision or, if later, the last log entry
	Act               Act
	Author, Why       string
}

// Deleted tells whether the document is deleted.
func (i Item) Deleted() bool { return i.Act == Delete }

// A Page asks for a part of a list. After is the Next of the page before.
type Page struct {
	Limit int
	After string
}

// DefaultLimit is the length of a page that names none; MaxLimit is the longest.
const (
	DefaultLimit = 50
	MaxLimit     = 500
)

func (p Page) limit() int {
	if p.Limit <= 0 {
		return DefaultLimit
	}
	return min(p.Limit, MaxLimit)
}

func (b *Book) now() time.Time { return b.options.Now().UTC().Truncate(time.Millisecond) }

func fromMilli(milli int64) time.Time { return time.UnixMilli(milli).UTC() }

var slugForm = regexp.MustCompile(`^[a-z0-9]+([._-][a-z0-9]+)*$`)

// reservedNames can't be the name of a file on Windows, whatever the ending.
var reservedNames = regexp.MustCompile(`^(con|prn|aux|nul|(com|lpt)[0-9])(\..*)?$`)

func checkName(kind, slug string) error {
	if !slices.Contains(Kinds, kind) {
		return &InvalidError{"kind " + quote(kind), "not one of " + strings.Join(Kinds, ", ")}
	}
	if !slugForm.MatchString(slug) || len(slug) > 80 {
		return &InvalidError{"slug " + quote(slug), "write lower-case letters a to z, digits and single hyphens, at most 80"}
	}
	if reservedNames.MatchString(slug) {
		return &InvalidError{"slug " + quote(slug), "some systems don't allow a file of this name"}
	}
	return nil
}

// clean makes line ends uniform and refuses what no text file should hold.
func clean(what, text string, most int) (string, error) {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	switch {
	case len(text) > most:
		return "", &InvalidError{what, fmt.Sprintf("too long by %d letters; about %d can be kept", len(text)-most, most)}
	case !utf8.ValidString(text):
		return "", &InvalidError{what, "not UTF-8"}
	case strings.Contains(text, "\x00"):
		return "", &InvalidError{what, "holds a NUL character"}
	}
	return text, nil
}

func quote(text string) string {
	const most = 60
	if len(text) > most {
		text = text[:most] + "…"
	}
	return fmt.Sprintf("%q", text)
}
