// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"gyle/internal/store"
	"gyle/internal/store/storetest"
)

// loadTime is how long each page is asked for.
var loadTime = flag.Duration("load", 5*time.Second, "how long BenchmarkLoad asks for each page")

// loadRate is how many times a second each page is asked for.
const loadRate = 20

// loadPage is a page as it is asked for: each time another document, or other
// words, drawn by lot.
type loadPage struct {
	name    string
	request func(random *rand.Rand) (path string, form url.Values) // a form is posted
}

// BenchmarkLoad asks for every page of the big book loadRate times a second,
// whether or not the answer before has come, and reports how long the answers
// took from the moment at which they were due.
func BenchmarkLoad(b *testing.B) {
	path := bigBook(b)
	after := deepParts(b, path)
	address, end := served(b, serveCommand{Book: path})
	defer end()
	var all []time.Duration
	for _, page := range loadPages(after, func(path string) url.Values { return formAt(b, address+path) }) {
		b.Run(page.name, func(b *testing.B) {
			for b.Loop() {
				took := askSteadily(b, address, page)
				all = append(all, took...)
				reportTimes(b, took)
			}
		})
	}
	b.Run("all", func(b *testing.B) {
		for b.Loop() {
			reportTimes(b, all)
		}
	})
}

// reportTimes reports the quantiles instead of a mean.
func reportTimes(b *testing.B, took []time.Duration) {
	b.Helper()
	b.ReportMetric(0, "ns/op")
	for _, q := range []struct {
		name string
		part float64
	}{{"p50-ms", 0.50}, {"p95-ms", 0.95}, {"p99-ms", 0.99}} {
		b.ReportMetric(quantile(took, q.part).Seconds()*1000, q.name)
	}
}

// quantile is the smallest value that the given part of all doesn't exceed.
func quantile(values []time.Duration, part float64) time.Duration {
	if len(values) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(values))
	return sorted[min(int(part*float64(len(sorted))), len(sorted)-1)]
}

// askSteadily asks for a page at an even pace.
func askSteadily(b *testing.B, address string, page loadPage) []time.Duration {
	b.Helper()
	random := rand.New(rand.NewPCG(bigSeed, 5))
	count := int(loadRate * loadTime.Seconds())
	took := make([]time.Duration, count)
	failed := make(chan error, count)
	start := time.Now()
	for i := range count {
		path, form := page.request(random)
		due := start.Add(time.Duration(i) * time.Second / loadRate)
		time.Sleep(time.Until(due))
		go func() {
			_, err := ask(address, path, form)
			took[i] = time.Since(due)
			failed <- err
		}()
	}
	for range count {
		if err := <-failed; err != nil {
			b.Fatal(err)
		}
	}
	return took
}

// ask gets a page, or posts a form, and reads the answer as browsers do: packed.
func ask(address, path string, form url.Values) (size int64, err error) {
	method, body := http.MethodGet, io.Reader(nil)
	if form != nil {
		method, body = http.MethodPost, strings.NewReader(form.Encode())
	}
	request, err := http.NewRequest(method, address+path, body)
	if err != nil {
		return 0, err
	}
	request.Header.Set("Accept-Encoding", "gzip")
	if form != nil {
		request.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	answer, err := loadClient.Do(request)
	if err != nil {
		return 0, err
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		return 0, fmt.Errorf("/%s answered %s", path, answer.Status)
	}
	return io.Copy(io.Discard, answer.Body)
}

var loadClient = &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 64}}

// deepParts returns where the parts of the list of recipes begin.
func deepParts(b *testing.B, path string) (after []string) {
	b.Helper()
	book, err := store.Open(path, store.Options{Check: checkBig})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	for page := (store.Page{Limit: 40}); ; {
		_, next, err := book.List(context.Background(), "recipe", page)
		if err != nil {
			b.Fatal(err)
		}
		if next == "" {
			return after
		}
		page.After = next
		after = append(after, next)
	}
}

