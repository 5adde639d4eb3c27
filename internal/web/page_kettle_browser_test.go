// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"gyle/gyle"
)

// phone starts a Chromium that keeps what it stores in a folder. Its battery is
// pulled by drop: the process is killed and has no time to put anything away.
func phone(t *testing.T, folder string) (ctx context.Context, drop func()) {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" || testing.Short() {
		t.Skip("needs a Chromium")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true), chromedp.UserDataDir(folder))
	ctx, endBrowser := chromedp.NewExecAllocator(t.Context(), options...)
	ctx, endTab := chromedp.NewContext(ctx)
	ctx, endTime := context.WithTimeout(ctx, time.Minute)
	if err := chromedp.Do(ctx); err != nil { // starts it
		t.Fatal(err)
	}
	process := chromedp.FromContext(ctx).Browser.Process()
	return ctx, func() {
		if err := process.Kill(); err != nil {
			t.Errorf("the browser wasn't there to be killed: %v", err)
		}
		endTime()
		endTab()
		endBrowser()
		for end := time.Now().Add(30 * time.Second); process.Signal(syscall.Signal(0)) == nil; time.Sleep(20 * time.Millisecond) {
			if time.Now().After(end) {
				t.Fatal("the browser outlives its end")
			}
		}
	}
}

// network serves a book on one port; it can be cut and mended.
type network struct {
	t       *testing.T
	handler http.Handler
	address string
	server  *http.Server
}

