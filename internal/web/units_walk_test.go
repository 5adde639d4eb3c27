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

// unitPages are the pages of the demonstration's book that say amounts.
var unitPages = []string{
	"/", "/recipe", "/style", "/brewhouse", "/stock", "/water",
	"/recipe/ferry-brown-4", "/recipe/ferry-brown-4?house=boathouse", "/recipe/ferry-brown-4/edit", "/recipe/ferry-brown-4/try", "/new/recipe",
	"/recipe/ferry-brown-4/history", "/style/oat-brown-ale", "/style/oat-brown-ale?recipe=ferry-brown-4", "/style/oat-brown-ale/rules", "/style/oat-brown-ale/rule?n=2",
	"/brewhouse/garage", "/brewhouse/boathouse", "/brewhouse/garage/learned", "/water/saltpan-lane",
	treatFerry, "/water/saltpan-lane/treat?form=1&all=28.8+L&sparge=12.3+L&aim.Ca=900&aim.Cl=20&aim.SO4=60&salt=gypsum&salt=baking-soda&acid=lactic-acid-88&soft=30&ph=5.2&grain=4.2+kg+pale-ale",
	"/plan?recipe=ferry-brown-4&house=garage&stock=garage-shed&water=saltpan-lane", "/plan?recipe=ferry-brown-4&house=boathouse&water=saltpan-lane",
	"/plan?recipe=ferry-brown-4&house=garage&size=500+L", "/plan?recipe=ferry-brown-4&house=garage&size=many",
	"/plan/why/og?recipe=ferry-brown-4&house=garage", "/plan/why/ibu?recipe=ferry-brown-4&house=garage", "/plan/why/volume?recipe=ferry-brown-4&house=garage",
	"/plan/why/salts?recipe=ferry-brown-4&house=garage&water=saltpan-lane", "/plan/why/strike?recipe=ferry-brown-4&house=garage", "/plan/why/color?recipe=ferry-brown-4&house=garage",
	"/compare?recipe=ferry-brown-4&house=garage&house=boathouse", "/gyle/gyle-17/brewed", "/gyle/gyle-21/brewed",
	"/formulate?style=oat-brown-ale&house=garage&stock=garage-shed&water=saltpan-lane&do=find&robust=1", "/formulate?like=ferry-brown-3&do=vary",
	"/formulate?style=oat-brown-ale&house=garage&stock=garage-shed&do=find&least.crystal=12", "/formulate?like=ferry-brown-3&do=swap&swap=challenger&for=northdown",
}

// ownWords are what people wrote or is written for programs: reasons, notes,
// documents as text, what is typed, and addresses; and the formulas behind a
// reason, which are quoted in the units of their papers.
var ownWords = []*regexp.Regexp{
	regexp.MustCompile(`(?s)<details class="reason-formula.*?</details>`),
	regexp.MustCompile(`(?s)<(pre|textarea|script|style|option|q|code|head|blockquote)\b.*?</(pre|textarea|script|style|option|q|code|head|blockquote)>`),
	regexp.MustCompile(`(?s)<(p|span|div|dd|td|ul) class="[^"]*\b(reason|prose|hint|own|note|words|formula)\b[^"]*".*?</(p|span|div|dd|td|ul)>`),
	regexp.MustCompile(`(?s)<(title|desc)\b.*?</(title|desc)>`),
}

// ownPhrases stay as an author wrote them: what a rule selects, what a malt is
// called or its colour, what a version changed. Of the wedge of colours the paths
// through the glass stay in centimetres, in which extinction is defined; names of
// a gyle's steps are kept with its plan.
var ownPhrases = regexp.MustCompile(`(?i)(?:crystal [\d–]+|malts (?:above|below) \d+|malt [\d–]+|of \d+) EBC|to a stand at \d+ °C|^stand at \d+ °C$|` +
	`(?:edge|cuvette|glass|pint) [\d.]+ cm|cool to \d+ °C`)

// metricUnits are amounts that a reader of US units doesn't want. What every
// laboratory measures in stays: mg/L, mEq/L, mL of acid, g of salt.
var metricUnits = regexp.MustCompile(`\d[\d.,]*\s?(?:kg|g/L|L/kg|g/hL|hL|L|°C|EBC|bar|cm|mm|kPa)(?:[^/\pL\d]|$)`)

func TestNoMetricUnitForReadersOfUSUnits(t *testing.T) {
	c := near(t, newTestServer(t, Options{Book: fullBook(t)}))
	want(t, c.post("/settings", url.Values{"units": {"us"}, "decimal": {"point"}, "author": {""}, "book": {"Saltpan Lane"}}), http.StatusSeeOther)
	for _, page := range unitPages {
		w := c.get(page)
		if w.Code != http.StatusOK && w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", page, w.Code)
			continue
		}
		text := w.Body.String()
		for _, p := range ownWords {
			text = p.ReplaceAllString(text, " ")
		}
		text = strings.ReplaceAll(html.UnescapeString(tagPattern.ReplaceAllString(text, "\n")), "\u00a0", " ")
		for _, line := range strings.Split(text, "\n") {
			line = ownPhrases.ReplaceAllString(strings.TrimSpace(line), "")
			if found := metricUnits.FindString(line); found != "" {
				t.Errorf("%s: %q in %q", page, found, strings.TrimSpace(line))
			}
		}
	}
}
