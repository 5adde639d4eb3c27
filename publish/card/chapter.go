// SPDX-License-Identifier: MIT

package card

import "errors"

// Kind is the sort of a [Line].
type Kind int

// The sorts of lines.
const (
	Prose   Kind = iota // running text
	Heading             // a small title
	Entry               // what, how much, and why
)

// Line is one thing that a chapter says, before it is laid out. Prose and
// headings have a label only.
type Line struct {
	Kind  Kind
	Label string
	Value string
	Notes []string
	Out   bool // out of rule
	Care  bool // a caution
}

// A Chapter is what the cards of one title say, for whoever lays it out another
// way.
type Chapter struct {
	Name  string // "grist"
	Title string
	Lines []Line
	Foot  []string // what the numbers hold for
}

// Chapters returns what the deck of a bundle says.
func Chapters(b Bundle) ([]Chapter, error) {
	if b.Style == nil && b.Recipe == nil {
		return nil, errors.New("tell of a beer: a style or a recipe is needed")
	}
	w := &work{Bundle: b, setter: setter{A5, White}, plain: A5}
	if err := w.judge(); err != nil {
		return nil, err
	}
	var list []Chapter
	for _, make := range parts {
		s := make(w)
		if len(s.blocks) == 0 {
			continue
		}
		c := Chapter{Name: s.name, Title: s.title, Foot: s.foot}
		for _, b := range s.blocks {
			c.Lines = append(c.Lines, b.from)
		}
		list = append(list, c)
	}
	return list, nil
}

// Name returns what the deck of a bundle is about: "Ferry Brown 4".
func (b Bundle) Name() string { return (&work{Bundle: b}).name() }
