// SPDX-License-Identifier: MIT

package chart

import (
	"slices"
	"strings"
)

// Wedges is the colour of a beer over the length of the light's path.
type Wedges struct {
	Predicted, Measured Wedge
	Marks               []PathMark // nil: the usual ones
}

// Wedge is one beer: its colours by path length, and its number ("35 EBC").
type Wedge struct {
	Label string
	Stops []WedgeStop
}

// WedgeStop is the colour seen through so many centimetres.
type WedgeStop struct {
	CM    float64
	Color RGB
}

// PathMark names a path length.
type PathMark struct {
	CM   float64
	Name string
}

// usualMarks are the paths through which beer is looked at. The cuvette is the
// 1 cm of the EBC method; the others are customary sizes of glasses (estimate).
var usualMarks = []PathMark{{0.3, "tilted edge"}, {1, "cuvette"}, {5, "tasting glass"}, {8, "pint"}}

// colorWedge is the drawing in the making.
type colorWedge struct {
	*drawing
	data Wedges
	x    scale
	axis float64 // y of the line on which the wedges touch
	half float64 // thickness of a wedge at its thick end
}

// ColorWedge draws a wedge of beer, thin at the left and thick at the right.
// The prediction lies above, the measured beer below, and they touch along a
// line so that the eye compares them.
func ColorWedge(s Sheet, data Wedges) string {
	const title = "Colour by path length"
	data.Predicted.Stops = sortedStops(data.Predicted.Stops)
	data.Measured.Stops = sortedStops(data.Measured.Stops)
	w := &colorWedge{drawing: newDrawing(s, title), data: data}
	if len(data.Predicted.Stops) < 2 && len(data.Measured.Stops) < 2 {
		return empty(s, title, "No colour is predicted or measured yet.")
	}
	if w.data.Marks == nil {
		w.data.Marks = usualMarks
	}
	w.layout()
	w.wedge(w.data.Predicted, -1, Planned, "predicted")
	w.wedge(w.data.Measured, 1, Measured, "measured")
	w.marks()
	w.desc = w.describe()
	return w.String()
}

// sortedStops drops impossible stops and sorts the others by path length.
func sortedStops(stops []WedgeStop) []WedgeStop {
	var kept []WedgeStop
	for _, s := range stops {
		if finite(s.CM) && s.CM >= 0 {
			kept = append(kept, s)
		}
	}
	slices.SortStableFunc(kept, func(a, b WedgeStop) int { return compareFloats(a.CM, b.CM) })
	return kept
}

func (w *colorWedge) layout() {
	var paths extent
	for _, wedge := range []Wedge{w.data.Predicted, w.data.Measured} {
		for _, s := range wedge.Stops {
			paths.add(s.CM)
		}
	}
	w.x = scale{paths.low, max(paths.high, paths.low+0.1), 14, w.width - 14}
	w.half = min(w.width*0.16, 96)
	w.axis = 34 + w.half
	bottom := w.axis
	if len(w.data.Measured.Stops) >= 2 {
		bottom += w.half
	}
	w.height = bottom + 30 + 18*float64(w.markRows()) + 4
}

// thickness of a wedge at a path length: it is the path length, to scale, and
// never thinner than a hairline.
func (w *colorWedge) thickness(cm float64) float64 {
	return max(1.5, w.half*cm/w.x.high)
}

// wedge draws one beer on a side of the axis.
func (w *colorWedge) wedge(beer Wedge, side float64, k Ink, word string) {
	if len(beer.Stops) < 2 {
		return
	}
	first, last := beer.Stops[0].CM, beer.Stops[len(beer.Stops)-1].CM
	corners := []point{
		{w.x.at(first), w.axis}, {w.x.at(last), w.axis},
		{w.x.at(last), w.axis + side*w.thickness(last)}, {w.x.at(first), w.axis + side*w.thickness(first)},
	}
	w.polygon(corners, look{class: "swatch", fill: w.gradient(beer, word)})
	dash := ""
	if k == Planned {
		dash = dashed
	}
	w.polyline([]point{corners[0], corners[3], corners[2], corners[1]}, look{ink: k, stroke: 1.4, dash: dash})
	label := strings.TrimSpace(word + " " + beer.Label)
	y := w.axis - w.half*0.62
	if side > 0 {
		y = w.axis + w.half*0.62 + 9
	}
	w.mark(w.x.from+5, y-4.5, 4.5, k)
	style := letters{ink: k}
	w.text(w.x.from+16, y, fit(label, style, w.width*0.42), style)
}

