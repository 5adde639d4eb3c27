// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"gyle/brewhouse"
	"gyle/examples"
	"gyle/gyle"
	"gyle/internal/document"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

// testBook is a Book in memory. It keeps the promises that the pages rely on:
// numbered revisions, refused stale saves, deletion as a revision.
type testBook struct {
	mu       sync.Mutex
	docs     map[string][]Document
	events   map[string][]Event
	settings map[string]string
	clock    time.Time
}

func newTestBook() *testBook {
	return &testBook{
		docs: map[string][]Document{}, events: map[string][]Event{}, settings: map[string]string{},
		clock: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC),
	}
}

// fullBook is the book of the example.
func fullBook(t testing.TB) *testBook {
	t.Helper()
	b := newTestBook()
	names, err := fs.Glob(examples.Documents(), "*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		text, err := fs.ReadFile(examples.Documents(), name)
		if err != nil {
			t.Fatal(err)
		}
		kind, _, _ := document.KindOf(text)
		if _, err := b.Save(t.Context(), Draft{Kind: kind, Slug: strings.TrimSuffix(name, ".yaml"), Text: string(text), Author: "A. Quillmark", Why: "example"}); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	b.settings[NameSetting] = "Saltpan Lane Brewing Circle"
	return b
}

func (b *testBook) Name() string { return "Test book" }

func (b *testBook) Check(kind, text string) (title string, err error) {
	switch kind {
	case recipe.Kind:
		d, err := recipe.Parse("recipe.yaml", []byte(text))
		if err != nil {
			return "", err
		}
		title = d.Name
		if d.Version > 0 {
			title += " " + string(rune('0'+d.Version))
		}
		return title, nil
	case style.Kind:
		return nameOf(style.Parse("style.yaml", []byte(text)))
	case brewhouse.Kind:
		return nameOf(brewhouse.Parse("brewhouse.yaml", []byte(text)))
	case stock.Kind:
		return nameOf(stock.Parse("stock.yaml", []byte(text)))
	case water.Kind:
		return nameOf(water.Parse("water.yaml", []byte(text)))
	case gyle.Kind:
		return nameOf(gyle.Parse("gyle.yaml", []byte(text)))
	case tasting.Kind:
		return nameOf(tasting.Parse("tasting.yaml", []byte(text)))
	}
	return "", &RefusedError{"no such kind"}
}

func nameOf(d any, err error) (string, error) {
	if err != nil {
		return "", err
	}
	switch d := d.(type) {
	case *style.Style:
		return d.Name, nil
	case *brewhouse.House:
		return d.Name, nil
	case *stock.Stock:
		return d.Name, nil
	case *water.Water:
		return d.Name, nil
	case *gyle.Gyle:
		return d.Name, nil
	case *tasting.Tasting:
		return d.Name, nil
	}
	return "", &RefusedError{"no name"}
}

func (b *testBook) Get(_ context.Context, kind, slug string) (Document, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	all := b.docs[kind+"/"+slug]
	if len(all) == 0 {
		return Document{}, ErrNotFound
	}
	return all[len(all)-1], nil
}

func (b *testBook) GetRevision(_ context.Context, kind, slug string, number int) (Document, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	all := b.docs[kind+"/"+slug]
	if number < 1 || number > len(all) {
		return Document{}, ErrNotFound
	}
	return all[number-1], nil
}

func (b *testBook) History(_ context.Context, kind, slug string, _ Part) ([]Document, string, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	all := slices.Clone(b.docs[kind+"/"+slug])
	slices.Reverse(all)
	return all, "", nil
}

func (b *testBook) living(keep func(Document) bool) (list []Document) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, all := range b.docs {
		if d := all[len(all)-1]; !d.Deleted && keep(d) {
			list = append(list, d)
		}
	}
	slices.SortFunc(list, func(x, y Document) int { return cmp.Compare(x.Title+x.Slug, y.Title+y.Slug) })
	return list
}

func (b *testBook) List(_ context.Context, kind string, part Part) ([]Document, string, error) {
	list := b.living(func(d Document) bool { return d.Kind == kind && d.Title > part.After })
	if part.Limit > 0 && len(list) > part.Limit {
		return list[:part.Limit], list[part.Limit-1].Title, nil
	}
	return list, "", nil
}

func (b *testBook) Recent(_ context.Context, n int) ([]Document, error) {
	list := b.living(func(Document) bool { return true })
	slices.SortStableFunc(list, func(x, y Document) int { return y.At.Compare(x.At) })
	return list[:min(n, len(list))], nil
}

func (b *testBook) Titled(_ context.Context, kind, beginning string, limit int) (found []Document, err error) {
	found = b.living(func(d Document) bool { return d.Kind == kind && strings.HasPrefix(d.Title, beginning) })
	return found[:min(len(found), limit)], nil
}

