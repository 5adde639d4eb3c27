// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/hops"
	"gyle/style"
)

// work is a search in the making.
type work struct {
	ctx    context.Context
	wish   Wish
	oracle *oracle
	house  *brewhouse.House
	boil   quantity.Duration

	columns     []column
	charges     []charge
	yeasts      []yeast
	anyYeast    bool // nobody said which
	demands     []demand
	conditions  []condition
	conditionOf []int // by rule
	knockOut    quantity.Volume
	collected   quantity.Volume

	notUsed  []NotUsed
	givenUp  []Conflict
	loosened [][2]int // rule and part of advice that gave way
	says     []string
	precise  int // decimals more than usual in what is written; -1: in the steps of speech
	solves   int
	few      bool  // try few original gravities
	silent   bool  // nobody says how strong the beer should be
	err      error // of the solver
}

func (w *work) say(format string, args ...any) {
	if s := fmt.Sprintf(format, args...); !slices.Contains(w.says, s) {
		w.says = append(w.says, s)
	}
}

// fail keeps the first error of the solver.
func (w *work) fail(err error) {
	if w.err == nil {
		w.err = fmt.Errorf("formulate: %w", err)
	}
}

// usualBoil is the boil of a recipe that nobody said anything of. Common practice.
const usualBoil quantity.Duration = 60

// begin reads a wish.
func begin(ctx context.Context, wish Wish) (*work, error) {
	if wish.Style == nil {
		return nil, errors.New("formulate: a style is needed")
	}
	w := &work{ctx: ctx, wish: wish, house: wish.House, boil: usualBoil}
	if w.house == nil {
		w.house = PaperHouse()
	}
	if s := wish.Start; s != nil && s.Boil != nil {
		w.boil = *s.Boil
	}
	if w.wish.Objective == "" {
		if w.wish.Objective = Middle; wish.Start != nil {
			w.wish.Objective = Near
		}
	}
	if !slices.Contains(Objectives(), w.wish.Objective) {
		return nil, fmt.Errorf("formulate: there is no objective %q", w.wish.Objective)
	}
	if w.wish.Objective == Near && wish.Start == nil {
		return nil, errors.New("formulate: near what? a recipe to start from is needed")
	}
	w.oracle = newOracle(wish.Style, w.boil, wish.Reader)
	w.addStart()
	w.checkObjective()
	if len(w.wish.Malts) == 0 {
		return nil, errors.New("formulate: no malt may be used")
	}
	w.readYeasts()
	w.makeColumns()
	w.makeCharges()
	w.readDemands()
	w.markDoses()
	return w, w.first()
}

// checkObjective falls back to the middle where an objective has nothing to go
// by, and gives malts and hops without a price the highest that is known.
func (w *work) checkObjective() {
	dearestMalt, dearestHop, useUp := 0.0, 0.0, false
	for _, m := range w.wish.Malts {
		dearestMalt, useUp = max(dearestMalt, m.Price), useUp || m.UseUp
	}
	for _, h := range w.wish.Hops {
		dearestHop = max(dearestHop, h.Price)
	}
	switch {
	case w.wish.Objective == Lots && !useUp:
		w.say("No malt is marked to be used up: the middle of the style is taken.")
		w.wish.Objective = Middle
	case w.wish.Objective == Cheapest && dearestMalt == 0:
		w.say("No malt has a price: the middle of the style is taken.")
		w.wish.Objective = Middle
	case w.wish.Objective == Cheapest:
		w.wish.Malts, w.wish.Hops = slices.Clone(w.wish.Malts), slices.Clone(w.wish.Hops)
		for i := range w.wish.Malts {
			w.wish.Malts[i].Price = w.priceOf(w.wish.Malts[i].Malt, w.wish.Malts[i].Price, dearestMalt)
		}
		for i := range w.wish.Hops {
			w.wish.Hops[i].Price = w.priceOf(w.wish.Hops[i].Hop, w.wish.Hops[i].Price, dearestHop)
		}
	}
}

func (w *work) priceOf(name string, price, dearest float64) float64 {
	if price > 0 || dearest == 0 {
		return price
	}
	w.say("%s has no price: the highest of the others is taken.", name)
	return dearest
}

