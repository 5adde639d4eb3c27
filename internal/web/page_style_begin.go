// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"gyle/data"
	"gyle/internal/document"
	"gyle/quantity"
	"gyle/style"
)

// guideline is what the printed numbers of styles are taken from.
const guideline = "BJCP Beer Style Guidelines, 2021 edition"

// beginStyle shows the form that begins a new style. With ?from or ?as=text it
// is the text of one.
func (s *Server) beginStyle(w http.ResponseWriter, r *http.Request) error {
	r.SetPathValue("kind", style.Kind)
	if r.URL.Query().Get("from") != "" || r.URL.Query().Get("as") == "text" {
		return s.newText(w, r)
	}
	form := beginForm()
	form.each(func(x *formField) {
		if x.Path == "by" {
			x.Value = handOf(r).Author
		}
	})
	return s.showBegin(w, r, http.StatusOK, form)
}

func (s *Server) showBegin(w http.ResponseWriter, r *http.Request, status int, form docForm) error {
	if _, err := s.chapter(style.Kind); err != nil {
		return err
	}
	return s.show(w, r, status, "page_house_form", Sheet{Title: form.Title, Chapter: style.Kind, Body: form})
}

func beginForm() docForm {
	numbers := []formChoice{{"", "nothing: I write every rule myself"}}
	for _, id := range data.StyleIDs() {
		n, _ := data.StyleNumbers(id)
		if len(printedRules(n)) > 0 {
			numbers = append(numbers, formChoice{id, strings.TrimSpace(n.Code + " " + n.Name)})
		}
	}
	return docForm{
		Title: "A new style", Save: "Begin", Action: "/new/style", Back: "/style", New: true, Text: "/new/style?as=text",
		Lead:   "A style is your own view of a kind of beer: prose, and rules with reasons.",
		Hidden: []formChoice{{"begin", "yes"}},
		Groups: []formGroup{{Title: "To begin with", Fields: []formField{
			{Path: "name", Label: "What you call it"},
			{Path: "by", Label: "Written by"},
			{Path: "numbers", Label: "Begin with the printed numbers of", Wide: true, Options: numbers,
				Hint: "From the " + guideline + ". They become rules of advice; give each the range and the reason that you stand behind."},
		}}},
	}
}

// saveNewStyle begins a style, or saves the text of one.
func (s *Server) saveNewStyle(w http.ResponseWriter, r *http.Request) error {
	r.SetPathValue("kind", style.Kind)
	if err := readForm(r); err != nil {
		return err
	}
	if r.PostFormValue("begin") == "" {
		return s.saveNew(w, r)
	}
	form := beginForm()
	form.fillTyped(r.PostForm)
	form.Author = shortName(r.PostForm.Get("by"))
	text, err := begunStyle(r.PostForm.Get("name"), form.Author, r.PostForm.Get("numbers"))
	if err != nil {
		if !isFault(err) {
			return err
		}
		form.blame(err)
		return s.showBegin(w, r, http.StatusUnprocessableEntity, form)
	}
	slug, err := s.freeSlug(r.Context(), style.Kind, strings.TrimSpace(r.PostForm.Get("name")))
	if err != nil {
		return err
	}
	saved, err := s.Save(w, r, Draft{Kind: style.Kind, Slug: slug, Text: text, Author: form.Author, Why: "begun"})
	if isFault(err) {
		form.blame(err)
		return s.showBegin(w, r, http.StatusUnprocessableEntity, form)
	}
	if err != nil {
		return err
	}
	return seeOther(w, r, saved.Path()+"?done=begun")
}

// begunStyle is the text of a style at its beginning.
func begunStyle(name, by, numbers string) (string, error) {
	name = strings.TrimSpace(name)
	if name == "" {
		return "", document.Faults{{Field: "name", Msg: "the style needs a name", Hint: "Oat brown ale"}}
	}
	draft, err := document.OpenDraft([]byte("gyle: style/1\nname: x\nrules: []\n"))
	if err != nil {
		return "", err
	}
	values := []formChoice{{"name", name}, {"by", by}}
	if numbers != "" {
		n, known := data.StyleNumbers(numbers)
		if !known {
			return "", document.Faults{{Field: "numbers", Msg: "there are no such numbers", Hint: "choose one from the list"}}
		}
		values = append(values, formChoice{"note", "The first numbers are those printed for " + n.Name + " in the " + guideline + "."})
		for i, rule := range printedRules(n) {
			at := rulePath(i)
			values = append(values, formChoice{at + ".figure", rule.figure}, formChoice{at + ".in", rule.in},
				formChoice{at + ".severity", "advice"}, formChoice{at + ".why", rule.why})
		}
	}
	for _, v := range values {
		if err := draft.Set(v.Value, v.Label); err != nil {
			return "", err
		}
	}
	return draftText(style.Kind, draft)
}

// printedRule is a number of the guideline as a rule.
type printedRule struct{ figure, in, why string }

// ebcPerSRM turns the guideline's colours into EBC: both are absorbances at
// 430 nm, over half an inch times ten and over a centimetre times 25
// (10 · 25/12.7 = 1.97).
const ebcPerSRM = 1.97

// printedRules turns the printed numbers of a style into rules.
func printedRules(n data.StyleNumbersType) (rules []printedRule) {
	why := "printed for " + n.Name + "; write here why you mean it"
	add := func(f quantity.Figure, r *data.Range, factor float64, decimals int, unit, why string) {
		if r == nil {
			return
		}
		number := func(x float64) string { return strconv.FormatFloat(factor*x, 'f', decimals, 64) }
		in := number(r.Low()) + ".." + number(r.High())
		rules = append(rules, printedRule{string(f), strings.TrimSpace(in + " " + unit), why})
	}
	add(quantity.OG, n.OG, 1, 3, "", why)
	add(quantity.FG, n.FG, 1, 3, "", why)
	add(quantity.ABV, n.ABV, 1, 1, "%", why)
	add(quantity.Bitterness, n.IBU, 1, 0, "IBU", why)
	add(quantity.BeerColor, n.SRM, ebcPerSRM, 0, "EBC", why)
	if n.Carbonation != nil && len(rules) > 0 {
		add(quantity.CO2, n.Carbonation, 1, 1, "vol", fmt.Sprintf("usual for it (%s); write here why you mean it", n.CarbonationBasis))
	}
	return rules
}
