// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"testing"

	"gyle/data"
)

// fifteen is a style of fifteen malts: the printed numbers of American brown ale
// (Beer Style Guidelines 2021, 19C) and the rules of the tests.
func fifteen(b testing.TB) Wish {
	n, ok := data.StyleNumbers("american-brown-ale")
	if !ok {
		b.Fatal("no such style")
	}
	return shelf(numbered(b, n))
}

// BenchmarkRooms works out the rooms of fifteen malts: 30 solves of the grist.
// Aim: 20 ms.
func BenchmarkRooms(b *testing.B) {
	wish := fifteen(b)
	wish.Hops = wish.Hops[:1]
	w, d, _ := roomsOf(b, wish)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.rooms(d); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFind finds a recipe with its rooms. Aims: 60 ms from fifteen malts
// without a house, 60 ms for the Circle's oat brown on its house.
func BenchmarkFind(b *testing.B) {
	for _, test := range []struct {
		name string
		wish Wish
	}{{"fifteen", fifteen(b)}, {"oat brown", clubWish(b, "garage")}} {
		b.Run(test.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Find(context.Background(), test.wish); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkConflict finds the conflict of an impossible style and its ways out.
// Aim: 60 ms.
func BenchmarkConflict(b *testing.B) {
	wish := impossible(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Find(context.Background(), wish); err == nil {
			b.Fatal("no conflict")
		}
	}
}

// BenchmarkVariations proposes four beers. Aim: 250 ms.
func BenchmarkVariations(b *testing.B) {
	wish, r := clubWish(b, "garage"), ferryBrown(b)
	for b.Loop() {
		if _, err := Variations(context.Background(), wish, r, 4); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRobust seeks the surest oat brown of the Circle's house. Aim: 1 s.
func BenchmarkRobust(b *testing.B) {
	wish := clubWish(b, "garage")
	wish.Robust = true
	for b.Loop() {
		if _, err := Find(context.Background(), wish); err != nil {
			b.Fatal(err)
		}
	}
}
