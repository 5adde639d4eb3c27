// SPDX-License-Identifier: MIT

package day_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"gyle/day"
	"gyle/gyle"
	"gyle/quantity"
)

// clock returns a time of the day of the garage brew.
func clock(t testing.TB, hhmm string) gyle.Time {
	t.Helper()
	var at gyle.Time
	if err := at.UnmarshalText([]byte("2026-03-07T" + hhmm + "+01:00")); err != nil {
		t.Fatal(err)
	}
	return at
}

func laidOut(t testing.TB, g *gyle.Gyle, o day.Options) *day.Day {
	t.Helper()
	d, err := day.Of(g, o)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func task(t testing.TB, d *day.Day, key string) day.Task {
	t.Helper()
	found, ok := d.Find(key)
	if !ok {
		t.Fatalf("the day has no task %q", key)
	}
	return found
}

// upTo cuts the log off behind an entry.
func upTo(t testing.TB, g *gyle.Gyle, id gyle.ID) *gyle.Gyle {
	t.Helper()
	for i, e := range g.Log {
		if e.ID == id {
			cut := *g
			cut.Log = g.Log[: i+1 : i+1]
			return &cut
		}
	}
	t.Fatalf("the log has no entry %s", id)
	return nil
}

// The plan of the garage before anything has happened: minutes after the
// dough-in as published with the scenario (late grain at 45, 60 minutes of mash),
// the ramp of 23.5 min and the boil of 60 min from the plan.
func TestPlannedDay(t *testing.T) {
	g := upTo(t, brewing(t, "garage-v3"), "g01")
	g.Log = nil
	d := laidOut(t, g, day.Options{Start: clock(t, "08:00")})
	doughIn := task(t, d, "dough-in").At
	for _, test := range []struct {
		key    string
		minute float64
		alarm  bool
	}{
		{"ph", 10, true},
		{"mash 2", 45, true}, // chocolate malt
		{"run-off", 60, true},
		{"full kettle", 90, true},
		{"boil", 113.5, true},
		{"hops 1", 113.5, true},
		{"hops 2", 163.5, true},
		{"knock-out", 173.5, true},
		{"collected", 192.3, true},
	} {
		found := task(t, d, test.key)
		near(t, test.key+", min", float64(found.At.Since(doughIn)), test.minute, 0.1)
		if found.Alarm != test.alarm || found.State != day.Ahead || found.Slip() != 0 {
			t.Errorf("%s: %+v", test.key, found)
		}
	}
	// 16.5 L from 15 to 72.8 °C with 2.28 kW: 16.5·4.186·57.8/2.28 = 1751 s.
	near(t, "heating of the liquor, min", float64(task(t, d, "heat").Time), 29.15, 0.1)
	for i, want := range []string{"weigh", "treat", "heat", "crush", "dough-in"} {
		if d.Tasks[i].Key != want {
			t.Errorf("task %d is %s, not %s", i, d.Tasks[i].Key, want)
		}
	}
}

// What the log says moves what is to come: the choice to boil 75 min makes the
// hops start a quarter of an hour later, as published.
func TestAChoiceMovesTheDay(t *testing.T) {
	g := brewing(t, "garage-v3")
	before := laidOut(t, upTo(t, g, "g28"), day.Options{})
	after := laidOut(t, upTo(t, g, "g29"), day.Options{})
	if before.BoilBy != day.ByPlan || after.BoilBy != day.ByChoice {
		t.Errorf("the boil is by %s and then by %s", before.BoilBy, after.BoilBy)
	}
	for _, key := range []string{"hops 1", "hops 2", "knock-out", "collected", "pitch"} {
		near(t, key+" moves by, min", float64(task(t, after, key).At.Since(task(t, before, key).At)), 15, 1e-9)
	}
	near(t, "the boil itself", float64(task(t, after, "boil").At.Since(task(t, before, "boil").At)), 0, 1e-9)
	kettle := task(t, after, "full kettle")
	if kettle.State != day.Done || kettle.Numbers[0].Measured != "26.4 L at 95 °C" || kettle.Numbers[1].Measured != "1.0415 at 24 °C" {
		t.Errorf("the full kettle is %+v", kettle)
	}
	if ph := task(t, after, "ph"); ph.Numbers[0].Measured != "pH 5.56" {
		t.Errorf("the mash is %+v", ph)
	}
	if next, ok := after.Next(); !ok || next.Key != "boil" {
		t.Errorf("next is %+v", next)
	}
}

// The whole log: every task is done, at the minute of the published log.
func TestLoggedDay(t *testing.T) {
	d := laidOut(t, brewing(t, "garage-v3"), day.Options{})
	doughIn := task(t, d, "dough-in").At
	for key, minute := range map[string]float64{"ph": 10, "acid": 12, "mash 2": 45, "run-off": 62, "full kettle": 90, "boil": 105, "hops 1": 120, "knock-out": 180, "pitch": 208} {
		found := task(t, d, key)
		near(t, key+", min", float64(found.At.Since(doughIn)), minute, 1e-9)
		if found.State != day.Done || len(found.Entries) == 0 {
			t.Errorf("%s: %+v", key, found)
		}
	}
	if state := task(t, d, "weigh").State; state != day.Passed {
		t.Errorf("nobody logged the weighing: it is %s", state)
	}
	if next, more := d.Next(); more {
		t.Errorf("there is still %s to do", next.Key)
	}
}

// What is overdue is pushed to now, with everything behind it.
func TestNowPushes(t *testing.T) {
	g := upTo(t, brewing(t, "garage-v3"), "g23")
	on := laidOut(t, g, day.Options{Now: clock(t, "09:56")})
	late := laidOut(t, g, day.Options{Now: clock(t, "10:20")})
	if task(t, on, "run-off").State != day.Ahead || task(t, late, "run-off").State != day.Due {
		t.Errorf("run-off is %s and then %s", task(t, on, "run-off").State, task(t, late, "run-off").State)
	}
	for _, key := range []string{"run-off", "full kettle", "boil", "pitch"} {
		near(t, key+" slips by, min", float64(task(t, late, key).Slip()-task(t, on, key).Slip()), 20, 1e-6)
	}
}

// A measured evaporation moves the end of the boil so that the same water goes:
// 3.031 kg/h planned for 75 min, 2.2 measured: 103.3 min. Without heat before
// the boil everything waits.
func TestReadingsMoveTheDay(t *testing.T) {
	whole := brewing(t, "boathouse-v4")
	g := upTo(t, whole, "b21")
	weak := g.Log[len(g.Log)-1]
	weak.ID, weak.Deed = "x1", nil
	weak.Reading = &gyle.Reading{Of: gyle.OfEvaporation, Value: "2.2 kg/h", At: gyle.AtBoil}
	g.Log = append(g.Log, weak)
	d := laidOut(t, g, day.Options{})
	if d.BoilBy != day.ByEvaporation {
		t.Errorf("the boil is by %s", d.BoilBy)
	}
	near(t, "boil, min", float64(d.Boil), 75*3.03111/2.2, 0.01) // W: same water, computed from the plan
	near(t, "knock-out slips, min", float64(task(t, d, "knock-out").At.Since(task(t, d, "boil").At)), 103.33, 0.01)

	g = upTo(t, whole, "b19")
	without := laidOut(t, g, day.Options{})
	stop := g.Log[len(g.Log)-1]
	stop.ID, stop.Reading = "x2", nil
	stop.Interruption = &gyle.Interruption{What: "gas out", From: stop.Time.Add(2), To: stop.Time.Add(14)}
	g.Log = append(g.Log, stop)
	with := laidOut(t, g, day.Options{})
	near(t, "12 min without gas, min", float64(task(t, with, "boil").At.Since(task(t, without, "boil").At)), 12, 1e-9)
}

// The pump was slow: 88 °C eight minutes after knock-out means 80 °C after 14,
// and the stand comes later. Published: 80 °C after 14 min.
func TestSlowCoolingMovesTheStand(t *testing.T) {
	d := laidOut(t, upTo(t, brewing(t, "boathouse-v4"), "b26"), day.Options{})
	near(t, "80 °C after, min", float64(task(t, d, "path 2").At.Since(task(t, d, "knock-out").At)), 14, 0.1)
}

// Two gyles of one brewer in one house: hands and vessels clash, and the clash
// is named. An hour and a half later the hands are free, the vessel isn't.
func TestTogether(t *testing.T) {
	first := brewing(t, "garage-v3")
	first.Log = nil
	second := *first
	second.Number, second.Vessels = 18, []gyle.Vessel{{Name: "fermenter 2", For: "fermenter"}}
	a := laidOut(t, first, day.Options{Start: clock(t, "08:00")})
	b := laidOut(t, &second, day.Options{Start: clock(t, "08:00")})
	same := day.Together(a, b)
	people, vessels := 0, map[string]bool{}
	for _, c := range same.Clashes {
		if c.Who != "" {
			people++
		} else {
			vessels[c.Vessel] = true
		}
		if !c.From.Before(c.To.Time) {
			t.Errorf("an empty clash: %+v", c)
		}
	}
	if people == 0 || !vessels["garage: mash"] || !vessels["garage: kettle"] || vessels["fermenter 1"] {
		t.Errorf("%d clashes of hands, vessels %v", people, vessels)
	}
	if len(same.Tasks) != len(a.Tasks)+len(b.Tasks) {
		t.Errorf("%d tasks of %d and %d", len(same.Tasks), len(a.Tasks), len(b.Tasks))
	}
	second.Brewer = "F. Reed"
	second.House = "boathouse"
	if apart := day.Together(a, laidOut(t, &second, day.Options{Start: clock(t, "08:00")})); len(apart.Clashes) != 0 {
		t.Errorf("two brewers in two houses clash: %+v", apart.Clashes)
	}
}

// Whatever has been logged: no task is before the one it follows, a later now
// makes nothing earlier, and without a log nothing slips.
func TestDayLaws(t *testing.T) {
	whole := brewing(t, "garage-v3")
	rapid.Check(t, func(t *rapid.T) {
		g := *whole
		n := rapid.IntRange(0, len(g.Log)).Draw(t, "entries")
		g.Log = g.Log[:n:n]
		minute := rapid.IntRange(0, 400).Draw(t, "now")
		start := gyle.At(time.Date(2026, 3, 7, 8, 0, 0, 0, time.FixedZone("", 3600)))
		now := start.Add(quantity.Duration(minute))
		d, err := day.Of(&g, day.Options{Start: start, Now: now})
		if err != nil {
			t.Fatal(err)
		}
		later, err := day.Of(&g, day.Options{Start: start, Now: now.Add(30)})
		if err != nil {
			t.Fatal(err)
		}
		for i, x := range d.Tasks {
			y, _ := later.Find(x.Key)
			if y.At.Before(x.At.Time) {
				t.Fatalf("%s is at %s, and half an hour later at %s", x.Key, x.At, y.At)
			}
			if i > 0 && x.At.Before(d.Tasks[i-1].At.Time) {
				t.Fatalf("%s stands behind what comes later", x.Key)
			}
			if n == 0 && minute == 0 && x.Slip() != 0 {
				t.Fatalf("%s slips by %v before anything began", x.Key, x.Slip())
			}
		}
	})
}
