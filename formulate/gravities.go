// SPDX-License-Identifier: MIT

package formulate

import (
	"math"
	"strings"

	"gyle/data"
	"gyle/quantity"
	"gyle/science/ferment"
)

// span is a range of plain numbers.
type span = quantity.Span[float64]

var anything = span{Low: math.Inf(-1), High: math.Inf(1)}

func cut(a, b span) span {
	return span{Low: math.Max(a.Low, b.Low), High: math.Min(a.High, b.High)}
}

func empty(s span) bool { return s.Low > s.High+1e-12 }

// worts is the range of original gravities that are looked at where no rule
// says one: from a table beer to a barley wine. Estimate.
var worts = span{Low: 1.020, High: 1.150}

// yeast is a kind of yeast that may be used.
type yeast struct {
	kind        string
	attenuation span // fractions
	temperature span // °C
	pitch       span // million cells per mL and °P
	strange     float64
}

// readYeasts finds the yeasts that may be used, and how they behave.
func (w *work) readYeasts() {
	kinds := w.wish.Yeasts
	start := w.wish.Start
	if len(kinds) == 0 && start != nil && start.Yeast != nil {
		kinds = []string{start.Yeast.Kind}
	}
	if len(kinds) == 0 && w.wish.Stock != nil {
		for _, l := range w.wish.Stock.Yeasts {
			kinds = append(kinds, l.Yeast)
		}
	}
	if w.anyYeast = len(kinds) == 0; w.anyYeast {
		kinds = data.YeastIDs()
	}
	for _, kind := range kinds {
		if w.without(kind) {
			continue
		}
		y, known := typicalYeast(kind)
		if w.anyYeast && !known {
			continue
		}
		if start != nil && start.Yeast != nil && start.Yeast.Kind == kind {
			if a := start.Yeast.Attenuation; a != nil {
				y.attenuation = span{Low: float64(a.Low), High: float64(a.High)}
			}
			if t := start.Yeast.Temperature; t != nil {
				y.temperature = span{Low: t.Low.Celsius(), High: t.High.Celsius()}
			}
		}
		if w.anyYeast {
			y.strange = strangeness(kind, w.wish.Style.Name)
		}
		w.yeasts = append(w.yeasts, y)
	}
}

// strangeness is how little a kind of yeast is at home in a style, as a part of
// a margin: not at all where the table of yeasts says that it suits, more for
// kinds with a strong character. A design choice; it decides only among yeasts
// that ferment alike.
func strangeness(kind, styleName string) float64 {
	t, ok := data.Yeast(kind)
	if !ok {
		return 0.1
	}
	name := strings.ToLower(styleName)
	for _, suits := range t.Suits {
		if strings.Contains(name, suits) {
			return 0
		}
	}
	switch {
	case t.Group == "ale" && t.Phenolic != nil && !*t.Phenolic:
		return 0.02
	case t.Group == "lager" || t.Group == "hybrid":
		return 0.03
	}
	return 0.1
}

// typicalYeast returns how a kind of yeast behaves. Known is false for kinds
// that brew no beer of their own: bacteria, and those of which nothing is said.
func typicalYeast(kind string) (y yeast, known bool) {
	y = yeast{kind: kind, attenuation: anything, temperature: anything, pitch: anything}
	t, ok := data.Yeast(kind)
	if !ok {
		return y, false
	}
	y.temperature = span{Low: t.Temperature.Low(), High: t.Temperature.High()}
	if p := t.PitchRate; p != nil {
		y.pitch = span{Low: p.Low(), High: p.High()}
	}
	if a := t.ApparentAttenuation; a != nil {
		y.attenuation = span{Low: a.Low() / 100, High: a.High() / 100}
	}
	return y, t.ApparentAttenuation != nil && t.Group != "bacteria"
}

// within returns the yeast as it may behave under the demands; ok is false
// where it can't.
func (y yeast) within(ds []demand) (yeast, bool) {
	for i := range ds {
		d := &ds[i]
		if d.kind != onYeast {
			continue
		}
		limits := span{Low: d.low, High: d.high}
		switch d.trait {
		case "attenuation":
			y.attenuation = cut(y.attenuation, limits)
		case "temperature":
			y.temperature = cut(y.temperature, limits)
		case "pitch":
			y.pitch = limits // the brewer pitches as much as the rule wants
		}
	}
	return y, !empty(y.attenuation) && !empty(y.temperature) && !empty(y.pitch)
}

