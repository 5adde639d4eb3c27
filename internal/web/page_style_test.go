// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"gyle/data"
	"gyle/style"
)

func TestStyleSheet(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/style/oat-brown-ale"), http.StatusOK, "Crystal 100–200 EBC", "toffee; above 8 it hides the oats", "Brewed to it", `<option value="ferry-brown-4">`, "<svg")
	want(t, c.get("/style/oat-brown-ale?recipe=ferry-brown-4"), http.StatusOK, "held against them", "none outside")
	want(t, c.get("/style/oat-brown-ale?recipe=nobody"), http.StatusOK, "The rules")
	want(t, c.get("/style/nobody"), http.StatusNotFound)
}

// A recipe outside a rule turns its mark red, quotes the author and is told
// how far it is out and what would mend it.
func TestStyleSheetQuotesBrokenRules(t *testing.T) {
	b := fullBook(t)
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	text := strings.Replace(d.Text, "ibu: 29", "ibu: 43", 1)
	if text == d.Text {
		t.Fatal("the example has another bitterness")
	}
	if _, err := b.Save(t.Context(), Draft{Kind: "recipe", Slug: d.Slug, Text: text, Base: d.Revision}); err != nil {
		t.Fatal(err)
	}
	c := near(t, newTestServer(t, Options{Book: b}))
	// 34 IBU is the upper limit of examples/oat-brown-ale.yaml.
	want(t, c.get("/style/oat-brown-ale?recipe=ferry-brown-4"), http.StatusOK, `class="rule broken" id="rule-4"`, "43 IBU, 9 IBU above", "above 34 it leaves the style", `class="mend"`)
}

