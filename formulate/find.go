// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/style"
)

// Find finds the recipe that fits a wish best. The error is a [*Conflict] where
// the limits of the style and the wishes can't hold together; advice that can't
// be followed beside them is given up, the cheapest first, and the result says
// so.
func Find(ctx context.Context, wish Wish) (*Result, error) {
	w, err := begin(ctx, wish)
	if err != nil {
		return nil, err
	}
	r, err := w.find()
	if err != nil || !wish.Robust {
		return r, err
	}
	return robust(ctx, wish, r)
}

func (w *work) find() (*Result, error) {
	ds, err := w.settleDemands(w.demands)
	if err != nil {
		return nil, err
	}
	d, p, r, err := w.brew(ds)
	if errors.Is(err, errTooNarrow) && len(w.loosened) > 0 { // advice that was loosened leaves a point: go without it
		ds = slices.DeleteFunc(ds, func(d demand) bool { return d.Rule >= 0 && slices.Contains(w.loosened, [2]int{d.Rule, d.Part}) })
		d, p, r, err = w.brew(ds)
	}
	if errors.Is(err, errTooNarrow) {
		d, p, r, err = w.brewOrTell(ds)
	}
	if err != nil {
		return nil, err
	}
	return w.result(d, p, r)
}

// settleDemands gives up advice until the demands can be kept.
func (w *work) settleDemands(ds []demand) ([]demand, error) {
	for range len(ds) + 1 {
		if w.feasible(ds) {
			return w.accustom(ds), w.err
		}
		if w.err != nil {
			return nil, w.err
		}
		c, places := w.conflict(ds)
		if w.err != nil {
			return nil, w.err
		}
		give := w.givable(c)
		if give < 0 {
			return nil, c
		}
		ds = w.giveUp(ds, c, places, give)
		w.givenUp = append(w.givenUp, *c)
	}
	return nil, errors.New("formulate: giving up advice doesn't come to an end")
}

// givable returns the clash that may be given up: the advice that costs least.
func (w *work) givable(c *Conflict) int {
	if w.wish.Strict {
		return -1
	}
	for _, choice := range c.Choices {
		if c.Clashes[choice.Clash].Severity == style.Advice {
			return choice.Clash
		}
	}
	for i, one := range c.Clashes {
		if one.Severity == style.Advice {
			return i
		}
	}
	return -1
}

// giveUp lets a demand give way as far as it must, or leaves it out.
func (w *work) giveUp(ds []demand, c *Conflict, places []int, clash int) []demand {
	at := places[clash]
	out := append([]demand(nil), ds...)
	again := slices.Contains(w.loosened, [2]int{out[at].Rule, out[at].Part})
	for _, choice := range c.Choices {
		if choice.Clash == clash && !math.IsNaN(choice.To) && !again {
			const more = 1.25 // a little more than must be, so that there is something to choose (a design choice)
			to := choice.To / out[at].scale
			if to > out[at].high {
				out[at].high += more * (to - out[at].high)
			} else {
				out[at].low += more * (to - out[at].low)
			}
			w.loosened = append(w.loosened, [2]int{out[at].Rule, out[at].Part})
			w.say("advice given up: %s", choice.Says)
			return out
		}
	}
	w.say("advice given up: %s", c.Clashes[clash].Phrase)
	return append(out[:at], out[at+1:]...)
}

// rounds is how often a recipe is reckoned anew with what its own plan gives:
// yields of hops and malts hang on the wort and on the lots.
const rounds = 5

// errTooNarrow says that rules which can be kept leave hardly more than a point.
var errTooNarrow = errors.New("formulate: the rules leave too little to weigh out")

// brew finds a recipe and its plan that agree.
func (w *work) brew(ds []demand) (*draft, *plan.Plan, *recipe.Recipe, error) {
	d, ok := w.best(ds, nil)
	switch {
	case w.err != nil:
		return nil, nil, nil, w.err
	case !ok:
		return nil, nil, nil, errTooNarrow
	}
	return w.settle(d)
}

// settle reckons a draft anew with what its own plan gives, until both agree.
func (w *work) settle(d *draft) (*draft, *plan.Plan, *recipe.Recipe, error) {
	for round := 1; ; round++ {
		r := w.composeInside(d)
		meant := w.bitterness(d.doses)
		p, err := w.measure(r)
		if err != nil {
			return nil, nil, nil, err
		}
		w.writeColor(r, d) // as its own plan gives it
		if math.Abs(w.bitterness(d.doses)-meant) < 0.02+0.002*meant && w.keeps(d) || round == rounds {
			return d, p, r, nil
		}
		next, ok := w.best(d.asked, d)
		if w.err != nil {
			return nil, nil, nil, w.err
		}
		if !ok {
			return d, p, r, nil
		}
		d = next
	}
}