// finals returns the final gravities that the demands leave for an original
// gravity, whatever the yeast.
func finals(ds []demand, og float64) span {
	s := span{Low: 0.990, High: og - 0.001}
	for i := range ds {
		d := &ds[i]
		if d.kind != onFigure {
			continue
		}
		switch d.figure {
		case quantity.FG:
			s = cut(s, span{Low: d.low, High: d.high})
		case quantity.Attenuation:
			s = cut(s, finalsOf(og, span{Low: d.low, High: d.high}))
		case quantity.ABV:
			s = cut(s, finalsOfAlcohol(og, span{Low: d.low, High: d.high}))
		}
	}
	return s
}

// finalsOf turns a range of attenuation into one of final gravity.
func finalsOf(og float64, a span) span {
	s := anything
	if !math.IsInf(a.High, 0) {
		s.Low = float64(ferment.FinalGravity(quantity.SG(og), quantity.Fraction(a.High)))
	}
	if !math.IsInf(a.Low, 0) {
		s.High = float64(ferment.FinalGravity(quantity.SG(og), quantity.Fraction(a.Low)))
	}
	return s
}

// finalsOfAlcohol turns a range of alcohol into one of final gravity, by
// bisection: the lower it ends, the more alcohol.
func finalsOfAlcohol(og float64, abv span) span {
	at := func(want float64) float64 {
		low, high := 0.97, og
		for range 40 {
			mid := (low + high) / 2
			if alcohol(og, mid) > want {
				low = mid
			} else {
				high = mid
			}
		}
		return (low + high) / 2
	}
	s := anything
	if !math.IsInf(abv.High, 0) {
		s.Low = at(abv.High) + 1e-9
	}
	if !math.IsInf(abv.Low, 0) && abv.Low > 0 {
		s.High = at(abv.Low) - 1e-9
	}
	return s
}

func alcohol(og, fg float64) float64 {
	return float64(ferment.Alcohol(quantity.SG(og), quantity.SG(fg)))
}

// anyFinal reports whether some yeast ends a wort within the demands.
func (w *work) anyFinal(ds []demand, yeasts []yeast, og float64) bool {
	all := finals(ds, og)
	for _, y := range yeasts {
		if s := cut(all, finalsOf(og, y.attenuation)); s.Low <= s.High {
			return true
		}
	}
	return false
}

// gravities returns the original gravities for which yeast and rules leave a
// final gravity: an interval, because every bound on the final gravity moves
// one way with the original.
func (w *work) gravities(ds []demand) (og span, yeasts []yeast, ok bool) {
	og = anything
	for i := range ds {
		if d := &ds[i]; d.kind == onFigure && d.figure == quantity.OG {
			og = cut(og, span{Low: d.low, High: d.high})
		}
	}
	if usual := cut(og, worts); !empty(usual) {
		og = usual
	}
	for _, y := range w.yeasts {
		if y, can := y.within(ds); can {
			yeasts = append(yeasts, y)
		}
	}
	if empty(og) || len(yeasts) == 0 || math.IsInf(og.Low, 0) || math.IsInf(og.High, 0) {
		return og, yeasts, false
	}
	return w.narrow(ds, yeasts, og)
}

// narrow finds the part of a range of original gravity that has final gravities.
func (w *work) narrow(ds []demand, yeasts []yeast, og span) (span, []yeast, bool) {
	const steps = 64
	fits := func(x float64) bool { return w.anyFinal(ds, yeasts, x) }
	first, last := -1, -1
	at := func(i int) float64 { return og.Low + (og.High-og.Low)*float64(i)/steps }
	for i := 0; i <= steps && first < 0; i++ {
		if fits(at(i)) {
			first = i
		}
	}
	if first < 0 {
		return og, yeasts, false
	}
	for i := steps; last < 0; i-- {
		if fits(at(i)) {
			last = i
		}
	}
	out := span{Low: at(first), High: at(last)}
	if first > 0 {
		out.Low = boundary(at(first), at(first-1), fits)
	}
	if last < steps {
		out.High = boundary(at(last), at(last+1), fits)
	}
	return out, yeasts, true
}

// boundary returns the last point that fits on the way from a fitting one to
// one that doesn't.
func boundary(good, bad float64, fits func(float64) bool) float64 {
	for range 30 {
		if mid := (good + bad) / 2; fits(mid) {
			good = mid
		} else {
			bad = mid
		}
	}
	return good
}

