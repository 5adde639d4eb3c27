// SPDX-License-Identifier: MIT

package judge

import (
	"math"
	"strings"

	"gyle/quantity"
	"gyle/style"
)

// measure is how the numbers of a rule are compared and printed. All numbers
// of this file are in its unit.
type measure struct {
	unit     string
	decimals int     // as printed, zeros at the end left out
	keep     int     // decimals that are printed even if they are zeros
	step     string  // what a difference is counted in
	perStep  float64 // how many steps make one of the unit
	origin   float64 // from where a number is reckoned: gravities begin at 1
	floor    float64 // no number lies below; an end there is none
	ceiling  float64 // no number lies above
	reader   quantity.Printer
}

// in is the measure with the units and the decimal mark of the reader. Numbers
// are compared in the unit of the rule all the same.
func (w *work) in(m measure) measure {
	m.reader = w.beer.reader
	return m
}

// printed is how numbers of a measure are turned into those that are printed:
// times factor, plus zero, with so many more decimals.
type printed struct {
	unit, step   string
	factor, zero float64
	finer        int
}

func (m measure) shown() printed {
	if m.reader.System == quantity.USCustomary {
		switch m.unit {
		case "EBC":
			return printed{"SRM", "SRM", quantity.EBC(1).SRM(), 0, 1}
		case "°C":
			return printed{"°F", "°F", 1.8, 32, 0}
		case "g/L":
			return printed{"oz/US gal", "oz/US gal", quantity.Grams(1).Ounces() / quantity.Volume(1).USGallons(), 0, 1}
		case "g":
			return printed{"oz", "oz", quantity.Grams(1).Ounces(), 0, 2}
		}
	}
	return printed{m.unit, m.step, 1, 0, 0}
}

var (
	percent = measure{unit: "%", decimals: 1, step: "points", perStep: 1, ceiling: 100}
	grains  = measure{perStep: 1, ceiling: math.Inf(1)}
	dosing  = measure{unit: "g/L", decimals: 2, step: "g/L", perStep: 1, ceiling: math.Inf(1)}
	plato   = measure{unit: "°P", decimals: 1, step: "°P", perStep: 1, floor: math.Inf(-1), ceiling: math.Inf(1)}
	celsius = measure{unit: "°C", decimals: 1, step: "K", perStep: 1, floor: math.Inf(-1), ceiling: math.Inf(1)}
	pitch   = measure{unit: "M/mL/°P", decimals: 2, step: "M/mL/°P", perStep: 1, ceiling: math.Inf(1)}
)

// measureOf returns the measure of a figure. Its numbers are those that
// Figure.Shown gives.
func measureOf(f quantity.Figure) measure {
	m := measure{unit: f.Unit(), decimals: f.Decimals(), keep: f.Decimals(), step: f.Unit(), perStep: 1, ceiling: math.Inf(1)}
	switch {
	case f.IsGravity():
		m.step, m.perStep, m.origin = "gravity points", 1000, 1
		m.floor = math.Inf(-1)
	case f == quantity.ResidualAlkalinity:
		m.floor = math.Inf(-1)
	case m.unit == "%":
		m.step = "points"
	}
	return m
}

// places is a range with the measure it is in and the share of it that is edge.
type places struct {
	measure
	low, high float64
	edge      float64
}

func (p places) hasLow() bool  { return p.low > p.floor }
func (p places) hasHigh() bool { return p.high < p.ceiling }

// slack is what the arithmetic of shares may lose.
func (p places) slack(x float64) float64 { return 1e-9 * math.Max(math.Abs(x), 1e-3) }

// excess returns how far x lies above the range, negative if below, 0 inside.
func (p places) excess(x float64) float64 {
	switch {
	case p.hasHigh() && x > p.high+p.slack(p.high):
		return x - p.high
	case p.hasLow() && x < p.low-p.slack(p.low):
		return x - p.low
	}
	return 0
}

// word says where x stands.
func (p places) word(x float64) Word {
	if p.excess(x) != 0 {
		return Outside
	}
	if p.hasLow() && p.hasHigh() {
		band := p.edge * (p.high - p.low)
		if band > 0 && math.Min(x-p.low, p.high-x) <= band+p.slack(x) {
			return Edge
		}
		return Inside
	}
	if p.hasHigh() && p.high-x <= p.edge*math.Abs(p.high-p.origin)+p.slack(x) && p.edge > 0 {
		return Edge
	}
	if p.hasLow() && x-p.low <= p.edge*math.Abs(p.low-p.origin)+p.slack(x) && p.edge > 0 {
		return Edge
	}
	return Inside
}

