// SPDX-License-Identifier: MIT

package web

import (
	"strings"
	"testing"

	"gyle/recipe"
)

// Two forms each change one line of a text that was written by hand: both
// changes are kept, though every line of the layout moved.
func TestMergeOfTwoForms(t *testing.T) {
	const base = "# by hand\ngyle: recipe/1\nname: Mild\naims: {og: 1.036}\nboil: 60 min\ngrist:\n- {malt: pale-ale, share: 90 %, why: base}\n- {malt: crystal, share: 10 %}\nnote: old\n"
	began, ok := canonicalText(recipe.Kind, base)
	if !ok || began == base {
		t.Fatalf("the base isn't written anew: %q", began)
	}
	mine, theirs := strings.Replace(began, "why: base", "why: biscuit", 1), strings.Replace(began, "note: old", "note: new", 1)
	if _, ok := merge(base, mine, theirs); ok {
		t.Fatal("the texts merge by line already: this proves nothing")
	}
	merged, ok := mergeDocuments(recipe.Kind, base, mine, theirs)
	if !ok || !strings.Contains(merged, "why: biscuit") || !strings.Contains(merged, "note: new") {
		t.Errorf("merged (%v):\n%s", ok, merged)
	}
	if _, ok := mergeDocuments(recipe.Kind, base, mine+"# mine\n", theirs); ok {
		t.Error("a comment that was typed would be lost")
	}
}
