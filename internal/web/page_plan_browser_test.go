// SPDX-License-Identifier: MIT

package web

import (
	"bytes"
	"context"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// waitFor polls until a condition holds in the page.
func waitFor(t *testing.T, ctx context.Context, what, condition string) {
	t.Helper()
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](condition, chromedp.WithPollingTimeout(10*time.Second))); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
}

// openPlan serves the example and opens a plan at a width.
func openPlan(t *testing.T, ctx context.Context, query string, width int64) {
	t.Helper()
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	t.Cleanup(server.Close)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(server.URL+"/plan?"+query)); err != nil {
		t.Fatal(err)
	}
}

func TestBrowserPlanPages(t *testing.T) {
	ctx := manyPages(t)
	server := httptest.NewServer(newTestServer(t, Options{Book: fullBook(t)}))
	defer server.Close()
	phone, all := []int64{360}, []int64{360, 768, 1440}
	for _, page := range []struct {
		name, path string
		widths     []int64
	}{
		{"plan-boathouse", "/plan?" + onBoathouse, all}, {"plan-empty", "/plan", all}, {"plan-fault", "/plan?" + onGarage + "&size=5+gal", phone},
		{"plan-large", "/plan?" + onBoathouse + "&size=400+L", phone}, {"plan-lots", "/plan?recipe=ferry-brown-1&house=boathouse", phone},
		{"plan-why", "/plan/why/ibu?" + onGarage, all}, {"compare-houses", "/compare?" + twoHouses, all},
		{"compare-versions", "/compare?" + twoVersions, phone}, {"compare-empty", "/compare", phone},
	} {
		for _, width := range page.widths {
			look(t, ctx, server.URL+page.path, page.name, width)
		}
	}
}

// A choice repaints the sheet and the address at once; what is half typed
// leaves the sheet as it was and is said beside its field.
func TestBrowserPlanRepaints(t *testing.T) {
	ctx := browser(t)
	openPlan(t, ctx, onBoathouse, 1440)
	evaluate[chromedp.Void](t, ctx, `const way = document.getElementById("cooling"); way.focus(); way.value = "settle and run off"; way.dispatchEvent(new Event("input", {bubbles: true})); undefined`)
	waitFor(t, ctx, "another way of cooling", `document.querySelector(".part-hops").textContent.includes("93.1 g") && location.search.includes("cooling=settle")`)
	if !evaluate[bool](t, ctx, `document.activeElement.id === "cooling"`) {
		t.Error("the focus was lost by repainting")
	}

	evaluate[chromedp.Void](t, ctx, `document.getElementById("size").focus(); undefined`)
	if err := chromedp.Do(ctx, chromedp.KeyEvent("5 gal")); err != nil {
		t.Fatal(err)
	}
	waitFor(t, ctx, "a size without its gallon", `document.getElementById("fault-size").textContent.includes("which gallon?")`)
	if !evaluate[bool](t, ctx, `document.querySelector("#plan-sheet[data-stale] .part-hops") !== null && document.getElementById("size").getAttribute("aria-invalid") === "true" && document.activeElement.value === "5 gal"`) {
		t.Error("while a size can't be read, the sheet isn't kept as it was")
	}
	for _, barrier := range axe(t, ctx) {
		t.Error(barrier)
	}

	evaluate[chromedp.Void](t, ctx, `document.getElementById("size").select(); undefined`)
	if err := chromedp.Do(ctx, chromedp.KeyEvent("60 L")); err != nil {
		t.Fatal(err)
	}
	waitFor(t, ctx, "a readable size", `!document.querySelector("#plan-sheet[data-stale]") && document.querySelector(".plan-head").textContent.includes("60.0 L") && document.getElementById("fault-size").textContent.trim() === ""`)
	if evaluate[bool](t, ctx, `document.getElementById("size").hasAttribute("aria-invalid")`) {
		t.Error("the size is still called faulty")
	}

	// Another house has other ways of cooling; the old one isn't asked of it.
	evaluate[chromedp.Void](t, ctx, `const house = document.getElementById("house"); house.focus(); house.value = "garage"; house.dispatchEvent(new Event("input", {bubbles: true}));
		const size = document.getElementById("size"); size.value = ""; undefined`)
	waitFor(t, ctx, "another house", `document.querySelector(".plan-head").textContent.includes("on Garage") && [...document.getElementById("cooling").options].some(o => o.value === "coil in the kettle")`)
}

// The reason behind a figure opens and closes by keyboard, and the focus comes
// back to the figure.
func TestBrowserReasonByKeyboard(t *testing.T) {
	ctx := browser(t)
	for _, width := range []int64{360, 1440} {
		openPlan(t, ctx, onGarage, width)
		evaluate[chromedp.Void](t, ctx, `document.querySelector('a[data-why][href^="/plan/why/ibu"]').focus(); undefined`)
		if err := chromedp.Do(ctx, chromedp.KeyEvent("\r")); err != nil {
			t.Fatal(err)
		}
		waitFor(t, ctx, "the panel", `!document.getElementById("reason-panel").hidden && document.activeElement.id === "reason-title"`)
		if !evaluate[bool](t, ctx, `document.getElementById("reason-panel").textContent.includes("What went in") && location.pathname === "/plan"`) {
			t.Error("the panel doesn't hold the reason")
		}
		if wide := evaluate[float64](t, ctx, `document.getElementById("reason-panel").scrollWidth - document.getElementById("reason-panel").clientWidth`); wide > 0 {
			t.Errorf("at %d px the panel overflows by %.0f px", width, wide)
		}
		for _, barrier := range axe(t, ctx) {
			t.Errorf("at %d px: %s", width, barrier)
		}
		if *shots != "" {
			picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
			keep(t, map[int64]string{360: "plan-panel-360.png", 1440: "plan-panel-1440.png"}[width], picture, err)
		}
		if err := chromedp.Do(ctx, chromedp.KeyEvent("\u001b")); err != nil {
			t.Fatal(err)
		}
		waitFor(t, ctx, "closing", `document.getElementById("reason-panel").hidden && document.activeElement.matches('a[data-why][href^="/plan/why/ibu"]')`)
	}
}

// The sheet prints on two pages of A4, with a box beside what is measured.
func TestBrowserPlanPrints(t *testing.T) {
	ctx := browser(t)
	for _, query := range []string{onGarage, onBoathouse} {
		openPlan(t, ctx, query, 1440)
		sheet, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
		if err != nil {
			t.Fatal(err)
		}
		pages := bytes.Count(sheet, []byte("/Type /Page\n")) + bytes.Count(sheet, []byte("/Type /Page "))
		if pages < 1 || pages > 2 {
			t.Errorf("the sheet takes %d pages", pages)
		}
		keepPrint(t, query, sheet)
	}
}

func keepPrint(t *testing.T, query string, sheet []byte) {
	if *shots != "" {
		keep(t, map[string]string{onGarage: "plan-garage.pdf", onBoathouse: "plan-boathouse.pdf"}[query], sheet, nil)
	}
}
