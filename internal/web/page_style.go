// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"gyle/internal/chart"
	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// styleBody is a style as a sheet: prose on the left, the rule margin on the
// right, and on every rule the mark of a recipe when one is held against it.
type styleBody struct {
	Document Document
	Style    *style.Style
	Groups   []ruleGroup
	Held     *heldRecipe // nil: no recipe is held against it
	Recipes  []Document  // that may be held against it, its own first
	Named    []Referrer
	Edge     string
}

// heldRecipe is the recipe whose marks stand on the rules.
type heldRecipe struct {
	Slug, Title, Path                     string
	Inside, Edge, Outside, Unknown, Broke int
	recipe                                *recipe.Recipe
}

// ruleGroup is rules that follow each other and speak of the same.
type ruleGroup struct {
	Name  string
	Rules []ruleLine
}

// ruleLine is a rule as it stands in the margin.
type ruleLine struct {
	Number    int // among the rules, from 1
	Phrase    string
	Severity  style.Severity
	When, Why string
	Range     string
	Unit      string
	Mark      string // drawing; empty for a rule without a range of numbers
	Word      judge.Word
	Text, Off string
	Mend      string
	Lack      string
	Broken    bool
	Parts     []ruleLine
}

func (s *Server) style(w http.ResponseWriter, r *http.Request) error {
	asJSON := asksJSON(r)
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	if d.Deleted {
		return s.document(w, r)
	}
	st, err := parsed(s, d.Slug, d.Text, style.Parse)
	if err != nil {
		return s.document(w, r)
	}
	body := styleBody{Document: d, Style: st, Edge: handOf(r).printer().Fraction(quantity.Fraction(st.EdgeShare()), 0)}
	if err := s.holdRecipes(r.Context(), &body, r.URL.Query().Get("recipe")); err != nil {
		return err
	}
	verdicts, err := body.judge(handOf(r).printer())
	if err != nil {
		return err
	}
	if asJSON {
		return sendDocumentJSON(w, st, styleComputed{body.heldSlug(), verdicts})
	}
	body.Groups = groupRules(st, ruleLines(st, verdicts, body.Held != nil, handOf(r).printer()))
	return s.show(w, r, http.StatusOK, "page_style", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: styleNotice(r, d), Body: body})
}

// styleComputed is what the sheet works out, for programs.
type styleComputed struct {
	Recipe   string          `json:"recipe,omitempty"`
	Verdicts []judge.Verdict `json:"verdicts"`
}

func (b *styleBody) heldSlug() string {
	if b.Held == nil {
		return ""
	}
	return b.Held.Slug
}

// styleNotice says what was just done to the rules.
func styleNotice(r *http.Request, d Document) *Notice {
	if r.URL.Query().Get("done") == "begun" {
		return &Notice{Text: "The style is begun. Make its numbers your own: give each a range that you stand behind, and the reason."}
	}
	return savedNotice(r, d)
}

// mostRecipes is how many recipes are offered to be held against a style.
const mostRecipes = 200

// holdRecipes lists the recipes that may be held against the style, those that
// are meant for it first, and reads the one that was chosen.
func (s *Server) holdRecipes(ctx context.Context, b *styleBody, chosen string) (err error) {
	if b.Named, err = s.book.References(ctx, b.Document.Kind, b.Document.Slug); err != nil {
		return err
	}
	all, _, err := s.book.List(ctx, recipe.Kind, Part{Limit: mostRecipes})
	if err != nil {
		return err
	}
	own := map[string]bool{}
	for _, n := range b.Named {
		own[n.Slug] = n.Kind == recipe.Kind
	}
	for _, mine := range []bool{true, false} {
		for _, d := range all {
			if own[d.Slug] == mine {
				b.Recipes = append(b.Recipes, d)
			}
		}
	}
	if chosen != "" {
		b.Held, err = s.heldRecipe(ctx, chosen)
	}
	return err
}

