// SPDX-License-Identifier: MIT

package web

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

var (
	tagPattern = regexp.MustCompile(`<[^>]*>`)
	// saidPatterns find what the program says of a plan and what the rules say.
	saidPatterns = []*regexp.Regexp{
		regexp.MustCompile(`(?s)<ul class="points[^"]*">.*?</ul>`),
		regexp.MustCompile(`(?s)<p class="caution">.*?</p>`),
		regexp.MustCompile(`(?s)<span class="(?:ink-corrected|mend|price)">.*?</span>`),
		regexp.MustCompile(`(?s)<p class="(?:mend|lost|broken)">.*?</p>`),
		regexp.MustCompile(`(?s)<ul class="r-rules">.*?</ul>`),
	}
	// authorPatterns are the author's own words: his reason, his moments.
	authorPatterns = []*regexp.Regexp{regexp.MustCompile(`(?s)<q>.*?</q>`), regexp.MustCompile(`\b(?:stand|dry) [^:,;)<]*?°C`)}
	foreignUnits   = regexp.MustCompile(`\d (?:kg|g|L|°C|K|EBC|L/kg|g/L)(?:[^/\pL]|$)|\d\.\d`)
)

// Somebody who chose US units and a decimal comma reads no other ones in what
// is kept, not kept, broken, mended or warned of.
func TestSentencesInTheUnitsOfTheReader(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.post("/settings", url.Values{"units": {"us"}, "decimal": {"comma"}, "author": {""}, "book": {"Saltpan Lane"}}), http.StatusSeeOther)
	for _, page := range []string{
		"/plan?recipe=ferry-brown-4&house=garage&stock=garage-shed&water=saltpan-lane",
		"/plan?recipe=ferry-brown-4&house=boathouse&cooling=settle+and+run+off",
		"/compare?recipe=ferry-brown-4&house=garage&house=boathouse",
		"/recipe/ferry-brown-4", "/recipe/ferry-brown-4?house=boathouse",
	} {
		w := c.get(page)
		want(t, w, http.StatusOK)
		text, n := w.Body.String(), 0
		for _, p := range saidPatterns {
			for _, said := range p.FindAllString(text, -1) {
				for _, own := range authorPatterns {
					said = own.ReplaceAllString(said, "")
				}
				said = strings.ReplaceAll(strings.TrimSpace(html.UnescapeString(tagPattern.ReplaceAllString(said, " "))), "\u00a0", " ")
				if n++; foreignUnits.MatchString(said) {
					t.Errorf("%s: %q in %q", page, foreignUnits.FindString(said), said)
				}
			}
		}
		if n == 0 && strings.HasPrefix(page, "/plan") {
			t.Errorf("%s says nothing", page)
		}
	}
}
