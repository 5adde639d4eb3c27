// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"errors"
	"fmt"
	"testing"
)

func seqs(events []Event) (list []int) {
	for _, e := range events {
		list = append(list, e.Seq)
	}
	return list
}

func TestLogGrows(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "gyle", "g", "title: G")
	for i := range 6 {
		e, err := b.AppendEvent(ctx, "g", Event{Kind: []string{"reading", "note"}[i%2], Body: []byte(fmt.Sprintf(`{"n": %d}`, i))})
		if err != nil || e.Seq != i+1 {
			t.Fatalf("entry %d: %+v, %v", i+1, e, err)
		}
	}
	for _, test := range []struct {
		page EventPage
		want string
	}{
		{EventPage{}, "[1 2 3 4 5 6]"},
		{EventPage{Limit: 2}, "[1 2]"},
		{EventPage{Limit: 2, From: 2}, "[3 4]"},
		{EventPage{Kind: "note"}, "[2 4 6]"},
		{EventPage{Kind: "note", From: 2, Limit: 1}, "[4]"},
		{EventPage{Newest: true, Limit: 2}, "[6 5]"},
		{EventPage{Newest: true, From: 5, Limit: 2}, "[4 3]"},
		{EventPage{Newest: true, Kind: "reading"}, "[5 3 1]"},
		{EventPage{Newest: true, Kind: "reading", From: 3}, "[1]"},
	} {
		found, err := b.Events(ctx, "g", test.page)
		if got := fmt.Sprint(seqs(found)); err != nil || got != test.want {
			t.Errorf("Events %+v = %s, %v; want %s", test.page, got, err, test.want)
		}
	}
}

func TestLogCannotBeChanged(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "gyle", "g", "title: G")
	must(t, second(b.AppendEvent(ctx, "g", Event{Kind: "note"})))
	for _, attack := range []string{
		`UPDATE event SET body = '{}'`, `DELETE FROM event`,
		`UPDATE revision SET text = ''`, `DELETE FROM revision`,
	} {
		if _, err := b.writer.ExecContext(ctx, attack); err == nil {
			t.Errorf("%s went through", attack)
		}
	}
}

func TestReadersCannotWrite(t *testing.T) {
	b := openTest(t)
	if _, err := b.readers.Exec(`INSERT INTO setting (key, value) VALUES ('a', 'b')`); err == nil {
		t.Error("a reader wrote")
	}
}

func TestCorrections(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "gyle", "g", "title: G")
	must(t, second(b.AppendEvent(ctx, "g", Event{Kind: "reading"})))
	e, err := b.AppendEvent(ctx, "g", Event{Kind: "correction", Corrects: 1})
	if err != nil || e.Corrects != 1 {
		t.Errorf("correction = %+v, %v", e, err)
	}
	for _, corrects := range []int{3, 4, -1} {
		if _, err := b.AppendEvent(ctx, "g", Event{Kind: "correction", Corrects: corrects}); err == nil {
			t.Errorf("an entry corrects entry %d, which isn't there", corrects)
		}
	}
}

func TestTokenMakesResendingHarmless(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "gyle", "g", "title: G")
	e := Event{Kind: "reading", Token: "phone-7", Body: []byte(`{"sg":"1.050"}`)}
	first, err1 := b.AppendEvent(ctx, "g", e)
	again, err2 := b.AppendEvent(ctx, "g", e)
	if err1 != nil || err2 != nil || !sameEvent(first, again) {
		t.Errorf("sent twice: %+v, %+v, %v, %v", first, again, err1, err2)
	}
	e.Body = []byte(`{"sg":"1.060"}`)
	if _, err := b.AppendEvent(ctx, "g", e); !errors.Is(err, ErrTokenReused) {
		t.Errorf("another body under the token: %v, want ErrTokenReused", err)
	}
	if found, _ := b.Events(ctx, "g", EventPage{}); len(found) != 1 {
		t.Errorf("the log holds %d entries, want 1", len(found))
	}
}

func TestAppendRefuses(t *testing.T) {
	b, ctx := openTest(t), context.Background()
	put(t, b, "gyle", "g", "title: G")
	put(t, b, "recipe", "r", "title: R")
	if _, err := b.AppendEvent(ctx, "r", Event{Kind: "note"}); !errors.Is(err, ErrNotFound) {
		t.Errorf("log of a recipe: %v, want ErrNotFound", err)
	}
	batch := []Event{{Kind: "note"}, {Kind: "note", Body: []byte("{")}}
	if _, err := b.AppendEvents(ctx, "g", batch); err == nil {
		t.Error("broken JSON was kept")
	}
	if _, err := b.AppendEvent(ctx, "g", Event{Kind: " "}); err == nil {
		t.Error("an entry without kind was kept")
	}
	if found, _ := b.Events(ctx, "g", EventPage{}); len(found) != 0 {
		t.Errorf("refused entries left %+v", found)
	}
	must(t, second(b.Delete(ctx, Removal{Kind: "gyle", Slug: "g", Base: 1})))
	if _, err := b.AppendEvent(ctx, "g", Event{Kind: "note"}); !errors.Is(err, ErrDeleted) {
		t.Errorf("log of a deleted gyle: %v, want ErrDeleted", err)
	}
	if _, err := b.Events(ctx, "g", EventPage{}); err != nil {
		t.Errorf("reading the log of a deleted gyle: %v", err)
	}
}