func (n *network) mend() {
	n.t.Helper()
	var l net.Listener
	var err error
	for range 50 {
		if l, err = net.Listen("tcp", n.address); err == nil {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	if err != nil {
		n.t.Fatal(err)
	}
	n.address = l.Addr().String()
	n.server = &http.Server{Handler: n.handler}
	go n.server.Serve(l)
}

func (n *network) cut() { n.server.Close() }

func (n *network) page() string {
	return strings.Replace("http://"+n.address, "127.0.0.1", "localhost", 1)
}

// begun begins a gyle from the plan of Ferry Brown 3 and returns its name.
func begun(t *testing.T, s *Server) string {
	t.Helper()
	w := near(t, s).post("/brew", url.Values{"recipe": {"ferry-brown-3"}, "house": {"garage"}, "stock": {"garage-shed"}, "water": {"saltpan-lane"}, "brewday": {"2026-03-07"}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("begin: %d\n%s", w.Code, w.Body)
	}
	return strings.TrimPrefix(w.Header().Get("Location"), "/gyle/")
}

// askFor puts all questions before one of a task off, so that it is asked.
const askFor = `(task, n) => { const path = document.getElementById("kettle").dataset.path, put = [];
	const state = JSON.parse(document.getElementById("kettle").dataset.state);
	for (const t of state.tasks) { if (t.key === task) break; for (const a of t.asks) put.push(t.key + "#" + a.n); }
	localStorage.setItem("gyle-later:" + path, JSON.stringify(put)); dispatchEvent(new Event("storage")); }`

func sayAtKettle(t *testing.T, ctx context.Context, typed string) {
	t.Helper()
	evaluate[chromedp.Void](t, ctx, `document.getElementById("typed").value = "`+typed+`"; document.getElementById("answer").requestSubmit(); undefined`)
}

// ringsWhenAsked looks at the alarm: it counts down in words, rings only once it
// was asked to, says so politely, and stops when somebody has heard it. The
// tasks are told and looked at in one step, for the page tells its own again.
func ringsWhenAsked(t *testing.T, ctx context.Context) {
	t.Helper()
	const rings = `(ms, press) => { const bar = document.getElementById("alarm"), el = (id) => document.getElementById(id);
		document.dispatchEvent(new CustomEvent("gyle-tasks", {detail: [{key: "x", what: "Challenger in", due: new Date(Date.now() + ms).toISOString()}]}));
		const before = el("alarm-next").textContent + (bar.classList.contains("ringing") ? ", ringing" : "");
		if (press) el(press).click();
		return before + " | " + (bar.classList.contains("ringing") ? "ringing" : "quiet") + " | " + el("alarm-on").getAttribute("aria-pressed") + " | " + el("alarm-said").textContent; }`
	for _, step := range []struct{ ms, press, want string }{
		{"12*60000 + 500", "", "Challenger in: in 12 minutes | quiet | false | "},
		{"65*60000 + 500", "", "Challenger in: in 1 hour 5 minutes | quiet | false | "},
		{"-1000", "", "Challenger in: now | quiet | false | Challenger in: now"},
		{"-1000", "alarm-on", "Challenger in: now | ringing | true | Challenger in: now"},
		{"-2000", "alarm-heard", "Challenger in: now, ringing | quiet | true | Challenger in: now"},
		{"-4*60000 - 500", "alarm-on", "Challenger in: 4 minutes late, ringing | quiet | false | Challenger in: 4 minutes late"},
	} {
		press := "null"
		if step.press != "" {
			press = `"` + step.press + `"`
		}
		got := evaluate[string](t, ctx, "("+rings+")("+step.ms+", "+press+")")
		if step.ms[0] == '-' && got != step.want || !strings.HasPrefix(got, step.want) {
			t.Errorf("a task due in %s ms: %s, want %s", step.ms, got, step.want)
		}
	}
}

// A phone whose network goes: answers are kept, the browser is killed and opened
// again on its folder without network, more is answered, one is taken back; when the network
// returns the log is complete, in order, and nothing stands twice.
func TestBrowserKettleWithoutNetwork(t *testing.T) {
	folder := t.TempDir()
	s := newTestServer(t, Options{Book: fullBook(t)})
	slug := begun(t, s)
	n := &network{t: t, handler: s, address: "127.0.0.1:0"}
	n.mend()
	defer func() { n.cut() }()
	ctx, drop := phone(t, folder)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(360, 740), chromedp.Navigate(n.page()+"/gyle/"+slug+"/kettle")); err != nil {
		t.Fatal(err)
	}
	waitFor(t, ctx, "the page and its options to be kept", `document.getElementById("kettle").dataset.offline === "ready" && document.getElementById("kettle").dataset.options === "kept"`)
	evaluate[chromedp.Void](t, ctx, `(`+askFor+`)("full kettle"); undefined`)
	waitFor(t, ctx, "the question", `document.getElementById("question").textContent.includes("volume")`)

	n.cut()
	sayAtKettle(t, ctx, "26.4 @95")
	waitFor(t, ctx, "the next question", `document.getElementById("question").textContent.includes("gravity")`)
	sayAtKettle(t, ctx, "1.0415 @24")
	waitFor(t, ctx, "both kept on the phone", `document.getElementById("net").textContent.startsWith("2 on this phone") && document.getElementById("kettle").dataset.shelved === "2"`)
	// The options of the published scenario (need 3), reckoned on the phone.
	waitFor(t, ctx, "the options without network", `document.querySelectorAll("#tickets .ticket").length === 4 && document.getElementById("told").textContent.includes("Reckoned on this phone")`)
	tickets := evaluate[string](t, ctx, `[...document.querySelectorAll("#tickets .ticket")].map(b => b.textContent).join("|")`)
	for _, want := range []string{"boil 87 min1.0500 · 21.6", "boil 60 min1.0474 · 22.8", "28.4 IBU", "extract1.0500"} {
		if !strings.Contains(tickets, want) {
			t.Errorf("the phone's options lack %q: %s", want, tickets)
		}
	}
	inspect(t, ctx, "kettle-tickets", 360)
	evaluate[chromedp.Void](t, ctx, `document.querySelectorAll("#tickets .ticket")[1].click(); undefined`)
	waitFor(t, ctx, "the ticket kept", `document.getElementById("waiting").textContent.startsWith("Kept: boil 7") && document.getElementById("kettle").dataset.shelved === "3"`)
	ringsWhenAsked(t, ctx)
	drop()

	ctx, drop = phone(t, folder)
	defer func() { drop() }()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(360, 740), chromedp.Navigate(n.page()+"/gyle/"+slug+"/kettle")); err != nil {
		t.Fatalf("reopen without network: %v", err)
	}
	waitFor(t, ctx, "what was kept", `document.getElementById("net").textContent.startsWith("3 on this phone")`)
	evaluate[chromedp.Void](t, ctx, `(`+askFor+`)("boil"); undefined`)
	waitFor(t, ctx, "the boil", `document.getElementById("question").textContent.includes("it boils")`)
	evaluate[chromedp.Void](t, ctx, `document.getElementById("answer").requestSubmit(); undefined`)
	waitFor(t, ctx, "the deed", `document.getElementById("net").textContent.startsWith("4 on this phone")`)
	evaluate[chromedp.Void](t, ctx, `document.getElementById("undo").click(); undefined`)
	waitFor(t, ctx, "the undo", `document.getElementById("net").textContent.startsWith("5 on this phone")`)

	n.mend()
	waitFor(t, ctx, "the book to take all", `document.getElementById("net").textContent === "in the book"`)
	g, _, err := ReadGyle(t.Context(), s.book, slug)
	if err != nil {
		t.Fatal(err)
	}
	var says []string
	for _, e := range g.Log {
		says = append(says, strings.TrimSpace(e.Sort()+" "+e.Words()))
	}
	want := "reading volume 26.4 @95|reading gravity 1.0415 @24|choice took: boil 75 min|deed boil start|strike"
	if got := strings.Join(says, "|"); got != want {
		t.Errorf("the log is\n%s\nwant\n%s", got, want)
	}
	seen := map[gyle.ID]bool{}
	for _, f := range g.Log.Current() {
		if seen[f.Entry.ID] {
			t.Errorf("%s stands twice", f.Entry.ID)
		}
		seen[f.Entry.ID] = true
		if (f.Entry.Deed != nil) != f.Struck {
			t.Errorf("%s: struck is %v", f.Entry.Words(), f.Struck)
		}
	}
	inspect(t, ctx, "kettle-question", 360)
	const small = `[...document.querySelectorAll("button, input, a[href]")].filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 18/25.4*96 - 0.5).map(e => e.outerHTML.slice(0, 60))`
	for _, target := range evaluate[[]string](t, ctx, small) {
		t.Errorf("lower than 18 mm: %s", target)
	}
}

// Two devices append at once: nothing is lost, nothing twice; a device whose
// clock is an hour ahead is set right.
func TestTwoDevicesAppend(t *testing.T) {
	book := fullBook(t)
	s := newTestServer(t, Options{Book: book})
	slug := begun(t, s)
	server := httptest.NewServer(s)
	defer server.Close()
	const each = 20
	done := make(chan error)
	for device := range 2 {
		go func() {
			var err error
			for i := range each {
				id := string(rune('a'+device)) + string(rune('a'+i))
				ahead := time.Duration(device) * time.Hour
				now := s.now().Add(ahead).Format(time.RFC3339)
				body := `{"now":"` + now + `","entries":[{"id":"` + id + `","time":"` + now + `","note":"n"}]}`
				for range 2 { // the answer to the first is lost
					var answer *http.Response
					if answer, err = http.Post(strings.Replace(server.URL, "127.0.0.1", "localhost", 1)+"/gyle/"+slug+"/entries", "application/json", strings.NewReader(body)); err == nil {
						answer.Body.Close()
					}
				}
			}
			done <- err
		}()
	}
	for range 2 {
		if err := <-done; err != nil {
			t.Fatal(err)
		}
	}
	g, _, err := ReadGyle(t.Context(), book, slug)
	if err != nil || len(g.Log) != 2*each {
		t.Fatalf("%d entries, want %d: %v", len(g.Log), 2*each, err)
	}
	for _, e := range g.Log {
		if off := e.When().Sub(s.now()).Abs(); off > 5*time.Second {
			t.Errorf("%s is %v off", e.ID, off)
		}
	}
}
