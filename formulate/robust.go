// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"fmt"

	"gyle/chance"
	"gyle/quantity"
	"gyle/style"
)

// SureEnough is the chance to be inside all limits at once that a robust recipe
// seeks: nine brews in ten.
const SureEnough = 0.9

// robustSamples is how many brews each candidate gets, all with the same lots
// and errors, so that the candidates differ and the luck doesn't; robustRounds is
// how often the steps around the best are tried, each time half as wide.
const (
	robustSamples = 2000
	robustSeed    = 1
	robustRounds  = 3
)

// robustSteps is how far a candidate is moved from the best so far, at first.
// Estimates: about a standard deviation of a brew on a known house.
var robustSteps = []Bound{
	{quantity.OG, span{Low: -0.002, High: 0.002}},
	{quantity.FG, span{Low: -0.001, High: 0.001}},
	{quantity.Bitterness, span{Low: -2, High: 2}},
	{quantity.BeerColor, span{Low: -3, High: 3}},
}

// robust looks around a recipe for one that is likelier to turn out inside all
// limits, and says what hinders.
func robust(ctx context.Context, wish Wish, first *Result) (*Result, error) {
	if wish.House == nil {
		first.Says = append(first.Says, "How sure a recipe is can only be said on a house: choose one.")
		return first, nil
	}
	best, err := look(ctx, wish, first)
	if err != nil || best.Outlook.Limits == nil {
		return best, err
	}
	tried, scale := 1, 1.0
	for range robustRounds {
		center := best
		for _, step := range robustSteps {
			for _, by := range []float64{step.Span.Low, step.Span.High} {
				r, err := near(ctx, wish, center, step.Figure, by*scale)
				if err != nil {
					return nil, err
				}
				if r == nil {
					continue
				}
				tried++
				if r.Outlook.Limits.Share > best.Outlook.Limits.Share {
					best = r
				}
			}
		}
		if best == center {
			scale /= 2
		}
	}
	if best != first {
		best.takeRooms(first)
	}
	best.hinders()
	best.Says = append(best.Says, fmt.Sprintf("Of %d recipes that fit, brewed %d times each on paper, this one is the likeliest to turn out inside all limits: %s; the first one %s.",
		tried, robustSamples, chance.Chance(*best.Outlook.Limits), chance.Chance(*first.Outlook.Limits)))
	return best, nil
}

// look brews a result on paper.
func look(ctx context.Context, wish Wish, r *Result) (*Result, error) {
	o, err := chance.Simulate(ctx, r.Plan, wish.Style, chance.Options{Samples: robustSamples, Seed: robustSeed, Points: 60})
	r.Outlook = o
	return r, err
}

// near finds a recipe whose figures are those of another but for one, moved by
// some; nil where there is none.
func near(ctx context.Context, wish Wish, from *Result, moved quantity.Figure, by float64) (*Result, error) {
	wish.Robust, wish.NoRooms = false, true
	for _, step := range robustSteps {
		p, known := from.Plan.Find(step.Figure)
		if !known {
			continue
		}
		at, wide := p.Value, step.Span.High/4
		if step.Figure == moved {
			at += by
		}
		wish.Bounds = append(wish.Bounds[:len(wish.Bounds):len(wish.Bounds)], Bound{step.Figure, span{Low: at - wide, High: at + wide}})
	}
	wish.Strict = len(from.GivenUp) == 0
	r, err := Find(ctx, wish)
	var conflict *Conflict
	var narrow *TooNarrow
	switch {
	case errors.As(err, &conflict), errors.As(err, &narrow):
		return nil, nil
	case err != nil:
		return nil, err
	case limitsBroken(r):
		return nil, nil
	}
	return look(ctx, wish, r)
}

func limitsBroken(r *Result) bool {
	for _, v := range append(r.Judgement.Broken(), r.Planned.Broken()...) {
		if v.Severity == style.Limit {
			return true
		}
	}
	return false
}

// takeRooms gives a robust result the rooms of the first one: what may be used is
// the same, only what is chosen differs.
func (r *Result) takeRooms(first *Result) {
	for i, room := range first.Rooms {
		room.Now = r.own[i].Now
		r.Rooms = append(r.Rooms, room)
	}
	for _, room := range first.Aims {
		if f, known := r.Plan.Find(quantity.Figure(room.Name)); known {
			room.Now = f.Value
		}
		r.Aims = append(r.Aims, room)
	}
}

// hinders says what keeps a recipe from being sure: the limits that fail most
// often, and what is to blame for the spread of their figures.
func (r *Result) hinders() {
	if r.Outlook.Limits.Share >= SureEnough {
		return
	}
	const worthSaying = 0.97
	for _, rule := range r.Outlook.Rules {
		if rule.Severity != style.Limit || rule.Inside.Share >= worthSaying {
			continue
		}
		text := fmt.Sprintf("%s is inside in %s", rule.Phrase, chance.Chance(rule.Inside))
		if band, known := r.Outlook.Find(rule.Figure); known {
			if blame := band.Sentence(quantity.Printer{}); blame != "" {
				text += "; " + blame
			}
		}
		r.Hinders = append(r.Hinders, text+".")
	}
}
