// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"math"
	"slices"

	"gyle/internal/lp"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
)

// draft is a beer in numbers.
type draft struct {
	ds     []demand // those that it keeps, of one case
	asked  []demand // all that were asked for
	frame  frame
	og     float64
	end    ending
	shares []float64 // by column
	doses  []float64 // by charge, g/L
	liquor map[quantity.Figure]float64

	margin float64 // the least; for [Middle] only
	rank   float64 // the higher the better, among equal margins
}

// mostGravities is how many original gravities are tried, fewGravities how many
// for each of many drafts.
const (
	mostGravities = 25
	fewGravities  = 7
)

// search returns the drafts that keep the demands, the best first.
func (w *work) search(ds []demand) []draft {
	var all []draft
	best := math.Inf(-1)
	for _, one := range w.cases(ds) {
		f, ok := w.frameOf(one)
		if !ok {
			continue
		}
		liquor, _ := w.liquor(one)
		for _, og := range w.candidates(f.og) {
			d, ok := w.at(one, f, og, best)
			d.asked = ds
			if !ok {
				continue
			}
			d.liquor = liquor
			best = math.Max(best, d.margin)
			all = append(all, d)
		}
	}
	slices.SortStableFunc(all, func(a, b draft) int {
		if math.Abs(a.margin-b.margin) > 1e-6 {
			return cmp.Compare(b.margin, a.margin)
		}
		return cmp.Compare(b.rank, a.rank)
	})
	return all
}

// candidates returns the round original gravities in a range.
func (w *work) candidates(s span) []float64 {
	all, most := stops(s), mostGravities
	if w.few {
		most = fewGravities
	}
	if n := len(all); n > most {
		var some []float64
		for i := range most {
			some = append(some, all[i*(n-1)/(most-1)])
		}
		all = some
	}
	if r := w.wish.Start; r != nil && r.Aims.OG != nil {
		if og := float64(gravity.SGOf(*r.Aims.OG)); s.Has(og) && !slices.Contains(all, og) {
			all = append(all, og)
		}
	}
	return all
}

// at finds the best draft at one original gravity. For [Middle] it gives up
// where the gravities alone are nearer to an edge than the best draft so far.
func (w *work) at(ds []demand, f frame, og, best float64) (draft, bool) {
	d := draft{ds: ds, frame: f, og: og}
	var ok bool
	if d.end, ok = w.finish(ds, f.yeasts, og, w.startFG()); !ok {
		return d, false
	}
	if w.wish.Objective == Middle {
		if d.end.margin < best-1e-9 {
			return d, false
		}
		return w.middle(d)
	}
	var costs [2]float64
	if d.shares, costs[0], ok = w.bestGrist(&d); !ok {
		return d, false
	}
	if d.doses, costs[1], ok = w.bestHops(&d); !ok {
		return d, false
	}
	d.rank = -costs[0] - costs[1] - w.gravityCost(&d)
	return d, true
}

// startFG is the final gravity to be near to, if any.
func (w *work) startFG() *float64 {
	r := w.wish.Start
	if w.wish.Objective != Near || r.Aims.FG == nil {
		return nil
	}
	fg := float64(gravity.SGOf(*r.Aims.FG))
	return &fg
}

// littleMargin is the distance to an edge for which no hop charge is added. Estimate.
const littleMargin = 0.02

