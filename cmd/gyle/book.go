// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"gyle/brewhouse"
	"gyle/examples"
	"gyle/gyle"
	"gyle/internal/document"
	"gyle/internal/store"
	"gyle/internal/web"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

// titleOf tells the title of a document and what other documents it names.
func titleOf(read any) (title string, refs []store.Ref) {
	switch d := read.(type) {
	case *recipe.Recipe:
		return recipeTitle(d), recipeRefs(d)
	case *style.Style:
		return d.Name, nil
	case *brewhouse.House:
		return d.Name, nil
	case *stock.Stock:
		return d.Name, nil
	case *water.Water:
		return d.Name, nil
	case *gyle.Gyle:
		return gyleTitle(d), gyleRefs(d)
	case *tasting.Tasting:
		return d.Name, tastingRefs(d)
	}
	panic(fmt.Sprintf("no title for a %T", read))
}

// recipeTitle tells the versions of a beer apart: "Ferry Brown 3".
func recipeTitle(r *recipe.Recipe) string {
	if r.Version == 0 {
		return r.Name
	}
	return r.Name + " " + strconv.Itoa(r.Version)
}

func recipeRefs(r *recipe.Recipe) []store.Ref {
	if r.Style == "" {
		return nil
	}
	return []store.Ref{{Kind: style.Kind, Slug: r.Style, Field: "style"}}
}

// bookKinds lists the kinds that can be read, in the order of the store.
func bookKinds() (readable []string) {
	for _, k := range store.Kinds {
		if _, ok := kinds[k]; ok {
			readable = append(readable, k)
		}
	}
	return readable
}

// checkDocument judges a document for the store.
func checkDocument(kind string, text []byte) (title string, refs []store.Ref, err error) {
	read, ok := kinds[kind]
	if !ok {
		return "", nil, &web.RefusedError{Reason: "This gyle can't read a " + kind + " yet."}
	}
	d, err := read(kind+".yaml", text)
	if err != nil {
		return "", nil, err
	}
	title, refs = titleOf(d)
	return title, refs, nil
}

// webBook is a store's book as the pages want it.
type webBook struct{ store *store.Book }

func (b webBook) Name() string {
	name := filepath.Base(b.store.Path())
	return strings.TrimSuffix(name, filepath.Ext(name))
}

func (b webBook) Check(kind, text string) (string, error) {
	title, _, err := checkDocument(kind, []byte(text))
	return title, err
}

func (b webBook) Get(ctx context.Context, kind, slug string) (web.Document, error) {
	r, err := b.store.Get(ctx, kind, slug)
	if errors.Is(err, store.ErrDeleted) {
		err = nil
	}
	return fromRevision(r), forWeb(err)
}

func (b webBook) GetRevision(ctx context.Context, kind, slug string, number int) (web.Document, error) {
	r, err := b.store.GetRevision(ctx, kind, slug, number)
	return fromRevision(r), forWeb(err)
}

func (b webBook) History(ctx context.Context, kind, slug string, part web.Part) ([]web.Document, string, error) {
	found, next, err := b.store.History(ctx, kind, slug, store.Page(part))
	return each(found, fromRevision), next, forWeb(err)
}

func (b webBook) List(ctx context.Context, kind string, part web.Part) ([]web.Document, string, error) {
	found, next, err := b.store.List(ctx, kind, store.Page(part))
	return each(found, fromItem), next, forWeb(err)
}

func (b webBook) Titled(ctx context.Context, kind, beginning string, limit int) ([]web.Document, error) {
	found, err := b.store.Titled(ctx, kind, beginning, limit)
	return each(found, fromRevision), forWeb(err)
}

func (b webBook) Recent(ctx context.Context, n int) ([]web.Document, error) {
	found, err := b.store.Recent(ctx, n)
	return each(found, fromItem), forWeb(err)
}

func (b webBook) Search(ctx context.Context, words, kind string, part web.Part) ([]web.Hit, string, error) {
	found, next, err := b.store.Search(ctx, store.Query{Words: words, Kind: kind, Page: store.Page(part)})
	return each(found, func(h store.Hit) web.Hit { return web.Hit(h) }), next, forWeb(err)
}

// mostReferrers is how many documents a page lists that name one.
const mostReferrers = 100

func (b webBook) References(ctx context.Context, kind, slug string) ([]web.Referrer, error) {
	found, _, err := b.store.References(ctx, kind, slug, store.Page{Limit: mostReferrers})
	return each(found, fromReferrer), forWeb(err)
}

func (b webBook) Brews(ctx context.Context, kind, slug string) ([]web.Brew, error) {
	found, err := b.store.Brews(ctx, kind, slug)
	return each(found, func(one store.Brew) web.Brew { return web.Brew(one) }), forWeb(err)
}

