// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"
	"testing"
)

// A plan is handed on as files; what can't be planned leads back to the sheet.
func TestHandOn(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	const query = "?recipe=ferry-brown-4&house=garage&stock=garage-shed"
	for path, want := range map[string]string{
		"/plan/recipe.txt": "Ferry Brown 4 on Garage, 20.0 L", "/plan/recipe.md": "# Ferry Brown 4", "/plan/label.txt": "contains barley, oats (gluten)",
	} {
		answer := c.get(path + query)
		if answer.Code != http.StatusOK || !strings.Contains(answer.Body.String(), want) {
			t.Errorf("%s: %d %.200s", path, answer.Code, answer.Body)
		}
		if d := answer.Header().Get("Content-Disposition"); !strings.HasPrefix(d, `attachment; filename="ferry-brown-4.`) {
			t.Errorf("%s is sent as %q", path, d)
		}
	}
	for path, want := range map[string]string{
		"/plan/grist.csv" + query: "malt,lot,goes in,mass kg,", "/plan/hops.csv" + query: "Bramling Cross,BX-A,stand 80 °C 20 min,", "/plan/day.csv" + query: "after min,task,takes min,figures",
		"/gyle/gyle-17/log.csv": `"26,4 @95",26.4,L,25.`, "/gyle/gyle-17/readings.csv": "time,gravity SG,refractometer °Bx,temperature °C", "/tasting/tasting-2-3/answers.csv": "difference,triangle,",
	} {
		answer := c.get(path)
		if answer.Code != http.StatusOK || !strings.Contains(answer.Body.String(), want) || !strings.HasPrefix(answer.Header().Get("Content-Type"), "text/csv") {
			t.Errorf("%s: %d %.300s", path, answer.Code, answer.Body)
		}
	}
	if answer := c.get("/gyle/none/log.csv"); answer.Code != http.StatusNotFound {
		t.Errorf("the log of nothing: %d", answer.Code)
	}
	if answer := c.get("/schema/recipe.json"); answer.Code != http.StatusOK || !strings.Contains(answer.Body.String(), `"const": "recipe/1"`) {
		t.Errorf("the schema of recipes: %d %.200s", answer.Code, answer.Body)
	}
	doc := "gyle: recipe/1\nname: Pasted Beer\nsize: 20 L\naims: {og: 1.030}\ngrist:\n- {malt: pale-ale, share: 100 %}\n"
	if got := fromPublished("recipe", "Pasted Beer\nThe recipe\n"+doc+"Made with gyle. It sends nothing.\n"); got != doc {
		t.Errorf("pasted from a page: %q", got)
	}
	if got := fromPublished("style", "The recipe\n"+doc); !strings.HasPrefix(got, "The recipe") {
		t.Errorf("a recipe was taken for a style: %q", got)
	}
	if answer := c.get("/schema/none.json"); answer.Code != http.StatusNotFound {
		t.Errorf("the schema of nothing: %d", answer.Code)
	}
	if page := c.get("/plan/recipe.txt?recipe=ferry-brown-3&house=garage").Body.String(); !strings.Contains(page, "Difference shown: 11 of 18 right") || !strings.Contains(page, "As it was brewed: Ferry Brown 3 on garage") {
		t.Errorf("the text doesn't tell what came of it: %s", page)
	}
	for _, bad := range []string{"", "?recipe=ferry-brown-4", "?recipe=none&house=garage", query + "&size=500+L", query + "&size=much"} {
		if answer := c.get("/plan/recipe.txt" + bad); answer.Code != http.StatusSeeOther || !strings.HasPrefix(answer.Header().Get("Location"), "/plan") {
			t.Errorf("%q: %d, %s", bad, answer.Code, answer.Header().Get("Location"))
		}
	}
}
