// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"gyle/internal/document"
	"gyle/internal/store"
)

// shelving names the book that documents may come from; commands embed it.
type shelving struct {
	Book string `help:"Gyle book to look in for a name that is no file." env:"GYLE_BOOK" placeholder:"FILE"`
}

func (s shelving) library() *library { return &library{path: s.Book} }

// library finds documents by name: files first, then the book. The book is
// opened when the first name is looked up in it.
type library struct {
	path string
	book *store.Book
}

// page is one document with the name that its faults carry.
type page struct {
	file, kind string
	text       []byte
	changed    time.Time // of the revision in a book; zero for a file
}

func (l *library) close() error {
	if l.book == nil {
		return nil
	}
	return l.book.Close()
}

// closing closes the library at the end of a command whose error it may become.
func closing(l *library, err *error) { *err = errors.Join(*err, l.close()) }

// find reads the file of this name or, when there is none, the document of
// this name in the book. An empty kind takes any kind; "recipe/ferry-brown-4"
// names the kind, too.
func (l *library) find(kind, name string) (page, error) {
	if isFile(name) && isPage(name) {
		return fromPage(kind, name)
	}
	if isFile(name) || l.path == "" {
		text, err := readFile(name)
		found, _, _ := document.KindOf(text)
		return page{file: name, kind: found, text: text}, l.orHint(name, err)
	}
	if err := l.open(); err != nil {
		return page{}, err
	}
	slug := name
	if k, s, both := strings.Cut(name, "/"); both && kinds[k] != nil {
		if kind != "" && k != kind {
			return page{}, fmt.Errorf("%s is a %s, and a %s is wanted here", name, k, kind)
		}
		kind, slug = k, s
	}
	return l.inBook(kind, slug, name)
}

// orHint says that a name might be meant for a book, when none was given.
func (l *library) orHint(name string, err error) error {
	_, absent := os.Stat(name)
	if err == nil || l.path != "" || absent == nil || filepath.Ext(name) != "" || strings.ContainsRune(name, filepath.Separator) {
		return err
	}
	return fmt.Errorf("%w\n   a name in a book needs the book: --book FILE.gylebook", err)
}

func (l *library) open() (err error) {
	if l.book == nil {
		l.book, err = openBook(l.path)
	}
	return err
}

// inBook looks a slug up among the documents of a kind, or of all kinds.
func (l *library) inBook(kind, slug, name string) (page, error) {
	wanted := bookKinds()
	if kind != "" {
		wanted = []string{kind}
	}
	var found []page
	for _, k := range wanted {
		r, err := l.book.Get(context.Background(), k, slug)
		switch {
		case err == nil:
			found = append(found, page{l.label(k, slug), k, []byte(r.Text), r.At})
		case errors.Is(err, store.ErrDeleted) && kind != "":
			return page{}, fmt.Errorf("%s %s was taken out of %s\n   the pages of gyle serve can bring it back", k, slug, l.path)
		case !errors.Is(err, store.ErrNotFound) && !errors.Is(err, store.ErrDeleted):
			return page{}, err
		}
	}
	switch len(found) {
	case 0:
		return page{}, l.absent(kind, slug, name, wanted)
	case 1:
		return found[0], nil
	}
	return page{}, fmt.Errorf("%s names more than one document of %s\n   write %s/%s or %s/%s", slug, l.path, found[0].kind, slug, found[1].kind, slug)
}

// label is how faults name a document of the book.
func (l *library) label(kind, slug string) string {
	return filepath.Base(l.path) + "/" + kind + "/" + slug
}

// absent says that a name is neither a file nor in the book, and what is near.
func (l *library) absent(kind, slug, name string, wanted []string) error {
	what := "document"
	if kind != "" {
		what = kind
	}
	text := fmt.Sprintf("there is no file %s, and no %s %s in %s", name, what, slug, l.path)
	names, err := l.slugs(wanted)
	if err != nil {
		return err
	}
	slug = strings.TrimSuffix(slug, ".yaml")
	near, ok := document.Nearest(slug, names)
	switch {
	case ok:
		text += "\n   did you mean " + near + "?"
	case len(names) == 0:
		text += "\n   the book holds none"
	case len(names) <= mostListed:
		text += "\n   it holds " + strings.Join(names, ", ")
	default:
		text += fmt.Sprintf("\n   it holds %s and %d more", strings.Join(names[:mostListed], ", "), len(names)-mostListed)
	}
	return errors.New(text)
}

// mostListed is how many names an error lists.
const mostListed = 12

// slugs lists the names of all living documents of some kinds.
func (l *library) slugs(of []string) (names []string, err error) {
	for _, kind := range of {
		for after := ""; ; {
			items, next, err := l.book.List(context.Background(), kind, store.Page{Limit: store.MaxLimit, After: after})
			if err != nil {
				return nil, err
			}
			for _, item := range items {
				names = append(names, item.Slug)
			}
			if after = next; next == "" {
				break
			}
		}
	}
	return names, nil
}

// holds reports whether the book has a document; without a book it hasn't.
func (l *library) holds(kind, slug string) (bool, error) {
	if l.path == "" {
		return false, nil
	}
	if err := l.open(); err != nil {
		return false, err
	}
	_, err := l.book.Get(context.Background(), kind, slug)
	if errors.Is(err, store.ErrNotFound) || errors.Is(err, store.ErrDeleted) {
		return false, nil
	}
	return err == nil, err
}

func isFile(name string) bool {
	info, err := os.Stat(name)
	return err == nil && !info.IsDir()
}

// openBook opens a book that is there.
func openBook(path string) (*store.Book, error) {
	book, err := store.Open(path, store.Options{Check: checkDocument})
	if err != nil {
		return nil, bookError(path, err)
	}
	return book, nil
}

// bookError says plainly why a book can't be opened.
func bookError(path string, err error) error {
	var newer *store.NewerError
	var damaged *store.DamagedError
	_, folderErr := os.Stat(filepath.Dir(path))
	info, statErr := os.Stat(path)
	switch {
	case errors.As(err, &newer):
		return newer
	case errors.As(err, &damaged):
		return damaged
	case errors.Is(folderErr, fs.ErrNotExist):
		return fmt.Errorf("there is no folder %s for the book %s", filepath.Dir(path), filepath.Base(path))
	case errors.Is(statErr, fs.ErrNotExist):
		return fmt.Errorf("there is no book %s%s", path, nearby(path, "*.gylebook"))
	case statErr == nil && info.IsDir():
		return fmt.Errorf("%s is a folder, not a gyle book%s", path, nearby(path, "*.gylebook"))
	case errors.Is(err, store.ErrNotBook):
		return fmt.Errorf("%s is no gyle book%s", path, nearby(path, "*.gylebook"))
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("the book %s may not be read and written by you", path)
	}
	return err
}
