// SPDX-License-Identifier: MIT

package web

import (
	"compress/gzip"
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"strings"
	"testing"
)

var testKinds = []string{"recipe", "style", "brewhouse", "stock", "water"}

func newTestServer(t testing.TB, o Options) *Server {
	t.Helper()
	if o.Kinds == nil {
		o.Kinds = testKinds
	}
	o.Log = slog.New(slog.NewTextHandler(io.Discard, nil))
	s, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// client asks a server as a browser does, from one address.
type client struct {
	t       testing.TB
	server  http.Handler
	from    string // address and port
	host    string
	cookies []*http.Cookie
}

func near(t testing.TB, s *Server) *client {
	return &client{t: t, server: s, from: "127.0.0.1:50000", host: "localhost:8417"}
}

func far(t testing.TB, s *Server) *client {
	return &client{t: t, server: s, from: "192.168.7.9:50000", host: "192.168.7.2:8417"}
}

func (c *client) do(r *http.Request) *httptest.ResponseRecorder {
	c.t.Helper()
	r.RemoteAddr, r.Host = c.from, c.host
	local := net.TCPAddrFromAddrPort(netip.MustParseAddrPort("192.168.7.2:8417"))
	r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, local))
	for _, k := range c.cookies {
		r.AddCookie(k)
	}
	w := httptest.NewRecorder()
	c.server.ServeHTTP(w, r)
	c.cookies = append(c.cookies, w.Result().Cookies()...)
	return w
}

func (c *client) get(path string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(httptest.NewRequest("GET", path, nil))
}

func (c *client) post(path string, form url.Values) *httptest.ResponseRecorder {
	c.t.Helper()
	r := httptest.NewRequest("POST", path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Origin", "http://"+c.host)
	return c.do(r)
}

func want(t *testing.T, w *httptest.ResponseRecorder, status int, words ...string) {
	t.Helper()
	if w.Code != status {
		t.Errorf("status is %d, want %d", w.Code, status)
	}
	for _, word := range words {
		if !strings.Contains(w.Body.String(), word) {
			t.Errorf("the page lacks %q", word)
		}
	}
}

func TestPagesAnswer(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t), LAN: true, Links: []string{"http://192.168.7.2:8417/"}}))
	for path, word := range map[string]string{
		"/": "Lately written", "/first": "The first page", "/recipe": "Ferry Brown 4", "/style": "Oat brown ale",
		"/recipe?words=currant": "Ferry Brown", "/find": "Words that stand", "/find?words=oats": "Ferry Brown",
		"/recipe/ferry-brown-4": "Ferry Brown", "/water/saltpan-lane": "Saltpan Lane supply", "/recipe/ferry-brown-4/text": "Text of the recipe",
		"/recipe/ferry-brown-4/history": "Revisions", "/recipe/ferry-brown-4/at/1": "The text",
		"/new/water": "A new water", "/new/recipe?from=ferry-brown-3": "version: 3",
		"/why": "Why these numbers", "/why/hops.IsoRate": "How well it is known",
		"/settings": "Decimals", "/devices": "<svg class=\"qr\"",
	} {
		t.Run(path, func(t *testing.T) { want(t, c.get(path), http.StatusOK, word) })
	}
}

func TestWhatIsNotThere(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	for _, path := range []string{"/nothing", "/recipe/nothing", "/recipe/ferry-brown-4/at/9", "/recipe/ferry-brown-4/at/x", "/why/no.Such", "/new/nothing", "/a/b/c/d", "/pair", "/tasting"} {
		t.Run(path, func(t *testing.T) { want(t, c.get(path), http.StatusNotFound, "No such page") })
	}
}

func TestEmptyBookSaysWhatToDo(t *testing.T) {
	filled := false
	c := near(t, newTestServer(t, Options{Book: newTestBook(), Demo: func(context.Context) error { filled = true; return nil }}))
	want(t, c.get("/"), http.StatusOK, "Write a style", "Put the example in")
	want(t, c.get("/recipe"), http.StatusOK, "Write the first")
	want(t, c.post("/first/demo", nil), http.StatusSeeOther)
	if !filled {
		t.Error("the example wasn't put in")
	}
}

// Every starter must be a document without a fault.
func TestStartersAreSound(t *testing.T) {
	b := newTestBook()
	for _, kind := range testKinds {
		if _, err := b.Check(kind, starterText(kind)); err != nil {
			t.Errorf("%s: %v", kind, err)
		}
	}
}

