// SPDX-License-Identifier: MIT

package card_test

import (
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/publish/card"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// ferryBrown is the demonstration with everything: style, versions, a plan.
func ferryBrown(t testing.TB) card.Bundle {
	t.Helper()
	b := card.Bundle{Style: examplestest.Load(t, "oat-brown-ale", style.Parse)}
	for _, name := range []string{"ferry-brown-1", "ferry-brown-2", "ferry-brown-3", "ferry-brown-4"} {
		b.Versions = append(b.Versions, examplestest.Load(t, name, recipe.Parse))
	}
	b.Recipe = b.Versions[3]
	b.Panel = map[int]string{3: "11 of 18 told it from version 2, p 0.014: a difference is shown."}
	p, err := plan.Make(plan.Input{
		Recipe: b.Recipe, House: examplestest.Load(t, "garage", brewhouse.Parse),
		Stock: examplestest.Load(t, "garage-shed", stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse),
	})
	if err != nil {
		t.Fatal(err)
	}
	b.Plan = p
	return b
}