func (b *testBook) Search(_ context.Context, words, kind string, _ Part) (hits []Hit, next string, err error) {
	for _, d := range b.living(func(d Document) bool { return kind == "" || d.Kind == kind }) {
		if at := strings.Index(strings.ToLower(d.Text), strings.ToLower(words)); at >= 0 {
			hits = append(hits, Hit{d.Kind, d.Slug, d.Title, d.Text[at:min(len(d.Text), at+60)]})
		}
	}
	return hits, "", nil
}

func (b *testBook) Brews(_ context.Context, kind, slug string) (found []Brew, err error) {
	field := map[string]string{"brewhouse": "house"}[kind]
	if field == "" {
		field = kind
	}
	for _, d := range b.living(func(d Document) bool {
		return d.Kind == gyle.Kind && strings.Contains(d.Text, "\n"+field+": "+slug+"\n")
	}) {
		found = append(found, Brew{d.Slug, d.Revision, len(b.events[d.Slug])})
	}
	return found, nil
}

func (b *testBook) References(_ context.Context, kind, slug string) (by []Referrer, err error) {
	field := map[string]string{"style": "style", "brewhouse": "house"}[kind]
	if kind == recipe.Kind || kind == gyle.Kind {
		for _, d := range b.living(func(d Document) bool {
			return d.Kind == tasting.Kind && strings.Contains(d.Text, "\n  "+kind+": "+slug+"\n") ||
				d.Kind == gyle.Kind && kind == recipe.Kind && strings.Contains(d.Text, "\nrecipe: {id: "+slug+",")
		}) {
			by = append(by, Referrer{d.Kind, d.Slug, d.Title, "beers." + kind})
		}
		return by, nil
	}
	if field == "" {
		return nil, nil
	}
	for _, d := range b.living(func(d Document) bool { return strings.Contains(d.Text, "\n"+field+": "+slug+"\n") }) {
		by = append(by, Referrer{d.Kind, d.Slug, d.Title, field})
	}
	return by, nil
}

func (b *testBook) Save(_ context.Context, d Draft) (Document, error) {
	title, err := b.Check(d.Kind, d.Text)
	if err != nil {
		return Document{}, err
	}
	return b.write(Document{Kind: d.Kind, Slug: d.Slug, Title: title, Author: d.Author, Why: d.Why, Text: d.Text}, d.Base)
}

func (b *testBook) write(d Document, base int) (Document, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	key := d.Kind + "/" + d.Slug
	if n := len(b.docs[key]); n != base {
		return Document{}, &ConflictError{base, b.docs[key][n-1]}
	}
	b.clock = b.clock.Add(time.Minute)
	d.Revision, d.At = base+1, b.clock
	b.docs[key] = append(b.docs[key], d)
	return d, nil
}

func (b *testBook) Delete(ctx context.Context, d Removal) (Document, error) {
	if by, _ := b.References(ctx, d.Kind, d.Slug); len(by) > 0 && !d.Anyway {
		return Document{}, &ReferencedError{by}
	}
	return b.mark(ctx, d, true)
}

func (b *testBook) Undelete(ctx context.Context, d Removal) (Document, error) {
	return b.mark(ctx, d, false)
}

func (b *testBook) mark(ctx context.Context, d Removal, deleted bool) (Document, error) {
	now, err := b.Get(ctx, d.Kind, d.Slug)
	if err != nil {
		return now, err
	}
	now.Deleted = deleted
	return b.write(now, d.Base)
}

func (b *testBook) Events(_ context.Context, gyle string, after, limit int) ([]Event, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	const most = 7 // a book gives as much as it likes at once
	rest := b.events[gyle][min(after, len(b.events[gyle])):]
	return rest[:min(len(rest), limit, most)], nil
}

func (b *testBook) EventsOf(_ context.Context, gyle, kind string) (found []Event, err error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, e := range b.events[gyle] {
		if e.Kind == kind {
			found = append(found, e)
		}
	}
	return found, nil
}

func (b *testBook) AppendEvents(_ context.Context, gyle string, events []Event) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, e := range events {
		if e.Token != "" && slices.ContainsFunc(b.events[gyle], func(before Event) bool { return before.Token == e.Token }) {
			continue
		}
		e.Seq = len(b.events[gyle]) + 1
		b.events[gyle] = append(b.events[gyle], e)
	}
	return nil
}

func (b *testBook) Setting(_ context.Context, key, other string) (string, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if v, ok := b.settings[key]; ok {
		return v, nil
	}
	return other, nil
}

func (b *testBook) SetSetting(_ context.Context, key, value string) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.settings[key] = value
	return nil
}
