// SPDX-License-Identifier: MIT

package web

import (
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"gyle/tasting"
)

// tastingServer serves the example with all kinds of documents, other devices
// too.
func tastingServer(t testing.TB) (*Server, *testBook) {
	t.Helper()
	b := fullBook(t)
	s, err := New(Options{Book: b, LAN: true, Log: slog.New(slog.NewTextHandler(io.Discard, nil))})
	if err != nil {
		t.Fatal(err)
	}
	return s, b
}

// planEvening designs a tasting by the form and returns its address.
func planEvening(t testing.TB, c *client, kind, tasters string) string {
	t.Helper()
	form := url.Values{
		"question": {"Does the late roast show?"}, "a": {"ferry-brown-2"}, "b": {"ferry-brown-3"}, "kind": {kind}, "tasters": {tasters},
		"alpha": {"5 %"}, "share": {"50 %"}, "abv": {"4.8 %"}, "sample": {"50 mL"}, "liking": {"on"}, "author": {"A. Quillmark"},
	}
	w := c.post("/new/tasting/plan", form)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("planning: %d %s", w.Code, w.Body)
	}
	return plannedAt(t, c, w.Header().Get("Location"))
}

// wordsOf are the pourer's words of tastings that were planned in tests.
var wordsOf = map[string]string{}

// plannedAt reads where the tasting is from the page that hands the words over.
func plannedAt(t testing.TB, c *client, location string) string {
	t.Helper()
	words, ok := strings.CutSuffix(strings.TrimPrefix(location, "/pourer/"), "/hand-over")
	found := regexp.MustCompile(`href="(/tasting/[a-z0-9-]+)"`).FindStringSubmatch(c.get(location).Body.String())
	if !ok || len(found) != 2 {
		t.Fatalf("planning leads to %s", location)
	}
	wordsMu.Lock()
	wordsOf[t.Name()+found[1]] = words
	wordsMu.Unlock()
	return found[1]
}

var wordsMu sync.Mutex

// pourerOf are the words of a tasting of this test.
func pourerOf(t testing.TB, path string) string {
	t.Helper()
	wordsMu.Lock()
	defer wordsMu.Unlock()
	if wordsOf[t.Name()+path] == "" {
		t.Fatalf("nobody planned %s", path)
	}
	return wordsOf[t.Name()+path]
}

// keysOf unlocks the keys of a tasting of this test.
func keysOf(t testing.TB, b *testBook, path string) map[string]*tasting.Key {
	t.Helper()
	slug, keys, err := UnlockTastingKeys(t.Context(), b, pourerOf(t, path))
	if err != nil || len(keys) == 0 || "/tasting/"+slug != path {
		t.Fatalf("keys of %s: %s %v %v", path, slug, keys, err)
	}
	return keys
}

// openKey opens the key of a tasting of this test by its words.
func openKey(t testing.TB, c *client, path string) *httptest.ResponseRecorder {
	t.Helper()
	return c.post(path+"/open", url.Values{"words": {pourerOf(t, path)}})
}

var linkPattern = regexp.MustCompile(`ballot/[a-z0-9]+-[a-z0-9]{26}`)

// linksOf reads the links of the assessors, in their order.
func linksOf(t testing.TB, c *client, path string) (links []string) {
	t.Helper()
	seen := map[string]bool{}
	for _, found := range linkPattern.FindAllString(c.get(path+"/links").Body.String(), -1) {
		if !seen[found] {
			seen[found] = true
			links = append(links, "/"+found)
		}
	}
	return links
}

