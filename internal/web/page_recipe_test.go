// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"fmt"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"gyle/recipe"
)

func recipeClient(t testing.TB) (*client, *testBook) {
	book := fullBook(t)
	return near(t, newTestServer(t, Options{Book: book})), book
}

// figuredOnGarage chooses the house of the example for the whole book.
func figuredOnGarage(t *testing.T, c *client) {
	t.Helper()
	want(t, c.post("/recipe/ferry-brown-4/on", url.Values{"house": {"garage"}, "stock": {"garage-shed"}, "water": {"saltpan-lane"}}), http.StatusSeeOther)
}

var formValue = regexp.MustCompile(`<(?:input|textarea|select)[^>]* name="([^"]+)"[^>]*?(?: value="([^"]*)")?[^>]*>(?:\n?([^<]*)</textarea>)?`)
var chosenOption = regexp.MustCompile(`<select[^>]* name="([^"]+)"[^>]*>(?:<option[^>]*>[^<]*</option>)*?<option value="([^"]*)" selected>`)

// formOf reads the fields of the recipe form on a page, as a browser would
// send them.
func formOf(page string) url.Values {
	from := strings.Index(page, `id="recipe-form"`)
	page = page[from : from+strings.Index(page[from:], "<datalist")]
	form := url.Values{}
	for _, m := range formValue.FindAllStringSubmatch(page, -1) {
		form.Set(html.UnescapeString(m[1]), html.UnescapeString(m[2]+m[3]))
	}
	for _, m := range chosenOption.FindAllStringSubmatch(page, -1) {
		form.Set(html.UnescapeString(m[1]), html.UnescapeString(m[2]))
	}
	return form
}

func TestRecipeSheet(t *testing.T) {
	c, _ := recipeClient(t)
	// Aims of the example; alcohol from 1.050 and 1.0127 is a regression value.
	want(t, c.get("/recipe/ferry-brown-4"), http.StatusOK,
		"Ferry Brown", "The beer it aims at", "1.050", "29 IBU", "35 EBC", "hop too cooked and currant wanted", "65.3 %", "enzymes and the biscuit base",
		"into the mash for its last 15 min", "stood at 80.0 °C for 20 min", "Bramling Cross", "No rule is broken", "are kept with room to spare", `href="/recipe/ferry-brown-3"`, "as is typical of it")
	figuredOnGarage(t, c)
	want(t, c.get("/recipe/ferry-brown-4"), http.StatusOK, "as Garage would make it", "PA-A", "Inside on all five numbers", `<option value="garage" selected>`)
	want(t, c.get("/recipe/ferry-brown-1"), http.StatusOK, "as Garage would make it")
}

// A house that can't hold the beer says so, and the figures are those meant.
func TestRecipeThatNoHouseHolds(t *testing.T) {
	c, book := recipeClient(t)
	figuredOnGarage(t, c)
	d, _ := book.Get(t.Context(), "recipe", "ferry-brown-4")
	d.Text = strings.Replace(d.Text, "og: 1.050", "og: 1.150", 1)
	if _, err := book.Save(t.Context(), Draft{Kind: d.Kind, Slug: d.Slug, Text: d.Text, Base: 1}); err != nil {
		t.Fatal(err)
	}
	want(t, c.get("/recipe/ferry-brown-4"), http.StatusOK, "Garage can’t brew it", "The beer it aims at")
}

// What a recipe leaves out isn't made up.
func TestRecipeWithGaps(t *testing.T) {
	c, book := recipeClient(t)
	text := "gyle: recipe/1\nname: Bare\naims: {og: 1.040}\ngrist:\n- {malt: pale-ale, share: 100 %}\n"
	if _, err := book.Save(t.Context(), Draft{Kind: "recipe", Slug: "bare", Text: text}); err != nil {
		t.Fatal(err)
	}
	want(t, c.get("/recipe/bare"), http.StatusOK, "Bare", "names no style", "neither a final gravity nor how far its yeast goes", "aim at a colour")
	want(t, c.get("/recipe/bare/edit"), http.StatusOK, `value="1.040"`)
}

