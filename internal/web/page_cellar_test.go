// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"
)

// fermenting begins a gyle from the example's plan and pitches it; log adds what
// is said at an hour after that.
func fermenting(t *testing.T, book *testBook) (c *client, path string, log func(hour float64, said string)) {
	t.Helper()
	c = near(t, newTestServer(t, Options{Book: book}))
	w := c.post("/brew", url.Values{"recipe": {"ferry-brown-3"}, "house": {"garage"}, "stock": {"garage-shed"}, "water": {"saltpan-lane"}, "brewday": {"2026-11-01"}})
	path = w.Header().Get("Location")
	if w.Code != http.StatusSeeOther {
		t.Fatalf("begin: %d\n%s", w.Code, w.Body)
	}
	began := time.Date(2026, 11, 1, 12, 0, 0, 0, time.UTC)
	n := 0
	log = func(hour float64, said string) {
		t.Helper()
		n++
		when := began.Add(time.Duration(hour * float64(time.Hour))).Format(time.RFC3339)
		if w := c.post(path+"/log", url.Values{"id": {fmt.Sprintf("c%d", n)}, "said": {said}, "when": {when}}); w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d\n%s", said, w.Code, w.Body)
		}
	}
	want(t, c.get(path+"/cellar"), http.StatusOK, "Nothing is pitched yet", "From a logger")
	log(0, "pitch english-ale 18 g")
	return c, path, log
}

// The published scenario: stuck at 1.0200, forced test 1.0122, 2.2 volumes asked
// for, 6.0 at worst: refused, and the advice in order. In writing it can be
// done, and the reason stays with the cautions.
func TestCellarRefusesAndIsOverridden(t *testing.T) {
	c, path, log := fermenting(t, fullBook(t))
	log(100, "1.0122 at forced test")
	log(100, "1.0200 at fermenter")
	log(136, "1.0200 at fermenter")
	log(173, "1.0200 at fermenter")
	page := c.get(path + "/cellar")
	want(t, page, http.StatusOK, "stuck?", "refused", "6.0 vol", "7.8 points to 1.0122", "Warm it to the upper limit", "Rouse the yeast")
	fill := url.Values{"id": {"fill"}, "do": {"fill"}, "into": {"crown bottles"}, "co2": {"2.2 vol"}, "volume": {"19.3 L"}, "store": {"20 °C"}, "count": {"38"}, "when": {"2026-11-09 10:00"}}
	again := c.post(path+"/cellar", fill)
	want(t, again, http.StatusUnprocessableEntity, "Refused", "write your reason here", "19.3 L", `value="38"`)
	want(t, c.get(path), http.StatusOK, "pitch english ale")
	if strings.Contains(c.get(path+"/cellar").Body.String(), "package 19") {
		t.Fatal("a refused filling is half logged")
	}
	fill.Set("because", "champagne bottles, wired, kept at 8 °C")
	if w := c.post(path+"/cellar", fill); w.Code != http.StatusSeeOther {
		t.Fatalf("in writing: %d\n%s", w.Code, w.Body)
	}
	want(t, c.get(path+"/cellar"), http.StatusOK, "Done in spite of a refusal", "because: champagne bottles, wired, kept at 8 °C", "They can burst and throw splinters", "package 19.3")
	want(t, c.get(path), http.StatusOK, "filling all the same", "champagne bottles", "They can burst and throw splinters")
	if w := c.post(path+"/cellar", fill); w.Code != http.StatusSeeOther || strings.Count(c.get(path+"/cellar").Body.String(), "package 19.3") != 1 {
		t.Error("sent twice, it is logged twice")
	}
	// Nonsense is told beside its field, and what was typed stays.
	want(t, c.get(path+"/cellar?co2=much&store=12+%C2%B0C"), http.StatusUnprocessableEntity, `id="f-co2-fault"`, `value="much"`, `value="12 °C"`)
}

// 19.3 L for 2.2 volumes with the beer at 20 °C want 101 g of sucrose, at 12 °C
// 85 g; a keg at 5 °C stands at 0.65 bar; 2.4 volumes at 20 °C want 1.88 bar,
// refused on a vessel of 1 bar (published with the scenario and the needs).
func TestCellarAdvises(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	const page = "/gyle/gyle-17/cellar"
	want(t, c.get(page+"?held=20+%C2%B0C"), http.StatusOK, "stable-and-proven", "you may", "101 g of", "6.6 °Bx", "not for ending a fermentation")
	want(t, c.get(page+"?held=12+%C2%B0C"), http.StatusOK, "priming</dt><dd class=\"fig\">84.")
	want(t, c.get(page+"?into=keg&rating=3+bar"), http.StatusOK, "0.65 bar at 5")
	want(t, c.get(page+"?hold-co2=2.4+vol&hold-at=20+%C2%B0C&relief=1+bar"), http.StatusOK, "1.88 bar", "never block or raise a relief valve", "It holds at most 1.7 vol")
	set := url.Values{"id": {"set"}, "do": {"set"}, "set": {"1.88 bar"}, "relief": {"1 bar"}}
	want(t, c.post(page, set), http.StatusUnprocessableEntity, "write your reason here")
	set.Set("set", "0.8 bar")
	if w := c.post(page, set); w.Code != http.StatusSeeOther {
		t.Errorf("0.8 bar on a vessel of 1 bar: %d", w.Code)
	}
}