func TestStyleJSON(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	w := c.get("/style/oat-brown-ale.json?recipe=ferry-brown-4")
	var got struct {
		Document struct {
			Name  string
			Rules []map[string]any
		}
		Computed struct {
			Recipe   string
			Verdicts []struct {
				Word string
				Why  string
			}
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil {
		t.Fatalf("%v\n%s", err, w.Body)
	}
	if got.Document.Name != "Oat brown ale" || got.Computed.Recipe != "ferry-brown-4" || len(got.Computed.Verdicts) != len(got.Document.Rules) || got.Computed.Verdicts[0].Word != "inside" {
		t.Errorf("got %+v", got)
	}
}

// ruleForm is a rule as a browser sends it.
func ruleValues(n int, subject string, pairs ...string) url.Values {
	form := url.Values{"base": {"1"}, "n": {strconv.Itoa(n)}, "subject": {subject}, "author": {"T. Maltby"}}
	at := rulePath(n - 1)
	form.Set(at+".severity", "advice")
	for i := 0; i < len(pairs); i += 2 {
		form.Set(at+"."+pairs[i], pairs[i+1])
	}
	return form
}

// Each field of each subject tells its fault beside it and keeps what was
// typed; nothing is saved.
func TestRuleFormFaults(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	for _, test := range []struct {
		subject string
		pairs   []string
		field   string
	}{
		{"figure", []string{"figure", "", "in", "1..2"}, "figure"},
		{"figure", []string{"figure", "ibu", "in", "many <b>"}, "in"},
		{"figure", []string{"figure", "ibu", "in", ""}, "figure"},
		{"share", []string{"share", "class cristal", "in", "1..2 %"}, "share"},
		{"share", []string{"share", "group nobody", "in", "1..2 %"}, "share"},
		{"share", []string{"share", "munich", "in", "1..2 kg"}, "in"},
		{"share", []string{"share", "munich", "in", "1..2 %", "of which[0].share", "class nix", "of which[0].in", "1 %"}, "of which[0].share"},
		{"share", []string{"share", "munich", "in", "1..2 %", "of which[0].share", "munich", "of which[0].in", "x"}, "of which[0].in"},
		{"share", []string{"share", "munich", "in", "1..2 %", "when", "perhaps"}, "when"},
		{"share", []string{"share", "munich", "in", "1..2 %", "severity", "harsh"}, "severity"},
		{"largest", []string{"largest", "class x", "in", "1 %"}, "largest"},
		{"count", []string{"count", "role flavour", "in", "few"}, "in"},
		{"late", []string{"late", "", "in", "1 %"}, "late"},
		{"ibu from", []string{"ibu from", "noon", "in", "75 %.."}, "ibu from"},
		{"charges", []string{"charges", "noon"}, "charges"},
		{"dose", []string{"dose", "dry", "in", "5 lb"}, "in"},
		{"yeast", []string{"yeast", "", "in", "1 %"}, "yeast"},
		{"yeast", []string{"yeast", "temperature", "in", "warm"}, "in"},
	} {
		form := ruleValues(28, test.subject, append(test.pairs, "why", "because <i>")...)
		w := c.post("/style/oat-brown-ale/rule", form)
		id := formField{Path: "rules[27]." + test.field}.ID()
		want(t, w, http.StatusUnprocessableEntity, `id="`+id+`-fault"`, `aria-describedby="`+id+`-fault`, "because &lt;i&gt;", `href="#`+id+`"`)
		if t.Failed() {
			t.Fatalf("%s %q", test.subject, test.pairs)
		}
	}
	if d, _ := b.Get(t.Context(), "style", "oat-brown-ale"); d.Revision != 1 {
		t.Errorf("revision %d: a faulty rule was saved", d.Revision)
	}
}

// Every subject makes a rule that the document has afterwards.
func TestRuleFormSaves(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	for i, test := range []struct {
		subject string
		pairs   []string
		line    string
	}{
		{"figure", []string{"figure", "ibu", "in", "24..34"}, "{figure: ibu, in: 24..34 IBU,"},
		{"share", []string{"share", "munich + class crystal", "in", "..15", "of which[1].share", "class crystal", "of which[1].in", "..5"}, "in: ..5 %"},
		{"largest", []string{"largest", "class crystal", "in", "..6"}, "largest: class crystal, in: ..6 %"},
		{"count", []string{"count", "role flavour", "in", "..2", "when", "og below 1.060"}, "count: role flavour, in: ..2,"},
		{"late", []string{"late", "class roasted", "in", "50.."}, "late: class roasted"},
		{"ibu from", []string{"ibu from", "boil 45 min..", "in", "75.."}, "ibu from: boil 45 min.."},
		{"charges", []string{"charges", "boil start"}, "charges: boil start"},
		{"dose", []string{"dose", "dry", "in", "..3"}, "in: ..3 g/L"},
		{"yeast", []string{"yeast", "temperature", "in", "..21 °C"}, "yeast: temperature, in: ..21 °C"},
	} {
		form := ruleValues(28+i, test.subject, test.pairs...)
		form.Set("base", strconv.Itoa(i+1))
		want(t, c.post("/style/oat-brown-ale/rule", form), http.StatusSeeOther)
		d, _ := b.Get(t.Context(), "style", "oat-brown-ale")
		if !strings.Contains(d.Text, test.line) || d.Author != "T. Maltby" {
			t.Errorf("%s: by %q\n%s", test.subject, d.Author, d.Text)
		}
		want(t, c.get("/style/oat-brown-ale/rule?n="+strconv.Itoa(28+i)), http.StatusOK, "The rule in words", `class="sentence"`)
	}
	form := ruleValues(1, "figure", "figure", "og", "in", "1.040..1.050")
	want(t, c.post("/style/oat-brown-ale/rule", form), http.StatusConflict, "1.040..1.050")
}

func TestRuleWords(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	form := ruleValues(28, "share", "share", "oats-flaked", "in", "5..10", "why", "thin")
	form.Set("recipe", "ferry-brown-4")
	// The recipe has 12 % of oats.
	want(t, c.post("/style/oat-brown-ale/rule/words", form), http.StatusOK, "5–10 % of the grist", "because: “thin”", "12 %, 2 points above", "<svg")
	form.Set("rules[27].in", "x")
	want(t, c.post("/style/oat-brown-ale/rule/words", form), http.StatusOK, "ink-corrected")
}

func TestRulesInOrder(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	want(t, c.get("/style/oat-brown-ale/rules"), http.StatusOK, "Original gravity", "take out")
	for i, do := range []string{"down", "up", "remove"} {
		n := strconv.Itoa([]int{1, 2, 1}[i])
		want(t, c.post("/style/oat-brown-ale/rules", url.Values{"base": {strconv.Itoa(i + 1)}, "n": {n}, "do": {do}}), http.StatusSeeOther)
		d, _ := b.Get(t.Context(), "style", "oat-brown-ale")
		first := style.Rule{}
		if st, err := style.Parse("", []byte(d.Text)); err == nil {
			first = st.Rules[0]
		}
		if wanted := []string{"fg", "og", "fg"}[i]; first.Figure != wanted {
			t.Errorf("after %s the first rule is on %s, not %s", do, first.Figure, wanted)
		}
	}
	want(t, c.post("/style/oat-brown-ale/rules", url.Values{"base": {"1"}, "n": {"1"}, "do": {"down"}}), http.StatusUnprocessableEntity, "in the meantime")
	want(t, c.post("/style/oat-brown-ale/rules", url.Values{"base": {"4"}, "n": {"99"}, "do": {"up"}}), http.StatusBadRequest)
}

func TestStyleProse(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	want(t, c.get("/style/oat-brown-ale/edit"), http.StatusOK, `value="silk"`, "A brown ale that is carried by oats")
	form := url.Values{"base": {"1"}, "name": {"Oat brown"}, "prose": {"One.\r\n\r\nTwo <b>."}, "edge": {"7"}, "taste[4].quality": {"silk"}, "taste[4].range": {"high"},
		"groups[0].name": {"dark"}, "groups[0].members": {"chocolate, brown"}}
	want(t, c.post("/style/oat-brown-ale/edit", form), http.StatusSeeOther)
	want(t, c.get("/style/oat-brown-ale"), http.StatusOK, "Oat brown", "<p>Two &lt;b&gt;.</p>", "chocolate, brown", "high")
	for field, bad := range map[string]string{"name": "", "edge": "90", "taste[0].quality": "", "groups[0].name": "", "groups[0].members": ""} {
		form := url.Values{"base": {"2"}, "name": {"Oat brown"}, "prose": {"kept <i>"}, "taste[0].quality": {"q"}, "taste[0].range": {"low"}, "groups[0].name": {"g"}, "groups[0].members": {"munich"}}
		form.Set(field, bad)
		want(t, c.post("/style/oat-brown-ale/edit", form), http.StatusUnprocessableEntity, `id="`+formField{Path: field}.ID()+`-fault"`, "kept &lt;i&gt;")
	}
}

func TestBeginStyle(t *testing.T) {
	b := newTestBook()
	c := near(t, newTestServer(t, Options{Book: b}))
	want(t, c.get("/new/style"), http.StatusOK, "Begin with the printed numbers of", "BJCP")
	want(t, c.get("/new/style?as=text"), http.StatusOK, "<textarea")
	want(t, c.post("/new/style", url.Values{"begin": {"yes"}, "name": {" "}, "by": {"T. <b>"}}), http.StatusUnprocessableEntity, `id="at-name-fault"`, "T. &lt;b&gt;")
	want(t, c.post("/new/style", url.Values{"begin": {"yes"}, "name": {"x"}, "numbers": {"nothing"}}), http.StatusUnprocessableEntity, `id="at-numbers-fault"`)
	want(t, c.post("/new/style", url.Values{"begin": {"yes"}, "name": {"Empty one"}, "by": {"T. Maltby"}}), http.StatusSeeOther)
	want(t, c.get("/style/empty-one"), http.StatusOK, "No rule is written yet")
	form := ruleValues(1, "figure", "figure", "og", "in", "1.040..1.050")
	want(t, c.post("/style/empty-one/rule", form), http.StatusSeeOther)
}

// The printed numbers of every style make a document without a fault.
func TestPrintedNumbersMakeStyles(t *testing.T) {
	for _, id := range data.StyleIDs() {
		n, _ := data.StyleNumbers(id)
		text, err := begunStyle(n.Name, "", id)
		if err != nil {
			t.Errorf("%s: %v", id, err)
			continue
		}
		st, err := style.Parse(id, []byte(text))
		if err != nil || len(st.Rules) != len(printedRules(n)) {
			t.Errorf("%s: %v\n%s", id, err, text)
		}
	}
}

// arrive waits until the browser shows a page. A question that is asked while
// it turns the page has no answer, and is asked again.
func arrive(t *testing.T, ctx context.Context, path string) {
	t.Helper()
	var at string
	for range 200 {
		at, _ = chromedp.Run(ctx, chromedp.Evaluate[string](`document.readyState === "complete" ? location.pathname + location.search : ""`))
		if at == path {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("the browser is at %s, not at %s", at, path)
}

// A style with five rules is written by keyboard alone: Tab, letters, Enter.
func TestBrowserStyleByKeyboard(t *testing.T) {
	ctx := browser(t)
	b := fullBook(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: b}))
	defer server.Close()
	at := func(path string) { t.Helper(); arrive(t, ctx, path) }
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(server.URL+"/new/style")); err != nil {
		t.Fatal(err)
	}
	keys := func(text string) {
		t.Helper()
		if err := chromedp.Do(ctx, chromedp.KeyEvent(text)); err != nil {
			t.Fatal(err)
		}
	}
	// tabTo presses Tab until the element that a selector names has the focus.
	tabTo := func(selector string) {
		t.Helper()
		for range 80 {
			if evaluate[bool](t, ctx, `document.activeElement?.matches('`+selector+`') === true`) {
				return
			}
			keys("\t")
		}
		t.Fatalf("Tab doesn't come to %s", selector)
	}
	tabTo(`[name="name"]`)
	keys("Harbour mild\r")
	at("/style/harbour-mild?done=begun")
	for i, rule := range []struct{ subject, field, what, in string }{
		{"figure", "figure", "original", "1.030..1.038"},
		{"share", "share", "class crystal", "4..10"},
		{"dose", "dose", "stand", "..1"},
		{"ibu from", "ibu from", "boil 45 min..", "80.."},
		{"yeast", "yeast", "temp", "17..21 °C"},
	} {
		if i == 0 {
			tabTo(`a[href$="/rule"]`)
		} else {
			tabTo(`a.first[href$="/rule"]`)
		}
		keys("\r")
		at("/style/harbour-mild/rule")
		tabTo(`a[href*="subject=` + strings.ReplaceAll(rule.subject, " ", "%20") + `"]`)
		keys("\r")
		place := rulePath(i)
		tabTo(`[name="` + place + "." + rule.field + `"]`)
		keys(rule.what)
		tabTo(`[name="` + place + `.in"]`)
		keys(rule.in)
		tabTo(`[name="` + place + `.why"]`)
		keys("so I say\r")
		at("/style/harbour-mild/rules?done=saved")
	}
	d, _ := b.Get(t.Context(), "style", "harbour-mild")
	st, err := style.Parse("", []byte(d.Text))
	if err != nil || len(st.Rules) != 5 || st.Rules[0].Figure != "og" || st.Rules[4].In != "17..21 °C" || st.Rules[1].Why != "so I say" {
		t.Errorf("%v\n%s", err, d.Text)
	}
}

func TestBrowserSheets(t *testing.T) {
	ctx := manyPages(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	for name, path := range map[string]string{
		"style": "/style/oat-brown-ale?recipe=ferry-brown-1", "rules": "/style/oat-brown-ale/rules", "subjects": "/style/oat-brown-ale/rule",
		"rule": "/style/oat-brown-ale/rule?n=13&recipe=ferry-brown-4", "style-edit": "/style/oat-brown-ale/edit", "style-new": "/new/style",
		"house": "/brewhouse/garage", "house-edit": "/brewhouse/boathouse/edit", "stock": "/stock/boathouse-shed",
		"lot": "/stock/garage-shed/lot?list=hops&n=1", "water": "/water/saltpan-lane", "water-edit": "/water/saltpan-lane/edit",
	} {
		for _, width := range widths() {
			look(t, ctx, server.URL+path, name, width)
		}
	}
}

// The rule is said in words while it is typed; a fault comes back beside its
// field without a barrier.
func TestBrowserRuleForm(t *testing.T) {
	ctx := browser(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(server.URL+"/style/oat-brown-ale/rule?subject=dose&recipe=ferry-brown-4")); err != nil {
		t.Fatal(err)
	}
	write := func(name, text string) {
		t.Helper()
		evaluate[chromedp.Void](t, ctx, `document.querySelector('[name="`+name+`"]').select(); undefined`)
		if err := chromedp.Do(ctx, chromedp.KeyEvent(text)); err != nil {
			t.Fatal(err)
		}
	}
	write("rules[27].dose", "stand")
	write("rules[27].in", "2..3")
	// The recipe has 1.4 g/L in its stand.
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.querySelector("#preview .sentence")?.textContent.includes("hops at stand are 2–3 g/L") || document.querySelector("#preview .sentence")?.textContent.includes("Hops at stand are 2–3 g/L")`, chromedp.WithPollingTimeout(10*time.Second))); err != nil {
		t.Fatalf("no sentence: %v: %s", err, evaluate[string](t, ctx, `document.getElementById("preview").textContent`))
	}
	if got := evaluate[string](t, ctx, `document.getElementById("preview").textContent`); !strings.Contains(got, "Ferry Brown 4: outside (advice)") {
		t.Errorf("the recipe isn't held against it: %s", got)
	}
	write("rules[27].in", "a handful\r")
	arrive(t, ctx, "/style/oat-brown-ale/rule")
	if !evaluate[bool](t, ctx, `document.querySelector(".not-saved") !== null && document.querySelector('[name="rules[27].in"]').value === "a handful"`) {
		t.Error("the fault doesn't show, or what was typed is lost")
	}
	for _, barrier := range axe(t, ctx) {
		t.Error(barrier)
	}
	if *shots != "" {
		picture, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
		keep(t, "rule-fault-1440.png", picture, err)
	}
}