func (b webBook) Save(ctx context.Context, d web.Draft) (web.Document, error) {
	r, err := b.store.Put(ctx, store.Draft(d))
	return fromRevision(r), forWeb(err)
}

func (b webBook) Delete(ctx context.Context, d web.Removal) (web.Document, error) {
	r, err := b.store.Delete(ctx, store.Removal(d))
	return fromRevision(r), forWeb(err)
}

func (b webBook) Undelete(ctx context.Context, d web.Removal) (web.Document, error) {
	r, err := b.store.Undelete(ctx, store.Removal(d))
	return fromRevision(r), forWeb(err)
}

func (b webBook) Events(ctx context.Context, gyle string, after, limit int) ([]web.Event, error) {
	found, err := b.store.Events(ctx, gyle, store.EventPage{From: after, Limit: limit})
	return each(found, func(e store.Event) web.Event { return web.Event(e) }), forWeb(err)
}

func (b webBook) EventsOf(ctx context.Context, gyle, kind string) ([]web.Event, error) {
	found, err := b.store.Events(ctx, gyle, store.EventPage{Kind: kind, Limit: store.MaxLimit})
	return each(found, func(e store.Event) web.Event { return web.Event(e) }), forWeb(err)
}

func (b webBook) AppendEvents(ctx context.Context, gyle string, events []web.Event) error {
	_, err := b.store.AppendEvents(ctx, gyle, each(events, func(e web.Event) store.Event { return store.Event(e) }))
	return forWeb(err)
}

func (b webBook) Setting(ctx context.Context, key, other string) (string, error) {
	return b.store.Setting(ctx, key, other)
}

func (b webBook) SetSetting(ctx context.Context, key, value string) error {
	return forWeb(b.store.SetSetting(ctx, key, value))
}

func each[A, B any](from []A, turn func(A) B) []B {
	to := make([]B, len(from))
	for i, a := range from {
		to[i] = turn(a)
	}
	return to
}

func fromRevision(r store.Revision) web.Document {
	return web.Document{
		Kind: r.Kind, Slug: r.Slug, Title: r.Title, Revision: r.Number, At: r.At,
		Author: r.Author, Why: r.Why, Deleted: r.Act == store.Delete, Text: r.Text,
	}
}

func fromItem(i store.Item) web.Document {
	return web.Document{
		Kind: i.Kind, Slug: i.Slug, Title: i.Title, Revision: i.Revision, At: i.At,
		Author: i.Author, Why: i.Why, Deleted: i.Deleted(),
	}
}

func fromReferrer(r store.Referrer) web.Referrer {
	return web.Referrer{Kind: r.FromKind, Slug: r.FromSlug, Title: r.FromTitle, Field: r.Field}
}

// forWeb turns the errors of the store into those that have a page.
func forWeb(err error) error {
	var conflict *store.ConflictError
	var referenced *store.ReferencedError
	var invalid *store.InvalidError
	switch {
	case errors.Is(err, store.ErrNotFound):
		return web.ErrNotFound
	case errors.As(err, &conflict):
		return &web.ConflictError{Base: conflict.Base, Current: fromRevision(conflict.Current)}
	case errors.As(err, &referenced):
		return &web.ReferencedError{By: each(referenced.By, fromReferrer)}
	case errors.As(err, &invalid):
		return &web.RefusedError{Reason: invalid.Error()}
	case errors.Is(err, store.ErrBusy):
		return &web.RefusedError{Reason: "Another program is writing to the book. Nothing was saved; try again."}
	case errors.Is(err, store.ErrTokenReused):
		return &web.RefusedError{Reason: "Another entry of the log has that id already. Nothing was added."}
	case errors.Is(err, store.ErrDeleted):
		return &web.RefusedError{Reason: "It was taken out of the book. Bring it back first."}
	}
	return err
}

const exampleAuthor = "Saltpan Lane Brewing Circle"

// fillWithExamples writes the documents of package examples into a book. What
// the book has already under the same name stays as it is.
func fillWithExamples(ctx context.Context, b *store.Book) error {
	names, err := fs.Glob(examples.Documents(), "*.yaml")
	if err != nil {
		return err
	}
	for _, name := range names {
		text, err := fs.ReadFile(examples.Documents(), name)
		if err != nil {
			return err
		}
		kind, _, ok := document.KindOf(text)
		if _, known := kinds[kind]; !ok || !known {
			continue
		}
		_, err = b.Put(ctx, store.Draft{
			Kind: kind, Slug: strings.TrimSuffix(name, path.Ext(name)), Text: string(text),
			Author: exampleAuthor, Why: "example",
		})
		var conflict *store.ConflictError
		if err != nil && !errors.As(err, &conflict) {
			return err
		}
	}
	name, err := b.Setting(ctx, web.NameSetting, "")
	if err != nil || name != "" {
		return err
	}
	return b.SetSetting(ctx, web.NameSetting, exampleAuthor)
}
