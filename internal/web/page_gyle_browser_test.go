// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"net/http/httptest"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/chromedp/chromedp"

	"gyle/examples"
	"gyle/gyle"
)

func TestBrowserGylePages(t *testing.T) {
	ctx := browser(t)
	s := newTestServer(t, Options{Book: fullBook(t)})
	slug := begun(t, s)
	server := httptest.NewServer(s)
	defer server.Close()
	for _, page := range []struct{ name, path string }{
		{"gyle-done", "/gyle/gyle-17"}, {"gyle-begun", "/gyle/" + slug}, {"brewed", "/gyle/gyle-17/brewed"}, {"learned", "/brewhouse/garage/learned"}, {"home-brewing", "/"},
	} {
		for _, width := range widths() {
			look(t, ctx, server.URL+page.path, page.name, width)
		}
		if *shots != "" {
			sheet, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
			keep(t, page.name+".pdf", sheet, err)
		}
	}
}

// typist types into the forms of a gyle's brew day.
type typist struct {
	t    *testing.T
	ctx  context.Context
	page string
}

// open opens the brew day of a gyle.
func (y *typist) open(page string) {
	y.t.Helper()
	y.page = page
	if err := chromedp.Do(y.ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(page)); err != nil {
		y.t.Fatal(err)
	}
}

// submit fills in the form that a script finds, sends it and waits for the sheet
// that comes back; a fault ends the test.
func (y *typist) submit(form string, fields map[string]string) {
	y.t.Helper()
	values, _ := json.Marshal(fields)
	evaluate[chromedp.Void](y.t, y.ctx, fmt.Sprintf(`(() => { const f = [...document.querySelectorAll("form")].find(%s), v = %s; window.sentBefore = document.getElementById("gyle");
		for (const k in v) if (f.elements[k] && k !== "take") f.elements[k].value = v[k];
		f.requestSubmit(v.take ? [...f.elements].find(b => b.name === "take" && b.value === v.take) : undefined); })(); undefined`, form, values))
	waitFor(y.t, y.ctx, fmt.Sprint(fields), `document.getElementById("gyle") !== window.sentBefore`)
	if fault := evaluate[string](y.t, y.ctx, `document.querySelector(".log-fault, .field-fault .ink-corrected")?.textContent || ""`); fault != "" {
		y.t.Fatalf("%v: %s", fields, fault)
	}
}

// say types a line at a time of the day of brewing.
func (y *typist) say(when, said string) {
	y.t.Helper()
	y.submit(sayForm, map[string]string{"said": said, "when": when})
}

const sayForm = `f => f.className === "say-form"`

// reads returns what a part of the page says, with plain spaces.
func (y *typist) reads(selector string) string {
	y.t.Helper()
	return plainSpaces(evaluate[string](y.t, y.ctx, fmt.Sprintf(`document.querySelector(%q)?.innerText || ""`, selector)))
}

// looks opens another page and returns what it says.
func (y *typist) looks(page string) string {
	y.t.Helper()
	if err := chromedp.Do(y.ctx, chromedp.Navigate(page)); err != nil {
		y.t.Fatal(err)
	}
	return y.reads("#sheet")
}

func plainSpaces(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == '\u202f' }), " ")
}

// figure is a number that a page must show: the first group of a pattern.
type figure struct {
	what, pattern   string
	want, tolerance float64
}

// shows holds figures against what a page says.
func shows(t *testing.T, text string, figures ...figure) {
	t.Helper()
	for _, f := range figures {
		found := regexp.MustCompile(f.pattern).FindStringSubmatch(text)
		if found == nil {
			t.Errorf("%s: nothing like %q in %s", f.what, f.pattern, text)
			continue
		}
		got, err := strconv.ParseFloat(strings.TrimRight(strings.NewReplacer("−", "-", "+", "").Replace(found[1]), "."), 64)
		if err != nil || math.Abs(got-f.want) > f.tolerance+1e-9 {
			t.Errorf("%s is %s, want %g ± %g", f.what, found[1], f.want, f.tolerance)
		}
	}
}

// enterLog puts the entries of an example through the forms of the page, each
// at its own time, and calls after with the ID that each had in the example.
func enterLog(y *typist, s *Server, slug string, log gyle.Log, after func(gyle.ID)) {
	y.t.Helper()
	ids := map[gyle.ID]gyle.ID{} // of the example → as logged here
	for _, e := range log {
		enter(y, e, ids)
		now, _, err := ReadGyle(y.t.Context(), s.book, slug)
		if err != nil || len(now.Log) != len(ids)+1 {
			y.t.Fatalf("after %s the log has %d entries, want %d: %v", e.ID, len(now.Log), len(ids)+1, err)
		}
		ids[e.ID] = now.Log[len(ids)].ID
		after(e.ID)
	}
}

func exampleGyle(t *testing.T, name string) *gyle.Gyle {
	t.Helper()
	text, err := fs.ReadFile(examples.Documents(), name+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	g, err := gyle.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// enter puts one entry of the example through the forms of the page.
func enter(y *typist, e gyle.Entry, ids map[gyle.ID]gyle.ID) {
	y.t.Helper()
	when := e.Time.Format(time.RFC3339)
	switch {
	case e.Correction != nil:
		y.submit(`f => f.action.endsWith("/correct") && f.elements.of.value === "`+string(ids[e.Correction.Of])+`"`, map[string]string{"value": e.Reading.Value, "why": e.Correction.Why, "when": when})
	case e.Choice != nil:
		y.submit(`f => f.action.endsWith("/take") && [...f.elements].some(b => b.name === "take" && b.value === "`+e.Choice.Took+`")`, map[string]string{"take": e.Choice.Took, "why": e.Choice.Why, "when": when})
	default:
		y.say(when, saidOf(e))
	}
}

// saidOf is how somebody would say an entry.
func saidOf(e gyle.Entry) string {
	if r := e.Reading; r != nil {
		value := r.Value
		if !r.Sample.IsZero() && !strings.Contains(value, "@") {
			value += fmt.Sprintf(" @%.0f", r.Sample.Celsius())
		}
		return fmt.Sprintf("%s of %s at %s", value, r.Of, r.At)
	}
	if i := e.Interruption; i != nil {
		return fmt.Sprintf("%s %s–%s", i.What, i.From.Format("15:04"), i.To.Format("15:04"))
	}
	d := e.Deed
	if d == nil {
		return "note " + e.Note
	}
	parts := []string{string(d.Do)}
	if d.What != "" {
		parts = append(parts, d.What)
	}
	switch {
	case d.Mass != nil:
		parts = append(parts, d.Mass.String())
	case d.Volume != nil:
		parts = append(parts, d.Volume.String())
	case d.Time > 0:
		parts = append(parts, d.Time.String())
	}
	if d.Place != "" {
		parts = append(parts, "at "+string(d.Place))
	}
	return strings.Join(parts, " ")
}
