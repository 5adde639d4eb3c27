// SPDX-License-Identifier: MIT

package main

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"gyle/blind"
	"gyle/brewhouse"
	"gyle/chance"
	"gyle/formulate"
	"gyle/gyle"
	"gyle/internal/describe"
	"gyle/internal/document"
	"gyle/judge"
	"gyle/plan"
	"gyle/recipe"
	"gyle/schema"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

//go:generate go test . -run TestSchemasAreFresh -update

// schemaCommand prints a JSON Schema.
type schemaCommand struct {
	Kind string `arg:"" optional:"" help:"Kind of document, or what the program prints with --json; without it a list of them."`
}

// Help is shown by "gyle schema --help".
func (schemaCommand) Help() string {
	return `Examples:

  gyle schema
  gyle schema recipe > recipe.schema.json
  gyle schema plan

Schemas are drafts 2020-12 of JSON Schema. Those of documents hold for the YAML text of a document as well, so that an editor can
complete and check it. They know the form only: gyle check knows what fits together.`
}

// Run prints.
func (c *schemaCommand) Run(s *streams) error {
	if c.Kind == "" {
		for _, name := range schema.Names() {
			text, _ := schema.Text(name)
			var head struct{ Title string }
			if err := json.Unmarshal(text, &head); err != nil {
				return err
			}
			fmt.Fprintf(s.out, "%-16s %s\n", name, head.Title)
		}
		return nil
	}
	text, ok := schema.Text(c.Kind)
	if !ok {
		hint := "there are " + strings.Join(schema.Names(), ", ")
		if near, ok := document.Nearest(c.Kind, schema.Names()); ok {
			hint = "did you mean " + near + "?"
		}
		return fmt.Errorf("there is no schema of %q\n   %s", c.Kind, hint)
	}
	_, err := s.out.Write(text)
	return err
}

// described lists what has a schema.
func described() []describe.Kind {
	doc := func(name, title, says string, t reflect.Type) describe.Kind {
		return describe.Kind{Name: name, Title: title, Says: says, Type: t, Form: describe.Document}
	}
	plain := func(name, title, says string, t reflect.Type) describe.Kind {
		return describe.Kind{Name: name, Title: title, Says: says, Type: t, Form: describe.Plain}
	}
	return []describe.Kind{
		doc(style.Kind, "Style", "What an author says of a kind of beer, as prose and as rules.", reflect.TypeFor[style.Style]()),
		doc(recipe.Kind, "Recipe", "One version of a beer: what it is, never whose kettle.", reflect.TypeFor[recipe.Recipe]()),
		doc(brewhouse.Kind, "Brewhouse", "The vessels, heat, losses and habits of one place.", reflect.TypeFor[brewhouse.House]()),
		doc(stock.Kind, "Stock", "The lots in one shed.", reflect.TypeFor[stock.Stock]()),
		doc(water.Kind, "Water", "The report of one supply, as printed, and what its labels really meant.", reflect.TypeFor[water.Water]()),
		doc(gyle.Kind, "Gyle", "One brewing: a snapshot of the plan and a log that only grows.", reflect.TypeFor[gyle.Gyle]()),
		doc(tasting.Kind, "Tasting", "One evening at which a panel tastes blind.", reflect.TypeFor[tasting.Tasting]()),
		{Name: "plan", Title: "Plan", Says: "A recipe realised on a house, as gyle plan --json and /plan.json write it. Every measure has its unit.", Type: reflect.TypeFor[plannedJSON](), Form: describe.Plan},
		{Name: "treatments", Title: "Treatments of a liquor", Says: "As gyle treat --json writes them.", Type: reflect.TypeFor[[]formulate.Treatment](), Form: describe.Plan},
		plain("judgement", "Judgement", "A recipe or plan held against the rules of a style, as in gyle check --json.", reflect.TypeFor[judge.Judgement]()),
		plain("check", "Check of documents", "What is wrong with documents, and how a recipe stands to its style, as gyle check --json writes it.", reflect.TypeFor[[]documentJSON]()),
		plain("verdict", "Verdict of a tasting", "What a tasting shows, as gyle tasting --json writes it.", reflect.TypeFor[blind.Verdict]()),
		plain("log", "Log of a gyle", "The log as it counts, as gyle log --json writes it.", reflect.TypeFor[[]entryJSON]()),
		plain("reconstruction", "Reconstruction", "The beer really brewed, as gyle reconstruct --json writes it.", reflect.TypeFor[reconstructionJSON]()),
		plain("comparison", "Comparison", "Two plans and what differs, as gyle compare --json writes it.", reflect.TypeFor[comparisonJSON]()),
		plain("formula", "Formulated recipe", "A recipe that fits a style, as gyle formulate --json writes it.", reflect.TypeFor[formulate.Result]()),
		plain("variations", "Variations", "As gyle formulate --variations --json writes them.", reflect.TypeFor[[]formulate.Variation]()),
		plain("swaps", "Swaps", "As gyle formulate --swap --json writes them.", reflect.TypeFor[[]formulate.Swap]()),
		plain("why", "Reason of a figure", "As gyle why --json writes it.", reflect.TypeFor[answer]()),
	}
}

// plannedJSON is a plan, with what may come of it where that was asked for.
type plannedJSON struct {
	plan.Plan
	Chance *chance.Outlook `json:"chance,omitempty"` // what may come of it, with --chance
}

// wordsOf lists what types of words may say.
func wordsOf() map[reflect.Type][]string {
	words := map[reflect.Type][]string{
		reflect.TypeFor[style.Severity](): {"limit", "advice", "option"},
		reflect.TypeFor[recipe.Role]():    {"base", "color", "flavour"},
		reflect.TypeFor[judge.Word]():     {string(judge.Inside), string(judge.Edge), string(judge.Outside), string(judge.Unknown), string(judge.Idle)},
		reflect.TypeFor[blind.State]():    {string(blind.Unplanned), string(blind.Planned), string(blind.Answering), string(blind.Closed), string(blind.Judged), string(blind.Voided)},
		reflect.TypeFor[tasting.Method](): {"triangle", "duo-trio", "2-afc", "3-afc", "tetrad", "a-not-a", "preference", "ranking", "profile"},
	}
	add := func(t reflect.Type, word string) { words[t] = append(words[t], word) }
	for _, w := range gyle.Readables() {
		add(reflect.TypeFor[gyle.Of](), string(w))
	}
	for _, w := range gyle.Places() {
		add(reflect.TypeFor[gyle.Place](), string(w))
	}
	for _, w := range gyle.Deeds() {
		add(reflect.TypeFor[gyle.Do](), string(w))
	}
	return words
}
