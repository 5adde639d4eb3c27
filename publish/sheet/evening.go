// SPDX-License-Identifier: MIT

package sheet

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gyle/publish/font"
	"gyle/tasting"
)

// Evening is a tasting with what must be told at its table.
type Evening struct {
	Tasting  *tasting.Tasting
	Contains string            // what all beers contain together; empty if that isn't known
	Caution  string            // printed with the alcohol
	Alcohol  map[string]string // by taster, where it is known
}

// unknownContents stands where nothing is known of allergens.
const unknownContents = "What the beers contain isn’t known: ask the brewer before you taste."

func (e Evening) contains() string {
	if e.Contains == "" {
		return unknownContents
	}
	return e.Contains
}

// tasters lists who is served, in the order of the serving plans.
func (e Evening) tasters() (ids []string) {
	for i := range e.Tasting.Flights {
		for _, s := range e.Tasting.Flights[i].Serving {
			if !slices.Contains(ids, s.Taster) {
				ids = append(ids, s.Taster)
			}
		}
	}
	return ids
}

var errUnplanned = errors.New("write ballots: no orders and codes were drawn yet")

// Ballots writes a ballot for each taster, each on a page of its own: their own
// glasses and questions, boxes, and the commitment to the key. Nothing on them tells
// which glass is which.
func Ballots(e Evening, p Paper) ([]byte, error) {
	tasters := e.tasters()
	if len(tasters) == 0 {
		return nil, errUnplanned
	}
	g := newPage(p, "Ballots")
	for i, taster := range tasters {
		if i > 0 {
			g.turn()
		}
		b := &ballot{page: g, taster: taster}
		b.head(e)
		for j := range e.Tasting.Flights {
			if one, served := e.Tasting.Ballot(&e.Tasting.Flights[j], taster); served {
				b.flight(one)
			}
		}
		b.foot(e)
	}
	return g.bytes()
}

// ballot is the ballot of one taster on a page.
type ballot struct {
	*page
	taster string
}

// Sizes on a ballot, in mm and points.
const (
	tick     = 4.5
	tickRoom = 9.0
	codeSize = 15.0
	together = 52.0 // a question isn't parted from its boxes
)

var (
	code  = style{font.FiguresBold, codeSize, printed}
	label = style{font.Book, 11, printed}
)

func (b *ballot) head(e Evening) {
	b.title("Ballot "+b.taster, "Taste in the order printed, on your own and without talking. Guess if you can’t tell. What you wrote stays as it is.")
	b.paragraph(words, leftMargin, e.contains())
	b.boxes([]string{"I am of age to drink here"}, label)
}

// flight writes the questions of one flight.
func (b *ballot) flight(f tasting.Ballot) {
	for _, set := range f.Sets {
		codes := make([]string, len(set.Codes))
		for i, c := range set.Codes {
			codes[i] = string(c)
		}
		b.need(together)
		b.section(b.taster + ": " + f.Flight + setNumber(set.Set))
		b.paragraph(style{font.BookItalic, 12, printed}, leftMargin, f.Ask)
		if f.Kind.ByGlass() {
			for _, one := range codes {
				b.glass(f, one)
			}
			b.commitment(f.Commitment)
			continue
		}
		b.order(string(set.Reference), codes)
		b.question(f, codes)
		b.remark()
		b.commitment(f.Commitment)
	}
}

func setNumber(n int) string {
	if n == 0 {
		return ""
	}
	return ", tray " + strconv.Itoa(n)
}

// order prints the codes as they are tasted.
func (b *ballot) order(reference string, codes []string) {
	text := strings.Join(codes, " → ")
	if reference != "" {
		text = reference + " (reference) → " + text
	}
	b.need(12)
	b.y += 10
	b.put(code, leftMargin, b.y-2, code.face.Printable(text))
}

// question has boxes for what the kind asks.
func (b *ballot) question(f tasting.Ballot, codes []string) {
	switch f.Kind {
	case tasting.Ranking:
		for i := range codes {
			b.need(9)
			b.y += 9
			b.put(label, leftMargin, b.y-2.2, fmt.Sprintf("place %d", i+1))
			b.rule(leftMargin+22, b.y-1.5, 35, printed, 0.25)
		}
	case tasting.Tetrad:
		b.paragraph(small, leftMargin, "Tick the two of one group; the others are the other group.")
		b.boxes(codes, code)
	case tasting.Preference:
		if !f.Forced {
			codes = append(slices.Clone(codes), "none")
		}
		b.boxes(codes, code)
	default:
		b.boxes(codes, code)
	}
}

