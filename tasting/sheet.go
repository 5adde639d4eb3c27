// SPDX-License-Identifier: MIT

package tasting

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gyle/data"
	"gyle/internal/document"
	"gyle/quantity"
)

// Sheet is what a judge wrote about a beer at a table where it was judged, not
// compared.
type Sheet struct {
	Judge    string            `gyle:"judge,required"`
	Beer     string            `gyle:"beer,required"` // letter
	At       Time              `gyle:"at"`
	Place    int               `gyle:"place"` // in the judge's flight
	Age      quantity.Duration `gyle:"age"`   // of the bottle
	Total    *float64          `gyle:"total"`
	Of       float64           `gyle:"of"`         // highest total
	Scale    *Scale            `gyle:"scale,flow"` // of the levels; nil is [LevelScale]
	Points   []Point           `gyle:"points,flow"`
	Comment  string            `gyle:"comment"`
	Corrects int               `gyle:"corrects"` // number of the sheet in whose place it stands, from 1
}

// Point is one attribute on a score sheet.
type Point struct {
	Attribute string   `gyle:"attribute,required"`
	Level     *float64 `gyle:"level"`
	Says      string   `gyle:"says"` // too little, right or too much
	Terms     []Term   `gyle:"terms,flow"`
	Words     string   `gyle:"words"`
}

// LevelScale is the scale of levels where a sheet names none: from none to
// high, see quantity.LevelWords.
var LevelScale = Scale{From: 0, To: quantity.MostLevel}

// Levels is the scale of the sheet's levels.
func (s Sheet) Levels() Scale {
	if s.Scale != nil {
		return *s.Scale
	}
	return LevelScale
}

// Term is a word of the standard terminology of beer flavour, see data.Term.
type Term string

// UnmarshalText reads the name or the number of a term.
func (t *Term) UnmarshalText(b []byte) error {
	term, known := data.Term(string(b))
	if !known {
		hint := "say it in words: instead"
		if near, ok := document.Nearest(strings.ToLower(string(b)), data.TermNames()); ok {
			hint = "write " + near + ", or say it in words:"
		}
		return &quantity.ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no term of the standard terminology", b), Hint: hint}
	}
	*t = Term(term.Name)
	return nil
}

// MarshalText writes the name.
func (t Term) MarshalText() ([]byte, error) { return []byte(t), nil }

// Opinions are what a point can say.
func Opinions() []string { return []string{sayTooLittle, sayRight, sayTooMuch} }

// ParsePoint reads what a judge says of one attribute in one line: "roast: 4,
// too much, astringent, a touch high". A number or a word for how much is the
// level, an opinion is what it says, terms of the standard terminology are terms,
// and the rest is words; in quotes everything is.
func ParsePoint(line string) (Point, error) {
	attribute, rest, _ := strings.Cut(line, ":")
	p := Point{Attribute: strings.Join(strings.Fields(attribute), " ")}
	var words []string
	for _, part := range partsOf(rest) {
		level, err := quantity.ParseLevel(part)
		term, known := data.Term(part)
		switch {
		case part == "":
		case strings.ContainsAny(string([]rune(part)[0]), `"“'`):
			words = append(words, strings.Trim(part, `"“”'`))
		case err == nil && !known && p.Level == nil:
			p.Level = &level
		case p.Says == "" && slices.Contains(Opinions(), strings.ToLower(part)):
			p.Says = strings.ToLower(part)
		case known && !slices.Contains(p.Terms, Term(term.Name)):
			p.Terms = append(p.Terms, Term(term.Name))
		default:
			words = append(words, part)
		}
	}
	p.Words = strings.Join(words, ", ")
	if p.Attribute == "" || p.silent() {
		return p, &quantity.ParseError{Text: line, What: "a remark", Msg: "an attribute and what is said of it are needed", Hint: "write roast: 4, too much, a touch high"}
	}
	return p, nil
}

// partsOf cuts a line at its commas, but not within double quotes.
func partsOf(text string) (parts []string) {
	quoted := false
	for _, part := range strings.FieldsFunc(text, func(r rune) bool {
		switch r {
		case '"', '“', '”':
			quoted = !quoted
		}
		return !quoted && (r == ',' || r == ';')
	}) {
		parts = append(parts, strings.TrimSpace(part))
	}
	return parts
}

// silent reports whether a point says nothing.
func (p Point) silent() bool {
	return p.Says == "" && p.Level == nil && p.Words == "" && len(p.Terms) == 0
}

// Enter adds a sheet. It is refused with document.Faults when it can't be.
func (t *Tasting) Enter(s Sheet) error {
	taken := *t
	taken.Sheets = append(slices.Clone(t.Sheets), s)
	c := &checker{tasting: &taken}
	c.sheet(len(taken.Sheets) - 1)
	if len(c.faults) > 0 {
		return c.faults
	}
	t.Sheets = taken.Sheets
	return nil
}

// StandingSheets returns the numbers of the sheets that no later one corrects,
// from 1, in their order.
func (t *Tasting) StandingSheets() (numbers []int) {
	for i := range t.Sheets {
		if !slices.ContainsFunc(t.Sheets, func(s Sheet) bool { return s.Corrects == i+1 }) {
			numbers = append(numbers, i+1)
		}
	}
	return numbers
}

// Say is what a judge said of an attribute of a beer.
type Say struct {
	Judge string
	Scale Scale
	Point
}

// Said collects what the score sheets say of each attribute of a beer, sorted by
// attribute. Sheets that were corrected are left out. Nothing is averaged: what
// contradicts stays side by side.
func (t *Tasting) Said(letter string) (attributes []string, says map[string][]Say) {
	says = map[string][]Say{}
	for _, n := range t.StandingSheets() {
		sheet := t.Sheets[n-1]
		if sheet.Beer != letter {
			continue
		}
		for _, p := range sheet.Points {
			if says[p.Attribute] == nil {
				attributes = append(attributes, p.Attribute)
			}
			says[p.Attribute] = append(says[p.Attribute], Say{Judge: sheet.Judge, Scale: sheet.Levels(), Point: p})
		}
	}
	slices.SortFunc(attributes, cmp.Compare[string])
	return attributes, says
}
