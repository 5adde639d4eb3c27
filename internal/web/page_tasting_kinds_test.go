// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"
	"testing"

	"gyle/tasting"
)

// designOf is a form for a kind with what it needs.
func designOf(kind string, more url.Values) url.Values {
	form := url.Values{
		"question": {"Which?"}, "a": {"ferry-brown-2"}, "b": {"ferry-brown-3"}, "kind": {kind}, "tasters": {"4"}, "alpha": {"5 %"}, "share": {"50 %"},
		"attributes": {"roast, fruit"}, "change": {"late chocolate malt"},
	}
	for name, values := range more {
		form[name] = values
	}
	return form
}

// answerAll answers every question of a tasting from paper.
func answerAll(t *testing.T, c *client, b *testBook, path string) {
	t.Helper()
	doc := eveningIn(t, b, path)
	for _, taster := range servedTasters(doc) {
		for i, q := range ballotSets(doc, taster) {
			answer := url.Values{"taster": {taster}, "flight": {q.Flight}, "id": {q.ID}, "set": {"0"}, "code": {q.Codes[0]}}
			switch {
			case q.Alike:
				answer["code"] = q.Codes[:2]
			case q.Order:
				answer["code"] = slices.Sorted(slices.Values(q.Codes))
			case q.YesNo:
				answer.Set("code", q.Glass)
				answer.Set("says", []string{"a", "not a"}[i%2])
			case len(q.Attributes) > 0:
				answer.Set("code", q.Glass)
				answer.Set("score-0", "4")
				answer.Set("score-1", "2,5")
			}
			if q.Set > 0 {
				answer.Set("set", string(rune('0'+q.Set)))
			}
			if w := c.post(path+"/answers", answer); w.Code != http.StatusSeeOther {
				t.Errorf("%s of %s: %d %s", q.Flight, taster, w.Code, w.Body)
			}
		}
	}
}

// Every kind goes the whole way: form, serving plan, pourer's sheet, ballot on a phone
// and on paper, answers, key, verdict.
func TestEveryKindOfTasting(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	for name, test := range map[string]struct {
		kind string
		more url.Values
		says string
	}{
		"triangle": {"triangle", nil, "hown"}, "tetrad": {"tetrad", nil, "hown"}, "duo-trio": {"duo-trio", nil, "hown"},
		"one reference": {"duo-trio", url.Values{"reference": {"A"}}, "hown"}, "2-afc": {"2-afc", nil, "hown"},
		"2-afc either": {"2-afc", url.Values{"direction": {"either"}}, "named the same beer"}, "3-afc": {"3-afc", url.Values{"direction": {"earlier"}}, "hown"},
		"preference": {"preference", nil, "preference shown"}, "none allowed": {"preference", url.Values{"none": {"on"}}, "preference shown"},
		"profile": {"profile", nil, "No change shown"}, "a-not-a": {"a-not-a", nil, "was called the learnt beer"},
		"a-not-a, other way": {"a-not-a", url.Values{"reference": {"B"}, "glasses": {"2"}}, "was called the learnt beer"},
		"ranking":            {"ranking", url.Values{"more": {"ferry-brown-1", "ferry-brown-4"}, "ordered": {"on"}}, "expected order"},
		"some of the beers":  {"ranking", url.Values{"more": {"ferry-brown-1", "ferry-brown-4"}, "glasses": {"3"}, "attributes": {"liking"}}, "mean places"},
		"two trays each":     {"triangle", url.Values{"sets": {"2"}}, "independent ones"}, "two stages": {"triangle", url.Values{"look": {"2"}, "liking": nil}, "two stages"},
	} {
		w := c.post("/new/tasting/plan", designOf(test.kind, test.more))
		if w.Code != http.StatusSeeOther {
			t.Errorf("%s: %d %s", name, w.Code, w.Body)
			continue
		}
		path := plannedAt(t, c, w.Header().Get("Location"))
		want(t, c.get("/pourer/"+pourerOf(t, path)), http.StatusOK, "<b>A</b>", "<b>B</b>")
		want(t, c.get(path+"/paper"), http.StatusOK, "Ballot")
		link := linksOf(t, c, path)[0]
		phone := far(t, s)
		want(t, phone.post(link, url.Values{"me": {"1"}, "age": {"on"}}), http.StatusSeeOther)
		body := phone.get(link).Body.String()
		noKey(t, b, path, name, body)
		if forced := test.kind == "preference" && test.more == nil; forced == strings.Contains(body, "I have none") && test.kind == "preference" {
			t.Errorf("%s: no preference is offered, or isn't", name)
		}
		answerAll(t, c, b, path)
		want(t, c.get(path), http.StatusOK, "Every set is answered")
		want(t, openKey(t, c, path), http.StatusSeeOther)
		body = c.get(path).Body.String()
		if strings.Contains(body, "Void") || !strings.Contains(body, test.says) {
			t.Errorf("%s: %s", name, body)
		}
		for _, never := range []string{"are the same", "no difference"} {
			if strings.Contains(strings.ToLower(body), never) {
				t.Errorf("%s says %q", name, never)
			}
		}
	}
}

