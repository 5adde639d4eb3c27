// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"unicode"
	"unicode/utf8"

	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/style"
)

// verdicts are what the rules of a style say of a plan; nil where no style is
// known.
type verdicts struct {
	judge.Judgement
	Trouble string // why the style couldn't be held against the plan
}

// judged holds a plan against a style.
func judged(st *style.Style, p *plan.Plan, pr quantity.Printer) *verdicts {
	if st == nil {
		return nil
	}
	j, err := judge.PlanFor(pr, st, p)
	if err != nil {
		return &verdicts{Trouble: err.Error()}
	}
	return &verdicts{Judgement: j}
}

// ofFigure finds the verdict on a figure.
func (v *verdicts) ofFigure(f quantity.Figure) (judge.Verdict, bool) {
	if v == nil {
		return judge.Verdict{}, false
	}
	for _, one := range v.Verdicts {
		if one.Subject == style.OnFigure && one.Phrase == f.Label() {
			return one, true
		}
	}
	return judge.Verdict{}, false
}

// Summary counts the verdicts.
func (v *verdicts) Summary() string {
	text := fmt.Sprintf("%d inside, %d at the edge, %d outside", v.Count(judge.Inside), v.Count(judge.Edge), v.Count(judge.Outside))
	if n := v.Count(judge.Unknown); n > 0 {
		text += fmt.Sprintf(", %d unknown", n)
	}
	return text
}

// Judged are the verdicts that say something.
func (v *verdicts) Judged() (list []judge.Verdict) {
	for _, one := range v.Verdicts {
		if one.Word != judge.Idle {
			list = append(list, one)
		}
	}
	return list
}

// Chance is the probability that all five numbers come out inside, in words;
// empty where it isn't known.
func (v *verdicts) Chance() string {
	if v.AllFive == nil {
		return ""
	}
	return fmt.Sprintf("%.0f %%", 100*(*v.AllFive))
}

// choiceBody is one way of cooling as an alternative.
type choiceBody struct {
	Cooling string
	Charges []string
	IBU     string
	NotKept []string
	Broken  []judge.Verdict
	Trouble string
	Path    string // of the plan that takes it
}

func choiceOf(p *plan.Plan, st *style.Style, pr quantity.Printer) choiceBody {
	c := choiceBody{Cooling: p.Hops.Cooling, IBU: pr.FigureBand(quantity.Bitterness, quantity.BandOf(float64(p.Hops.IBU), float64(p.Hops.SD)))}
	for _, charge := range p.Hops.Charges {
		if !charge.Dry {
			c.Charges = append(c.Charges, fmt.Sprintf("%s %s, %s IBU", pr.Mass(charge.Mass), hopName(charge.Hop), pr.Number(float64(charge.IBU), 1)))
		}
	}
	for _, k := range p.NotKept {
		c.NotKept = append(c.NotKept, pointText(k))
	}
	if j := judged(st, p, pr); j != nil {
		c.Broken, c.Trouble = j.Broken(), j.Trouble
	}
	return c
}

// pointText is what is kept or not kept, with its price.
func pointText(k plan.Point) string {
	if k.Price == "" {
		return k.What
	}
	return k.What + " (" + k.Price + ")"
}

// capital begins a text with a capital letter.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}
