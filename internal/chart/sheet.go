// SPDX-License-Identifier: MIT

package chart

import (
	"strings"

	"gyle/quantity"
)

// Widths for which drawings are laid out. Letters are 12 to 14 units tall, so
// that a Phone drawing is readable on a screen 360 pixels wide and a Page
// drawing on anything from about 600 pixels, on paper, and on a slide.
const (
	Phone = 360
	Page  = 720

	narrowest = 320
	widest    = 1600
)

// Sheet says where a drawing will stand: which id it carries, for which width
// it is laid out, and how numbers are printed. The SVG scales to the width of
// its place in any case; Width decides how much is put side by side.
type Sheet struct {
	ID      string // unique in the page: the ids of title, description and patterns are made from it
	Width   float64
	Printer quantity.Printer
}

// layoutWidth is the width of the drawing in units; Page when none is given.
func (s Sheet) layoutWidth() float64 {
	if !finite(s.Width) || s.Width == 0 {
		return Page
	}
	return min(max(s.Width, narrowest), widest)
}

// Stylesheet are the rules a page needs for drawings: they fill their place,
// and of a [Responsive] pair one is shown. On paper the ground stays white.
const Stylesheet = `svg.chart { display: block; width: 100%; height: auto; }
svg.rule-mark { max-width: 16rem; }
.chart-narrow svg.chart { max-width: 30rem; }
.chart-wide { display: none; }
@media (min-width: 40rem), print {
  .chart-narrow { display: none; }
  .chart-wide { display: block; }
}
@media print {
  svg.chart .paper { fill: #fff; }
  svg.chart .halo { stroke: #fff; }
  svg.chart, .chart-wide { break-inside: avoid; }
}
`

// Responsive draws twice, for a phone and for a page, in one container. The
// stylesheet of the page shows the one that fits: hide .chart-wide on narrow
// screens and .chart-narrow on wide ones and on paper.
func Responsive(s Sheet, draw func(Sheet) string) string {
	narrow, wide := s, s
	narrow.ID, narrow.Width = s.ID+"-narrow", Phone
	wide.ID, wide.Width = s.ID+"-wide", Page
	var b strings.Builder
	b.WriteString(`<div class="chart-narrow">` + "\n" + draw(narrow) + "</div>\n")
	b.WriteString(`<div class="chart-wide">` + "\n" + draw(wide) + "</div>\n")
	return b.String()
}