// middle finds the grist and the hops that are farthest from every edge, and
// then gives each rule what the others leave.
func (w *work) middle(d draft) (draft, bool) {
	at := quantity.Exactly(d.og)
	solve := func(build func(margin func(*sheet)) *sheet) ([]float64, float64, float64, bool) {
		s := build((*sheet).withMargin)
		x, ok := w.solve(s)
		if !ok {
			return nil, 0, 0, false
		}
		least := x[s.t]
		s = build(func(s *sheet) { s.withOwn(least - 1e-7) })
		y, ok := w.solve(s)
		if !ok {
			return x, least, 0, true
		}
		sum := 0.0
		for _, k := range s.owns {
			sum += y[k]
		}
		return y, least, sum, true
	}
	grist, t1, sum1, ok := solve(func(m func(*sheet)) *sheet { return w.gristSheet(d.ds, at, m) })
	if !ok {
		return d, false
	}
	hops, t2, sum2, ok := solve(func(m func(*sheet)) *sheet { return w.hopSheet(d.ds, d.og, m) })
	if !ok {
		return d, false
	}
	for i := range w.charges { // charges that bring little are left out
		if hops[i] <= 0 {
			continue
		}
		fewer, t, sum, ok := solve(func(m func(*sheet)) *sheet {
			s := w.hopSheet(d.ds, d.og, m)
			for k := range w.charges {
				if k == i || hops[k] <= 0 {
					s.Columns[k].High = 0
				}
			}
			return s
		})
		if ok && t > t2-littleMargin && sum > sum2-littleMargin {
			hops, t2, sum2 = fewer, t, sum
		}
	}
	d.shares, d.doses = grist[:len(w.columns)], hops[:len(w.charges)]
	d.margin = math.Min(d.end.margin, math.Min(t1, t2))
	d.rank = d.end.margin + sum1 + sum2
	if w.silent {
		d.rank -= math.Abs(d.og-usualGravity) * 1000
	}
	return d, true
}

// gravityCost is what the original gravity costs by itself: its distance from
// that of the start, a point as much as a percent of the grist.
func (w *work) gravityCost(d *draft) float64 {
	switch r := w.wish.Start; {
	case w.wish.Objective == Near && r.Aims.OG != nil:
		return math.Abs(d.og-float64(gravity.SGOf(*r.Aims.OG))) * 1000
	case w.silent:
		return math.Abs(d.og-usualGravity) * 1000
	}
	return 0
}

// bestGrist returns the grist that the objective likes best, and its cost.
func (w *work) bestGrist(d *draft) ([]float64, float64, bool) {
	at := quantity.Exactly(d.og)
	s := w.gristSheet(d.ds, at, nil)
	switch w.wish.Objective {
	case Near:
		w.nearGrist(s)
	case Cheapest:
		return w.cheapestGrist(d)
	case Lots:
		for i, c := range w.columns {
			if w.wish.Malts[c.malt].UseUp {
				s.Columns[i].Cost = -1
			}
		}
	case Fewest:
		for m := range w.wish.Malts {
			k := s.use(m)
			s.Columns[k].Cost = 1
		}
	}
	x, ok := w.solveFor(s)
	if !ok {
		return nil, 0, false
	}
	cost := 0.0
	for k, c := range s.Columns {
		cost += c.Cost * x[k]
	}
	if w.wish.Objective == Lots { // what a litre of beer takes, not the share
		cost *= extractOf(d.og) / w.extract(x)
	}
	return x[:len(w.columns)], cost, true
}

// extract is the extract of a grist in the kettle, kg/kg.
func (w *work) extract(shares []float64) float64 {
	sum := 0.0
	for i, c := range w.columns {
		sum += shares[i] * c.extract
	}
	return sum
}

// nearGrist asks for as little as possible between the grist and that of the
// start, in percent of the grist.
func (w *work) nearGrist(s *sheet) {
	for i, c := range w.columns {
		if start := w.startShare(c); start > 0 {
			s.distance([]lp.Term{{Column: i, Factor: 1}}, start, 100)
		} else {
			s.Columns[i].Cost = 100
		}
	}
}

