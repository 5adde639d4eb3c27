// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"

	"gyle/plan"
	"gyle/quantity"
	"gyle/science"
)

// The numbers of these tests are those of the example: Ferry Brown on two
// houses of the fictional Saltpan Lane Brewing Circle. The tests of package plan
// hold them against the scenario they were computed for; here they are only
// looked for on the page.

const (
	onGarage    = "recipe=ferry-brown-4&house=garage&stock=garage-shed&water=saltpan-lane"
	onBoathouse = "recipe=ferry-brown-4&house=boathouse&stock=boathouse-shed&water=saltpan-lane"
)

func TestPlanSheet(t *testing.T) {
	page := near(t, newTestServer(t, Options{Book: fullBook(t)})).get("/plan?" + onBoathouse)
	want(t, page, http.StatusOK,
		"Ferry Brown 4", "on Boathouse",
		"29 IBU (22–36)", "aim 1.050", // figures with bands and aims
		"13.53 kg", "PA-B", "last 15 min", // grist by lot
		"113.2 L", "73.2 °C", "gypsum", "lactic acid 88 %", "Pour acid into water", // liquor
		"pH of a cooled sample", "95.8 L cold", "amber", // mash and kettle
		"140 g", "stand 80 °C 20 min", "pump through the cooler", // hops and cooling
		"prime with sucrose", "Bottles can burst", "relief valve", // cellar
		"Not kept", "boil of 60\u00a0min: this kettle is given 75\u00a0min",
		"settle and run off", "a firm and quiet bitterness comes from long boiling", "Take this one",
		`id="ladder`, `id="ph-rail`, `id="mash-axis`, `id="kettle-axis`)
}

// Every figure of the sheet leads to its reason, and every reason answers.
func TestEveryFigureHasAReason(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	body := c.get("/plan?" + onGarage).Body.String()
	if n := strings.Count(body, `<span class="planned-figure">`); n > 0 {
		t.Errorf("%d figures lead nowhere", n)
	}
	if n := strings.Count(body, "data-why>"); n < 40 {
		t.Errorf("%d figures lead to a reason, a brew sheet has more than 40", n)
	}
	for _, topic := range plan.Topics() {
		want(t, c.get("/plan/why/"+url.PathEscape(topic)+"?"+onGarage), http.StatusOK, "What went in", "Holds for", "Ferry Brown 4 on Garage")
	}
	want(t, c.get("/plan/why/nothing?"+onGarage), http.StatusNotFound)
}

// A reason shows each formula with its source as literature, its range, its
// check and how well it is known.
func TestReasonShowsFormulas(t *testing.T) {
	page := near(t, newTestServer(t, Options{Book: fullBook(t)})).get("/plan/why/ibu?" + onGarage)
	want(t, page, http.StatusOK, "29 IBU (26.5–31.5)", "for comparison, Tinseth&#39;s formula")
	reason, _ := plan.Explain("ibu")
	for _, name := range reason.Formulas {
		f, ok := science.Lookup(name)
		if !ok {
			t.Fatalf("%s is no formula", name)
		}
		want(t, page, http.StatusOK, `href="/why/`+name+`"`)
		for _, key := range f.Cited() {
			first, _, _ := strings.Cut(science.Sources[key], ":")
			want(t, page, http.StatusOK, first)
		}
	}
}

func TestEstimatesAreShownAsEstimates(t *testing.T) {
	all := science.All()
	i := slices.IndexFunc(all, func(f science.Formula) bool { return strings.HasPrefix(f.Tag, "estimate") })
	if i < 0 {
		t.Fatal("no formula is an estimate")
	}
	s := newTestServer(t, Options{Book: fullBook(t)})
	reason := plan.Reason{Label: "a number", Formulas: []string{all[i].Name, "hops.IsoRate"}}
	w := httptest.NewRecorder()
	err := s.fragment(w, httptest.NewRequest("GET", "/", nil), "page_plan_why", "main", reasonBody{Reason: reason, Formulas: reasonFormulas(reason)})
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(w.Body.String(), "an estimate</span>"); n != 1 {
		t.Errorf("%d of two formulas are called estimates, %s is one", n, all[i].Name)
	}
}

func TestPlanAsksForWhatIsMissing(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/plan"), http.StatusOK, "Choose a beer and a house", "Ferry Brown 4", "Boathouse")
	want(t, c.get("/plan?recipe=ferry-brown-4"), http.StatusOK, "Choose a beer and a house", "Instead of Challenger")
	empty := near(t, newTestServer(t, Options{Book: newTestBook()}))
	want(t, empty.get("/plan"), http.StatusOK, "This book still lacks both", `href="/new/recipe"`, `href="/new/brewhouse"`)
}

