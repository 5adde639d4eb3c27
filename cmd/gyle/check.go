// SPDX-License-Identifier: MIT

package main

import (
	"fmt"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	chem "gyle/science/water"
	"gyle/stock"
	"gyle/style"
	"gyle/tasting"
	"gyle/water"
)

// checkCommand reads documents and says what is wrong with them.
type checkCommand struct {
	Documents []string `arg:"" name:"document" help:"Documents of any kind: files, or names in the book."`
	Style     string   `placeholder:"STYLE" help:"Style to judge recipes by; without it the one beside the recipe, or in the book."`
	Strict    bool     `help:"End with exit code 3 when a limit of the style is broken."`
	Canonical bool     `help:"Print the document in its canonical form instead."`
	Accept    bool     `help:"For a water: print it with the likeliest mislabels undone, the printed numbers kept."`
	JSON      bool     `name:"json" help:"Print faults and verdicts for programs."`
	shelving
	printing
}

// Help is shown by "gyle check --help".
func (checkCommand) Help() string {
	return `Examples:

  gyle check oat-brown-ale.yaml ferry-brown-4.yaml garage.yaml
  gyle check saltpan-lane.yaml --accept > corrected.yaml
  gyle check ferry-brown-4 --book my.gylebook

A recipe is held against its style: each rule is inside, at the edge, or outside, with how far, the smallest change
that would mend it, and the author's reason. A water's ions are balanced, and the mislabel that would close the gap is named.`
}

// checked is what check found of one document.
type checked struct {
	name      string
	page      page
	doc       any
	err       error // faults of the document, or why it couldn't be judged
	judgement *judge.Judgement
}

// Run checks every document and reports all faults, not the first.
func (c *checkCommand) Run(s *streams) (err error) {
	l := c.library()
	defer closing(l, &err)
	var all []checked
	for _, name := range c.Documents {
		found := c.judge(l, name)
		if !c.JSON {
			c.print(s, &found)
		}
		all = append(all, found)
	}
	if c.JSON {
		if err := checkJSON(s.out, all); err != nil {
			return err
		}
	}
	return c.verdict(all)
}

// verdict is how the command ends.
func (c *checkCommand) verdict(all []checked) error {
	broken := false
	for _, found := range all {
		if found.err != nil {
			return errFaults
		}
		broken = broken || found.judgement != nil && limitBroken(*found.judgement)
	}
	if broken && c.Strict {
		return errBroken
	}
	return nil
}

// judge reads one document, and holds a recipe against its style.
func (c *checkCommand) judge(l *library, name string) checked {
	found := checked{name: name}
	found.doc, found.page, found.err = loadAny(l, name)
	r, isRecipe := found.doc.(*recipe.Recipe)
	if found.err != nil || !isRecipe || c.Canonical {
		return found
	}
	st, err := styleOf(l, c.Style, name, r.Style)
	if err != nil || st == nil {
		found.err = err
		return found
	}
	j, err := judge.RecipeFor(c.printer(), st, r)
	if found.err = err; err == nil {
		found.judgement = &j
	}
	return found
}

// print reports on one document.
func (c *checkCommand) print(s *streams, found *checked) {
	if found.err == nil {
		found.err = c.one(s, found)
	}
	if found.err != nil {
		fmt.Fprintln(s.err, found.err)
	}
}

// one reports on a document without faults.
func (c *checkCommand) one(s *streams, found *checked) error {
	if c.Canonical {
		return printCanonical(s, found.doc)
	}
	out, file := &sheet{w: s.out}, found.page.file
	defer out.flush()
	switch d := found.doc.(type) {
	case *style.Style:
		out.note("ok", fmt.Sprintf("%s: style %q, %d rules", file, d.Name, len(d.Rules)))
	case *brewhouse.House:
		out.note("ok", fmt.Sprintf("%s: house %q, %d ways of cooling", file, d.Name, len(d.Cooling)))
	case *stock.Stock:
		out.note("ok", fmt.Sprintf("%s: stock %q, %d lots", file, d.Name, len(d.Malts)+len(d.Hops)+len(d.Yeasts)))
		c.hopAges(out, d)
	case *water.Water:
		return c.water(s, out, file, d)
	case *tasting.Tasting:
		checkTasting(out, file, d)
	case *gyle.Gyle:
		out.note("ok", fmt.Sprintf("%s: gyle %q, %d entries", file, gyleTitle(d), len(d.Log)))
	case *recipe.Recipe:
		out.note("ok", fmt.Sprintf("%s: recipe %q", file, recipeTitle(d)))
		for _, text := range unknownNames(d) {
			out.note("  ?", text)
		}
		switch {
		case found.judgement != nil:
			printJudgement(out, *found.judgement)
		case d.Style != "":
			out.note(" ", fmt.Sprintf("style %s is not beside it and in no book: not judged (give --style)", d.Style))
		}
	}
	return nil
}

// printCanonical prints a document as gyle would write it.
func printCanonical(s *streams, doc any) error {
	d, ok := doc.(interface{ Text() ([]byte, error) })
	if !ok {
		return fmt.Errorf("this kind of document has no canonical form")
	}
	text, err := d.Text()
	if err == nil {
		_, err = s.out.Write(text)
	}
	return err
}

// hopAges says what age has taken from the hops.
func (c *checkCommand) hopAges(out *sheet, d *stock.Stock) {
	pr := c.printer()
	for _, h := range d.Hops {
		now, label := plan.AlphaNow(h, d.Counted)
		if now < label {
			out.row(h.Lot, h.Hop, fmt.Sprintf("alpha %s when packed, %s now", pr.Fraction(label, 1), pr.Fraction(now, 1)))
		}
	}
}