// ending is how a wort ends.
type ending struct {
	fg     float64
	yeast  yeast
	margin float64
	off    float64 // from the final gravity wished for, or from the middle of the yeast
}

// finish chooses yeast and final gravity for an original gravity: the largest
// distance to every edge, or the nearest to the final gravity of a start.
func (w *work) finish(ds []demand, yeasts []yeast, og float64, near *float64) (best ending, ok bool) {
	all := finals(ds, og)
	for _, y := range yeasts {
		s := cut(all, finalsOf(og, y.attenuation))
		if s.Low > s.High {
			continue
		}
		tries := stops(s)
		if near != nil && s.Has(*near) {
			tries = append(tries, *near)
		}
		got, found := w.stop(ds, y, og, tries, near)
		if !found { // none of the round numbers, where the range is hardly one
			got, found = w.stop(ds, y, og, []float64{(s.Low + s.High) / 2}, near)
		}
		if found && (!ok || got.better(best, near != nil)) {
			best, ok = got, true
		}
	}
	return best, ok
}

// stop chooses among final gravities that one yeast may reach.
func (w *work) stop(ds []demand, y yeast, og float64, tries []float64, near *float64) (best ending, ok bool) {
	for _, fg := range tries {
		e := ending{fg: fg, yeast: y, margin: w.gravityMargin(ds, og, fg)}
		if near != nil {
			e.off = math.Abs(fg - *near)
		} else if a := y.attenuation; !math.IsInf(a.Low+a.High, 0) {
			e.off = y.strange + math.Abs(attenuation(og, fg)-(a.Low+a.High)/2)/1000
		}
		const rounding = 1e-9
		if e.margin > -rounding && (!ok || e.better(best, near != nil)) {
			best, ok = e, true
		}
	}
	return best, ok
}

func (e ending) better(than ending, near bool) bool {
	if near {
		return e.off < than.off-1e-12
	}
	return e.margin-e.off > than.margin-than.off+1e-12
}

func attenuation(og, fg float64) float64 {
	return float64(ferment.Attenuation(quantity.SG(og), quantity.SG(fg)))
}

// stops returns the round numbers in a range of gravity: thousandths, or finer
// where there are none.
func stops(s span) []float64 {
	for _, per := range []float64{1000, 2000, 10000, 1e5, 1e6, 1e7} {
		var all []float64
		for i := math.Ceil(s.Low*per - 1e-9); i <= math.Floor(s.High*per+1e-9); i++ {
			all = append(all, i/per)
		}
		if len(all) > 0 {
			return all
		}
	}
	return []float64{(s.Low + s.High) / 2}
}

// gravityMargin is the least margin of the demands on gravities and alcohol.
func (w *work) gravityMargin(ds []demand, og, fg float64) float64 {
	least := farthest
	for i := range ds {
		d := &ds[i]
		if d.kind != onFigure || d.Rule < 0 {
			continue
		}
		switch d.figure {
		case quantity.OG:
			least = math.Min(least, w.margin(d, og))
		case quantity.FG:
			least = math.Min(least, w.margin(d, fg))
		case quantity.ABV:
			least = math.Min(least, w.margin(d, alcohol(og, fg)))
		case quantity.Attenuation:
			least = math.Min(least, w.margin(d, attenuation(og, fg)))
		}
	}
	return least
}

// farthest is the margin in the middle of a range, and the most that an open
// range gives.
const farthest = 0.5

// width is what the distances to the edges of a demand are measured by. Of an
// open range it is chosen so that twice as far from its end as what judge calls
// the edge counts as the middle. It is 0 where there is no room or no end.
func (w *work) width(d *demand) float64 {
	low, high := !math.IsInf(d.low, 0), !math.IsInf(d.high, 0)
	origin := 0.0
	if d.figure.IsGravity() && d.kind == onFigure {
		origin = 1
	}
	edges := 4 * w.wish.Style.EdgeShare()
	switch {
	case low && high:
		return d.high - d.low
	case low:
		return edges * math.Abs(d.low-origin)
	case high:
		return edges * math.Abs(d.high-origin)
	}
	return 0
}

// margin is how far x lies from the ends of d, 0.5 in the middle.
func (w *work) margin(d *demand, x float64) float64 {
	width := w.width(d)
	if width <= 1e-12 {
		return farthest
	}
	return math.Min(farthest, math.Min(x-d.low, d.high-x)/width)
}
