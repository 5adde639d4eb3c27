// SPDX-License-Identifier: MIT

package panel_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

func TestEthanol(t *testing.T) {
	// Computed from the density of OIML R 22; 355 mL of 5 % is the drink of 14 g
	// that American handbooks use.
	for _, row := range []struct{ glasses, millilitres, abv, grams float64 }{{3, 60, 5.0, 7.10}, {4, 60, 6.5, 12.31}, {8, 50, 5.5, 17.36}, {1, 355, 5, 14.01}, {1, 568, 4, 17.93}} {
		got := panel.Ethanol(quantity.Millilitres(row.glasses*row.millilitres), quantity.Percent(row.abv)).Grams()
		if math.Abs(got-row.grams) > 0.005 {
			t.Errorf("%g × %g mL of %g %%: %.3f g, want %g", row.glasses, row.millilitres, row.abv, got, row.grams)
		}
	}
}

// TestPoured adds five glasses of 50 mL, 4.8 %, in two flights.
func TestPoured(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(evenings, "ferry-brown-2-3.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := tasting.Parse("evening.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	poured, known := panel.Poured(doc)
	if want := 5 * 50 * 0.048 * 0.78924; !known || len(poured) != 18 || math.Abs(poured["07"].Grams()-want) > 1e-9 {
		t.Errorf("07 is poured %g g of %g, known: %v", poured["07"].Grams(), want, known)
	}
	doc.Beers[1].ABV = nil
	if _, known := panel.Poured(doc); known {
		t.Error("alcohol is known without the alcohol content")
	}
}

func TestDraw(t *testing.T) {
	seed, nonce := panel.Draw()
	again, other := panel.Draw()
	if seed == again || nonce == other || nonce == [tasting.NonceBytes]byte{} {
		t.Error("two draws are alike")
	}
}
