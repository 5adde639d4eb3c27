// SPDX-License-Identifier: MIT

package main

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	browserpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// person is somebody at a browser who has a keyboard and no mouse.
type person struct {
	t       testing.TB
	ctx     context.Context
	address string
}

// newPerson starts a browser, or skips the test where there is none.
func newPerson(t testing.TB, address string) *person {
	t.Helper()
	if testing.Short() {
		t.Skip("needs a browser; left out of short runs")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no Chromium on this machine: install one to run the tests in a browser")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.UserDataDir(t.TempDir()))
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(cancel)
	p := &person{t, ctx, strings.TrimSuffix(address, "/")}
	p.ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	p.ctx, cancel = context.WithTimeout(p.ctx, 10*time.Minute)
	t.Cleanup(cancel)
	p.do(chromedp.EmulateViewport(1280, 900))
	if err := chromedp.Listen(p.ctx, p.leave); err != nil {
		t.Fatal(err)
	}
	return p
}

// leave says yes when a page asks whether to leave what was typed unsaved.
func (p *person) leave(event any) {
	if _, asked := event.(*browserpage.EventJavascriptDialogOpening); asked {
		go func() {
			_, _ = chromedp.Call(p.ctx, browserpage.HandleJavaScriptDialog, browserpage.HandleJavaScriptDialogParams{Accept: true})
		}()
	}
}

func (p *person) do(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, actions...); err != nil {
		p.t.Fatal(err)
	}
}

func (p *person) open(path string) {
	p.t.Helper()
	p.do(chromedp.Navigate(p.address + path))
}

func (p *person) keys(text string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(text))
}

// see waits until a script says yes. A page that is being left can't be asked.
func (p *person) see(what, script string) {
	p.t.Helper()
	for end := time.Now().Add(15 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if seen, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](script)); err == nil && seen {
			return
		}
	}
	text, _ := chromedp.Run(p.ctx, chromedp.Evaluate[string](`location.href + "\n" + document.querySelector("main").innerText.slice(0, 1500)`))
	p.t.Fatalf("%s is not to be seen on %s", what, text)
}

func (p *person) read(text string) {
	p.t.Helper()
	p.see(fmt.Sprintf("%q", text), fmt.Sprintf(`document.readyState === "complete" && document.querySelector("main").innerText.includes(%q)`, text))
}

// arrive waits for a page.
func (p *person) arrive(path string) {
	p.t.Helper()
	p.see("the page "+path, fmt.Sprintf(`document.readyState === "complete" && (location.pathname + location.search).startsWith(%q)`, path))
}

// tab presses Tab until an element has the focus, and looks whether that shows.
func (p *person) tab(selector string) {
	p.t.Helper()
	for range 250 {
		p.keys(kb.Tab)
		at, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](fmt.Sprintf(`document.activeElement.matches(%q)`, selector)))
		if err == nil && at {
			shows, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](`(s => s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 1)(getComputedStyle(document.activeElement))`))
			if err != nil || !shows {
				p.t.Errorf("the focus on %s doesn't show", selector)
			}
			return
		}
	}
	text, _ := chromedp.Run(p.ctx, chromedp.Evaluate[string](`location.href + "\n" + document.querySelector("main").innerText.slice(0, 1500)`))
	p.t.Fatalf("Tab doesn't lead to %s on %s", selector, text)
}

// begin types into the field that has the focus when a page has come.
func (p *person) begin(selector, text string) {
	p.t.Helper()
	p.see("the focus on "+selector, fmt.Sprintf(`document.readyState === "complete" && document.activeElement.matches(%q)`, selector))
	p.keys(text)
}

// write goes to a field by Tab and types.
func (p *person) write(selector, text string) {
	p.t.Helper()
	p.tab(selector)
	p.keys(text)
}

// print makes a PDF of the page and returns its text and the number of pages,
// where the machine can read PDFs.
func (p *person) print(name string) (text string, pages int) {
	p.t.Helper()
	content, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	if err != nil || !strings.HasPrefix(string(content), "%PDF") {
		p.t.Fatalf("print %s: %v", name, err)
	}
	pages = strings.Count(string(content), "/Type /Page\n") + strings.Count(string(content), "/Type /Page ")
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		return "", pages
	}
	file := filepath.Join(p.t.TempDir(), name+".pdf")
	if err := os.WriteFile(file, content, 0o600); err != nil {
		p.t.Fatal(err)
	}
	out, err := exec.Command(reader, "-layout", file, "-").Output()
	if err != nil {
		p.t.Fatal(err)
	}
	return string(out), strings.Count(string(out), "\f")
}