// Dry hops that lay warm for days are allowed for, until a forced test of the
// hopped beer proves the end.
func TestCellarAllowsForHopCreep(t *testing.T) {
	c, path, log := fermenting(t, fullBook(t))
	log(90, "1.0126 at forced test")
	for _, h := range []float64{100, 136, 173, 200, 240, 272} {
		log(h, "1.0126 at fermenter")
	}
	log(180, "dry hops bramling-cross 40 g")
	log(181, "18 C of temperature at fermenter")
	want(t, c.get(path+"/cellar"), http.StatusOK, "stable-and-proven", "refused", "points for hop creep", "forced test of the hopped beer")
	log(273, "1.0126 at forced test marked hopped")
	want(t, c.get(path+"/cellar"), http.StatusOK, "stable-and-proven", "you may", "nothing for hop creep")
}

// The table of a logger is asked about, faulty lines are told with their places,
// nothing is half-saved, and pasted again it adds only what is new.
func TestCellarReadsALogger(t *testing.T) {
	book := fullBook(t)
	c, path, _ := fermenting(t, book)
	var table strings.Builder
	table.WriteString("time;gravity;temp;battery\n")
	for i := range 2400 {
		when := time.Date(2026, 11, 1, 12, 0, 0, 0, time.UTC).Add(time.Duration(i) * 10 * time.Minute)
		sg := 1.0486 - 0.036*min(1, float64(i)/600)
		fmt.Fprintf(&table, "%s;%s;%s;3,9\n", when.Format("2.1.2006 15:04"), strings.Replace(fmt.Sprintf("%.4f", sg), ".", ",", 1), "19,5")
	}
	paste := url.Values{"id": {"p1"}, "table": {table.String()}, "with": {"floating hydrometer"}}
	w := c.post(path+"/table", paste)
	want(t, w, http.StatusUnprocessableEntity, "Say what each column is", "temp, such as 19,5", "leave it out", `<select id="col-c2"`, "1.11.2026 12:10;1,0485")
	before := len(book.events[strings.TrimPrefix(path, "/gyle/")])
	for i, means := range []string{"time", "gravity SG", "temperature °C", "-"} {
		paste.Set(fmt.Sprintf("c%d", i), means)
	}
	faulty := url.Values{}
	for k, v := range paste {
		faulty[k] = v
	}
	faulty.Set("table", strings.Replace(table.String(), "1.11.2026 12:10;1,0485", "1.11.2026 12:10;1,x", 1))
	want(t, c.post(path+"/table", faulty), http.StatusUnprocessableEntity, "line 3, column 17", "“1,x” is no gravity SG", "Nothing was logged", "leave out the lines")
	if now := len(book.events[strings.TrimPrefix(path, "/gyle/")]); now != before {
		t.Fatalf("a faulty table is half saved: %d entries became %d", before, now)
	}
	if w := c.post(path+"/table", paste); w.Code != http.StatusSeeOther {
		t.Fatalf("paste: %d\n%s", w.Code, w.Body)
	}
	page := c.get(path + "/cellar")
	want(t, page, http.StatusOK, "1000 readings", "gravity 1,0486 →", "floating hydrometer", "stable", "Judged by 2400 readings of the logger")
	want(t, c.get(path), http.StatusOK, "1000 readings")
	paste.Set("id", "p2")
	want(t, c.post(path+"/table", paste), http.StatusOK, "The log has all 2400 lines of this table already")
	id := between(page.Body.String(), path+"/series/", `"`)
	want(t, c.get(path+"/series/"+id), http.StatusOK, "time;gravity SG;temperature °C\n", ";1,0486;19,5")
	if w := c.post(path+"/strike", url.Values{"id": {"s1"}, "of": {id}, "back": {"cellar"}}); w.Code != http.StatusSeeOther {
		t.Errorf("take back: %d", w.Code)
	}
	want(t, c.get(path+"/cellar"), http.StatusOK, `<li class="struck">`)
}

// Need 21 of the published scenario: 8.7 °Bx at 47 h, factor 1.03, start 12.4:
// the formulas say 1.0192 to 1.0252 (the physical model of the dossier has since
// moved the upper end to 1.0255), as a band and with the words.
func TestCellarShowsARefractometerAsABand(t *testing.T) {
	book := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: book}))
	d, err := book.Get(t.Context(), "gyle", "gyle-17")
	if err != nil {
		t.Fatal(err)
	}
	text, _, _ := strings.Cut(d.Text, "- id: g57\n")
	if _, err := book.Save(t.Context(), Draft{Kind: "gyle", Slug: "early", Text: text}); err != nil {
		t.Fatal(err)
	}
	want(t, c.get("/gyle/early/cellar"), http.StatusOK, "8.7 °Bx after 47", "1.0192 to 1.0255", "not for ending a fermentation", "falling")
}