func TestHeaders(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	for _, path := range []string{"/", "/nothing", "/static/book.css"} {
		h := c.get(path).Result().Header
		if got := h.Get("Content-Security-Policy"); got != policy || strings.Contains(got, "unsafe") {
			t.Errorf("%s: policy %q", path, got)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Referrer-Policy") != "same-origin" {
			t.Errorf("%s: headers %v", path, h)
		}
	}
}

func TestForeignHostIsRefused(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t), Names: []string{"kettle.local"}}))
	for host, status := range map[string]int{
		"localhost:8417": 200, "localhost": 200, "kettle.local:8417": 200, "KETTLE.local": 200, "192.168.7.2:8417": 200,
		"evil.example": 421, "evil.example:8417": 421, "192.168.7.3:8417": 421, "localhost.evil.example": 421, "": 421,
	} {
		c.host = host
		if w := c.get("/"); w.Code != status {
			t.Errorf("host %q: status %d, want %d", host, w.Code, status)
		}
	}
}

func TestForeignFormIsRefused(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	for name, header := range map[string][2]string{
		"other site": {"Sec-Fetch-Site", "cross-site"}, "same site": {"Sec-Fetch-Site", "same-site"},
		"other origin": {"Origin", "http://evil.example"}, "no origin": {"Origin", "null"},
	} {
		r := httptest.NewRequest("POST", "/recipe/ferry-brown-4/delete", strings.NewReader("base=1"))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set(header[0], header[1])
		t.Run(name, func(t *testing.T) { want(t, c.do(r), http.StatusForbidden, "another site") })
	}
	if d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4"); d.Deleted {
		t.Error("a foreign form deleted a document")
	}
}

func TestLongBodyIsRefused(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {strings.Repeat("a", maxBody)}})
	want(t, w, http.StatusRequestEntityTooLarge, "Nothing was saved")
}

func TestPanicBecomesAPage(t *testing.T) {
	s := newTestServer(t, Options{Book: fullBook(t)})
	s.handler = s.guard(s.answer(func(http.ResponseWriter, *http.Request) error { panic("bug") }))
	want(t, near(t, s).get("/"), http.StatusInternalServerError, "Something broke", "Nothing was saved")
}

func TestSettingsStayInTheBrowser(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.post("/settings", url.Values{"units": {"us"}, "decimal": {"comma"}, "author": {"Č. Brewer; x=1"}, "book": {"Our book"}}), http.StatusSeeOther)
	want(t, c.get("/settings"), http.StatusOK, `value="us" checked`, `value="comma" checked`, `value="Č. Brewer; x=1"`, `value="Our book"`)
}

func TestNothingIsInline(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t), LAN: true, Links: []string{"http://192.168.7.2:8417/"}}))
	for _, path := range []string{"/", "/first", "/recipe", "/recipe/ferry-brown-4/text", "/devices", "/why/hops.IsoRate"} {
		text := c.get(path).Body.String()
		for _, bad := range []string{" style=", "<style", " onclick=", "javascript:", "<script>"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s holds %q", path, bad)
			}
		}
	}
}

func TestPagesAreCompressed(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	for _, path := range []string{"/", "/static/book.css"} {
		r := httptest.NewRequest("GET", path, nil)
		r.Header.Set("Accept-Encoding", "gzip")
		w := c.do(r)
		z, err := gzip.NewReader(w.Body)
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		plain, err := io.ReadAll(z)
		if err != nil || string(plain) != c.get(path).Body.String() {
			t.Errorf("%s: differs when packed (%v)", path, err)
		}
	}
}

// No page may need more than 250 kB: the stylesheet, the script, the latin
// faces and the longest page together.
func TestWeight(t *testing.T) {
	total := 0
	for name, a := range assets() {
		if strings.HasSuffix(name, ".txt") || strings.Contains(name, "-ext-") {
			continue
		}
		if a.packed != nil {
			total += len(a.packed)
		} else {
			total += len(a.plain)
		}
	}
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	r := httptest.NewRequest("GET", "/why", nil)
	r.Header.Set("Accept-Encoding", "gzip")
	total += c.do(r).Body.Len()
	if total > 250_000 {
		t.Errorf("%d bytes", total)
	}
}

func TestServeEndsInOrder(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	s := newTestServer(t, Options{Book: fullBook(t)})
	go func() { ended <- s.Serve(ctx, l) }()
	answer, err := http.Get("http://" + l.Addr().String() + "/recipe")
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		t.Errorf("status %d", answer.StatusCode)
	}
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
