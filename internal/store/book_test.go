// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// lineChecker reads documents of the tests: a line "title: T", lines "KIND: SLUG"
// that name other documents, and a line "fault" that makes the document wrong.
func lineChecker(_ string, text []byte) (title string, refs []Ref, err error) {
	for i, line := range strings.Split(string(text), "\n") {
		key, value, _ := strings.Cut(line, ": ")
		switch {
		case line == "fault":
			return "", nil, &lineError{line: i + 1}
		case key == "title":
			title = value
		case key == "style" || key == "recipe" || key == "brewhouse":
			refs = append(refs, Ref{Kind: key, Slug: value, Field: key})
		}
	}
	return title, refs, nil
}

type lineError struct {
	file string
	line int
}

func (e *lineError) Error() string              { return fmt.Sprintf("%s:%d:1: a fault", e.file, e.line) }
func (e *lineError) WithFile(name string) error { return &lineError{name, e.line} }

// tick is a clock that goes on by a second at each look.
func tick() func() time.Time {
	now := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	return func() time.Time { now = now.Add(time.Second); return now }
}

func testOptions() Options { return Options{Create: true, Check: lineChecker, Now: tick()} }

func openTest(t testing.TB) *Book {
	t.Helper()
	return openAt(t, filepath.Join(t.TempDir(), "test book?#1%.gylebook"))
}

func openAt(t testing.TB, path string) *Book {
	t.Helper()
	b, err := Open(path, testOptions())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

func put(t testing.TB, b *Book, kind, slug, text string) Revision {
	t.Helper()
	base := 0
	if c, err := currentOf(context.Background(), b.readers, kind, slug); err == nil {
		base = c.Number
	}
	r, err := b.Put(context.Background(), Draft{Kind: kind, Slug: slug, Text: text, Author: "Ada", Why: "test", Base: base})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestPutKeepsEveryRevision(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "recipe", "ferry-brown", "title: Ferry Brown\nog: 1.048\n")
	put(t, b, "recipe", "ferry-brown", "title: Ferry Brown\nog: 1.050\n")
	now, err := b.Get(ctx, "recipe", "ferry-brown")
	if err != nil || now.Number != 2 || now.Title != "Ferry Brown" || !strings.Contains(now.Text, "1.050") {
		t.Errorf("Get = %+v, %v; want revision 2 with 1.050", now, err)
	}
	first, err := b.GetRevision(ctx, "recipe", "ferry-brown", 1)
	if err != nil || !strings.Contains(first.Text, "1.048") {
		t.Errorf("GetRevision 1 = %+v, %v; want the first text", first, err)
	}
	history, next, err := b.History(ctx, "recipe", "ferry-brown", Page{Limit: 1})
	if err != nil || len(history) != 1 || history[0].Number != 2 || history[0].Text != "" || next == "" {
		t.Errorf("History = %+v, %q, %v", history, next, err)
	}
	history, next, err = b.History(ctx, "recipe", "ferry-brown", Page{Limit: 1, After: next})
	if err != nil || len(history) != 1 || history[0].Number != 1 || next != "" {
		t.Errorf("History, second page = %+v, %q, %v", history, next, err)
	}
	if _, err := b.GetRevision(ctx, "recipe", "ferry-brown", 3); !errors.Is(err, ErrNotFound) {
		t.Errorf("revision 3: %v, want ErrNotFound", err)
	}
}

func TestSameTextMakesNoRevision(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "water", "tap", "title: Tap\r\nCa: 40\r\n")
	again, err := b.Put(ctx, Draft{Kind: "water", Slug: "tap", Text: "title: Tap\nCa: 40\n", Base: 0})
	if err != nil || again.Number != 1 {
		t.Errorf("same text again = revision %d, %v; want 1", again.Number, err)
	}
}

func TestConflictLosesNobodysWork(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "recipe", "r", "base")
	put(t, b, "recipe", "r", "hers")
	_, err := b.Put(ctx, Draft{Kind: "recipe", Slug: "r", Text: "his", Base: 1})
	var conflict *ConflictError
	if !errors.As(err, &conflict) || conflict.Current.Text != "hers" || conflict.Current.Number != 2 {
		t.Fatalf("stale save: %v, want a conflict that shows hers", err)
	}
	if now, _ := b.Get(ctx, "recipe", "r"); now.Text != "hers" {
		t.Errorf("after the refused save the text is %q", now.Text)
	}
	if _, err := b.Put(ctx, Draft{Kind: "recipe", Slug: "r", Text: "new", Base: 0}); !errors.As(err, &conflict) {
		t.Errorf("a new document over an old one: %v, want a conflict", err)
	}
	if _, err := b.Put(ctx, Draft{Kind: "recipe", Slug: "none", Text: "x", Base: 4}); !errors.Is(err, ErrNotFound) {
		t.Errorf("an edit of nothing: %v, want ErrNotFound", err)
	}
}

