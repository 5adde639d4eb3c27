// SPDX-License-Identifier: MIT

package card

import "gyle/publish/font"

// A frame is what stands around the rows of a section: where they begin and
// end, and the foot.
type frame struct {
	blocks []block
	foot   []block
	top    float64 // of the first row
	bottom float64 // of the room for rows; the foot begins here
	room   int     // rows between them
}

// Shares of a card. Design choices.
const (
	titleRows   = 2    // of the plain pitch
	clearOfFoot = 0.35 // em, between the last row and the line of the foot
	highestFoot = 0.4  // of the room beneath the title; a foot that is higher joins the text
	footPitch   = 1.2  // em, from line to line of a foot
)

// closed returns s with its lines as near as those of a foot.
func (s Size) closed() Size {
	s.Pitch = footPitch * s.Text
	return s
}

// frame lays the foot of a section out and finds the room that it leaves.
func (w *work) frame(s section) frame {
	z := w.plain
	f := frame{blocks: s.blocks, top: z.Top + titleRows*z.Pitch, bottom: z.Height - z.Bottom}
	at := setter{z.closed(), w.theme}
	height := 0.0
	for _, text := range s.foot {
		b := at.paragraph(font.BookItalic, w.theme.Planned, text)
		f.foot = append(f.foot, b)
		height += float64(b.lines()) * at.size.Pitch
	}
	end := f.bottom
	switch {
	case height == 0:
		f.foot = nil
	case height > highestFoot*(f.bottom-f.top):
		f.foot = nil
		for _, text := range s.foot {
			f.blocks = append(f.blocks[:len(f.blocks):len(f.blocks)], w.paragraph(font.BookItalic, w.theme.Planned, text))
		}
	default:
		f.bottom -= height
		end = f.bottom - clearOfFoot*z.Text
	}
	const rounding = 1e-6
	f.room = int((end-f.top)/w.size.Pitch + rounding)
	return f
}

// enlargements are how much larger than the least the letters of a section may
// be where there is room, the most first.
var enlargements = []float64{1.5, 1.4, 1.3, 1.2, 1.1}

// fewLabels: of so many labels one may break for the sake of larger letters.
const fewLabels = 8

// manyCards is a section so long that larger letters wouldn't be a help.
const manyCards = 6

// fitted makes a section with letters as large as there is room for on the
// cards that it needs anyway. Larger letters must not break many labels that
// stood on one line.
func (w *work) fitted(make func(*work) section) (*work, section) {
	plain := make(w)
	f := w.frame(plain)
	n := len(pages(f.blocks, f.room))
	if n > manyCards || len(plain.blocks) == 0 {
		return w, plain
	}
	for _, times := range enlargements {
		larger := *w
		larger.size = w.size.enlarged(times)
		room := larger.frame(section{foot: plain.foot}).room
		if room < fewestRows-titleRows || linesOf(rowsOf(f.blocks)) > n*room {
			continue // no need to try
		}
		s := make(&larger)
		g := larger.frame(s)
		if parted(f) != parted(g) {
			continue
		}
		if labels(g.blocks) <= labels(f.blocks)+1+labels(f.blocks)/fewLabels && len(pages(g.blocks, g.room)) <= n {
			return &larger, s
		}
	}
	return w, plain
}

// parted reports whether what stands under a heading is parted for want of room.
func parted(f frame) bool {
	if headings(f.blocks) < 2 {
		return false
	}
	whole, ok := together(f.blocks, f.room)
	return !ok || len(whole) > len(pages(f.blocks, f.room))
}

func rowsOf(blocks []block) (rows []row) {
	for _, b := range blocks {
		rows = append(rows, b.rows...)
	}
	return rows
}

// labels counts the lines of labels and of values that have no label beside
// them.
func labels(blocks []block) (n int) {
	for _, r := range rowsOf(blocks) {
		if r.label.text != "" || (r.value.text != "" && r.note.text == "") {
			n++
		}
	}
	return n
}

// apart is how many lines may be left free between the blocks of a page: one
// where there is room for it everywhere.
func (p *page) apart(room int) int {
	if p.lines()+len(p.parts)-1 <= room {
		return 1
	}
	return 0
}