// What can't be asked is refused with the form as it was typed.
func TestKindsRefused(t *testing.T) {
	s, _ := tastingServer(t)
	c := near(t, s)
	for _, test := range []struct {
		kind string
		more url.Values
		says string
	}{
		{"ranking", nil, "three beers or more"},
		{"triangle", url.Values{"more": {"ferry-brown-1"}}, "compares two beers"},
		{"triangle", url.Values{"look": {"4"}}, "look before the end"},
		{"triangle", url.Values{"look": {"2"}, "sets": {"2"}}, "give each one tray"},
		{"profile", url.Values{"look": {"2"}}, "can be looked at"},
		{"preference", url.Values{"look": {"2"}, "none": {"on"}}, "needs a choice of all"},
		{"ranking", url.Values{"more": {"ferry-brown-1"}, "glasses": {"9"}}, "each can get 3"},
		{"triangle", url.Values{"tasters": {"0"}}, "1 to 400"},
		{"triangle", url.Values{"sets": {"x"}}, "how many trays"},
		{"triangle", url.Values{"a": {"ferry-brown-1"}, "b": {"ferry-brown-3"}, "change": {""}}, "differ in"},
	} {
		want(t, c.post("/new/tasting/plan", designOf(test.kind, test.more)), http.StatusUnprocessableEntity, test.says, "Which?", "Earlier version")
	}
}

// Several changes are asked about and may be named; a parted wort stands in the
// document.
func TestOneChangeIsTheQuestion(t *testing.T) {
	s, b := tastingServer(t)
	c := near(t, s)
	both := url.Values{"a": {"ferry-brown-1"}, "b": {"ferry-brown-3"}, "change": {""}, "split": {"on"}, "gyle-b": {"garage-v3"}}
	w := c.post("/new/tasting/plan", designOf("triangle", both))
	want(t, w, http.StatusUnprocessableEntity, "They differ in", "all of it together")
	both.Set("change", "all of it together")
	w = c.post("/new/tasting/plan", designOf("triangle", both))
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	doc := eveningIn(t, b, plannedAt(t, c, w.Header().Get("Location")))
	if doc.Beers[0].Split == "" || doc.Beers[0].Split != doc.Beers[1].Split || doc.Beers[1].Gyle != "garage-v3" || doc.Change != "all of it together" {
		t.Errorf("%+v", doc.Beers)
	}
	for _, remark := range doc.Remarks() {
		if strings.Contains(remark.Text, "one batch") {
			t.Errorf("a parted wort: %s", remark.Text)
		}
	}
}

// The key is locked: nothing that a paired device, a phone or the file of the book
// shows holds it, and only the words unlock it.
func TestKeyIsLocked(t *testing.T) {
	s, b := tastingServer(t)
	host := near(t, s)
	path := planEvening(t, host, "triangle", "6")
	words := pourerOf(t, path)
	key := keysOf(t, b, path)["question"]
	wrong := words[:len(words)-1] + string('a'+(words[len(words)-1]-'a'+1)%26)
	for _, who := range []*client{host, far(t, s)} {
		for _, guess := range []string{wrong, "x", "abcdefgh-" + strings.Repeat("a", 26), words[:8], words[:9]} {
			for _, page := range []string{"", "/hand-over", "/sheet.pdf"} {
				want(t, who.get("/pourer/"+guess+page), http.StatusNotFound, "No sheet has this address")
			}
			want(t, who.post("/pourer/"+guess+"/open", nil), http.StatusNotFound)
		}
	}
	want(t, host.get(path+"/pourer"), http.StatusNotFound)
	for _, page := range []string{path, path + "/text", path + "/history", path + "/paper", path + "/links", path + "/answers", "/find?q=" + url.QueryEscape(key.Seed), "/find?q=glasses", "/settings", "/"} {
		body := host.get(page).Body.String()
		noKey(t, b, path, page, body)
		if strings.Contains(body, words[9:]) {
			t.Errorf("%s shows the words", page)
		}
	}
	for name, value := range b.settings {
		for _, never := range []string{key.Seed, key.Nonce, words[9:], `"glasses"`} {
			if strings.Contains(value, never) {
				t.Errorf("the setting %s holds %q", name, never)
			}
		}
	}
	w := far(t, s).get("/pourer/" + words) // the pourer's phone needs no pairing
	want(t, w, http.StatusOK, "<b>A</b>")
	if w.Header().Get("Cache-Control") != "no-store" {
		t.Errorf("the pourer's sheet may be kept: %v", w.Header())
	}
	want(t, host.post(path+"/open", url.Values{"words": {wrong}}), http.StatusUnprocessableEntity, "open the key")
	want(t, host.post(path+"/open", url.Values{"words": {"HTTP://x/pourer/" + strings.ToUpper(words)}}), http.StatusSeeOther)
	opened := eveningIn(t, b, path)
	if opened.Verify(&opened.Flights[0]) != tasting.Matches {
		t.Error("the commitment doesn't match after opening")
	}
}

