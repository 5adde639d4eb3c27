// SPDX-License-Identifier: MIT

package chart

import (
	"math"
	"strconv"
	"strings"
)

// mark draws the mark of an ink: open for planned, filled for measured,
// crossed for corrected.
func (d *drawing) mark(x, y, r float64, k Ink) {
	switch k {
	case Measured:
		d.circle(x, y, r, look{ink: k, fill: "ink", stroke: 1})
	case Corrected:
		d.circle(x, y, r, look{class: "paper", fill: "paper"})
		d.line(x-r, y-r, x+r, y+r, look{ink: k, stroke: 2})
		d.line(x-r, y+r, x+r, y-r, look{ink: k, stroke: 2})
	default:
		d.circle(x, y, r, look{ink: k, class: "paper", fill: "paper", stroke: 1.6})
	}
}

// thinning are the outlines of a cloud, in standard deviations. They are chosen
// so that layers of equal ink, one over the other, fall off like a normal
// density: outline n of N lies where the density is n−½ Nths of its peak.
var thinning = normalLayers(9)

func normalLayers(count int) []float64 {
	layers := make([]float64, count)
	for n := range layers {
		layers[n] = math.Sqrt(-2 * math.Log((float64(n)+0.5)/float64(count)))
	}
	return layers
}

// cloudReach is the outermost outline of a cloud.
var cloudReach = thinning[0]

// layerInk is the opacity of one layer of ink.
const layerInk = 0.05

// cloud draws ink that thins out with the distance from the middle, as a normal
// density does. It is one shape, for a map may have dozens of them.
func (d *drawing) cloud(center point, sdX, sdY, correlation float64, within box, k Ink) {
	outline := ellipse(center, sdX, sdY, correlation, cloudReach)
	if correlation == 0 && within.holds(outline) {
		d.ellipse(center.x, center.y, cloudReach*sdX, cloudReach*sdY, look{ink: k, fill: d.thinInk(k)})
		return
	}
	d.polygon(clip(outline, within.planes()...), look{ink: k, fill: d.slantedInk(center, sdX, sdY, correlation, k)})
}

// slantedInk is thin ink for one cloud that slants or is cut. Its transform
// takes the circle of independent deviations to the slanted ellipse.
func (d *drawing) slantedInk(center point, sdX, sdY, correlation float64, k Ink) string {
	stops := strings.TrimSuffix(strings.TrimPrefix(d.thinInk(k), "url("), ")")
	r := limitCorrelation(correlation)
	d.slanted++
	id := d.id("cloud-" + strconv.Itoa(d.slanted))
	matrix := []string{num(sdX), num(sdY * r), "0", num(sdY * math.Sqrt(1-r*r)), num(center.x), num(center.y)}
	writeTag(&d.defs, "radialGradient", []string{"id", id, "href", stops, "gradientUnits", "userSpaceOnUse", "cx", "0", "cy", "0",
		"r", num(cloudReach), "gradientTransform", "matrix(" + strings.Join(matrix, " ") + ")"}, "/>\n")
	return "url(#" + id + ")"
}

// cloudStops is in how many steps thin ink is written down.
const cloudStops = 8

// thinInk defines, once for a drawing, ink that thins out from the middle of a
// shape to its rim as the layers of a cloud do, and returns the fill.
func (d *drawing) thinInk(k Ink) string {
	id := d.id("thin-" + k.class())
	fill := "url(#" + id + ")"
	if strings.Contains(d.defs.String(), `"`+id+`"`) {
		return fill
	}
	writeTag(&d.defs, "radialGradient", []string{"id", id, "class", k.class(), "color", k.color()}, ">\n")
	for i := range cloudStops + 1 {
		offset := float64(i) / cloudStops
		z := offset * cloudReach
		density := math.Exp(-z * z / 2)
		if i == cloudStops {
			density = 0
		}
		covered := 1 - math.Pow(1-layerInk, float64(len(thinning))*density)
		writeTag(&d.defs, "stop", []string{"offset", fraction(offset), "stop-color", "currentColor", "stop-opacity", strconv.FormatFloat(covered, 'f', 3, 64)}, "/>\n")
	}
	d.defs.WriteString("</radialGradient>\n")
	return fill
}

// haze draws an uncertain place on a horizontal line: a band of ink that thins
// out to both sides.
func (d *drawing) haze(x, y, sd, height float64, within scale, k Ink) {
	for _, deviations := range thinning {
		left, right := max(x-deviations*sd, within.from), min(x+deviations*sd, within.to)
		if right > left {
			d.rect(left, y-height/2, right-left, height, look{ink: k, fill: "ink", opacity: 0.06})
		}
	}
}

// keyItem is an entry of the key below a drawing.
type keyItem struct {
	label string
	draw  func(x, y float64) // draws a sample 18 units wide around the middle (x, y)
	ink   Ink
}

// keyRow is the height of a row of the key.
const keyRow = 20.0

// key sets the items in as many rows as they need and returns where it ends.
// With measure it only finds the height.
func (d *drawing) key(items []keyItem, left, top, right float64, measure bool) float64 {
	style := letters{size: smallSize}
	x, y := left, top
	for _, item := range items {
		label := fit(item.label, style, right-left-26)
		width := 26 + textWidth(label, style) + 14
		if x > left && x+width-14 > right {
			x, y = left, y+keyRow
		}
		if !measure {
			item.draw(x+9, y+keyRow/2)
			style.ink = item.ink
			d.text(x+24, y+keyRow/2+4, label, style)
		}
		x += width
	}
	if len(items) == 0 {
		return top
	}
	return y + keyRow
}

// inkItem is the entry of an ink in the key.
func (d *drawing) inkItem(k Ink, label string) keyItem {
	return keyItem{label: label, ink: k, draw: func(x, y float64) { d.mark(x, y, 4.5, k) }}
}

// empty draws the sheet that says why there is nothing on it.
func empty(s Sheet, title, message string) string {
	d := newDrawing(s, title)
	d.desc = message
	style := letters{italic: true}
	lines := wrap(message, style, d.width-48)
	const step = 26.0
	rows := max(4, len(lines)+2)
	d.height = float64(rows)*step + 16
	for i := range rows {
		y := 8 + step*float64(i+1)
		d.line(12, y, d.width-12, y, look{ink: ruled, stroke: 0.8})
	}
	d.text(24, 8+step-7, title, letters{bold: true})
	for i, line := range lines {
		d.text(24, 8+step*float64(i+2)-7, line, style)
	}
	return d.String()
}
