// SPDX-License-Identifier: MIT

package causes

import (
	"slices"
	"strings"

	"gyle/data"
	"gyle/tasting"
)

// Named is an off-note with the voices that named it in one beer.
type Named struct {
	Note     string  `json:"note"` // id, see data.Note
	Name     string  `json:"name"`
	Voices   []Voice `json:"voices"`
	Of       int     `json:"of"` // how many spoke of the beer
	Reported bool    `json:"reported"`
}

// Voice is who said it, and in which words.
type Voice struct {
	Who   string `json:"who"`
	Words string `json:"words"`
}

// Who must name a note before it counts as reported: two voices, and a quarter
// of all. Common practice.
const (
	fewestVoices = 2
	shareVoices  = 4 // one of so many
)

// What a point of a score sheet can say, as package tasting has it.
const (
	tooLittle = "too little"
	right     = "right"
	tooMuch   = "too much"
)

// Of finds the off-notes that score sheets, and comments on single glasses whose
// key is open, name in a beer: the most named first. Comments on a set of glasses
// don't tell which of them they mean, and are left out.
func Of(t *tasting.Tasting, letter string) []Named {
	c := collector{notes: map[string]*Named{}}
	for _, n := range t.StandingSheets() {
		if s := t.Sheets[n-1]; s.Beer == letter {
			c.sheet(s)
		}
	}
	for i := range t.Flights {
		f := &t.Flights[i]
		if f.Kind == tasting.Profile && f.Key != nil && !t.Voided(f.Name) {
			c.comments(f, letter)
		}
	}
	list := make([]Named, 0, len(c.notes))
	for _, id := range c.order {
		n := c.notes[id]
		n.Of = len(c.who)
		n.Reported = len(n.Voices) >= max(fewestVoices, (n.Of+shareVoices-1)/shareVoices)
		list = append(list, *n)
	}
	slices.SortStableFunc(list, func(a, b Named) int { return len(b.Voices) - len(a.Voices) })
	return list
}

// A collector gathers notes with their voices.
type collector struct {
	notes map[string]*Named
	order []string
	who   []string
}

func (c *collector) spoke(who string) {
	if !slices.Contains(c.who, who) {
		c.who = append(c.who, who)
	}
}

func (c *collector) add(id, who, words string) {
	note, known := data.Note(id)
	if !known {
		return
	}
	n := c.notes[id]
	if n == nil {
		n = &Named{Note: id, Name: note.Name}
		c.notes[id], c.order = n, append(c.order, id)
	}
	if !slices.ContainsFunc(n.Voices, func(v Voice) bool { return v.Who == who }) {
		n.Voices = append(n.Voices, Voice{who, words})
	}
}

func (c *collector) sheet(s tasting.Sheet) {
	c.spoke(s.Judge)
	for _, p := range s.Points {
		for _, id := range notesOf(p) {
			c.add(id, s.Judge, pointWords(p))
		}
	}
	for _, id := range data.NotesIn(s.Comment) {
		c.add(id, s.Judge, s.Comment)
	}
}

func (c *collector) comments(f *tasting.Flight, letter string) {
	for _, a := range f.Standing() {
		if a.Comment == "" || f.Key.BeerOf(a.Code) != letter {
			continue
		}
		c.spoke(a.Taster)
		for _, id := range data.NotesIn(a.Comment) {
			c.add(id, a.Taster, a.Comment)
		}
	}
}

// notesOf finds the off-notes that a point names. What is right is none, and what
// there is too little of is none by its own name.
func notesOf(p tasting.Point) (ids []string) {
	for _, id := range data.NoteIDs() {
		note, _ := data.Note(id)
		named := func(list []string) bool {
			return slices.ContainsFunc(list, func(a string) bool { return strings.EqualFold(a, p.Attribute) })
		}
		switch {
		case p.Says == tooMuch && named(note.Much), p.Says == tooLittle && named(note.Little):
			ids = append(ids, id)
		case p.Says == right || p.Says == tooLittle:
		case slices.ContainsFunc(p.Terms, func(term tasting.Term) bool { return slices.Contains(note.Terms, string(term)) }):
			ids = append(ids, id)
		case slices.Contains(data.NotesIn(p.Words), id):
			ids = append(ids, id)
		}
	}
	return ids
}

// pointWords is a point as a remark.
func pointWords(p tasting.Point) string {
	parts := []string{}
	if p.Says != "" {
		parts = append(parts, p.Says)
	}
	for _, term := range p.Terms {
		parts = append(parts, string(term))
	}
	if p.Words != "" {
		parts = append(parts, p.Words)
	}
	return p.Attribute + ": " + strings.Join(parts, ", ")
}
