// SPDX-License-Identifier: MIT

package calendar_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"gyle/brewhouse"
	"gyle/calendar"
	"gyle/examples/examplestest"
	"gyle/gyle"
	"gyle/quantity"
)

func day(t interface{ Fatal(...any) }, text string) (d quantity.Date) {
	if err := d.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return d
}

// garage is the demo's house with two fermenters by name.
func garage(t *testing.T) *brewhouse.House {
	h := *examplestest.Load(t, "garage", brewhouse.Parse)
	h.Fermenter.Names = []string{"fermenter 1", "fermenter 2"}
	return &h
}

// plannedIn is a gyle that somebody plans for a vessel.
func plannedIn(name, vessel string, from quantity.Date) *gyle.Gyle {
	return &gyle.Gyle{Name: name, Date: from, Vessels: []gyle.Vessel{{Name: vessel, For: "fermenter"}}}
}

// The numbers are those of the scenario's need 24: fermenter 1 is busy from
// day 0 to day 12, a brew on day 9 is refused, day 12 is offered. The days of
// the beer are common practice: 7 to 10 until it stands still, 2 of cold.
func TestSecondBrewIsRefusedAndDay12Offered(t *testing.T) {
	first := day(t, "2026-03-07")
	house := garage(t)
	stay, ok := calendar.StayOf("one", plannedIn("Ferry Brown 3", "fermenter 1", first), house)
	if !ok || stay.Days() != 12 {
		t.Fatalf("the first brew stays %d days (%v), want 12", stay.Days(), ok)
	}
	c := calendar.Of(calendar.Vessels(house), []calendar.Stay{stay}, first)
	want, _ := calendar.StayOf("two", plannedIn("Ferry Brown 4", "fermenter 1", calendar.After(first, 9)), house)
	clash := c.Reserve(want)
	if clash == nil {
		t.Fatal("a second brew on day 9 is let in")
	}
	if got := clash.Free.String(); got != "2026-03-19" || clash.Else != "fermenter 2" {
		t.Errorf("offered %s or %q, want 2026-03-19 (day 12) or fermenter 2", got, clash.Else)
	}
	if free := c.FirstFree(want); c.Reserve(free) != nil {
		t.Errorf("the day that is offered isn't free: %v", c.Reserve(free))
	}
	want, _ = calendar.StayOf("two", plannedIn("Ferry Brown 4", "fermenter 1", calendar.After(first, 12)), house)
	if clash := c.Reserve(want); clash != nil {
		t.Errorf("day 12 is refused: %v", clash)
	}
}

// The demo's gyle 17 was packaged: what its log says goes before the day that
// it gave for its vessel to be free (2026-03-19).
func TestLogEndsAStay(t *testing.T) {
	g := examplestest.Load(t, "gyle-17", gyle.Parse)
	stay, ok := calendar.StayOf("gyle-17", g, garage(t))
	if !ok || stay.State != calendar.Emptied || stay.Vessel != "fermenter 1" || stay.From.String() != "2026-03-07" {
		t.Fatalf("got %+v, %v", stay, ok)
	}
	var packaged string
	for _, e := range g.Log.Standing() {
		if e.Deed != nil && e.Deed.Do == gyle.Packaged {
			packaged = e.Time.Format("2006-01-02")
		}
	}
	if stay.To.String() != packaged {
		t.Errorf("the vessel is free on %s, the log packages on %s", stay.To, packaged)
	}
}

// A beer that nobody logged as packaged is still in its vessel, until today or
// until the next one came.
func TestForgottenBeerStays(t *testing.T) {
	from := day(t, "2026-03-07")
	old := calendar.Stay{Gyle: "a", Vessel: "1", From: from, To: calendar.After(from, 12), State: calendar.Fermented}
	c := calendar.Of([]string{"1"}, []calendar.Stay{old}, calendar.After(from, 20))
	if got := c.Stays[0].Days(); got != 21 {
		t.Errorf("on day 20 it holds the vessel for %d days, want 21", got)
	}
	next := calendar.Stay{Gyle: "b", Vessel: "1", From: calendar.After(from, 14), To: calendar.After(from, 26), State: calendar.Fermented}
	c = calendar.Of([]string{"1"}, []calendar.Stay{old, next}, calendar.After(from, 20))
	if got := c.Stays[0].Days(); got != 14 || len(c.Clashes) > 0 {
		t.Errorf("before the next beer it holds the vessel for %d days, want 14; clashes %v", got, c.Clashes)
	}
}

// However gyles are planned, if each takes the day that is offered no two are
// in one vessel on one day, and nobody waits longer than for all the others.
func TestNoTwoGylesInAVessel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := day(t, "2026-01-01")
		c := calendar.Of([]string{"1", "2"}, nil, first)
		all := 0
		for i := range rapid.IntRange(1, 15).Draw(t, "gyles") {
			want := calendar.Stay{Gyle: fmt.Sprint(i), Vessel: rapid.SampledFrom([]string{"1", "2", "3"}).Draw(t, "vessel"), From: calendar.After(first, rapid.IntRange(0, 60).Draw(t, "day"))}
			days := rapid.IntRange(1, 30).Draw(t, "days")
			want.To = calendar.After(want.From, days)
			free := c.FirstFree(want)
			if clash := c.Reserve(want); clash != nil && (*clash.Free != free.From || free.From.Before(want.From.Time)) {
				t.Fatalf("%v offers %s, the first free day is %s", clash, clash.Free, free.From)
			} else if clash == nil && free.From != want.From {
				t.Fatalf("free on %s, but moved to %s", want.From, free.From)
			}
			if free.Days() != days || free.From.After(calendar.After(want.From, all+days*i).Time) {
				t.Fatalf("the stay %+v became %+v", want, free)
			}
			c = calendar.Of(c.Vessels, append(c.Stays, free), first)
			all += days
		}
		taken := map[string]string{}
		for _, s := range c.Stays {
			for d := range s.Days() {
				key := s.Vessel + calendar.After(s.From, d).String()
				if other, both := taken[key]; both {
					t.Fatalf("%s and %s are both in %s", other, s.Gyle, key)
				}
				taken[key] = s.Gyle
			}
		}
		if len(c.Clashes) > 0 {
			t.Fatalf("clashes: %v", c.Clashes)
		}
	})
}

// Needs: cold beers take longer, dry hops come on top, a house knows better.
func TestNeedOf(t *testing.T) {
	cold := quantity.Span[quantity.Temperature]{Low: quantity.Celsius(9), High: quantity.Celsius(12)}
	lager := &gyle.Plan{Cellar: gyle.Cellar{Range: &cold}, Hops: []gyle.Charge{{Hop: "a", At: "dry 3 d 14 °C"}, {Hop: "b", At: "boil 60 min"}}}
	if low, high := calendar.NeedOf(lager, nil).Days(); low != 14+3+2 || high != 21+3+2 {
		t.Errorf("a dry-hopped lager needs %d to %d days, want 19 to 26", low, high)
	}
	h := garage(t)
	h.Fermenter.Ferments = &quantity.Span[quantity.Duration]{Low: quantity.Days(4), High: quantity.Days(5)}
	none := quantity.Duration(0)
	h.Fermenter.Chill = &none
	if got := calendar.NeedOf(lager, h).String(); got != "fermentation 4 to 5 days, dry hops 3 days" {
		t.Errorf("on this house it says %q", got)
	}
}