func TestPutRefuses(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	for name, d := range map[string]Draft{
		"unknown kind":   {Kind: "cider", Slug: "a", Text: "x"},
		"path in slug":   {Kind: "recipe", Slug: "../a", Text: "x"},
		"empty slug":     {Kind: "recipe", Slug: "", Text: "x"},
		"reserved slug":  {Kind: "recipe", Slug: "con", Text: "x"},
		"not UTF-8":      {Kind: "recipe", Slug: "a", Text: "\xff"},
		"NUL":            {Kind: "recipe", Slug: "a", Text: "a\x00b"},
		"too long":       {Kind: "recipe", Slug: "a", Text: strings.Repeat("x", MaxText+1)},
		"checker's word": {Kind: "recipe", Slug: "a", Text: "title: A\nfault\n"},
	} {
		if _, err := b.Put(ctx, d); err == nil {
			t.Errorf("%s: saved", name)
		}
	}
	if found, _ := b.Recent(ctx, 10); len(found) != 0 {
		t.Errorf("refused drafts left %v", found)
	}
}

func TestDeleteAndUndelete(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "style", "brown", "title: Brown\nmalty")
	gone, err := b.Delete(ctx, Removal{Kind: "style", Slug: "brown", Author: "Ada", Why: "doubled", Base: 1})
	if err != nil || gone.Number != 2 || gone.Act != Delete {
		t.Fatalf("Delete = %+v, %v", gone, err)
	}
	if r, err := b.Get(ctx, "style", "brown"); !errors.Is(err, ErrDeleted) || !strings.Contains(r.Text, "malty") {
		t.Errorf("Get after delete = %+v, %v; want ErrDeleted with the last text", r, err)
	}
	if hits, _, _ := b.Search(ctx, Query{Words: "malty"}); len(hits) != 0 {
		t.Errorf("a deleted document is found: %v", hits)
	}
	if list, _, _ := b.List(ctx, "style", Page{}); len(list) != 0 {
		t.Errorf("a deleted document is listed: %v", list)
	}
	if list, err := b.Deleted(ctx, 5); err != nil || len(list) != 1 || list[0].Why != "doubled" {
		t.Errorf("Deleted = %+v, %v", list, err)
	}
	var conflict *ConflictError
	if _, err := b.Put(ctx, Draft{Kind: "style", Slug: "brown", Text: "edit", Base: 1}); !errors.As(err, &conflict) || conflict.Current.Act != Delete {
		t.Errorf("an edit begun before the deletion: %v, want a conflict", err)
	}
	back, err := b.Undelete(ctx, Removal{Kind: "style", Slug: "brown", Base: 2})
	if err != nil || back.Number != 3 || !strings.Contains(back.Text, "malty") {
		t.Errorf("Undelete = %+v, %v", back, err)
	}
	if hits, _, _ := b.Search(ctx, Query{Words: "malty"}); len(hits) != 1 {
		t.Errorf("a document brought back isn't found")
	}
}

func TestReferencesFollowTheirTargets(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "recipe", "one", "title: One\nstyle: brown")
	if broken, _, err := b.Broken(ctx, Page{}); err != nil || len(broken) != 1 || broken[0].Slug != "brown" || broken[0].FromSlug != "one" {
		t.Fatalf("Broken = %+v, %v; want recipe one to style brown", broken, err)
	}
	put(t, b, "style", "brown", "title: Brown")
	if broken, _, _ := b.Broken(ctx, Page{}); len(broken) != 0 {
		t.Errorf("Broken after the style was written = %+v", broken)
	}
	put(t, b, "recipe", "two", "title: Two\nstyle: brown")
	by, _, err := b.References(ctx, "style", "brown", Page{})
	if err != nil || len(by) != 2 || by[0].FromTitle != "One" || by[1].FromTitle != "Two" || by[0].Broken {
		t.Errorf("References = %+v, %v", by, err)
	}
	_, err = b.Delete(ctx, Removal{Kind: "style", Slug: "brown", Base: 1})
	var named *ReferencedError
	if !errors.As(err, &named) || named.Total != 2 || !strings.Contains(err.Error(), "recipe one, recipe two") {
		t.Fatalf("Delete of a named style: %v", err)
	}
	if _, err = b.Delete(ctx, Removal{Kind: "style", Slug: "brown", Base: 1, Anyway: true}); err != nil {
		t.Fatal(err)
	}
	if named, _ := b.Named(ctx, "recipe", "two"); len(named) != 1 || !named[0].Broken {
		t.Errorf("Named after the deletion = %+v, want broken", named)
	}
	put(t, b, "recipe", "one", "title: One")
	if _, err := b.Undelete(ctx, Removal{Kind: "style", Slug: "brown", Base: 2}); err != nil {
		t.Fatal(err)
	}
	if by, _, _ := b.References(ctx, "style", "brown", Page{}); len(by) != 1 || by[0].FromSlug != "two" || by[0].Broken {
		t.Errorf("References at the end = %+v, want recipe two, whole", by)
	}
}

