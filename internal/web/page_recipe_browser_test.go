// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"gyle/recipe"
)

// waitUntil waits for a page to come to a state. A page that is just being
// left can't be asked, so it asks again.
func waitUntil(t *testing.T, ctx context.Context, what, script string) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if reached, err := chromedp.Run(ctx, chromedp.Evaluate[bool](script)); err == nil && reached {
			return
		}
	}
	t.Fatalf("waited in vain for %s", what)
}

func pressKeys(t *testing.T, ctx context.Context, keys string) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.KeyEvent(keys)); err != nil {
		t.Fatal(err)
	}
}

func openRecipePage(t *testing.T, ctx context.Context, address string) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(address)); err != nil {
		t.Fatal(err)
	}
}

func TestBrowserRecipePages(t *testing.T) {
	ctx := manyPages(t)
	book := fullBook(t)
	book.settings[recipeHouseSetting], book.settings[recipeStockSetting], book.settings[recipeWaterSetting] = "garage", "garage-shed", "saltpan-lane"
	breakRules(t, book)
	server := httptest.NewServer(newTestServer(t, Options{Book: book}))
	defer server.Close()
	for name, path := range map[string]string{
		"recipe": "/recipe/ferry-brown-4", "recipe-broken": "/recipe/broken", "recipe-edit": "/recipe/broken/edit", "recipe-try": "/recipe/ferry-brown-4/try", "recipe-new": "/new/recipe",
	} {
		for _, width := range widths() {
			look(t, ctx, server.URL+path, name, width)
		}
	}
}

// breakRules puts a recipe into the book that the style has much to say of.
func breakRules(t *testing.T, book *testBook) {
	t.Helper()
	d, err := book.Get(t.Context(), recipe.Kind, "ferry-brown-4")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer("share: 65.3 %", "share: 59.3 %", "share: 12 %", "share: 18 %", "ibu: 29", "ibu: 43", "bitterness: 28", "bitterness: 42", "18..20 °C", "18..23 °C").Replace(d.Text)
	if _, err := book.Save(t.Context(), Draft{Kind: recipe.Kind, Slug: "broken", Text: text}); err != nil {
		t.Fatal(err)
	}
}

// Typing a share repaints the sum, the drawings and the verdicts, and leaves
// the caret where it was.
func TestBrowserRecipeRepaints(t *testing.T) {
	ctx := browser(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	openRecipePage(t, ctx, server.URL+"/recipe/ferry-brown-4/edit")
	evaluate[chromedp.Void](t, ctx, `window.strips = document.querySelector("#look svg").outerHTML; const share = document.getElementById("f-grist-1-share"); share.focus(); share.select(); undefined`)
	pressKeys(t, ctx, "18")
	waitUntil(t, ctx, "the sum", `document.querySelector("#look .r-sum").textContent.includes("106 %") && document.querySelector("#look .r-sum").textContent.includes("6 % too much")`)
	waitUntil(t, ctx, "the drawing", `document.querySelector("#look svg").outerHTML !== window.strips`)
	waitUntil(t, ctx, "the verdict", `document.querySelector("#look").textContent.includes("above 16 the bed slows")`)
	if !evaluate[bool](t, ctx, `document.activeElement.id === "f-grist-1-share" && document.activeElement.selectionStart === 2`) {
		t.Error("the caret moved")
	}
	pressKeys(t, ctx, " kilometres")
	waitUntil(t, ctx, "the fault", `document.querySelector('#look .r-troubles a[href="#f-grist-1-share"]') !== null`)
	for _, barrier := range axe(t, ctx) {
		t.Error(barrier)
	}
}

// tabTo moves on by the tabulator until an element has the focus.
func tabOn(t *testing.T, ctx context.Context, selector string) {
	t.Helper()
	for range 150 {
		pressKeys(t, ctx, kb.Tab)
		if evaluate[bool](t, ctx, `document.activeElement.matches(`+"`"+selector+"`"+`)`) {
			return
		}
	}
	t.Fatalf("the tabulator doesn't reach %s", selector)
}

// A row is added, filled and the whole saved as the next version by the
// keyboard alone.
func TestBrowserRecipeByKeyboard(t *testing.T) {
	ctx := browser(t)
	book := fullBook(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: book}))
	defer server.Close()
	openRecipePage(t, ctx, server.URL+"/recipe/ferry-brown-4/edit")
	tabOn(t, ctx, `button[value="add:hops"]`)
	pressKeys(t, ctx, kb.Enter)
	waitUntil(t, ctx, "the new row", `document.readyState === "complete" && document.activeElement.id === "f-hops-2-hop"`)
	pressKeys(t, ctx, "bramling-cross")
	tabOn(t, ctx, "#f-hops-2-at")
	pressKeys(t, ctx, "dry 3 d 14 °C")
	evaluate[chromedp.Void](t, ctx, `document.getElementById("f-hops-2-hop").focus(); undefined`)
	if err := chromedp.Do(ctx, chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(8))); err != nil { // shift
		t.Fatal(err)
	}
	pressKeys(t, ctx, "0.8 g/L")
	tabOn(t, ctx, `.deeds button[value="version"]`)
	pressKeys(t, ctx, kb.Enter)
	waitUntil(t, ctx, "the question", `document.querySelector(".r-next") !== null && document.activeElement.id === "what"`)
	for _, barrier := range axe(t, ctx) {
		t.Error(barrier)
	}
	shoot(t, ctx, "recipe-next.png")
	tabOn(t, ctx, "#why")
	pressKeys(t, ctx, "more hedge")
	tabOn(t, ctx, "#expect")
	pressKeys(t, ctx, "a hedge in the nose")
	pressKeys(t, ctx, kb.Enter)
	waitUntil(t, ctx, "the new version", `location.pathname === "/recipe/ferry-brown-5"`)
	d, err := book.Get(t.Context(), recipe.Kind, "ferry-brown-5")
	if err != nil || !strings.Contains(d.Text, "dose: 0.8 g/L\n  at: dry 3 d 14 °C") || !strings.Contains(d.Text, "expect: a hedge in the nose") {
		t.Errorf("saved was %q (%v)", d.Text, err)
	}
}

