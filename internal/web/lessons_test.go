// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"reflect"
	"strings"
	"testing"
	"time"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/reconstruct"
)

// What is kept of a house is what one learns who reads all its brews anew, after
// a brew was added at the end, one before it, and after a log has grown.
func TestLessonsFollowTheLogs(t *testing.T) {
	ctx, b := context.Background(), fullBook(t)
	s := newTestServer(t, Options{Book: b})
	house, err := optional(ctx, s, brewhouse.Kind, "garage", brewhouse.Parse)
	if err != nil {
		t.Fatal(err)
	}
	first, err := b.Get(ctx, gyle.Kind, "gyle-17")
	if err != nil {
		t.Fatal(err)
	}
	same := func(what string) {
		t.Helper()
		kept, err := s.taught(ctx, "garage", house)
		if err != nil {
			t.Fatal(err)
		}
		brews, _ := b.Brews(ctx, brewhouse.Kind, "garage")
		var all []*gyle.Gyle
		for _, one := range brews {
			g, _, err := ReadGyle(ctx, b, one.Slug)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, g)
		}
		anew := reconstruct.LearnFrom(house, all, brewName)
		if len(kept) != len(all) || !reflect.DeepEqual(bookAfter(kept, house), anew) {
			t.Errorf("%s: %d brews kept, and they taught\n%+v\ninstead of\n%+v", what, len(kept), bookAfter(kept, house).Misses, anew.Misses)
		}
	}
	same("one brew")
	for slug, change := range map[string][]string{
		"gyle-30": {"number: 17", "number: 30", "2026-03-", "2026-05-", "value: 65.7C", "value: 66.7C"},
		"gyle-12": {"number: 17", "number: 12", "2026-03-", "2026-01-", "value: 1.0425", "value: 1.0432"},
	} {
		if _, err := b.Save(ctx, Draft{Kind: gyle.Kind, Slug: slug, Text: strings.NewReplacer(change...).Replace(first.Text)}); err != nil {
			t.Fatal(err)
		}
		same(slug)
	}
	entry := gyle.Entry{ID: NewEntryID(time.Now()), Time: gyle.At(time.Date(2026, 1, 20, 9, 0, 0, 0, time.UTC)), Reading: &gyle.Reading{Of: gyle.OfBitterness, Value: "26"}}
	if err := AppendEntries(ctx, b, "gyle-12", entry); err != nil {
		t.Fatal(err)
	}
	same("a longer log")
	if chain, _ := s.taught(ctx, "garage", house); len(before(chain, &gyle.Gyle{Date: chain[1].date})) != 1 {
		t.Error("a brew learns from itself, or from later ones")
	}
}

// The first page leaves out what was packaged without reading the whole log,
// and takes it up again when that entry is struck.
func TestPackagedIsKnownFromTheDeeds(t *testing.T) {
	ctx, b := context.Background(), fullBook(t)
	s := newTestServer(t, Options{Book: b})
	whole, _, err := ReadGyle(ctx, b, "gyle-17")
	if err != nil {
		t.Fatal(err)
	}
	bare := *whole
	bare.Log = nil
	text, err := bare.Text()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Save(ctx, Draft{Kind: gyle.Kind, Slug: "gyle-18", Text: string(text)}); err != nil {
		t.Fatal(err)
	}
	last := whole.Log[len(whole.Log)-1]
	if last.Deed == nil || last.Deed.Do != gyle.Packaged {
		t.Fatalf("the example ends with %+v", last)
	}
	if err := AppendEntries(ctx, b, "gyle-18", whole.Log[:len(whole.Log)-1]...); err != nil || s.surelyPackaged(ctx, "gyle-18") {
		t.Errorf("%v; packaged before it was", err)
	}
	if err := AppendEntries(ctx, b, "gyle-18", last); err != nil || !s.surelyPackaged(ctx, "gyle-18") {
		t.Errorf("%v; not packaged after it was", err)
	}
	strike := gyle.Entry{ID: NewEntryID(time.Now()), Time: gyle.At(last.Time.Add(60).Time), Correction: &gyle.Correction{Of: last.ID, Strike: true}}
	if err := AppendEntries(ctx, b, "gyle-18", strike); err != nil || s.surelyPackaged(ctx, "gyle-18") {
		t.Errorf("%v; packaged by an entry that was struck", err)
	}
}
