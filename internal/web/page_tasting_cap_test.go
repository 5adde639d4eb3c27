// SPDX-License-Identifier: MIT

package web

import (
	"maps"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"gyle/tasting"
)

// cappedForm is a triangle with a preference behind it: five glasses of 60 mL at
// 6.5 % are 15.4 g of alcohol for each, the triangle alone 9.2 g.
func cappedForm(more url.Values) url.Values {
	form := url.Values{
		"question": {"Does the late roast show?"}, "a": {"ferry-brown-2"}, "b": {"ferry-brown-3"}, "kind": {"triangle"}, "tasters": {"6"}, "change": {"late roast"},
		"alpha": {"5 %"}, "share": {"50 %"}, "abv": {"6.5 %"}, "sample": {"60 mL"}, "liking": {"on"},
	}
	maps.Copy(form, more)
	return form
}

// A plan above the organiser's cap is refused with the ways below it, and nothing
// that was typed is lost.
func TestTastingCap(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	want(t, c.get("/new/tasting"), http.StatusOK, `name="cap" value="20 g"`, "isn’t advice on how much is safe", "driving")
	before := len(b.docs)
	w := c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"12 g"}}))
	want(t, w, http.StatusUnprocessableEntity, "15.4 g of alcohol, above the cap of 12.0 g", "pour 45 mL", "“liking” on another evening", `value="12 g"`, `value="60 mL"`, "fit to drive")
	want(t, c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"much"}})), http.StatusUnprocessableEntity, "such as 20 g", `value="much"`)
	want(t, c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"2000 g"}})), http.StatusUnprocessableEntity, "up to 100 g")
	want(t, c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"5 g"}, "part": {"on"}})), http.StatusUnprocessableEntity, "above the cap of 5.0 g")
	if len(b.docs) != before {
		t.Fatalf("%d documents, %d before", len(b.docs), before)
	}
	passed := c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"12 g"}, "over": {"spitting is the rule of the house"}}))
	if passed.Code != http.StatusSeeOther || len(b.docs) != before+1 {
		t.Fatalf("%d %s", passed.Code, passed.Body)
	}
}

// What is above the cap can wait: the preference is kept for a second evening,
// which isn't drawn yet, and the first stays sealed.
func TestTastingParted(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	if w := c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"12 g"}, "part": {"on"}})); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	var first, second string
	for key := range b.docs {
		slug, isTasting := strings.CutPrefix(key, "tasting/")
		if !isTasting || !strings.Contains(slug, "against") {
			continue
		}
		if strings.Contains(slug, "second") {
			second = "/tasting/" + slug
		} else {
			first = "/tasting/" + slug
		}
	}
	if first == "" || second == "" {
		t.Fatalf("evenings %q and %q", first, second)
	}
	one, two := eveningIn(t, b, first), eveningIn(t, b, second)
	if len(one.Flights) != 1 || one.Flights[0].Kind != tasting.Triangle || len(one.Flights[0].Serving) != 6 {
		t.Errorf("%+v", one.Flights)
	}
	if len(two.Flights) != 1 || two.Flights[0].Kind != tasting.Preference || len(two.Flights[0].Serving) != 0 || two.Cap == nil {
		t.Errorf("%+v", two)
	}
	want(t, c.get(first), http.StatusOK, "cap is 12 g", "up to 9.2 g")
	want(t, c.get(second), http.StatusOK, "Not drawn yet")
	if w := c.post(second+"/draw", nil); w.Code != http.StatusSeeOther {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}
