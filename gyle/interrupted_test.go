// SPDX-License-Identifier: MIT

package gyle

import (
	"strings"
	"testing"
	"time"
)

// boiling is a gyle whose boil began at ten.
func boiling(t *testing.T) *Gyle {
	t.Helper()
	zone := time.FixedZone("", 3600)
	began := At(time.Date(2026, 3, 7, 10, 0, 0, 0, zone))
	return &Gyle{Name: "x", Log: Log{{ID: "a", Time: began, Deed: &Deed{Do: BoilStart}}}}
}

// The slip of the published scenario in one line: the element trips at minute
// 35 for 12 minutes, and the kettle falls to 94.5 °C.
func TestSaidInterruption(t *testing.T) {
	g := boiling(t)
	for _, test := range []struct{ said, what, from, to, lowest string }{
		{"element off 35–47 min", "element off", "10:35", "10:47", ""},
		{"element off 35-47", "element off", "10:35", "10:47", ""},
		{"element tripped from 35 to 47 min, down to 94,5 °C", "element tripped", "10:35", "10:47", "94.5"},
		{"heat off 35 min to 47 min", "heat off", "10:35", "10:47", ""},
		{"gas out 10:40 until 11:02", "gas out", "10:40", "11:02", ""},
	} {
		e, _, err := g.Said(test.said)
		if err != nil || e.Interruption == nil {
			t.Errorf("%q: %v, %+v", test.said, err, e)
			continue
		}
		i := e.Interruption
		if i.What != test.what || i.From.Format("15:04") != test.from || i.To.Format("15:04") != test.to {
			t.Errorf("%q is %s from %s to %s", test.said, i.What, i.From, i.To)
		}
		if test.lowest != "" && i.Lowest.String() != test.lowest+" °C" {
			t.Errorf("%q: down to %s", test.said, i.Lowest)
		}
	}
	for said, want := range map[string]string{"element off 47–35 min": "ends before", "gas out 29:40–30:00": "no time of the clock"} {
		if _, _, err := g.Said(said); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", said, err, want)
		}
	}
	if _, _, err := new(Gyle).Said("element off 35–47 min"); err == nil || !strings.Contains(err.Error(), "when the boil began") {
		t.Errorf("without a boil: %v", err)
	}
	// What says no span stays what it was.
	for _, said := range []string{"heat off", "hops in challenger 35 g", "26,4 @95 at full kettle", "1.0425 at full kettle"} {
		if e, _, err := g.Said(said); err != nil || e.Interruption != nil {
			t.Errorf("%q: %v, %+v", said, err, e)
		}
	}
}
