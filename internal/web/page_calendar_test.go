// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"gyle/gyle"
)

// The scenario's need 24 on pages: fermenter 1 is busy from day 0 to day 12, a
// second brew on day 9 is refused and day 12 offered; one press takes it. What
// was begun reserves its lots, and nothing is saved by a refusal.
func TestClashIsRefusedWithTheFirstFreeDay(t *testing.T) {
	book := fullBook(t)
	s := newTestServer(t, Options{Book: book, Kinds: append(slices.Clone(testKinds), gyle.Kind), Now: func() time.Time { return time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC) }})
	c := near(t, s)
	brew := func(day, fermenter string) (status int, body, location string) {
		w := c.post("/brew", url.Values{"recipe": {"ferry-brown-3"}, "house": {"garage"}, "stock": {"garage-shed"}, "water": {"saltpan-lane"}, "brewday": {day}, "fermenter": {fermenter}})
		return w.Code, w.Body.String(), w.Header().Get("Location")
	}
	if status, body, _ := brew("2026-12-05", "fermenter 1"); status != http.StatusSeeOther {
		t.Fatalf("the first brew: %d\n%s", status, body)
	}
	status, body, _ := brew("2026-12-14", "fermenter 1")
	for _, words := range []string{"2026-12-17", "Brew on 2026-12-17 in fermenter 1", "Brew on 2026-12-14 in fermenter 2", "Nothing was begun yet", `value="2026-12-14"`, `name="stock" value="garage-shed"`} {
		if status != http.StatusUnprocessableEntity || !strings.Contains(body, words) {
			t.Errorf("day 9 is answered with %d, without %q", status, words)
		}
	}
	if status, body, _ := brew("some day", ""); status != http.StatusUnprocessableEntity || !strings.Contains(body, `value="some day"`) {
		t.Errorf("a day that is none: %d\n%s", status, body)
	}
	want(t, c.get("/calendar?house=garage"), http.StatusOK, "2026-12-05", "2026-12-17", "fermenter 2", "fermentation 7 to 10 days, chilling 2 days")
	if got := c.get("/calendar.json?house=garage").Body.String(); strings.Count(got, `"state": "planned"`) != 1 {
		t.Errorf("a refused brew is in the calendar:\n%s", got)
	}
	if status, body, _ := brew("2026-12-17", "fermenter 1"); status != http.StatusSeeOther {
		t.Errorf("the day that was offered: %d\n%s", status, body)
	}
	if status, _, path := brew("2026-12-14", ""); status != http.StatusSeeOther || !strings.Contains(c.get("/calendar.json?house=garage").Body.String(), `"fermenter 2"`+",\n      \"from\": \"2026-12-14\"") {
		t.Errorf("without a wish it isn't put into the free fermenter: %d %s", status, path)
	}

	want(t, c.get("/stock/garage-shed"), http.StatusOK, "reserved", "left", "Salts and acids")
	want(t, c.get("/stock/garage-shed.json"), http.StatusOK, `"reserved"`, `"lot": "PA-A"`)
	want(t, c.get("/calendar?house=garage&from=tomorrow"), http.StatusUnprocessableEntity, "is no day", `value="tomorrow"`)
	if w := c.get("/calendar?house=none"); w.Code != http.StatusNotFound {
		t.Errorf("a house that isn't there: %d", w.Code)
	}
}

// The sheet of a plan says what a litre costs, and names what has no price.
func TestPlanSheetSaysTheCost(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	query := "?recipe=ferry-brown-3&house=garage&stock=garage-shed&water=saltpan-lane"
	want(t, c.get("/plan"+query), http.StatusOK, "at least 0.95 €</span> a litre", "Without a price", "sucrose")
	want(t, c.get("/plan/cost.json"+query), http.StatusOK, `"perLitre": 0.9`, `"unpriced"`, `"lactic-acid-88"`)
	if strings.Contains(c.get("/plan?recipe=ferry-brown-3&house=garage").Body.String(), "a litre</span>") {
		t.Error("without a stock a cost is shown")
	}
}
