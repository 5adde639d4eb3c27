// SPDX-License-Identifier: MIT

package chance

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// 95 % bands hold 94 to 96 % of ten thousand true beers. The truths are drawn
// plainly, one input after the other from a generator of their own, so that
// nothing of the hypercube is taken for granted. Set GYLE_SOAK=1 for every
// version on both houses.
func TestCoverage(t *testing.T) {
	covered(t, "4", "garage")
	if os.Getenv("GYLE_SOAK") == "" {
		return
	}
	for _, version := range []string{"1", "2", "3", "4"} {
		covered(t, version, "garage")
		covered(t, version, "boathouse")
	}
}

// covered holds the bands of a version on a house against true beers.
func covered(t *testing.T, version, house string) {
	t.Helper()
	p, err := plan.Make(plan.Input{
		Recipe: examplestest.Load(t, "ferry-brown-"+version, recipe.Parse), House: examplestest.Load(t, house, brewhouse.Parse),
		Stock: examplestest.Load(t, house+"-shed", stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse),
	})
	if err != nil {
		t.Fatal(err)
	}
	s := examplestest.Load(t, "oat-brown-ale", style.Parse)
	o, err := Simulate(context.Background(), p, s, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	const truths = 10_000
	held := make([]int, len(o.Figures))
	half := make([]int, len(o.Figures))
	r := rand.New(rand.NewPCG(20261125, 2))
	plain, err := prepare(p, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, inside := plain.worker(), 0
	for range truths {
		w.reset()
		for _, in := range o.Inputs {
			in.set(w.truth, in.distribution.Quantile(1-r.Float64()))
		}
		w.brew()
		if w.insideLimits() {
			inside++
		}
		for k := range o.Figures {
			x := w.output(k)
			if o.Figures[k].Nearly.Has(x) {
				held[k]++
			}
			if o.Figures[k].Half.Has(x) {
				half[k]++
			}
		}
	}
	// Four standard errors of the difference.
	if share := float64(inside) / truths; math.Abs(share-o.Limits.Share) > 4*math.Sqrt2*o.Limits.Error {
		t.Errorf("%s: %.3f of the truths are inside all limits, %.3f were foretold", house, share, o.Limits.Share)
	}
	for k, b := range o.Figures {
		if share := float64(held[k]) / truths; share < 0.94 || share > 0.96 {
			t.Errorf("%s: the 95 %% band of %s holds %.1f %%", house, b.Label(), 100*share)
		}
		// Four standard errors of 10 000 truths, and the error of the band itself.
		if share := float64(half[k]) / truths; share < 0.475 || share > 0.525 {
			t.Errorf("%s: the 50 %% band of %s holds %.1f %%", house, b.Label(), 100*share)
		}
	}
}

// insideLimits reports whether the beer just brewed is inside every limit.
func (w *worker) insideLimits() bool {
	for k := range w.rules {
		c := &w.rules[k]
		inside := c.kept
		if c.column >= 0 {
			x := w.output(c.column)
			inside = c.low <= x && x <= c.high
		}
		if c.limit && !inside {
			return false
		}
	}
	return true
}
