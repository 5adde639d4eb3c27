// SPDX-License-Identifier: MIT

package formulate

import (
	"strings"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// oracle asks package judge which grains and charges each rule of a style
// means, so that the rules are read in one place only. It shows the judge
// recipes of one grain or one charge and looks at the numbers that come back.
type oracle struct {
	rules *style.Style // every rule without its condition, as an option: judged, never mended
	conds *style.Style // every condition on a rule that is judged of any beer
	boil  quantity.Duration

	reader quantity.Printer // of what is told of the rules
}

func newOracle(s *style.Style, boil quantity.Duration, reader quantity.Printer) *oracle {
	open, conds := *s, *s
	open.Rules, conds.Rules = nil, nil
	for _, r := range s.Rules {
		when := r.When
		r.When, r.Severity = nil, style.Option
		open.Rules = append(open.Rules, r)
		conds.Rules = append(conds.Rules, style.Rule{When: when, Charges: &style.Windows{}, Severity: style.Advice})
	}
	return &oracle{rules: &open, conds: &conds, boil: boil, reader: reader}
}

// ask judges a recipe by the open rules.
func (o *oracle) ask(r *recipe.Recipe) []judge.Verdict {
	r.Name, r.Boil = "probe", &o.boil
	j, err := judge.RecipeFor(o.reader, o.rules, r)
	if err != nil {
		panic("formulate: " + err.Error()) // a style and a recipe are there
	}
	return j.Verdicts
}

// oneGrain is a recipe of nothing but one grain.
func oneGrain(m Malt, in recipe.Entry) *recipe.Recipe {
	whole := quantity.Fraction(1)
	return &recipe.Recipe{Grist: []recipe.Grain{{Malt: m.Malt, Color: m.Color, Role: m.Role, In: in, Share: &whole}}}
}

// grain returns, for each verdict of the style, whether a grain is meant, and
// why that isn't known.
func (o *oracle) grain(m Malt) (meant []bool, lacks []string) {
	late := recipe.Entry{Way: recipe.LateMash, Time: 15} // a rule of late grain shows its picks only then
	for _, v := range o.ask(oneGrain(m, late)) {
		meant = append(meant, v.Value > 0.5)
		lack := ""
		if v.Word == judge.Unknown {
			lack = v.Lack
		}
		lacks = append(lacks, lack)
	}
	return meant, lacks
}

// oneCharge is a recipe of nothing but one charge, of so much bitterness or dose.
func oneCharge(hop string, at recipe.Moment, byDose bool) *recipe.Recipe {
	c := recipe.Charge{Hop: hop, At: at}
	if byDose || at.Stage == recipe.AtDry {
		one := quantity.Dose(1)
		c.Dose = &one
	} else {
		one := quantity.IBU(1)
		c.Bitterness = &one
	}
	return &recipe.Recipe{Hops: []recipe.Charge{c}}
}

// charge returns, for each verdict, whether a charge is meant. For a rule of
// moments, the charges that may be there are meant.
func (o *oracle) charge(hop string, at recipe.Moment) []bool {
	byIBU, byDose := o.ask(oneCharge(hop, at, false)), o.ask(oneCharge(hop, at, true))
	meant := make([]bool, len(byDose))
	for i, v := range byDose {
		switch v.Subject {
		case style.OnDose:
			meant[i] = v.Value > 0.5
		case style.OnIBUFrom:
			meant[i] = byIBU[i].Value > 0.5
		case style.OnCharges:
			meant[i] = v.Value < 0.5
		}
	}
	return meant
}

// holds returns, for each rule of the style, whether its condition holds of a recipe.
func (o *oracle) holds(r *recipe.Recipe) []bool {
	r.Name, r.Boil = "probe", &o.boil
	j, err := judge.Recipe(o.conds, r)
	if err != nil {
		panic("formulate: " + err.Error())
	}
	held := make([]bool, len(j.Verdicts))
	for i, v := range j.Verdicts {
		held[i] = v.Word != judge.Idle
	}
	return held
}

// rangeOf is the range of a verdict, for people.
func rangeOf(v judge.Verdict) string {
	if v.Subject == style.OnCharges {
		return ""
	}
	return strings.TrimSpace(v.Range)
}
