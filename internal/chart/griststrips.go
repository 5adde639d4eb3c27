// SPDX-License-Identifier: MIT

package chart

import (
	"strconv"
	"strings"

	"gyle/quantity"
)

// Grists is the grist of one or several versions.
type Grists struct {
	Versions []GristVersion
}

// GristVersion is the grist of one version.
type GristVersion struct {
	Label string // "version 3"
	Parts []GristPart
}

// GristPart is one malt or sugar. Mass, Extract and Color may be in any unit,
// the same for all parts: the strips show shares.
type GristPart struct {
	Name                 string
	Mass, Extract, Color float64
	Swatch               RGB
	Change               string // what changed against the parent, with the amount: "8 → 12 %"
}

// gristStrips is the drawing in the making.
type gristStrips struct {
	*drawing
	names    []string // in the order of their numbers
	swatches map[string]RGB
	left     float64
	right    float64
	versions []GristVersion
}

// The three strips of a version, and how thick and how far apart they are.
var stripNames = [3]string{"mass", "extract", "colour"}

const (
	stripHeight = 21.0
	stripGap    = 13.0
)

// GristStrips draws each grist as three strips, one below the other: shares of
// the mass, of the extract and of the colour. Hairlines lead each malt from
// strip to strip. Changed parts are outlined in red.
func GristStrips(s Sheet, data Grists) string {
	const title = "Grist by mass, extract and colour"
	g := &gristStrips{drawing: newDrawing(s, title), swatches: map[string]RGB{}}
	for _, v := range data.Versions {
		g.versions = append(g.versions, g.known(v))
	}
	if len(g.names) == 0 {
		return empty(s, title, "No grist has been written yet.")
	}
	g.left, g.right = 58, g.width-14
	y := 8.0
	for _, v := range g.versions {
		y = g.version(v, y)
	}
	g.height = g.key(g.keyItems(), 12, y, g.width-12, false) + 8
	g.desc = g.describe()
	return g.String()
}

// known keeps the parts that can be drawn and numbers their names.
func (g *gristStrips) known(v GristVersion) GristVersion {
	kept := GristVersion{Label: v.Label}
	for _, p := range v.Parts {
		if !finite(p.Mass, p.Extract, p.Color) || p.Mass < 0 || p.Extract < 0 || p.Color < 0 || p.Mass+p.Extract+p.Color == 0 {
			continue
		}
		kept.Parts = append(kept.Parts, p)
		if _, seen := g.swatches[p.Name]; !seen {
			g.names = append(g.names, p.Name)
			g.swatches[p.Name] = p.Swatch
		}
	}
	return kept
}

// number is the number of a malt in the key, from 1.
func (g *gristStrips) number(name string) int {
	for i, n := range g.names {
		if n == name {
			return i + 1
		}
	}
	return 0
}

// version draws one grist below y and returns where it ends.
func (g *gristStrips) version(v GristVersion, y float64) float64 {
	y += 16
	g.text(12, y, v.Label, letters{bold: true})
	y = g.changes(v, y)
	top := y + 32
	var edges [3][]float64
	for row := range stripNames {
		edges[row] = g.strip(v, row, top+float64(row)*(stripHeight+stripGap))
	}
	for row := range 2 {
		from := top + float64(row)*(stripHeight+stripGap) + stripHeight
		for i := range edges[row] {
			g.line(edges[row][i], from+1, edges[row+1][i], from+stripGap-1, look{stroke: 0.7, opacity: 0.55})
		}
	}
	g.numbers(v, edges[0], top)
	return top + 3*stripHeight + 2*stripGap + 20
}

// changes writes what changed, in red, below or beside the label.
func (g *gristStrips) changes(v GristVersion, y float64) float64 {
	x := 12 + textWidth(v.Label, letters{bold: true}) + 16
	style := letters{ink: Corrected, size: 13}
	for _, p := range v.Parts {
		if p.Change == "" {
			continue
		}
		text := fit(strconv.Itoa(g.number(p.Name))+" "+p.Name+" "+p.Change, style, g.width-36)
		width := textWidth(text, style)
		if x+16+width > g.width-12 {
			x, y = 12, y+19
		}
		g.mark(x+5, y-4.5, 3.6, Corrected)
		g.text(x+14, y, text, style)
		x += width + 30
	}
	return y
}

// amount is what a strip shows of a part.
func (p GristPart) amount(row int) float64 { return [3]float64{p.Mass, p.Extract, p.Color}[row] }

// strip draws one strip and returns the edges of its parts.
func (g *gristStrips) strip(v GristVersion, row int, y float64) []float64 {
	g.text(g.left-7, y+stripHeight/2+4, stripNames[row], letters{italic: true, size: smallSize, anchor: "end"})
	sum := 0.0
	for _, p := range v.Parts {
		sum += p.amount(row)
	}
	x := g.left
	edges := []float64{x}
	for _, p := range v.Parts {
		share := 0.0
		if sum > 0 {
			share = p.amount(row) / sum
		}
		width := share * (g.right - g.left)
		g.part(p, share, box{x, y, x + width, y + stripHeight})
		x = min(x+width, g.right)
		edges = append(edges, x)
	}
	g.outlines(v, edges, y)
	return edges
}

