// SPDX-License-Identifier: MIT

package card

import (
	"math"
	"strconv"

	"gyle/publish/font"
	"gyle/quantity"
)

// mark is the sign of an entry in the margin.
type mark int

const (
	noMark     mark = iota
	openMark        // planned, and inside
	edgeMark        // planned, and near the end of the range
	crossMark       // outside
	careMark        // mind it
	filledMark      // measured
)

// entry is a line of a book: what, how much, and beneath it why.
type entry struct {
	mark   mark
	number int // in the margin instead of a mark
	swatch *Color
	label  string
	value  string
	notes  []note
	span   *span
	figure quantity.Figure // of a rule on a figure
	weighs bool            // its notes speak of weights
}

// note is a sentence beneath an entry.
type note struct {
	text string
	ink  ink
}

// ink is what a note is written in.
type ink int

const (
	printed   ink = iota
	corrected     // it says what is out of rule
	measured      // it says what was found
)

// Shares of the width of a line, and of the height of letters. Design choices.
const (
	widestValue = 0.52 // of the line: a value that is wider gets a line of its own
	indentation = 1.0  // em, of notes
	gap         = 0.8  // em, between label and value
)

// entries lays entries out.
func (s setter) entries(list []entry) (blocks []block) {
	for _, e := range list {
		blocks = append(blocks, s.entry(e))
	}
	return blocks
}

// entry lays an entry out.
func (s setter) entry(e entry) block {
	b := block{from: e.line()}
	em := s.size.Text
	width := s.size.inner()
	label, value := tight(e.label), tight(e.value)
	wide := font.FiguresBold.Width(value, em)
	beside := value != "" && wide <= widestValue*width
	room := width
	if beside {
		room -= wide + gap*em
	}
	if e.span != nil && s.spansBeside() {
		room = min(room, width*labelShare)
	}
	labels := wrap(font.Book, em, label, room)
	if len(labels) == 0 {
		labels = []phrase{{}}
	}
	for i, line := range labels {
		r := row{lines: 1, label: line, draw: s.write(font.Book, s.theme.Print, 0, line.text)}
		if i == 0 {
			r = s.first(r, e, value, beside, wide)
		}
		b.rows = append(b.rows, r)
	}
	if value != "" && !beside {
		for _, line := range wrap(font.FiguresBold, em, value, width-indentation*em) {
			b.rows = append(b.rows, row{lines: 1, value: line, draw: s.write(font.FiguresBold, s.theme.Print, indentation*em, line.text)})
		}
	}
	if e.span != nil && !s.spansBeside() {
		b.rows = append(b.rows, row{lines: 1, draw: func(scene *Scene, x, y float64) {
			s.drawRange(scene, e, x+indentation*em, x+width, y)
		}})
		if len(e.notes) == 0 {
			b.rows[len(b.rows)-1].note = phrase{text: e.span.said}
		}
	}
	for _, n := range e.notes {
		b.rows = append(b.rows, s.note(n)...)
	}
	return b
}

// Shares of a line that holds a label, a range with its mark, where the mark
// stands, and the range in figures. Design choices.
const (
	labelShare  = 0.38
	widestEnds  = 0.21 // of the range in figures
	leastBeside = 25   // em: on a narrower line the range has a line of its own
)

// spansBeside reports whether ranges are drawn beside their labels.
func (s setter) spansBeside() bool { return s.size.inner() >= leastBeside*s.size.Text }

// drawRange draws a range between two places of a line and writes at its right
// where the mark is, unless a note says that.
func (s setter) drawRange(scene *Scene, e entry, left, right, y float64) {
	em := s.size.Text
	if len(e.notes) == 0 && e.span.known {
		text := tight(e.span.text)
		color := s.theme.Planned
		if e.span.mark == crossMark {
			color = s.theme.Corrected
		}
		wide := max(font.Figures.Width(text, em), widestMark*em)
		scene.add(Words{right - font.Figures.Width(text, em), y + baseline*s.size.Pitch, em, font.Figures, color, text})
		right -= wide + gap*em
	}
	e.span.draw(s, scene, left, right, y+0.55*s.size.Pitch)
}

// widestMark is the room kept for where a mark is, in em: "1.050", "2.2 vol".
// Ranges beneath each other begin and end at the same places.
const widestMark = 3.4

// first completes the first line of an entry: its mark, its range and its value.
func (s setter) first(r row, e entry, value string, beside bool, wide float64) row {
	label := r.draw
	if beside {
		r.value = phrase{text: value}
	}
	if e.span != nil && len(e.notes) == 0 && s.spansBeside() {
		r.note = phrase{text: e.span.said} // the mark on the range says it to the eye
	}
	r.draw = func(scene *Scene, x, y float64) {
		label(scene, x, y)
		s.margin(scene, e, x, y)
		right := x + s.size.inner()
		if beside {
			scene.add(Words{right - wide, y + baseline*s.size.Pitch, s.size.Text, font.FiguresBold, s.theme.Print, value})
			right -= wide + gap*s.size.Text
		}
		if e.span != nil && s.spansBeside() {
			width := s.size.inner()
			right = min(right, x+width*(1-widestEnds)-gap*s.size.Text)
			s.drawRange(scene, e, x+width*(labelShare+0.02), right, y)
		}
	}
	return r
}