// composeInside writes a draft with round numbers or, where rounding an aim
// breaks a rule that the draft keeps, with as many decimals as it takes.
func (w *work) composeInside(d *draft) *recipe.Recipe {
	var r *recipe.Recipe
	for _, w.precise = range []int{-1, 0, 1, 2, 4, 7} {
		if w.precise < 0 && !w.sayable() {
			continue
		}
		r = w.compose(d)
		j, err := judge.Recipe(w.wish.Style, r)
		if err != nil || !slices.ContainsFunc(j.Broken(), func(v judge.Verdict) bool { return w.asked(d, v) }) {
			break
		}
	}
	return r
}

// asked reports whether a draft keeps what a verdict is about.
func (w *work) asked(d *draft, v judge.Verdict) bool {
	return !slices.Contains(w.loosened, [2]int{v.Rule, v.Part}) &&
		slices.ContainsFunc(d.asked, func(one demand) bool { return one.Rule == v.Rule && one.Part == v.Part })
}

// mostTries is how many drafts are tried in practical steps.
const mostTries = 6

// best returns the best draft in practical steps. A draft of an earlier round is
// tried first, so that the rounds come to rest.
func (w *work) best(ds []demand, last *draft) (*draft, bool) {
	var drafts []draft
	if last != nil {
		if d, ok := w.at(last.ds, last.frame, last.og, math.Inf(-1)); ok {
			d.liquor, d.asked = last.liquor, last.asked
			drafts = append(drafts, d)
		}
	}
	if len(drafts) == 0 {
		drafts = w.search(ds)
	}
	share, hop := w.wish.Step, w.wish.HopStep
	defer func() { w.wish.Step, w.wish.HopStep = share, hop }()
	for k, steps := range w.finer() {
		w.wish.Step, w.wish.HopStep = steps.share, steps.hop
		for i := range min(len(drafts), mostTries) {
			if d, ok := w.weigh(drafts[i]); ok {
				if k > 0 {
					w.say("The steps are finer than asked for: the rules leave no others.")
				}
				return &d, true
			}
		}
	}
	return nil, false
}

// steps are how shares and hops are weighed.
type steps struct {
	share quantity.Fraction
	hop   quantity.Mass
}

// finer returns the steps to try, the wished ones first and any weight last.
func (w *work) finer() []steps {
	wished := steps{w.wish.Step, w.wish.HopStep}
	all := []steps{wished}
	if fine := quantity.Fraction(w.step() / 5); fine > 0 {
		all = append(all, steps{fine, wished.hop})
	}
	return append(all, steps{wished.share, -1}, steps{-1, -1})
}

// keeps reports whether a draft keeps its demands with what is now known of its
// ingredients.
func (w *work) keeps(d *draft) bool {
	ebc, ibu := w.colorOf(d.og, d.shares), w.bitterness(d.doses)
	const slack = 1e-6
	in := func(s span, x float64) bool {
		return x >= s.Low-slack*math.Abs(s.Low) && x <= s.High+slack*math.Abs(s.High)
	}
	return in(d.allowed(quantity.BeerColor), ebc) && in(d.allowed(quantity.Bitterness), ibu) && in(d.bitternessByGravity(), ibu)
}

// colorOf is the colour that a grist gives, EBC.
func (w *work) colorOf(og float64, shares []float64) float64 {
	sum := 0.0
	for i, c := range w.columns {
		sum += shares[i] * c.color
	}
	return float64(color.EBCFromMCU(perMCU * extractOf(og) * sum / w.extract(shares)))
}

// result writes down what was found.
func (w *work) result(d *draft, p *plan.Plan, r *recipe.Recipe) (*Result, error) {
	r, text, err := printed(r)
	if err != nil {
		return nil, err
	}
	out := &Result{Recipe: r, Text: text, Plan: p, NotUsed: w.notUsed, GivenUp: w.givenUp, Margin: d.margin}
	if out.Judgement, err = judge.RecipeFor(w.wish.Reader, w.wish.Style, r); err != nil {
		return nil, fmt.Errorf("judge the recipe: %w", err)
	}
	if w.wish.House != nil {
		if out.Plan, err = w.planOf(r); err != nil {
			return nil, err
		}
		if out.Planned, err = judge.PlanFor(w.wish.Reader, w.wish.Style, out.Plan); err != nil {
			return nil, fmt.Errorf("judge the plan: %w", err)
		}
	}
	out.own = w.noRooms(d)
	if !w.wish.NoRooms {
		if out.Rooms, err = w.rooms(d); err != nil {
			return nil, err
		}
		if out.Aims, err = w.aimRooms(d); err != nil {
			return nil, err
		}
	}
	out.Says = w.sentences(d, out)
	return out, nil
}
