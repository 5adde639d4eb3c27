// SPDX-License-Identifier: MIT

package chance_test

import (
	"math"
	"testing"

	"gyle/chance"
	"gyle/quantity"
)

// Not moved, the estimate is the count itself; moved out of a limit nothing is
// inside; and the chance at an edge is about a half where the figure is all that
// spreads.
func TestMoved(t *testing.T) {
	p, s := made(t, on(t, "3", "garage")), oatBrown(t)
	o := simulated(t, p, s, chance.Options{Samples: 2000, Seed: 1, Keep: true})
	if got, ok := o.Moved(nil); !ok || got != *o.Limits {
		t.Errorf("%+v, want %+v", got, *o.Limits)
	}
	if got, _ := o.Moved(map[quantity.Figure]float64{quantity.BeerColor: 200}); got.Share != 0 {
		t.Errorf("far outside: %+v", got)
	}
	colour := simulated(t, p, s, chance.Options{Samples: 2000, Seed: 1, Keep: true, Vary: only("colour formula")})
	if got, _ := colour.Moved(map[quantity.Figure]float64{quantity.BeerColor: 44}); math.Abs(got.Share-0.5) > 0.05 {
		t.Errorf("at the edge: %+v, want about a half", got)
	}
	without := simulated(t, p, s, chance.Options{Samples: 2000, Seed: 1})
	if _, ok := without.Moved(nil); ok {
		t.Error("an estimate from beers that weren't kept")
	}
}

// An input that is known twice as well spreads its figure half as much.
func TestKnown(t *testing.T) {
	p := made(t, on(t, "3", "garage"))
	color := func(known float64) float64 {
		o := simulated(t, p, nil, chance.Options{Samples: 2000, Vary: only("colour formula"), Known: func(chance.Input) float64 { return known }})
		b, _ := o.Find(quantity.BeerColor)
		return b.SD
	}
	if whole, half := color(1), color(0.5); math.Abs(half/whole-0.5) > 0.01 {
		t.Errorf("half of %v is %v", whole, half)
	}
	if none := color(0); none != 0 {
		t.Errorf("known exactly: %v", none)
	}
}