// loadPages lists what is asked for.
func loadPages(after []string, form func(path string) url.Values) []loadPage {
	pages := []loadPage{
		fixed("home", ""), fixed("list recipes", "recipe"), fixed("list styles", "style"), fixed("list houses", "brewhouse"),
		{"list deep", func(r *rand.Rand) (string, url.Values) {
			return "recipe?" + url.Values{"after": {after[len(after)/2+r.IntN(len(after)/2)]}}.Encode(), nil
		}},
		fixed("find common word", "find?words=malt"), fixed("find common words", "find?words=malt+oats+br"), fixed("find two letters", "find?words=br"),
		fixed("find nothing", "find?words=zymurgy"), fixed("find within a kind", "recipe?words=porter"),
		{"find a beer", func(r *rand.Rand) (string, url.Values) {
			return "find?" + url.Values{"words": {bigName(r.IntN(bigBeers))}}.Encode(), nil
		}},
	}
	for _, kind := range []string{"style", "brewhouse", "stock", "water"} {
		pages = append(pages, ofKind(kind, ""), ofKind(kind, ".json"), ofKind(kind, "/edit"), ofKind(kind, "/text"))
	}
	pages = append(pages, ofKind("style", "/rules"), ofKind("style", "/rule?n=3"), ofKind("stock", "/lot?list=malts&n=1"),
		ofKind("recipe", ""), ofKind("recipe", ".json"), ofKind("recipe", "/edit"), ofKind("recipe", "/try"), ofKind("recipe", "/text"),
		ofKind("recipe", "/history"), ofKind("recipe", "/at/1"), named("recipe diff", ofKind("recipe", "/at/2?against=1")),
		fixed("new recipe", "new/recipe"), fixed("new style", "new/style"))
	pages = append(pages,
		live("live recipe", form("recipe/recipe-00777/edit"), "recipe/recipe-00777/look", "grist[1].share", func(r *rand.Rand) string {
			return fmt.Sprintf("%d.%d %%", 2+r.IntN(8), r.IntN(10))
		}),
		live("live text", form("recipe/recipe-00777/text"), "check/recipe", "reason", anyWord),
		live("live rule", form("style/style-00007/rule?n=3"), "style/style-00007/rule/words", "why", anyWord))
	pages = append(pages, fixed("list gyles", "gyle"), ofKind("gyle", ""), ofKind("gyle", "/kettle"), ofKind("gyle", "/kettle.json"), ofKind("gyle", "/brewed"),
		ofKind("gyle", "/cellar"), ofKind("brewhouse", "/learned"), fixed("calendar", "calendar"), fixed("list tastings", "tasting"), ofKind("tasting", ""), ofKind("tasting", "/paper"), fixed("new tasting", "new/tasting"),
		loadPage{"formulate", func(r *rand.Rand) (string, url.Values) {
			return "formulate?" + url.Values{"style": {anyOf(r, "style")}, "house": {storetest.Slug("brewhouse", 2*r.IntN(bigSize.Others/2))}, "stock": {anyOf(r, "stock")}, "do": {"find"}}.Encode(), nil
		}},
		loadPage{"treat", func(r *rand.Rand) (string, url.Values) {
			return "water/" + anyOf(r, "water") + "/treat?" + url.Values{"recipe": {anyOf(r, "recipe")}, "house": {storetest.Slug("brewhouse", 2*r.IntN(bigSize.Others/2))}, "stock": {anyOf(r, "stock")}}.Encode(), nil
		}})
	return append(pages,
		fixed("plan, empty", "plan"), planned("plan", "plan?"), planned("plan.json", "plan.json?"), planned("plan reason", "plan/why/og?"),
		planned("plan head", "plan/head.css?"), compared("compare houses", "compare?"), compared("compare.json", "compare.json?"),
		fixed("why", "why"), fixed("why one", "why/hops.IsoRate"), fixed("settings", "settings"),
		fixed("static css", "static/book.css"), fixed("static font", "static/source-serif-4-latin-400-normal.woff2"))
}

func fixed(name, path string) loadPage {
	return loadPage{name, func(*rand.Rand) (string, url.Values) { return path, nil }}
}

func named(name string, page loadPage) loadPage { return loadPage{name, page.request} }

// ofKind asks for a page of any document of a kind.
func ofKind(kind, more string) loadPage {
	name, _, _ := strings.Cut(kind+more, "?")
	return loadPage{name, func(r *rand.Rand) (string, url.Values) { return kind + "/" + anyOf(r, kind) + more, nil }}
}

func anyOf(r *rand.Rand, kind string) string {
	count := bigSize.Others
	switch kind {
	case "recipe":
		count = bigSize.Recipes
	case "gyle":
		count = bigSize.Gyles
	case "tasting":
		count = bigSize.Tastings
	}
	return storetest.Slug(kind, r.IntN(count))
}

func anyWord(r *rand.Rand) string { return bigFirst[r.IntN(len(bigFirst))] }

// live posts a form with one field changed.
func live(name string, form url.Values, path, field string, value func(*rand.Rand) string) loadPage {
	return loadPage{name, func(r *rand.Rand) (string, url.Values) {
		changed := url.Values{}
		for key, values := range form {
			changed[key] = values
		}
		changed.Set(field, value(r))
		return path, changed
	}}
}

func planned(name, path string) loadPage {
	return loadPage{name, func(r *rand.Rand) (string, url.Values) {
		house := storetest.Slug("brewhouse", 2*r.IntN(bigSize.Others/2))
		return path + url.Values{"recipe": {anyOf(r, "recipe")}, "house": {house}, "stock": {anyOf(r, "stock")}, "water": {anyOf(r, "water")}}.Encode(), nil
	}}
}

func compared(name, path string) loadPage {
	return loadPage{name, func(r *rand.Rand) (string, url.Values) {
		houses := []string{storetest.Slug("brewhouse", 2*r.IntN(25)), storetest.Slug("brewhouse", 1+2*r.IntN(25))}
		stock := anyOf(r, "stock")
		return path + url.Values{"recipe": {anyOf(r, "recipe")}, "house": houses, "stock": {stock, stock}, "water": {anyOf(r, "water")}, "size": {"18 L"}}.Encode(), nil
	}}
}