// water balances a report and names the mislabel that would close the gap.
func (c *checkCommand) water(s *streams, out *sheet, file string, d *water.Water) error {
	printed := plan.Printed(d)
	if c.Accept {
		return c.acceptWater(s, d, printed)
	}
	pr := c.printer()
	out.note("ok", fmt.Sprintf("%s: water %q", file, d.Name))
	before := chem.Balance(printed)
	out.note(" ", fmt.Sprintf("as printed: cations %s, anions %s, difference %+.1f %%: %s",
		pr.Charge(before.Cations), pr.Charge(before.Anions), before.Difference, before.Verdict))
	if len(d.Meant) > 0 || d.Alkalinity != nil {
		c.meantWater(out, d)
		return nil
	}
	found := chem.Mislabels(printed)
	if len(found) == 0 {
		return nil
	}
	out.note(" ", "mislabels that would close it:")
	for i, m := range found[:min(3, len(found))] {
		for _, step := range m.Steps {
			out.row(fmt.Sprintf("%d", i+1), step.Label.String(), fmt.Sprintf("%+.1f %%", step.Balance.Difference), step.Balance.Verdict)
		}
	}
	out.flush()
	out.note(" ", "Ask the supplier. If the first is right, gyle check "+file+" --accept prints the document with it; the printed numbers stay.")
	return nil
}

// meantWater shows the balance of the numbers as they are meant.
func (c *checkCommand) meantWater(out *sheet, d *water.Water) {
	pr := c.printer()
	ions := plan.Printed(d)
	for _, m := range d.Meant {
		for _, l := range chem.Labels {
			if l.String() == m.String() {
				ions = l.Undo(ions)
				b := chem.Balance(ions)
				out.row("meant", m.String(), fmt.Sprintf("%+.1f %%", b.Difference), b.Verdict)
			}
		}
	}
	out.flush()
	ions = plan.Reading(d)
	alkalinity, residual := chem.Alkalinity(ions), chem.ResidualAlkalinity(ions)
	out.note(" ", fmt.Sprintf("alkalinity %s, residual alkalinity %s = %s as CaCO3", pr.Charge(alkalinity), pr.Charge(residual), pr.Concentration(chem.AsCaCO3(residual))))
}

// acceptWater prints the document with the likeliest mislabels stated.
func (c *checkCommand) acceptWater(s *streams, d *water.Water, printed chem.Ions) error {
	found := chem.Mislabels(printed)
	if len(found) == 0 || !found[0].Preferred {
		return fmt.Errorf("%s: no mislabel closes the balance; nothing is changed", d.Name)
	}
	d.Meant = nil
	for _, step := range found[0].Steps {
		var m water.Meaning
		if err := m.UnmarshalText([]byte(step.Label.String())); err != nil {
			return err
		}
		d.Meant = append(d.Meant, m)
	}
	return printCanonical(s, d)
}

// printJudgement prints every verdict, the broken rules with their reasons.
func printJudgement(out *sheet, j judge.Judgement) {
	out.heading("%s against %s: %d inside, %d at the edge, %d outside", j.Subject, j.Style, j.Count(judge.Inside), j.Count(judge.Edge), j.Count(judge.Outside))
	for _, v := range j.Verdicts {
		if v.Word == judge.Idle {
			continue
		}
		out.row(verdictMark(v), v.Phrase, ">"+v.Text, "in "+v.Range, string(v.Severity))
	}
	out.flush()
	if p := j.AllFive; p != nil {
		out.note(" ", fmt.Sprintf("Inside on gravities, alcohol, bitterness and colour all at once: %.0f in 100 brews.", 100**p))
	}
	printBrokenRules(out, j)
}

// verdictMark is the word of a verdict with a mark that is read at a glance.
func verdictMark(v judge.Verdict) string {
	mark := map[judge.Word]string{judge.Inside: "○", judge.Edge: "◑", judge.Outside: "✕"}[v.Word]
	if mark == "" {
		mark = "?"
	}
	return mark + " " + string(v.Word)
}

// printBrokenRules quotes the author of every broken rule.
func printBrokenRules(out *sheet, j judge.Judgement) {
	for _, v := range j.Broken() {
		text := fmt.Sprintf("%s %s, %s", v.Phrase, v.Text, v.Off)
		if v.Why != "" {
			text += fmt.Sprintf(" — “%s” (%s)", v.Why, v.Severity)
		}
		out.note("✕", text)
		if v.Mend != "" {
			out.note("  →", v.Mend)
		}
	}
}

// limitBroken reports whether a limit, not only an advice, is broken.
func limitBroken(j judge.Judgement) bool {
	for _, v := range j.Broken() {
		if v.Severity == style.Limit {
			return true
		}
	}
	return false
}

// printPlanJudgement prints the verdicts of a style on a plan.
func printPlanJudgement(out *sheet, st *style.Style, p *plan.Plan, pr quantity.Printer) error {
	j, err := judge.PlanFor(pr, st, p)
	if err != nil {
		return err
	}
	printJudgement(out, j)
	return nil
}

// printBroken prints only the rules that a plan breaks.
func printBroken(out *sheet, st *style.Style, p *plan.Plan, pr quantity.Printer) {
	j, err := judge.PlanFor(pr, st, p)
	if err != nil {
		out.note("    ?", err.Error())
		return
	}
	for _, v := range j.Broken() {
		out.note("    ✕", fmt.Sprintf("%s %s, %s — “%s” (%s)", v.Phrase, v.Text, v.Off, v.Why, v.Severity))
	}
}
