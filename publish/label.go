// SPDX-License-Identifier: MIT

package publish

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
)

// A Label is what may stand on a bottle, derived from what is in the beer. It
// is no legal advice: what a label must say differs by country.
type Label struct {
	Name        string
	Alcohol     string // "4.8 % vol"
	Volume      string // of one bottle; empty where not said
	Date        string // as given
	Ingredients []string
	Contains    string   // "contains barley, oats (gluten)"; empty where nothing is known to be in it
	Basis       []string // which ingredient brings what
	Cautions    []string

	lang string // of its sentences; empty: English
}

// LabelFor derives the label of a plan. abv is the alcohol as brewed; 0 takes
// the plan's. Volume and date are printed as they are given.
func LabelFor(p *plan.Plan, abv quantity.Fraction, volume, date string, pr quantity.Printer) Label {
	if abv == 0 {
		abv = p.Gravity.ABV
	}
	l := Label{Name: p.Recipe, Alcohol: pr.Number(abv.Percent(), 1) + " % vol", Volume: volume, Date: date, Ingredients: []string{"water"},
		Cautions: []string{
			"Contains alcohol. Not for children, in pregnancy, or before driving.",
			"Check your country's rules: what a label must say, and whether home-brewed beer may be given away or sold, differs.",
		}}
	found := map[string][]string{} // allergen → what brings it
	add := func(name string, allergens []string) {
		if !slices.Contains(l.Ingredients, name) {
			l.Ingredients = append(l.Ingredients, name)
		}
		for _, a := range allergens {
			found[a] = append(found[a], name)
		}
	}
	for _, g := range p.Grist.Lines {
		typical, _ := data.Malt(g.Malt)
		add(g.Name, typical.Allergens)
	}
	for _, c := range p.Hops.Charges {
		if typical, ok := data.Hop(c.Hop); ok {
			add(typical.Name+" hops", nil)
		} else {
			add(c.Hop+" hops", nil)
		}
	}
	add("yeast", nil)
	if sugar, ok := data.Sugar(p.Cellar.Sugar); ok && p.Cellar.Priming > 0 {
		add(sugar.Name+" for the bottles", sugar.Allergens)
	}
	l.contains(found)
	if p.Cellar.Priming > 0 {
		l.Cautions = append(l.Cautions, "Bottle-conditioned: keep cool and upright, pour off the yeast.")
	}
	return l
}

// inBrackets takes "gluten (barley)" and "gluten (oats, by law)" apart.
var inBrackets = regexp.MustCompile(`^gluten \(([a-z/ ]+)`)

// contains writes the sentence on allergens: cereals first, with the word that
// the laws use, then all else as the table has it.
func (l *Label) contains(found map[string][]string) {
	var cereals, others []string
	for _, name := range sortedKeys(found) {
		if strings.Contains(name, "exempt") {
			continue // the law lets it go unsaid; the table tells
		}
		l.Basis = append(l.Basis, fmt.Sprintf("%s: %s", name, strings.Join(unique(found[name]), ", ")))
		if m := inBrackets.FindStringSubmatch(name); m != nil {
			cereals = append(cereals, strings.TrimSpace(m[1]))
		} else {
			others = append(others, name)
		}
	}
	var parts []string
	if len(cereals) > 0 {
		parts = append(parts, strings.Join(cereals, ", ")+" (gluten)")
	}
	parts = append(parts, others...)
	if len(parts) > 0 {
		l.Contains = "contains " + strings.Join(parts, ", ")
	}
}

// Text writes a label as lines.
func (l Label) Text() string {
	lines := []string{l.Name, l.Alcohol + "; " + l.Contains}
	if l.Contains == "" {
		lines[1] = l.Alcohol
	}
	if l.Volume != "" {
		lines = append(lines, l.Volume)
	}
	if l.Date != "" {
		lines = append(lines, l.Date)
	}
	ingredients, allergens := l.heads()
	lines = append(lines, ingredients+strings.Join(l.Ingredients, ", "))
	lines = append(lines, l.Cautions...)
	lines = append(lines, allergens+strings.Join(l.Basis, "; "))
	return typed(strings.Join(lines, "\n")) + "\n"
}

func sortedKeys(m map[string][]string) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func unique(list []string) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}
