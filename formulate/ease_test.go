// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"math"
	"testing"
)

// A range gives way at the end that is in the way, and keeps its unit.
func TestEasedRange(t *testing.T) {
	for _, c := range []struct {
		in   string
		to   float64
		want string
	}{
		{"8..16 %", 18.5, "8..18.5 %"}, {"8..16 %", 6, "6..16 %"}, {"..2 %", 5.2, "..5.2 %"}, {"60 EBC..", 26, "26 EBC.."},
		{"1.046..1.054", 1.06, "1.046..1.06"}, {"2.0..2.4 vol", 2.5, "2.0..2.5 vol"}, {"5 %", 6, "5..6 %"}, {"5 %", 4, "4..5 %"},
	} {
		if got := easedRange(c.in, c.to); got != c.want {
			t.Errorf("%s to %g is %s, want %s", c.in, c.to, got, c.want)
		}
	}
}

// Each way out of a conflict that is a rule giving way does help.
func TestEasingHelps(t *testing.T) {
	w := shelf(ruled(t, `{figure: og, in: ..1.040, severity: limit}`, `{figure: color, in: 60 EBC.., severity: limit}`,
		`{share: above 100 EBC, in: ..2 %, severity: limit}`))
	_, err := Find(context.Background(), w)
	var conflict *Conflict
	if !errors.As(err, &conflict) || len(conflict.Choices) < 2 {
		t.Fatalf("%v, want a conflict", err)
	}
	for _, c := range conflict.Choices {
		clash := conflict.Clashes[c.Clash]
		eased, err := Ease(w.Style, clash.Rule, clash.Part, c.To)
		if err != nil {
			t.Fatal(err)
		}
		with := w
		with.Style, with.NoRooms = eased, true
		if _, err := Find(context.Background(), with); err != nil {
			t.Errorf("%s: %v", c.Says, err)
		}
	}
	if _, err := Ease(w.Style, 0, 0, math.NaN()); err != nil {
		t.Error(err)
	}
}
