// SPDX-License-Identifier: MIT

package chart

import (
	"strconv"
	"strings"

	"gyle/quantity"
)

// Lineage is the family of a recipe.
type Lineage struct {
	Versions []RiverVersion // parents before their children
}

// RiverVersion is one version on the river.
type RiverVersion struct {
	Label  string // "3"
	Parent string // label of the parent; empty at the spring
	Change string // in the brewer's words
	Brews  int
	Panel  *Panel // the tasting against the parent
}

// Panel is what assessors answered in a forced choice.
type Panel struct {
	Right, Of int
	Guess     float64                           // share of right answers by guessing: 1/3 in a triangle
	Interval  *quantity.Span[quantity.Fraction] // of the share of right answers
	Verdict   string                            // "difference shown"
}

// river is the drawing in the making.
type river struct {
	*drawing
	versions []RiverVersion
	parents  []int // index of the parent, or -1
	lanes    []int
	y        []float64
	words    float64 // where the words begin
	keyTop   float64
}

// River draws the versions downstream. The water is as wide as the version was
// brewed often; what has never been brewed is a dry bed, dashed. Each branch
// carries the change, and the panel's answers as a row of circles.
func River(s Sheet, data Lineage) string {
	const title = "Lineage"
	if len(data.Versions) == 0 {
		return empty(s, title, "No version has been written yet.")
	}
	r := &river{drawing: newDrawing(s, title), versions: data.Versions}
	r.assignLanes()
	r.layout()
	for i := range r.versions {
		r.reach(i)
	}
	for i := range r.versions {
		r.node(i)
		r.branchWords(i)
	}
	r.key(r.keyItems(), 12, r.keyTop, r.width-12, false)
	r.desc = r.describe()
	return r.String()
}

// assignLanes keeps the first child in the lane of its parent and gives every
// further child, and every further spring, a lane of its own.
func (r *river) assignLanes() {
	hasHeir := make([]bool, len(r.versions))
	lanes := 0
	for i, v := range r.versions {
		parent := -1
		for j := range i {
			if v.Parent != "" && r.versions[j].Label == v.Parent {
				parent = j
			}
		}
		r.parents = append(r.parents, parent)
		if parent >= 0 && !hasHeir[parent] {
			hasHeir[parent] = true
			r.lanes = append(r.lanes, r.lanes[parent])
			continue
		}
		r.lanes = append(r.lanes, lanes)
		lanes++
	}
	r.words = 34 + r.laneGap(lanes)*float64(max(lanes-1, 0)) + 28
}

// laneGap is the distance of the lanes; many lanes stand closer.
func (r *river) laneGap(lanes int) float64 {
	return min(46, r.width*0.09, r.width*0.3/float64(max(lanes-1, 1)))
}

func (r *river) x(i int) float64 {
	lanes := 0
	for _, lane := range r.lanes {
		lanes = max(lanes, lane+1)
	}
	return 34 + r.laneGap(lanes)*float64(r.lanes[i])
}

// layout gives each version the height of its words.
func (r *river) layout() {
	y := 10.0
	for i := range r.versions {
		r.y = append(r.y, y+16)
		y += max(64, r.wordsHeight(i)+16)
	}
	r.height = r.key(r.keyItems(), 12, y, r.width-12, true) + 8
	r.keyTop = y
}

func (r *river) changeLines(i int) []string {
	return wrap(r.versions[i].Change, letters{italic: true}, r.width-14-r.words)
}

func (r *river) wordsHeight(i int) float64 {
	height := 20 + 18*float64(len(r.changeLines(i)))
	if p := r.versions[i].panel(); p != nil {
		height += 31 + 15*float64(len(r.panelLines(*p)))
	}
	return height
}

// panel is the tasting if it can be drawn.
func (v RiverVersion) panel() *Panel {
	if p := v.Panel; p != nil && p.Of > 0 && p.Right >= 0 && p.Right <= p.Of {
		return p
	}
	return nil
}

// water is half the width of the river at a version.
func (v RiverVersion) water() float64 {
	return min(1.5+1.75*float64(max(v.Brews, 0)), 13)
}

// reach draws the water from the parent down to a version.
func (r *river) reach(i int) {
	if r.parents[i] < 0 {
		return
	}
	from, to := r.parents[i], i
	x1, y1, x2, y2 := r.x(from), r.y[from], r.x(to), r.y[to]
	end := min(y1+64, y2) // the water turns into its lane right below the parent
	turn := (y1 + end) / 2
	if r.versions[i].Brews <= 0 {
		r.path(look{ink: Planned, stroke: 1.6, dash: dashed}, "M", x1, y1, "C", x1, turn, x2, turn, x2, end, "L", x2, y2)
		return
	}
	a, b := r.versions[from].water(), r.versions[to].water()
	r.path(look{ink: Measured, fill: "ink", opacity: 0.3},
		"M", x1-a, y1, "C", x1-a, turn, x2-b, turn, x2-b, end, "L", x2-b, y2,
		"L", x2+b, y2, "L", x2+b, end, "C", x2+b, turn, x1+a, turn, x1+a, y1, "Z")
}

