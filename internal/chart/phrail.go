// SPDX-License-Identifier: MIT

package chart

import (
	"slices"
	"strings"

	"gyle/quantity"
)

// PHRails is a mash pH that is made up step by step.
type PHRails struct {
	Steps    []PHStep
	Aim      *quantity.Span[quantity.PH]
	Measured []PHPin
}

// PHStep is what has gone in up to now ("grist alone", "plus water") and the
// pH predicted then.
type PHStep struct {
	Name string
	PH   quantity.PH
	SD   float64
}

// PHPin is a reading of a cooled sample.
type PHPin struct {
	Label     string
	PH        quantity.PH
	OutOfRule bool
}

// phRail is the drawing in the making.
type phRail struct {
	*drawing
	data PHRails
	x    scale
	step float64 // height of a step
	rail float64 // y of the rail
}

// PHRail draws one rail of mash pH, 5.0 to 6.0. Below it each addition is a
// step whose length is its tug; readings are pins on the rail.
func PHRail(s Sheet, data PHRails) string {
	const title = "Mash pH"
	r := &phRail{drawing: newDrawing(s, title), data: knownPH(data)}
	if len(r.data.Steps)+len(r.data.Measured) == 0 {
		return empty(s, title, "No mash pH is predicted or measured yet.")
	}
	r.layout()
	r.aim()
	r.ruler()
	r.steps()
	r.pins()
	r.desc = r.describe()
	return r.String()
}

// knownPH leaves out numbers that aren't finite.
func knownPH(data PHRails) PHRails {
	known := PHRails{Aim: data.Aim}
	for _, s := range data.Steps {
		if finite(float64(s.PH)) {
			known.Steps = append(known.Steps, s)
		}
	}
	for _, p := range data.Measured {
		if finite(float64(p.PH)) {
			known.Measured = append(known.Measured, p)
		}
	}
	return known
}

func (r *phRail) layout() {
	var e extent
	e.add(5.0, 6.0)
	for _, s := range r.data.Steps {
		e.add(float64(s.PH)-cloudReach*positive(s.SD), float64(s.PH)+cloudReach*positive(s.SD))
	}
	for _, p := range r.data.Measured {
		e.add(float64(p.PH))
	}
	r.x = scale{e.low, e.high, 16, r.width - 16}
	r.rail = 28 + 18*float64(len(r.data.Measured))
	r.step = 40
	r.height = r.rail + 36 + r.step*float64(len(r.data.Steps)) + 20
}

// ruler draws the rail with its numbers.
func (r *phRail) ruler() {
	r.line(r.x.from, r.rail, r.x.to, r.rail, look{stroke: 2})
	values, decimals := ticks(r.x.low, r.x.high, int(r.width/65))
	fine, _ := ticks(r.x.low, r.x.high, 2*int(r.width/65))
	for _, v := range fine {
		r.line(r.x.at(v), r.rail, r.x.at(v), r.rail+4, look{stroke: 1})
	}
	for _, v := range values {
		x := r.x.at(v)
		r.line(x, r.rail, x, r.rail+7, look{stroke: 1.4})
		r.text(x, r.rail+20, r.sheet.Printer.Number(v, max(decimals, 1)), letters{figure: true, size: figureSize, anchor: "middle"})
	}
}

// aim shades the range aimed at, down through all steps.
func (r *phRail) aim() {
	if r.data.Aim == nil {
		return
	}
	left, right := r.x.from, r.x.to
	if v := float64(r.data.Aim.Low); finite(v) {
		left = r.x.at(v)
	}
	if v := float64(r.data.Aim.High); finite(v) {
		right = r.x.at(v)
	}
	bottom := r.height - 6
	r.rect(left, r.rail, right-left, bottom-r.rail, look{class: "style-area", fill: "#a08a4a", opacity: 0.16})
	r.line(left, r.rail, left, bottom, look{stroke: 1, dash: dotted})
	r.line(right, r.rail, right, bottom, look{stroke: 1, dash: dotted})
	r.text((left+right)/2, bottom-5, "aim", letters{italic: true, size: smallSize, anchor: "middle", halo: true})
}

// steps draws the additions one below the other, each from where the last
// one stood.
func (r *phRail) steps() {
	for i, s := range r.data.Steps {
		y := r.rail + 54 + r.step*float64(i)
		x := r.x.at(float64(s.PH))
		r.line(12, y+11, r.width-12, y+11, look{ink: ruled, stroke: 0.8})
		r.haze(x, y, positive(s.SD)*(r.x.to-r.x.from)/(r.x.high-r.x.low), 14, r.x, Planned)
		if i > 0 {
			r.tug(r.x.at(float64(r.data.Steps[i-1].PH)), x, y)
		}
		r.mark(x, y, 5, Planned)
		r.stepWords(i, x, y)
	}
}

