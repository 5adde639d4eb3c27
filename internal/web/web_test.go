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
	"strconv"
	"strings"
	"testing"
	"time"

	"gyle/recipe"
)

var testKinds = []string{"recipe", "style", "brewhouse", "stock", "water"}

func newTestServer(t testing.TB, o Options) *Server {
	t.Helper()
	o.Kinds = testKinds
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
	for _, k := range w.Result().Cookies() {
		c.cookies = append(c.cookies, k)
	}
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
		"/recipe/ferry-brown-4": "bramling-cross", "/recipe/ferry-brown-4/text": "Text of the recipe",
		"/recipe/ferry-brown-4/fields": `name="f:grist[1].share"`, "/recipe/ferry-brown-4/history": "Revisions", "/recipe/ferry-brown-4/at/1": "The text",
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

func TestSaveMakesARevision(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	text := strings.Replace(d.Text, "ibu: 29", "ibu: 30", 1)
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {strings.ReplaceAll(text, "\n", "\r\n")}, "author": {"B. Alewright"}, "why": {"firmer"}})
	want(t, w, http.StatusSeeOther)
	d, _ = b.Get(t.Context(), "recipe", "ferry-brown-4")
	if d.Revision != 2 || d.Text != text || d.Author != "B. Alewright" || d.Why != "firmer" {
		t.Errorf("saved %+v", d)
	}
	want(t, c.get("/recipe/ferry-brown-4?done=saved"), 200, "Saved as revision 2", "revision 2")
	want(t, c.get("/recipe/ferry-brown-4/at/2"), 200, "What it changed", "ibu: 29", "ibu: 30")
	want(t, c.get("/recipe/ferry-brown-4/text"), 200, `value="B. Alewright"`)
}

func TestFaultsKeepWhatWasTyped(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	text := "gyle: recipe/1\nname: Odd <b>one</b>\ngrist:\n- {malt: pale-ale, shrae: 90 %}\n"
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {text}, "author": {"B"}, "why": {"a try"}})
	want(t, w, http.StatusUnprocessableEntity, "Odd &lt;b&gt;one&lt;/b&gt;", "line 4, column", "<mark>shrae</mark>", `value="a try"`)
	if d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4"); d.Revision != 1 {
		t.Error("a faulty text was saved")
	}
	want(t, c.post("/check/recipe", url.Values{"text": {text}}), http.StatusOK, "<mark>shrae</mark>")
	want(t, c.post("/check/water", url.Values{"text": {starterText("water")}}), http.StatusOK, "Reads as <em>My water</em>")
}

func TestFieldsChangeOnlyTheirValues(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	commented := strings.Replace(d.Text, "grist:\n", "grist: # by weight\n", 1)
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {commented}}), http.StatusSeeOther)
	form := url.Values{"base": {"2"}, "text": {commented}, "f:aims.ibu": {"30"}, "f:grist[1].share": {"12 %"}, "f:mash.rests[0]": {"66 °C for 75 min"}}
	want(t, c.post("/recipe/ferry-brown-4/fields", form), http.StatusSeeOther)
	d, _ = b.Get(t.Context(), "recipe", "ferry-brown-4")
	if text := strings.NewReplacer("ibu: 29", "ibu: 30", "67 °C for 60 min", "66 °C for 75 min").Replace(commented); d.Text != text {
		t.Errorf("saved\n%s\nwant\n%s", d.Text, text)
	}
	form = url.Values{"base": {"3"}, "text": {d.Text}, "f:aims.ibu": {"thirty <i>"}, "f:aims.og": {"1.052"}}
	want(t, c.post("/recipe/ferry-brown-4/fields", form), http.StatusUnprocessableEntity, `value="thirty &lt;i&gt;"`, `value="1.052"`, "aria-invalid", `href="#field-aims.ibu"`)
	want(t, c.post("/recipe/ferry-brown-4/fields/check", form), http.StatusOK, `href="#field-aims.ibu"`)
	form.Set("base", "1")
	form.Set("f:aims.ibu", "31")
	want(t, c.post("/recipe/ferry-brown-4/fields", form), http.StatusConflict, "ibu: 31", "by weight", "Save this as revision 4")
}

func TestFieldsAddAndTakeLines(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	added, err := addLine("recipe", d.Text, "hops")
	if err != nil {
		t.Fatal(err)
	}
	form := url.Values{"base": {"1"}, "text": {d.Text}, "f:hops[1].why": {"more of it"}, "add": {"hops"}}
	want(t, c.post("/recipe/ferry-brown-4/fields", form), http.StatusOK, `name="f:hops[2].hop" value="bramling-cross"`, `name="f:hops[2].why" value="more of it"`, "data-changed")
	form = url.Values{"base": {"1"}, "text": {added}, "take": {"hops[0]"}}
	want(t, c.post("/recipe/ferry-brown-4/fields", form), http.StatusOK, `name="f:hops[0].hop" value="bramling-cross"`)
	if now, _ := b.Get(t.Context(), "recipe", "ferry-brown-4"); now.Revision != 1 {
		t.Error("adding a line saved something")
	}
	form = url.Values{"base": {"1"}, "text": {added}, "f:hops[2].at": {"dry 3 d 14 °C"}, "f:hops[2].why": {""}, "f:hops[2].oil": {""}}
	want(t, c.post("/recipe/ferry-brown-4/fields", form), http.StatusSeeOther)
	now, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	saved, err := recipe.Parse("saved.yaml", []byte(now.Text))
	if err != nil {
		t.Fatal(err)
	}
	if last := saved.Hops[2]; last.Hop != "bramling-cross" || last.At.String() != "dry 3 d 14 °C" || last.Why != "" || last.Oil != nil {
		t.Errorf("saved\n%s", now.Text)
	}
}

