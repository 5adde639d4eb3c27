// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"gyle/guest"
)

// reader opens a page from a file, in a browser without network.
func reader(t testing.TB, page []byte) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("needs a browser; left out of short runs")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no Chromium on this machine: install one to run the tests in a browser")
	}
	file := filepath.Join(t.TempDir(), "ferry-brown.html")
	if err := os.WriteFile(file, page, 0o644); err != nil {
		t.Fatal(err)
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND"), chromedp.UserDataDir(t.TempDir()))
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(cancel)
	do(t, ctx, chromedp.EmulateViewport(1100, 900), chromedp.Navigate("file://"+file))
	wait(t, ctx, `document.body.dataset.ready === "yes" || document.getElementById("state").classList.contains("problem")`)
	return ctx
}

func do(t testing.TB, ctx context.Context, actions ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, actions...); err != nil {
		t.Fatal(err)
	}
}

func wait(t testing.TB, ctx context.Context, condition string) {
	t.Helper()
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](condition, chromedp.WithPollingTimeout(60*time.Second))); err != nil {
		t.Fatalf("wait for %s: %v", condition, err)
	}
}

func ask[T any](t testing.TB, ctx context.Context, script string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		t.Fatalf("%s: %v", script, err)
	}
	return v
}

// answer types into a field as a reader does.
func answer(t testing.TB, ctx context.Context, name, text string) {
	t.Helper()
	ask[bool](t, ctx, fmt.Sprintf(`(() => { const e = document.getElementsByName(%q)[0]; e.value = %q; e.dispatchEvent(new Event("input", {bubbles: true})); return true; })()`, name, text))
}

// A stranger with another kettle, other hops and other units opens the page
// from a file, without a network, and gets what gyle computes for that house.
func TestStrangerReadsThePage(t *testing.T) {
	engine, err := built()
	if err != nil {
		t.Fatal(err)
	}
	b := ferryBrown(t)
	page, err := Page(b, engine)
	if err != nil {
		t.Fatal(err)
	}
	const most = 1_600_000
	if len(page) > most && engine.Packing == "lzma" {
		t.Errorf("the page has %d bytes, more than %d", len(page), most)
	}
	ctx := reader(t, page)
	if state := ask[string](t, ctx, `document.getElementById("state").textContent`); state != "" {
		t.Fatalf("the page says %q", state)
	}
	ask[bool](t, ctx, `(() => { const e = document.querySelector("[name=units][value=us]"); e.checked = true; e.dispatchEvent(new Event("input", {bubbles: true})); return true; })()`)
	answers := map[string]string{"size": "6.08 US gal", "kettle": "11 US gal", "mash tun": "11 US gal", "evaporation": "14 %/h", "alpha challenger": "6.1", "color chocolate": "1060 EBC", "grain": "64 °F"}
	for _, name := range []string{"kettle", "mash tun", "size", "evaporation", "alpha challenger", "color chocolate", "grain"} {
		answer(t, ctx, name, answers[name])
	}
	kit, err := guest.Pack(b.Input, b.Style)
	if err != nil {
		t.Fatal(err)
	}
	table, err := guest.Open(kit)
	if err != nil {
		t.Fatal(err)
	}
	want := table.Brew(guest.Request{Answers: answers, US: true})
	if want.Sheet == nil {
		t.Fatalf("%+v", want)
	}
	for id, rows := range map[string][][]string{"figures": want.Sheet.Figures, "grist": want.Sheet.Grist, "liquor": want.Sheet.Liquor, "hops": want.Sheet.Hops, "kettle": want.Sheet.Kettle} {
		got := ask[[][]string](t, ctx, fmt.Sprintf(`[...document.getElementById(%q).rows].map(r => [...r.cells].map(c => c.textContent))`, id))
		a, _ := json.Marshal(got)
		w, _ := json.Marshal(rows)
		if string(a) != string(w) {
			t.Errorf("%s:\n%s\nwant\n%s", id, a, w)
		}
	}
	if !strings.Contains(ask[string](t, ctx, `document.getElementById("house-document").textContent`), "gyle: brewhouse/1") {
		t.Error("the page doesn't write the reader's brewery down")
	}
	answer(t, ctx, "size", "5 gal")
	if says := ask[string](t, ctx, `document.getElementsByName("size")[0].parentElement.querySelector(".fault").textContent`); !strings.Contains(says, "US 18.93 L or imperial 22.73 L") {
		t.Errorf("5 gal is answered by %q", says)
	}
	answer(t, ctx, "size", "6.08 US gal")
	if n := ask[float64](t, ctx, `performance.getEntriesByType("resource").length`); n != 0 {
		t.Errorf("the page asked for %v files", n)
	}
	printed(t, ctx)
	remembers(t, ctx)
	readable(t, ctx)
}

