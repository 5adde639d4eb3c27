// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"gyle/internal/document"
	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// subjectsBody is the page that asks what a new rule is about.
type subjectsBody struct {
	Document Document
	Subjects []ruleSubject
}

// styleRule shows the form of a rule: of the one that ?n names, or of a new
// one on the ?subject. Without both it asks for the subject.
func (s *Server) styleRule(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	draft, err := document.OpenDraft([]byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	n, sub, err := ruleAsked(draft, r.FormValue("n"), r.FormValue("subject"))
	switch {
	case err != nil:
		return err
	case sub.Subject == "":
		body := subjectsBody{d, ruleSubjects}
		return s.show(w, r, http.StatusOK, "page_style_subjects", Sheet{Title: "A new rule", Chapter: d.Kind, Body: body})
	}
	form, err := s.ruleForm(r, d, draft, n, sub, d.Revision)
	if err != nil {
		return err
	}
	form.fill(draft)
	form.each(func(x *formField) {
		if x.Path == "recipe" {
			x.Value = r.FormValue("recipe")
		}
	})
	form.Author = handOf(r).Author
	if n < draft.Len("rules") {
		form.Preview = s.previewRule(r, draft, n)
	}
	return s.showForm(w, r, http.StatusOK, d, form)
}

// ruleAsked returns which rule a request means, from 0, and its subject; a new
// rule is the one behind the last.
func ruleAsked(draft *document.Draft, number, subject string) (int, ruleSubject, error) {
	n := draft.Len("rules")
	if number == "" {
		sub, _ := subjectNamed(subject)
		return n, sub, nil
	}
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > draft.Len("rules")+1 {
		return 0, ruleSubject{}, ErrNotFound
	}
	if sub, ok := subjectNamed(subject); ok {
		return n - 1, sub, nil
	}
	for _, sub := range ruleSubjects {
		if draft.Get(rulePath(n-1)+"."+string(sub.Subject)) != "" {
			return n - 1, sub, nil
		}
	}
	return 0, ruleSubject{}, ErrNotFound
}

func rulePath(n int) string { return fmt.Sprintf("rules[%d]", n) }

// ruleForm is the form of rule n, which may be one behind the last.
func (s *Server) ruleForm(r *http.Request, d Document, draft *document.Draft, n int, sub ruleSubject, base int) (docForm, error) {
	at := rulePath(n)
	form := docForm{
		Title: fmt.Sprintf("Rule %d of %s", n+1, d.Title), Base: base, Save: "Save the rule",
		Action: d.Path() + "/rule", Live: d.Path() + "/rule/words", Back: d.Path() + "/rules",
		Hidden: []formChoice{{"n", strconv.Itoa(n + 1)}, {"subject", string(sub.Subject)}},
		Groups: ruleFields(sub, at, draft.Len(at+".of which")),
	}
	held := styleBody{Document: d}
	if err := s.holdRecipes(r.Context(), &held, ""); err != nil {
		return form, err
	}
	if len(held.Recipes) > 0 {
		choices := []formChoice{{"", "none"}}
		for _, x := range held.Recipes {
			choices = append(choices, formChoice{x.Slug, x.Title})
		}
		form.Groups = append(form.Groups, formGroup{Title: "Try it", Fields: []formField{{
			Path: "recipe", Label: "Hold a recipe against the rule", Options: choices, Hint: "Only to see what the rule says of it; nothing of the recipe is saved."}}})
	}
	return form, nil
}

// typedRule reads the form of a rule into a draft.
func (s *Server) typedRule(r *http.Request) (d Document, form docForm, draft *document.Draft, n int, err error) {
	if _, d, err = s.read(r); err != nil {
		return
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return d, form, nil, 0, err
	}
	n, sub, err := ruleAsked(draft, r.PostFormValue("n"), r.PostFormValue("subject"))
	if err != nil {
		return d, form, nil, 0, err
	}
	if sub.Subject == "" {
		return d, form, nil, 0, errBadForm
	}
	at := rulePath(n)
	parts := packRows(r.PostForm, at+".of which", "share", "in")
	if form, err = s.ruleForm(r, d, draft, n, sub, base); err != nil {
		return
	}
	form.Groups = replaceParts(form.Groups, at, parts)
	form.fillTyped(r.PostForm)
	if sub.Subject == style.OnFigure {
		r.PostForm.Set(at+".in", withFigureUnit(r.PostForm.Get(at+".in"), r.PostForm.Get(at+".figure")))
	}
	return d, form, draft, n, writeRule(r, form, draft, at, sub)
}

// writeRule puts what was typed into the draft. A rule without its subject is
// written, too, so that the fault comes from the rules of the document.
func writeRule(r *http.Request, form docForm, draft *document.Draft, at string, sub ruleSubject) (err error) {
	if draft.Len("rules") == 0 {
		draft.Remove("rules") // an empty list may be written as nothing
	}
	if err := draft.Set(at+".severity", r.PostForm.Get(at+".severity")); err != nil {
		return err
	}
	for i := draft.Len(at+".of which") - 1; i >= 0; i-- {
		draft.Remove(fmt.Sprintf("%s.of which[%d]", at, i))
	}
	if draft.Len(at+".of which") == 0 {
		draft.Remove(at + ".of which")
	}
	form.each(func(x *formField) {
		if x.Path == "recipe" {
			return
		}
		text := x.text()
		if x.Path == at+".in" && sub.Subject == style.OnFigure {
			text = strings.TrimSpace(r.PostForm.Get(x.Path))
		}
		err = errors.Join(err, draft.Set(x.Path, text))
	})
	return err
}

// replaceParts makes rows for the parts that were typed.
func replaceParts(groups []formGroup, at string, parts int) []formGroup {
	for i := range groups {
		if groups[i].Title == "Of which" {
			groups[i] = partFields(at, parts)
		}
	}
	return groups
}

// withFigureUnit adds the unit of a figure to a bare range.
func withFigureUnit(value, name string) string {
	f, err := quantity.LookupFigure(name)
	if err != nil {
		return value
	}
	return withUnit(value, f.Unit())
}

func (s *Server) saveStyleRule(w http.ResponseWriter, r *http.Request) error {
	d, form, draft, n, err := s.typedRule(r)
	if err != nil {
		return err
	}
	form.Preview = s.previewRule(r, draft, n)
	if form.Why == "" {
		form.Why = fmt.Sprintf("rule %d", n+1)
	}
	return s.saveForm(w, r, d, form, draft, fmt.Sprintf("%s/rules?done=saved#rule-%d", d.Path(), n+1))
}

// styleRuleWords answers with the sentence that a rule makes, and what it says
// of a recipe, while somebody types.
func (s *Server) styleRuleWords(w http.ResponseWriter, r *http.Request) error {
	_, _, draft, n, err := s.typedRule(r)
	if err != nil {
		return err
	}
	return s.fragment(w, r, "page_house_form", "rule-preview", s.previewRule(r, draft, n))
}

// rulePreview is a rule in words while it is being written.
type rulePreview struct {
	Sentence, Mark, Verdict, Mend string
	Wrong                         []string
}

func (s *Server) previewRule(r *http.Request, draft *document.Draft, n int) rulePreview {
	text, err := draft.Text()
	if err != nil {
		return rulePreview{}
	}
	st, err := style.Parse("style", text)
	if err != nil {
		return rulePreview{Wrong: faultWords(err, rulePath(n))}
	}
	beer, held := &recipe.Recipe{}, (*heldRecipe)(nil)
	if slug := r.FormValue("recipe"); slug != "" {
		if held, err = s.heldRecipe(r.Context(), slug); err == nil && held != nil {
			beer = held.recipe
		}
	}
	one := *st
	one.Rules = st.Rules[n : n+1]
	j, err := judge.RecipeFor(handOf(r).printer(), &one, beer)
	if err != nil || len(j.Verdicts) == 0 {
		return rulePreview{}
	}
	v, pr := j.Verdicts[0], handOf(r).printer()
	p := rulePreview{Sentence: ruleSentence(&one.Rules[0], v.Phrase, v.Range), Mark: markOf(&one.Rules[0], v, held != nil, pr)}
	if held != nil {
		p.Verdict, p.Mend = held.Title+": "+v.Line(), v.Mend
		if v.Lack != "" {
			p.Verdict = held.Title + ": " + v.Lack
		}
	}
	return p
}

// faultWords are the faults of one rule in words.
func faultWords(err error, at string) (words []string) {
	var faults document.Faults
	if !errors.As(err, &faults) {
		return nil
	}
	for _, f := range faults {
		if f.Field == at || kinship(at, f.Field) > 0 {
			text := f.Msg
			if f.Hint != "" {
				text += ": " + f.Hint
			}
			words = append(words, text)
		}
	}
	return words
}
