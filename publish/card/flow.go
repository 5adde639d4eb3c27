// SPDX-License-Identifier: MIT

package card

import (
	"strings"

	"gyle/publish/font"
)

// A section is what belongs under one title. It fills one card or more.
type section struct {
	name, title string
	blocks      []block
	foot        []string // said on each of its cards: what the numbers hold for
}

// A block is a part of a section. It is broken between rows only where it
// doesn't fit on a card of its own.
type block struct {
	rows  []row
	leads bool // a heading: it stays with the block behind it
	from  Line // what it says, before it was laid out
}

// A row is a ruled line, or several that can't be parted, with what stands on
// it. Its texts are in the order of reading: label, value, note.
type row struct {
	lines              int
	label, value, note phrase
	draw               func(s *Scene, x, y float64) // y is the top of its first line
}

// setter lays out for a size and a theme.
type setter struct {
	size  Size
	theme Theme
}

func (b block) lines() int { return linesOf(b.rows) }

func linesOf(rows []row) (n int) {
	for _, r := range rows {
		n += r.lines
	}
	return n
}

// textOf puts the texts of rows in words: "label: value — note".
func textOf(rows []row) string {
	var labels, values, notes []phrase
	for _, r := range rows {
		for _, part := range []struct {
			list *[]phrase
			text phrase
		}{{&labels, r.label}, {&values, r.value}, {&notes, r.note}} {
			if part.text.text != "" {
				*part.list = append(*part.list, part.text)
			}
		}
	}
	text := joined(labels)
	for _, part := range []struct{ mark, text string }{{": ", joined(values)}, {" — ", joined(notes)}} {
		switch {
		case part.text == "":
		case text == "":
			text = part.text
		default:
			text += part.mark + part.text
		}
	}
	return strings.TrimSpace(strings.ReplaceAll(text, "\u00A0", " "))
}

// page is what stands on one card: parts of blocks.
type page struct{ parts []block }

func (p *page) lines() (n int) {
	for _, b := range p.parts {
		n += b.lines()
	}
	return n
}

// pages shares blocks out over pages of so many lines: as few as needed, what
// stands under a heading together where that costs no page, and about evenly
// full.
func pages(blocks []block, room int) []page {
	best := fill(blocks, room, 1)
	if whole, ok := together(blocks, room); ok && len(whole) <= len(best) {
		return whole
	}
	for limit := room - 1; limit > room/3; limit-- {
		try := fill(blocks, limit, 1)
		if len(try) > len(best) {
			break
		}
		best = try
	}
	return best
}

// together fills pages without parting what stands under a heading; not ok
// where a part is longer than a page or there are no parts.
func together(blocks []block, room int) (list []page, ok bool) {
	ok = headings(blocks) > 1
	for i, b := range blocks {
		ok = ok && (!b.leads || b.lines()+following(blocks[i+1:], len(blocks)) <= room)
	}
	if !ok {
		return nil, false
	}
	return fill(blocks, room, len(blocks)), true
}

func headings(blocks []block) (n int) {
	for _, b := range blocks {
		if b.leads {
			n++
		}
	}
	return n
}

// fill puts blocks on pages of so many lines, one after the other. A heading
// stays with so many of the blocks behind it, up to the next heading, where
// they fit on one page.
func fill(blocks []block, room, follow int) []page {
	all := []page{{}}
	for i, b := range blocks {
		last := &all[len(all)-1]
		need := b.lines()
		if b.leads && i+1 < len(blocks) {
			need += min(following(blocks[i+1:], follow), max(room-b.lines(), 1))
		}
		left := room - last.lines()
		if need > left && len(last.parts) > 0 && (need <= room || left < fewestLines) {
			all = append(all, page{})
			last, left = &all[len(all)-1], room
		}
		for b.lines() > left {
			var head block
			head, b = b.cut(left)
			if len(head.rows) > 0 {
				last.parts = append(last.parts, head)
			}
			all = append(all, page{})
			last, left = &all[len(all)-1], room
			if len(head.rows) == 0 && b.rows[0].lines > room {
				break // one row is higher than a card: sizes are checked against it
			}
		}
		last.parts = append(last.parts, b)
	}
	return all
}

// following counts the lines of so many blocks up to the next heading, but one
// block at least that is no heading.
func following(blocks []block, most int) (lines int) {
	begun := false
	for i, b := range blocks {
		if begun && (i >= most || b.leads) {
			break
		}
		begun = begun || !b.leads
		lines += b.lines()
	}
	return lines
}

// fewestLines is how many lines of a long block may begin at the foot of a card.
const fewestLines = 3

// cut parts a block at so many lines.
func (b block) cut(lines int) (head, rest block) {
	n := 0
	for i, r := range b.rows {
		if n += r.lines; n > lines {
			return block{rows: b.rows[:i], leads: b.leads}, block{rows: b.rows[i:], leads: b.leads}
		}
	}
	return b, block{}
}

// baseline is where letters stand on a ruled line, seen from its top.
const baseline = 0.77

// write returns a function that writes words on the first line of a row.
func (s setter) write(face font.Face, color Color, indent float64, text string) func(*Scene, float64, float64) {
	return func(scene *Scene, x, y float64) {
		scene.add(Words{x + indent, y + baseline*s.size.Pitch, s.size.Text, face, color, text})
	}
}

// paragraph writes running text.
func (s setter) paragraph(face font.Face, color Color, text string) block {
	b := block{from: Line{Kind: Prose, Label: font.Clean(text)}}
	for _, line := range wrap(face, s.size.Text, tight(text), s.size.inner()) {
		b.rows = append(b.rows, row{lines: 1, note: line, draw: s.write(face, color, 0, line.text)})
	}
	return b
}

// heading writes a small title within a card.
func (s setter) heading(text string) block {
	b := block{leads: true, from: Line{Kind: Heading, Label: font.Clean(text)}}
	for _, line := range wrap(font.FiguresBold, s.size.Text, text, s.size.inner()) {
		b.rows = append(b.rows, row{lines: 1, label: line, draw: s.write(font.FiguresBold, s.theme.Planned, 0, line.text)})
	}
	return b
}
