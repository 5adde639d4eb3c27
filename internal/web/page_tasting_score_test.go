// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// sheetOf is what the form of a score sheet sends.
func sheetOf(judge, beer string, rows ...[5]string) url.Values {
	form := url.Values{"judge": {judge}, "beer": {beer}, "of": {"50"}}
	for i, row := range rows {
		for j, name := range []string{"attribute", "level", "says", "terms", "words"} {
			form.Set(name+"-"+string(rune('0'+i)), row[j])
		}
	}
	return form
}

// Sheets are typed in by attribute; what judges say against each other stays
// open, and an off-note leads into the log of the beer's gyle.
func TestScoreSheets(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	const path = "/tasting/tasting-profile"
	want(t, c.get(path+"/sheets"), http.StatusOK, "Keep the sheet", `value="roast sharpness"`, `list="terms"`, `<option value="DMS">sulphury</option>`, "judge 1 on B")
	form := sheetOf("judge 3", "B", [5]string{"roast", "4", "too much", "astringent, 0422", "sharp at the end"}, [5]string{"silk", "2", "", "", ""}, [5]string{"", "", "", "", ""})
	form.Set("total", "41")
	if w := c.post(path+"/sheets", form); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	doc := eveningIn(t, b, path)
	last := doc.Sheets[len(doc.Sheets)-1]
	if len(doc.Sheets) != 3 || last.Judge != "judge 3" || *last.Total != 41 || len(last.Points) != 2 || *last.Points[0].Level != 4 || len(last.Points[0].Terms) != 2 || last.Points[0].Terms[1] != "roast-barley" {
		t.Fatalf("%+v", last)
	}
	second := sheetOf("judge 4", "B", [5]string{"roast", "4", "too much", "", "harsh"}, [5]string{"silk", "4", "right", "", ""})
	if w := c.post(path+"/sheets", second); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	page := c.get(path)
	want(t, page, http.StatusOK, "conflict, left open", "far apart", "sharp at the end", "Perhaps dark grain: 180", "mash pH 5.43 afterwards", `href="/gyle/gyle-17#e-g22"`, "2 of 4", "not a diagnosis", "too much", "against the style")
	want(t, c.get("/recipe/ferry-brown-3"), http.StatusOK, "score sheets", "Roast: conflict, left open (judge 1: too much", "judge 3: 4 of 5, too much, astringent, roast-barley, “sharp at the end”")
	want(t, c.get("/gyle/gyle-17/brewed"), http.StatusOK, "Off-notes named at the table", "Perhaps dark grain: 180", "mash pH 5.43 afterwards")
	correction := sheetOf("judge 4", "B", [5]string{"roast", "3", "right", "", ""})
	want(t, c.post(path+"/sheets", correction), http.StatusUnprocessableEntity, "has judged B already", "correct")
	want(t, c.get(path+"/sheets?correct=4"), http.StatusOK, `name="corrects" value="4"`, `value="harsh"`, "stays in the document as it was")
	correction.Set("corrects", "4")
	if w := c.post(path+"/sheets", correction); w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if doc := eveningIn(t, b, path); len(doc.Sheets) != 5 || len(doc.StandingSheets()) != 4 {
		t.Errorf("%d sheets, %d stand", len(doc.Sheets), len(doc.StandingSheets()))
	}
	want(t, c.get(path+"/sheets"), http.StatusOK, "corrected since", "corrects sheet 4")
}

// What can't be read is marked beside its field; nothing is kept and nothing
// typed is lost.
func TestScoreSheetFaults(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	const path = "/tasting/tasting-profile"
	form := sheetOf("judge 3", "", [5]string{"roast", "much", "harsh", "astringint", "burnt <toast>"}, [5]string{"", "3", "", "", ""}, [5]string{"silk", "7", "", "", ""})
	form.Set("age", "young")
	form.Set("total", "41")
	form.Set("of", "")
	before := len(eveningIn(t, b, path).Sheets)
	w := c.post(path+"/sheets", form)
	want(t, w, http.StatusUnprocessableEntity, `id="beer-fault"`, `id="age-fault"`, `id="of-fault"`, `id="level-0-fault"`, `id="terms-0-fault"`, "Write astringent", `id="attribute-1-fault"`, "burnt &lt;toast&gt;", `value="young"`, "astringint")
	form = sheetOf("judge 3", "B", [5]string{"silk", "7", "", "", ""}, [5]string{"roast", "3", "harsh", "", ""})
	want(t, c.post(path+"/sheets", form), http.StatusUnprocessableEntity, `id="level-0-fault"`, "not on the scale")
	want(t, c.post(path+"/sheets", sheetOf("judge 3", "B")), http.StatusUnprocessableEntity, "says nothing yet")
	want(t, c.post(path+"/sheets", sheetOf("judge 3", "Z", [5]string{"silk", "3", "", "", ""})), http.StatusUnprocessableEntity, "none of the beers")
	if after := len(eveningIn(t, b, path).Sheets); after != before {
		t.Errorf("%d sheets, %d before", after, before)
	}
	long := c.post(path+"/sheets", sheetOf(strings.Repeat("j", 500), "B", [5]string{"silk", "3", "", "", ""}))
	if long.Code != http.StatusSeeOther {
		t.Errorf("a long name: %d", long.Code)
	}
}
