// SPDX-License-Identifier: MIT

package chart

import "math"

// courseAt is the place of the temperature line at a time.
func (d *brewDay) courseAt(minutes float64) float64 {
	x := d.x.to
	for i, p := range d.data.Course {
		if p.At.Minutes() > minutes {
			if i == 0 {
				return d.temperature(p)
			}
			before := d.data.Course[i-1]
			share := (minutes - before.At.Minutes()) / (p.At.Minutes() - before.At.Minutes())
			return d.temperature(before) + share*(d.temperature(p)-d.temperature(before))
		}
		x = d.temperature(p)
	}
	return x
}

// weights hangs the hop charges on the line. The area of a weight goes with
// its mass.
func (d *brewDay) weights() {
	heaviest := 0.0
	for _, c := range d.data.Charges {
		heaviest = max(heaviest, c.Mass.Grams())
	}
	for _, c := range d.data.Charges {
		half := 4 + 6*math.Sqrt(c.Mass.Grams()/heaviest)
		x, y := d.courseAt(c.At.Minutes()), d.y.at(c.At.Minutes())
		hang := max(x-half-16, d.left+half+2)
		d.polyline([]point{{x, y}, {hang, y}, {hang, y + 6}}, look{ink: Planned, stroke: 1})
		d.polygon([]point{{hang - half*0.6, y + 6}, {hang + half*0.6, y + 6}, {hang + half, y + 6 + 1.7*half}, {hang - half, y + 6 + 1.7*half}},
			look{ink: Planned, class: "paper", fill: "paper", stroke: 1.6})
		d.weightWords(c, hang-half-4, y+6+half)
	}
}

// weightWords writes mass and hop to the left of a weight, or below it.
func (d *brewDay) weightWords(c BrewCharge, x, y float64) {
	figures := letters{figure: true, size: smallSize, anchor: "end", ink: Planned}
	words := letters{italic: true, size: 11.5, anchor: "end", ink: Planned}
	mass := d.sheet.Printer.Mass(c.Mass)
	room := x - d.left - 2
	if room < max(textWidth(mass, figures), textWidth(c.Hop, words)) {
		figures.anchor, words.anchor = "", ""
		x, y, room = d.left+3, y+24, d.right-d.left-8
	}
	d.plated(x, y+1, fit(mass, figures, room), figures)
	d.plated(x, y+14, fit(c.Hop, words, room), words)
}
