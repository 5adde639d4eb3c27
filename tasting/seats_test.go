// SPDX-License-Identifier: MIT

package tasting_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"gyle/tasting"
)

// Seats come and go until the orders are fixed; afterwards only names and who
// withdrew may change.
func TestSeat(t *testing.T) {
	doc := &tasting.Tasting{Name: "t", Question: "?", Panel: []tasting.Assessor{{ID: "01"}, {ID: "02"}}, Flights: []tasting.Flight{{Name: "f", Kind: tasting.Triangle}}}
	if _, fixed := doc.Fixed(); fixed {
		t.Error("fixed without orders")
	}
	if err := doc.Seat(tasting.MoreSeats(doc.Panel[1:], 2)); err != nil {
		t.Fatal(err)
	}
	if len(doc.Panel) != 3 || doc.Panel[0].ID != "02" || doc.Panel[1].ID != "03" || doc.Panel[2].ID != "04" {
		t.Errorf("%+v", doc.Panel)
	}
	if err := doc.Seat([]tasting.Assessor{{ID: "02"}, {ID: "02"}}); err == nil || !strings.Contains(err.Error(), "another") {
		t.Errorf("two of one number: %v", err)
	}
	if err := doc.Seat([]tasting.Assessor{{ID: " "}}); err == nil {
		t.Error("a seat without a number")
	}
	doc.Flights[0].Design = &tasting.Design{At: tasting.At(time.Date(2026, 4, 19, 20, 10, 0, 0, time.UTC))}
	doc.Flights[0].Serving = []tasting.Serving{{Taster: "02"}}
	var fixed *tasting.FixedError
	for what, panel := range map[string][]tasting.Assessor{
		"seat 05 is new": tasting.MoreSeats(doc.Panel, 1), "seat 04 is gone": doc.Panel[:2],
	} {
		if err := doc.Seat(panel); !errors.As(err, &fixed) || !strings.Contains(err.Error(), what) || !strings.Contains(err.Error(), "19 April 2026, 20:10") || !strings.Contains(err.Error(), "withdrawn") {
			t.Errorf("%s: %v", what, err)
		}
	}
	named := append([]tasting.Assessor{}, doc.Panel...)
	named[0].Name, named[1].Out = "R. Holt", "withdrew"
	if err := doc.Seat(named); err != nil || doc.Panel[0].Name != "R. Holt" || doc.Panel[1].Out == "" {
		t.Errorf("%v %+v", err, doc.Panel)
	}
}
