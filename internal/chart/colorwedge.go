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
	w.axis = 12 + w.half
	w.height = w.bottom() + 30 + 18*float64(w.markRows()) + 4
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
	style := letters{ink: k, halo: true}
	label = fit(label, style, w.width*0.42)
	x := w.labelPlace(textWidth(label, style) + 16)
	w.mark(x+5, y-4.5, 4.5, k)
	w.text(x+16, y, label, style)
}

// labelPlace is the first place from the left where a label of this width
// stands between the ticks.
func (w *colorWedge) labelPlace(width float64) float64 {
	x := w.x.from
	for _, m := range w.shownMarks() {
		tick := w.x.at(m.CM)
		if tick > x+width+6 {
			break
		}
		if tick < w.width*0.25 {
			x = tick + 8
		}
	}
	return x
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
		if finite(m.CM) && m.CM >= w.x.low-0.01 && m.CM <= w.x.high+0.01 {
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

// markPlace is where the label of a mark begins: to the right of its tick, so
// that no tick crosses a label, unless the sheet ends there.
func (w *colorWedge) markPlace(m PathMark) (left, right float64) {
	width := textWidth(w.markLabel(m), letters{size: smallSize})
	left = w.inside(w.x.at(m.CM)-3, width, "")
	return left, left + width + 10
}

// markRows is the number of rows that the labels take.
func (w *colorWedge) markRows() int {
	rows := 1
	for _, row := range w.rows() {
		rows = max(rows, row+1)
	}
	return rows
}

// rows gives each shown mark the first row in which its label has room. It
// begins at the right: the ticks of marks further left pass beside the labels.
func (w *colorWedge) rows() []int {
	shown := w.shownMarks()
	rows := make([]int, len(shown))
	var starts []float64
	for i := len(shown) - 1; i >= 0; i-- {
		left, right := w.markPlace(shown[i])
		row := 0
		for row < len(starts) && starts[row] < right {
			row++
		}
		if row == len(starts) {
			starts = append(starts, 0)
		}
		starts[row] = left
		rows[i] = row
	}
	return rows
}

// marks draws a tick from the wedge down to each named path.
func (w *colorWedge) marks() {
	rows := w.rows()
	for i, m := range w.shownMarks() {
		x := w.x.at(m.CM)
		y := w.bottom() + 26 + 18*float64(rows[i])
		w.line(x, w.axis+w.thicknessBelow(m.CM), x, y-13, look{stroke: 0.9})
		w.line(x, w.axis-4, x, w.axis+4, look{stroke: 4, color: paperColor})
		w.line(x, w.axis-4, x, w.axis+4, look{stroke: 1.4})
		left, _ := w.markPlace(m)
		w.text(left, y, w.markLabel(m), letters{size: smallSize, halo: true})
	}
}

// bottom is the lower end of the wedges.
func (w *colorWedge) bottom() float64 {
	if len(w.data.Measured.Stops) >= 2 {
		return w.axis + w.half
	}
	return w.axis
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
