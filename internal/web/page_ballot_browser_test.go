// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"gyle/tasting"
)

// The sheets of a tasting, at all widths and on paper.
func TestBrowserTasting(t *testing.T) {
	ctx := browser(t)
	s, _ := tastingServer(t)
	host := near(t, s)
	path := planEvening(t, host, "triangle", "4")
	links := linksOf(t, host, path)
	host.post(links[1], map[string][]string{"me": {"1"}, "age": {"on"}})
	server := httptest.NewServer(s)
	defer server.Close()
	for name, path := range map[string]string{
		"tasting": "/tasting/tasting-2-3", "tasting-not-shown": "/tasting/tasting-1-2", "tasting-profile": "/tasting/tasting-profile", "tasting-new": "/new/tasting",
		"tasting-planned": path, "tasting-pourer": "/pourer/" + pourerOf(t, path), "tasting-handover": "/pourer/" + pourerOf(t, path) + "/hand-over", "tasting-paper": path + "/paper", "tasting-links": path + "/links",
		"tasting-answers": path + "/answers", "ballot-begin": links[0], "ballot": links[1], "ballot-none": "/ballot/none",
	} {
		for _, width := range widths() {
			look(t, ctx, server.URL+path, name, width)
		}
		if *shots != "" {
			sheet, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
			keep(t, name+".pdf", sheet, err)
		}
	}
}

// recorder keeps every body that was sent to a ballot, to who asks for the key, and to
// any device that isn't this machine.
type recorder struct {
	mu     sync.Mutex
	bodies []string
	down   map[string]bool // parts of paths whose network is gone
	next   http.Handler
}

func (r *recorder) ServeHTTP(w http.ResponseWriter, q *http.Request) {
	r.mu.Lock()
	down := r.down[q.URL.Path]
	r.mu.Unlock()
	if down {
		panic(http.ErrAbortHandler) // the connection breaks
	}
	phone := strings.HasPrefix(q.URL.Path, "/ballot/") || strings.HasPrefix(q.URL.Path, "/pourer/") || strings.HasPrefix(q.RemoteAddr, "192.168.")
	if !phone {
		r.next.ServeHTTP(w, q)
		return
	}
	q.Header.Del("Accept-Encoding")
	kept := httptest.NewRecorder()
	r.next.ServeHTTP(kept, q)
	r.mu.Lock()
	r.bodies = append(r.bodies, kept.Body.String())
	r.mu.Unlock()
	for k, v := range kept.Header() {
		w.Header()[k] = v
	}
	w.WriteHeader(kept.Code)
	w.Write(kept.Body.Bytes())
}

func (r *recorder) cut(path string, down bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.down[path] = down
}

// phones is how many phones answer at once: a whole panel where the tests have
// time.
func phones() int {
	if os.Getenv("GYLE_SOAK") != "" {
		return 18
	}
	return 4
}

// A whole evening: all phones answer at once; two lose the network and send later; one
// tries another's link, one tries to read the key. Nothing is lost, nothing comes twice,
// nothing of the key was sent.
func TestBrowserEvening(t *testing.T) {
	ctx := browser(t)
	s, b := tastingServer(t)
	host := near(t, s)
	n := phones()
	path := planEvening(t, host, "triangle", fmt.Sprint(n))
	links := linksOf(t, host, path)
	keys := keysOf(t, b, path)
	doc := eveningIn(t, b, path)
	record := &recorder{down: map[string]bool{}, next: s}
	server := httptest.NewServer(record)
	defer server.Close()

	right := (n*11 + 17) / 18                                                  // 11 of 18
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil { // the browser must run before it has contexts
		t.Fatal(err)
	}
	var wait sync.WaitGroup
	for i := range n {
		choice := glassesNamed(keys, doc, i, i < right)
		tries := map[int][2]string{ // addresses that lead nowhere, and what stands there
			2: {links[0][:len(links[0])-3] + "aaa", "No ballot has this address"}, 3: {"/pourer/" + pourerOf(t, path)[:8] + "-" + strings.Repeat("a", 26), "No sheet has this address"},
		}[i]
		wait.Go(func() { onePhone(t, ctx, server.URL, links[i], record, i < 2, choice, tries) })
	}
	wait.Go(func() {
		intrude(t, &client{t: t, server: record, from: "192.168.7.9:50000", host: "192.168.7.2:8417"}, path, links, doc)
	})
	wait.Wait()
	after := eveningIn(t, b, path)
	for i := range after.Flights {
		if got := len(after.Flights[i].Answers); got != n {
			t.Errorf("%s has %d answers of %d", after.Flights[i].Name, got, n)
		}
	}
	for _, body := range record.bodies {
		noKey(t, b, path, "a ballot", body)
		if regexp.MustCompile(`"(right|odd|correct)"`).MatchString(body) {
			t.Errorf("a reply tells what is right: %s", body)
		}
	}
	if len(record.bodies) < 3*n {
		t.Errorf("only %d replies were searched", len(record.bodies))
	}
	want(t, openKey(t, host, path), http.StatusSeeOther)
	sheet := host.get(path).Body.String()
	if !strings.Contains(sheet, fmt.Sprintf("%d of %d right", right, n)) {
		t.Errorf("not %d of %d: %s", right, n, sheet)
	}
	if n == 18 && !strings.Contains(sheet, "p 0.0144") {
		t.Error("11 of 18 isn't p 0.0144")
	}
}

