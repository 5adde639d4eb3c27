// SPDX-License-Identifier: MIT

package gyle_test

import (
	"fmt"
	"os"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gyle/gyle"
	"gyle/quantity"
)

var morning = gyle.At(time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC))

func entry(id string, minute float64) gyle.Entry {
	return gyle.Entry{ID: gyle.ID(id), Time: morning.Add(quantity.Duration(minute))}
}

func gravityEntry(id string, minute float64, value string) gyle.Entry {
	e := entry(id, minute)
	e.Reading = &gyle.Reading{Of: gyle.OfGravity, Value: value}
	return e
}

func correction(id string, minute float64, of string, value string) gyle.Entry {
	e := entry(id, minute)
	e.Correction = &gyle.Correction{Of: gyle.ID(of)}
	if value == "" {
		e.Correction.Strike = true
	} else {
		e.Reading = &gyle.Reading{Of: gyle.OfGravity, Value: value}
	}
	return e
}

func TestCurrentFoldsCorrections(t *testing.T) {
	first := gravityEntry("a", 10, "1.0145")
	for _, test := range []struct {
		name   string
		log    gyle.Log
		value  string
		struck bool
		shown  int // corrections
	}{
		{"as written", gyle.Log{first}, "1.0145", false, 0},
		{"corrected", gyle.Log{first, correction("b", 12, "a", "1.0415")}, "1.0415", false, 1},
		{"corrected twice", gyle.Log{first, correction("b", 12, "a", "1.0415"), correction("c", 13, "a", "1.0416")}, "1.0416", false, 2},
		{"the correction corrected", gyle.Log{first, correction("b", 12, "a", "1.0415"), correction("c", 13, "b", "1.0416")}, "1.0416", false, 1},
		{"struck", gyle.Log{first, correction("b", 12, "a", "")}, "1.0145", true, 1},
		{"the strike struck", gyle.Log{first, correction("b", 12, "a", ""), correction("c", 13, "b", "")}, "1.0145", false, 0},
		{"struck, then corrected", gyle.Log{first, correction("b", 12, "a", ""), correction("c", 13, "a", "1.0415")}, "1.0415", false, 2},
		{"a ring ends", gyle.Log{first, correction("b", 12, "c", "1.1"), correction("c", 13, "b", "1.2")}, "1.0145", false, 0},
		{"nothing known", gyle.Log{first, correction("b", 12, "z", "1.1")}, "1.0145", false, 0},
	} {
		facts := test.log.Current()
		if len(facts) != 1 {
			t.Errorf("%s: %d facts", test.name, len(facts))
			continue
		}
		f := facts[0]
		if f.Entry.Reading.Value != test.value || f.Struck != test.struck || len(f.Corrections) != test.shown || f.Original.Reading.Value != "1.0145" || f.Entry.ID != "a" {
			t.Errorf("%s: %+v", test.name, f)
		}
		if standing := test.log.Standing(); len(standing) == 1 == test.struck {
			t.Errorf("%s: %d entries stand", test.name, len(standing))
		}
	}
}

// A correction of the time moves the event to where it really was; the error
// of the device's clock is taken off before anything is put in order.
func TestTimesAreCorrected(t *testing.T) {
	late := gravityEntry("late", 30, "1.040")
	moved := entry("m", 31)
	moved.Correction = &gyle.Correction{Of: "late", Time: morning.Add(5)}
	fast := gravityEntry("fast", 20, "1.041")
	fast.Clock = 12 // min ahead
	log := gyle.Log{late, moved, fast, gravityEntry("plain", 6, "1.042")}
	var order []gyle.ID
	for _, e := range log.Standing() {
		order = append(order, e.ID)
	}
	if want := []gyle.ID{"late", "plain", "fast"}; !slices.Equal(order, want) {
		t.Errorf("the order is %v, not %v", order, want)
	}
}

// drawLog draws a log of entries with distinct IDs.
func drawLog(t *rapid.T) gyle.Log {
	n := rapid.IntRange(0, 12).Draw(t, "entries")
	log := gyle.Log{}
	for i := range n {
		e := gravityEntry(fmt.Sprintf("e%d", i), float64(rapid.IntRange(0, 9).Draw(t, "minute")), "1.050")
		e.Clock = quantity.Duration(rapid.IntRange(-3, 3).Draw(t, "clock"))
		if i > 0 && rapid.IntRange(0, 3).Draw(t, "correction") == 0 {
			e.Correction = &gyle.Correction{Of: gyle.ID(fmt.Sprintf("e%d", rapid.IntRange(0, i-1).Draw(t, "of")))}
		}
		log = append(log, e)
	}
	return log
}

// However entries reach us, in which order, how often and in which batches, the
// merged log is the same: none lost, none twice.
func TestMergeNeitherLosesNorRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := drawLog(t)
		want, conflicts := gyle.Merge(all)
		if len(conflicts) > 0 || len(want) != len(all) {
			t.Fatalf("%d of %d entries, %d conflicts", len(want), len(all), len(conflicts))
		}
		var got gyle.Log
		for _, e := range rapid.Permutation(append(slices.Clone(all), all...)).Draw(t, "order") {
			got, _ = gyle.Merge(got, gyle.Log{e})
		}
		if len(all) > 0 && !reflect.DeepEqual(got, want) {
			t.Fatalf("one by one:\n%v\nat once:\n%v", got, want)
		}
		a, _ := gyle.Merge(all[:len(all)/2], all)
		b, _ := gyle.Merge(all, all[:len(all)/2])
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("the order of logs matters: %v %v", a, b)
		}
	})
}

