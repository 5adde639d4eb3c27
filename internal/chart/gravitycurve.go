// SPDX-License-Identifier: MIT

package chart

import (
	"fmt"
	"math"
	"strings"

	"gyle/quantity"
)

// GravityCurve is a fermentation: readings over time, what the fitted curve
// expects, and the floor that a forced test found.
type GravityCurve struct {
	Readings []GravityReading // in the order of time
	Expected []GravityBand    // of the fitted curve
	Floor    quantity.SG      // where a forced test ended; 0: none
	Bracket  *GravityBracket  // the last three days
}

// GravityReading is one reading, so long after pitching.
type GravityReading struct {
	At quantity.Duration
	SG quantity.SG
}

// GravityBand is what the curve expects at a time.
type GravityBand struct {
	At             quantity.Duration
	Low, Mid, High quantity.SG
}

// GravityBracket spans the readings that are to agree; it is closed when they
// do.
type GravityBracket struct {
	From, To  quantity.Duration
	Low, High quantity.SG
	Closed    bool
}

// FermentationCurve draws a fermentation.
func FermentationCurve(s Sheet, data GravityCurve) string {
	const title = "Gravity over time"
	if len(data.Readings) == 0 {
		return empty(s, title, "No gravity has been read since pitching.")
	}
	d := newDrawing(s, title)
	d.height = 320
	var days, sg extent
	for _, r := range data.Readings {
		days.add(r.At.Hours() / 24)
		sg.add(float64(r.SG))
	}
	if data.Floor > 0 {
		sg.add(float64(data.Floor))
	}
	x := scale{0, math.Max(days.high, 1), 58, d.width - 18}
	low, high := sg.padded(0.07, 0.004)
	y := scale{low, high, d.height - 64, 20}
	d.curveGrid(x, y)
	d.corridor(data.Expected, x, y)
	d.floor(data.Floor, x, y)
	d.bracket(data.Bracket, x, y)
	for _, r := range data.Readings {
		d.mark(x.at(r.At.Hours()/24), y.at(float64(r.SG)), 4.5, Measured)
	}
	d.key([]keyItem{d.inkItem(Measured, "read"), d.inkItem(Planned, "expected by the curve, with its corridor")}, 12, d.height-22, d.width-12, false)
	first, last := data.Readings[0], data.Readings[len(data.Readings)-1]
	d.desc = fmt.Sprintf("From %s to %s in %.0f hours, %d readings.", s.Printer.SG(first.SG), s.Printer.SG(last.SG), last.At.Hours()-first.At.Hours(), len(data.Readings))
	if data.Floor > 0 {
		d.desc += " The forced test ended at " + s.Printer.Number(float64(data.Floor), 4) + "."
	}
	return d.String()
}

func (d *drawing) curveGrid(x, y scale) {
	values, decimals := ticks(y.low, y.high, 6)
	for _, v := range values {
		d.line(x.from, y.at(v), x.to, y.at(v), look{ink: ruled, stroke: 0.8})
		d.text(x.from-6, y.at(v)+4, d.sheet.Printer.Number(v, max(decimals, 3)), letters{figure: true, size: smallSize, anchor: "end"})
	}
	values, decimals = ticks(x.low, x.high, int((x.to-x.from)/70))
	for _, v := range values {
		d.text(x.at(v), y.from+18, d.sheet.Printer.Number(v, decimals), letters{figure: true, size: smallSize, anchor: "middle"})
		d.line(x.at(v), y.from, x.at(v), y.from+4, look{stroke: 1})
	}
	d.text(x.to, y.from+34, "days after pitching", letters{italic: true, size: smallSize, anchor: "end"})
	d.line(x.from, y.to, x.from, y.from, look{stroke: 1})
	d.line(x.from, y.from, x.to, y.from, look{stroke: 1})
}

