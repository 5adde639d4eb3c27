// SPDX-License-Identifier: MIT

package chart

import (
	"strings"

	"gyle/quantity"
)

// Ladders is what each hop charge earns on one house, or on two.
type Ladders struct {
	Houses []LadderHouse
}

// LadderHouse is one brewhouse with its hop charges.
type LadderHouse struct {
	Name    string
	Charges []LadderCharge
}

// LadderCharge is a hop charge and its path through the brewhouse.
type LadderCharge struct {
	Hop    string
	Mass   quantity.Mass
	Start  quantity.Duration // when it goes in, counted from the start of the scale
	Stages []LadderStage
}

// LadderStage is a stretch of time (boil, cool, stand, rest, run-off, chill)
// and the bitterness earned in it.
type LadderStage struct {
	Name string
	For  quantity.Duration
	IBU  quantity.IBU
}

// total is the bitterness of a charge.
func (c LadderCharge) total() quantity.IBU {
	sum := quantity.IBU(0)
	for _, s := range c.Stages {
		sum += s.IBU
	}
	return sum
}

// total is the bitterness of a house.
func (h LadderHouse) total() quantity.IBU {
	sum := quantity.IBU(0)
	for _, c := range h.Charges {
		sum += c.total()
	}
	return sum
}

// chargeLadder is the drawing in the making.
type chargeLadder struct {
	*drawing
	houses  []LadderHouse
	minutes float64 // length of the common scale
	fastest float64 // IBU per minute of the darkest block
}

// rungHeight is the height of a charge: its words, its blocks, their numbers.
const rungHeight = 112.0

// ChargeLadder draws per hop charge a row of time blocks. A block is as wide
// as it is long and as dark as bitterness is made fast; its IBU stand beneath.
// On a page two houses face each other, time running outwards from the rails;
// on a phone they stand one below the other, on one scale.
func ChargeLadder(s Sheet, data Ladders) string {
	const title = "Bitterness earned by each hop charge"
	l := &chargeLadder{drawing: newDrawing(s, title), houses: knownHouses(data.Houses)}
	for _, h := range l.houses {
		for _, c := range h.Charges {
			l.survey(c)
		}
	}
	if l.minutes <= 0 {
		return empty(s, title, "No hop charge has been planned yet.")
	}
	if l.width >= 600 && len(l.houses) == 2 {
		l.facing()
	} else {
		l.stacked()
	}
	items := []keyItem{{label: "IBU; the darker, the faster it is made", draw: func(x, y float64) {
		for i, opacity := range []float64{0.05, 0.4, 0.75} {
			l.rect(x-9+6*float64(i), y-6, 6, 12, look{fill: "ink", opacity: opacity})
		}
	}}}
	l.height = l.key(items, 12, l.height, l.width-12, false) + 8
	l.desc = l.describe()
	return l.String()
}

// knownHouses leaves out stages and charges that can't be drawn.
func knownHouses(houses []LadderHouse) []LadderHouse {
	var known []LadderHouse
	for _, h := range houses {
		kept := LadderHouse{Name: h.Name}
		for _, c := range h.Charges {
			if !finite(float64(c.Mass), float64(c.Start)) || c.Start < 0 {
				continue
			}
			charge := c
			charge.Stages = nil
			for _, s := range c.Stages {
				if finite(float64(s.For), float64(s.IBU)) && s.For > 0 && s.IBU >= 0 {
					charge.Stages = append(charge.Stages, s)
				}
			}
			if len(charge.Stages) > 0 {
				kept.Charges = append(kept.Charges, charge)
			}
		}
		known = append(known, kept)
	}
	return known
}

// survey finds the longest path and the fastest block.
func (l *chargeLadder) survey(c LadderCharge) {
	end := c.Start.Minutes()
	for _, s := range c.Stages {
		end += s.For.Minutes()
		l.fastest = max(l.fastest, float64(s.IBU)/s.For.Minutes())
	}
	l.minutes = max(l.minutes, end)
}

// facing sets two houses left and right of the rails.
func (l *chargeLadder) facing() {
	middle := l.width / 2
	top := 52.0
	rows := max(len(l.houses[0].Charges), len(l.houses[1].Charges))
	l.height = top + float64(rows)*rungHeight + 8
	for i, side := range []float64{-1, 1} {
		x := scale{0, l.minutes, middle + side*14, middle + side*(middle-14)}
		l.head(l.houses[i], middle+side*14, 20, side)
		l.rungs(l.houses[i], x, top)
		l.line(middle+side*7, 8, middle+side*7, l.height-8, look{stroke: 1.6})
	}
	for row := range rows {
		y := top + float64(row)*rungHeight + rungBlock + 10
		l.line(middle-7, y, middle+7, y, look{stroke: 1.6})
	}
}

