// SPDX-License-Identifier: MIT

package day_test

import (
	"testing"

	"gyle/day"
	"gyle/gyle"
	"gyle/quantity"
)

// Each task of both days asks for something that would show it done: answered
// as planned, a day without a log is done task by task.
func TestAsksFinishTheDay(t *testing.T) {
	for _, name := range []string{"garage-v3", "boathouse-v4"} {
		g := brewing(t, name)
		g.Log = nil
		start := laidOut(t, g, day.Options{Start: clock(t, "08:00")})
		for _, task := range start.Tasks {
			for i, ask := range day.Asks(g, task, quantity.Printer{}) {
				typed := ""
				if ask.Reading != nil && ask.Reading.Of != gyle.OfEvaporation {
					typed = map[gyle.Of]string{gyle.OfVolume: "22 L", gyle.OfGravity: "1.048", gyle.OfTemperature: "67", gyle.OfPH: "5.45"}[ask.Reading.Of]
				}
				e, _, err := ask.Entry(g, typed)
				if err != nil {
					t.Errorf("%s, %s: %v", task.Key, ask.Label, err)
				}
				if e.Sort() == "strike" {
					continue // nothing was read
				}
				e.ID, e.Time = gyle.NewID(task.At.Time, [10]byte{byte(i), byte(len(g.Log))}), task.At
				g.Log = append(g.Log, e)
			}
		}
		for _, task := range laidOut(t, g, day.Options{Start: clock(t, "08:00")}).Tasks {
			rest := len(day.Asks(g, task, quantity.Printer{})) == 0
			if task.State != day.Done && !rest {
				t.Errorf("%s: %s is %s although all was answered", name, task.Key, task.State)
			}
		}
	}
}

// A bare number has the unit of the plan; another unit is read as it is said.
func TestAskUnits(t *testing.T) {
	g := brewing(t, "garage-v3")
	d := laidOut(t, g, day.Options{})
	sparge := day.Asks(g, task(t, d, "sparge"), quantity.Printer{})[0]
	hops := day.Asks(g, task(t, d, "hops 1"), quantity.Printer{})[0]
	for _, test := range []struct {
		ask         day.Ask
		typed, want string
	}{
		{sparge, "13,1", "sparge 13.1 L at 77.0 °C"}, {sparge, "", "sparge 12.3 L at 77.0 °C"}, {sparge, "13100 mL", "sparge 13.1 L at 77.0 °C"},
		{hops, "36", "hops in challenger 36.0 g boil 60 min"}, {hops, "0.036 kg", "hops in challenger 36.0 g boil 60 min"},
	} {
		if _, echo, err := test.ask.Entry(g, test.typed); err != nil || echo != test.want {
			t.Errorf("%q is echoed as %q (%v), want %q", test.typed, echo, err, test.want)
		}
	}
	if _, _, err := sparge.Entry(g, "5 gal"); err == nil {
		t.Error("a gallon is taken without asking which")
	}
}