// startShare is the share of a column in the start.
func (w *work) startShare(c column) float64 {
	m := w.wish.Malts[c.malt]
	total, own := 0.0, 0.0
	for _, g := range w.wish.Start.Grist {
		x := 0.0
		switch {
		case g.Share != nil:
			x = float64(*g.Share)
		case g.Mass != nil:
			x = float64(*g.Mass)
		}
		total += x
		in := g.In
		if in.IsZero() && !needsMash(g.Malt) {
			in.Way = recipe.InKettle
		}
		if g.Malt == m.Malt && in == c.in && equalColor(g.Color, m.Color) {
			own += x
		}
	}
	if total <= 0 {
		return 0
	}
	return own / total
}

// cheapestGrist finds the grist of which a litre of wort costs least: price over
// extract, by Dinkelbach's method.
func (w *work) cheapestGrist(d *draft) (shares []float64, cost float64, ok bool) {
	ratio := 0.0
	for range 6 {
		s := w.gristSheet(d.ds, quantity.Exactly(d.og), nil)
		for i, c := range w.columns {
			s.Columns[i].Cost = w.wish.Malts[c.malt].Price - ratio*c.extract
		}
		x, ok := w.solve(s)
		if !ok {
			return nil, 0, false
		}
		price := 0.0
		for i, c := range w.columns {
			price += x[i] * w.wish.Malts[c.malt].Price
		}
		shares = x[:len(w.columns)]
		last := ratio
		if ratio = price / w.extract(x); math.Abs(ratio-last) <= 1e-9*math.Abs(ratio) {
			break
		}
	}
	return shares, ratio * extractOf(d.og), true
}

// solveFor solves for the objective: with bounded effort where ingredients are
// counted.
func (w *work) solveFor(s *sheet) ([]float64, bool) {
	if w.wish.Objective == Fewest {
		return w.solveWhole(s)
	}
	return w.solve(s)
}

// bestHops returns the hops that the objective likes best, and their cost.
func (w *work) bestHops(d *draft) ([]float64, float64, bool) {
	s := w.hopSheet(d.ds, d.og, nil)
	for i, c := range w.charges {
		switch w.wish.Objective {
		case Near:
			w.nearCharge(s, i, d.og)
		case Cheapest:
			s.Columns[i].Cost = w.wish.Hops[c.hop].Price * w.massPerDose(i) / float64(w.knockOut)
		case Fewest:
			k := s.AddColumn(lp.Column{Name: "used", High: 1, Integer: true, Cost: 1})
			s.AddRow(lp.Row{Name: "used or not", Low: math.Inf(-1), High: 0, Terms: []lp.Term{{Column: i, Factor: 1}, {Column: k, Factor: -mostDose}}})
		}
	}
	x, ok := w.solveFor(s)
	if !ok {
		return nil, 0, false
	}
	cost := 0.0
	for k, c := range s.Columns {
		cost += c.Cost * x[k]
	}
	return x[:len(w.charges)], cost, true
}

// nearCharge asks for as little as possible between a charge and that of the
// start: an IBU, or a fifth of a gram in a litre, counts as much as a percent of
// the grist (a design choice).
func (w *work) nearCharge(s *sheet, i int, og float64) {
	c := w.charges[i]
	start := w.startDose(i, og)
	price := 5.0
	if c.yield > 0 && !c.byDose {
		price = c.yield
	}
	if start > 0 {
		s.distance([]lp.Term{{Column: i, Factor: 1}}, start, price)
	} else {
		s.Columns[i].Cost = price
	}
}

// startDose is the dose of a charge in the start: as it is written, or what
// gives its bitterness here.
func (w *work) startDose(i int, og float64) float64 {
	c := w.charges[i]
	for _, h := range w.wish.Start.Hops {
		if h.Hop != w.wish.Hops[c.hop].Hop || h.At != c.at {
			continue
		}
		switch {
		case h.Dose != nil:
			return float64(*h.Dose)
		case h.Bitterness != nil && c.yield > 0:
			return float64(*h.Bitterness) / c.yield
		case h.Mass != nil && w.wish.Start.Size != nil:
			return h.Mass.Grams() / float64(*w.wish.Start.Size)
		}
	}
	return 0
}
