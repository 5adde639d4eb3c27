// SPDX-License-Identifier: MIT

package font

import (
	"strings"
	"unicode"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/language"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"
)

// Glyph is one drawn letter at its place in a run, in units of [Em], y up.
type Glyph struct {
	Face Face
	ID   uint32
	X, Y float64
}

// Run is a line of text as it is drawn.
type Run struct {
	Glyphs []Glyph
	Width  float64 // in units of Em
}

// Op says how a [Segment] goes on.
type Op int

// The ways an outline goes on.
const (
	MoveTo  Op = iota // one point
	LineTo            // one point
	QuadTo            // two points
	CubicTo           // three points
)

// Segment is a part of an outline, in units of [Em], y up.
type Segment struct {
	Op     Op
	Points [3][2]float64
}

// stand-ins, in the order in which they are asked for a letter that a face lacks.
var standIns = [faceCount][]Face{Book: {Book, Figures}, BookItalic: {BookItalic, Book, Figures}, Figures: {Figures, Book}, FiguresBold: {FiguresBold, Figures, Book}}

// Clean returns text as it can be drawn on one line: no line breaks, no
// control characters, no invisible marks of direction, joining or variation.
// Spaces that don't break a line stay; of others one is left between words.
func Clean(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case r == noBreak || r == '\u202F' || r == '\u2007':
			return noBreak
		case unicode.IsSpace(r) || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r), unicode.Is(unicode.Variation_Selector, r):
			return -1
		case r == 0xFFFE || r == 0xFFFF:
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }), " ")
}

// noBreak is the space at which a line isn't broken.
const noBreak = '\u00A0'

// Shape sets text in a face: kerning, ligatures, other faces and boxes for what
// the face lacks. Text is drawn from left to right, as it is stored.
func (f Face) Shape(text string) Run {
	var run Run
	runes := []rune(Clean(text))
	for from := 0; from < len(runes); {
		face, to := f.stretch(runes, from)
		run.add(face, runes, from, to)
		from = to
	}
	return run
}

// stretch returns the face for the letters from a place on, and where another
// is needed.
func (f Face) stretch(runes []rune, from int) (face Face, to int) {
	face = f.faceOf(runes[from])
	to = from + 1
	for to < len(runes) && (unicode.Is(unicode.Mn, runes[to]) || f.faceOf(runes[to]) == face) {
		to++
	}
	return face, to
}

// faceOf returns the face that has a letter, or f where none has it.
func (f Face) faceOf(r rune) Face {
	for _, other := range standIns[f] {
		if other.has(r) {
			return other
		}
	}
	return f
}

func (run *Run) add(face Face, runes []rune, from, to int) {
	l := faces()[face]
	l.Lock()
	defer l.Unlock()
	out := l.shaper.Shape(shaping.Input{
		Text: runes, RunStart: from, RunEnd: to, Direction: di.DirectionLTR, Face: l.face,
		Size: fixed.I(Em), Script: scriptOf(runes[from:to]), Language: language.NewLanguage("en"),
	})
	for _, g := range out.Glyphs {
		run.Glyphs = append(run.Glyphs, Glyph{face, uint32(g.GlyphID), run.Width + units(g.XOffset), units(g.YOffset)})
		run.Width += units(g.XAdvance)
	}
}

// units turns a fixed-point number into units of Em.
func units(x fixed.Int26_6) float64 { return float64(x) / 64 }

// scriptOf returns the script of the first letter.
func scriptOf(runes []rune) language.Script {
	for _, r := range runes {
		if unicode.IsLetter(r) {
			return language.LookupScript(r)
		}
	}
	return language.Latin
}

// Width returns how wide text is at a size.
func (f Face) Width(text string, size float64) float64 {
	l := faces()[f]
	l.Lock()
	wide, known := l.widths[text]
	l.Unlock()
	if !known {
		wide = f.Shape(text).Width
		l.Lock()
		if len(l.widths) >= mostWidths {
			clear(l.widths)
		}
		l.widths[text] = wide
		l.Unlock()
	}
	return wide * size / Em
}

// mostWidths is how many words a face remembers the width of.
const mostWidths = 5000

// Outline returns the outline of a glyph.
func (g Glyph) Outline() []Segment {
	l := faces()[g.Face]
	l.Lock()
	defer l.Unlock()
	id := font.GID(g.ID)
	if known, ok := l.outlines[id]; ok {
		return known
	}
	outline, _ := l.face.GlyphData(id).(font.GlyphOutline)
	segments := make([]Segment, 0, len(outline.Segments))
	for _, s := range outline.Segments {
		segments = append(segments, segmentOf(s))
	}
	l.outlines[id] = segments
	return segments
}

func segmentOf(s opentype.Segment) Segment {
	ops := map[opentype.SegmentOp]Op{
		opentype.SegmentOpMoveTo: MoveTo, opentype.SegmentOpLineTo: LineTo, opentype.SegmentOpQuadTo: QuadTo, opentype.SegmentOpCubeTo: CubicTo,
	}
	out := Segment{Op: ops[s.Op]}
	for i, p := range s.Args {
		out.Points[i] = [2]float64{float64(p.X), float64(p.Y)}
	}
	return out
}

// Printable replaces letters that the face lacks by boxes, for printers that
// know one face at a time.
func (f Face) Printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case f.has(r):
			return r
		case unicode.Is(unicode.Mn, r):
			return -1
		case f.has('□'):
			return '□'
		}
		return '?'
	}, Clean(text))
}