// first reckons what everything gives in a wort of the middle of the style.
func (w *work) first() error {
	og := span{Low: 1.048, High: 1.052} // a middling beer, where nothing is said
	if s, _, ok := w.gravities(w.demands); ok {
		og = s
	}
	if _, err := w.measure(w.everything(quantity.SG((og.Low + og.High) / 2))); err != nil {
		return err
	}
	w.fillSilence()
	return nil
}

// usualGravity and usualBalance stand where the style says nothing of gravity or
// of bitterness and there is no recipe to be near to: a middling beer (estimate).
const usualGravity = 1.050

var usualBalance = span{Low: 0.9 * hops.Balanced, High: 1.1 * hops.Balanced}

// asks reports whether a demand is made on one of the figures.
func (w *work) asks(figures ...quantity.Figure) bool {
	return slices.ContainsFunc(w.demands, func(d demand) bool { return d.kind == onFigure && slices.Contains(figures, d.figure) })
}

// fillSilence asks for a middling beer where nobody says what it should be, and
// says so.
func (w *work) fillSilence() {
	if w.wish.Start != nil {
		return
	}
	if w.silent = !w.asks(quantity.OG, quantity.ABV, quantity.FG); w.silent {
		w.say("The style says nothing of gravity and alcohol: near %.3f is taken.", usualGravity)
	}
	if len(w.charges) == 0 || w.asks(quantity.Bitterness, quantity.BUGU) {
		return
	}
	d := wishFor(onFigure, nil, usualBalance.Low, usualBalance.High, 1, "a balanced bitterness", "")
	d.figure = quantity.BUGU
	if with := append(slices.Clone(w.demands), d); w.feasible(with) {
		w.demands = with
		w.say("The style says nothing of bitterness: a balanced one is taken.")
	}
}

// addStart adds the ingredients of the recipe to start from, in front.
func (w *work) addStart() {
	r := w.wish.Start
	if r == nil {
		return
	}
	w.wish.Malts = slices.Clone(w.wish.Malts)
	w.wish.Hops = slices.Clone(w.wish.Hops)
	for _, g := range r.Grist {
		at := slices.IndexFunc(w.wish.Malts, func(m Malt) bool { return m.Malt == g.Malt && (m.Color == nil || equalColor(m.Color, g.Color)) })
		if at < 0 {
			w.wish.Malts = append(w.wish.Malts, Malt{Malt: g.Malt})
			at = len(w.wish.Malts) - 1
		}
		m := &w.wish.Malts[at]
		m.Color, m.In, m.Role, m.Why = g.Color, g.In, g.Role, g.Why
	}
	for _, c := range r.Hops {
		at := slices.IndexFunc(w.wish.Hops, func(h Hop) bool { return h.Hop == c.Hop })
		if at < 0 {
			w.wish.Hops = append(w.wish.Hops, Hop{Hop: c.Hop})
			at = len(w.wish.Hops) - 1
		}
		h := &w.wish.Hops[at]
		if !slices.Contains(h.At, c.At) {
			h.At = append(slices.Clone(h.At), c.At)
		}
		h.Why = c.Why
	}
}

// isLate reports whether a grain comes in late or is steeped cold.
func (c column) isLate() bool {
	return c.in.Way == recipe.LateMash || c.in.Way == recipe.ColdSteep
}

// usualLate is how late grain is doughed in that a style wants late. Common practice.
var usualLate = recipe.Entry{Way: recipe.LateMash, Time: 15}

// makeColumns makes a column for each malt and, where a rule wants some of it
// late, one more.
func (w *work) makeColumns() {
	for i := range w.wish.Malts {
		m := &w.wish.Malts[i]
		if m.In.IsZero() && !needsMash(m.Malt) {
			m.In = recipe.Entry{Way: recipe.InKettle}
		}
		w.columns = append(w.columns, column{malt: i, in: m.In})
		if m.In.Way == recipe.WithMash && w.wantedLate(*m) {
			w.columns = append(w.columns, column{malt: i, in: usualLate})
		}
	}
}

// wantedLate reports whether a rule asks for some of a malt late.
func (w *work) wantedLate(m Malt) bool {
	if !slices.ContainsFunc(w.wish.Style.Rules, func(r style.Rule) bool { return r.Late != nil }) {
		return false
	}
	meant, _ := w.oracle.grain(m)
	for at, v := range w.oracle.ask(&recipe.Recipe{}) {
		r := &w.wish.Style.Rules[v.Rule]
		if r.Late != nil && r.Severity != style.Option && r.Range().Low > 0 && meant[at] {
			return true
		}
	}
	return false
}

