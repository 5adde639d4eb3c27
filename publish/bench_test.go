// SPDX-License-Identifier: MIT

package publish

import (
	"fmt"
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
	var change float64
	marks := []string{"begun", "unpacked", "compiled", "running", "ready"}
	at := make([]float64, len(marks))
	for b.Loop() {
		do(b, ctx, chromedp.Reload())
		wait(b, ctx, `document.body.dataset.ready === "yes"`)
		for i, mark := range marks {
			at[i] += ask[float64](b, ctx, fmt.Sprintf(`performance.getEntriesByName(%q)[0].startTime`, mark))
		}
		change += ask[float64](b, ctx, `(() => {
			const e = document.getElementsByName("size")[0], start = performance.now();
			for (let i = 0; i < 20; i++) { e.value = (10 + i / 2) + " L"; e.dispatchEvent(new Event("input", {bubbles: true})); }
			return (performance.now() - start) / 20; })()`)
	}
	for i, mark := range marks {
		b.ReportMetric(at[i]/float64(b.N), mark+"-ms")
	}
	b.ReportMetric(change/float64(b.N), "change-ms")
	b.ReportMetric(float64(len(page)), "page-bytes")
}
