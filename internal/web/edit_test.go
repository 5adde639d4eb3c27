// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

func TestSaveMakesARevision(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	text := strings.Replace(d.Text, "ibu: 29", "ibu: 30", 1)
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {strings.ReplaceAll(text, "\n", "\r\n")}, "author": {"B. Alewright"}, "why": {"firmer"}})
	want(t, w, http.StatusSeeOther)
	d, _ = b.Get(t.Context(), "recipe", "ferry-brown-4")
	if d.Revision != 2 || d.Text != text || d.Author != "B. Alewright" || d.Why != "firmer" {
		t.Errorf("saved %+v", d)
	}
	want(t, c.get("/recipe/ferry-brown-4?done=saved"), 200, "Saved as revision 2", "revision 2")
	want(t, c.get("/recipe/ferry-brown-4/at/2"), 200, "What it changed", "ibu: 29", "ibu: 30")
	want(t, c.get("/recipe/ferry-brown-4/text"), 200, `value="B. Alewright"`)
}

func TestFaultsKeepWhatWasTyped(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	text := "gyle: recipe/1\nname: Odd <b>one</b>\ngrist:\n- {malt: pale-ale, shrae: 90 %}\n"
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {text}, "author": {"B"}, "why": {"a try"}})
	want(t, w, http.StatusUnprocessableEntity, "Odd &lt;b&gt;one&lt;/b&gt;", "line 4, column", "<mark>shrae</mark>", `value="a try"`)
	if d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4"); d.Revision != 1 {
		t.Error("a faulty text was saved")
	}
	want(t, c.post("/check/recipe", url.Values{"text": {text}}), http.StatusOK, "<mark>shrae</mark>")
	want(t, c.post("/check/water", url.Values{"text": {starterText("water")}}), http.StatusOK, "Reads as <em>My water</em>")
}

func TestConflictShowsBothAndMerges(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	theirs := strings.Replace(d.Text, "ibu: 29", "ibu: 31", 1)
	mine := strings.Replace(d.Text, "og: 1.050", "og: 1.051", 1)
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {theirs}}), http.StatusSeeOther)
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {mine}, "why": {"stronger"}})
	want(t, w, http.StatusConflict, "og: 1.051", "ibu: 31", `name="base" value="2"`, `value="stronger"`, "Save this as revision 3")
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"2"}, "text": {mine}}), http.StatusSeeOther)
	if kept, _ := b.GetRevision(t.Context(), "recipe", "ferry-brown-4", 2); kept.Text != theirs {
		t.Error("their revision is gone")
	}
}

func TestConflictBringsBothTogether(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	theirs := strings.Replace(d.Text, "boil: 60 min", "boil: 75 min", 1)
	mine := strings.Replace(d.Text, "ibu: 29", "ibu: 31", 1)
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {theirs}}), http.StatusSeeOther)
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {mine}})
	want(t, w, http.StatusConflict, "Both together", "Yours, as you typed it")
	form := w.Body.String()
	form = form[strings.Index(form, `name="text"`):]
	form = form[:strings.Index(form, "</textarea>")]
	if !strings.Contains(form, "ibu: 31") || !strings.Contains(form, "boil: 75 min") {
		t.Errorf("the form holds\n%s", form)
	}
}

func TestNewDocumentGetsAFreeAddress(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: newTestBook()}))
	for _, path := range []string{"/water/my-water", "/water/my-water-2"} {
		w := c.post("/new/water", url.Values{"base": {"0"}, "text": {starterText("water")}})
		want(t, w, http.StatusSeeOther)
		if got := w.Result().Header.Get("Location"); got != path+"?done=saved" {
			t.Errorf("saved at %s, want %s", got, path)
		}
	}
}

func TestDeleteCanBeTakenBack(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	want(t, c.post("/style/oat-brown-ale/delete", url.Values{"base": {"1"}}), http.StatusConflict, "Ferry Brown 4", "Take it out anyway")
	w := c.post("/style/oat-brown-ale/delete", url.Values{"base": {"1"}, "anyway": {"yes"}})
	want(t, w, http.StatusSeeOther)
	want(t, c.get(w.Result().Header.Get("Location")), http.StatusOK, "Bring it back")
	want(t, c.get("/style/oat-brown-ale"), http.StatusGone, "taken out")
	want(t, c.post("/style/oat-brown-ale/undelete", url.Values{"base": {"2"}}), http.StatusSeeOther)
	want(t, c.get("/style/oat-brown-ale"), http.StatusOK)
}
