// SPDX-License-Identifier: MIT

package main

import (
	"fmt"

	"gyle/gyle"
	"gyle/internal/store"
	"gyle/recipe"
	"gyle/tasting"
)

// tastingRefs are the beers that a tasting compares.
func tastingRefs(t *tasting.Tasting) (refs []store.Ref) {
	for i, b := range t.Beers {
		if b.Recipe != "" {
			refs = append(refs, store.Ref{Kind: recipe.Kind, Slug: b.Recipe, Field: fmt.Sprintf("beers[%d].recipe", i)})
		}
		if b.Gyle != "" {
			refs = append(refs, store.Ref{Kind: gyle.Kind, Slug: b.Gyle, Field: fmt.Sprintf("beers[%d].gyle", i)})
		}
	}
	return refs
}

// checkTasting says what a tasting holds, and what should be told with it.
func checkTasting(out *sheet, file string, t *tasting.Tasting) {
	answers := 0
	for _, f := range t.Flights {
		answers += len(f.Answers)
	}
	out.note("ok", fmt.Sprintf("%s: tasting %q, %d flights, %d answers", file, t.Name, len(t.Flights), answers))
	for _, r := range t.Remarks() {
		text := r.Text
		if r.Hint != "" {
			text += "; " + r.Hint
		}
		out.note("  "+map[tasting.Weight]string{tasting.Advice: "·", tasting.Doubt: "?", tasting.Void: "✕"}[r.Weight], text)
	}
}
