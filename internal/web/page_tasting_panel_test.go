// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// A panel is seated before anything is drawn: seats come and go, names stand only
// where somebody wishes it. Once orders are fixed the page says why seats stay.
func TestTastingPanel(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	w := c.post("/new/tasting/plan", cappedForm(url.Values{"cap": {"20 g"}, "do": {"seat"}, "tasters": {"4"}}))
	path, toPanel := strings.CutSuffix(w.Header().Get("Location"), "/panel")
	if w.Code != http.StatusSeeOther || !toPanel {
		t.Fatalf("%d %s %s", w.Code, w.Header().Get("Location"), w.Body)
	}
	if doc := eveningIn(t, b, path); len(doc.Panel) != 4 || len(doc.Flights[0].Serving) != 0 || doc.Cap == nil {
		t.Fatalf("%+v", doc)
	}
	want(t, c.get(path+"/panel"), http.StatusOK, "Seats may come and go", "take the seat away", "Draw orders and codes", "Nobody has to give a reason")
	form := url.Values{"id-0": {"01"}, "name-0": {"R. Holt"}, "age-0": {"on"}, "id-1": {"02"}, "gone-1": {"on"}, "id-2": {"03"}, "trained-2": {"on"}, "id-3": {"04"}, "add": {"3"}}
	if w := c.post(path+"/panel", form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	doc := eveningIn(t, b, path)
	if len(doc.Panel) != 6 || doc.Panel[0].Name != "R. Holt" || !doc.Panel[0].OfAge || doc.Panel[1].ID != "03" || !doc.Panel[1].Trained || doc.Panel[3].ID == "02" {
		t.Fatalf("%+v", doc.Panel)
	}
	want(t, c.post(path+"/panel", url.Values{"id-0": {"01"}, "name-0": {"kept <typed>"}, "add": {"many"}}), http.StatusUnprocessableEntity, "Say how many seats to add", "kept &lt;typed&gt;", `value="many"`)
	want(t, c.post(path+"/panel", url.Values{"id-0": {"01"}, "gone-0": {"on"}}), http.StatusUnprocessableEntity, "one seat at least")
	want(t, c.post(path+"/panel", url.Values{"id-0": {"01"}, "id-1": {"01"}}), http.StatusUnprocessableEntity, "another")
	if w := c.post(path+"/draw", nil); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	fixed := c.get(path + "/panel")
	want(t, fixed, http.StatusOK, "Orders and codes were fixed on", "would leave a gap")
	if strings.Contains(fixed.Body.String(), "take the seat away") {
		t.Error("a fixed panel offers to take seats away")
	}
	form = url.Values{}
	for i, a := range eveningIn(t, b, path).Panel {
		n := string(rune('0' + i))
		form.Set("id-"+n, a.ID)
	}
	form.Set("name-2", "M. Reed")
	form.Set("out-3", "on")
	if w := c.post(path+"/panel", form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if doc := eveningIn(t, b, path); doc.Panel[2].Name != "M. Reed" || doc.Panel[3].Out != "withdrew" || doc.Panel[0].Name != "" {
		t.Errorf("%+v", doc.Panel)
	}
	form.Set("add", "1")
	want(t, c.post(path+"/panel", form), http.StatusUnprocessableEntity, "is new", "Mark a taster as withdrawn")
	form.Del("add")
	form.Set("gone-0", "on")
	want(t, c.post(path+"/panel", form), http.StatusUnprocessableEntity, "seat 01 is gone")
}