// document reads a tasting of the book.
func eveningIn(t testing.TB, b *testBook, path string) *tasting.Tasting {
	t.Helper()
	d, err := b.Get(t.Context(), tasting.Kind, strings.TrimPrefix(path, "/tasting/"))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := tasting.Parse(d.Slug, []byte(d.Text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// replyOf sends an answer as the script does.
func replyOf(t testing.TB, c *client, path string, form url.Values) (taken bool, problem string) {
	t.Helper()
	r := httptest.NewRequest("POST", path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Accept", "application/json")
	w := c.do(r)
	var reply struct {
		Taken   bool
		Problem string
	}
	if err := json.Unmarshal(w.Body.Bytes(), &reply); err != nil {
		t.Fatalf("%s: %v", w.Body, err)
	}
	return reply.Taken, reply.Problem
}

func TestTastingSheets(t *testing.T) {
	s, _ := tastingServer(t)
	c := near(t, s)
	want(t, c.get("/tasting"), http.StatusOK, "Ferry Brown, version 2 against 3")
	want(t, c.get("/tasting/tasting-2-3"), http.StatusOK, "Difference shown: 11 of 18 right", "No preference shown: 13:5", "10 right answers of 18 were needed", "class=\"reach\"", "class=\"guess\"")
	want(t, c.get("/tasting/tasting-1-2"), http.StatusOK, "up to 51 % of tasters could still tell", "tasted again")
	want(t, c.get("/tasting/tasting-profile"), http.StatusOK, "roast sharpness 5.1 → 3.7", "mean shown", "conflict, left open")
	want(t, c.get("/tasting/tasting-3-4"), http.StatusOK, "before any answer; the key is sealed", "Pourer’s words")
	want(t, c.get("/tasting/tasting-3-4/pourer"), http.StatusNotFound)
	want(t, c.get("/new/tasting"), http.StatusOK, "10 right answers are needed")
	want(t, c.post("/new/tasting/look", url.Values{"kind": {"triangle"}, "tasters": {"14"}, "alpha": {"5 %"}, "share": {"50 %"}}), http.StatusOK, "9 right answers are needed", "69 %", "29 %")
}

// A design is fixed and sealed when it is saved; the key is on the pourer's
// sheet alone.
func TestTastingDesign(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	path := planEvening(t, c, "triangle", "6")
	doc := eveningIn(t, b, path)
	if len(doc.Flights) != 2 || len(doc.Flights[0].Serving) != 6 || doc.Flights[0].Key != nil || doc.Flights[0].Design == nil || doc.Flights[0].Design.Commitment == "" {
		t.Fatalf("%+v", doc.Flights)
	}
	want(t, c.get("/pourer/"+pourerOf(t, path)), http.StatusOK, "<b>A</b>", "<b>B</b>")
	want(t, c.get(path+"/paper"), http.StatusOK, "barley", "oats", "Ballot <span class=\"fig\">06</span>")
	for _, page := range []string{"", "/paper", "/links", "/answers", "/text"} {
		body := c.get(path + page).Body.String()
		noKey(t, b, path, page, body)
	}
	want(t, c.post(path+"/draw", nil), http.StatusUnprocessableEntity, "never drawn twice")
	want(t, c.post("/new/tasting/plan", url.Values{"kind": {"triangle"}, "tasters": {"6"}}), http.StatusUnprocessableEntity, "Write down the question first")
}

// noKey looks for anything of the sealed key in what was sent.
func noKey(t testing.TB, b *testBook, path, page, body string) {
	t.Helper()
	for _, key := range keysOf(t, b, path) {
		for _, never := range []string{key.Seed, key.Nonce, "<b>A</b>", "<b>B</b>", "glasses:", `"glasses"`, "nonce"} {
			if strings.Contains(body, never) {
				t.Errorf("%s shows %q", page, never)
			}
		}
	}
}

// Each assessor sees their own glasses and nothing else, answers once, and
// can't answer for another.
func TestBallotIsolation(t *testing.T) {
	s, b := tastingServer(t)
	host := near(t, s)
	path := planEvening(t, host, "triangle", "6")
	links := linksOf(t, host, path)
	if len(links) != 6 {
		t.Fatalf("%d links", len(links))
	}
	phone := far(t, s)
	doc := eveningIn(t, b, path)
	f := &doc.Flights[0]
	want(t, phone.post(links[0], url.Values{"me": {"1"}}), http.StatusUnprocessableEntity, "by law")
	want(t, phone.post(links[0], url.Values{"me": {"1"}, "age": {"on"}}), http.StatusSeeOther)
	body := phone.get(links[0]).Body.String()
	noKey(t, b, path, "ballot", body)
	for i := range doc.Flights {
		for _, set := range doc.Flights[i].Serving {
			for _, code := range set.Codes {
				if own := set.Taster == "01"; own != strings.Contains(body, `value="`+string(code)+`"`) {
					t.Errorf("the ballot of 01 and glass %s of %s: shown %v", code, set.Taster, !own)
				}
			}
		}
	}
	for _, never := range []string{"ferry-brown", "Ferry Brown", "recipe", "/tasting/"} {
		if strings.Contains(body, never) {
			t.Errorf("the ballot shows %q", never)
		}
	}
	own, other := string(f.Serving[0].Codes[0]), string(f.Serving[1].Codes[0])
	if taken, _ := replyOf(t, phone, links[0], url.Values{"flight": {f.Name}, "id": {"x1"}, "code": {other}}); taken {
		t.Error("01 named a glass of 02")
	}
	for range 2 { // sent again, it is kept once
		if taken, problem := replyOf(t, phone, links[0], url.Values{"flight": {f.Name}, "id": {"x2"}, "code": {own}}); !taken {
			t.Errorf("not taken: %s", problem)
		}
	}
	if taken, _ := replyOf(t, phone, links[0], url.Values{"flight": {f.Name}, "id": {"x3"}, "code": {own}}); taken {
		t.Error("01 answered twice")
	}
	if got := eveningIn(t, b, path).Flights[0].Answers; len(got) != 1 || got[0].Taster != "01" || got[0].ID != "01-x2" {
		t.Errorf("answers %+v", got)
	}
	guesses := []string{"/ballot/x", links[0][:len(links[0])-1] + "z", links[0] + "a", strings.Split(links[0], "-")[0] + "-" + strings.Repeat("a", 26)}
	for _, guess := range guesses {
		want(t, phone.get(guess), http.StatusNotFound, "No ballot has this address")
		want(t, phone.post(guess, url.Values{"flight": {f.Name}, "code": {own}}), http.StatusNotFound)
	}
	for _, page := range []string{"", "/links", "/answers", "/paper", "/text"} {
		want(t, phone.get(path+page), http.StatusSeeOther) // to the pairing page
	}
}

// A changed answer stays beside the first one; one that travelled for long says
// so; one that comes after the key is refused or doesn't count.
func TestBallotChangesStayVisible(t *testing.T) {
	s, b := tastingServer(t)
	begun := time.Now()
	s.now = func() time.Time { return begun }
	host := near(t, s)
	path := planEvening(t, host, "triangle", "2")
	s.now = func() time.Time { return time.Now().Add(10 * time.Minute) }
	links := linksOf(t, host, path)
	doc := eveningIn(t, b, path)
	f := &doc.Flights[0]
	one, two := string(f.Serving[0].Codes[0]), string(f.Serving[0].Codes[1])
	c := far(t, s)
	answer := func(link, id, code string, more ...string) bool {
		form := url.Values{"flight": {f.Name}, "id": {id}, "code": {code}}
		for i := 0; i < len(more); i += 2 {
			form.Set(more[i], more[i+1])
		}
		taken, _ := replyOf(t, c, link, form)
		return taken
	}
	if !answer(links[0], "a", one) || !answer(links[0], "b", two, "corrects", "01-a", "why", "pressed the wrong one") {
		t.Fatal("a change wasn't taken")
	}
	if !answer(links[1], "c", string(f.Serving[1].Codes[0]), "ago", "95000") {
		t.Fatal("a delayed answer wasn't taken")
	}
	after := eveningIn(t, b, path).Flights[0]
	if len(after.Answers) != 3 || after.Answers[1].Corrects != "01-a" || after.Answers[2].Came.Sub(after.Answers[2].At.Time).Round(time.Second) != 95*time.Second {
		t.Errorf("%+v", after.Answers)
	}
	want(t, host.get(path), http.StatusOK, "pressed the wrong one", "which arrived")
	want(t, openKey(t, host, path), http.StatusSeeOther)
	answer(links[1], "late", string(f.Serving[1].Codes[1]), "corrects", "02-c")
	opened := eveningIn(t, b, path)
	if opened.Verify(&opened.Flights[0]) != tasting.Matches {
		t.Error("the key isn't the sealed one")
	}
	if tally, _ := opened.Flights[0].Tally(); tally.Answered != 2 {
		t.Errorf("%+v", tally)
	}
	for _, standing := range opened.Flights[0].Standing() {
		if standing.ID == "02-late" {
			t.Error("an answer after the key counts")
		}
	}
	want(t, host.get(path), http.StatusOK, "The key", "2 right")
}

// A version shows what panels found of it; its parent doesn't.
func TestOutcomeOnVersion(t *testing.T) {
	s, _ := tastingServer(t)
	c := near(t, s)
	want(t, c.get("/recipe/ferry-brown-3"), http.StatusOK, "Tasted blind", "Difference shown: 11 of 18 right", "No preference shown: 13:5", "/tasting/tasting-2-3", "roast sharpness 5.1 → 3.7")
	want(t, c.get("/recipe/ferry-brown-2"), http.StatusOK, "up to 51 % of tasters could still tell")
	if body := c.get("/recipe/ferry-brown-4").Body.String(); strings.Contains(body, "Tasted blind") {
		t.Error("version 4 has an outcome before its key is open")
	}
}
