// SPDX-License-Identifier: MIT

package chart

import (
	"strings"

	"gyle/quantity"
)

// Water is the ion balance of a water as two columns.
type Water struct {
	Cations, Anions []IonBlock
	Tolerance       quantity.Fraction // of the difference over the sum; 5 % (common practice) when 0
	Hint            string            // the mislabel that would close the gap, if one would
}

// IonBlock is the charge an ion brings. Salt names the salt that was added;
// it is empty for what the supply holds.
type IonBlock struct {
	Ion    string
	Charge quantity.Charge
	Salt   string
}

// gapTolerance is how far the two sums of a water analysis may part, as a share
// of both together, before the analysis is doubted (common practice).
const gapTolerance = 0.05

// waterColumns is the drawing in the making.
type waterColumns struct {
	*drawing
	data             Water
	y                scale
	cations, anions  float64
	left, mid, right float64
}

// WaterColumns draws cations and anions as two columns in mEq/L. Water carries
// no charge, so the tops must meet; a gap beyond the tolerance is red.
func WaterColumns(s Sheet, data Water) string {
	const title = "Ion balance"
	data.Cations, data.Anions = drawable(data.Cations), drawable(data.Anions)
	w := &waterColumns{drawing: newDrawing(s, title), data: data}
	w.cations, w.anions = total(data.Cations), total(data.Anions)
	if w.cations+w.anions <= 0 {
		return empty(s, title, "No ions are known of this water yet.")
	}
	if data.Tolerance <= 0 || !finite(float64(data.Tolerance)) {
		w.data.Tolerance = gapTolerance
	}
	w.layout()
	w.axis()
	w.column(data.Cations, w.left, w.mid, -1)
	w.column(data.Anions, w.mid, w.right, 1)
	w.gap()
	w.words()
	w.desc = w.describe()
	return w.String()
}

// drawable leaves out blocks without a charge.
func drawable(blocks []IonBlock) []IonBlock {
	var kept []IonBlock
	for _, b := range blocks {
		if finite(float64(b.Charge)) && b.Charge > 0 {
			kept = append(kept, b)
		}
	}
	return kept
}

func total(blocks []IonBlock) float64 {
	sum := 0.0
	for _, b := range blocks {
		sum += float64(b.Charge)
	}
	return sum
}

const (
	columnTop  = 62.0
	columnSize = 300.0
)

func (w *waterColumns) layout() {
	half := min(w.width*0.19, 110)
	w.mid = w.width / 2
	w.left, w.right = w.mid-half, w.mid+half
	w.y = scale{0, max(w.cations, w.anions), columnTop + columnSize, columnTop}
	w.height = columnTop + columnSize + 34
	if w.data.Hint != "" {
		w.height += 4 + 18*float64(len(w.hintLines()))
	}
}

func (w *waterColumns) hintLines() []string {
	return wrap(w.data.Hint, letters{italic: true}, w.width-32)
}

// axis rules a line for every round number of mEq/L.
func (w *waterColumns) axis() {
	values, decimals := ticks(0, w.y.high, 5)
	for _, v := range values {
		w.line(30, w.y.at(v), w.width-12, w.y.at(v), look{ink: ruled, stroke: 0.8})
		w.text(24, w.y.at(v)+4, w.sheet.Printer.Number(v, decimals), letters{figure: true, size: smallSize, anchor: "end"})
	}
}

// column stacks blocks from the bottom; names stand outside on the given side.
func (w *waterColumns) column(blocks []IonBlock, left, right, side float64) {
	wishes, sizes := make([]float64, len(blocks)), make([]float64, len(blocks))
	base := 0.0
	for i, b := range blocks {
		low, high := w.y.at(base), w.y.at(base+float64(b.Charge))
		base += float64(b.Charge)
		w.block(b, left, right, low, high)
		wishes[i], sizes[i] = (low+high)/2, 17
	}
	places := spread(wishes, sizes, columnTop-10, columnTop+columnSize+6)
	outer := left
	if side > 0 {
		outer = right
	}
	for i, b := range blocks {
		w.name(b, outer, wishes[i], places[i], side)
	}
}

// block draws one block. What a salt brought is hatched and bordered firmly.
func (w *waterColumns) block(b IonBlock, left, right, low, high float64) {
	w.rect(left, high, right-left, low-high, look{fill: "paper", class: "paper"})
	if b.Salt == "" {
		w.rect(left, high, right-left, low-high, look{ink: Measured, fill: "ink", opacity: 0.1})
		w.rect(left, high, right-left, low-high, look{ink: Measured, stroke: 1})
		return
	}
	w.rect(left, high, right-left, low-high, look{ink: Planned, fill: w.hatch(Planned), stroke: 1.2, dash: dashed})
	if low-high >= 15 {
		style := letters{size: smallSize, anchor: "middle", halo: true, ink: Planned}
		w.text((left+right)/2, (low+high)/2+4, fit(b.Salt, style, right-left-6), style)
	}
}

