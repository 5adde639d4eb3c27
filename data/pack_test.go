// SPDX-License-Identifier: MIT

package data

import (
	"encoding/json"
	"reflect"
	"testing"
)

// Every record comes out of a pack as it went in.
func TestPackKeepsRecords(t *testing.T) {
	keeps(t, malts)
	keeps(t, hops)
	keeps(t, yeasts)
	keeps(t, sugars)
	keeps(t, salts)
	keeps(t, acids)
	keeps(t, maltAliases.shelf)
}

func keeps[T any](t *testing.T, s *shelf[T]) {
	t.Helper()
	pack := Pack{}
	if err := pack.add(s, s.sortedIDs()); err != nil {
		t.Fatal(err)
	}
	if len(pack[s.place()]) != len(s.ids) || len(s.ids) == 0 {
		t.Fatalf("%s: %d records packed of %d", s.place(), len(pack[s.place()]), len(s.ids))
	}
	for id, text := range pack[s.place()] {
		var got T
		if err := json.Unmarshal(text, &got); err != nil {
			t.Fatal(err)
		}
		if want, _ := s.get(id); !reflect.DeepEqual(want, got) {
			t.Errorf("%s, %s: packed as\n%+v\nnot\n%+v", s.place(), id, got, want)
		}
	}
}

// A pack follows the words that brewers use to the records that are meant.
func TestPackFor(t *testing.T) {
	pack, err := PackFor([]string{"pale-ale", "challenger", "goldings", "no such thing"})
	if err != nil {
		t.Fatal(err)
	}
	alias, ok := HopAlias("goldings")
	if !ok {
		t.Fatal("goldings is an alias no more: take another for this test")
	}
	malt, _ := Malt("pale-ale")
	for _, want := range []struct{ place, id string }{
		{"malts.yaml/records", malt.ID}, {"hops.yaml/records", "challenger"}, {"aliases.yaml/hops", "goldings"},
		{"hops.yaml/records", alias.Is}, {"waters.yaml/salts", SaltIDs()[0]},
	} {
		if pack[want.place][want.id] == nil {
			t.Errorf("%s is not in %s of the pack", want.id, want.place)
		}
	}
	if n := len(pack["malts.yaml/records"]); n != 1 {
		t.Errorf("%d malts are packed, want the one that was named", n)
	}
}
