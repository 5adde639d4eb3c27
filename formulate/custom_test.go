// SPDX-License-Identifier: MIT

package formulate

import (
	"strings"
	"testing"

	"gyle/data"
)

// wholeShelf is every typical malt and a score of hops, with made-up prices.
func wholeShelf(t testing.TB) Wish {
	n, _ := data.StyleNumbers("american-brown-ale")
	w := Wish{Style: numbered(t, n)}
	for _, m := range data.MaltIDs() {
		w.Malts = append(w.Malts, Malt{Malt: m, Price: float64(1 + len(m)%5), UseUp: strings.HasPrefix(m, "b")})
	}
	for _, h := range data.HopIDs()[:20] {
		w.Hops = append(w.Hops, Hop{Hop: h})
	}
	return w
}

// From everything there is, what comes out is a beer that people would mash: no
// malt beyond the usual ceiling of package data, and a plan that misses no enzymes.
func TestUsualGrist(t *testing.T) {
	for _, objective := range []Objective{Middle, Cheapest, Lots} {
		w := wholeShelf(t)
		w.Objective = objective
		r := found(t, w)
		for _, g := range r.Recipe.Grist {
			m, _ := data.Malt(g.Malt)
			if share := g.Share.Percent(); share > m.MaxShare+1e-6 {
				t.Errorf("%s: %s %g %%, usually %g at most", objective, g.Malt, share, m.MaxShare)
			}
		}
		if all := strings.Join(r.Plan.Cautions, "\n"); strings.Contains(all, "WK of enzymes") {
			t.Errorf("%s: %s\n%s", objective, all, r.Text)
		}
	}
}

// Where the rules ask for the unusual they have it, and the result says so.
func TestUnusualGrist(t *testing.T) {
	w := shelf(ruled(t, `{figure: og, in: 1.045..1.055, severity: limit}`, `{figure: ibu, in: 20..30 IBU, severity: limit}`,
		`{share: flaked-oats, in: 60..70 %, severity: limit}`))
	r := found(t, w)
	if oats := shareOf(r.Recipe, "flaked-oats"); oats < 0.6 {
		t.Errorf("oats %g", oats)
	}
	if all := strings.Join(r.Says, "\n"); !strings.Contains(all, "flaked-oats up to its usual ceiling") {
		t.Error(all)
	}
}
