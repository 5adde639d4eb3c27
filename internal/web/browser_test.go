// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// shots makes the browser tests leave pictures of the pages in a folder, to be
// looked at: go test ./internal/web -run Browser -shots /some/folder
var shots = flag.String("shots", "", "folder for pictures of the pages")

// atLeisure reports whether pictures are made or the tests have time.
func atLeisure() bool { return *shots != "" || os.Getenv("GYLE_SOAK") != "" }

// widths are the widths at which pages are inspected: a phone and a desk; a
// tablet too at leisure.
func widths() []int64 {
	if atLeisure() {
		return []int64{360, 768, 1440}
	}
	return []int64{360, 1440}
}

// manyPages starts a browser for a test that only looks at pages. In a hurry
// TestEveryPage of cmd/gyle has looked at each of them on a real book, so the
// test is left out.
func manyPages(t *testing.T) context.Context {
	t.Helper()
	if !atLeisure() {
		t.Skip("cmd/gyle looks at these pages; set GYLE_SOAK=1 or -shots to look at them here, at every width")
	}
	return browser(t)
}

// browser starts a Chromium, or skips the test where there is none.
func browser(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("needs a browser; left out of short runs")
	}
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		t.Skip("no Chromium on this machine: install one to run the browser tests")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.UserDataDir(t.TempDir()))
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

// look opens a page at a width and inspects it.
func look(t *testing.T, ctx context.Context, address, name string, width int64) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(address)); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	inspect(t, ctx, name, width)
}

// inspect checks the page that is open for barriers and leaves a picture.
func inspect(t *testing.T, ctx context.Context, name string, width int64) {
	t.Helper()
	if wide := evaluate[float64](t, ctx, `document.documentElement.scrollWidth`); wide > float64(width) {
		t.Errorf("%s at %d px is %.0f px wide", name, width, wide)
	}
	for _, small := range evaluate[[]string](t, ctx, smallTargets) {
		t.Errorf("%s at %d px: target too small: %s", name, width, small)
	}
	for _, barrier := range axe(t, ctx) {
		t.Errorf("%s at %d px: %s", name, width, barrier)
	}
	if *shots == "" {
		return
	}
	picture, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	keep(t, fmt.Sprintf("%s-%d.png", name, width), picture, err)
}

func keep(t *testing.T, name string, content []byte, err error) {
	t.Helper()
	if err == nil {
		err = os.WriteFile(filepath.Join(*shots, name), content, 0o644)
	}
	if err != nil {
		t.Errorf("%s: %v", name, err)
	}
}

// smallTargets lists what is pressed and is less than 44 px high. Links within
// a sentence are excepted, as in WCAG 2.2, 2.5.8.
const smallTargets = `[...document.querySelectorAll("button, .button, input:not([type=hidden], [type=radio], [type=checkbox]), .choice, nav a, .title[href], summary")]
	.filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 43.5)
	.map(e => e.outerHTML.slice(0, 80) + " " + e.getBoundingClientRect().height)`

func evaluate[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		t.Fatalf("evaluate: %v", err)
	}
	return value
}

