// SPDX-License-Identifier: MIT

package tasting_test

import (
	"bytes"
	"testing"

	"gyle/tasting"
)

// FuzzParse reads any text. It must not panic, and what it understands it must
// write in a form that reads back to the same text.
func FuzzParse(f *testing.F) {
	for _, text := range evenings(f) {
		f.Add(text)
	}
	f.Add([]byte("gyle: tasting/1\nname: a\nquestion: b\nbeers:\n- {letter: A, name: c}\n- {letter: B, name: d}\nflights:\n- {name: e, kind: a-not-a, reference: B, answers: [{id: f, at: 2026-05-16T19:30:00Z, taster: g, says: a}]}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		doc, err := tasting.Parse("fuzz.yaml", text)
		if err != nil {
			return
		}
		once, err := doc.Text()
		if err != nil {
			t.Fatalf("write what was read: %v", err)
		}
		again, err := tasting.Parse("canonical.yaml", once)
		if err != nil {
			t.Fatalf("read the canonical text back: %v\n%s", err, once)
		}
		twice, err := again.Text()
		if err != nil {
			t.Fatalf("write it again: %v", err)
		}
		doc.Remarks() // must not panic either
		for i := range doc.Flights {
			doc.Flights[i].Tally()
			doc.Verify(&doc.Flights[i])
		}
		if !bytes.Equal(once, twice) {
			t.Errorf("the canonical text changes:\n%s\n%s", once, twice)
		}
	})
}