func TestConflictShowsBothAndMerges(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	theirs := strings.Replace(d.Text, "ibu: 29", "ibu: 31", 1)
	mine := strings.Replace(d.Text, "og: 1.050", "og: 1.051", 1)
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {theirs}}), http.StatusSeeOther)
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {mine}, "why": {"stronger"}})
	want(t, w, http.StatusConflict, "og: 1.051", "ibu: 31", `name="base" value="2"`, `value="stronger"`, "Save this as revision 3")
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"2"}, "text": {mine}}), http.StatusSeeOther)
	if kept, _ := b.GetRevision(t.Context(), "recipe", "ferry-brown-4", 2); kept.Text != theirs {
		t.Error("their revision is gone")
	}
}

func TestNewDocumentGetsAFreeAddress(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: newTestBook()}))
	for _, path := range []string{"/water/my-water", "/water/my-water-2"} {
		w := c.post("/new/water", url.Values{"base": {"0"}, "text": {starterText("water")}})
		want(t, w, http.StatusSeeOther)
		if got := w.Result().Header.Get("Location"); got != path+"?done=saved" {
			t.Errorf("saved at %s, want %s", got, path)
		}
	}
}

func TestDeleteCanBeTakenBack(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	want(t, c.post("/style/oat-brown-ale/delete", url.Values{"base": {"1"}}), http.StatusConflict, "Ferry Brown 4", "Take it out anyway")
	w := c.post("/style/oat-brown-ale/delete", url.Values{"base": {"1"}, "anyway": {"yes"}})
	want(t, w, http.StatusSeeOther)
	want(t, c.get(w.Result().Header.Get("Location")), http.StatusOK, "Bring it back")
	want(t, c.get("/style/oat-brown-ale"), http.StatusGone, "taken out")
	want(t, c.post("/style/oat-brown-ale/undelete", url.Values{"base": {"2"}}), http.StatusSeeOther)
	want(t, c.get("/style/oat-brown-ale"), http.StatusOK)
}

func TestPairing(t *testing.T) {
	b := fullBook(t)
	told := ""
	s := newTestServer(t, Options{Book: b, LAN: true, OnPair: func(device, next string) { told = device + " " + next }})
	phone := far(t, s)
	want(t, phone.get("/recipe"), http.StatusSeeOther)
	want(t, phone.get("/pair"), http.StatusOK, "Pair this device")
	want(t, phone.get("/static/book.css"), http.StatusOK)
	want(t, phone.get("/devices"), http.StatusSeeOther)
	want(t, phone.post("/pair", url.Values{"code": {"AAAA-AAAA"}}), http.StatusUnprocessableEntity, "isn&#39;t the code")
	code := s.PairingCode()
	want(t, phone.post("/pair", url.Values{"code": {strings.ToLower(strings.Replace(code, "-", " ", 1))}, "name": {"Phone"}}), http.StatusSeeOther)
	if told != "Phone "+s.PairingCode() || s.PairingCode() == code {
		t.Errorf("told %q; the code is %s, was %s", told, s.PairingCode(), code)
	}
	want(t, phone.get("/recipe"), http.StatusOK, "Ferry Brown 4")
	want(t, phone.get("/devices"), http.StatusForbidden)
	session := phone.cookies[len(phone.cookies)-1]
	if !session.HttpOnly || session.SameSite != http.SameSiteLaxMode || strings.Contains(b.settings[devicesSetting], session.Value) {
		t.Errorf("session cookie %+v, kept as %s", session, b.settings[devicesSetting])
	}
	other := far(t, s)
	want(t, other.post("/pair", url.Values{"code": {code}}), http.StatusUnprocessableEntity)

	id := s.devices.paired()[0].ID
	want(t, near(t, s).post("/devices/"+id+"/unpair", nil), http.StatusSeeOther)
	want(t, phone.get("/recipe"), http.StatusSeeOther)
}

