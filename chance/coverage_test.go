// SPDX-License-Identifier: MIT

package chance

import (
	"context"
	"io/fs"
	"math/rand/v2"
	"os"
	"testing"

	"gyle/brewhouse"
	"gyle/examples"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

// example reads a document of the examples.
func example[T any](t *testing.T, name string, parse func(string, []byte) (T, error)) T {
	t.Helper()
	text, err := fs.ReadFile(examples.Documents(), name+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

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
		Recipe: example(t, "ferry-brown-"+version, recipe.Parse), House: example(t, house, brewhouse.Parse),
		Stock: example(t, house+"-shed", stock.Parse), Water: example(t, "saltpan-lane", water.Parse),
	})
	if err != nil {
		t.Fatal(err)
	}
	o, err := Simulate(context.Background(), p, nil, Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	const truths = 10_000
	held := make([]int, len(o.Figures))
	half := make([]int, len(o.Figures))
	r := rand.New(rand.NewPCG(20261125, 2))
	w := (&run{plan: p, day: must(t)(p.Brewday())}).worker()
	for range truths {
		w.reset()
		for _, in := range o.Inputs {
			in.set(w.truth, in.distribution.Quantile(1-r.Float64()))
		}
		w.brew()
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

func must(t *testing.T) func(*plan.Brewday, error) *plan.Brewday {
	return func(d *plan.Brewday, err error) *plan.Brewday {
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
}