// Pages of any length put together are the whole list, without gap or repeat.
func TestPagesJoinUp(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	const count = 23
	for i := range count {
		put(t, b, "recipe", fmt.Sprintf("r%02d", i), fmt.Sprintf("title: %s\nstyle: brown\nbitter %d", []string{"Beer", "beer", "Ale bitter"}[i%3], i))
	}
	for name, read := range map[string]func(Page) (int, []string, string, error){
		"List": func(p Page) (int, []string, string, error) {
			items, next, err := b.List(ctx, "recipe", p)
			return len(items), slugs(items), next, err
		},
		"ListRecent": func(p Page) (int, []string, string, error) {
			items, next, err := b.ListRecent(ctx, "recipe", p)
			return len(items), slugs(items), next, err
		},
		"References": func(p Page) (n int, names []string, next string, err error) {
			found, next, err := b.References(ctx, "style", "brown", p)
			for _, f := range found {
				names = append(names, f.FromSlug)
			}
			return len(found), names, next, err
		},
		"Broken": func(p Page) (n int, names []string, next string, err error) {
			found, next, err := b.Broken(ctx, p)
			for _, f := range found {
				names = append(names, f.FromSlug)
			}
			return len(found), names, next, err
		},
		"Search": func(p Page) (n int, names []string, next string, err error) {
			hits, next, err := b.Search(ctx, Query{Words: "bitt", Kind: "recipe", Page: p})
			for _, h := range hits {
				names = append(names, h.Slug)
			}
			return len(hits), names, next, err
		},
	} {
		for _, limit := range []int{1, 2, 7, 8, 23, 50} {
			seen, page := map[string]bool{}, Page{Limit: limit}
			for rounds := 0; ; rounds++ {
				n, names, next, err := read(page)
				if err != nil || n > limit || rounds > 2*count {
					t.Fatalf("%s by %d: %d lines, round %d, %v", name, limit, n, rounds, err)
				}
				for _, slug := range names {
					if seen[slug] {
						t.Errorf("%s by %d: %s comes twice", name, limit, slug)
					}
					seen[slug] = true
				}
				if next == "" {
					break
				}
				page.After = next
			}
			if len(seen) != count {
				t.Errorf("%s by %d: %d of %d documents", name, limit, len(seen), count)
			}
		}
	}
}

func slugs(items []Item) (names []string) {
	for _, item := range items {
		names = append(names, item.Slug)
	}
	return names
}

func TestRecentCountsLogEntries(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "gyle", "g1", "title: G1")
	put(t, b, "recipe", "r", "title: R")
	if _, err := b.AppendEvent(ctx, "g1", Event{Kind: "note"}); err != nil {
		t.Fatal(err)
	}
	found, err := b.Recent(ctx, 10)
	if err != nil || len(found) != 2 || found[0].Slug != "g1" || !found[0].Touched.After(found[0].At) {
		t.Errorf("Recent = %+v, %v; want the gyle with the new entry first", found, err)
	}
}

func TestSettings(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	if got, err := b.Setting(ctx, "units", "metric"); err != nil || got != "metric" {
		t.Errorf("unset: %q, %v", got, err)
	}
	for _, value := range []string{"us", "metric"} {
		if err := b.SetSetting(ctx, "units", value); err != nil {
			t.Fatal(err)
		}
		if got, err := b.Setting(ctx, "units", "?"); err != nil || got != value {
			t.Errorf("set %q: %q, %v", value, got, err)
		}
	}
}
