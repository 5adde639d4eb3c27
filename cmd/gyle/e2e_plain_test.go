// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"maps"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// The whole path from a style to a printed page is open to a browser that runs
// no scripts: every step is a link or a form.
func TestPathWithoutScripts(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "plain.gylebook")})
	p := newPerson(t, address)
	defer end()
	if _, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	p.styleByForms()
	p.recipeByForms()
	p.houseByForm("garage")
	p.houseByForm("boathouse")
	p.planByForms()
	p.versionByForms()
	p.findByForm()
	p.withoutScripts()
}

// withoutScripts makes sure that no script ran: on the sheet of a plan it would
// have marked the button.
func (p *person) withoutScripts() {
	p.t.Helper()
	p.open("/plan?recipe=lantern-mild-2&house=garage")
	p.see("a page without scripts", `document.readyState === "complete" && document.querySelector("[data-once]") !== null && !document.querySelector("[data-once][data-repainted]")`)
}

// fill puts words into fields by their names; press presses a button or a link.
func (p *person) fill(values map[string]string) {
	p.t.Helper()
	for _, name := range slices.Sorted(maps.Keys(values)) {
		p.see("the field "+name, fmt.Sprintf(`document.readyState === "complete" && document.getElementsByName(%q).length > 0`, name))
		p.script(fmt.Sprintf(`{ const e = document.getElementsByName(%q)[0]; e.value = %q; if (e.value !== %[2]q) e.value += " can't be chosen"; } undefined`, name, values[name]))
	}
}

func (p *person) press(selector string) {
	p.t.Helper()
	p.see("something to press: "+selector, fmt.Sprintf(`document.readyState === "complete" && (e => e !== null && e.checkVisibility())(document.querySelector(%q))`, selector))
	p.script(fmt.Sprintf(`window.before = true; document.querySelector(%q).click(); undefined`, selector))
	p.see("the next page", `!window.before && document.readyState === "complete"`)
}

func (p *person) styleByForms() {
	p.t.Helper()
	p.open("/")
	p.press(`main a[href="/new/style"]`)
	p.fill(map[string]string{"name": "Harbour mild"})
	p.press(".deeds button.first")
	p.arrive("/style/harbour-mild")
	for _, rule := range []struct{ subject, field, what, in, why string }{
		{"figure", "figure", "original", "1.034..1.040", "a pint for a long evening"},
		{"share", "share", "class crystal", "4..10 %", "toffee; above 10 it cloys"},
	} {
		p.open("/style/harbour-mild/rule")
		p.press(fmt.Sprintf(`main a[href$="subject=%s"]`, rule.subject))
		p.script(fmt.Sprintf(`{ const e = document.querySelector('[name$=".%s"]');
			if (e.options) e.value = [...e.options].find(o => o.text.toLowerCase().startsWith(%q)).value; else e.value = %[2]q; }
			document.querySelector('[name$=".in"]').value = %q; document.querySelector('[name$=".why"]').value = %q; undefined`, rule.field, rule.what, rule.in, rule.why))
		p.press(".deeds button.first")
		p.arrive("/style/harbour-mild/rules?done=saved")
	}
}

func (p *person) recipeByForms() {
	p.t.Helper()
	p.open("/recipe")
	p.press(`main a[href="/new/recipe"]`)
	p.fill(map[string]string{"name": "Lantern Mild", "style": "harbour-mild", "size": "20 L", "aims.og": "1.036", "aims.ibu": "20",
		"grist[0].share": "82 %", "grist[0].malt": "pale-ale", "hops[0].bitterness": "20 IBU", "hops[0].hop": "challenger", "hops[0].at": "boil 60 min"})
	p.fill(map[string]string{"grist[1].share": "18 %", "grist[1].malt": "crystal", "mash.rests[0]": "68 °C for 60 min"})
	p.press(`button[value="look"]:not(.unseen)`)
	p.see("the broken rule", `document.querySelector("#look").innerText.includes("above 10 it cloys")`)
	p.press(`button[value="add:grist"]`)
	p.fill(map[string]string{"grist[1].share": "8 %", "grist[2].share": "10 %", "grist[2].malt": "oats-flaked"})
	p.press(`button[value="look"]:not(.unseen)`)
	p.see("the mended rule", `!document.querySelector("#look").innerText.includes("above 10 it cloys")`)
	p.press(`.deeds button[value="save"]`)
	p.arrive("/recipe/lantern-mild")
}

func (p *person) houseByForm(name string) {
	p.t.Helper()
	text, err := os.ReadFile("../../examples/" + name + ".yaml")
	if err != nil {
		p.t.Fatal(err)
	}
	p.open("/new/brewhouse?as=text")
	p.fill(map[string]string{"text": string(text)})
	p.press(".deeds button.first")
	p.arrive("/brewhouse/" + name)
}

func (p *person) planByForms() {
	p.t.Helper()
	p.open("/plan")
	for _, house := range []string{"garage", "boathouse"} {
		p.fill(map[string]string{"recipe": "lantern-mild", "house": house})
		p.press("#choices .deeds button.first")
		p.arrive("/plan?")
		p.read("Kept")
	}
	p.press(`main a[href^="/plan/why/"]`)
	p.arrive("/plan/why/")
	p.open("/compare?" + url.Values{"recipe": {"lantern-mild"}, "house": {"garage", "boathouse"}}.Encode())
	p.read("multiplied")
}

func (p *person) versionByForms() {
	p.t.Helper()
	p.open("/recipe/lantern-mild")
	p.press(`main a[href="/recipe/lantern-mild/edit"]`)
	p.fill(map[string]string{"mash.rests[0]": "66 °C for 60 min"})
	p.press(`.deeds button[value="version"]`)
	p.fill(map[string]string{"why": "it was heavy", "expect": "a drier end"})
	p.press(".deeds button.first")
	p.arrive("/recipe/lantern-mild-2")
	p.read("it was heavy")
}

func (p *person) findByForm() {
	p.t.Helper()
	p.open("/find")
	p.fill(map[string]string{"words": "drier"})
	p.script(`window.before = true; document.getElementsByName("words")[0].form.requestSubmit(); undefined`)
	p.arrive("/find?")
	p.press(`main a[href="/recipe/lantern-mild-2"]`)
	if text, _ := p.print("plain"); text != "" && !strings.Contains(text, "Lantern Mild") {
		p.t.Errorf("printed:\n%s", text)
	}
	p.open("/plan?recipe=lantern-mild-2&house=garage")
	if text, pages := p.print("plain-plan"); text != "" && (!strings.Contains(text, "Lantern Mild") || pages > 2) {
		p.t.Errorf("the plan is printed on %d pages:\n%s", pages, text)
	}
}
