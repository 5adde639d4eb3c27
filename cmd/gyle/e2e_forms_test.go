// SPDX-License-Identifier: MIT

package main

import (
	"cmp"
	"fmt"
	"html"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// long says that the long versions of the tests are wanted: each field with
// each kind of rubbish, each page at each width. make soak asks for them.
var long = os.Getenv("GYLE_SOAK") == "1"

// webForm is a form as its page holds it.
type webForm struct {
	page, action string
	values       url.Values
	typed        []string // names of the fields that are typed into, in order
}

var (
	formPattern   = regexp.MustCompile(`(?s)<form( [^>]*)>(.*?)</form>`)
	fieldPattern  = regexp.MustCompile(`(?s)<input( [^>]*)>|<textarea( [^>]*)>\n?(.*?)</textarea>|<select( [^>]*)>(.*?)</select>`)
	chosenPattern = regexp.MustCompile(`<option value="([^"]*)" selected`)
	optionPattern = regexp.MustCompile(`<option value="([^"]*)"`)
)

// forms reads the forms of a page that post something.
func forms(page, text string) (list []webForm) {
	for _, m := range formPattern.FindAllStringSubmatch(text, -1) {
		if attribute(m[1], "method") != "post" {
			continue
		}
		f := webForm{page: page, action: cmp.Or(attribute(m[1], "action"), page), values: url.Values{}}
		for _, field := range fieldPattern.FindAllStringSubmatch(m[2], -1) {
			f.take(field)
		}
		list = append(list, f)
	}
	return list
}

func (f *webForm) take(field []string) {
	input, area, areaText, choice, options := field[1], field[2], field[3], field[4], field[5]
	switch kind := attribute(input, "type"); {
	case choice != "":
		found := chosenPattern.FindStringSubmatch(options)
		if found == nil {
			found = optionPattern.FindStringSubmatch(options)
		}
		f.values.Set(attribute(choice, "name"), html.UnescapeString(found[1]))
	case area != "":
		f.values.Set(attribute(area, "name"), html.UnescapeString(areaText))
		f.typed = append(f.typed, attribute(area, "name"))
	case kind == "radio" || kind == "checkbox":
		if strings.Contains(input, " checked") {
			f.values.Add(attribute(input, "name"), attribute(input, "value"))
		}
	default:
		f.values.Set(attribute(input, "name"), attribute(input, "value"))
		if kind != "hidden" {
			f.typed = append(f.typed, attribute(input, "name"))
		}
	}
}

// with is the form with one value changed.
func (f webForm) with(name, value string) url.Values {
	changed := url.Values{}
	for key, values := range f.values {
		changed[key] = slices.Clone(values)
	}
	changed.Set(name, value)
	return changed
}

// rubbish is what nobody means by a field.
var rubbish = []struct{ name, text string }{
	{"script", `"><script>alert(1)</script>`},
	{"emoji", "🍺 ٣ \u202eabc"},
	{"huge", "1e308 kg"},
	{"negative", "-12"},
	{"not a number", "NaN"},
	{"long", strings.Repeat("wort ", 20_000)},
	{"control", "\x00\x07"},
	{"spaces", "   "},
}

// A savingForm is a form of the example's book that saves what is typed. What
// it lacks to be saved is filled in first.
type savingForm struct {
	page, action string
	fill         map[string]string
}

var savingForms = []savingForm{
	{"/new/style", "/new/style", map[string]string{"name": "A style"}},
	{"/new/brewhouse", "/new/brewhouse", map[string]string{"name": "A house"}},
	{"/new/stock", "/new/stock", map[string]string{"name": "A shed"}},
	{"/new/water", "/new/water", map[string]string{"name": "A well"}},
	{"/new/recipe", "/new/recipe/fields", map[string]string{"do": "save", "name": "A beer", "aims.og": "1.050", "aims.ibu": "20",
		"grist[0].share": "100 %", "grist[0].malt": "pale-ale", "hops[0].bitterness": "20 IBU", "hops[0].hop": "challenger", "hops[0].at": "boil 60 min"}},
	{"/recipe/ferry-brown-4/edit", "/recipe/ferry-brown-4/edit", map[string]string{"do": "save"}},
	{"/recipe/ferry-brown-4/text", "/recipe/ferry-brown-4/text", nil},
	{"/style/oat-brown-ale/edit", "/style/oat-brown-ale/edit", nil},
	{"/style/oat-brown-ale/rule?n=2", "/style/oat-brown-ale/rule", nil},
	{"/style/oat-brown-ale/rule?n=7", "/style/oat-brown-ale/rule", nil},
	{"/brewhouse/garage/edit", "/brewhouse/garage/edit", nil},
	{"/stock/garage-shed/edit", "/stock/garage-shed/edit", nil},
	{"/stock/garage-shed/lot?list=malts&n=1", "/stock/garage-shed/lot", nil},
	{"/stock/garage-shed/lot?list=hops&n=1", "/stock/garage-shed/lot", nil},
	{"/stock/garage-shed/lot?list=yeasts&n=1", "/stock/garage-shed/lot", nil},
	{"/water/saltpan-lane/edit", "/water/saltpan-lane/edit", nil},
	{"/settings", "/settings", nil},
}

// Whatever is typed into whichever field: it is saved as it stands or refused
// with all that was typed still in the form, and never becomes part of a page.
func TestFormsTakeRubbish(t *testing.T) {
	address, end := served(t, serveCommand{Book: filepath.Join(t.TempDir(), "rubbish.gylebook"), Demo: true})
	defer end()
	for _, c := range savingForms {
		t.Run(strings.ReplaceAll(c.page[1:], "/", " "), func(t *testing.T) {
			d := desk{t, strings.TrimSuffix(address, "/")}
			for i, name := range d.form(c.page, c.action).typed {
				for j, r := range rubbish {
					if long || (i+j)%(2*len(rubbish)) == 0 {
						d.refuse(d.filled(c), name, r.name, r.text)
					}
				}
			}
		})
	}
}

// desk is a reader without a browser: it sends forms and reads what comes back.
type desk struct {
	t       *testing.T
	address string
}

// form fetches a page and finds its form with an action.
func (d desk) form(page, action string) webForm {
	d.t.Helper()
	_, text := fetch(d.t, d.address+page)
	for _, f := range forms(page, text) {
		if f.action == action {
			return f
		}
	}
	d.t.Fatalf("%s has no form for %s", page, action)
	return webForm{}
}

func (d desk) filled(c savingForm) webForm {
	d.t.Helper()
	f := d.form(c.page, c.action)
	for name, value := range c.fill {
		f.values.Set(name, value)
	}
	return f
}

// post sends a form without following where its answer leads.
func (d desk) post(action string, values url.Values) (status int, text, next string) {
	d.t.Helper()
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.PostForm(d.address+action, values)
	if err != nil {
		d.t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		d.t.Fatal(err)
	}
	return answer.StatusCode, string(body), answer.Header.Get("Location")
}

// refuse sends a form with rubbish in one field and looks at the answer. What
// was saved after all is mended, so that each field is tried on a sound form.
func (d desk) refuse(f webForm, name, kind, text string) {
	d.t.Helper()
	status, answer, next := d.post(f.action, f.with(name, text))
	what := fmt.Sprintf("%s with %s in %s", f.page, kind, name)
	switch status {
	case http.StatusSeeOther:
		if status, answer = fetch(d.t, d.address+next); status != http.StatusOK {
			d.t.Errorf("%s: saved, and %s answers %d", what, next, status)
		}
		d.mend(f)
	case http.StatusUnprocessableEntity:
		d.kept(what, f, name, text, answer)
	default:
		d.t.Errorf("%s: status %d\n%.300s", what, status, answer)
	}
	if strings.Contains(answer, "<script>alert") {
		d.t.Errorf("%s: it became part of the page", what)
	}
}

// mend saves a form as it was before.
func (d desk) mend(f webForm) {
	d.t.Helper()
	if strings.HasPrefix(f.page, "/new/") {
		return
	}
	now := d.form(f.page, f.action).values.Get("base")
	if status, _, _ := d.post(f.action, f.with("base", now)); status != http.StatusSeeOther {
		d.t.Fatalf("%s can't be saved as it was: status %d", f.page, status)
	}
}

// kept looks whether a form that came back holds all that was typed, and says
// at the field what is wrong with it.
func (d desk) kept(what string, f webForm, name, text, answer string) {
	d.t.Helper()
	back := forms(f.page, answer)
	at := slices.IndexFunc(back, func(b webForm) bool { return b.action == f.action })
	if at < 0 {
		d.t.Errorf("%s: the form didn't come back", what)
		return
	}
	f.values.Set(name, text)
	held := map[string]int{}
	for _, values := range back[at].values {
		held[tidy(values[0])]++
	}
	for _, other := range f.typed { // lines that were left empty close up, so a text may come back further up
		typed := tidy(f.values.Get(other))
		if held[typed]--; typed != "" && held[typed] < 0 {
			d.t.Errorf("%s: %.60q in %s didn't come back", what, typed, other)
		}
	}
	// The faults of a text stand beside its lines, those of a whole form (its
	// shares and weights are mixed, its reason is too long) above it.
	if !f.values.Has("text") && !blamed(answer, name) && !wholePattern.MatchString(alertPattern.FindString(answer)) && !strings.Contains(answer, "Not saved: ") {
		d.t.Errorf("%s: nothing is marked there: %.300s", what, alertPattern.FindString(answer))
	}
}

var (
	wholePattern = regexp.MustCompile(`<li>[^<]`)
	alertPattern = regexp.MustCompile(`(?s)role="alert".*?</div>`)
	wrongPattern = regexp.MustCompile(`<(?:input|textarea|select) [^>]*name="([^"]*)"[^>]*aria-invalid="true"`)
	entryPattern = regexp.MustCompile(`^(.*?)\[\d+\]`)
)

// blamed reports whether a page marks a field as wrong, or another field of its
// list: a malt without a share lacks the share.
func blamed(answer, name string) bool {
	list := entryPattern.FindStringSubmatch(name)
	for _, m := range wrongPattern.FindAllStringSubmatch(answer, -1) {
		wrong := html.UnescapeString(m[1])
		if wrong == name || list != nil && strings.HasPrefix(wrong, list[1]+"[") {
			return true
		}
	}
	return false
}

// tidy leaves out what a form may change: line ends, spaces around, and what
// no keyboard writes.
func tidy(text string) string {
	return strings.TrimSpace(strings.NewReplacer("\r\n", "\n", "\x00", "", "\x07", "", "\ufffd", "").Replace(text))
}
