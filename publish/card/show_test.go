// SPDX-License-Identifier: MIT

package card_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/publish/card"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// long is a beer whose documents say far more than a card holds.
func long(t testing.TB) card.Bundle {
	t.Helper()
	b := ferryBrown(t)
	r, s := *b.Recipe, *b.Style
	r.Name = "The Ferryman's Remarkably Long-Named Brown Ale for the Winter Evenings of the Saltpan Lane Brewing Circle"
	r.Note = strings.Repeat("It was brewed when the river froze and nobody could cross it. ", 40)
	r.Grist = append([]recipe.Grain(nil), r.Grist...)
	r.Grist[0].Why = strings.Repeat("enzymes, ", 60) + "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft"
	zero := quantity.Percent(0)
	for _, name := range []string{"rye", "wheat", "spelt-malt", "amber", "vienna"} {
		r.Grist = append(r.Grist, recipe.Grain{Malt: name, Share: &zero, Why: "a name on the list"})
	}
	s.Taste = append([]style.Taste(nil), s.Taste...)
	s.Taste = append(s.Taste, style.Taste{Quality: strings.Repeat("warm ", 30), Range: strings.Repeat("somewhat ", 20), Note: strings.Repeat("of bread ", 90)})
	b.Recipe, b.Style = &r, &s
	var err error
	if b.Plan, err = plan.Make(plan.Input{Recipe: &r, House: examplestest.Load(t, "garage", brewhouse.Parse)}); err != nil {
		t.Fatal(err)
	}
	return b
}

// decks are the decks to look at.
func decks(t testing.TB) map[string]card.Bundle {
	us := ferryBrown(t)
	us.Printer = quantity.Printer{System: quantity.USCustomary}
	recipeOnly := card.Bundle{Recipe: us.Recipe}
	return map[string]card.Bundle{
		"full": ferryBrown(t), "us": us, "recipe": recipeOnly, "long": long(t),
		"style":  {Style: us.Style},
		"thumbs": {Style: examplestest.Load(t, "american-brown-rules-of-thumb", style.Parse)},
	}
}

// TestShow writes cards where GYLE_SHOW says, to be looked at.
func TestShow(t *testing.T) {
	dir := os.Getenv("GYLE_SHOW")
	if dir == "" {
		t.Skip("set GYLE_SHOW to a folder to see the cards")
	}
	for name, b := range decks(t) {
		for i, size := range card.Sizes() {
			deck, err := card.Deck(b, size, card.Themes()[i])
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range deck {
				text, err := c.PNG()
				if err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(filepath.Join(dir, name+"-"+size.Name+"-"+c.Name+".png"), text, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