func (s setter) note(n note) (rows []row) {
	em := s.size.Text
	color := s.theme.Print
	indent := indentation * em
	switch n.ink {
	case corrected:
		color = s.theme.Corrected
	case measured:
		color = s.theme.Measured
		indent += 0.9 * em // behind the mark
	}
	for i, line := range wrap(font.BookItalic, em, tight(n.text), s.size.inner()-indent) {
		write := s.write(font.BookItalic, color, indent, line.text)
		r := row{lines: 1, note: line, draw: write}
		if n.ink == measured && i == 0 {
			r.draw = func(scene *Scene, x, y float64) {
				write(scene, x, y)
				s.sign(scene, filledMark, x+indent-0.5*em, y+0.55*s.size.Pitch)
			}
		}
		rows = append(rows, r)
	}
	return rows
}

// margin draws what stands left of an entry.
func (s setter) margin(scene *Scene, e entry, x, y float64) {
	em := s.size.Text
	middle := y + 0.55*s.size.Pitch
	if e.swatch != nil {
		side := 0.62 * em
		box := Rect{x - em*0.95, middle - side/2, side, side, *e.swatch, 0}
		scene.add(box)
		box.Color, box.Stroke = s.theme.Planned, em/24
		scene.add(box)
		return
	}
	if e.number > 0 {
		text := strconv.Itoa(e.number)
		scene.add(Words{x - em*0.35 - font.Figures.Width(text, em), y + baseline*s.size.Pitch, em, font.Figures, s.theme.Planned, text})
		return
	}
	s.sign(scene, e.mark, x-em*0.62, middle)
}

// sign draws a mark with its middle at a point.
func (s setter) sign(scene *Scene, m mark, x, y float64) {
	em := s.size.Text
	r, thick := em*0.22, em/13
	switch m {
	case openMark:
		scene.add(Dot{x, y, r, s.theme.Planned, thick})
	case edgeMark:
		scene.add(Dot{x, y, r, s.theme.Planned, thick}, Dot{x, y, r * 0.4, s.theme.Planned, 0})
	case filledMark:
		scene.add(Dot{x, y, r, s.theme.Measured, 0})
	case crossMark:
		scene.add(Cross{x, y, r * 0.9, thick * 1.2, s.theme.Corrected})
	case careMark:
		scene.add(Words{x - font.FiguresBold.Width("!", em)/2, y + (baseline-0.55)*s.size.Pitch, em, font.FiguresBold, s.theme.Corrected, "!"})
	}
}

// span is a range as a short ruled line with the mark of a beer on it.
type span struct {
	low, high float64 // ±Inf where it is open
	value     float64
	known     bool
	mark      mark
	text      string // where the mark is: "29 IBU"
	said      string // the same with the verdict: "here 29 IBU, inside"
}

// beyond is how far a range's line goes on behind its ends, as a share of it.
const beyond = 0.25

// draw draws the range between two places of a line.
func (p *span) draw(s setter, scene *Scene, left, right, y float64) {
	em := s.size.Text
	if right-left < 2*em {
		return // no room: the numbers say it all
	}
	low, high := p.ends()
	at := func(v float64) float64 {
		v = min(max(v, low), high)
		return left + (v-low)/(high-low)*(right-left)
	}
	from, to := left, right
	scene.add(Stroke{[][2]float64{{left, y}, {right, y}}, em / 40, s.theme.Planned})
	if !math.IsInf(p.low, -1) {
		from = at(p.low)
		scene.add(Stroke{[][2]float64{{from, y - em*0.24}, {from, y + em*0.24}}, em / 20, s.theme.Print})
	}
	if !math.IsInf(p.high, 1) {
		to = at(p.high)
		scene.add(Stroke{[][2]float64{{to, y - em*0.24}, {to, y + em*0.24}}, em / 20, s.theme.Print})
	}
	scene.add(Stroke{[][2]float64{{from, y}, {to, y}}, em / 10, s.theme.Print})
	if p.known {
		x := at(p.value)
		if p.mark != crossMark { // the ring is open: the paper shows in it
			scene.add(Dot{x, y, em * 0.24, s.theme.Paper, 0})
		}
		s.sign(scene, p.mark, x, y)
	}
}

// ends returns what the line of the range spans.
func (p *span) ends() (low, high float64) {
	low, high = p.low, p.high
	switch {
	case math.IsInf(low, -1) && math.IsInf(high, 1):
		low, high = p.value-1, p.value+1
	case math.IsInf(low, -1):
		low = min(0, high-math.Abs(high))
	case math.IsInf(high, 1):
		high = low + max(math.Abs(low), math.Abs(p.value-low))
	}
	width := high - low
	if !(width > 0) {
		width = max(math.Abs(low), 1)
	}
	return low - beyond*width, high + beyond*width
}

// line is the entry without its layout.
func (e entry) line() Line {
	l := Line{Kind: Entry, Label: font.Clean(e.label), Value: font.Clean(e.value), Out: e.mark == crossMark || (e.span != nil && e.span.mark == crossMark), Care: e.mark == careMark}
	for _, n := range e.notes {
		if text := font.Clean(n.text); text != "" {
			l.Notes = append(l.Notes, text)
		}
	}
	if len(l.Notes) == 0 && e.span != nil {
		l.Notes = []string{capital(font.Clean(e.span.said))}
	}
	return l
}