// What can't be read is said beside its field, with status 422 and what was
// typed kept.
func TestPlanFaultsStandBesideTheirField(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	for _, test := range []struct{ name, query, field, text string }{
		{"size without gallon", onGarage + "&size=5+gal", "size", "which gallon? US 18.93 L or imperial 22.73 L?"},
		{"size in words", onGarage + "&size=much", "size", ""},
		{"size of nothing", onGarage + "&size=0+L", "size", "a brew has some litres"},
		{"no such recipe", "recipe=nothing&house=garage", "recipe", "no recipe called “nothing”"},
		{"no such house", "recipe=ferry-brown-4&house=nothing", "house", "no house called “nothing”"},
		{"no such stock", "recipe=ferry-brown-4&house=garage&stock=nothing", "stock", "no store called “nothing”"},
		{"no such way", onGarage + "&cooling=magic", "cooling", "no way of cooling called"},
		{"no such day", onGarage + "&on=tomorrow", "on", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			page := c.get("/plan?" + test.query)
			want(t, page, http.StatusUnprocessableEntity, test.text, `aria-describedby="fault-`+test.field+`"`)
			_, after, _ := strings.Cut(page.Body.String(), `id="fault-`+test.field+`" data-part>`)
			if !strings.HasPrefix(after, `<span class="ink-corrected">`) {
				t.Errorf("no fault stands beside %s", test.field)
			}
			var refused refusedJSON
			answer := c.get("/plan.json?" + test.query)
			want(t, answer, http.StatusUnprocessableEntity)
			if err := json.Unmarshal(answer.Body.Bytes(), &refused); err != nil {
				t.Fatal(err)
			}
			if refused.Faults.Of(test.field) == nil {
				t.Errorf("the JSON names %v, not %s", refused.Faults, test.field)
			}
		})
	}
	want(t, c.get("/plan?"+onGarage+"&size=5+gal"), http.StatusUnprocessableEntity, `value="5 gal"`)
}

// A brew that the vessels can't hold is refused with the largest that fits; the
// link to it makes a plan.
func TestTooLargeLeadsToTheLargest(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	page := c.get("/plan?" + onBoathouse + "&size=400+L")
	want(t, page, http.StatusUnprocessableEntity, "The mash vessel holds 100.0 L", "largest brew of this recipe here")
	_, after, _ := strings.Cut(page.Body.String(), `<a class="fig" href="`)
	path, _, ok := strings.Cut(after, `"`)
	if !ok {
		t.Fatal("no link to the largest brew")
	}
	want(t, c.get(strings.ReplaceAll(path, "&amp;", "&")), http.StatusOK, "on Boathouse")
	want(t, c.get("/plan.json?"+onBoathouse+"&size=400+L"), http.StatusUnprocessableEntity, `"tooLarge"`, `"largest"`)
}

func TestPlanTakesTheChoices(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.get("/plan?"+onBoathouse+"&cooling=settle+and+run+off"), http.StatusOK, "93.1 g")
	want(t, c.get("/plan?"+onBoathouse+"&oil=keep"), http.StatusOK, "161 g") // 125 g × 0.9/0.7 mL/100 g of oil
	want(t, c.get("/plan?"+onBoathouse+"&swap=challenger%3Dnorthdown"), http.StatusOK, "for Challenger", "Northdown")
	want(t, c.get("/plan?"+onGarage+"&size=10+L"), http.StatusOK, "10.0 L")
	want(t, c.get("/plan?recipe=ferry-brown-4&house=garage"), http.StatusOK, "no lot: typical", "No water is chosen")
}

// The sheet prints what the reader's hand likes.
func TestPlanInUSUnits(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	c.cookies = append(c.cookies, hand{US: true}.cookie())
	want(t, c.get("/plan?"+onGarage), http.StatusOK, "US gal", "lb", "°F")
}

// A lot that doesn't suffice is split, and what the shed lacks is said.
func TestShortLotIsSaid(t *testing.T) {
	b := fullBook(t)
	d, err := b.Get(t.Context(), "stock", "garage-shed")
	if err != nil {
		t.Fatal(err)
	}
	_, err = b.Save(t.Context(), Draft{Kind: "stock", Slug: "scant", Text: scantStock(t, d.Text), Author: "A. Quillmark", Why: "test"})
	if err != nil {
		t.Fatal(err)
	}
	page := near(t, newTestServer(t, Options{Book: b})).get("/plan?" + strings.Replace(onGarage, "garage-shed", "scant", 1))
	want(t, page, http.StatusOK, `<span class="ink-corrected">more than the shed holds</span>`)
}