// shoot keeps a picture of the page as it stands.
func shoot(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	if *shots != "" {
		picture, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
		keep(t, name, picture, err)
	}
}

// What can't be read is told beside its field after saving, and above the form
// with links to the fields.
func TestBrowserRecipeFaults(t *testing.T) {
	ctx := browser(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	openRecipePage(t, ctx, server.URL+"/recipe/ferry-brown-4/edit")
	evaluate[chromedp.Void](t, ctx, `document.getElementById("f-aims-og").value = "heavy"; document.getElementById("f-hops-1-at").value = "late"; document.getElementById("f-grist-2-share").value = "10 gallons"; undefined`)
	if err := chromedp.Do(ctx, chromedp.Click(`.deeds button[value="save"]`)); err != nil {
		t.Fatal(err)
	}
	waitUntil(t, ctx, "the faults", `document.querySelectorAll(".r-fault").length === 3 && document.getElementById("f-aims-og").value === "heavy"`)
	for _, barrier := range axe(t, ctx) {
		t.Error(barrier)
	}
	shoot(t, ctx, "recipe-faults.png")
	evaluate[chromedp.Void](t, ctx, `document.querySelector('.r-faults a[href="#f-hops-1-at"]').click(); undefined`)
	waitUntil(t, ctx, "the way to the field", `location.hash === "#f-hops-1-at"`)
}

// The sheet of a recipe takes one side of A4, by intent and on a house, with
// rules kept and broken.
func TestBrowserRecipePrint(t *testing.T) {
	ctx := browser(t)
	book := fullBook(t)
	breakRules(t, book)
	server := httptest.NewServer(newTestServer(t, Options{Book: book}))
	defer server.Close()
	for _, house := range []string{"", "garage"} {
		book.settings[recipeHouseSetting] = house
		for _, slug := range []string{"ferry-brown-4", "broken"} {
			openRecipePage(t, ctx, server.URL+"/recipe/"+slug)
			sheet, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
			if err != nil {
				t.Fatal(err)
			}
			if *shots != "" {
				keep(t, "recipe-"+slug+"-"+house+".pdf", sheet, err)
			}
			if pages := strings.Count(string(sheet), "/Type /Page\n"); pages != 1 {
				t.Errorf("%s on %q takes %d pages", slug, house, pages)
			}
		}
	}
}
