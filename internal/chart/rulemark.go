// SPDX-License-Identifier: MIT

package chart

import "math"

// Verdict is how a number stands to a rule.
type Verdict int

// The verdicts.
const (
	Inside Verdict = iota
	Edge
	Outside
)

// Rule is one number of a recipe against the range of a style. An open end is
// infinite, as in quantity.Span.
type Rule struct {
	Name      string // what is ruled, for the description: "bitterness"
	Low, High float64
	Value     float64
	SD        float64 // of the value; 0 when none is known
	Verdict   Verdict
	Measured  bool // the value was measured, not planned
	Format    func(float64) string
}

// ruleWidth and ruleHeight are the size of the smallest drawing of all.
const (
	ruleWidth  = 240.0
	ruleHeight = 46.0
)

// RuleMark draws a range as a short ruled line with the recipe's mark on it:
// an open ring inside the range, a ring cut by the limit at its edge, a cross
// outside. The drawing is 240 units wide, whatever the sheet says.
func RuleMark(s Sheet, r Rule) string {
	d := newDrawing(s, "Rule: "+r.Name)
	d.width, d.height, d.class = ruleWidth, ruleHeight, "rule-mark"
	if r.Format == nil {
		r.Format = numberText(s.Printer, 1)
	}
	if !finite(r.Value) {
		d.desc = r.Name + ": no value yet; the rule is " + spanText(r.Low, r.High, r.Format) + "."
		d.ruleLine(r, r.scale())
		return d.String()
	}
	x := r.scale()
	d.desc = r.Name + " " + r.Format(r.Value) + ", rule " + spanText(r.Low, r.High, r.Format) + ": " + r.Verdict.String() + "."
	d.ruleLine(r, x)
	d.haze(x.at(r.Value), ruleY, positive(r.SD)*(x.to-x.from)/(x.high-x.low), 15, x, r.ink())
	d.verdictMark(x.at(r.Value), r)
	d.text(x.at(r.Value), ruleY-12, r.Format(r.Value), letters{figure: true, size: figureSize, anchor: "middle", bold: true, ink: r.ink()})
	return d.String()
}

// ruleY is where the ruled line stands.
const ruleY = 24.0

// String is the word of a verdict.
func (v Verdict) String() string {
	return [...]string{"inside", "edge", "outside"}[v]
}

func (r Rule) ink() Ink {
	switch {
	case r.Verdict == Outside:
		return Corrected
	case r.Measured:
		return Measured
	}
	return Planned
}

// scale makes room for the range, the value and a third of the range beside.
func (r Rule) scale() scale {
	var e extent
	e.add(r.Low, r.High, r.Value)
	least := 1.0
	if finite(r.Low, r.High) && r.High > r.Low {
		least = r.High - r.Low
	} else if w := math.Abs(e.low) * 0.25; w > 0 {
		least = w
	}
	low, high := e.padded(0.3, least)
	return scale{low, high, 14, ruleWidth - 14}
}

// ruleLine draws the range: a firm line with a stop at each limit. Where an
// end is open the line thins out into dots.
func (d *drawing) ruleLine(r Rule, x scale) {
	d.line(x.from, ruleY, x.to, ruleY, look{ink: ruled, stroke: 1})
	left, right := x.from, x.to
	if finite(r.Low) {
		left = x.at(r.Low)
		d.limit(left, r.Format(r.Low))
	} else {
		d.line(left, ruleY, left+20, ruleY, look{stroke: 2, dash: dotted})
		left += 22
	}
	if finite(r.High) {
		right = x.at(r.High)
		d.limit(right, r.Format(r.High))
	} else {
		d.line(right-20, ruleY, right, ruleY, look{stroke: 2, dash: dotted})
		right -= 22
	}
	d.line(left, ruleY, max(left, right), ruleY, look{stroke: 2})
}

// limit is a stop of the ruled line with its number beneath.
func (d *drawing) limit(x float64, number string) {
	d.line(x, ruleY-5, x, ruleY+5, look{stroke: 2})
	d.text(x, ruleY+18, number, letters{figure: true, size: smallSize, anchor: "middle"})
}

// verdictMark draws the mark whose shape tells the verdict.
func (d *drawing) verdictMark(x float64, r Rule) {
	d.mark(x, ruleY, 5.5, r.ink())
	if r.Verdict == Edge {
		d.line(x, ruleY-9, x, ruleY+9, look{ink: r.ink(), stroke: 1.6})
	}
}
