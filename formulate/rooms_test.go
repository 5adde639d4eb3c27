// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"math"
	"slices"
	"testing"

	"gyle/quantity"
)

// roomsOf works the rooms of a wish out, with the work they came from.
func roomsOf(t testing.TB, wish Wish) (*work, *draft, []Room) {
	t.Helper()
	w, err := begin(context.Background(), wish)
	if err != nil {
		t.Fatal(err)
	}
	ds, err := w.settleDemands(w.demands)
	if err != nil {
		t.Fatal(err)
	}
	d, _, _, err := w.brew(ds)
	if err != nil {
		t.Fatal(err)
	}
	rooms, err := w.rooms(d)
	if err != nil {
		t.Fatal(err)
	}
	return w, d, rooms
}

// An end of a room is reached by solving again with the ingredient held there,
// and what lies beyond is not.
func TestRoomsAreReached(t *testing.T) {
	for name, wish := range map[string]Wish{"garage": clubWish(t, "garage"), "shelf": colorful(t)} {
		w, d, rooms := roomsOf(t, wish)
		for i, room := range rooms {
			if room.Now < room.Least-1e-6 || room.Now > room.Most+1e-6 {
				t.Errorf("%s: %s is %g, outside its room %g to %g", name, room.Name, room.Now, room.Least, room.Most)
			}
			holds := func(x float64) bool { return w.feasible(append(slices.Clone(d.asked), w.held(i, x, x))) }
			const beyond = 1e-3 // a tenth of a percent, a milligram in a litre
			for _, end := range []struct{ at, out float64 }{{room.Least, -beyond}, {room.Most, beyond}} {
				if !holds(end.at) {
					t.Errorf("%s: %s can't be %g, an end of its room", name, room.Name, end.at)
				}
				if x := end.at + end.out; x >= 0 && (room.Unit != "%" || x <= 1) && x < mostDose && holds(x) {
					t.Errorf("%s: %s can be %g, beyond its room to %g", name, room.Name, x, end.at)
				}
			}
		}
	}
}

// held is a demand that holds the ingredient of a room within a range.
func (w *work) held(i int, low, high float64) demand {
	if n := len(w.wish.Malts); i >= n {
		return wishFor(onDose, pickWhere(len(w.charges), func(k int) bool { return w.charges[k].hop == i-n }), low, high, 1, "held", "")
	}
	return wishFor(onShare, pickWhere(len(w.columns), func(k int) bool { return w.columns[k].malt == i }), low, high, 100, "held", "")
}

// colorful is a style in which colour, gravity, alcohol and bitterness all touch:
// nothing but figures, so that every room hangs on them.
func colorful(t testing.TB) Wish {
	return shelf(ruled(t,
		`{figure: og, in: 1.040..1.060, severity: limit}`,
		`{figure: abv, in: 4.5..5.0 %, severity: limit}`,
		`{figure: fg, in: 1.012..1.016, severity: limit}`,
		`{figure: color, in: 28..32 EBC, severity: limit}`,
		`{figure: 'bu:gu', in: 0.5..0.6, severity: limit}`,
		`{figure: ibu, in: 29..40 IBU, severity: limit}`,
		`{share: class base, in: 60 %.., severity: limit}`,
		`{share: class roasted, in: ..3 %, severity: limit}`,
	))
}

// By hand: two malts, one limit of colour, one gravity. The most of the dark one
// is where k·C·(s·L2 + (1−s)·L1) = M·(s·e2 + (1−s)·e1).
func TestRoomByHand(t *testing.T) {
	wish := Wish{
		Style: ruled(t, `{figure: og, in: 1.050..1.050, severity: limit}`, `{figure: color, in: 20..40 EBC, severity: limit}`),
		Malts: []Malt{{Malt: "pale-ale"}, {Malt: "chocolate"}},
	}
	w, _, rooms := roomsOf(t, wish)
	pale, dark := w.columns[0], w.columns[1]
	share := func(ebc float64) float64 {
		c, m := perMCU*extractOf(1.050), mcuOf(ebc)
		return (m*pale.extract - c*pale.color) / (c*(dark.color-pale.color) - m*(dark.extract-pale.extract))
	}
	if low, high := share(20), share(40); math.Abs(rooms[1].Least-low) > 1e-7 || math.Abs(rooms[1].Most-high) > 1e-7 {
		t.Errorf("room of chocolate %g to %g, by hand %g to %g", rooms[1].Least, rooms[1].Most, low, high)
	}
	if got := w.colorOf(1.050, []float64{1 - share(40), share(40)}); math.Abs(got-40) > 1e-6 {
		t.Errorf("the colour at its end is %g EBC, want 40", got)
	}
}

// The ends of the aims are reached too, and not exceeded.
func TestAimsAreReached(t *testing.T) {
	for name, wish := range map[string]Wish{"garage": clubWish(t, "garage"), "shelf": colorful(t)} {
		w, d, _ := roomsOf(t, wish)
		aims, err := w.aimRooms(d)
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range []quantity.Figure{quantity.OG, quantity.Bitterness, quantity.BeerColor} {
			beyond := map[quantity.Figure]float64{quantity.OG: 1e-4, quantity.Bitterness: 0.01, quantity.BeerColor: 0.01}[f]
			holds := func(low, high float64) bool {
				one := wishFor(onFigure, nil, low, high, 1, "held", "")
				one.figure = f
				return w.feasible(append(slices.Clone(d.asked), one))
			}
			room := aims[i]
			const near = 1e-6
			if !holds(room.Least-near, room.Least+near) || !holds(room.Most-near, room.Most+near) {
				t.Errorf("%s: %s can't be %g or %g", name, f, room.Least, room.Most)
			}
			if holds(0, room.Least-beyond) || holds(room.Most+beyond, math.Inf(1)) {
				t.Errorf("%s: %s goes beyond %g to %g", name, f, room.Least, room.Most)
			}
			if room.Now < room.Least-1e-3 || room.Now > room.Most+1e-3 {
				t.Errorf("%s: %s is %g, outside %g to %g", name, f, room.Now, room.Least, room.Most)
			}
		}
	}
}