// stacked sets houses one below the other, on one scale.
func (l *chargeLadder) stacked() {
	y := 0.0
	for _, h := range l.houses {
		x := scale{0, l.minutes, 24, l.width - 14}
		l.head(h, 24, y+20, 1)
		bottom := y + 52 + float64(len(h.Charges))*rungHeight
		l.line(14, y+8, 14, bottom-8, look{stroke: 1.6})
		l.rungs(h, x, y+52)
		y = bottom + 8
	}
	l.height = y
}

// head names the house and its total.
func (l *chargeLadder) head(h LadderHouse, x, y, side float64) {
	anchor := sideAnchor(side)
	l.text(x, y, fit(h.Name, letters{bold: true}, l.width/2-20), letters{bold: true, anchor: anchor})
	l.text(x, y+17, l.ibu(h.total())+" in all", letters{figure: true, size: figureSize, anchor: anchor})
}

// ibu prints a bitterness with the decimal that late charges need.
func (l *chargeLadder) ibu(x quantity.IBU) string {
	return l.sheet.Printer.Number(float64(x), 1) + " IBU"
}

// sideAnchor anchors text that runs away from the rails.
func sideAnchor(side float64) string {
	if side < 0 {
		return "end"
	}
	return ""
}

// rungBlock is how far below the top of a rung its blocks begin.
const rungBlock = 24.0

// rungs draws the charges of a house.
func (l *chargeLadder) rungs(h LadderHouse, x scale, top float64) {
	side := 1.0
	if x.to < x.from {
		side = -1
	}
	for i, c := range h.Charges {
		y := top + float64(i)*rungHeight
		text := l.sheet.Printer.Mass(c.Mass) + " " + c.Hop + " · " + l.ibu(c.total())
		style := letters{anchor: sideAnchor(side)}
		l.text(x.from, y+16, fit(text, style, abs(x.to-x.from)), style)
		l.line(x.from, y+rungBlock+10, x.to, y+rungBlock+10, look{ink: ruled, stroke: 1})
		l.blocks(c, x, y+rungBlock)
	}
}

// blocks draws the path of a charge and writes the stages beneath.
func (l *chargeLadder) blocks(c LadderCharge, x scale, y float64) {
	at := c.Start.Minutes()
	wishes, sizes := make([]float64, len(c.Stages)), make([]float64, len(c.Stages))
	l.line(x.from, y+10, x.at(at), y+10, look{ink: Planned, stroke: 0.9, dash: dotted})
	for i, s := range c.Stages {
		from, to := x.at(at), x.at(at+s.For.Minutes())
		at += s.For.Minutes()
		left := min(from, to)
		l.rect(left, y, abs(to-from), 20, look{class: "paper", fill: "paper"})
		rate := 0.0
		if l.fastest > 0 {
			rate = float64(s.IBU) / s.For.Minutes() / l.fastest
		}
		l.rect(left, y, abs(to-from), 20, look{fill: "ink", opacity: 0.05 + 0.7*rate})
		l.rect(left, y, abs(to-from), 20, look{stroke: 0.9})
		wishes[i], sizes[i] = (from+to)/2, l.stageWidth(s)
	}
	low, high := min(x.from, x.to)-8, max(x.from, x.to)+8
	for i, place := range spread(wishes, sizes, low, high) {
		l.stage(c.Stages[i], wishes[i], place, y+20)
	}
}

// stageLines are the words below a block, and how they are set.
func (l *chargeLadder) stageLines(s LadderStage) ([3]string, [3]letters) {
	words := letters{size: smallSize, anchor: "middle", italic: true}
	figures := letters{size: 11.5, figure: true, anchor: "middle"}
	bold := figures
	bold.bold, bold.size = true, figureSize
	return [3]string{s.Name, l.sheet.Printer.Duration(s.For), l.sheet.Printer.Number(float64(s.IBU), 1)}, [3]letters{words, figures, bold}
}

func (l *chargeLadder) stageWidth(s LadderStage) float64 {
	lines, styles := l.stageLines(s)
	width := 0.0
	for i := range lines {
		width = max(width, textWidth(lines[i], styles[i]))
	}
	return width + 7
}

// stage writes name, minutes and IBU of a stage, led to its block.
func (l *chargeLadder) stage(s LadderStage, wish, place, y float64) {
	l.line(wish, y, place, y+9, look{stroke: 0.7})
	lines, styles := l.stageLines(s)
	for i := range lines {
		l.text(place, y+21+15*float64(i), lines[i], styles[i])
	}
}

func (l *chargeLadder) describe() string {
	p := l.sheet.Printer
	var parts []string
	for _, h := range l.houses {
		parts = append(parts, h.Name+", "+l.ibu(h.total())+" in all:")
		for _, c := range h.Charges {
			var stages []string
			for _, s := range c.Stages {
				stages = append(stages, s.Name+" "+p.Duration(s.For)+" "+l.ibu(s.IBU))
			}
			parts = append(parts, p.Mass(c.Mass)+" "+c.Hop+": "+strings.Join(stages, ", ")+".")
		}
	}
	return strings.Join(parts, " ")
}
