// SPDX-License-Identifier: MIT

package reconstruct

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"gyle/gyle"
	"gyle/quantity"
)

// withLogger is the demonstration's brewing with the hydrometer's readings of
// the fermenter taken out and those of a logger put in: so many rows, five
// minutes apart, that end at 1.0126 like the hydrometer did.
func withLogger(t testing.TB, rows int) Input {
	t.Helper()
	in := brewing(t, "garage-v3.yaml", "garage")
	g := *in.Gyle
	g.Log = slices.DeleteFunc(slices.Clone(g.Log), func(e gyle.Entry) bool {
		return e.Reading != nil && e.Reading.At == gyle.AtFermenter && e.Reading.Of == gyle.OfGravity
	})
	var began gyle.Time
	for _, e := range g.Log {
		if e.Deed != nil && e.Deed.Do == gyle.Pitched {
			began = e.When()
		}
	}
	var b strings.Builder
	for i := range rows {
		sg := 1.0126 + 0.036*max(0, 1-float64(i)/1000)
		fmt.Fprintf(&b, "%s %.4f 19.5\n", began.Add(quantity.Duration(5*i)).Format(time.RFC3339), sg)
	}
	g.Log = append(g.Log, gyle.Entry{ID: "series", Time: began.Add(quantity.Days(20)), Series: &gyle.Series{
		At: gyle.AtFermenter, Columns: []gyle.Column{{Of: gyle.OfGravity, Unit: "SG"}, {Of: gyle.OfTemperature, Unit: "°C"}}, Rows: strings.TrimSuffix(b.String(), "\n"),
	}})
	in.Gyle = &g
	return in
}

// A beer whose gravity only a logger has read: its last day is the final gravity
// (1.0126, as the hydrometer of the published scenario has it), and it is said.
func TestFinalGravityOfALogger(t *testing.T) {
	r := reconstruct(t, withLogger(t, 5000))
	if fg := compared(t, r, quantity.FG).Brewed.Mid; fg < 1.01255 || fg > 1.01265 {
		t.Errorf("final gravity %.4f", fg)
	}
	if !strings.Contains(strings.Join(r.Notes, " "), "that of the logger") {
		t.Errorf("the notes don't say so: %q", r.Notes)
	}
	// With readings by hand to the end those count.
	in := brewing(t, "garage-v3.yaml", "garage")
	if r := reconstruct(t, in); strings.Contains(strings.Join(r.Notes, " "), "logger") {
		t.Error("a logger that isn't there")
	}
}

func BenchmarkReconstructLogger(b *testing.B) {
	in := withLogger(b, 5000)
	for b.Loop() {
		if _, err := Make(in); err != nil {
			b.Fatal(err)
		}
	}
}