// printed prints the brew sheet as its button does: two pages on A4 and on US
// letter, front and back of one leaf.
func printed(t *testing.T, ctx context.Context) {
	t.Helper()
	ask[bool](t, ctx, `(document.body.classList.add("sheet-only"), true)`)
	for name, paper := range map[string]chromedp.PaperSize{"A4": {Width: 8.27, Height: 11.69}, "US letter": {Width: 8.5, Height: 11}} {
		pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFPreferCSSPageSize()))
		if err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(pdf, []byte("/Type /Page\n")); n < 1 || n > 2 {
			t.Errorf("the brew sheet takes %d pages of %s", n, name)
		}
	}
	ask[bool](t, ctx, `(document.body.classList.remove("sheet-only"), true)`)
}

// remembers loads the page again and looks for what was typed.
func remembers(t *testing.T, ctx context.Context) {
	t.Helper()
	do(t, ctx, chromedp.Reload())
	wait(t, ctx, `document.body.dataset.ready === "yes"`)
	if size := ask[string](t, ctx, `document.getElementsByName("size")[0].value`); size != "6.08 US gal" {
		t.Errorf("the page remembers a size of %q", size)
	}
}

// readable looks for barriers at three widths.
func readable(t *testing.T, ctx context.Context) {
	t.Helper()
	script, err := os.ReadFile("../internal/web/testdata/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, width := range []int64{360, 768, 1440} {
		do(t, ctx, chromedp.EmulateViewport(width, 900))
		if wide := ask[float64](t, ctx, `document.documentElement.scrollWidth`); wide > float64(width) {
			t.Errorf("at %d px the page is %v px wide", width, wide)
		}
		do(t, ctx, chromedp.Evaluate[chromedp.Void](string(script)+";undefined"),
			chromedp.Evaluate[chromedp.Void](`window.found = undefined; void axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"], rules: {"color-contrast-enhanced": {enabled: true}}})
				.then(r => { window.found = JSON.stringify(r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 100)).slice(0, 3).join(" | "))); })`))
		found, err := chromedp.Run(ctx, chromedp.Poll[string](`window.found`, chromedp.WithPollingTimeout(60*time.Second)))
		if err != nil {
			t.Fatal(err)
		}
		if found != "[]" {
			t.Errorf("at %d px: %s", width, found)
		}
	}
}

// What a hostile document says is shown and never run.
func TestHostilePageStaysText(t *testing.T) {
	engine, err := built()
	if err != nil {
		t.Fatal(err)
	}
	b := ferryBrown(t)
	r := *b.Input.Recipe
	r.Name = `</script><script>document.title = "broken"</script><img src=x onerror="document.title='broken'">`
	b.Input.Recipe = &r
	page, err := Page(b, engine)
	if err != nil {
		t.Fatal(err)
	}
	ctx := reader(t, page)
	answer(t, ctx, "size", "12 L")
	if title := ask[string](t, ctx, `document.title`); title == "broken" || !strings.Contains(title, "</script>") {
		t.Errorf("the title is %q", title)
	}
	if n := ask[float64](t, ctx, `document.images.length`); n != 0 {
		t.Errorf("%v images on the page", n)
	}
	if heading := ask[string](t, ctx, `document.getElementById("sheet-title").textContent`); !strings.Contains(heading, "12.0 L") {
		t.Errorf("the sheet is of %q", heading)
	}
}