// glass asks about one glass alone.
func (b *ballot) glass(f tasting.Ballot, glass string) {
	b.need(22)
	b.y += 10
	b.put(code, leftMargin, b.y-2, glass)
	if f.Kind == tasting.ANotA {
		b.y -= 10
		b.boxesFrom(leftMargin+30, []string{"yes", "no"}, label)
		return
	}
	for _, attribute := range f.Attributes {
		b.scale(attribute, f.Scale)
	}
	b.remark()
}

// scale is a line with its numbers, to be marked.
func (b *ballot) scale(attribute string, s *tasting.Scale) {
	const high, name = 9.5, 45.0
	b.need(high)
	b.y += high
	b.put(label, leftMargin, b.y-2.5, clipTo(b.page, label, attribute, name-3))
	x, width := leftMargin+name, b.width()-name-4
	b.rule(x, b.y-3, width, printed, 0.25)
	if s == nil {
		return
	}
	steps := int(s.To - s.From)
	if steps < 1 || steps > 20 {
		steps = 2
	}
	for i := range steps + 1 {
		at := x + width*float64(i)/float64(steps)
		b.pdf.Line(at, b.y-4, at, b.y-2)
		text := strconv.FormatFloat(s.From+(s.To-s.From)*float64(i)/float64(steps), 'g', 3, 64)
		number := style{font.Figures, 8, planned}
		b.put(number, at-b.widthOf(number, text)/2, b.y-5, text)
	}
}

func (b *ballot) boxes(names []string, s style) { b.boxesFrom(leftMargin, names, s) }

// boxesFrom puts a box before each name, beginning new lines where they don't fit.
func (b *ballot) boxesFrom(left float64, names []string, s style) {
	b.need(10)
	b.y += 10
	x := left
	for _, name := range names {
		name = s.face.Printable(name)
		width := tickRoom + b.widthOf(s, name) + 8
		if x > left && x+width > b.paper.width-margin {
			b.need(10)
			b.y += 10
			x = left
		}
		b.pdf.SetDrawColor(printed.r, printed.g, printed.b)
		b.pdf.SetLineWidth(0.3)
		b.pdf.Rect(x, b.y-6.2, tick, tick, "D")
		b.put(s, x+tick+2, b.y-2.4, name)
		x += width
	}
}

// remark is a line to write on.
func (b *ballot) remark() {
	b.need(9)
	b.y += 9
	b.put(small, leftMargin, b.y-2, "anything to say?")
	b.rule(leftMargin+28, b.y-1.5, b.width()-28, ruled, 0.25)
}

func (b *ballot) commitment(hash string) {
	if hash == "" {
		return
	}
	b.need(6)
	b.y += 5
	s := style{font.Figures, 6.5, planned}
	b.put(s, leftMargin, b.y-1.2, "sealed as "+hash)
}

func (b *ballot) foot(e Evening) {
	b.y += 3
	if text := e.Alcohol[b.taster]; text != "" {
		b.paragraph(small, leftMargin, text+" "+e.Caution)
	}
	b.paragraph(small, leftMargin, "Spitting is welcome; nobody has to give a reason for not tasting.")
}

// Rows and columns of cards on a page, and the height of their codes in points.
const (
	cardColumns = 3
	cardRows    = 6
	cardCode    = 40.0
)

// Cards writes a card to cut out for each glass, with its code, the taster's number
// and what all beers of the evening contain; no name of a beer, and nothing of the
// question.
func Cards(e Evening, p Paper) ([]byte, error) {
	if len(e.tasters()) == 0 {
		return nil, errUnplanned
	}
	g := newPage(p, "Cards for the glasses")
	n := 0
	for i := range e.Tasting.Flights {
		f := &e.Tasting.Flights[i]
		for _, s := range f.Serving {
			all := s.Codes
			if s.Reference != "" {
				all = append([]tasting.Code{s.Reference}, all...)
			}
			for place, c := range all {
				if n > 0 && n%(cardColumns*cardRows) == 0 {
					g.turn()
				}
				g.card(n%(cardColumns*cardRows), string(c), fmt.Sprintf("taster %s, glass %d", s.Taster, place+1), e.contains())
				n++
			}
		}
	}
	return g.bytes()
}

