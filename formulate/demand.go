// SPDX-License-Identifier: MIT

package formulate

import (
	"fmt"
	"math"
	"slices"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
	"gyle/style"
)

// kind is what a demand is about.
type kind int

const (
	onFigure   kind = iota // a figure: see demand.figure
	onShare                // the sum of the shares of the picked columns
	onLargest              // the largest share of a picked malt
	onCount                // how many picked malts there are
	onLate                 // the late part of the picked columns
	onIBUFrom              // the part of the bitterness from the picked charges
	onCharges              // no charges but the picked ones
	onDose                 // the sum of the doses of the picked charges
	onYeast                // a trait of the yeast
	onStock                // the mass of the picked columns, in kg
	onHopStock             // the mass of the picked charges, in kg
	onEnzymes              // the diastatic power of the mash
)

// demand is one thing asked of a beer: a rule, a part of one, or a wish.
type demand struct {
	kind   kind
	figure quantity.Figure
	trait  string // of the yeast
	low    float64
	high   float64 // in the unit of the rule: fractions, SG, EBC, g/L; open ends are ±Inf
	picks  []bool  // by column or by charge
	when   int     // place among the conditions; -1: always
	scale  float64 // printed number = scale · number
	unit   string
	verb   string // how a wish is given up: "do without chocolate"
	name   string // what a wish is about
	Clash
}

// condition is when a rule holds, and which columns or charges make it so.
type condition struct {
	text     string
	columns  []bool
	charges  []bool
	figure   quantity.Figure
	span     quantity.Span[float64]
	onFigure bool
}

// demands reads the rules of the style and the wishes of the brewer.
func (w *work) readDemands() {
	columns := make([][]bool, len(w.columns))
	lacks := make([][]string, len(w.columns))
	for i, c := range w.columns {
		columns[i], lacks[i] = w.oracle.grain(w.wish.Malts[c.malt])
	}
	charges := make([][]bool, len(w.charges))
	for i, c := range w.charges {
		charges[i] = w.oracle.charge(w.wish.Hops[c.hop].Hop, c.at)
	}
	w.readConditions()
	for at, v := range w.oracle.ask(&recipe.Recipe{}) {
		r := &w.wish.Style.Rules[v.Rule]
		d, reason := w.demandOf(r, v)
		switch {
		case r.Severity == style.Option:
			reason = "it is an option, which is never broken"
		case r.Severity == style.Advice && w.wish.OnlyLimit:
			reason = "only limits are asked for"
		}
		d.picks = pick(d, columns, charges, at)
		if d.overGrist() && reason == "" {
			reason = firstLack(lacks, at)
		}
		if reason != "" {
			w.notUsed = append(w.notUsed, NotUsed{v.Rule, v.Phrase, "can't be used in solving: " + reason})
			continue
		}
		w.demands = append(w.demands, d)
	}
	w.readWishes()
}

func (d *demand) overGrist() bool {
	return d.kind == onShare || d.kind == onLargest || d.kind == onCount || d.kind == onLate
}

func firstLack(lacks [][]string, at int) string {
	for _, l := range lacks {
		if l[at] != "" {
			return l[at]
		}
	}
	return ""
}

// pick returns the columns or charges that a verdict picks.
func pick(d demand, columns, charges [][]bool, at int) []bool {
	from := columns
	switch d.kind {
	case onIBUFrom, onCharges, onDose:
		from = charges
	case onFigure, onYeast:
		return nil
	}
	picks := make([]bool, len(from))
	for i := range from {
		picks[i] = from[i][at]
	}
	return picks
}

// demandOf turns a rule, or a part of it, into a demand, with the reason why it
// can't be used if so.
func (w *work) demandOf(r *style.Rule, v judge.Verdict) (d demand, reason string) {
	d = demand{when: w.conditionOf[v.Rule], scale: 1, unit: v.Unit, Clash: Clash{
		Rule: v.Rule, Part: v.Part, Phrase: v.Phrase, Range: rangeOf(v), Severity: r.Severity, Why: r.Why,
	}}
	if r.When != nil {
		d.Phrase += ", when " + r.When.String()
	}
	span := r.Range()
	if v.Part > 0 {
		span = r.OfWhich[v.Part-1].Range()
	}
	d.low, d.high = span.Low, span.High
	fraction := true
	switch v.Subject {
	case style.OnFigure:
		return w.demandFigure(d, r)
	case style.OnShare:
		d.kind = onShare
	case style.OnLargest:
		d.kind = onLargest
	case style.OnLate:
		d.kind = onLate
	case style.OnIBUFrom:
		d.kind = onIBUFrom
	case style.OnCount:
		d.kind, fraction = onCount, false
	case style.OnCharges:
		d.kind, fraction = onCharges, false
	case style.OnDose:
		d.kind, fraction = onDose, false
	case style.OnYeast:
		d.kind, d.trait = onYeast, r.Yeast
		if fraction = r.Yeast == "attenuation"; !fraction {
			return d, ""
		}
	}
	if d.low <= 0 {
		d.low = math.Inf(-1)
	}
	if fraction {
		d.scale = 100
		if d.high >= 1 {
			d.high = math.Inf(1)
		}
	}
	return d, ""
}

// demandFigure fills in a demand on a figure.
func (w *work) demandFigure(d demand, r *style.Rule) (demand, string) {
	d.kind, d.figure = onFigure, r.FigureName()
	d.scale = d.figure.Shown(1)
	if g := r.GravityRange(); g != nil {
		d.low, d.high = endOf(g.Low), endOf(g.High)
	}
	return d, ""
}

