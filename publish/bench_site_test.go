// SPDX-License-Identifier: MIT

package publish

import (
	"fmt"
	"testing"
	"time"
)

// thousand is a site of a thousand beers on the demonstration's house.
func thousand(b testing.TB) Site {
	b.Helper()
	base := ferryBrown(b)
	s := Site{Title: "A thousand", URL: "https://example.org/", Styles: []SiteStyle{{Slug: "oat-brown-ale", Style: base.Style}}}
	for i := range 1000 {
		one, r := base, *base.Input.Recipe
		r.Name = fmt.Sprintf("Beer %d", i)
		one.Input.Recipe = &r
		s.Beers = append(s.Beers, SiteBeer{Slug: fmt.Sprintf("beer-%d", i), Bundle: one})
	}
	return s
}

// BenchmarkSite publishes a thousand recipes, and again without a change. The
// aims are 60 s and 5 s.
func BenchmarkSite(b *testing.B) {
	engine, err := built()
	if err != nil {
		b.Fatal(err)
	}
	var first, again float64
	for b.Loop() {
		folder, s := b.TempDir(), thousand(b)
		start := time.Now()
		if _, err := s.Publish(folder, engine, nil); err != nil {
			b.Fatal(err)
		}
		first += time.Since(start).Seconds()
		s, start = thousand(b), time.Now()
		w, err := s.Publish(folder, engine, nil)
		if err != nil || w.Changed+w.New+w.Removed > 0 {
			b.Fatalf("%+v %v", w, err)
		}
		again += time.Since(start).Seconds()
	}
	b.ReportMetric(first/float64(b.N), "first-s")
	b.ReportMetric(again/float64(b.N), "again-s")
}
