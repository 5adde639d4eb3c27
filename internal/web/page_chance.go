// SPDX-License-Identifier: MIT

package web

import (
	"context"

	"gyle/chance"
	"gyle/plan"
	"gyle/quantity"
	"gyle/style"
)

// sheetSamples is how often a plan is brewed on paper for a sheet: enough for
// chances to within two in a hundred, in a few thousandths of a second.
// mapSamples is the same for one cloud of a map.
const (
	sheetSamples = 600
	mapSamples   = 120
)

// outlookBody is what may come of a plan, for people.
type outlookBody struct {
	Samples  int
	Style    string
	Together string // all limits at once
	AllFive  string
	Rows     []outlookRow
	Rules    []outlookRow // chances of rules on no figure
	Blame    []string
	Trouble  string
}

// outlookRow is one figure with its band and the chance to be inside its rule.
type outlookRow struct {
	Name, Middle, Low, High string
	Chance, Severity        string
	Unlikely                bool
}

// likely is the chance from which a rule isn't worth a mark.
const likely = 0.9

// outlookOf brews a plan on paper. What it finds goes before what the verdicts
// reckon from normal errors.
func outlookOf(ctx context.Context, p *plan.Plan, st *style.Style, v *verdicts, pr quantity.Printer) *outlookBody {
	o, err := chance.Simulate(ctx, p, st, chance.Options{Samples: sheetSamples})
	if err != nil {
		return &outlookBody{Trouble: err.Error()}
	}
	if v != nil && v.Trouble == "" {
		chance.Put(&v.Judgement, o)
	}
	body := &outlookBody{Samples: o.Samples, Style: o.Style}
	if o.Limits != nil {
		body.Together = chance.Chance(*o.Limits)
	}
	if o.AllFive != nil {
		body.AllFive = chance.Chance(*o.AllFive)
	}
	for _, b := range o.Figures {
		if !onSheet(b.Figure) {
			continue
		}
		row := outlookRow{Name: b.Label(), Middle: bandText(pr, b.Figure, b.Median), Low: bandText(pr, b.Figure, b.Most.Low), High: bandText(pr, b.Figure, b.Most.High)}
		if r := ruleOnFigure(o, b.Figure); r != nil {
			row.Chance, row.Severity, row.Unlikely = chance.Chance(r.Inside), string(r.Severity), r.Inside.Share < likely
		}
		if text := b.Sentence(pr); text != "" && (o.Style == "" || row.Unlikely) {
			body.Blame = append(body.Blame, capital(text)+".")
		}
		body.Rows = append(body.Rows, row)
	}
	for _, r := range o.Rules {
		if _, shown := o.Find(r.Figure); !r.Settled && !(shown && onSheet(r.Figure)) && r.Inside.Share < 0.995 {
			body.Rules = append(body.Rules, outlookRow{Name: r.Phrase, Chance: chance.Chance(r.Inside), Severity: string(r.Severity), Unlikely: r.Inside.Share < likely})
		}
	}
	return body
}

// onSheet reports whether a figure stands in the table; ions stand with the liquor.
func onSheet(f quantity.Figure) bool {
	switch f {
	case quantity.Calcium, quantity.Magnesium, quantity.Sodium, quantity.Chloride, quantity.Sulfate, quantity.Bicarbonate,
		quantity.SulfateToChloride, quantity.ResidualAlkalinity:
		return false
	}
	return true
}

func bandText(pr quantity.Printer, f quantity.Figure, x float64) string {
	if f == chance.Collected || f == chance.Packaged {
		return pr.Volume(quantity.Volume(x))
	}
	return pr.Figure(f, x)
}

func ruleOnFigure(o *chance.Outlook, f quantity.Figure) *chance.RuleChance {
	for i := range o.Rules {
		if o.Rules[i].Figure == f {
			return &o.Rules[i]
		}
	}
	return nil
}

// mapCloud is how sure gravity and bitterness of a plan are, and how they go
// together; ok is false where that can't be said.
func mapCloud(p *plan.Plan) (c chance.Cloud, ok bool) {
	if p == nil {
		return c, false
	}
	o, err := chance.Simulate(context.Background(), p, nil, chance.Options{Samples: mapSamples})
	if err != nil {
		return c, false
	}
	return o.Cloud, true
}
