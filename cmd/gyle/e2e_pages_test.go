// SPDX-License-Identifier: MIT

package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// shots makes TestEveryPage leave pictures and prints of the pages in a
// folder, to be looked at: GYLE_SOAK=1 go test ./cmd/gyle -run EveryPage -shots /some/folder
var shots = flag.String("shots", "", "folder for pictures of the pages")

// everyPage lists the pages of the example's book by name. A name in brackets
// is a sheet seen before in another state, and left to the long run.
var everyPage = []struct{ name, path string }{
	{"home", "/"}, {"first", "/first"},
	{"recipes", "/recipe"}, {"[styles]", "/style"}, {"[houses]", "/brewhouse"}, {"[stores]", "/stock"}, {"[waters]", "/water"},
	{"recipe", "/recipe/ferry-brown-4"}, {"[recipe-on-house]", "/recipe/ferry-brown-4?house=boathouse"}, {"recipe-edit", "/recipe/ferry-brown-4/edit"},
	{"[recipe-try]", "/recipe/ferry-brown-4/try"}, {"recipe-new", "/new/recipe"}, {"[recipe-text]", "/recipe/ferry-brown-4/text"},
	{"history", "/recipe/ferry-brown-4/history"}, {"revision", "/recipe/ferry-brown-4/at/1"},
	{"style", "/style/oat-brown-ale"}, {"[style-recipe]", "/style/oat-brown-ale?recipe=ferry-brown-4"}, {"style-edit", "/style/oat-brown-ale/edit"},
	{"style-rules", "/style/oat-brown-ale/rules"}, {"[style-subjects]", "/style/oat-brown-ale/rule"}, {"style-rule", "/style/oat-brown-ale/rule?n=2"},
	{"[style-new]", "/new/style"},
	{"house", "/brewhouse/garage"}, {"[house-big]", "/brewhouse/boathouse"}, {"[house-edit]", "/brewhouse/garage/edit"}, {"[house-new]", "/new/brewhouse"},
	{"store", "/stock/garage-shed"}, {"[store-edit]", "/stock/garage-shed/edit"}, {"lot", "/stock/garage-shed/lot?list=malts&n=1"}, {"[store-new]", "/new/stock"},
	{"water", "/water/saltpan-lane"}, {"[water-edit]", "/water/saltpan-lane/edit"}, {"treat", "/water/saltpan-lane/treat?recipe=ferry-brown-3&house=garage&stock=garage-shed"}, {"[water-new]", "/new/water"},
	{"calendar", "/calendar?house=garage"}, {"[calendar-unnamed]", "/calendar?house=boathouse"},
	{"[plan-none]", "/plan"}, {"plan", "/plan?recipe=ferry-brown-4&house=garage&stock=garage-shed"}, {"[plan-big]", "/plan?recipe=ferry-brown-4&house=boathouse"},
	{"plan-refused", "/plan?recipe=ferry-brown-4&house=garage&size=500+L"}, {"[plan-unread]", "/plan?recipe=ferry-brown-4&house=garage&size=many"},
	{"plan-why", "/plan/why/og?recipe=ferry-brown-4&house=garage"},
	{"[compare-none]", "/compare"}, {"compare", "/compare?recipe=ferry-brown-4&house=garage&house=boathouse"},
	{"[formulate-none]", "/formulate"}, {"formulate", "/formulate?style=oat-brown-ale&house=garage&stock=garage-shed&water=saltpan-lane&do=find"},
	{"formulate-conflict", "/formulate?style=oat-brown-ale&house=garage&stock=garage-shed&do=find&least.crystal=12"},
	{"[formulate-vary]", "/formulate?like=ferry-brown-3&do=vary"}, {"formulate-swap", "/formulate?like=ferry-brown-3&do=swap&swap=challenger&for=northdown"},
	{"[formulate-unread]", "/formulate?style=oat-brown-ale&do=find&least.crystal=much&also=choclate"},
	{"[tasting-profile]", "/tasting/tasting-profile"}, {"next-questions", "/recipe/ferry-brown-4/questions"}, {"score-sheets", "/tasting/tasting-profile/sheets"}, {"panel", "/tasting/tasting-3-4/panel"},
	{"[find-none]", "/find"}, {"find", "/find?words=oats"}, {"find-nothing", "/find?words=zzyzx"},
	{"[formulas]", "/why"}, {"formula", "/why/hops.IsoRate"}, {"settings", "/settings"},
	{"cellar", "/gyle/gyle-17/cellar"}, {"cellar-refused", "/gyle/gyle-17/cellar?co2=4.5+vol&hold-co2=2.4+vol&relief=1+bar"}, {"together", "/gyle/gyle-17/together?with=gyle-21"},
	{"missing", "/nothing/here"}, {"[missing-recipe]", "/recipe/none"}, {"[missing-formula]", "/why/none.None"},
}

// Every page, in every state, can be read by everybody at every width. The
// short run looks at each on a phone.
func TestEveryPage(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "pages.gylebook"), Demo: true})
	p := newPerson(t, address)
	defer end()
	for i, page := range everyPage {
		if !long && page.name[0] == '[' {
			continue
		}
		for j, width := range []int64{360, 768, 1440, 2200} {
			if long || j == i%3*2%3 { // a phone, a tablet or a desk in turn
				p.look(page.name, page.path, width)
			}
		}
		if *shots != "" {
			sheet, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
			p.keep(page.name+".pdf", sheet, err)
		}
	}
	p.oddStates()
}

