// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// Two gyles of one day stand on one axis, and what both want at once is named: a
// brewer has two hands (common practice).
func TestGylesTogether(t *testing.T) {
	book := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: book}))
	if w := c.post("/settings", url.Values{"author": {"A. Quillmark"}, "units": {"metric"}, "decimal": {"point"}}); w.Code >= 400 {
		t.Fatalf("settings: %d", w.Code)
	}
	var paths []string
	for _, q := range []url.Values{
		{"recipe": {"ferry-brown-3"}, "house": {"garage"}, "stock": {"garage-shed"}, "water": {"saltpan-lane"}},
		{"recipe": {"ferry-brown-4"}, "house": {"boathouse"}, "stock": {"boathouse-shed"}, "water": {"saltpan-lane"}},
	} {
		q.Set("brewday", "2026-05-02")
		w := c.post("/brew", q)
		if w.Code != http.StatusSeeOther {
			t.Fatalf("begin: %d", w.Code)
		}
		paths = append(paths, w.Header().Get("Location"))
	}
	page := c.get(paths[0] + "/together?with=" + strings.TrimPrefix(paths[1], "/gyle/"))
	want(t, page, http.StatusOK, "A: Ferry Brown 3", "B: Ferry Brown 4", "Dough in", "Two at once", "A. Quillmark", "Dough in (A) and Dough in (B)")
	if got := strings.Count(page.Body.String(), "Weigh out</p>") + strings.Count(page.Body.String(), "Weigh out <span"); got != 2 {
		t.Errorf("the axis has %d times Weigh out", got)
	}
	want(t, c.get("/gyle/gyle-17/together"), http.StatusOK, "No other gyle")
	want(t, c.get("/gyle/gyle-17/together?with=none"), http.StatusNotFound)
}