// Ballots and cards are printed without the key, the pourer's sheet with it, by its
// words alone.
func TestEveningOnPaper(t *testing.T) {
	s, b := tastingServer(t)
	host := near(t, s)
	path := planEvening(t, host, "triangle", "3")
	for _, name := range []string{path + "/ballots.pdf", path + "/cards.pdf?paper=letter", "/pourer/" + pourerOf(t, path) + "/sheet.pdf"} {
		w := host.get(name)
		if w.Code != http.StatusOK || !strings.HasPrefix(w.Body.String(), "%PDF-") || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %d %v", name, w.Code, w.Header())
		}
		if strings.Contains(name, "tasting") {
			noKey(t, b, path, name, w.Body.String())
		}
	}
	want(t, host.get(path+"/ballots.pdf?paper=a7"), http.StatusUnprocessableEntity)
	want(t, far(t, s).get(path+"/ballots.pdf"), http.StatusSeeOther) // to the pairing page
	want(t, far(t, s).get("/pourer/"+pourerOf(t, path)[:8]+"-x/sheet.pdf"), http.StatusNotFound)
}

// The pourer may open the key from their own device.
func TestPourerOpens(t *testing.T) {
	s, b := tastingServer(t)
	host := near(t, s)
	path := planEvening(t, host, "triangle", "3")
	phone := far(t, s)
	want(t, phone.post("/pourer/"+pourerOf(t, path)+"/open", nil), http.StatusSeeOther)
	if doc := eveningIn(t, b, path); doc.Flights[0].Key == nil || doc.Flights[1].Key == nil {
		t.Error("the key is still sealed")
	}
	want(t, phone.get("/pourer/"+pourerOf(t, path)), http.StatusOK, "The key is open")
}

// Eighteen devices answer both flights at the same moment, each answer twice: all are in,
// none twice, and the verdict is that of 11 of 18.
func TestEighteenAtOnce(t *testing.T) {
	s, b := tastingServer(t)
	host := near(t, s)
	path := planEvening(t, host, "triangle", "18")
	links, keys, doc := linksOf(t, host, path), keysOf(t, b, path), eveningIn(t, b, path)
	var wait sync.WaitGroup
	for i, link := range links {
		for j, code := range glassesNamed(keys, doc, i, i < 11) {
			wait.Go(func() {
				c := far(t, s)
				for range 2 {
					form := url.Values{"flight": {doc.Flights[j].Name}, "id": {fmt.Sprint("x", j)}, "code": {code}}
					if taken, problem := replyOf(t, c, link, form); !taken {
						t.Errorf("%s of %d: %s", doc.Flights[j].Name, i, problem)
					}
				}
			})
		}
	}
	wait.Wait()
	want(t, openKey(t, host, path), http.StatusSeeOther)
	want(t, host.get(path), http.StatusOK, "Difference shown: 11 of 18 right", "p 0.0144")
	for _, f := range eveningIn(t, b, path).Flights {
		if len(f.Answers) != 18 {
			t.Errorf("%s has %d answers", f.Name, len(f.Answers))
		}
	}
}

// The steps of a beer as questions: what was never tasted stands first, and leads to a
// design that is filled in.
func TestNextQuestions(t *testing.T) {
	s, _ := tastingServer(t)
	c := near(t, s)
	body := c.get("/recipe/ferry-brown-3/questions").Body.String()
	for _, say := range []string{"Can they be told apart?", "Which is preferred?", "bits", "18 answers so far", "Never asked", "/new/tasting?a=ferry-brown-3&amp;b=ferry-brown-4"} {
		if !strings.Contains(body, say) {
			t.Errorf("the page lacks %q", say)
		}
	}
	if strings.Index(body, "b=ferry-brown-4") > strings.Index(body, "b=ferry-brown-3") {
		t.Error("what was never tasted doesn’t stand first")
	}
	want(t, c.get("/new/tasting?a=ferry-brown-3&b=ferry-brown-4&kind=tetrad&tasters=16"), http.StatusOK, `value="tetrad" selected`, `value="16"`)
	want(t, c.get("/recipe/ferry-brown-3"), http.StatusOK, "What to ask a panel next")
	want(t, c.get("/recipe/nothing/questions"), http.StatusNotFound)
}