// nearest returns the end of the range that is nearest to an x outside it.
func (p places) nearest(x float64) float64 {
	if p.excess(x) > 0 {
		return p.high
	}
	return p.low
}

// number prints x without its unit.
func (m measure) number(x float64, decimals int) string {
	as := m.shown()
	s := m.reader.Number(x*as.factor+as.zero, decimals+as.finer)
	mark := strings.IndexAny(s, ".,")
	for mark >= 0 && len(s)-mark-1 > m.keep && strings.HasSuffix(s, "0") {
		s = strings.TrimSuffix(s, "0")
	}
	return strings.TrimRight(s, ".,")
}

func (m measure) withUnit(s string) string {
	if m.unit == "" {
		return s
	}
	return s + " " + m.shown().unit
}

// fine prints x with one more decimal than usual, if it needs it.
func (m measure) fine(x float64) string { return m.number(x, m.decimals+1) }

// text prints x, finer than usual where it would look like the end that it
// misses.
func (p places) text(x float64) string { return p.withUnit(p.bare(x)) }

func (p places) bare(x float64) string {
	decimals := p.decimals
	if p.excess(x) != 0 {
		for end := p.nearest(x); decimals < p.decimals+4 && p.looksAt(x, end, decimals); {
			decimals++
		}
	}
	return p.number(x, decimals)
}

// looksAt reports whether x, printed, doesn't show that it lies beyond end.
func (p places) looksAt(x, end float64, decimals int) bool {
	as := p.shown()
	x, end = x*as.factor+as.zero, end*as.factor+as.zero
	scale := math.Pow(10, float64(decimals+as.finer))
	rounded := math.Round(x*scale) / scale
	if x > end {
		return rounded <= end+1e-12
	}
	return rounded >= end-1e-12
}

// rangeText prints the range.
func (p places) rangeText() string {
	decimals := p.decimals + 2 // as exactly as the author wrote it
	if p.shown().factor != 1 {
		decimals = p.decimals
	}
	low, high := p.number(p.low, decimals), p.number(p.high, decimals)
	switch {
	case math.IsInf(p.low, -1) && math.IsInf(p.high, 1):
		return "any"
	case math.IsInf(p.low, -1):
		return "up to " + p.withUnit(high)
	case math.IsInf(p.high, 1):
		return p.withUnit(low) + " or more"
	case low == high:
		return p.withUnit(low)
	case strings.HasPrefix(low, "−"):
		return p.withUnit(low + " to " + high)
	}
	return p.withUnit(low + "–" + high)
}

// off says how far x lies outside: "2 points above".
func (p places) off(x float64) string {
	d := p.excess(x)
	if d == 0 {
		return ""
	}
	side := "above"
	if d < 0 {
		side = "below"
	}
	return p.difference(d) + " " + side
}

// difference prints the size of a difference in the steps of m.
func (m measure) difference(d float64) string {
	as := m.shown()
	d = math.Abs(d) * m.perStep * as.factor
	decimals := 1
	for decimals < 4 && d < math.Pow(10, float64(1-decimals)) {
		decimals++
	}
	if m.unit == "" && m.step == "" && m.keep == 2 {
		decimals = max(decimals, 2)
	}
	s := measure{reader: quantity.Printer{DecimalComma: m.reader.DecimalComma}}.number(d, decimals)
	step := as.step
	if s == "1" {
		step = strings.TrimSuffix(strings.Replace(step, "points", "point", 1), " ")
	}
	if step == "" {
		return s
	}
	return s + " " + step
}

// put fills a verdict with where x stands.
func (p places) put(v *Verdict, x float64) {
	v.Value, v.Text = x, p.text(x)
	v.Word, v.Off = p.word(x), p.off(x)
	if v.Severity == style.Option {
		p.option(v)
	}
}

// option softens the verdict on an option: it is taken up or it isn't.
func (p places) option(v *Verdict) {
	if v.Word == Outside {
		v.Word, v.Lack = Idle, "an option that isn't taken up"
	} else {
		v.Word = Inside
	}
	v.Off = ""
}
