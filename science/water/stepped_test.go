// SPDX-License-Identifier: MIT

package water

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"gyle/quantity"
)

// Whole steps come at least as near as rounding salt by salt, keep the caps,
// and are steps of the scale.
func TestSteppedIsNoWorseThanRounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var base Ions
		for _, ion := range []Ion{Calcium, Magnesium, Sodium, Chloride, Sulfate, Bicarbonate} {
			base[ion] = rapid.Float64Range(0, 120).Draw(t, ion.Symbol())
		}
		aims := Aims{Calcium: rapid.Float64Range(20, 200).Draw(t, "Ca aim"), Chloride: rapid.Float64Range(0, 200).Draw(t, "Cl aim"), Sulfate: rapid.Float64Range(0, 300).Draw(t, "SO4 aim")}
		var allowed []Salt
		for _, id := range usual {
			s, _ := SaltByID(id)
			allowed = append(allowed, s)
		}
		p := SolveSalts(base, quantity.Volume(rapid.Float64Range(3, 200).Draw(t, "volume")), aims, allowed)
		step := quantity.Grams(0.1)
		stepped, rounded := p.Stepped(step), p.Rounded(step)
		if stepped.Misfit() > rounded.Misfit()+1e-9 {
			t.Fatalf("stepped %v, rounded %v", stepped.Misfit(), rounded.Misfit())
		}
		for _, a := range stepped.Additions {
			if n := float64(a.Mass / step); math.Abs(n-math.Round(n)) > 1e-6 {
				t.Fatalf("%s: %v steps", a.Salt.ID, n)
			}
			if a.Mass.Grams() > doseLimit(a.Salt)*p.Volume.Litres()+1e-9 {
				t.Fatalf("%s: %v g is above its cap", a.Salt.ID, a.Mass.Grams())
			}
		}
	})
}

func TestMisfit(t *testing.T) {
	if got := (SaltPlan{Ions: Ions{Calcium: 90}, Aims: Aims{Calcium: 100}}).Misfit(); math.Abs(got-0.1) > 1e-12 {
		t.Errorf("90 for 100 is a misfit of %v, want 0.1", got)
	}
	if got := (SaltPlan{Ions: Ions{Calcium: 100}, Aims: Aims{Calcium: 100}}).Misfit(); got != 0 {
		t.Errorf("100 for 100 is a misfit of %v", got)
	}
}