// From an empty book to a printed brew sheet: a style with five rules, a
// recipe whose verdicts change while it is typed, the same beer on two houses,
// a next version with its reason, found again, printed. By keyboard alone.
func TestPathOfANewBrewer(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "new.gylebook")})
	p := newPerson(t, address)
	defer end()
	p.open("/")
	p.read("The first page")
	p.tab(`main a[href="/new/style"]`)
	p.keys(kb.Enter)
	p.arrive("/new/style")
	p.write(`[name="name"]`, "Harbour mild\r")
	p.arrive("/style/harbour-mild")
	for _, rule := range []struct{ subject, field, what, in, why string }{
		{"figure", "figure", "original", "1.034..1.040", "a pint for a long evening"},
		{"figure", "figure", "bitterness", "16..24 IBU", "mild means mild"},
		{"share", "share", "class crystal", "4..10 %", "toffee; above 10 it cloys"},
		{"ibu from", "ibu from", "boil 45 min..", "80 %..", "no hop nose"},
		{"yeast", "yeast", "temp", "17..21 °C", "some fruit"},
	} {
		p.ruleByKeyboard("harbour-mild", rule.subject, rule.field, rule.what, rule.in, rule.why)
	}
	p.recipeByKeyboard()
	p.housesFromTheExample()
	p.planOnTwoHouses()
	p.nextVersion()
	p.findAndPrint()
}

func (p *person) ruleByKeyboard(slug, subject, field, what, in, why string) {
	p.t.Helper()
	p.open("/style/" + slug + "/rule")
	p.tab(`a[href*="subject=` + strings.ReplaceAll(subject, " ", "%20") + `"]`)
	p.keys(kb.Enter)
	p.arrive("/style/" + slug + "/rule?")
	p.write(`[name$="].`+field+`"]`, what)
	p.write(`[name$="].in"]`, in)
	p.write(`[name$="].why"]`, why+"\r")
	p.arrive("/style/" + slug + "/rules?done=saved")
}

func (p *person) recipeByKeyboard() {
	p.t.Helper()
	p.open("/new/recipe")
	p.write("#f-name", "Lantern Mild")
	p.write("#f-style", "harbour-mild")
	p.write("#f-size", "20 L")
	p.write("#f-aims-og", "1.036")
	p.write("#f-aims-ibu", "20")
	p.write("#f-aims-co2", "2 vol")
	p.write("#f-grist-0-share", "82 %")
	p.write("#f-grist-0-malt", "pale-ale")
	p.write("#f-grist-1-share", "18 %")
	p.write("#f-grist-1-malt", "crystal")
	p.see("the broken rule, before anything is saved", `document.querySelector("#look").innerText.includes("above 10 it cloys")`)
	p.keys(kb.Escape)
	// Back to the shares: Shift and Tab.
	for range 3 {
		p.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(8)))
	}
	p.write("#f-grist-1-share", "")
	p.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(2)))
	p.keys("8 %")
	p.see("the sum", `document.querySelector("#look").innerText.includes("90 %")`)
	p.see("the mended rule", `!document.querySelector("#look").innerText.includes("above 10 it cloys")`)
	p.write("#f-grist-2-share", "10 %")
	p.write("#f-grist-2-malt", "oats-flaked")
	p.write("#f-mash-rests-0", "68 °C for 60 min")
	p.write("#f-hops-0-bitterness", "20 IBU")
	p.write("#f-hops-0-hop", "challenger")
	p.write("#f-hops-0-at", "boil 60 min")
	p.tab(`.deeds button[value="save"]`)
	p.keys(kb.Enter)
	p.arrive("/recipe/lantern-mild")
	p.read("Lantern Mild")
}