// endOf is an end of a range of gravities as SG.
func endOf(g quantity.Gravity) float64 {
	if math.IsInf(g.Value, 0) {
		return g.Value
	}
	return float64(gravity.SGOf(g))
}

// readConditions finds the conditions of the rules; equal ones are one.
func (w *work) readConditions() {
	w.conditionOf = make([]int, len(w.wish.Style.Rules))
	for i := range w.wish.Style.Rules {
		when := w.wish.Style.Rules[i].When
		w.conditionOf[i] = -1
		if when == nil {
			continue
		}
		at := slices.IndexFunc(w.conditions, func(c condition) bool { return c.text == when.String() })
		if at < 0 {
			at = len(w.conditions)
			w.conditions = append(w.conditions, w.conditionFor(i, when))
		}
		w.conditionOf[i] = at
	}
}

func (w *work) conditionFor(rule int, when *style.Condition) condition {
	c := condition{text: when.String(), figure: when.Figure, span: when.Span}
	c.onFigure = len(when.Hops) == 0 && when.Malts == nil
	c.columns, c.charges = make([]bool, len(w.columns)), make([]bool, len(w.charges))
	if c.onFigure {
		return c
	}
	for i, col := range w.columns {
		c.columns[i] = w.oracle.holds(oneGrain(w.wish.Malts[col.malt], col.in))[rule]
	}
	for i, ch := range w.charges {
		c.charges[i] = w.oracle.holds(oneCharge(w.wish.Hops[ch.hop].Hop, ch.at, true))[rule]
	}
	return c
}

// wishFor makes a demand of the brewer's own.
func wishFor(k kind, picks []bool, low, high, scale float64, phrase, verb string) demand {
	return demand{kind: k, picks: picks, low: low, high: high, scale: scale, when: -1, verb: verb, Clash: Clash{Rule: -1, Phrase: phrase}}
}

// readWishes adds the brewer's own demands.
func (w *work) readWishes() {
	open := math.Inf(1)
	for i, m := range w.wish.Malts {
		of := pickWhere(len(w.columns), func(k int) bool { return w.columns[k].malt == i })
		add := func(low, high float64, phrase, verb string) {
			d := wishFor(onShare, of, low, high, 100, phrase, verb)
			d.unit, d.name = "%", m.Malt
			w.demands = append(w.demands, d)
		}
		switch {
		case m.Least > 0:
			add(float64(m.Least), open, fmt.Sprintf("the wish for %.4g %% of %s or more", m.Least.Percent(), m.Malt), "")
		case m.Must:
			add(float64(LeastShare), open, "the wish to use "+m.Malt, "do without "+m.Malt)
		}
		if m.Most != nil && *m.Most < 1 {
			add(-open, float64(*m.Most), fmt.Sprintf("the wish for no more than %.4g %% of %s", m.Most.Percent(), m.Malt), "")
		}
		if w.without(m.Malt) {
			add(-open, 0, "the wish to do without "+m.Malt, "")
		}
		if m.Mass != nil && w.wish.House != nil {
			d := wishFor(onStock, of, -open, float64(*m.Mass), 1, w.wish.Reader.Mass(*m.Mass)+" of "+m.Malt+", which is all there is", "")
			d.unit, d.name = "kg", m.Malt
			w.demands = append(w.demands, d)
		}
	}
	w.readHopWishes()
	for _, b := range w.wish.Bounds {
		d := wishFor(onFigure, nil, b.Span.Low, b.Span.High, b.Figure.Shown(1), "the wish for "+b.Figure.Label(), "")
		d.Range = w.wish.Reader.FigureSpan(b.Figure, b.Span)
		d.figure, d.unit = b.Figure, b.Figure.Unit()
		w.demands = append(w.demands, d)
	}
}

func (w *work) readHopWishes() {
	open := math.Inf(1)
	for i, h := range w.wish.Hops {
		of := pickWhere(len(w.charges), func(k int) bool { return w.charges[k].hop == i })
		add := func(k kind, low, high, scale float64, unit, phrase, verb string) {
			d := wishFor(k, of, low, high, scale, phrase, verb)
			d.unit, d.name = unit, h.Hop
			w.demands = append(w.demands, d)
		}
		if h.Must {
			add(onDose, float64(LeastDose), open, 1, "g/L", "the wish to use "+h.Hop, "do without "+h.Hop)
		}
		if h.Most > 0 {
			add(onDose, -open, float64(h.Most), 1, "g/L", fmt.Sprintf("the wish for no more than %s of %s", w.wish.Reader.Dose(h.Most), h.Hop), "")
		}
		if w.without(h.Hop) {
			add(onDose, -open, 0, 1, "g/L", "the wish to do without "+h.Hop, "")
		}
		if h.Mass != nil && w.wish.House != nil {
			add(onHopStock, -open, float64(*h.Mass), 1000, "g", w.wish.Reader.Mass(*h.Mass)+" of "+h.Hop+", which is all there is", "")
		}
	}
}

func (w *work) without(name string) bool { return slices.Contains(w.wish.Without, name) }

func pickWhere(n int, is func(int) bool) []bool {
	picks := make([]bool, n)
	for i := range picks {
		picks[i] = is(i)
	}
	return picks
}