// cases splits the demands that hold under conditions: for each condition either
// what it asks is kept, or it is kept from holding. The first case keeps all.
func (w *work) cases(ds []demand) [][]demand {
	out := [][]demand{ds}
	const most = 64
	for k, c := range w.conditions {
		if !slices.ContainsFunc(ds, func(d demand) bool { return d.when == k }) {
			continue
		}
		negations := w.negations(c)
		if len(out)*(1+len(negations)) > most {
			w.say("The style has so many conditions that some of its rules are kept whether they hold or not.")
			break
		}
		more := slices.Clone(out)
		for _, one := range out {
			for _, n := range negations {
				free := slices.DeleteFunc(slices.Clone(one), func(d demand) bool { return d.when == k })
				more = append(more, append(free, n))
			}
		}
		out = more
	}
	return out
}

// negations returns the ways in which a condition doesn't hold.
func (w *work) negations(c condition) []demand {
	if !c.onFigure {
		if slices.Contains(c.charges, true) {
			return []demand{wishFor(onDose, c.charges, math.Inf(-1), 0, 1, "no "+c.text, "")}
		}
		return []demand{wishFor(onShare, c.columns, math.Inf(-1), 0, 100, "no "+c.text, "")}
	}
	var out []demand
	step := map[bool]float64{true: 0.0002, false: 0.01}[c.figure.IsGravity()] // finer than aims are written
	if c.figure == quantity.ABV || c.figure == quantity.Attenuation || c.figure == quantity.BUGU {
		step = 0.0002
	}
	add := func(low, high float64) {
		d := wishFor(onFigure, nil, low, high, c.figure.Shown(1), "not "+c.text, "")
		d.figure = c.figure
		out = append(out, d)
	}
	if !math.IsInf(c.span.Low, 0) {
		add(math.Inf(-1), c.span.Low-step)
	}
	if !math.IsInf(c.span.High, 0) {
		add(c.span.High+step, math.Inf(1))
	}
	return out
}

// frame is what the pieces of a beer leave each other.
type frame struct {
	og     span
	yeasts []yeast
}

// frameOf finds the original gravities at which gravities, hops and grist may
// all be kept; ok is false where they can't.
func (w *work) frameOf(ds []demand) (f frame, ok bool) {
	all := &draft{ds: ds}
	if empty(all.allowed(quantity.BeerColor)) || empty(all.allowed(quantity.BUGU)) {
		return f, false // two rules by themselves; what follows looks at one after the other
	}
	if f.og, f.yeasts, ok = w.gravities(ds); !ok {
		return f, false
	}
	wide := f.og
	if ok = w.narrowByBitterness(ds, &f); !ok {
		return f, false
	}
	if f.og != wide { // what one yeast left may be what was cut off
		if f.og, f.yeasts, ok = w.narrow(ds, f.yeasts, f.og); !ok {
			return f, false
		}
	}
	if _, ok = w.solve(w.gristSheet(ds, f.og, nil)); !ok {
		return f, false
	}
	_, ok = w.liquor(ds)
	return f, ok
}

// narrowByBitterness cuts the gravities to those that the bitterness may match.
func (w *work) narrowByBitterness(ds []demand, f *frame) bool {
	ibu, ok := w.bitternessRange(ds)
	if !ok {
		return false
	}
	for i := range ds {
		d := &ds[i]
		if d.kind != onFigure || d.figure != quantity.BUGU {
			continue
		}
		points := span{Low: 0, High: math.Inf(1)}
		if !math.IsInf(d.high, 0) && d.high > 0 {
			points.Low = ibu.Low / d.high
		}
		if !math.IsInf(d.low, 0) && d.low > 0 {
			points.High = ibu.High / d.low
		}
		f.og = cut(f.og, span{Low: 1 + points.Low/1000, High: 1 + points.High/1000})
	}
	return !empty(f.og)
}

// feasible reports whether the demands can be kept all at once.
func (w *work) feasible(ds []demand) bool {
	for _, one := range w.cases(ds) {
		if _, ok := w.frameOf(one); ok {
			return true
		}
	}
	return false
}