func TestPairingAttemptsAreLimited(t *testing.T) {
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	s := newTestServer(t, Options{Book: fullBook(t), LAN: true, Now: func() time.Time { return now }})
	phone := far(t, s)
	try := func() int { return phone.post("/pair", url.Values{"code": {"x"}}).Code }
	for range 5 {
		if got := try(); got != http.StatusUnprocessableEntity {
			t.Fatalf("status %d", got)
		}
	}
	if got := try(); got != http.StatusTooManyRequests {
		t.Errorf("sixth attempt: status %d", got)
	}
	if got := phone.post("/pair", url.Values{"code": {s.PairingCode()}}).Code; got != http.StatusTooManyRequests {
		t.Errorf("the right code went through: %d", got)
	}
	for i := range 20 {
		phone.from = "192.168.7." + strconv.Itoa(100+i) + ":1"
		try()
	}
	phone.from = "192.168.7.99:1"
	if got := try(); got != http.StatusTooManyRequests {
		t.Errorf("many addresses together: status %d", got)
	}
	now = now.Add(time.Minute)
	if got := try(); got != http.StatusUnprocessableEntity {
		t.Errorf("a minute later: status %d", got)
	}
}

func TestOtherDevicesAreRefusedWithoutLAN(t *testing.T) {
	want(t, far(t, newTestServer(t, Options{Book: fullBook(t)})).get("/"), http.StatusForbidden)
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

func TestSlugs(t *testing.T) {
	for title, slug := range map[string]string{
		"Ferry Brown 4": "ferry-brown-4", "Světlý ležák": "svetly-lezak", "  Kölsch, no. 2!": "koelsch-no-2", "…": "", "ΑΒΓ": "",
	} {
		if got := slugOf(title); got != slug {
			t.Errorf("slugOf(%q) = %q, want %q", title, got, slug)
		}
	}
}

func TestCompare(t *testing.T) {
	for _, c := range []struct{ from, to, signs string }{
		{"", "", ""}, {"a\n", "a\n", " "}, {"", "a\nb\n", "++"}, {"a\nb\n", "", "--"},
		{"a\nb\nc\n", "a\nx\nc\n", " -+ "}, {"a\nb\n", "b\na\n", "- +"}, {"a\r\nb", "a\nb\n", "  "},
	} {
		var signs, before, after strings.Builder
		for _, x := range compare(c.from, c.to) {
			signs.WriteString(x.Sign)
			if x.Sign != "+" {
				before.WriteString(x.Line)
			}
			if x.Sign != "-" {
				after.WriteString(x.Line)
			}
		}
		if signs.String() != c.signs {
			t.Errorf("compare(%q, %q): %q, want %q", c.from, c.to, signs.String(), c.signs)
		}
		if before.String() != strings.Join(linesOf(c.from), "") || after.String() != strings.Join(linesOf(c.to), "") {
			t.Errorf("compare(%q, %q) loses lines", c.from, c.to)
		}
	}
}

func TestMerge(t *testing.T) {
	const base = "a\nb\nc\nd\ne\n"
	for name, c := range map[string]struct{ mine, theirs, merged string }{
		"far apart":    {"A\nb\nc\nd\ne\n", "a\nb\nc\nd\nE\n", "A\nb\nc\nd\nE\n"},
		"put in":       {"a\nb\nx\nc\nd\ne\n", "a\nb\nc\nd\ne\ny\n", "a\nb\nx\nc\nd\ne\ny\n"},
		"taken out":    {"a\nc\nd\ne\n", "a\nb\nc\nd\n", "a\nc\nd\n"},
		"the same":     {"a\nB\nc\nd\ne\n", "a\nB\nc\nd\ne\n", "a\nB\nc\nd\ne\n"},
		"only theirs":  {base, "x\n", "x\n"},
		"at one place": {"a\nB\nc\nd\ne\n", "a\nβ\nc\nd\ne\n", ""},
		"side by side": {"a\nB\nc\nd\ne\n", "a\nb\nC\nd\ne\n", ""},
		"out and in":   {"a\nc\nd\ne\n", "a\nB\nc\nd\ne\n", ""},
	} {
		for _, turn := range [][2]string{{c.mine, c.theirs}, {c.theirs, c.mine}} {
			merged, ok := merge(base, turn[0], turn[1])
			if merged != c.merged || ok != (c.merged != "") {
				t.Errorf("%s: merged %q, %v", name, merged, ok)
			}
		}
	}
}

func TestConflictBringsBothTogether(t *testing.T) {
	b := fullBook(t)
	c := near(t, newTestServer(t, Options{Book: b}))
	d, _ := b.Get(t.Context(), "recipe", "ferry-brown-4")
	theirs := strings.Replace(d.Text, "boil: 60 min", "boil: 75 min", 1)
	mine := strings.Replace(d.Text, "ibu: 29", "ibu: 31", 1)
	want(t, c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {theirs}}), http.StatusSeeOther)
	w := c.post("/recipe/ferry-brown-4/text", url.Values{"base": {"1"}, "text": {mine}})
	want(t, w, http.StatusConflict, "Both together", "Yours, as you typed it")
	form := w.Body.String()
	form = form[strings.Index(form, `name="text"`):]
	form = form[:strings.Index(form, "</textarea>")]
	if !strings.Contains(form, "ibu: 31") || !strings.Contains(form, "boil: 75 min") {
		t.Errorf("the form holds\n%s", form)
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
