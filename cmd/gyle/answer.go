// SPDX-License-Identifier: MIT

package main

import (
	"sort"
	"strings"

	"gyle/plan"
	"gyle/science"
)

// answer is what "gyle why" says, for people and for programs.
type answer struct {
	Title    string    `json:"title,omitempty"`
	Says     string    `json:"says,omitempty"` // one sentence, before the figures
	Rows     []fact    `json:"rows,omitempty"`
	Note     string    `json:"note,omitempty"` // behind the figures
	Formulas []formula `json:"formulas,omitempty"`
}

// fact is one figure of an answer.
type fact struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	More  string `json:"more,omitempty"` // where it comes from, or what it means
}

// formula is one formula with what is known of it.
type formula struct {
	Name    string   `json:"name"`
	Summary string   `json:"summary"`
	Text    string   `json:"text"`
	Notes   string   `json:"notes,omitempty"`
	Source  string   `json:"source"`
	Cited   []source `json:"cited"`
	Valid   string   `json:"valid"`
	Check   string   `json:"check"`
	Tag     string   `json:"tag"`
}

// source is a work that a formula cites.
type source struct {
	Key  string `json:"key"`
	Work string `json:"work"`
}

func formulaOf(f science.Formula) formula {
	out := formula{f.Name, f.Summary, f.Text, f.Notes, f.Source, []source{}, f.Valid, f.Check, f.Tag}
	keys := f.Cited()
	sort.Strings(keys)
	for _, k := range keys {
		out.Cited = append(out.Cited, source{k, science.Sources[k]})
	}
	return out
}

func formulasNamed(names ...string) (found []formula) {
	for _, name := range names {
		if f, ok := science.Lookup(name); ok {
			found = append(found, formulaOf(f))
		}
	}
	return found
}

// answerOf turns a reason of the plan into an answer.
func answerOf(r plan.Reason) answer {
	a := answer{Title: strings.ToUpper(r.Label[:1]) + r.Label[1:], Says: r.Says, Formulas: formulasNamed(r.Formulas...)}
	if r.Value != "" {
		a.Title += ": " + r.Value
	}
	for _, i := range r.Inputs {
		a.add(i.Name, i.Value, i.From)
	}
	return a
}

// add adds a name, its value and, if there is one, a remark.
func (a *answer) add(cells ...string) {
	f := fact{Name: cells[0], Value: cells[1]}
	if len(cells) > 2 {
		f.More = cells[2]
	}
	a.Rows = append(a.Rows, f)
}

// print prints an answer for people.
func (a answer) print(out *sheet) {
	if a.Title != "" {
		out.heading("%s", a.Title)
	}
	if a.Says != "" {
		out.note(" ", a.Says)
	}
	for _, f := range a.Rows {
		out.row(f.Name, f.Value, f.More)
	}
	if a.Note != "" {
		out.note(" ", a.Note)
	}
	for _, f := range a.Formulas {
		f.print(out)
	}
	out.flush()
}

func (f formula) print(out *sheet) {
	out.heading("%s", f.Name)
	out.note(" ", f.Summary)
	for line := range strings.SplitSeq(f.Text, "\n") {
		out.row("   " + line)
	}
	out.flush()
	if f.Notes != "" {
		out.note(" ", f.Notes)
	}
	out.row("source", f.Source)
	out.row("holds for", f.Valid)
	out.row("checked", f.Check)
	out.row("known", f.Tag)
	for _, s := range f.Cited {
		out.note("   "+s.Key+":", s.Work)
	}
	out.flush()
}
