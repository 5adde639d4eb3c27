// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

func TestGyleSheet(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/gyle/gyle-17"), http.StatusOK, "Ferry Brown 3", "Challenger in, boil 60 min", "26,4 @95", "25.4", "digits swapped", "took: boil 75 min")
	want(t, c.get("/gyle/gyle-21"), http.StatusOK, "Ferry Brown 4")
}

// A gyle begins from a plan; the full kettle too weak gives the four options of
// the demonstration, and taking one times the day anew (published with the
// scenario: 87, 75 and 60 min, 0.18 kg).
func TestGyleFromPlanToKettle(t *testing.T) {
	book := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: book}))
	w := c.post("/brew", url.Values{"recipe": {"ferry-brown-3"}, "house": {"garage"}, "stock": {"garage-shed"}, "water": {"saltpan-lane"}, "brewday": {"2026-03-07"}})
	path := w.Header().Get("Location")
	if w.Code != http.StatusSeeOther || !strings.HasPrefix(path, "/gyle/ferry-brown-3") {
		t.Fatalf("%d %s\n%s", w.Code, path, w.Body)
	}
	want(t, c.get(path), http.StatusOK, "Weigh out", "Dough in")
	entry := 0
	log := func(values url.Values) {
		t.Helper()
		entry++
		values.Set("id", "t"+string(rune('a'+entry)))
		if w := c.post(path+"/log", values); w.Code != http.StatusSeeOther {
			t.Fatalf("%v: %d\n%s", values, w.Code, w.Body)
		}
	}
	log(url.Values{"task": {"full kettle"}, "v0": {"26,4 @95"}, "v1": {"1.0415 @24"}, "when": {"10:30"}})
	answer := c.get(path)
	want(t, answer, http.StatusOK, "boil 87 min", "boil 75 min", "boil 60 min", "extract", "1.0500", "22.14 L", "29.1 IBU")
	over := between(answer.Body.String(), `name="over" value="`, `"`)
	if w := c.post(path+"/take", url.Values{"id": {"tz"}, "over": {over}, "take": {"boil 75 min"}, "when": {"10:32"}}); w.Code != http.StatusSeeOther {
		t.Fatalf("take: %d\n%s", w.Code, w.Body)
	}
	w = c.get(path)
	want(t, w, http.StatusOK, "took: boil 75 min", "The boil is 75 min, as chosen")
	if strings.Contains(w.Body.String(), "class=\"ticket\"") {
		t.Error("the options stay after one was taken")
	}

	// Sent twice, an entry is logged once; taken back, both stay to be seen.
	before := len(book.events[strings.TrimPrefix(path, "/gyle/")])
	if w := c.post(path+"/log", url.Values{"id": {"tb"}, "task": {"full kettle"}, "v0": {"26,4 @95"}, "v1": {"1.0415 @24"}, "when": {"10:30"}}); w.Code != http.StatusSeeOther {
		t.Errorf("sent again: %d", w.Code)
	}
	if now := len(book.events[strings.TrimPrefix(path, "/gyle/")]); now != before {
		t.Errorf("%d entries became %d by sending one again", before, now)
	}
	if w := c.post(path+"/strike", url.Values{"id": {"ts"}, "of": {"tz"}, "why": {"no"}}); w.Code != http.StatusSeeOther {
		t.Errorf("strike: %d", w.Code)
	}
	want(t, c.get(path), http.StatusOK, "took: boil 75 min", `class="ticket"`)
	if w := c.post(path+"/log", url.Values{"id": {"tw"}, "task": {"full kettle"}, "v0": {"5 gal"}}); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "gallon") {
		t.Errorf("5 gal: %d", w.Code)
	}
}

func between(text, before, after string) string {
	_, text, _ = strings.Cut(text, before)
	text, _, _ = strings.Cut(text, after)
	return text
}

// The sheet of what was brewed: the balance of −0.5 %, the yield and the trap,
// the bitterness, the verdict (published with the scenario).
func TestBrewedSheet(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/gyle/gyle-17/brewed"), http.StatusOK, "2.805 kg", "−0.5 %", "The readings agree", "29 IBU (26.8–31.8)", "DMS light: green",
		"stable-and-proven", "1.0122", "0.19 °P/h", "77.4 %", "a boil of 75 min instead of 60 min")
	want(t, c.get("/gyle/gyle-21/brewed"), http.StatusOK, "31 IBU (23–38)", "DMS light: amber", "cool to 80 °C in 14 min instead of 5.5 min")
	want(t, c.get("/brewhouse/garage/learned"), http.StatusOK, "evaporation", "Ferry Brown 3, gyle 17", "Ledger of misses")
}
