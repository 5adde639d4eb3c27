// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"fmt"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"gyle/chance"
	"gyle/quantity"
)

// The sheet of a plan says what may come of it, and its verdicts say the same.
func TestPlanSaysWhatMayComeOfIt(t *testing.T) {
	s := newTestServer(t, Options{Book: fullBook(t)})
	const address = "/plan?recipe=ferry-brown-4&house=garage&stock=garage-shed&water=saltpan-lane"
	w := near(t, s).get(address)
	want(t, w, http.StatusOK, "What may come of it", "Brewed 600 times on paper", "What is to blame", "Most of the spread of colour comes from the colour formula")
	said := regexp.MustCompile(`All five numbers come out inside in (\d+) %`).FindStringSubmatch(w.Body.String())
	p := plannedFerryBrown(t, s, "garage")
	o, err := chance.Simulate(context.Background(), p.plan, p.style, chance.Options{Samples: sheetSamples})
	if err != nil {
		t.Fatal(err)
	}
	if simulated := fmt.Sprintf("%.0f", 100*o.AllFive.Share); said == nil || said[1] != simulated {
		t.Errorf("the verdicts say %v, simulated %s", said, simulated)
	}
}

// plannedFerryBrown is the plan of a house of the example.
func plannedFerryBrown(t *testing.T, s *Server, house string) planned {
	t.Helper()
	p, err := s.readPlan(context.Background(), planQuery{Recipe: "ferry-brown-4", House: house, Stock: house + "-shed", Water: "saltpan-lane"})
	if err != nil {
		t.Fatal(err)
	}
	if err := p.make(); err != nil {
		t.Fatal(err)
	}
	return p
}

// Where no style is known, the figures have bands and no chances.
func TestOutlookWithoutAStyle(t *testing.T) {
	p := plannedFerryBrown(t, newTestServer(t, Options{Book: fullBook(t)}), "garage")
	o := outlookOf(context.Background(), p.plan, nil, nil, quantity.Printer{})
	if o.Together != "" || len(o.Rows) == 0 || len(o.Blame) == 0 || o.Trouble != "" {
		t.Errorf("%+v", o)
	}
	for _, row := range o.Rows {
		if row.Chance != "" || strings.TrimSpace(row.Low) == "" {
			t.Errorf("%+v", row)
		}
	}
}

// The cloud of the house that never measured its bitterness is the wider one.
func TestMapCloudFollowsTheHouse(t *testing.T) {
	s := newTestServer(t, Options{Book: fullBook(t)})
	known, ok := mapCloud(plannedFerryBrown(t, s, "garage").plan)
	unknown, ok2 := mapCloud(plannedFerryBrown(t, s, "boathouse").plan)
	if !ok || !ok2 || unknown.SDY < 1.5*known.SDY {
		t.Errorf("%+v and %+v", known, unknown)
	}
	if _, ok := mapCloud(nil); ok {
		t.Error("a cloud of no plan")
	}
}
