// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"gyle/examples"
	"gyle/gyle"
	"gyle/quantity"
)

// longLogBook is the example with 5 000 more readings in the log of gyle 17, as
// a logger that sends one entry each leaves them at the fermenter.
func longLogBook(t testing.TB) *testBook {
	t.Helper()
	text, err := fs.ReadFile(examples.Documents(), "gyle-17.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g, err := gyle.Parse("gyle-17.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	from := g.Log[len(g.Log)-1].When()
	for i := range 5000 {
		at := from.Add(quantity.Duration(4 * i))
		e := gyle.Entry{ID: gyle.NewID(at.Time, [10]byte{byte(i)}), Time: at, Who: "logger"}
		e.Reading = &gyle.Reading{Of: gyle.OfTemperature, Value: fmt.Sprintf("%.1f", 19.8+0.1*float64(i%7)), With: "probe", At: gyle.AtFermenter}
		if i%2 == 0 {
			e.Reading = &gyle.Reading{Of: gyle.OfGravity, Value: fmt.Sprintf("%.4f @ 20", 1.0127), With: "hydrometer", At: gyle.AtFermenter}
		}
		g.Log = append(g.Log, e)
	}
	if text, err = g.Text(); err != nil {
		t.Fatal(err)
	}
	book := fullBook(t)
	if _, err := book.Save(t.Context(), Draft{Kind: gyle.Kind, Slug: "gyle-17", Text: string(text), Author: "A. Quillmark", Why: "logger", Base: 1}); err != nil {
		t.Fatal(err)
	}
	return book
}

// The sheet of a brewing with 5 000 readings shows the brew day whole and the
// ends of the run; a link shows more of it, and nothing but the run is left out.
func TestLongLogIsFolded(t *testing.T) {
	s := newTestServer(t, Options{Book: longLogBook(t)})
	page := near(t, s).get("/gyle/gyle-17")
	want(t, page, http.StatusOK, "26,4 @95", `id="e-g80"`, "4959 readings more, until 30 Mar 09:24")
	if lines := strings.Count(page.Body.String(), `id="e-`); lines > 200 {
		t.Errorf("the sheet shows %d entries", lines)
	}
	_, link, found := strings.Cut(page.Body.String(), `class="folded"`)
	_, link, _ = strings.Cut(link, `href="`)
	link, id, _ := strings.Cut(link[:strings.Index(link, `"`)], "#")
	if !found || strings.Contains(page.Body.String(), `id="`+id+`"`) {
		t.Fatalf("the run isn't folded at %q", id)
	}
	opened := near(t, s).get("/gyle/gyle-17" + link)
	want(t, opened, http.StatusOK, `id="`+id+`"`, "4759 readings more", `id="e-g80"`)
}

// BenchmarkLongLog shows the sheets of a brewing with 5 000 readings: the first
// time, when the document is read, and again. The bound of the first is 50 ms.
func BenchmarkLongLog(b *testing.B) {
	book := longLogBook(b)
	show := func(b *testing.B, s *Server, path string) {
		if w := near(b, s).get(path); w.Code != http.StatusOK {
			b.Fatalf("%s: %d", path, w.Code)
		} else {
			b.ReportMetric(float64(w.Body.Len())/1000, "kB")
		}
	}
	b.Run("first", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			s := newTestServer(b, Options{Book: book})
			show(b, s, "/gyle/gyle-21")
			b.StartTimer()
			show(b, s, "/gyle/gyle-17")
		}
	})
	b.Run("first, appended", func(b *testing.B) { // all 5 000 as events
		book := fullBook(b)
		long, _, err := ReadGyle(b.Context(), longLogBook(b), "gyle-17")
		if err == nil {
			err = AppendEntries(b.Context(), book, "gyle-17", long.Log...)
		}
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			b.StopTimer()
			s := newTestServer(b, Options{Book: book})
			show(b, s, "/gyle/gyle-21")
			b.StartTimer()
			show(b, s, "/gyle/gyle-17")
		}
	})
	for _, path := range []string{"/gyle/gyle-17", "/gyle/gyle-17/brewed", "/gyle/gyle-17/kettle"} {
		b.Run("again "+path, func(b *testing.B) {
			s := newTestServer(b, Options{Book: book})
			show(b, s, path)
			for b.Loop() {
				show(b, s, path)
			}
		})
	}
	b.Run("say", func(b *testing.B) {
		s := newTestServer(b, Options{Book: book})
		for b.Loop() {
			w := near(b, s).post("/gyle/gyle-17/log", url.Values{"id": {string(NewEntryID(s.now()))}, "said": {"19.8 °C at fermenter"}})
			if w.Code != http.StatusSeeOther {
				b.Fatalf("%d\n%s", w.Code, w.Body)
			}
		}
	})
}