func (d *drawing) corridor(band []GravityBand, x, y scale) {
	if len(band) < 2 {
		return
	}
	var edge, middle []point
	inside := func(v float64) float64 { return min(max(v, y.low), y.high) }
	for _, b := range band {
		edge = append(edge, point{x.at(b.At.Hours() / 24), y.at(inside(float64(b.High)))})
		middle = append(middle, point{x.at(b.At.Hours() / 24), y.at(inside(float64(b.Mid)))})
	}
	for i := len(band) - 1; i >= 0; i-- {
		edge = append(edge, point{x.at(band[i].At.Hours() / 24), y.at(inside(float64(band[i].Low)))})
	}
	d.polygon(edge, look{ink: Planned, fill: "ink", opacity: 0.16})
	d.polyline(middle, look{ink: Planned, stroke: 1.6})
}

func (d *drawing) floor(sg quantity.SG, x, y scale) {
	if sg <= 0 {
		return
	}
	at := y.at(float64(sg))
	d.line(x.from, at, x.to, at, look{ink: Measured, stroke: 2, dash: "7 4"})
	d.text(x.from+8, at-6, "floor: forced test "+d.sheet.Printer.Number(float64(sg), 4), letters{size: smallSize, halo: true})
}

func (d *drawing) bracket(b *GravityBracket, x, y scale) {
	if b == nil {
		return
	}
	left, right := x.at(b.From.Hours()/24), x.at(b.To.Hours()/24)
	top, bottom := y.at(float64(b.High))-12, y.at(float64(b.Low))+12
	k, word := Planned, "open: the readings still fall"
	if b.Closed {
		k, word = Measured, "three days agree"
	}
	for _, side := range []struct{ at, foot float64 }{{left, 8}, {right, -8}} {
		d.polyline([]point{{side.at + side.foot, top}, {side.at, top}, {side.at, bottom}, {side.at + side.foot, bottom}}, look{ink: k, stroke: 2})
	}
	d.text((left+right)/2, top-6, word, letters{ink: k, size: smallSize, anchor: "middle", halo: true})
}

// MissPair is one prediction with what was then measured.
type MissPair struct {
	Brew                string
	Predicted, Measured float64
}

// MissPanel is one small panel of the ledger: all predictions of a quantity
// against what was measured, on a line of one to one.
func MissPanel(s Sheet, what, unit string, pairs []MissPair) string {
	title := what + ", predicted against measured"
	if len(pairs) == 0 {
		return empty(s, title, "Nothing was predicted and measured yet.")
	}
	d := newDrawing(s, title)
	d.height = d.width*0.62 + 40
	var all extent
	for _, p := range pairs {
		all.add(p.Predicted)
		all.add(p.Measured)
	}
	low, high := all.padded(0.25, math.Max(math.Abs(all.high)*0.004, 1e-9))
	x, y := scale{low, high, 56, d.width - 14}, scale{low, high, d.height - 42, 14}
	d.line(x.from, y.from, x.to, y.to, look{ink: ruled, stroke: 1.6})
	d.line(x.from, y.from, x.to, y.from, look{stroke: 1})
	d.line(x.from, y.to, x.from, y.from, look{stroke: 1})
	values, decimals := ticks(low, high, 3)
	for _, v := range values {
		d.text(x.at(v), y.from+16, d.sheet.Printer.Number(v, decimals), letters{figure: true, size: smallSize, anchor: "middle"})
		d.text(x.from-6, y.at(v)+4, d.sheet.Printer.Number(v, decimals), letters{figure: true, size: smallSize, anchor: "end"})
	}
	d.text(x.to, y.from+34, strings.TrimSuffix("predicted, "+unit, ", "), letters{italic: true, size: smallSize, anchor: "end"})
	for i, p := range pairs {
		px, py := x.at(p.Predicted), y.at(p.Measured)
		d.line(px, y.at(p.Predicted), px, py, look{ink: Measured, stroke: 0.8})
		faded := 0.0
		if i < len(pairs)-1 {
			faded = 0.55 // the newest is darkest
		}
		d.circle(px, py, 4.5, look{ink: Measured, fill: "ink", stroke: 1, opacity: faded})
		d.desc += fmt.Sprintf("%s: predicted %s, measured %s. ", p.Brew, d.sheet.Printer.Number(p.Predicted, decimals+1), d.sheet.Printer.Number(p.Measured, decimals+1))
	}
	return d.String()
}