// Two entries of one ID that differ are told, whichever comes first.
// What stands is what is known and wasn't struck.
func TestStandingIsCurrent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawLog(t)
		for i, e := range log {
			if e.Correction != nil && rapid.Bool().Draw(t, "strike") {
				log[i] = gyle.Strike(e.Correction.Of, e.ID, e.Time, e.Who, "")
			}
		}
		standing := log.Standing()
		i := 0
		for _, f := range log.Current() {
			if f.Struck {
				continue
			}
			if i >= len(standing) || !reflect.DeepEqual(standing[i], f.Entry) {
				t.Fatalf("entry %d of %v isn't %+v", i, standing, f.Entry)
			}
			i++
		}
		if i != len(standing) {
			t.Errorf("%d entries stand, %d are known", len(standing), i)
		}
	})
}

func TestMergeTellsConflicts(t *testing.T) {
	one, other := gravityEntry("a", 1, "1.040"), gravityEntry("a", 1, "1.050")
	x, left := gyle.Merge(gyle.Log{one}, gyle.Log{other})
	y, right := gyle.Merge(gyle.Log{other}, gyle.Log{one})
	if len(x) != 1 || len(left) != 1 || !reflect.DeepEqual(x, y) || !reflect.DeepEqual(left, right) {
		t.Errorf("%v with %v, %v with %v", x, left, y, right)
	}
	other = one
	other.Clock = 2
	if merged, told := gyle.Merge(gyle.Log{one}, gyle.Log{other}); len(merged) != 1 || len(told) != 0 {
		t.Errorf("an entry whose clock was measured again is %v with %v", merged, told)
	}
}

// The brewing in the garage: 1.0145 was typed for 1.0415; both are kept.
func TestGarageLog(t *testing.T) {
	g := scenario(t, "garage-v3")
	for _, f := range g.Log.Current() {
		if f.Entry.ID == "g27" {
			if f.Original.Reading.Value != "1.0145 @24" || f.Entry.Reading.Value != "1.0415 @24" {
				t.Errorf("the full kettle is %+v", f)
			}
		}
	}
	if n := len(g.Log.Standing()); n != len(g.Log)-1 {
		t.Errorf("%d of %d entries stand", n, len(g.Log))
	}
}

// A log only grows: what is gone or changed is found, what is new is no loss.
func TestLost(t *testing.T) {
	before := gyle.Log{gravityEntry("a", 1, "1.040"), gravityEntry("b", 2, "1.041")}
	after := append(slices.Clone(before), gyle.Strike("b", "c", morning.Add(3), "AQ", "wrong kettle"))
	if lost := before.Lost(after); len(lost) > 0 {
		t.Errorf("%v are lost in a longer log", lost)
	}
	if standing := after.Standing(); len(standing) != 1 || standing[0].ID != "a" {
		t.Errorf("%v stand after the strike", standing)
	}
	after = gyle.Log{gravityEntry("a", 1, "1.042")}
	if lost := before.Lost(after); !slices.Equal(lost, []gyle.ID{"a", "b"}) {
		t.Errorf("%v are lost, not both", lost)
	}
	late := before[0]
	late.Clock = 2
	if lost := before[:1].Lost(gyle.Log{late}); len(lost) > 0 {
		t.Errorf("%v are lost by a clock that was measured later", lost)
	}
}

// longLog is the Garage's brewing with 5 000 more readings of the fermenter, as
// a logger that writes one entry each leaves them.
func longLog(tb testing.TB) *gyle.Gyle {
	tb.Helper()
	text, err := os.ReadFile("testdata/garage-v3.yaml")
	if err != nil {
		tb.Fatal(err)
	}
	g, err := gyle.Parse("garage-v3.yaml", text)
	if err != nil {
		tb.Fatal(err)
	}
	from := g.Log[len(g.Log)-1].When()
	for i := range 5000 {
		at := from.Add(quantity.Duration(4 * i))
		e := gyle.Entry{ID: gyle.NewID(at.Time, [10]byte{byte(i)}), Time: at, Who: "logger"}
		e.Reading = &gyle.Reading{Of: gyle.OfTemperature, Value: fmt.Sprintf("%.1f", 19.8+0.1*float64(i%7)), With: "probe", At: gyle.AtFermenter}
		if i%2 == 0 {
			e.Reading = &gyle.Reading{Of: gyle.OfGravity, Value: fmt.Sprintf("%.4f @ 20", 1.05-0.000007*float64(i)), With: "hydrometer", At: gyle.AtFermenter}
		}
		g.Log = append(g.Log, e)
	}
	return g
}

// BenchmarkLongLog reads the document of a brewing with 5 000 readings. The
// bound is 50 ms.
func BenchmarkLongLog(b *testing.B) {
	text, err := longLog(b).Text()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := gyle.Parse("long.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCurrent folds a long log: 5 000 readings.
func BenchmarkCurrent(b *testing.B) {
	var log gyle.Log
	for i := range 5000 {
		log = append(log, gravityEntry(fmt.Sprint("e", i), float64(i), "1.050"))
	}
	for b.Loop() {
		log.Current()
	}
}