// gradient defines the colours along a wedge.
func (w *colorWedge) gradient(beer Wedge, word string) string {
	id := w.id(word)
	first, last := w.x.at(beer.Stops[0].CM), w.x.at(beer.Stops[len(beer.Stops)-1].CM)
	writeTag(&w.defs, "linearGradient", []string{"id", id}, ">\n")
	for _, s := range beer.Stops {
		offset := 0.0
		if last > first {
			offset = (w.x.at(s.CM) - first) / (last - first)
		}
		writeTag(&w.defs, "stop", []string{"offset", fraction(offset), "stop-color", s.Color.hex()}, "/>\n")
	}
	w.defs.WriteString("</linearGradient>\n")
	return "url(#" + id + ")"
}

// fraction writes a number from 0 to 1 with four decimals.
func fraction(x float64) string { return num(x*100) + "%" }

// shownMarks are the marks on the scale.
func (w *colorWedge) shownMarks() []PathMark {
	var shown []PathMark
	for _, m := range w.data.Marks {
		if finite(m.CM) && w.x.has(m.CM) {
			shown = append(shown, m)
		}
	}
	return shown
}

// markLabel is the text of a mark.
func (w *colorWedge) markLabel(m PathMark) string {
	decimals := 0
	if m.CM != float64(int(m.CM)) {
		decimals = 1
	}
	return m.Name + " " + w.sheet.Printer.Number(m.CM, decimals) + " cm"
}

// markRows puts marks whose labels would touch into further rows.
func (w *colorWedge) markRows() int {
	rows := 1
	for _, row := range w.rows() {
		rows = max(rows, row+1)
	}
	return rows
}

// rows gives each shown mark the first row in which its label has room.
func (w *colorWedge) rows() []int {
	style := letters{size: smallSize}
	var ends []float64
	var rows []int
	for _, m := range w.shownMarks() {
		width := textWidth(w.markLabel(m), style)
		left := w.inside(w.x.at(m.CM), width, "middle") - width/2
		row := 0
		for row < len(ends) && ends[row] > left {
			row++
		}
		if row == len(ends) {
			ends = append(ends, 0)
		}
		ends[row] = left + width + 10
		rows = append(rows, row)
	}
	return rows
}

// marks draws a tick through both wedges at each named path.
func (w *colorWedge) marks() {
	bottom := w.axis
	if len(w.data.Measured.Stops) >= 2 {
		bottom += w.half
	}
	rows := w.rows()
	for i, m := range w.shownMarks() {
		x := w.x.at(m.CM)
		y := bottom + 26 + 18*float64(rows[i])
		w.line(x, w.axis, x, y-13, look{stroke: 0.9, color: paperColor, class: "halo"})
		w.line(x, w.axis+w.thicknessBelow(m.CM), x, y-13, look{stroke: 0.9})
		w.line(x, w.axis-3, x, w.axis+3, look{stroke: 2.4, color: paperColor})
		w.text(x, y, w.markLabel(m), letters{size: smallSize, anchor: "middle"})
	}
}

// thicknessBelow is how far the lower wedge reaches below the axis.
func (w *colorWedge) thicknessBelow(cm float64) float64 {
	if len(w.data.Measured.Stops) < 2 {
		return 0
	}
	return w.thickness(cm)
}

func (w *colorWedge) describe() string {
	var parts []string
	for _, beer := range []struct {
		word string
		Wedge
	}{{"Predicted", w.data.Predicted}, {"Measured", w.data.Measured}} {
		if len(beer.Stops) < 2 {
			continue
		}
		text := strings.TrimSpace(beer.word+" "+beer.Label) + ":"
		for _, m := range w.shownMarks() {
			text += " " + w.markLabel(m) + " " + nearestStop(beer.Stops, m.CM).Color.hex() + ";"
		}
		parts = append(parts, strings.TrimRight(text, ";:")+".")
	}
	return strings.Join(parts, " ")
}

func nearestStop(stops []WedgeStop, cm float64) WedgeStop {
	best := stops[0]
	for _, s := range stops {
		if abs(s.CM-cm) < abs(best.CM-cm) {
			best = s
		}
	}
	return best
}