// intrude is a device in the same network that wants another's ballot, or the key. It
// gets neither, and its answers change nothing.
func intrude(t *testing.T, c *client, path string, links []string, doc *tasting.Tasting) {
	for _, page := range []string{path, path + "/text", path + "/pourer", path + "/links", path + "/history", path + "/ballots.pdf", "/find?q=glasses", "/settings"} {
		if w := c.get(page); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/pair" {
			t.Errorf("%s: %d for a device that isn't paired", page, w.Code)
		}
	}
	for _, guess := range []string{links[0] + "a", links[0][:len(links[0])-1], strings.Split(links[0], "-")[0] + "-" + strings.Split(links[1], "-")[1][:25] + "z", "/pourer/" + strings.Split(links[0], "/")[2]} {
		if w := c.get(guess); w.Code != http.StatusNotFound {
			t.Errorf("%s: %d", guess, w.Code)
		}
		code := string(doc.Flights[0].Serving[0].Codes[0])
		if w := c.post(guess, map[string][]string{"flight": {doc.Flights[0].Name}, "id": {"stolen"}, "code": {code}}); w.Code != http.StatusNotFound && w.Code != http.StatusMethodNotAllowed {
			t.Errorf("%s: an answer gives %d", guess, w.Code)
		}
	}
	// With a link of one's own, a glass of another's tray.
	other := string(doc.Flights[0].Serving[1].Codes[0])
	if taken, _ := replyOf(t, c, links[0], map[string][]string{"flight": {doc.Flights[0].Name}, "id": {"stolen"}, "code": {other}}); taken {
		t.Error("01 named a glass of 02")
	}
}

// glassesNamed are the glasses that an assessor will name in each flight.
func glassesNamed(keys map[string]*tasting.Key, doc *tasting.Tasting, i int, right bool) (codes []string) {
	for j := range doc.Flights {
		f := &doc.Flights[j]
		set := f.Serving[i]
		place := 0
		if odd := keys[f.Name].Odd(set); odd > 0 {
			place = odd - 1
			if !right {
				place = odd % len(set.Codes)
			}
		}
		codes = append(codes, string(set.Codes[place]))
	}
	return codes
}

// onePhone is one assessor with a browser context of their own.
func onePhone(t *testing.T, parent context.Context, base, link string, record *recorder, loses bool, codes []string, tries [2]string) {
	ctx, cancel := chromedp.NewContext(parent, chromedp.WithNewBrowserContext())
	defer cancel()
	if tries[0] != "" {
		if err := chromedp.Do(ctx, chromedp.Navigate(base+tries[0])); err != nil {
			t.Errorf("%s: %v", tries[0], err)
			return
		}
		if there, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.innerText`)); err != nil || !strings.Contains(there, tries[1]) {
			t.Errorf("%s shows %q (%v)", tries[0], there, err)
		}
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(360, 740), chromedp.Navigate(base+link), chromedp.Click("#age"), chromedp.Click(".me button"), chromedp.WaitVisible(".question:not([hidden]) form.answer button.first")); err != nil {
		t.Errorf("%s: begin: %v", link, err)
		return
	}
	if loses {
		record.cut(link, true)
	}
	for _, code := range codes {
		// Pressed by script: a mouse misses on a page that a busy machine draws late.
		press := `(() => { const glass = document.querySelector('.question:not([hidden]) form.answer input[value="` + code + `"]'); glass.click(); glass.form.querySelector("button.first").click(); })()`
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[chromedp.Void](press)); err != nil {
			t.Errorf("%s: answer %s: %v", link, code, err)
			return
		}
	}
	if loses {
		if waiting, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.querySelector("main").dataset.waiting === "2"`, chromedp.WithPollingTimeout(20*time.Second))); err != nil || !waiting {
			t.Errorf("%s: the answers aren't kept on the phone: %v", link, err)
		}
		record.cut(link, false)
	}
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.getElementById("state").textContent.startsWith("All your answers are in")`, chromedp.WithPollingTimeout(60*time.Second))); err != nil {
		t.Errorf("%s: the answers didn't arrive: %v", link, err)
	}
}
