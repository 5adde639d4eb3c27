// SPDX-License-Identifier: MIT

package gyle

import (
	"bytes"
	"os"
	"testing"
)

// What is said at the kettle, and the body that it makes. The readings are
// those of the two logs in testdata.
func TestSaid(t *testing.T) {
	g := &Gyle{Instruments: []Instrument{{Name: "hydrometer", Of: OfGravity}, {Name: "stick", Of: OfVolume}, {Name: "scale", Of: OfVolume}}}
	for _, test := range []struct{ said, sort, words, place, with string }{
		{"26,4 @95 at full kettle", "reading", "volume 26,4 @95", "full kettle", ""},
		{"26.4 @95 at full-kettle", "reading", "volume 26.4 @95", "full kettle", ""},
		{"1.0415 @24 at full kettle", "reading", "gravity 1.0415 @24", "full kettle", "hydrometer"},
		{"5,46 of ph at mash", "reading", "ph 5,46", "mash", ""},
		{"23.0 @98 at knock-out with stick", "reading", "volume 23.0 @98", "knock-out", "stick"},
		{"hops in challenger 35 g", "deed", "hops in challenger 35.0 g", "", ""},
		{"did acid in lactic-acid-88 1.8 mL at mash", "deed", "acid in lactic acid 88 1.8 mL", "mash", ""},
		{"knock-out", "deed", "knock-out", "", ""},
		{"sparge 13.1 L @ 77 °C", "deed", "sparge 13.1 L at 77.0 °C", "", ""},
		{"note the sacks stood in the cold", "note", "", "", ""},
	} {
		e, _, err := g.Said(test.said)
		if err != nil {
			t.Errorf("%s: %v", test.said, err)
			continue
		}
		place, with := "", ""
		if e.Reading != nil {
			place, with = string(e.Reading.At), e.Reading.With
		} else if e.Deed != nil {
			place = string(e.Deed.Place)
		}
		if e.Sort() != test.sort || e.Words() != test.words || place != test.place || with != test.with {
			t.Errorf("%s: %s, %q at %q with %q", test.said, e.Sort(), e.Words(), place, with)
		}
	}
	for _, bad := range []string{"5.46 at mash", "hops in", "hops in challenger 35", "acid in 5 gal", "hello"} {
		if e, _, err := g.Said(bad); err == nil {
			t.Errorf("%q is read as %s %q", bad, e.Sort(), e.Words())
		}
	}
}

// Every entry of the two logs goes out as text and comes back as it was.
func TestEntryText(t *testing.T) {
	for _, name := range []string{"garage-v3", "boathouse-v4"} {
		text, err := os.ReadFile("testdata/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		g, err := Parse(name, text)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range g.Log {
			text, err := e.Text()
			if err != nil {
				t.Fatal(err)
			}
			back, err := ParseEntry(text)
			if err != nil {
				t.Fatalf("%s: %v\n%s", e.ID, err, text)
			}
			if again, _ := back.Text(); !bytes.Equal(again, text) || bytes.HasPrefix(text, []byte("gyle:")) {
				t.Errorf("%s came back otherwise:\n%s\n%s", e.ID, text, again)
			}
		}
	}
}
