// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"math"
	"strings"
	"testing"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
)

// apart is the largest difference between two beers as a part of what the oat
// brown allows: shares by the widths of its rules (Saltpan Lane style), figures
// likewise.
func apart(a, b *recipe.Recipe) float64 {
	widths := map[string]float64{"pale-ale": 0.15, "oats-flaked": 0.08, "munich": 0.10, "crystal": 0.05, "brown": 0.04, "chocolate": 0.025}
	most := 0.0
	for malt, width := range widths {
		most = math.Max(most, math.Abs(shareOf(a, malt)-shareOf(b, malt))/width)
	}
	x, _ := judge.Meant(a)
	y, _ := judge.Meant(b)
	for f, width := range map[quantity.Figure]float64{quantity.OG: 0.008, quantity.Bitterness: 10, quantity.BeerColor: 16} {
		most = math.Max(most, math.Abs(x[f]-y[f])/width)
	}
	return most
}

func shareOf(r *recipe.Recipe, malt string) float64 {
	sum := 0.0
	for _, g := range r.Grist {
		if g.Malt == malt {
			sum += float64(*g.Share)
		}
	}
	return sum
}

// The variations keep the limits, and each differs clearly from the recipe and
// from every other: a quarter of the width of some rule at least.
func TestVariations(t *testing.T) {
	r := ferryBrown(t)
	all, err := Variations(context.Background(), clubWish(t, "garage"), r, 5)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != 5 {
		t.Errorf("%d variations, want 5", len(all))
	}
	for i, v := range all {
		limitsKept(t, v.Says, v.Judgement)
		if v.Says == "" || strings.Contains(v.Says, "\n") || v.Recipe.Change == nil || v.Recipe.Parent != r.Version {
			t.Errorf("%q: %+v", v.Says, v.Recipe.Change)
		}
		if d := apart(r, v.Recipe); d < 0.25 {
			t.Errorf("%s: only %.2f from the recipe", v.Says, d)
		}
		for _, other := range all[:i] {
			if d := apart(other.Recipe, v.Recipe); d < 0.25 {
				t.Errorf("%s and %s: only %.2f apart", other.Says, v.Says, d)
			}
		}
	}
}

// Where a style leaves nothing, there is no variation.
func TestNoVariation(t *testing.T) {
	s := ruled(t, `{figure: og, in: 1.050..1.050, severity: limit}`, `{figure: ibu, in: 28.8..28.8 IBU, severity: limit}`,
		`{share: pale-ale, in: 100 %.., severity: limit}`, `{yeast: attenuation, in: 75..75 %, severity: limit}`)
	r := parsed(t, "r", `gyle: recipe/1
name: One malt
aims: {og: 1.050, fg: 1.0127, ibu: 28.8}
grist: [{malt: pale-ale, share: 100 %}]
hops: [{hop: challenger, bitterness: 28.8 IBU, at: boil 60 min}]
yeast: {kind: english-ale}
`, recipe.Parse)
	all, err := Variations(context.Background(), Wish{Style: s}, r, 3)
	if err != nil || len(all) != 0 {
		t.Errorf("%d variations, %v", len(all), err)
	}
}
