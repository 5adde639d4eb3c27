// SPDX-License-Identifier: MIT

package chart

import (
	"math"
	"strconv"
	"strings"
)

// drawing collects the shapes of one SVG. Coordinates are units of the
// viewBox, y downwards.
type drawing struct {
	sheet         Sheet
	width, height float64
	title, desc   string
	class         string // of the svg, beside "chart"
	defs, body    strings.Builder
	slanted       int // inks of slanted clouds that are defined
}

// newDrawing begins a drawing; its height is set when the layout is known.
func newDrawing(s Sheet, title string) *drawing {
	return &drawing{sheet: s, width: s.layoutWidth(), title: title}
}

// id makes an id of this drawing.
func (d *drawing) id(part string) string {
	var b strings.Builder
	for _, r := range d.sheet.ID {
		if r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			b.WriteRune(r)
		} else {
			b.WriteRune('-')
		}
	}
	if b.Len() == 0 {
		b.WriteString("chart")
	}
	return b.String() + "-" + part
}

// String is the finished SVG.
func (d *drawing) String() string {
	var b strings.Builder
	size := num(d.width) + " " + num(d.height)
	writeTag(&b, "svg", []string{"xmlns", "http://www.w3.org/2000/svg", "class", joinClasses("chart", d.class), "viewBox", "0 0 " + size,
		"role", "img", "aria-labelledby", d.id("title") + " " + d.id("desc"),
		"color", printColor, "font-family", wordsFont, "font-size", num(wordSize)}, ">\n")
	b.WriteString(`<title id="` + d.id("title") + `">` + escape(d.title) + "</title>\n")
	b.WriteString(`<desc id="` + d.id("desc") + `">` + escape(d.desc) + "</desc>\n")
	if d.defs.Len() > 0 {
		b.WriteString("<defs>\n" + d.defs.String() + "</defs>\n")
	}
	writeTag(&b, "rect", []string{"class", "paper", "width", num(d.width), "height", num(d.height), "fill", paperColor}, "/>\n")
	b.WriteString(d.body.String())
	b.WriteString("</svg>\n")
	return b.String()
}

// writeTag writes an opening or empty tag with its attributes.
func writeTag(b *strings.Builder, name string, pairs []string, end string) {
	b.WriteByte('<')
	b.WriteString(name)
	for i := 0; i+1 < len(pairs); i += 2 {
		b.WriteByte(' ')
		b.WriteString(pairs[i])
		b.WriteString(`="`)
		b.WriteString(escape(pairs[i+1]))
		b.WriteByte('"')
	}
	b.WriteString(end)
}

// shape adds an element without content.
func (d *drawing) shape(name string, l look, pairs ...string) {
	writeTag(&d.body, name, append(pairs, l.attributes()...), "/>\n")
}

func (d *drawing) line(x1, y1, x2, y2 float64, l look) {
	d.shape("line", l, "x1", num(x1), "y1", num(y1), "x2", num(x2), "y2", num(y2))
}

func (d *drawing) rect(x, y, width, height float64, l look) {
	d.shape("rect", l, "x", num(x), "y", num(y), "width", num(max(width, 0)), "height", num(max(height, 0)))
}

func (d *drawing) circle(x, y, r float64, l look) {
	d.shape("circle", l, "cx", num(x), "cy", num(y), "r", num(r))
}

func (d *drawing) ellipse(x, y, rx, ry float64, l look) {
	d.shape("ellipse", l, "cx", num(x), "cy", num(y), "rx", num(rx), "ry", num(ry))
}

// point is a place on the drawing.
type point struct{ x, y float64 }

func (d *drawing) polygon(points []point, l look) {
	if len(points) > 2 {
		d.shape("polygon", l, "points", pointList(points))
	}
}

func (d *drawing) polyline(points []point, l look) {
	if len(points) > 1 {
		d.shape("polyline", l, "points", pointList(points))
	}
}

// path draws "M", "L", "C" and "Z" in absolute coordinates: numbers are
// formatted, letters kept.
func (d *drawing) path(l look, parts ...any) {
	words := make([]string, len(parts))
	for i, part := range parts {
		switch v := part.(type) {
		case float64:
			words[i] = num(v)
		case string:
			words[i] = v
		}
	}
	d.shape("path", l, "d", strings.Join(words, " "))
}

// pointList writes points as "x,y x,y". Clouds have thousands of them.
func pointList(points []point) string {
	text := make([]byte, 0, len(points)*len("1234.56,1234.56 "))
	for i, p := range points {
		if i > 0 {
			text = append(text, ' ')
		}
		text = append(appendNum(text, p.x), ',')
		text = appendNum(text, p.y)
	}
	return string(text)
}

// num writes a coordinate with at most two decimals. A number that isn't
// finite never gets here: drawings leave such data out.
func num(x float64) string { return string(appendNum(nil, x)) }

func appendNum(text []byte, x float64) []byte {
	hundredths := int64(math.RoundToEven(x * 100))
	if hundredths < 0 {
		text, hundredths = append(text, '-'), -hundredths
	}
	text = strconv.AppendInt(text, hundredths/100, 10)
	if rest := hundredths % 100; rest != 0 {
		text = append(text, '.', byte('0'+rest/10))
		if rest%10 != 0 {
			text = append(text, byte('0'+rest%10))
		}
	}
	return text
}

// escape makes text safe inside elements and attributes, and drops the
// control characters that XML forbids.
func escape(text string) string {
	if !strings.ContainsFunc(text, isAwkward) {
		return text
	}
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(text, "\uFFFD") {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&#34;")
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case r < ' ' || r == 0xFFFE || r == 0xFFFF:
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// isAwkward reports whether a letter may need care in XML: all but plain ASCII.
func isAwkward(r rune) bool {
	return r < ' ' || r > '~' || r == '&' || r == '<' || r == '>' || r == '"'
}

// finite reports whether all numbers are finite, and of a size that brewing
// could ever need, so that sums and differences stay finite too.
func finite(numbers ...float64) bool {
	for _, x := range numbers {
		if math.IsNaN(x) || math.Abs(x) > 1e12 {
			return false
		}
	}
	return true
}
