// SPDX-License-Identifier: MIT

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"

	"gyle/chance"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/style"
)

// printChance prints what may come of a plan, and the verdicts of the style with
// the chances that were simulated.
func printChance(s *sheet, st *style.Style, p *plan.Plan, pr quantity.Printer) error {
	o, err := chance.Simulate(context.Background(), p, st, chance.Options{})
	if err != nil {
		return err
	}
	s.heading("What may come of it: %d thousand brews of this plan on paper", o.Samples/1000)
	printBands(s, o, pr)
	printBlame(s, o, pr)
	printRuleChances(s, o)
	printUnknowns(s, o, pr)
	if st == nil {
		return nil
	}
	j, err := judge.Plan(st, p)
	if err != nil {
		return err
	}
	chance.Put(&j, o)
	printJudgement(s, j)
	return nil
}

// shownBand reports whether a figure stands in the table: ions stand with the
// liquor.
func shownBand(b chance.Band) bool {
	switch b.Figure {
	case quantity.Calcium, quantity.Magnesium, quantity.Sodium, quantity.Chloride, quantity.Sulfate, quantity.Bicarbonate,
		quantity.SulfateToChloride, quantity.ResidualAlkalinity:
		return false
	}
	return true
}

// printBands prints for every figure where nine brews in ten end.
func printBands(s *sheet, o *chance.Outlook, pr quantity.Printer) {
	s.row("", "nine brews in ten", "inside the rule", "")
	for _, b := range o.Figures {
		if !shownBand(b) {
			continue
		}
		if r := ruleOn(o, b.Figure); r != nil {
			s.row(b.Label(), b.Text(pr, b.Most), chance.Chance(r.Inside), string(r.Severity))
		} else {
			s.row(b.Label(), b.Text(pr, b.Most))
		}
	}
	s.flush()
}

// ruleOn returns the first rule on a figure, nil where there is none.
func ruleOn(o *chance.Outlook, f quantity.Figure) *chance.RuleChance {
	for i := range o.Rules {
		if o.Rules[i].Figure == f {
			return &o.Rules[i]
		}
	}
	return nil
}

// printBlame says where the spread of a figure comes from, of those that a rule
// makes matter; without rules of all.
func printBlame(s *sheet, o *chance.Outlook, pr quantity.Printer) {
	const allButSure = 0.95
	for _, b := range o.Figures {
		r := ruleOn(o, b.Figure)
		if !shownBand(b) || o.Style != "" && (r == nil || r.Inside.Share > allButSure) {
			continue
		}
		if text := b.Sentence(pr); text != "" {
			s.note("~", text)
		}
	}
}

// printRuleChances prints the chances of rules that the table of figures
// doesn't show, unless they are all but sure, and of all limits at once.
func printRuleChances(s *sheet, o *chance.Outlook) {
	for _, r := range o.Rules {
		b, known := o.Find(r.Figure)
		if r.Settled || known && shownBand(b) || r.Inside.Share > 0.995 {
			continue
		}
		s.note(" ", fmt.Sprintf("%s inside (%s): %s", r.Phrase, r.Severity, chance.Chance(r.Inside)))
	}
	if p := o.Limits; p != nil {
		s.note(" ", fmt.Sprintf("Inside all limits of %s at once: %s (give or take %.1f).", o.Style, chance.Chance(*p), 100*p.Error))
	}
}

// printUnknowns lists what is taken as uncertain, as far as it makes a
// twentieth of the spread of any figure shown.
func printUnknowns(s *sheet, o *chance.Outlook, pr quantity.Printer) {
	matters := map[string]bool{}
	for _, b := range o.Figures {
		for _, x := range b.Blame {
			if shownBand(b) && x.Share >= 0.05 {
				matters[x.Input] = true
			}
		}
	}
	s.flush()
	s.note(" ", fmt.Sprintf("Taken as uncertain are %d things, one standard deviation each; those that matter most here:", len(o.Inputs)))
	for _, in := range o.Inputs {
		if matters[in.Name] {
			s.row(in.Name, ">"+in.Spread(pr), in.Source)
		}
	}
	s.flush()
}

// chanceJSON prints the plan with what may come of it, as its last key.
func (c *planCommand) chanceJSON(s *streams, l *library, p *plan.Plan) error {
	st, err := styleOf(l, c.Style, c.Recipe, p.Style)
	if err != nil {
		return err
	}
	o, err := chance.Simulate(context.Background(), p, st, chance.Options{})
	if err != nil {
		return err
	}
	text, err := p.JSON()
	if err != nil {
		return err
	}
	more, err := json.Marshal(o)
	if err != nil {
		return err
	}
	text = bytes.TrimSuffix(bytes.TrimSpace(text), []byte("}"))
	text = append(append(append(bytes.TrimSpace(text), `,"chance":`...), more...), '}')
	var out bytes.Buffer
	if err := json.Indent(&out, text, "", "  "); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.out, "%s\n", out.Bytes())
	return err
}
