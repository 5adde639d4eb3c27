// SPDX-License-Identifier: MIT

package chart

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

// The bars tell each beer and its days in words, cross out a clash, and stay
// well-formed where beers reach beyond the days that are drawn.
func TestOccupancyBars(t *testing.T) {
	data := Occupancy{Title: "Fermenters", Days: make([]string, 28), Today: 3, Vessels: []Vessel{
		{Name: "1 & 2", Beers: []Beer{{Name: "Ferry <Brown>", From: -4, To: 8, Ink: Measured}, {Name: "Next", From: 6, To: 40, Ink: Planned, Clash: true}}},
		{Name: "3"},
	}}
	for _, width := range []float64{Phone, Page} {
		text := OccupancyBars(Sheet{ID: "o", Width: width}, data)
		for _, words := range []string{"Ferry &lt;Brown&gt; for 12 days", "Next for 34 days", "3: free", "today", "ink-corrected"} {
			if !strings.Contains(text, words) {
				t.Errorf("at %v the drawing lacks %q", width, words)
			}
		}
		for d := xml.NewDecoder(strings.NewReader(text)); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
	}
	if got, _ := lanes(data.Vessels[0]); got != 2 {
		t.Errorf("two beers at once stand on %d lines", got)
	}
	if !strings.Contains(OccupancyBars(Sheet{ID: "o"}, Occupancy{Title: "x"}), "No fermenter") {
		t.Error("without vessels nothing is said")
	}
}
