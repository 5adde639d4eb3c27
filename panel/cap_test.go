// SPDX-License-Identifier: MIT

package panel_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

// capped is an evening of a triangle and a preference, drawn for four.
func capped(t *testing.T, abv, cap float64, sample quantity.Volume) *tasting.Tasting {
	t.Helper()
	strength := quantity.Percent(abv)
	doc := &tasting.Tasting{
		Name: "Evening", Question: "?", Beers: []tasting.Beer{{Letter: "A", Name: "a", ABV: &strength}, {Letter: "B", Name: "b", ABV: &strength}},
		Conditions: tasting.Conditions{Sample: &sample}, Cap: &tasting.Cap{Alcohol: quantity.Grams(cap)},
		Panel:   []tasting.Assessor{{ID: "01"}, {ID: "02"}, {ID: "03"}, {ID: "04"}},
		Flights: []tasting.Flight{{Name: "difference", Kind: tasting.Triangle}, {Name: "liking", Kind: tasting.Preference}},
	}
	for i := range doc.Flights {
		if _, err := panel.Plan(doc, &doc.Flights[i], panel.Wish{Tasters: []string{"01", "02", "03", "04"}, Seed: uint64(i) + 1}, tasting.At(time.Date(2026, 4, 19, 20, 10, 0, 0, time.UTC))); err != nil {
			t.Fatal(err)
		}
	}
	return doc
}

// Five glasses of 60 mL at 6.5 % are 15.39 g of alcohol, three are 9.23 g (worked
// out with 789.24 kg/m³, OIML R 22).
func TestCheckCap(t *testing.T) {
	doc := capped(t, 6.5, 12, 0.06)
	var over *panel.OverCap
	if err := panel.CheckCap(doc); !errors.As(err, &over) {
		t.Fatalf("no refusal: %v", err)
	}
	if math.Abs(over.Most.Grams()-15.39) > 0.005 || math.Abs(over.Glass.Litres()-0.045) > 1e-9 || len(over.Later) != 1 || over.Later[0] != "liking" {
		t.Errorf("%+v", over)
	}
	for _, part := range []string{"15.4 g", "cap of 12.0 g", "pour 45 mL", "“liking” on another evening", "why it may be passed"} {
		if !strings.Contains(over.Error(), part) {
			t.Errorf("%q lacks %q", over, part)
		}
	}
	if err := panel.CheckCap(capped(t, 6.5, 12, over.Glass)); err != nil {
		t.Errorf("the smaller glass is refused, too: %v", err)
	}
	if err := panel.CheckCap(capped(t, 6.5, 15.4, 0.06)); err != nil {
		t.Errorf("below the cap: %v", err)
	}
	second, ok := panel.Part(doc, over)
	if !ok || len(doc.Flights) != 1 || len(second.Flights) != 1 || second.Flights[0].Serving != nil || second.Flights[0].Design != nil {
		t.Fatalf("%+v %+v", doc.Flights, second)
	}
	if err := panel.CheckCap(doc); err != nil {
		t.Errorf("the first evening is above the cap still: %v", err)
	}
	if doc.Verify(&doc.Flights[0]) == tasting.Differs {
		t.Error("parting broke the seal")
	}
}

// A single flight that is too much can't be parted, and a strong one leaves no
// glass that is worth tasting; a reason in writing lets it pass.
func TestCapOfOneFlight(t *testing.T) {
	doc := capped(t, 12, 2, 0.05)
	var over *panel.OverCap
	if err := panel.CheckCap(doc); !errors.As(err, &over) || over.Glass != 0 || over.Later != nil || strings.Contains(over.Error(), "another evening") {
		t.Errorf("%v", err)
	}
	if _, ok := panel.Part(doc, over); ok {
		t.Error("one flight was parted")
	}
	doc.Cap.Over = "spitting is the rule of the house"
	if err := panel.CheckCap(doc); err != nil {
		t.Errorf("with a reason: %v", err)
	}
	doc.Cap.Over, doc.Beers[0].ABV = "", nil
	if err := panel.CheckCap(doc); err != nil || panel.Watched(doc) {
		t.Errorf("an unknown strength: %v, watched %v", err, panel.Watched(doc))
	}
}
