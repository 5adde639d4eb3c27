// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"gyle/recipe"
)

const formulateOatBrown = "/formulate?style=oat-brown-ale&house=garage&stock=garage-shed&water=saltpan-lane"

// The form offers what the shed holds; a recipe brings its own style.
func TestFormulateForm(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/formulate"), http.StatusOK, "Formulate a recipe", `name="style"`)
	want(t, c.get(formulateOatBrown), http.StatusOK, `name="use.crystal"`, `name="least.crystal"`, "Find a recipe", "3.00 kg")
	want(t, c.get("/formulate?like=ferry-brown-3"), http.StatusOK, "From Ferry Brown 3 to", "Different beers", `name="swap"`)
	want(t, c.get("/style/oat-brown-ale"), http.StatusOK, "/formulate?style=oat-brown-ale")
	want(t, c.get("/recipe/ferry-brown-3"), http.StatusOK, "/formulate?like=ferry-brown-3")
	if w := c.get("/formulate?style=oat-brown-ale&form=1&water=&use.crystal="); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/formulate?style=oat-brown-ale" {
		t.Errorf("%d to %s, want the address without what is empty", w.Code, w.Header().Get("Location"))
	}
}

// A recipe that fits is shown with its rooms, and the same comes as JSON.
func TestFormulateFinds(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get(formulateOatBrown+"&do=find"), http.StatusOK, "The room it has", "none broken", "Challenger", "Write it into the book")
	w := c.get(strings.Replace(formulateOatBrown, "/formulate?", "/formulate.json?", 1) + "&do=find")
	var got struct {
		Found struct {
			Recipe string
			Rooms  []struct {
				Name             string
				Least, Most, Now float64
			}
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != http.StatusOK || len(got.Found.Rooms) != 8 {
		t.Fatalf("%d, %v: %+v", w.Code, err, got)
	}
	if _, err := recipe.Parse("found.yaml", []byte(got.Found.Recipe)); err != nil {
		t.Error(err)
	}
	for _, room := range got.Found.Rooms {
		if room.Name == "crystal" && (room.Least < 3-1e-6 || room.Most > 8+1e-6) { // the style's rule
			t.Errorf("%+v", room)
		}
	}
}

// What is wrong with the form stands beside its field.
func TestFormulateFaults(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	for query, said := range map[string]string{
		"&do=find&least.crystal=much":                      "this isn&#39;t a share",
		"&do=find&use.crystal=not&least.crystal=5":         "it can&#39;t both be left out",
		"&do=find&size=many":                               "fault-size",
		"&do=find&also=choclate":                           "did you mean chocolate",
		"&do=find&aim=near":                                "near to what?",
		"&do=find&stock=nowhere":                           "fault-stock",
		"&do=swap&like=ferry-brown-3&swap=challenger&for=": "say what may stand in for it",
	} {
		w := c.get("/formulate?style=oat-brown-ale" + query)
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), said) {
			t.Errorf("%s: %d, want 422 with %q", query, w.Code, said)
		}
	}
	want(t, c.get("/formulate?style=oat-brown-ale&do=find&robust=1"), http.StatusUnprocessableEntity, "can only be said on a house")
	want(t, c.get("/formulate.json"), http.StatusUnprocessableEntity, `"field": "style"`)
}

// A conflict quotes the rules with their reasons; each way out leads to a search
// that finds something.
func TestFormulateConflict(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	w := c.get(formulateOatBrown + "&do=find&use.crystal=must&least.crystal=12+%25")
	want(t, w, http.StatusUnprocessableEntity, "above 8 it hides the oats", "the wish for 12 % of crystal", "Any one of these would do")
	ways := regexp.MustCompile(`(?s)<ul class="f-ways">.*?</ul>`).FindString(w.Body.String())
	links := regexp.MustCompile(`href="([^"]+)"`).FindAllStringSubmatch(ways, -1)
	if len(links) != 2 {
		t.Fatalf("%d ways out, want 2: %s", len(links), ways)
	}
	for _, link := range links {
		want(t, c.get(html.UnescapeString(link[1])), http.StatusOK, "The room it has")
	}
	if strings.Contains(links[0][1]+links[1][1], "ease=") == false {
		t.Error("no way out lets a rule give way")
	}
	want(t, c.get(formulateOatBrown+"&do=find&ease=13.0%3D12&least.crystal=12"), http.StatusOK, "3..8 % became 3..12 %", "Put it back")
	want(t, c.get("/formulate.json?style=oat-brown-ale&do=find&least.crystal=12"), http.StatusUnprocessableEntity, `"wish": "least"`)
}

// Different beers and swaps of a recipe can be taken, too.
func TestFormulateOthers(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get(formulateOatBrown+"&like=ferry-brown-3&do=vary"), http.StatusOK, "clearly different beers", "Make it the next version of Ferry Brown 3")
	want(t, c.get("/formulate?like=ferry-brown-3&do=swap&swap=challenger&for=northdown"), http.StatusOK, "Northdown for Challenger, by its bitterness", "Kept")
}

// taken is the recipe that a page offers to be taken.
func taken(t *testing.T, page string) url.Values {
	t.Helper()
	found := regexp.MustCompile(`(?s)name="text" value="([^"]*)"`).FindStringSubmatch(page)
	if found == nil {
		t.Fatal("nothing to be taken")
	}
	return url.Values{"text": {html.UnescapeString(found[1])}}
}

// What was found becomes a recipe of its own.
func TestFormulaBecomesARecipe(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	form := taken(t, c.get(formulateOatBrown+"&do=find").Body.String())
	form.Set("name", "Tidewater")
	w := c.post("/formulate/take", form)
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/recipe/tidewater?done=saved" {
		t.Fatalf("%d %s", w.Code, w.Header().Get("Location"))
	}
	want(t, c.get("/recipe/tidewater"), http.StatusOK, "Tidewater", "No rule is broken")
	want(t, c.post("/formulate/take", url.Values{"text": {"gyle: recipe/1\nnaem: x\n"}}), http.StatusBadRequest)
}

// What was found becomes the next version, and is asked for its reason.
func TestFormulaBecomesTheNextVersion(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	form := taken(t, c.get("/formulate?like=ferry-brown-4&do=swap&swap=challenger&for=northdown").Body.String())
	form.Set("next", "ferry-brown-4")
	form.Set("what", "Northdown for Challenger")
	form.Set("why", "formulated to Oat brown ale")
	w := c.post("/formulate/take", form)
	want(t, w, http.StatusOK, "Ferry Brown 5", `value="Northdown for Challenger"`, `value="formulated to Oat brown ale"`, "/recipe/ferry-brown-4/next")
	next := taken(t, w.Body.String())
	base := regexp.MustCompile(`name="base" value="(\d+)"`).FindStringSubmatch(w.Body.String())
	next.Set("base", base[1])
	next.Set("what", "Northdown for Challenger")
	next.Set("question", openQuestion)
	saved := c.post("/recipe/ferry-brown-4/next", next)
	if saved.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", saved.Code, saved.Body)
	}
	d, err := b.Get(t.Context(), recipe.Kind, "ferry-brown-5")
	if err != nil || !strings.Contains(d.Text, "northdown") || !strings.Contains(d.Text, "parent: 4") {
		t.Errorf("%v\n%s", err, d.Text)
	}
}