// card draws one card with the lines along which it is cut.
func (g *page) card(at int, number, whose, contains string) {
	width, height := g.width()/cardColumns, (g.paper.height-margin-footer)/cardRows
	x, y := leftMargin+float64(at%cardColumns)*width, margin+float64(at/cardColumns)*height
	g.pdf.SetDrawColor(ruled.r, ruled.g, ruled.b)
	g.pdf.SetLineWidth(0.15)
	g.pdf.Rect(x, y, width, height, "D")
	big := style{font.FiguresBold, cardCode, printed}
	g.put(big, x+(width-g.widthOf(big, number))/2, y+16, number)
	note := style{font.Figures, 7.5, planned}
	g.put(note, x+(width-g.widthOf(note, whose))/2, y+21, whose)
	g.fine(contains, x+3, y+25.5, width-6, y+height-1.5)
}

// fine writes a text into a room, smaller where it is long; one that is longer still
// says where the whole of it stands.
func (g *page) fine(text string, x, y, width, bottom float64) {
	s := style{font.Book, 7.5, printed}
	for {
		leading := s.size * 1.22 * mmPerPoint
		room, set := int((bottom-y)/leading)+1, g.lines(s, text, width)
		if len(set) > room && s.size > 5 {
			s.size -= 0.5
			continue
		}
		if len(set) > room {
			set = append(set[:room-1:room-1], "… The whole list stands on the ballots.")
		}
		for i, line := range set {
			g.put(s, x, y+float64(i)*leading, line)
		}
		return
	}
}

// Pourer writes the sheet of who pours: which beer goes into which glass. It shows
// the keys that it is given; flights without one are left out.
func Pourer(e Evening, keys map[string]*tasting.Key, p Paper) ([]byte, error) {
	g := newPage(p, "Pourer’s sheet")
	g.title("Pourer’s sheet", "This sheet shows the key. Who reads it pours, doesn’t taste, and doesn’t meet the panel.")
	g.paragraph(words, leftMargin, e.Tasting.Name)
	for _, b := range e.Tasting.Beers {
		name := b.Name
		if name == "" {
			name = b.Recipe
		}
		if b.Gyle != "" {
			name += ", " + b.Gyle
		}
		g.paragraph(label, leftMargin, b.Letter+": "+strings.TrimPrefix(name, ", "))
	}
	g.paragraph(small, leftMargin, "Pour each beer in one go, the same into every glass; all glasses within a degree. "+e.contains())
	written := 0
	for i := range e.Tasting.Flights {
		f := &e.Tasting.Flights[i]
		if key := keys[f.Name]; key != nil {
			g.trays(f, key)
			written++
		}
	}
	if written == 0 {
		return nil, errors.New("write a pourer’s sheet: no key of a flight is at hand")
	}
	return g.bytes()
}

// trays lists the sets of a flight with the beer of each glass.
func (g *page) trays(f *tasting.Flight, key *tasting.Key) {
	name := string(f.Kind)
	if f.Name != name {
		name = f.Name + ": " + name
	}
	g.section(name)
	if f.Kind == tasting.ANotA {
		g.paragraph(words, leftMargin, "First a glass of "+f.Reference+" for each, named as the one to learn.")
	}
	const column, high = 27.0, 8.0
	for i, s := range f.Serving {
		if f.Look != nil && i == f.Look.After {
			g.paragraph(style{font.BookItalic, text, corrected}, leftMargin, "Second stage: pour only if the look doesn’t end it.")
		}
		codes := s.Codes
		if s.Reference != "" {
			codes = append([]tasting.Code{s.Reference}, codes...)
		}
		g.need(high)
		g.y += high
		g.put(label, leftMargin, g.y-2.4, s.Taster+strings.Replace(setNumber(s.Set), ", tray ", "/", 1))
		x := leftMargin + 16
		for place, c := range codes {
			if x+column > g.paper.width-margin {
				g.need(high)
				g.y += high
				x = leftMargin + 16
			}
			beer := key.BeerOf(c)
			if s.Reference != "" && place == 0 {
				beer += " ref"
			}
			g.put(numbers, x, g.y-2.4, string(c))
			g.put(code, x+9, g.y-2.2, beer)
			x += column
			if strings.HasSuffix(beer, " ref") {
				x += 8
			}
		}
		g.rule(leftMargin, g.y, g.width(), ruled, 0.1)
	}
	if f.Design != nil && f.Design.Commitment != "" {
		g.paragraph(style{font.Figures, 6.5, planned}, leftMargin, "sealed as "+f.Design.Commitment)
	}
}