// node draws the version: filled when it has been brewed, open when not.
func (r *river) node(i int) {
	x, y := r.x(i), r.y[i]
	v := r.versions[i]
	style := letters{figure: true, bold: true, size: figureSize, anchor: "middle", ink: Planned}
	label := fit(v.Label, style, 22)
	if v.Brews <= 0 {
		r.circle(x, y, 13, look{ink: Planned, class: "paper", fill: "paper", stroke: 1.6, dash: dashed})
		r.text(x, y+4.5, label, style)
		return
	}
	r.circle(x, y, 13, look{ink: Measured, fill: "ink"})
	writeTag(&r.body, "g", []string{"class", "reversed", "color", paperColor}, ">")
	style.ink = printed
	r.text(x, y+4.5, label, style)
	r.body.WriteString("</g>\n")
}

// branchWords writes what changed and what the panel said.
func (r *river) branchWords(i int) {
	v := r.versions[i]
	y := r.y[i] + 5
	r.line(r.x(i)+14, r.y[i], r.words-6, r.y[i], look{ink: ruled, stroke: 0.8})
	title := "version " + v.Label
	r.text(r.words, y, title, letters{bold: true})
	brews := brewsText(v.Brews)
	width := textWidth(title, letters{bold: true})
	if style := (letters{size: smallSize}); r.words+width+12+textWidth(brews, style) < r.width-edge {
		r.text(r.words+width+12, y, brews, style)
	}
	for _, line := range r.changeLines(i) {
		y += 18
		r.text(r.words, y, line, letters{italic: true})
	}
	if p := v.panel(); p != nil {
		r.panelRow(*p, y+19)
	}
}

// brewsText counts the brews.
func brewsText(n int) string {
	switch {
	case n <= 0:
		return "not brewed yet"
	case n == 1:
		return "brewed once"
	case n == 2:
		return "brewed twice"
	}
	return "brewed " + strconv.Itoa(n) + " times"
}

// panelRow draws an assessor as a circle: filled is right, open is wrong. A
// stroke stands where guessing would put the last filled circle, and a grey
// reach where the share of right answers lies.
func (r *river) panelRow(p Panel, y float64) {
	step := min(14, (r.width-16-r.words)/float64(p.Of))
	radius := step * 0.38
	at := func(share float64) float64 { return r.words + step*float64(p.Of)*min(max(share, 0), 1) }
	if p.Interval != nil && finite(float64(p.Interval.Low), float64(p.Interval.High)) {
		left, right := at(float64(p.Interval.Low)), at(float64(p.Interval.High))
		r.rect(left, y-step*0.7, right-left, step*1.4, look{ink: Planned, fill: "ink", opacity: 0.2})
	}
	for n := range p.Of {
		x := r.words + step*(float64(n)+0.5)
		if n < p.Right {
			r.circle(x, y, radius, look{ink: Measured, fill: "ink"})
		} else {
			r.circle(x, y, radius, look{ink: Measured, class: "paper", fill: "paper", stroke: 1})
		}
	}
	if finite(p.Guess) && p.Guess > 0 {
		r.line(at(p.Guess), y-11, at(p.Guess), y+11, look{stroke: 1.6})
	}
	for i, line := range r.panelLines(p) {
		r.text(r.words, y+25+15*float64(i), line, letters{size: smallSize})
	}
}

func (r *river) panelLines(p Panel) []string {
	return wrap(p.text(), letters{size: smallSize}, r.width-10-r.words)
}

func (p Panel) text() string {
	text := strconv.Itoa(p.Right) + " of " + strconv.Itoa(p.Of) + " right"
	if p.Verdict != "" {
		text += ": " + p.Verdict
	}
	return text
}

// keyItems explain the panel's row, where there is one.
func (r *river) keyItems() []keyItem {
	any := false
	for _, v := range r.versions {
		any = any || v.panel() != nil
	}
	if !any {
		return nil
	}
	return []keyItem{
		r.inkItem(Measured, "right"),
		{label: "wrong", draw: func(x, y float64) { r.circle(x, y, 4.5, look{ink: Measured, class: "paper", fill: "paper", stroke: 1}) }},
		{label: "by guessing", draw: func(x, y float64) { r.line(x, y-8, x, y+8, look{stroke: 1.6}) }},
		{label: "where the truth may lie", draw: func(x, y float64) { r.rect(x-9, y-7, 18, 14, look{ink: Planned, fill: "ink", opacity: 0.2}) }},
	}
}

func (r *river) describe() string {
	var parts []string
	for i, v := range r.versions {
		text := "Version " + v.Label
		if r.parents[i] >= 0 {
			text += " from " + v.Parent
		}
		if v.Change != "" {
			text += ": " + v.Change
		}
		text += "; " + brewsText(v.Brews)
		if p := v.panel(); p != nil {
			text += "; " + p.text()
		}
		parts = append(parts, text+".")
	}
	return strings.Join(parts, " ")
}