// heldRecipe reads a recipe; one that isn't in the book or can't be read is
// none.
func (s *Server) heldRecipe(ctx context.Context, slug string) (*heldRecipe, error) {
	d, err := s.book.Get(ctx, recipe.Kind, slug)
	if errors.Is(err, ErrNotFound) || err == nil && d.Deleted {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	read, err := parsed(s, slug, d.Text, recipe.Parse)
	if err != nil {
		return nil, nil
	}
	return &heldRecipe{Slug: slug, Title: d.Title, Path: d.Path(), recipe: read}, nil
}

// judge holds the recipe against the rules. Without one the verdicts still
// tell the ranges.
func (b *styleBody) judge(pr quantity.Printer) ([]judge.Verdict, error) {
	beer := &recipe.Recipe{}
	if b.Held != nil {
		beer = b.Held.recipe
	}
	j, err := judge.RecipeFor(pr, b.Style, beer)
	if err != nil || b.Held == nil {
		return j.Verdicts, err
	}
	b.Held.Inside, b.Held.Edge = j.Count(judge.Inside), j.Count(judge.Edge)
	b.Held.Outside, b.Held.Unknown = j.Count(judge.Outside), j.Count(judge.Unknown)
	b.Held.Broke = len(j.Broken())
	return j.Verdicts, nil
}

// ruleLines puts verdicts into lines, the parts of a rule under it.
func ruleLines(st *style.Style, verdicts []judge.Verdict, held bool, pr quantity.Printer) (lines []ruleLine) {
	for _, v := range verdicts {
		line := ruleLineOf(&st.Rules[v.Rule], v, held, pr)
		if v.Part > 0 {
			last := &lines[len(lines)-1]
			last.Parts = append(last.Parts, line)
			continue
		}
		lines = append(lines, line)
	}
	return lines
}

func ruleLineOf(r *style.Rule, v judge.Verdict, held bool, pr quantity.Printer) ruleLine {
	line := ruleLine{
		Number: v.Rule + 1, Phrase: upperFirst(v.Phrase), Severity: v.Severity, When: v.When, Why: v.Why,
		Range: v.Range, Unit: v.Unit, Mark: markOf(r, v, held, pr),
	}
	if held {
		line.Word, line.Text, line.Off, line.Mend, line.Lack, line.Broken = v.Word, v.Text, v.Off, v.Mend, v.Lack, v.Broken()
	}
	return line
}

// markOf draws a rule as a short ruled line with the recipe's mark on it.
func markOf(r *style.Rule, v judge.Verdict, held bool, pr quantity.Printer) string {
	if v.Subject == style.OnCharges || math.IsInf(v.Low, 0) && math.IsInf(v.High, 0) {
		return ""
	}
	mark := chart.Rule{Name: v.Phrase, Low: v.Low, High: v.High, Value: math.NaN(), Format: ruleNumber(r, v, pr)}
	if held && v.Text != "" {
		mark.Value = v.Value
	}
	switch v.Word {
	case judge.Edge:
		mark.Verdict = chart.Edge
	case judge.Outside:
		mark.Verdict = chart.Outside
	}
	return chart.RuleMark(chart.Sheet{ID: fmt.Sprintf("rule-%d-%d", v.Rule+1, v.Part), Printer: pr}, mark)
}

// ruleNumber prints the numbers of a rule: figures with their usual places,
// others with as few as they need, shares with one at most.
func ruleNumber(r *style.Rule, v judge.Verdict, pr quantity.Printer) func(float64) string {
	if v.Subject == style.OnFigure && v.Unit != plato {
		return func(x float64) string { return pr.Number(x, r.FigureName().Decimals()) }
	}
	fine := 100.0
	if v.Unit == "%" {
		fine = 10
	}
	return func(x float64) string {
		short := strconv.FormatFloat(math.Round(fine*x)/fine, 'f', -1, 64)
		_, places, _ := strings.Cut(short, ".")
		return pr.Number(x, len(places))
	}
}

// plato is the unit of a gravity rule that is written in degrees Plato.
const plato = "°P"

// groupRules puts a heading over rules that follow each other and speak of the
// same. The order is the author's; where it goes to and fro there are none.
func groupRules(st *style.Style, lines []ruleLine) (groups []ruleGroup) {
	for i, line := range lines {
		name := ruleTopic(&st.Rules[i])
		if len(groups) == 0 || groups[len(groups)-1].Name != name {
			groups = append(groups, ruleGroup{Name: name})
		}
		last := &groups[len(groups)-1]
		last.Rules = append(last.Rules, line)
	}
	if len(groups) > 2*ruleTopics {
		return []ruleGroup{{Name: "Rules", Rules: lines}}
	}
	return groups
}

// ruleTopics is how many topics rules have.
const ruleTopics = 5

func ruleTopic(r *style.Rule) string {
	switch r.Subject() {
	case style.OnFigure:
		switch f := r.FigureName(); {
		case f.Unit() == "mg/L", f == quantity.SulfateToChloride, f == quantity.ResidualAlkalinity:
			return "Water"
		}
		return "The numbers"
	case style.OnShare, style.OnLargest, style.OnCount, style.OnLate:
		return "Grist"
	case style.OnYeast:
		return "Yeast"
	}
	return "Hops"
}

func upperFirst(text string) string {
	for i := range text {
		if i > 0 {
			return strings.ToUpper(text[:i]) + text[i:]
		}
	}
	return strings.ToUpper(text)
}

// RecipePath is the address of the sheet with a recipe held against it.
func (b styleBody) RecipePath(slug string) string {
	return b.Document.Path() + "?recipe=" + url.QueryEscape(slug)
}

// Paragraphs are those of the prose; a blank line parts them.
func (b styleBody) Paragraphs() []string { return paragraphsOf(b.Style.Prose) }

func paragraphsOf(prose string) (list []string) {
	for _, part := range strings.Split(strings.ReplaceAll(prose, "\r\n", "\n"), "\n\n") {
		if text := strings.Join(strings.Fields(part), " "); text != "" {
			list = append(list, text)
		}
	}
	return list
}