// scantStock is a stock that holds 1 kg of its first lot of malt.
func scantStock(t *testing.T, text string) string {
	t.Helper()
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if before, after, ok := strings.Cut(line, "mass: "); ok && strings.Contains(line, "PA-A") {
			_, rest, _ := strings.Cut(after, ",")
			lines[i] = before + "mass: 1 kg," + rest
			return strings.Join(lines, "\n")
		}
	}
	t.Fatal("the example has no lot PA-A with a mass")
	return ""
}

// The running head is the text of documents in a stylesheet: nothing in it may
// end the string.
func TestRunningHeadIsSafe(t *testing.T) {
	for _, text := range []string{`"; } body { display: none } "`, `\`, "a\nb", "Ferry Brown 4 · Garage", "</style>"} {
		quoted := cssString(text)
		if inner := quoted[1 : len(quoted)-1]; strings.ContainsAny(inner, "\"\n;{}<>()") {
			t.Errorf("%q becomes %s", text, quoted)
		}
	}
	head := near(t, newTestServer(t, Options{Book: fullBook(t)})).get("/plan/head.css?" + onGarage)
	want(t, head, http.StatusOK, `"Ferry Brown 4 \0000B7  Garage"`)
	if got := head.Header().Get("Content-Type"); !strings.HasPrefix(got, "text/css") {
		t.Errorf("the running head is sent as %s", got)
	}
}

// Reading a query and writing it again gives the same query.
func TestPlanQueryIsStable(t *testing.T) {
	for _, text := range []string{onGarage, onBoathouse + "&cooling=settle+and+run+off&size=60+L&swap=a%3Db&swap=c%3Dd&oil=keep&on=2026-11-25&style=x"} {
		values, err := url.ParseQuery(text)
		if err != nil {
			t.Fatal(err)
		}
		once := readPlanQuery(values).values()
		if twice := readPlanQuery(once).values(); once.Encode() != twice.Encode() || once.Encode() != values.Encode() {
			t.Errorf("%s\nbecomes %s\nand then %s", values.Encode(), once.Encode(), twice.Encode())
		}
	}
}

// Charges hang where the plan puts them: a stand's charge ends with its stand.
func TestChargesStartInTheirStep(t *testing.T) {
	s := newTestServer(t, Options{Book: fullBook(t)})
	values, _ := url.ParseQuery(onBoathouse)
	p, err := s.readPlan(t.Context(), readPlanQuery(values))
	if err != nil {
		t.Fatal(err)
	}
	if err := p.make(); err != nil {
		t.Fatal(err)
	}
	// The boil lasts 75 min and the first charge boils for the last 60; the stand
	// begins when the kettle has cooled to 80 °C and lasts 20 min, as written.
	charges := p.plan.Hops.Charges
	if at := chargeStart(p.plan, charges[0]); at != 15 {
		t.Errorf("the first charge goes in at %v", at)
	}
	cooled := p.plan.Hops.Path[0].Time + p.plan.Hops.Path[1].Time
	if at := chargeStart(p.plan, charges[1]); at < cooled-quantity.Seconds(1) || at > cooled+quantity.Seconds(1) {
		t.Errorf("the second charge goes in at %v, the kettle is at 80 °C at %v", at, cooled)
	}
	ladder := ladderHouse(p.plan, "Boathouse")
	for i, c := range ladder.Charges {
		sum := quantity.IBU(0)
		for _, stage := range c.Stages {
			sum += stage.IBU
		}
		if d := sum - charges[i].IBU; d < -0.01 || d > 0.01 {
			t.Errorf("the steps of %s earn %v, the charge gives %v", c.Hop, sum, charges[i].IBU)
		}
	}
}

func BenchmarkPlanSheet(b *testing.B) {
	c := near(b, newTestServer(b, Options{Book: fullBook(b)}))
	for b.Loop() {
		if w := c.get("/plan?" + onBoathouse); w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}

// Without scripts the form of choices is sent as it stands: with the way of
// cooling of the house before.
func TestPlanOnAnotherHouseWithoutScripts(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	w := c.get("/plan?of=garage&recipe=ferry-brown-4&house=boathouse&size=&cooling=coil+in+the+kettle&swap=")
	want(t, w, http.StatusSeeOther)
	if next := w.Header().Get("Location"); next != "/plan?house=boathouse&recipe=ferry-brown-4" {
		t.Errorf("leads to %s", next)
	}
	w = c.get("/plan?of=garage&recipe=ferry-brown-4&house=garage&cooling=coil+in+the+kettle")
	if next := w.Header().Get("Location"); next != "/plan?cooling=coil+in+the+kettle&house=garage&recipe=ferry-brown-4" {
		t.Errorf("leads to %s", next)
	}
}