// part draws one part of a strip, with its share where there is room.
func (g *gristStrips) part(p GristPart, share float64, b box) {
	width := b.right - b.left
	if width <= 0 {
		return
	}
	g.rect(b.left, b.top, width, stripHeight, look{class: "swatch", fill: g.malt(p.Name), stroke: 0.7, color: printColor})
	text := g.sheet.Printer.Fraction(quantity.Fraction(share), 0)
	style := letters{figure: true, size: smallSize, anchor: "middle"}
	plate := textWidth(text, style) + 2
	if share < 0.995 && share >= 0.0995 && plate+8 < width {
		g.rect((b.left+b.right-plate)/2, b.top+3, plate, stripHeight-6, look{class: "paper", fill: "paper"})
		g.text((b.left+b.right)/2, b.top+stripHeight/2+4.3, text, style)
	}
}

// outlines draws the red outlines last, over their neighbours.
func (g *gristStrips) outlines(v GristVersion, edges []float64, y float64) {
	for i, p := range v.Parts {
		if p.Change != "" {
			width := max(edges[i+1]-edges[i], 2)
			x := min(edges[i], g.right-width)
			g.rect(x, y-1.5, width, stripHeight+3, look{ink: Corrected, stroke: 2.2})
		}
	}
}

// numbers writes the numbers of the malts above the first strip, moved apart
// where parts are thin, each led to its part by a hairline.
func (g *gristStrips) numbers(v GristVersion, edges []float64, top float64) {
	wishes, sizes := make([]float64, len(v.Parts)), make([]float64, len(v.Parts))
	for i := range v.Parts {
		wishes[i], sizes[i] = (edges[i]+edges[i+1])/2, 18
	}
	for i, x := range spread(wishes, sizes, g.left-6, g.right+8) {
		k := printed
		if v.Parts[i].Change != "" {
			k = Corrected
		}
		g.line(x, top-11, wishes[i], top-1, look{ink: k, stroke: 0.8})
		text := strconv.Itoa(g.number(v.Parts[i].Name))
		g.text(x, top-14, text, letters{figure: true, size: figureSize, bold: true, anchor: "middle", ink: k})
	}
}

// malt defines the pattern of a malt: its colour under lines of its own, so
// that neighbours part in black and white too.
func (g *gristStrips) malt(name string) string {
	n := g.number(name)
	id := g.id("malt" + strconv.Itoa(n))
	if strings.Contains(g.defs.String(), `"`+id+`"`) {
		return "url(#" + id + ")"
	}
	color := g.swatches[name]
	lines := [...]string{"", "M0 8L8 0M-1 1L1 -1M7 9L9 7", "M0 4H8", "M4 0V8", "M0 0L8 8M-1 7L1 9M7 -1L9 1", "M0 4H8M4 0V8"}[(n-1)%6]
	writeTag(&g.defs, "pattern", []string{"id", id, "width", "8", "height", "8", "patternUnits", "userSpaceOnUse"}, ">")
	writeTag(&g.defs, "rect", []string{"class", "swatch", "width", "8", "height", "8", "fill", color.hex()}, "/>")
	if lines != "" {
		stroke := printColor
		if color.dark() {
			stroke = paperColor
		}
		writeTag(&g.defs, "path", []string{"d", lines, "fill", "none", "stroke", stroke, "stroke-width", "0.9", "opacity", "0.55"}, "/>")
	}
	g.defs.WriteString("</pattern>\n")
	return "url(#" + id + ")"
}

// keyItems lists the malts with their numbers.
func (g *gristStrips) keyItems() []keyItem {
	var items []keyItem
	for i, name := range g.names {
		items = append(items, keyItem{label: strconv.Itoa(i+1) + " " + name, draw: func(x, y float64) {
			g.rect(x-9, y-6, 20, 12, look{class: "swatch", fill: g.malt(name), stroke: 0.7, color: printColor})
		}})
	}
	return items
}

func (g *gristStrips) describe() string {
	p := g.sheet.Printer
	var parts []string
	for _, v := range g.versions {
		var sums [3]float64
		for _, part := range v.Parts {
			for row := range sums {
				sums[row] += part.amount(row)
			}
		}
		var list []string
		for _, part := range v.Parts {
			text := part.Name
			for row, sum := range sums {
				if sum > 0 {
					text += " " + stripNames[row] + " " + p.Fraction(quantity.Fraction(part.amount(row)/sum), 1)
				}
			}
			if part.Change != "" {
				text += " (changed: " + part.Change + ")"
			}
			list = append(list, text)
		}
		parts = append(parts, v.Label+": "+strings.Join(list, "; ")+".")
	}
	return strings.Join(parts, " ")
}