// tug draws an arrow from the last pH to this one.
func (r *phRail) tug(from, to, y float64) {
	r.line(from, y-r.step+6, from, y, look{ink: Planned, stroke: 0.9, dash: dotted})
	if abs(to-from) < 6 {
		return
	}
	side := 1.0
	if to < from {
		side = -1
	}
	r.line(from, y, to-side*5, y, look{ink: Planned, stroke: 2})
	r.polygon([]point{{to - side*5, y}, {to - side*12, y - 4.5}, {to - side*12, y + 4.5}}, look{ink: Planned, fill: "ink"})
}

// stepWords names a step on the side of its mark that has more room.
func (r *phRail) stepWords(i int, x, y float64) {
	s := r.data.Steps[i]
	before := x
	if i > 0 {
		before = r.x.at(float64(r.data.Steps[i-1].PH))
	}
	reach := positive(s.SD) * (r.x.to - r.x.from) / (r.x.high - r.x.low)
	left, right := min(x, before)-max(9, cloudReach*reach+4), max(x, before)+max(9, cloudReach*reach+4)
	style := letters{size: 13, halo: true}
	if left > r.width-right {
		style.anchor = "end"
		r.text(left, y+4.5, r.stepText(i, style, left-edge), style)
		return
	}
	r.text(right, y+4.5, r.stepText(i, style, r.width-right-edge), style)
}

// stepText is the name of a step, its pH and its tug. Where room is short the
// tug, which the arrow shows, goes first, and then the end of the name.
func (r *phRail) stepText(i int, style letters, room float64) string {
	s, p := r.data.Steps[i], r.sheet.Printer
	number := " " + p.PH(s.PH)
	if i > 0 {
		tug := " (" + signedNumber(p, float64(s.PH-r.data.Steps[i-1].PH), 2) + ")"
		if textWidth(s.Name+number+tug, style) <= room {
			number += tug
		}
	}
	return fit(s.Name, style, room-textWidth(number, style)) + number
}

// signedNumber prints a difference with its sign.
func signedNumber(p quantity.Printer, x float64, decimals int) string {
	text := p.Number(x, decimals)
	if x > 0 {
		return "+" + text
	}
	return text
}

// pins sticks the readings into the rail. All words run to one side, and the
// pins on that side are shorter, so that no pin crosses a word.
func (r *phRail) pins() {
	pins := slices.Clone(r.data.Measured)
	middle := 0.0
	for _, pin := range pins {
		middle += r.x.at(float64(pin.PH)) / float64(len(pins))
	}
	side := 1.0
	if middle > r.width/2 {
		side = -1
	}
	slices.SortStableFunc(pins, func(a, b PHPin) int { return compareFloats(side*float64(b.PH), side*float64(a.PH)) })
	for i, pin := range pins {
		r.pin(pin, r.rail-18-18*float64(i), side)
	}
}

// pin draws one reading with its head at y and its words to a side.
func (r *phRail) pin(pin PHPin, y, side float64) {
	k := Measured
	if pin.OutOfRule {
		k = Corrected
	}
	x := r.x.at(float64(pin.PH))
	r.line(x, y, x, r.rail+2, look{ink: k, stroke: 1.4})
	r.mark(x, y, 5, k)
	text := strings.TrimSpace(pin.Label + " " + r.sheet.Printer.PH(pin.PH))
	style := letters{figure: true, size: figureSize, bold: true, ink: k, halo: true, anchor: sideAnchor(side)}
	r.text(x+10*side, y+4.5, text, style)
}

func (r *phRail) describe() string {
	p := r.sheet.Printer
	var parts []string
	for _, s := range r.data.Steps {
		parts = append(parts, s.Name+" "+p.PH(s.PH))
	}
	text := "Predicted: " + strings.Join(parts, ", ") + "."
	if r.data.Aim != nil {
		text += " Aim " + spanText(float64(r.data.Aim.Low), float64(r.data.Aim.High), numberText(p, 2)) + "."
	}
	for _, pin := range r.data.Measured {
		text += " Measured " + strings.TrimSpace(pin.Label+" "+p.PH(pin.PH)) + "."
	}
	return text
}
