// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/water"
)

const treatFerry = "/water/saltpan-lane/treat?recipe=ferry-brown-3&house=garage&stock=garage-shed"

// The example's treatment (computed for the scenario): 28.8 L take 4.0 g of
// calcium chloride and 1.0 g of gypsum to Ca 110, Cl 101, SO4 61, and 3.3 mL of
// lactic acid in the mash. The sheet must say what the plan says.
func TestTreatSheet(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/water/saltpan-lane"), http.StatusOK, `href="/water/saltpan-lane/treat"`)
	want(t, c.get("/water/saltpan-lane/treat"), http.StatusOK, "Choose a recipe and a house")
	want(t, c.get(treatFerry), http.StatusOK, "Into the mash liquor", "Into the sparge liquor", "with the grain", "goggles", "What more would cost", "its plan", `name="aim.Ca" value="110"`)
	var got struct {
		Total      measureJSON
		Treatments []struct {
			Salts, Mash, Sparge []struct{ Mass measureJSON }
			MashAcid            struct{ ML measureJSON }
			Rail                struct{ Acid, Late measureJSON }
		}
	}
	w := c.get(strings.Replace(treatFerry, "treat?", "treat.json?", 1))
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%v\n%s", err, w.Body)
	}
	p, err := plan.Make(plan.Input{
		Recipe: examplestest.Load(t, "ferry-brown-3", recipe.Parse), House: examplestest.Load(t, "garage", brewhouse.Parse),
		Stock: examplestest.Load(t, "garage-shed", stock.Parse), Water: examplestest.Load(t, "saltpan-lane", water.Parse),
	})
	if err != nil {
		t.Fatal(err)
	}
	first := got.Treatments[0]
	for i, s := range first.Salts {
		parted := first.Mash[i].Mass.Value + first.Sparge[i].Mass.Value
		if diff := s.Mass.Value - p.Liquor.Salts[i].Mass.Kilograms(); diff > 1e-9 || diff < -1e-9 || parted-s.Mass.Value > 1e-9 {
			t.Errorf("salt %d: %v, the plan %v, parted %v", i, s.Mass, p.Liquor.Salts[i].Mass, parted)
		}
	}
	if diff := first.MashAcid.ML.Value - p.Mash.Acid.ML; diff > 1e-9 || diff < -1e-9 {
		t.Errorf("acid %v, the plan %v", first.MashAcid.ML, p.Mash.Acid.ML)
	}
	if ml := first.MashAcid.ML.Value; ml < 2.8 || ml > 3.8 {
		t.Errorf("%.2f mL of lactic acid, about 3.3 in the scenario", ml)
	}
	if first.Rail.Late.Value >= first.Rail.Acid.Value {
		t.Errorf("late roast doesn't lower the pH: %+v", first.Rail)
	}
}

// Aims that can't be met are told with ways out; taking new aims leads to the
// next version, and its plan treats alike.
func TestTreatTakes(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	ask := treatFerry + "&form=1&aim.Ca=50&aim.Cl=25&aim.SO4=30&ph=5.4&acid=lactic-acid-88&salt=gypsum&salt=calcium-chloride-dihydrate"
	want(t, c.get(ask), http.StatusOK, "What can’t be reached", "Ways out, first those", "reverse-osmosis", "Make these the aims of the next version of Ferry Brown 3")
	want(t, c.get(ask+"&soft=60"), http.StatusOK, "of soft water, and salts", "Blend")
	take := url.Values{"next": {"ferry-brown-3"}, "why": {"water treated"}, "text": {strings.Replace(textOf(t, b, "recipe", "ferry-brown-3"), "water: {Ca: 110 mg/L", "water: {Ca: 90 mg/L, soft: 30 %", 1)}}
	want(t, c.post("/formulate/take", take), http.StatusOK, "soft water")
}

func textOf(t *testing.T, b *testBook, kind, slug string) string {
	t.Helper()
	d, err := b.Get(t.Context(), kind, slug)
	if err != nil {
		t.Fatal(err)
	}
	return d.Text
}

func TestTreatWithoutRecipe(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	ask := func(more string) string {
		return "/water/saltpan-lane/treat?form=1&all=28.8+L&sparge=12.3+L&aim.Ca=110&aim.Cl=100&aim.SO4=60&salt=gypsum&salt=calcium-chloride-dihydrate&acid=lactic-acid-88" + more
	}
	want(t, c.get(ask("")), http.StatusOK, "Say what grain is mashed")
	want(t, c.get(ask("&ph=5.45&grain=4.2+kg+pale-ale%0A180+g+chocolate+late")), http.StatusOK, "The mash pH", "with the grain")
	for query, field := range map[string]string{
		"&grain=4+kg+cement": "grain", "&grain=180+g+chocolate+late": "grain", "&ph=9": "ph", "&soft=120": "soft", "&aim.Mg=much": "aim.Mg", "&recipe=ferry-brown-3": "house",
	} {
		want(t, c.get(ask(query)), http.StatusUnprocessableEntity, `aria-describedby="fault-`+field+`"`)
	}
	want(t, c.get("/water/saltpan-lane/treat?form=1&all=20+L&aim.Ca=110"), http.StatusUnprocessableEntity, "tick at least one")
	want(t, c.get("/water/none/treat"), http.StatusNotFound)
	want(t, c.get("/water/saltpan-lane/treat.json?form=1&all=x&aim.Ca=110&salt=gypsum"), http.StatusUnprocessableEntity, `"field": "all"`)
	printed := near(t, newTestServer(t, Options{Book: printedBook(t)}))
	want(t, printed.get(ask("")), http.StatusUnprocessableEntity, "balance", "labels")
}

// The figures follow the keys.
func TestBrowserTreat(t *testing.T) {
	ctx := browser(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	for _, width := range []int64{360, 1440} {
		look(t, ctx, server.URL+treatFerry, "water-treat", width)
	}
	if err := chromedp.Do(ctx, chromedp.Clear("#aim-Ca"), chromedp.SendKeys("#aim-Ca", "130"), chromedp.WaitVisible(`//td[normalize-space()="130"]`)); err != nil {
		t.Fatal(err)
	}
}
