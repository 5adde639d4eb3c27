// SPDX-License-Identifier: MIT

package card

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"gyle/publish/font"
)

// SVG draws the scene as SVG. Letters are outlines, so that it looks the same
// everywhere; title and desc hold the real text. There is no style element, no
// script and nothing to load.
func (s *Scene) SVG() []byte {
	w := &svgWriter{known: map[font.Glyph]bool{}}
	sum := sha256.Sum256([]byte(s.Title + "\x00" + s.Desc))
	w.prefix = "g" + hex.EncodeToString(sum[:4]) + "-"
	for _, item := range s.Items {
		w.item(item)
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %s %s" role="img" aria-labelledby="%st %sd">`+"\n",
		num(s.Width), num(s.Height), num(s.Width), num(s.Height), w.prefix, w.prefix)
	fmt.Fprintf(&out, `<title id="%st">%s</title>`+"\n"+`<desc id="%sd">%s</desc>`+"\n", w.prefix, escaped(s.Title), w.prefix, escaped(s.Desc))
	if w.defs.Len() > 0 {
		fmt.Fprintf(&out, "<defs>\n%s</defs>\n", w.defs.String())
	}
	fmt.Fprintf(&out, `<rect width="%s" height="%s" fill="%s"/>`+"\n", num(s.Width), num(s.Height), s.Paper)
	out.Write(w.body.Bytes())
	out.WriteString("</svg>\n")
	return out.Bytes()
}

type svgWriter struct {
	prefix     string
	known      map[font.Glyph]bool // glyphs already defined, without their places
	defs, body bytes.Buffer
}

func (w *svgWriter) item(item Item) {
	switch it := item.(type) {
	case Words:
		w.words(it)
	case Rect:
		if it.Stroke > 0 {
			h := it.Stroke / 2
			fmt.Fprintf(&w.body, `<rect x="%s" y="%s" width="%s" height="%s" fill="none" stroke="%s" stroke-width="%s"/>`+"\n",
				num(it.X+h), num(it.Y+h), num(max(it.W-it.Stroke, 0)), num(max(it.H-it.Stroke, 0)), it.Color, num(it.Stroke))
			return
		}
		fmt.Fprintf(&w.body, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s"/>`+"\n", num(it.X), num(it.Y), num(it.W), num(it.H), it.Color)
	case Stroke:
		w.line(it)
	case Dot:
		if it.Open > 0 {
			fmt.Fprintf(&w.body, `<circle cx="%s" cy="%s" r="%s" fill="none" stroke="%s" stroke-width="%s"/>`+"\n", num(it.X), num(it.Y), num(it.R-it.Open/2), it.Color, num(it.Open))
			return
		}
		fmt.Fprintf(&w.body, `<circle cx="%s" cy="%s" r="%s" fill="%s"/>`+"\n", num(it.X), num(it.Y), num(it.R), it.Color)
	case Cross:
		for _, l := range it.strokes() {
			w.line(l)
		}
	}
}

func (w *svgWriter) line(l Stroke) {
	var points []string
	for _, p := range l.Points {
		points = append(points, num(p[0])+","+num(p[1]))
	}
	fmt.Fprintf(&w.body, `<polyline points="%s" fill="none" stroke="%s" stroke-width="%s" stroke-linejoin="round" stroke-linecap="round"/>`+"\n", strings.Join(points, " "), l.Color, num(l.Width))
}

// words draws a run of letters. Each letter is defined once a card, on its own
// square, and used at its places.
func (w *svgWriter) words(it Words) {
	run := it.Face.Shape(it.Text)
	if len(run.Glyphs) == 0 {
		return
	}
	k := strconv.FormatFloat(it.Size/font.Em, 'f', 5, 64)
	fmt.Fprintf(&w.body, `<g transform="translate(%s %s) scale(%s -%s)" fill="%s">`, num(it.X), num(it.Y), k, k, it.Color)
	for _, g := range run.Glyphs {
		id, drawn := w.define(g)
		if !drawn {
			continue
		}
		fmt.Fprintf(&w.body, `<use href="#%s" x="%s"`, id, num(g.X))
		if g.Y != 0 {
			fmt.Fprintf(&w.body, ` y="%s"`, num(g.Y))
		}
		w.body.WriteString("/>")
	}
	w.body.WriteString("</g>\n")
}

// define writes the outline of a glyph once. A space has none.
func (w *svgWriter) define(g font.Glyph) (id string, drawn bool) {
	g.X, g.Y = 0, 0
	id = fmt.Sprintf("%s%d.%d", w.prefix, g.Face, g.ID)
	outline := g.Outline()
	if len(outline) == 0 || w.known[g] {
		return id, len(outline) > 0
	}
	w.known[g] = true
	fmt.Fprintf(&w.defs, `<path id="%s" d="%s"/>`+"\n", id, pathOf(outline))
	return id, true
}

func pathOf(outline []font.Segment) string {
	var d strings.Builder
	open := false
	for _, s := range outline {
		n := 1
		switch s.Op {
		case font.MoveTo:
			if open {
				d.WriteByte('Z')
			}
			open = true
			d.WriteByte('M')
		case font.LineTo:
			d.WriteByte('L')
		case font.QuadTo:
			d.WriteByte('Q')
			n = 2
		case font.CubicTo:
			d.WriteByte('C')
			n = 3
		}
		for i, p := range s.Points[:n] {
			if i > 0 {
				d.WriteByte(' ')
			}
			d.WriteString(num(p[0]) + " " + num(p[1]))
		}
	}
	if open {
		d.WriteByte('Z')
	}
	return d.String()
}

// num writes a number with two decimals at most.
func num(x float64) string {
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(x, 'f', 2, 64), "0"), ".")
	if text == "-0" || text == "" {
		return "0"
	}
	return text
}

// escaped writes text as it may stand in XML.
func escaped(text string) string {
	var out bytes.Buffer
	if err := xml.EscapeText(&out, []byte(text)); err != nil {
		panic(err) // a buffer takes everything
	}
	return strings.ReplaceAll(out.String(), "&#xA;", "\n")
}
