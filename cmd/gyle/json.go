// SPDX-License-Identifier: MIT

package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"gyle/internal/document"
	"gyle/judge"
	"gyle/plan"
	"gyle/recipe"
	chem "gyle/science/water"
	"gyle/style"
	"gyle/water"
)

// printJSON writes a value for programs. A list in it is never null.
func printJSON(w io.Writer, value any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(value)
}

// documentJSON is what check says of one document.
type documentJSON struct {
	Document  string           `json:"document"` // as it was named
	Kind      string           `json:"kind,omitempty"`
	Title     string           `json:"title,omitempty"`
	OK        bool             `json:"ok"`
	Faults    []faultJSON      `json:"faults"`
	Notes     []string         `json:"notes,omitempty"` // no faults, but worth a look
	Judgement *judge.Judgement `json:"judgement,omitempty"`
	Balance   *balanceJSON     `json:"balance,omitempty"`
}

// faultJSON is one fault. Lines and columns count from 1, columns characters.
type faultJSON struct {
	File  string `json:"file,omitempty"`
	Line  int    `json:"line,omitempty"`
	Col   int    `json:"col,omitempty"`
	Field string `json:"field,omitempty"`
	Msg   string `json:"msg"`
	Hint  string `json:"hint,omitempty"`
}

// balanceJSON is the balance of a water's ions: charges in mEq/L, the
// difference in % of their sum.
type balanceJSON struct {
	Cations    float64        `json:"cations"`
	Anions     float64        `json:"anions"`
	Difference float64        `json:"difference"`
	Verdict    string         `json:"verdict"`
	Mislabels  []mislabelJSON `json:"mislabels"`
}

// mislabelJSON is a set of labels that, undone, would close the balance.
type mislabelJSON struct {
	Labels     []string `json:"labels"`
	Difference float64  `json:"difference"`
	Preferred  bool     `json:"preferred"`
}

// checkJSON writes what check found as a list, one entry for each document.
func checkJSON(w io.Writer, all []checked) error {
	list := []documentJSON{}
	for _, found := range all {
		d := documentJSON{Document: found.name, Kind: found.page.kind, OK: found.err == nil, Faults: faultsOf(found.err), Judgement: found.judgement}
		if found.doc != nil && found.err == nil {
			d.Title, _ = titleOf(found.doc)
		}
		if r, ok := found.doc.(*recipe.Recipe); ok && found.err == nil {
			d.Notes = unknownNames(r)
		}
		if printed, ok := found.doc.(*water.Water); ok && found.err == nil {
			d.Balance = balanceOf(printed)
		}
		list = append(list, d)
	}
	return printJSON(w, list)
}

// faultsOf lists the faults behind an error; one without a place has a message
// and a hint.
func faultsOf(err error) []faultJSON {
	out := []faultJSON{}
	if err == nil {
		return out
	}
	var faults document.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			out = append(out, faultJSON{f.File, f.Line, f.Col, f.Field, f.Msg, f.Hint})
		}
		return out
	}
	msg, hint, _ := strings.Cut(err.Error(), "\n   ")
	return append(out, faultJSON{Msg: msg, Hint: hint})
}

// balanceOf balances a water as its numbers are meant.
func balanceOf(d *water.Water) *balanceJSON {
	ions := plan.Printed(d)
	if len(d.Meant) > 0 || d.Alkalinity != nil {
		ions = plan.Reading(d)
	}
	b := chem.Balance(ions)
	out := &balanceJSON{float64(b.Cations), float64(b.Anions), b.Difference, b.Verdict, []mislabelJSON{}}
	if len(d.Meant) > 0 || d.Alkalinity != nil {
		return out
	}
	for _, m := range chem.Mislabels(ions) {
		one := mislabelJSON{Labels: []string{}, Preferred: m.Preferred}
		for _, step := range m.Steps {
			one.Labels = append(one.Labels, step.Label.String())
			one.Difference = step.Balance.Difference
		}
		out.Mislabels = append(out.Mislabels, one)
	}
	return out
}

// comparisonJSON is two plans and what differs between them.
type comparisonJSON struct {
	Plans      []json.RawMessage `json:"plans"` // as plan --json writes them
	Judgements []judge.Judgement `json:"judgements"`
	Change     *changeJSON       `json:"change,omitempty"`     // between two recipes
	Multiplied []multipliedJSON  `json:"multiplied,omitempty"` // one recipe on two houses, by way of cooling
}

// changeJSON is what differs between two recipes.
type changeJSON struct {
	Declared    string           `json:"declared,omitempty"`
	Why         string           `json:"why,omitempty"`
	Expect      string           `json:"expect,omitempty"`
	Differences []differenceJSON `json:"differences"`
	Independent int              `json:"independent"` // changes a taster could tell apart
}

type differenceJSON struct {
	Part   string `json:"part"`
	What   string `json:"what"`
	Before string `json:"before"`
	After  string `json:"after"`

	Follows bool `json:"follows"` // a consequence of another difference
}

// multipliedJSON is what multiplying the weights would have given: bitterness
// in IBU, excess as a share of the bitterness meant.
type multipliedJSON struct {
	Factor  float64 `json:"factor"`
	Cooling string  `json:"cooling"`
	IBU     float64 `json:"ibu"`
	Excess  float64 `json:"excess"`
}

// json prints the comparison for programs.
func (c *compareCommand) json(s *streams, a, b side, st *style.Style) error {
	out := comparisonJSON{Judgements: []judge.Judgement{}}
	for _, p := range []*plan.Plan{a.plan, b.plan} {
		text, err := p.JSON()
		if err != nil {
			return err
		}
		out.Plans = append(out.Plans, text)
		if st == nil {
			continue
		}
		j, err := judge.Plan(st, p)
		if err != nil {
			return fmt.Errorf("judge %s: %w", name(p), err)
		}
		out.Judgements = append(out.Judgements, j)
	}
	if len(c.Recipes) == 2 {
		out.Change = changeOf(a.plan.RecipeDocument(), b.plan.RecipeDocument())
		return printJSON(s.out, out)
	}
	naive, err := plan.Multiply(a.plan, b.plan)
	if err != nil {
		return err
	}
	for _, m := range naive {
		out.Multiplied = append(out.Multiplied, multipliedJSON{m.Factor, m.Cooling, float64(m.IBU), m.Excess})
	}
	return printJSON(s.out, out)
}

func changeOf(before, after *recipe.Recipe) *changeJSON {
	out := &changeJSON{Differences: []differenceJSON{}}
	if c := after.Change; c != nil {
		out.Declared, out.Why, out.Expect = c.What, c.Why, c.Expect
	}
	found := recipe.Differences(before, after)
	for _, d := range found {
		out.Differences = append(out.Differences, differenceJSON{d.Part, d.What, d.Before, d.After, d.Follows()})
	}
	out.Independent = recipe.Independent(found)
	return out
}