// axe runs the accessibility rules of WCAG 2.2 AA, and contrast of 7:1, on the
// page and lists what breaks them.
func axe(t *testing.T, ctx context.Context) (barriers []string) {
	t.Helper()
	script, err := os.ReadFile("testdata/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	evaluate[chromedp.Void](t, ctx, string(script)+";undefined")
	evaluate[chromedp.Void](t, ctx, `void axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"],
		rules: {"color-contrast-enhanced": {enabled: true}}}).then(r => { window.found = JSON.stringify(r.violations.map(v => ({
			id: v.id, help: v.help, nodes: v.nodes.map(n => n.html.slice(0, 120)).slice(0, 4)}))); })`)
	found, err := chromedp.Run(ctx, chromedp.Poll[string](`window.found`, chromedp.WithPollingTimeout(20*time.Second)))
	if err != nil {
		t.Fatalf("axe: %v", err)
	}
	var violations []struct {
		ID, Help string
		Nodes    []string
	}
	if err := json.Unmarshal([]byte(found), &violations); err != nil {
		t.Fatal(err)
	}
	for _, v := range violations {
		barriers = append(barriers, v.ID+": "+v.Help+": "+strings.Join(v.Nodes, " | "))
	}
	return barriers
}

func TestBrowserPages(t *testing.T) {
	ctx := manyPages(t)
	s := newTestServer(t, Options{Book: fullBook(t), LAN: true, Links: []string{"http://192.168.7.2:8417/"}})
	server := httptest.NewServer(s)
	defer server.Close()
	pages := map[string]string{
		"home": "/", "first": "/first", "list": "/recipe", "document": "/recipe/ferry-brown-4", "style": "/style/oat-brown-ale",
		"edit":    "/recipe/ferry-brown-4/text",
		"history": "/recipe/ferry-brown-4/history", "revision": "/recipe/ferry-brown-4/at/1",
		"find": "/find?words=oats", "why": "/why/hops.IsoRate", "formulas": "/why", "settings": "/settings", "devices": "/devices", "missing": "/nothing/here",
	}
	for name, path := range pages {
		for _, width := range widths() {
			look(t, ctx, server.URL+path, name, width)
		}
		if *shots != "" {
			sheet, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
			keep(t, name+".pdf", sheet, err)
		}
	}
}

// Typing a fault shows it beside the text without losing the caret; saving it
// shows it again, with the text as it was typed.
func TestBrowserEdit(t *testing.T) {
	ctx := browser(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(server.URL+"/recipe/ferry-brown-4/text")); err != nil {
		t.Fatal(err)
	}
	evaluate[chromedp.Void](t, ctx, `const text = document.getElementById("text"); text.focus(); text.setSelectionRange(text.value.indexOf("ibu:"), text.value.indexOf("ibu:")); undefined`)
	if err := chromedp.Do(ctx, chromedp.KeyEvent("x")); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.querySelector("#check mark")?.textContent === "xibu"`, chromedp.WithPollingTimeout(10*time.Second))); err != nil {
		t.Fatalf("the fault didn't show: %v", err)
	}
	if !evaluate[bool](t, ctx, `document.activeElement.id === "text" && document.activeElement.selectionStart === document.activeElement.value.indexOf("ibu:")`) {
		t.Error("the caret moved")
	}
	evaluate[chromedp.Void](t, ctx, `document.querySelector("[data-goto]").click(); undefined`)
	if got := evaluate[string](t, ctx, `document.getElementById("text").value.slice(document.getElementById("text").selectionStart, document.getElementById("text").selectionEnd)`); got != "xibu" {
		t.Errorf("the link to the fault selects %q", got)
	}
	press(t, ctx, ".deeds button", ".faults .hint")
	if !evaluate[bool](t, ctx, `document.getElementById("text").value.includes("xibu")`) {
		t.Error("the faulty text isn't there after saving")
	}
	for _, barrier := range axe(t, ctx) {
		t.Error(barrier)
	}
	if *shots != "" {
		picture, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
		keep(t, "faults-1440.png", picture, err)
	}
}

// press clicks a button and waits for the page that follows.
func press(t *testing.T, ctx context.Context, button, wanted string) {
	t.Helper()
	evaluate[chromedp.Void](t, ctx, `window.before = true; undefined`)
	if err := chromedp.Do(ctx, chromedp.Click(button)); err != nil {
		t.Fatal(err)
	}
	await(t, ctx, wanted)
}

// await waits until the page holds an element, through changes of page.
func await(t *testing.T, ctx context.Context, wanted string) {
	t.Helper()
	for range 200 {
		there, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`!window.before && document.readyState === "complete" && document.querySelector(`+"`"+wanted+"`"+`) !== null`))
		if err == nil && there {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("no %s came", wanted)
}

// Two hands on one page: the second one sees both texts, and saving keeps both
// revisions.
func TestBrowserConflict(t *testing.T) {
	ctx := browser(t)
	book := fullBook(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: book}))
	defer server.Close()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(server.URL+"/recipe/ferry-brown-4/edit")); err != nil {
		t.Fatal(err)
	}
	d, _ := book.Get(ctx, "recipe", "ferry-brown-4")
	_, err := book.Save(ctx, Draft{Kind: d.Kind, Slug: d.Slug, Text: strings.Replace(d.Text, "ibu: 29", "ibu: 31", 1), Author: "B. Alewright", Why: "firmer", Base: 1})
	if err != nil {
		t.Fatal(err)
	}
	evaluate[chromedp.Void](t, ctx, `document.getElementById("f-aims-og").value = "1.052"; undefined`)
	press(t, ctx, `.deeds button[value="save"]`, "#theirs")
	inspect(t, ctx, "conflict", 1440)
	press(t, ctx, ".deeds button", ".notice")
	if now, _ := book.Get(ctx, "recipe", "ferry-brown-4"); now.Revision != 3 || !strings.Contains(now.Text, "og: 1.052") {
		t.Errorf("saved revision %d\n%s", now.Revision, now.Text)
	}
	look(t, ctx, server.URL+"/recipe/ferry-brown-4/at/3", "merged", 1440)
	look(t, ctx, server.URL+"/recipe/ferry-brown-4/history", "revisions", 360)
}

// Enter in a field saves; it doesn't press a button that takes the lot out.
func TestBrowserEnterSaves(t *testing.T) {
	ctx := browser(t)
	book := fullBook(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: book}))
	defer server.Close()
	if err := chromedp.Do(ctx, chromedp.Navigate(server.URL+"/stock/garage-shed/lot?list=malts&n=1")); err != nil {
		t.Fatal(err)
	}
	evaluate[chromedp.Void](t, ctx, `const mass = document.getElementsByName("malts[0].mass")[0]; mass.value = "7.7 kg"; mass.focus(); undefined`)
	if err := chromedp.Do(ctx, chromedp.KeyEvent("\r")); err != nil {
		t.Fatal(err)
	}
	await(t, ctx, ".notice")
	before, _ := book.GetRevision(ctx, "stock", "garage-shed", 1)
	if now, _ := book.Get(ctx, "stock", "garage-shed"); now.Revision != 2 || !strings.Contains(now.Text, "7.7 kg") || strings.Count(now.Text, "lot:") != strings.Count(before.Text, "lot:") {
		t.Errorf("saved revision %d\n%s", now.Revision, now.Text)
	}
}

// A phone pairs, an empty book leads on, and a refused deletion says why.
func TestBrowserFirstSteps(t *testing.T) {
	ctx := browser(t)
	empty := httptest.NewServer(newTestServer(t, Options{Book: newTestBook(), Demo: func(context.Context) error { return nil }}))
	defer empty.Close()
	look(t, ctx, empty.URL, "empty", 360)
	look(t, ctx, empty.URL+"/recipe", "empty-list", 360)
	full := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer full.Close()
	look(t, ctx, full.URL+"/style/oat-brown-ale", "style", 360)
	press(t, ctx, ".remove button", `input[name="anyway"]`)
	inspect(t, ctx, "referenced", 360)
	press(t, ctx, ".deeds button", ".notice")
	inspect(t, ctx, "deleted", 360)
	press(t, ctx, ".notice button", ".notice")
	inspect(t, ctx, "restored", 360)
}