// oddStates looks at what is seen only after something was done.
func (p *person) oddStates() {
	p.t.Helper()
	for _, width := range []int64{360, 1440} {
		if !long && width > 360 {
			break
		}
		p.do(chromedp.EmulateViewport(width, 900))
		for _, c := range []struct{ name, page, field, value, button string }{
			{"recipe-faults", "/recipe/ferry-brown-4/edit", "aims.og", "strong", `.deeds button[value="save"]`},
			{"recipe-next", "/recipe/ferry-brown-4/edit", "boil", "70 min", `.deeds button[value="version"]`},
			{"[text-faults]", "/recipe/ferry-brown-4/text", "text", "gyle: recipe/1\nnaem: x\n", ".edit .deeds button"},
			{"[rule-faults]", "/style/oat-brown-ale/rule?n=2", "rules[1].in", "some..few", ".deeds button.first"},
			{"[style-faults]", "/new/style", "name", "", ".deeds button.first"},
			{"[house-faults]", "/brewhouse/garage/edit", "usual", "big", ".deeds button.first"},
			{"lot-faults", "/stock/garage-shed/lot?list=malts&n=1", "malts[0].extract", "much", ".deeds button.first"},
			{"[water-faults]", "/water/saltpan-lane/edit", "printed.Ca", "hard", ".deeds button.first"},
			{"style-used", "/style/oat-brown-ale", "base", "1", ".remove button"},
		} {
			if !long && c.name[0] == '[' {
				continue
			}
			p.open(c.page)
			p.submit(c.field, c.value, c.button)
			p.inspect(c.name, width)
		}
		p.open("/plan?recipe=ferry-brown-4&house=garage")
		p.script(`document.querySelector("a[data-why]").click(); undefined`)
		p.see("the reason", `!document.getElementById("reason-panel").hidden`)
		p.inspect("plan-reason-open", width)
		p.open("/plan?recipe=ferry-brown-4&house=garage")
		p.script(`document.querySelectorAll("details").forEach(d => { d.open = true; }); undefined`)
		p.inspect("plan-unfolded", width)
	}
}

// submit fills one field, presses a button and waits for the page that comes.
func (p *person) submit(field, value, button string) {
	p.t.Helper()
	p.script(fmt.Sprintf(`window.before = true; document.getElementsByName(%q)[0].value = %q; document.querySelector(%q).click(); undefined`, field, value, button))
	p.see("the next page", `!window.before && document.readyState === "complete"`)
}

func (p *person) script(text string) {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](text))
}

func (p *person) look(name, path string, width int64) {
	p.t.Helper()
	p.do(chromedp.EmulateViewport(width, 900))
	p.open(path)
	p.inspect(name, width)
}

// inspect looks for barriers on the page that is open.
func (p *person) inspect(name string, width int64) {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](axeScript(p.t) + ";undefined"))
	p.do(chromedp.Evaluate[chromedp.Void](barrierScript))
	found, err := chromedp.Run(p.ctx, chromedp.Poll[string](`window.found`, chromedp.WithPollingTimeout(20*time.Second)))
	if err != nil {
		p.t.Fatalf("%s at %d px: %v", name, width, err)
	}
	var barriers []string
	if err := json.Unmarshal([]byte(found), &barriers); err != nil {
		p.t.Fatal(err)
	}
	for _, barrier := range barriers {
		p.t.Errorf("%s at %d px: %s", name, width, barrier)
	}
	if *shots != "" {
		picture, err := chromedp.Run(p.ctx, chromedp.FullScreenshot(100))
		p.keep(fmt.Sprintf("%s-%d.png", name, width), picture, err)
	}
}

func (p *person) keep(name string, content []byte, err error) {
	p.t.Helper()
	if err == nil {
		err = os.WriteFile(filepath.Join(*shots, strings.Trim(strings.Replace(name, "]", "", 1), "[")), content, 0o644)
	}
	if err != nil {
		p.t.Errorf("%s: %v", name, err)
	}
}

func axeScript(t testing.TB) string {
	t.Helper()
	script, err := os.ReadFile("../../internal/web/testdata/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(script))
}

// barrierScript lists what breaks WCAG 2.2 AA and contrast of 7:1; a page
// wider than its window; what is pressed and less than 44 px high (links in a
// sentence are excepted, as in WCAG 2.2, 2.5.8); ids given twice; and words
// that only programmers know.
const barrierScript = `void (async () => {
	const list = [];
	const wide = document.documentElement.scrollWidth;
	if (wide > innerWidth) list.push("the page is " + wide + " px wide");
	for (const e of document.querySelectorAll("button, .button, input:not([type=hidden], [type=radio], [type=checkbox]), select, .choice, nav a, .title[href], summary"))
		if (e.checkVisibility() && !e.matches(".unseen") && e.getBoundingClientRect().height < 43.5)
			list.push("too small to press: " + e.outerHTML.slice(0, 90));
	const seen = new Set();
	for (const e of document.querySelectorAll("[id]")) {
		if (seen.has(e.id)) list.push("two elements have the id " + e.id);
		seen.add(e.id);
	}
	const jargon = document.querySelector("main").innerText.match(/\b(slug|fragment|422|404|500|null|undefined|NaN|Inf|byte|bytes|parse|invalid|error|%!\w)\b|<nil>|\bmap\[/i);
	if (jargon) list.push("a word of programmers: " + jargon[0]);
	const r = await axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"], rules: {"color-contrast-enhanced": {enabled: true}}});
	for (const v of r.violations) list.push(v.id + ": " + v.help + ": " + v.nodes.map(n => n.html.slice(0, 120)).slice(0, 4).join(" | "));
	window.found = JSON.stringify(list);
})()`
