// SPDX-License-Identifier: MIT

package blind_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"gyle/blind"
	"gyle/panel"
	"gyle/quantity"
	"gyle/tasting"
)

// TestRepeatedAnswersWarn: five tasters with three trays each, of whom two are
// always right and three never, are not fifteen tasters: the interval is wider
// than that of 6 of 15, and likeness isn't claimed.
func TestRepeatedAnswersWarn(t *testing.T) {
	at := tasting.At(time.Date(2026, 5, 1, 18, 0, 0, 0, time.UTC))
	doc := &tasting.Tasting{
		Name: "Repeated", Question: "Can these five tell?", Beers: []tasting.Beer{{Letter: "A"}, {Letter: "B"}},
		Flights: []tasting.Flight{{Name: "difference", Kind: tasting.Triangle, Alpha: quantity.Percent(5), Similar: quantity.Percent(60)}},
	}
	ids := []string{"01", "02", "03", "04", "05"}
	for _, id := range ids {
		doc.Panel = append(doc.Panel, tasting.Assessor{ID: id})
	}
	f := &doc.Flights[0]
	key, err := panel.Plan(doc, f, panel.Wish{Tasters: ids, Seed: 7, Sets: 3}, at)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range f.Serving {
		place := key.Odd(s) - 1
		if s.Taster > "02" {
			place = (place + 1) % 3
		}
		f.Answers = append(f.Answers, tasting.Answer{ID: fmt.Sprint("a", i), At: tasting.At(at.Time.Add(time.Hour)), Taster: s.Taster, Set: s.Set, Code: s.Codes[place]})
	}
	f.Close(tasting.At(at.Time.Add(2 * time.Hour)))
	if err := doc.Open(f, key, tasting.At(at.Time.Add(3*time.Hour))); err != nil {
		t.Fatal(err)
	}
	got := blind.Of(doc, quantity.Printer{}).Flights[0]
	if got.Choice == nil || got.Choice.N != 15 || got.Choice.Right != 6 {
		t.Fatalf("%+v", got)
	}
	if len(got.Warnings) == 0 || !strings.Contains(got.Warnings[0], "15 answers of 5 tasters") {
		t.Errorf("warnings %q", got.Warnings)
	}
	// 6 of 15: upper exact 95 % limit of the proportion 0.6404 (scipy, beta.ppf(0.95, 7, 9)), so 46 % of tasters.
	if got.Choice.Upper <= 0.46 {
		t.Errorf("up to %g could tell, no more than if fifteen had answered", got.Choice.Upper)
	}
	if got.Choice.Outcome != "not conclusive" {
		t.Errorf("outcome %s", got.Choice.Outcome)
	}
}
