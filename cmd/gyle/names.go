// SPDX-License-Identifier: MIT

package main

import (
	"fmt"

	"gyle/data"
	"gyle/internal/document"
	"gyle/recipe"
)

// unknownNames lists the malts, hops and yeasts of a recipe that aren't among
// the typical ones. That is no fault: a stock may have them.
func unknownNames(r *recipe.Recipe) (notes []string) {
	seen := map[string]bool{}
	add := func(what, id string, known bool, names []string) {
		if known || id == "" || seen[what+id] {
			return
		}
		seen[what+id] = true
		text := fmt.Sprintf("%s is not among the typical %s: only a stock that has it can say what it brings", id, what)
		if near, ok := document.Nearest(id, names); ok {
			text = fmt.Sprintf("%s is not among the typical %s: did you mean %s?", id, what, near)
		}
		notes = append(notes, text)
	}
	for _, g := range r.Grist {
		_, malt := data.Malt(g.Malt)
		_, sugar := data.Sugar(g.Malt)
		add("malts and sugars", g.Malt, malt || sugar, append(data.MaltNames(), data.SugarNames()...))
	}
	for _, c := range r.Hops {
		_, ok := data.Hop(c.Hop)
		add("hops", c.Hop, ok, data.HopNames())
	}
	if r.Yeast != nil {
		_, ok := data.Yeast(r.Yeast.Kind)
		add("yeasts", r.Yeast.Kind, ok, data.YeastNames())
	}
	return notes
}
