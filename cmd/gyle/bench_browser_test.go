// SPDX-License-Identifier: MIT

package main

import (
	"net/url"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// keystrokes is how many keys BenchmarkKeystroke types.
const keystrokes = 60

// BenchmarkKeystroke types into a share of a recipe of the big book and reports
// how long it takes in the browser from the key until the figures beside the
// form are new. Without the pause means from the moment at which the form is
// sent; painted is until they can be seen.
func BenchmarkKeystroke(b *testing.B) {
	address, end := served(b, serveCommand{Book: bigBook(b)})
	defer end()
	p := newPerson(b, address)
	for b.Loop() {
		p.open("/recipe/recipe-00777/edit")
		p.do(chromedp.Evaluate[chromedp.Void](keystrokeClock))
		all := map[string][]float64{}
		for i := range keystrokes {
			for name, ms := range p.strike('1' + rune(i%9)) {
				all[name] = append(all[name], ms)
			}
		}
		b.ReportMetric(0, "ns/op")
		for _, name := range []string{"all", "sent", "painted"} {
			took := slices.Sorted(slices.Values(all[name]))
			b.ReportMetric(took[len(took)/2], name+"-p50-ms")
			b.ReportMetric(took[len(took)*95/100], name+"-p95-ms")
		}
	}
}

// keystrokeClock prepares a page to measure one key: the last digit of the share
// is selected, and the answer comes into window.took.
const keystrokeClock = `performance.setResourceTimingBufferSize(5000);
window.share = document.querySelector('[name="grist[1].share"]');
window.share.focus();
window.strike = () => {
	const look = document.getElementById("look"), digit = share.value.search(/\d\D*$/);
	share.setSelectionRange(digit, digit + 1);
	window.took = undefined;
	let key;
	share.addEventListener("input", e => { key = e.timeStamp; }, {once: true});
	new MutationObserver((_, watch) => {
		watch.disconnect();
		const done = performance.now(), sent = performance.getEntriesByType("resource").filter(r => r.name.includes("/look")).at(-1).startTime;
		requestAnimationFrame(() => { const c = new MessageChannel();
			c.port1.onmessage = () => { window.took = {all: done - key, sent: done - sent, painted: performance.now() - key}; };
			c.port2.postMessage(0); });
	}).observe(look, {childList: true, subtree: true, characterData: true});
};`

// strike types one digit and waits for the figures.
func (p *person) strike(digit rune) map[string]float64 {
	p.t.Helper()
	time.Sleep(50 * time.Millisecond)
	p.do(chromedp.Evaluate[chromedp.Void](`strike()`), chromedp.KeyEvent(string(digit)))
	took, err := chromedp.Run(p.ctx, chromedp.Poll[map[string]float64](`window.took`, chromedp.WithPollingTimeout(10*time.Second)))
	if err != nil {
		p.t.Fatalf("wait for the figures: %v", err)
	}
	return took
}

// mostFirstBytes is the most that the first look at a page should transfer.
const mostFirstBytes = 250_000

// BenchmarkFirstLook opens pages in a browser that has seen none of the book and
// reports what was transferred, with styles, scripts and fonts.
func BenchmarkFirstLook(b *testing.B) {
	address, end := served(b, serveCommand{Book: bigBook(b)})
	defer end()
	for _, page := range []struct{ name, path string }{
		{"home", "/"}, {"list", "/recipe"}, {"find", "/find?words=malt"}, {"recipe", "/recipe/recipe-00777"}, {"recipe edit", "/recipe/recipe-00777/edit"},
		{"style", "/style/style-00007"}, {"style rules", "/style/style-00007/rules"}, {"brewhouse", "/brewhouse/brewhouse-00006"}, {"stock", "/stock/stock-00007"},
		{"water", "/water/water-00007"}, {"history", "/recipe/recipe-00777/history"}, {"diff", "/recipe/recipe-00777/at/2"}, {"why", "/why"}, {"why one", "/why/hops.IsoRate"},
		{"plan", "/plan?" + url.Values{"recipe": {"recipe-00777"}, "house": {"brewhouse-00006"}, "stock": {"stock-00007"}, "water": {"water-00007"}}.Encode()},
		{"compare", "/compare?" + url.Values{"recipe": {"recipe-00777"}, "house": {"brewhouse-00006", "brewhouse-00007"}, "stock": {"stock-00007"}}.Encode()},
	} {
		b.Run(page.name, func(b *testing.B) {
			p := newPerson(b, address)
			for b.Loop() {
				p.open(page.path)
				p.see("the end of loading", `document.readyState === "complete" && document.fonts.status === "loaded"`)
				bytes, err := chromedp.Run(p.ctx, chromedp.Evaluate[float64](`[...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")].reduce((sum, r) => sum + r.transferSize, 0)`))
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(0, "ns/op")
				b.ReportMetric(bytes/1000, "kB")
				if bytes > mostFirstBytes {
					b.Logf("%s transfers more than %d kB", page.path, mostFirstBytes/1000)
				}
			}
		})
	}
}