// housesFromTheExample brings the houses in as another program would: by import.
func (p *person) housesFromTheExample() {
	p.t.Helper()
	for _, name := range []string{"garage", "boathouse"} {
		text, err := os.ReadFile("../../examples/" + name + ".yaml")
		if err != nil {
			p.t.Fatal(err)
		}
		p.open("/new/brewhouse?as=text")
		p.tab("#text")
		p.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(2)))
		p.keys(strings.ReplaceAll(string(text), "\n", "\r"))
		p.tab(`.deeds button.first`)
		p.keys(kb.Enter)
		p.arrive("/brewhouse/" + name)
	}
}

func (p *person) planOnTwoHouses() {
	p.t.Helper()
	for _, house := range []string{"garage", "boathouse"} {
		p.open("/plan?recipe=lantern-mild&house=" + house)
		p.read("Kept")
		p.read("typical")
	}
	p.open("/compare?" + url.Values{"recipe": {"lantern-mild"}, "house": {"garage", "boathouse"}}.Encode())
	p.read("multiplied")
	p.read("Boathouse")
}

func (p *person) nextVersion() {
	p.t.Helper()
	p.open("/recipe/lantern-mild/edit")
	p.tab("#f-mash-rests-0")
	p.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(2)))
	p.keys("66 °C for 60 min")
	p.tab(`.deeds button[value="version"]`)
	p.keys(kb.Enter)
	p.see("the question what changed", `document.querySelector("#what") !== null`)
	p.write("#why", "it was heavy")
	p.write("#expect", "a drier end")
	p.keys(kb.Enter)
	p.arrive("/recipe/lantern-mild-2")
	p.read("it was heavy")
}

func (p *person) findAndPrint() {
	p.t.Helper()
	p.open("/find")
	p.begin("#words", "drier\r")
	p.arrive("/find?words=drier")
	p.read("Lantern Mild")
	p.tab(`main a[href="/recipe/lantern-mild-2"]`)
	p.keys(kb.Enter)
	p.arrive("/recipe/lantern-mild-2")
	for _, sheet := range []struct {
		name, path, text string
		pages            int
	}{
		{"recipe", "/recipe/lantern-mild-2", "Lantern Mild", 1},
		{"plan", "/plan?recipe=lantern-mild-2&house=garage", "Lantern Mild", 2},
		{"style", "/style/harbour-mild", "mild means mild", 1},
	} {
		p.open(sheet.path)
		text, pages := p.print(sheet.name)
		if text != "" && (!strings.Contains(text, sheet.text) || pages > sheet.pages) {
			p.t.Errorf("%s is printed on %d pages:\n%s", sheet.name, pages, text)
		}
	}
}

// Two people write the same recipe. The second to save sees both texts, and
// nothing that either has typed is lost.
func TestTwoBrowsersOneRecipe(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "two.gylebook"), Demo: true})
	first, second := newPerson(t, address), newPerson(t, address)
	defer end()
	for _, p := range []*person{first, second} {
		p.open("/recipe/ferry-brown-4/edit")
	}
	for _, typed := range []struct {
		by          *person
		field, text string
	}{{first, "#f-boil", "70 min"}, {second, "#f-grist-1-why", "silk, says the second"}} {
		typed.by.tab(typed.field)
		typed.by.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(2)))
		typed.by.keys(typed.text)
	}
	first.tab(`.deeds button[value="save"]`)
	first.keys(kb.Enter)
	first.arrive("/recipe/ferry-brown-4?")
	second.tab(`.deeds button[value="save"]`)
	second.keys(kb.Enter)
	second.see("both texts", `document.documentElement.textContent.includes("70 min") && document.documentElement.innerHTML.includes("silk, says the second")`)
	if _, text := fetch(t, address+"recipe/ferry-brown-4/text"); !strings.Contains(text, "boil: 70 min") || strings.Contains(text, "says the second") {
		t.Error("the first save isn't in the book, or the second went over it")
	}
	second.tab(`.deeds button.first`)
	second.keys(kb.Enter)
	second.arrive("/recipe/ferry-brown-4?")
	if _, text := fetch(t, address+"recipe/ferry-brown-4/text"); !strings.Contains(text, "boil: 70 min") || !strings.Contains(text, "says the second") {
		t.Errorf("merging lost something:\n%s", text)
	}
	if _, text := fetch(t, address+"recipe/ferry-brown-4/history"); strings.Count(text, "/at/") < 2 {
		t.Error("the history doesn't show both")
	}
}
