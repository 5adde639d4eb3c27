// SPDX-License-Identifier: MIT

package card_test

import (
	"io/fs"
	"testing"

	"gyle/brewhouse"
	"gyle/examples"
	"gyle/plan"
	"gyle/publish/card"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// load reads a document of the demonstration.
func load[T any](t testing.TB, name string, parse func(string, []byte) (*T, error)) *T {
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

// ferryBrown is the demonstration with everything: style, versions, a plan.
func ferryBrown(t testing.TB) card.Bundle {
	t.Helper()
	b := card.Bundle{Style: load(t, "oat-brown-ale", style.Parse)}
	for _, name := range []string{"ferry-brown-1", "ferry-brown-2", "ferry-brown-3", "ferry-brown-4"} {
		b.Versions = append(b.Versions, load(t, name, recipe.Parse))
	}
	b.Recipe = b.Versions[3]
	b.Panel = map[int]string{3: "11 of 18 told it from version 2, p 0.014: a difference is shown."}
	p, err := plan.Make(plan.Input{
		Recipe: b.Recipe, House: load(t, "garage", brewhouse.Parse),
		Stock: load(t, "garage-shed", stock.Parse), Water: load(t, "saltpan-lane", water.Parse),
	})
	if err != nil {
		t.Fatal(err)
	}
	b.Plan = p
	return b
}
