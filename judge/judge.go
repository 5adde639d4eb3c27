// SPDX-License-Identifier: MIT

package judge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// Recipe judges a recipe as it is meant: the figures it aims at, its shares,
// the bitterness and doses of its charges.
func Recipe(s *style.Style, r *recipe.Recipe) (Judgement, error) {
	if s == nil || r == nil {
		return Judgement{}, errors.New("judge: a style and a recipe are needed")
	}
	return judge(s, ofRecipe(r), quantity.Printer{}), nil
}

// RecipeFor is [Recipe] with the sentences in the units and with the decimal
// mark of a reader. What the author of the style wrote stays as it is, and so
// do Value, Low, High and Unit, which are for programs.
func RecipeFor(reader quantity.Printer, s *style.Style, r *recipe.Recipe) (Judgement, error) {
	if s == nil || r == nil {
		return Judgement{}, errors.New("judge: a style and a recipe are needed")
	}
	return judge(s, ofRecipe(r), reader), nil
}

// Plan judges a beer as a plan realises it: the figures predicted, the shares
// as lots and colour turned them out, the bitterness as the kettle makes it.
func Plan(s *style.Style, p *plan.Plan) (Judgement, error) {
	if s == nil || p == nil {
		return Judgement{}, errors.New("judge: a style and a plan are needed")
	}
	return judge(s, ofPlan(p), quantity.Printer{}), nil
}

// PlanFor is [Plan] with the sentences in the units and with the decimal mark
// of a reader, as in [RecipeFor].
func PlanFor(reader quantity.Printer, s *style.Style, p *plan.Plan) (Judgement, error) {
	if s == nil || p == nil {
		return Judgement{}, errors.New("judge: a style and a plan are needed")
	}
	return judge(s, ofPlan(p), reader), nil
}

// work is a judgement in the making.
type work struct {
	style *style.Style
	beer  *beer
}

func judge(s *style.Style, b *beer, reader quantity.Printer) Judgement {
	b.reader = reader
	w := &work{s, b}
	j := Judgement{Style: s.Name, Subject: b.subject}
	for i := range s.Rules {
		j.Verdicts = append(j.Verdicts, w.rule(i)...)
	}
	if b.planned {
		j.AllFive = w.allFive(j)
	}
	return j
}

// rule judges one rule and its parts.
func (w *work) rule(i int) []Verdict {
	r := &w.style.Rules[i]
	v := Verdict{Rule: i, Subject: r.Subject(), Phrase: r.Phrase(), Severity: r.Severity, Why: r.Why}
	all := []Verdict{v}
	for k, part := range r.OfWhich {
		p := v
		p.Part, p.Phrase = k+1, "of which "+part.Share.Phrase()
		all = append(all, p)
	}
	if r.When != nil {
		holds, lack := w.holds(r.When)
		for k := range all {
			all[k].When = r.When.String()
			if !holds {
				all[k].Word, all[k].Lack = Idle, lack
			}
		}
	}
	for k := range all {
		w.one(r, &all[k])
	}
	return all
}

// one judges a rule, or a part of it, unless its condition doesn't hold.
func (w *work) one(r *style.Rule, v *Verdict) {
	if v.Part > 0 {
		w.part(r, v)
		return
	}
	switch v.Subject {
	case style.OnFigure:
		w.onFigure(r, v)
	case style.OnShare:
		w.onShare(r, v)
	case style.OnLargest:
		w.onLargest(r, v)
	case style.OnCount:
		w.onCount(r, v)
	case style.OnLate:
		w.onLate(r, v)
	case style.OnIBUFrom:
		w.onIBUFrom(r, v)
	case style.OnCharges:
		w.onCharges(r, v)
	case style.OnDose:
		w.onDose(r, v)
	case style.OnYeast:
		w.onYeast(r, v)
	}
}

// spread fills the range of a rule into a verdict. It reports whether there is
// anything left to judge.
func (w *work) spread(v *Verdict, m measure, s quantity.Span[float64], factor float64) (places, bool) {
	p := places{measure: w.in(m), low: s.Low * factor, high: s.High * factor, edge: w.style.EdgeShare()}
	v.Low, v.High, v.Unit, v.Range = p.low, p.high, m.unit, p.rangeText()
	return p, v.Word != Idle
}

// unknown gives up on a rule and says why.
func (v *Verdict) unknown(lack string) { v.Word, v.Lack = Unknown, lack }

// holds reports whether a condition holds, and why not.
func (w *work) holds(c *style.Condition) (bool, string) {
	switch {
	case len(c.Hops) > 0:
		if !w.hasHop(c.Hops) {
			return false, "the beer has no " + strings.Join(c.Hops, ", ")
		}
	case c.Malts != nil:
		if got := w.choose(w.pick(c.Malts)); got.sum <= 0 {
			return false, "the grist has no " + c.Malts.Phrase()
		}
	default:
		f, known := w.beer.figures[c.Figure]
		if !known {
			return false, fmt.Sprintf("it holds for %s, and the %s isn't known", c, c.Figure.Label())
		}
		if !c.Span.Has(f.value) {
			return false, fmt.Sprintf("it holds for %s", c)
		}
	}
	return true, ""
}

// hasHop reports whether the beer has one of the hops, or one of a group.
func (w *work) hasHop(hops []string) bool {
	var ids []string
	for _, h := range hops {
		if name, ok := strings.CutPrefix(h, "group "); ok {
			for _, member := range w.style.Groups[name] {
				ids = append(ids, hopID(member))
			}
			continue
		}
		ids = append(ids, hopID(h))
	}
	return slices.ContainsFunc(w.beer.charges, func(c charge) bool { return slices.Contains(ids, c.id) })
}
