// SPDX-License-Identifier: MIT

package storetest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"gyle/internal/store"
)

// BenchmarkPages measures what stands behind a page, in a book of one brewer's
// decades (with -short: of an evening). Each should stay well below 10 ms.
func BenchmarkPages(b *testing.B) {
	size := Decades
	if testing.Short() {
		size = Evening
	}
	book, ctx := filled(b, size, 1), context.Background()
	random := rand.New(rand.NewPCG(3, 4))
	one := func(kind string, count int) string { return Slug(kind, random.IntN(count)) }
	middle := middleOf(b, book)
	for _, page := range []struct {
		name string
		read func() error
	}{
		{"get", func() error { return second(book.Get(ctx, "recipe", one("recipe", size.Recipes))) }},
		{"history", func() error {
			_, _, err := book.History(ctx, "recipe", one("recipe", size.Recipes), store.Page{})
			return err
		}},
		{"list by title", func() error { _, _, err := book.List(ctx, "recipe", store.Page{}); return err }},
		{"list by title, middle", func() error { _, _, err := book.List(ctx, "recipe", middle); return err }},
		{"list by date", func() error { _, _, err := book.ListRecent(ctx, "gyle", store.Page{}); return err }},
		{"recent", func() error { return second(book.Recent(ctx, 50)) }},
		{"deleted", func() error { return second(book.Deleted(ctx, 50)) }},
		{"references", func() error {
			_, _, err := book.References(ctx, "style", one("style", size.Others), store.Page{})
			return err
		}},
		{"broken", func() error { _, _, err := book.Broken(ctx, store.Page{}); return err }},
		{"search common word", searching(book, store.Query{Words: "malt"})},
		{"search common words", searching(book, store.Query{Words: "malt oats br"})},
		{"search in a kind", searching(book, store.Query{Words: "malt", Kind: "style"})},
		{"search two letters", searching(book, store.Query{Words: "br"})},
		{"search one letter", searching(book, store.Query{Words: "b"})},
		{"search one document", searching(book, store.Query{Words: Slug("recipe", size.Recipes/2)})},
		{"search nothing", searching(book, store.Query{Words: "zymurgy"})},
		{"log, end", func() error {
			return second(book.Events(ctx, one("gyle", size.Gyles), store.EventPage{Newest: true}))
		}},
		{"log, one kind", func() error {
			return second(book.Events(ctx, one("gyle", size.Gyles), store.EventPage{Kind: "gravity"}))
		}},
		{"log, whole", func() error {
			return second(book.Events(ctx, one("gyle", size.Gyles), store.EventPage{Limit: store.MaxLimit}))
		}},
		{"setting", func() error { return second(book.Setting(ctx, "units", "metric")) }},
		{"append", func() error {
			return second(book.AppendEvent(ctx, one("gyle", size.Gyles), store.Event{Kind: "note"}))
		}},
	} {
		b.Run(page.name, func(b *testing.B) {
			for b.Loop() {
				if err := page.read(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("backup", func(b *testing.B) {
		for b.Loop() {
			if err := book.Backup(ctx, filepath.Join(b.TempDir(), "copy.gylebook")); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func second[T any](_ T, err error) error { return err }

func searching(book *store.Book, query store.Query) func() error {
	return func() error {
		_, _, err := book.Search(context.Background(), query)
		return err
	}
}

// middleOf turns pages until the middle of the recipes.
func middleOf(b *testing.B, book *store.Book) (page store.Page) {
	b.Helper()
	for range 3 {
		_, next, err := book.List(context.Background(), "recipe", page)
		if err != nil {
			b.Fatal(err)
		}
		page = store.Page{After: next, Limit: store.DefaultLimit}
	}
	return page
}

func BenchmarkPut(b *testing.B) {
	book, ctx := filled(b, Evening, 1), context.Background()
	for n := 0; b.Loop(); n++ {
		draft := store.Draft{Kind: "recipe", Slug: "bench", Text: fmt.Sprintf("title: bench\nrevision: %d\n", n), Base: n}
		if _, err := book.Put(ctx, draft); err != nil {
			b.Fatal(err)
		}
	}
}