func TestRecipeJSON(t *testing.T) {
	c, _ := recipeClient(t)
	w := c.get("/recipe/ferry-brown-4.json")
	want(t, w, http.StatusOK)
	var got struct {
		Document string
		Recipe   struct {
			Aims map[string]struct {
				Value float64
				Unit  string
			}
			Grist []struct {
				Malt, In string
				Share    struct {
					Value float64
					Unit  string
				}
			}
			Hops []struct{ At string }
		}
		Figures []struct {
			Figure string
			Value  float64
			Unit   string
		}
		Judgement struct {
			Verdicts []struct{ Word string }
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	chocolate := got.Recipe.Grist[5]
	if got.Document != "ferry-brown-4" || got.Recipe.Aims["og"].Value != 1.050 || got.Recipe.Aims["color"].Unit != "EBC" ||
		fmt.Sprintf("%.4g %s", chocolate.Share.Value, chocolate.Share.Unit) != "3.7 %" || chocolate.In != "last 15 min" || got.Recipe.Hops[1].At != "stand 80 °C 20 min" {
		t.Errorf("the recipe came out as %+v", got.Recipe)
	}
	if len(got.Figures) < 8 || len(got.Judgement.Verdicts) < 27 {
		t.Errorf("%d figures and %d verdicts", len(got.Figures), len(got.Judgement.Verdicts))
	}
	want(t, c.get("/recipe/nothing.json"), http.StatusNotFound)
	figuredOnGarage(t, c)
	want(t, c.get("/recipe/ferry-brown-4.json"), http.StatusOK, `"house": "garage"`, `"sd"`, `"allFive"`)
}

// The form holds the whole document: saving it unchanged changes no value.
func TestRecipeFormKeepsEverything(t *testing.T) {
	c, book := recipeClient(t)
	for _, slug := range []string{"ferry-brown-1", "ferry-brown-3", "ferry-brown-4"} {
		form := formOf(c.get("/recipe/" + slug + "/edit").Body.String())
		form.Set("do", "save")
		want(t, c.post("/recipe/"+slug+"/edit", form), http.StatusSeeOther)
		before, _ := book.GetRevision(t.Context(), "recipe", slug, 1)
		after, _ := book.Get(t.Context(), "recipe", slug)
		if after.Revision != 2 || canonical(t, before.Text) != canonical(t, after.Text) {
			t.Errorf("%s is now revision %d:\n%s", slug, after.Revision, after.Text)
		}
	}
}

func canonical(t *testing.T, text string) string {
	t.Helper()
	r, err := recipe.Parse("recipe.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	again, err := r.Text()
	if err != nil {
		t.Fatal(err)
	}
	return string(again)
}

// Every field that is read as a measure refuses nonsense beside itself and
// keeps it.
func TestRecipeFaultBesideEachField(t *testing.T) {
	c, book := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	measures := []string{
		"size", "aims.og", "aims.fg", "aims.ibu", "aims.color", "aims.co2", "mash.ratio", "mash.ph", "mash.sparge", "boil",
		"water.Ca", "water.Mg", "water.Na", "water.Cl", "water.SO4", "water.HCO3", "yeast.attenuation", "yeast.temperature", "yeast.pitch", "package.in",
		"mash.rests[0]", "grist[1].share", "grist[1].color", "grist[1].in", "grist[1].role", "hops[1].bitterness", "hops[1].oil", "hops[1].at",
	}
	for _, path := range measures {
		bad := url.Values{}
		for key, values := range form {
			bad[key] = values
		}
		bad.Set(path, `nonsense <b>`)
		bad.Set("do", "save")
		w := c.post("/recipe/ferry-brown-4/edit", bad)
		id := fieldID(path)
		want(t, w, http.StatusUnprocessableEntity, `id="`+id+`-fault"`, `aria-describedby="`+id+`-fault"`, `value="Ferry Brown"`, `value="65.3 %"`)
		choice := path == "mash.sparge" || path == "grist[1].role" || path == "package.in"
		if !choice && !strings.Contains(w.Body.String(), `name="`+html.EscapeString(path)+`" value="nonsense &lt;b&gt;"`) {
			t.Errorf("%s: what was typed is gone", path)
		}
	}
	for _, path := range []string{"name", "grist[1].malt", "hops[1].hop", "hops[1].at", "yeast.kind"} {
		empty := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
		empty.Set(path, "")
		empty.Set("do", "save")
		want(t, c.post("/recipe/ferry-brown-4/edit", empty), http.StatusUnprocessableEntity, `id="`+fieldID(path)+`-fault"`)
	}
	if d, _ := book.Get(t.Context(), "recipe", "ferry-brown-4"); d.Revision != 1 {
		t.Error("something was saved")
	}
}

func TestRecipeRows(t *testing.T) {
	c, _ := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	for button, sees := range map[string]string{
		"add:grist": `name="grist[6].malt" value=""`, "add:hops": `name="hops[2].hop" value=""`, "add:mash.rests": `name="mash.rests[1]" value=""`,
		"drop:grist[0]": `name="grist[0].malt" value="oats-flaked"`, "drop:hops[0]": `name="hops[0].hop" value="bramling-cross"`,
		"drop:grist[99]": `name="grist[5].malt" value="chocolate"`, "drop:nothing": `value="chocolate"`,
	} {
		form.Set("do", button)
		want(t, c.post("/recipe/ferry-brown-4/edit", form), http.StatusOK, sees, "data-changed")
	}
	// An empty row is no part of the document, and a fault after it finds its row.
	form.Set("grist[0].malt", "")
	form.Set("grist[0].share", "")
	form.Set("grist[0].why", "")
	form.Set("grist[0].role", "")
	form.Set("grist[1].share", "much")
	form.Set("do", "save")
	want(t, c.post("/recipe/ferry-brown-4/edit", form), http.StatusUnprocessableEntity, `id="f-grist-1-share-fault"`)
}

func TestRecipeSharesAddUp(t *testing.T) {
	c, _ := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	form.Set("grist[1].share", "10,5")
	w := c.post("/recipe/ferry-brown-4/look", form)
	want(t, w, http.StatusOK, "98.5 %", "1.5 % left", "Settle it with pale-ale", `value="rest:grist[0]"`, "Bitterness and gravity", "Against the saved version", "oats-flaked")
	form.Set("do", "rest:grist[0]")
	w = c.post("/recipe/ferry-brown-4/edit", form)
	want(t, w, http.StatusOK, `name="grist[0].share" value="66.8 %"`, "add up to <span class=\"fig\">100 %</span>")
	// Oats above the author's range: the sentence is quoted.
	form.Set("grist[0].share", "59.3 %")
	form.Set("grist[1].share", "18 %")
	want(t, c.post("/recipe/ferry-brown-4/look", form), http.StatusOK, "above 16 the bed slows", "2 points above")
}

// Trying never saves; it shows the saved figure beside the new one.
func TestRecipeTry(t *testing.T) {
	c, book := recipeClient(t)
	page := c.get("/recipe/ferry-brown-4/try")
	want(t, page, http.StatusOK, "Not saved.")
	form := formOf(page.Body.String())
	form.Set("aims.ibu", "43")
	want(t, c.post("/recipe/ferry-brown-4/look", form), http.StatusOK, "43 IBU", "was 29 IBU", "above 34 it leaves the style")
	form.Set("do", "save")
	want(t, c.post("/recipe/ferry-brown-4/try", form), http.StatusOK, "Not saved.", `value="43"`)
	if d, _ := book.Get(t.Context(), "recipe", "ferry-brown-4"); d.Revision != 1 {
		t.Error("trying saved it")
	}
}

func TestRecipeNextVersion(t *testing.T) {
	c, book := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	form.Set("mash.rests[0]", "65 °C for 75 min")
	form.Set("yeast.temperature", "17..19 °C")
	form.Set("do", "version")
	w := c.post("/recipe/ferry-brown-4/edit", form)
	want(t, w, http.StatusOK, "2 things changed", "Which is the question?", "Write version 5", "65 °C for 75 min")
	text := html.UnescapeString(regexp.MustCompile(`name="text" value="([^"]*)"`).FindStringSubmatch(w.Body.String())[1])
	next := url.Values{"text": {text}, "base": {"1"}, "why": {"too full"}, "expect": {"drier"}, "author": {"A. Quillmark"}}
	want(t, c.post("/recipe/ferry-brown-4/next", next), http.StatusUnprocessableEntity, `id="what-fault"`, `id="question-fault"`, `value="too full"`)
	next.Set("what", "a cooler mash")
	next.Set("question", "open")
	w = c.post("/recipe/ferry-brown-4/next", next)
	want(t, w, http.StatusSeeOther)
	if got := w.Header().Get("Location"); got != "/recipe/ferry-brown-5?done=saved" {
		t.Errorf("it went to %s", got)
	}
	d, _ := book.Get(t.Context(), "recipe", "ferry-brown-5")
	r, err := recipe.Parse("recipe.yaml", []byte(d.Text))
	if err != nil || r.Version != 5 || r.Parent != 4 || *r.Change != (recipe.Change{What: "a cooler mash", Why: "too full", Expect: "drier"}) {
		t.Errorf("it was saved as %s (%v)", d.Text, err)
	}
	want(t, c.get("/recipe/ferry-brown-5"), http.StatusOK, "a cooler mash", "too full")
	next.Set("do", "back")
	want(t, c.post("/recipe/ferry-brown-4/edit", next), http.StatusOK, `value="65 °C for 75 min"`)
}

// A change of one thing is proposed as what is different.
func TestRecipeNextVersionOfOneChange(t *testing.T) {
	c, _ := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	form.Set("boil", "75")
	form.Set("do", "version")
	w := c.post("/recipe/ferry-brown-4/edit", form)
	want(t, w, http.StatusOK, `value="time from 60 min to 75 min"`)
	if strings.Contains(w.Body.String(), "Which is the question") {
		t.Error("one change needs no question")
	}
}

func TestRecipeConflict(t *testing.T) {
	c, book := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	d, _ := book.Get(t.Context(), "recipe", "ferry-brown-4")
	if _, err := book.Save(t.Context(), Draft{Kind: d.Kind, Slug: d.Slug, Text: d.Text + "note: theirs\n", Author: "B. Wrasse", Base: 1}); err != nil {
		t.Fatal(err)
	}
	form.Set("note", "mine")
	form.Set("do", "save")
	want(t, c.post("/recipe/ferry-brown-4/edit", form), http.StatusConflict, "B. Wrasse", "note: mine", "note: theirs")
}

func TestRecipeComments(t *testing.T) {
	c, book := recipeClient(t)
	d, _ := book.Get(t.Context(), "recipe", "ferry-brown-4")
	if _, err := book.Save(t.Context(), Draft{Kind: d.Kind, Slug: d.Slug, Text: d.Text + "# ask Wrasse\n", Base: 1}); err != nil {
		t.Fatal(err)
	}
	want(t, c.get("/recipe/ferry-brown-4/edit"), http.StatusOK, "has comments (#)", `href="/recipe/ferry-brown-4/text"`)
}

func TestRecipeNew(t *testing.T) {
	c, book := recipeClient(t)
	page := c.get("/new/recipe")
	want(t, page, http.StatusOK, "A new beer", "Shares of the weight", `placeholder="1.050"`)
	want(t, c.get("/new/recipe?as=text"), http.StatusOK, "<textarea")
	form := formOf(page.Body.String())
	form.Set("do", "save")
	want(t, c.post("/new/recipe/fields", form), http.StatusUnprocessableEntity, `id="f-name-fault"`)
	form.Set("name", "Harbour Stout")
	form.Set("aims.og", "12,4 °P")
	form.Set("aims.ibu", "35")
	form.Set("grist[0].malt", "pale-ale")
	form.Set("grist[0].share", "90")
	form.Set("grist[2].malt", "chocolate")
	form.Set("grist[2].share", "10")
	form.Set("hops[1].hop", "challenger")
	form.Set("hops[1].bitterness", "35")
	form.Set("hops[1].at", "boil 60 min")
	want(t, c.post("/new/recipe/look", form), http.StatusOK, "100 %", "35 IBU")
	w := c.post("/new/recipe/fields", form)
	want(t, w, http.StatusSeeOther)
	d, err := book.Get(t.Context(), "recipe", "harbour-stout")
	if err != nil || !strings.Contains(d.Text, "og: 12.4 °P") || !strings.Contains(d.Text, "share: 10 %") {
		t.Errorf("it was saved as %q (%v)", d.Text, err)
	}
}

// Kilos are taken to mean shares on the house, and the echo says so.
func TestRecipeInKilos(t *testing.T) {
	c, _ := recipeClient(t)
	form := formOf(c.get("/new/recipe").Body.String())
	for path, text := range map[string]string{
		"name": "By weight", "size": "20 L", "grist[0].malt": "pale-ale", "grist[0].share": "4.5 kg", "grist[1].malt": "crystal", "grist[1].share": "500 g",
		"hops[0].hop": "challenger", "hops[0].bitterness": "30 g", "hops[0].at": "boil 60 min",
	} {
		form.Set(path, text)
	}
	want(t, c.post("/new/recipe/look", form), http.StatusOK, "Weights mean a beer only on a house")
	form.Set("on.house", "garage")
	want(t, c.post("/new/recipe/look", form), http.StatusOK, "typed in masses for 20 L on Garage", "pale-ale 90.0 %", "Write that instead")
	form.Set("do", "intent")
	want(t, c.post("/new/recipe/fields", form), http.StatusOK, `name="grist[0].share" value="90 %"`, "IBU")
}

// Odd requests are refused, not fatal.
func TestRecipeOddRequests(t *testing.T) {
	c, _ := recipeClient(t)
	want(t, c.get("/recipe/nothing/edit"), http.StatusNotFound)
	want(t, c.get("/recipe/nothing/try"), http.StatusNotFound)
	want(t, c.post("/recipe/nothing/on", url.Values{"house": {"no-such-house"}}), http.StatusNotFound)
	want(t, c.post("/recipe/ferry-brown-4/edit", url.Values{"do": {"save"}}), http.StatusBadRequest)
	want(t, c.post("/recipe/ferry-brown-4/next", url.Values{"base": {"1"}, "text": {"what"}}), http.StatusBadRequest)
	want(t, c.post("/recipe/ferry-brown-4/look", url.Values{"base": {"1"}}), http.StatusOK)
}

// Nothing that is typed becomes a part of the page.
func TestRecipeEscapes(t *testing.T) {
	c, _ := recipeClient(t)
	form := formOf(c.get("/recipe/ferry-brown-4/edit").Body.String())
	for _, path := range []string{"name", "by", "style", "note", "change.what", "grist[0].malt", "grist[0].why", "hops[0].hop", "hops[0].why", "yeast.kind", "water.salts", "water.acid", "package.sugar"} {
		form.Set(path, `<script>"'alert</script>`)
	}
	form.Set("do", "save")
	w := c.post("/recipe/ferry-brown-4/edit", form)
	want(t, w, http.StatusSeeOther)
	for _, page := range []string{"/recipe/ferry-brown-4", "/recipe/ferry-brown-4/edit", "/recipe/ferry-brown-4/try"} {
		w := c.get(page)
		want(t, w, http.StatusOK, "&lt;script&gt;")
		if strings.Contains(w.Body.String(), "<script>\"") {
			t.Errorf("%s carries what was typed as it is", page)
		}
	}
}

// A form that speaks of nothing fills no field and keeps no row.
func TestReadRecipeFormOfNothing(t *testing.T) {
	w, _ := readRecipeForm(url.Values{"grist[3].malt": {"  "}}).compact()
	if len(w.Grist) != 0 || w.Water != nil || w.Yeast != nil || w.Change != nil || w.Package != nil {
		t.Errorf("it is read as %+v", w)
	}
}
