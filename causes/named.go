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
	// Open says that the voices rest on one judge's opinion against another's: too
	// much for one, too little for the other. Nothing follows from it.
	Open    bool    `json:"open,omitempty"`
	Against []Voice `json:"against,omitempty"`
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
	c := collector{notes: map[string]*Named{}, contrary: contraries(t, letter)}
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
		n.Reported = !n.Open && len(n.Voices) >= max(fewestVoices, (n.Of+shareVoices-1)/shareVoices)
		list = append(list, *n)
	}
	slices.SortStableFunc(list, func(a, b Named) int { return len(b.Voices) - len(a.Voices) })
	return list
}

// A collector gathers notes with their voices.
type collector struct {
	notes    map[string]*Named
	order    []string
	who      []string
	contrary map[string][]tasting.Say // what is said of attributes with opinions against each other
}

// contraries finds the attributes that are too much for one judge and too little
// for another.
func contraries(t *tasting.Tasting, letter string) map[string][]tasting.Say {
	found := map[string][]tasting.Say{}
	attributes, says := t.Said(letter)
	for _, a := range attributes {
		has := func(opinion string) bool {
			return slices.ContainsFunc(says[a], func(s tasting.Say) bool { return s.Says == opinion })
		}
		if has(tooMuch) && has(tooLittle) {
			found[a] = says[a]
		}
	}
	return found
}

func (c *collector) spoke(who string) {
	if !slices.Contains(c.who, who) {
		c.who = append(c.who, who)
	}
}

// add keeps a voice. By opinion says that it rests on "too much" or "too little"
// of an attribute alone.
func (c *collector) add(id, who, words string, byOpinion *tasting.Point) {
	note, known := data.Note(id)
	if !known {
		return
	}
	n := c.notes[id]
	if n == nil {
		n = &Named{Note: id, Name: note.Name, Open: true}
		c.notes[id], c.order = n, append(c.order, id)
	}
	if byOpinion == nil || c.contrary[byOpinion.Attribute] == nil {
		n.Open, n.Against = false, nil
	} else if n.Open {
		for _, s := range c.contrary[byOpinion.Attribute] {
			if s.Says != byOpinion.Says && s.Says != "" && s.Says != right && !slices.ContainsFunc(n.Against, func(v Voice) bool { return v.Who == s.Judge }) {
				n.Against = append(n.Against, Voice{s.Judge, pointWords(s.Point)})
			}
		}
	}
	if !slices.ContainsFunc(n.Voices, func(v Voice) bool { return v.Who == who }) {
		n.Voices = append(n.Voices, Voice{who, words})
	}
}

func (c *collector) sheet(s tasting.Sheet) {
	c.spoke(s.Judge)
	for _, p := range s.Points {
		named, byOpinion := notesOf(p)
		for _, id := range named {
			c.add(id, s.Judge, pointWords(p), nil)
		}
		for _, id := range byOpinion {
			c.add(id, s.Judge, pointWords(p), &p)
		}
	}
	for _, id := range data.NotesIn(s.Comment) {
		c.add(id, s.Judge, s.Comment, nil)
	}
}

func (c *collector) comments(f *tasting.Flight, letter string) {
	for _, a := range f.Standing() {
		if a.Comment == "" || f.Key.BeerOf(a.Code) != letter {
			continue
		}
		c.spoke(a.Taster)
		for _, id := range data.NotesIn(a.Comment) {
			c.add(id, a.Taster, a.Comment, nil)
		}
	}
}

// notesOf finds the off-notes that a point names. What is right is none, and what
// there is too little of is none by its own name. Those that follow from an opinion
// alone are returned apart.
func notesOf(p tasting.Point) (ids, byOpinion []string) {
	for _, id := range data.NoteIDs() {
		note, _ := data.Note(id)
		named := func(list []string) bool {
			return slices.ContainsFunc(list, func(a string) bool { return strings.EqualFold(a, p.Attribute) })
		}
		switch {
		case p.Says == tooLittle && named(note.Little):
			byOpinion = append(byOpinion, id)
		case p.Says == right || p.Says == tooLittle:
		case slices.ContainsFunc(p.Terms, func(term tasting.Term) bool { return slices.Contains(note.Terms, string(term)) }):
			ids = append(ids, id)
		case slices.Contains(data.NotesIn(p.Words), id):
			ids = append(ids, id)
		case p.Says == tooMuch && named(note.Much):
			byOpinion = append(byOpinion, id)
		}
	}
	return ids, byOpinion
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