// hatch makes a pattern of slanted lines in an ink, once for each drawing.
func (d *drawing) hatch(k Ink) string {
	id := d.id("hatch" + k.class())
	if !strings.Contains(d.defs.String(), `"`+id+`"`) {
		writeTag(&d.defs, "pattern", []string{"id", id, "width", "6", "height", "6", "patternUnits", "userSpaceOnUse"}, ">")
		pairs := append([]string{"d", "M0 6L6 0M-1 1L1 -1M5 7L7 5"}, look{ink: k, stroke: 0.9, opacity: 0.6}.attributes()...)
		writeTag(&d.defs, "path", pairs, "/></pattern>\n")
	}
	return "url(#" + id + ")"
}

// name writes an ion and its charge beside the column, led by a hairline.
func (w *waterColumns) name(b IonBlock, outer, middle, place, side float64) {
	anchor := ""
	if side < 0 {
		anchor = "end"
	}
	k := Measured
	if b.Salt != "" {
		k = Planned
	}
	w.polyline([]point{{outer, middle}, {outer + side*8, place}, {outer + side*14, place}}, look{ink: k, stroke: 0.7})
	number := w.sheet.Printer.Number(float64(b.Charge), 2)
	text := b.Ion + "  " + number
	if side < 0 {
		text = number + "  " + b.Ion
	}
	style := letters{size: figureSize, figure: true, anchor: anchor, ink: k, halo: true}
	room := w.left - 18 - edge
	w.text(outer+side*18, place+4.5, fit(text, style, room), style)
}

// share is the difference of the sums over both together.
func (w *waterColumns) share() quantity.Fraction {
	return quantity.Fraction((w.cations - w.anions) / (w.cations + w.anions))
}

// gap marks what is missing above the lower column.
func (w *waterColumns) gap() {
	share := w.share()
	top, low := w.y.at(max(w.cations, w.anions)), w.y.at(min(w.cations, w.anions))
	left, right := w.mid, w.right
	if w.anions > w.cations {
		left, right = w.left, w.mid
	}
	w.line(w.left-8, top, w.right+8, top, look{stroke: 1.4})
	if abs(float64(share)) <= float64(w.data.Tolerance) {
		w.text(w.mid, columnTop-32, "the tops meet", letters{anchor: "middle", italic: true})
		w.text(w.mid, columnTop-14, w.signed(share), letters{figure: true, size: figureSize, anchor: "middle", bold: true})
		return
	}
	w.rect(left, top, right-left, low-top, look{ink: Corrected, stroke: 1.8})
	w.line(left, top, right, low, look{ink: Corrected, stroke: 1})
	w.line(left, low, right, top, look{ink: Corrected, stroke: 1})
	width := textWidth(w.signed(share), letters{figure: true, bold: true, size: 15})
	w.rect((left+right-width)/2, (top+low)/2-9, width, 18, look{class: "paper", fill: "paper"})
	style := letters{figure: true, bold: true, size: 15, anchor: "middle", ink: Corrected, halo: true}
	w.text((left+right)/2, (top+low)/2+5, w.signed(share), style)
	w.text(w.mid, columnTop-14, "the tops don't meet", letters{anchor: "middle", italic: true, ink: Corrected})
}

// signed prints the gap with its sign.
func (w *waterColumns) signed(f quantity.Fraction) string {
	text := w.sheet.Printer.Fraction(f, 1)
	if f > 0 {
		text = "+" + text
	}
	return text
}

// words names the columns and gives the hint.
func (w *waterColumns) words() {
	p := w.sheet.Printer
	base := columnTop + columnSize
	w.line(w.left-8, base, w.right+8, base, look{stroke: 1.4})
	w.text(w.mid-8, base+19, "cations "+p.Number(w.cations, 2), letters{size: smallSize, anchor: "end"})
	w.text(w.mid+8, base+19, "anions "+p.Number(w.anions, 2), letters{size: smallSize})
	w.text(8, columnTop-16, "mEq/L", letters{size: smallSize, italic: true})
	if w.data.Hint == "" {
		return
	}
	for i, line := range w.hintLines() {
		w.text(16, base+44+18*float64(i), line, letters{italic: true, ink: Corrected})
	}
}

func (w *waterColumns) describe() string {
	p := w.sheet.Printer
	list := func(blocks []IonBlock) string {
		var names []string
		for _, b := range blocks {
			name := b.Ion + " " + p.Number(float64(b.Charge), 2)
			if b.Salt != "" {
				name += " from " + b.Salt
			}
			names = append(names, name)
		}
		return strings.Join(names, ", ")
	}
	return strings.TrimSpace("Cations " + p.Charge(quantity.Charge(w.cations)) + ": " + list(w.data.Cations) +
		". Anions " + p.Charge(quantity.Charge(w.anions)) + ": " + list(w.data.Anions) +
		". Difference over sum " + w.signed(w.share()) + ". " + w.data.Hint)
}
