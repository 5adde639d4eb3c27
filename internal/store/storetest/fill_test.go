// SPDX-License-Identifier: MIT

package storetest

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"gyle/internal/store"
)

func filled(t testing.TB, size Size, seed uint64) *store.Book {
	t.Helper()
	now := time.Date(2001, 3, 1, 8, 0, 0, 0, time.UTC)
	b, err := store.Open(filepath.Join(t.TempDir(), "filled.gylebook"), store.Options{
		Create: true, Check: CheckWords,
		Now: func() time.Time { now = now.Add(time.Minute); return now },
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	if err := Fill(context.Background(), b, size, seed, Words); err != nil {
		t.Fatal(err)
	}
	return b
}

func TestFillIsAsLargeAsAsked(t *testing.T) {
	if testing.Short() {
		t.Skip("writes a book")
	}
	b, ctx := filled(t, Evening, 1), context.Background()
	revisions, events := 0, 0
	recipes, _, err := b.List(ctx, "recipe", store.Page{})
	if err != nil || len(recipes) != Evening.Recipes {
		t.Fatalf("%d recipes, %v; want %d", len(recipes), err, Evening.Recipes)
	}
	for _, recipe := range recipes {
		revisions += recipe.Revision
	}
	gyles, _, err := b.List(ctx, "gyle", store.Page{})
	if err != nil || len(gyles) != Evening.Gyles {
		t.Fatalf("%d gyles, %v; want %d", len(gyles), err, Evening.Gyles)
	}
	for _, gyle := range gyles {
		last, err := b.Events(ctx, gyle.Slug, store.EventPage{Newest: true, Limit: 1})
		if err != nil || len(last) != 1 {
			t.Fatalf("last entry of %s: %v, %v", gyle.Slug, last, err)
		}
		events += last[0].Seq
	}
	if revisions != Evening.Versions || events != Evening.Events {
		t.Errorf("%d versions and %d entries, want %d and %d", revisions, events, Evening.Versions, Evening.Events)
	}
	if broken, _, err := b.Broken(ctx, store.Page{}); err != nil || len(broken) != 0 {
		t.Errorf("broken links %v, %v", broken, err)
	}
}

func TestSameSeedSameBook(t *testing.T) {
	if testing.Short() {
		t.Skip("writes two books")
	}
	var tables [2]string
	for i := range tables {
		folder := filepath.Join(t.TempDir(), "out")
		if err := filled(t, Evening, 7).Export(context.Background(), folder); err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"revisions.csv", "events.csv"} {
			text, err := os.ReadFile(filepath.Join(folder, name))
			if err != nil {
				t.Fatal(err)
			}
			tables[i] += string(text)
		}
	}
	if tables[0] != tables[1] {
		t.Error("the same seed made two different books")
	}
}
