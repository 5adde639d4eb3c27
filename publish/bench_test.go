// SPDX-License-Identifier: MIT

package publish

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// BenchmarkPageInBrowser opens the page of the example in Chromium and reports
// when its figures are ready, counted from the start of loading, and how long a
// change takes until the sheet is written again.
func BenchmarkPageInBrowser(b *testing.B) {
	engine, err := built()
	if err != nil {
		b.Fatal(err)
	}
	page, err := Page(ferryBrown(b), engine)
	if err != nil {
		b.Fatal(err)
	}
	ctx := reader(b, page)
	var ready, change float64
	for b.Loop() {
		do(b, ctx, chromedp.Reload())
		wait(b, ctx, `document.body.dataset.ready === "yes"`)
		ready += ask[float64](b, ctx, `performance.getEntriesByName("ready")[0].startTime`)
		change += ask[float64](b, ctx, `(() => {
			const e = document.getElementsByName("size")[0], start = performance.now();
			for (let i = 0; i < 20; i++) { e.value = (10 + i / 2) + " L"; e.dispatchEvent(new Event("input", {bubbles: true})); }
			return (performance.now() - start) / 20; })()`)
	}
	b.ReportMetric(ready/float64(b.N), "ready-ms")
	b.ReportMetric(change/float64(b.N), "change-ms")
	b.ReportMetric(float64(len(page)), "page-bytes")
}
