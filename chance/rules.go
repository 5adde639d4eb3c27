// SPDX-License-Identifier: MIT

package chance

import (
	"math"
	"slices"

	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/style"
)

// check is one rule as numbers: whether column lies between low and high.
type check struct {
	verdict   judge.Verdict
	column    int // among the outputs; −1: settled
	low, high float64
	kept      bool // where it is settled
	limit     bool
	five      bool
	figure    quantity.Figure
}

// column is an output that some rule needs beyond figures and volumes.
type column struct {
	percent bool   // of the bitterness; else a dose in g/L
	of      []bool // by charge
}

// checks reads the rules of a style as far as they can be judged of a plan.
func (r *run) checks(s *style.Style) error {
	j, err := judge.Plan(s, r.plan)
	if err != nil {
		return err
	}
	for _, v := range j.Verdicts {
		if v.Word == judge.Unknown || v.Word == judge.Idle || v.Severity == style.Option {
			continue
		}
		c := check{verdict: v, column: -1, low: v.Low, high: v.High, kept: v.Word != judge.Outside, limit: v.Severity == style.Limit}
		switch v.Subject {
		case style.OnFigure:
			r.onFigure(&c, s.Rules[v.Rule].FigureName())
		case style.OnIBUFrom, style.OnDose:
			c.column = r.outputs()
			r.extra = append(r.extra, column{v.Subject == style.OnIBUFrom, judge.ChargesMeant(s, r.plan, v.Rule)})
		}
		slack := func(x float64) float64 { return 1e-9 * math.Max(math.Abs(x), 1e-3) }
		c.low, c.high = c.low-slack(c.low), c.high+slack(c.high)
		r.rules = append(r.rules, c)
	}
	return nil
}

// five are the numbers by which a beer is entered for its style.
var five = []quantity.Figure{quantity.OG, quantity.FG, quantity.ABV, quantity.Bitterness, quantity.BeerColor}

// onFigure turns the range of a rule into numbers of its figure.
func (r *run) onFigure(c *check, f quantity.Figure) {
	c.column = slices.Index(r.day.Figures(), f)
	c.five, c.figure = slices.Contains(five, f), f
	number := func(x float64) float64 {
		switch {
		case math.IsInf(x, 0):
			return x
		case f.IsGravity() && c.verdict.Unit == "°P":
			return float64(gravity.SGFromPlato(quantity.Plato(x)))
		}
		return x / f.Shown(1)
	}
	c.low, c.high = number(c.low), number(c.high)
}

// value works out an extra output of one beer.
func (c *column) value(p *plan.Plan, t *plan.Truth, b *plan.Beer) float64 {
	sum, all := 0.0, 0.0
	for i := range c.of {
		if c.percent {
			all += b.IBU[i]
			if c.of[i] {
				sum += b.IBU[i]
			}
			continue
		}
		if c.of[i] {
			line := &p.Hops.Charges[i]
			wort := b.KnockOut
			if line.Dry {
				wort = b.Collected
			}
			sum += line.Mass.Grams() * t.Hops[i].Mass / float64(wort)
		}
	}
	if c.percent {
		return 100 * sum / all
	}
	return sum
}

// Put puts the chances of an outlook into a judgement of the same plan by the
// same style: what was simulated goes before what judge reckons from normal
// errors. Rules that are settled when the grist is weighed get none.
func Put(j *judge.Judgement, o *Outlook) {
	for i := range j.Verdicts {
		v := &j.Verdicts[i]
		for k := range o.Rules {
			if r := &o.Rules[k]; r.Rule == v.Rule && r.Part == v.Part && !r.Settled {
				share := r.Inside.Share
				v.Chance = &share
			}
		}
	}
	if o.AllFive != nil {
		share := o.AllFive.Share
		j.AllFive = &share
	}
}
