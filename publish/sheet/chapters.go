// SPDX-License-Identifier: MIT

package sheet

import (
	"errors"
	"slices"

	"gyle/publish/card"
)

// Recipe writes the recipe with its numbers, reasons and weights.
func Recipe(b card.Bundle, p Paper) ([]byte, error) {
	if b.Recipe == nil {
		return nil, errors.New("write a recipe sheet: a recipe is needed")
	}
	g := newPage(p, b.Name())
	if err := g.recipe(b); err != nil {
		return nil, err
	}
	return g.bytes()
}

func (g *page) recipe(b card.Bundle) error {
	return g.chapters(b, "Recipe sheet", "beer", "numbers", "grist", "hops", "water", "process", "versions", "swaps")
}

// Guide writes the guide to a style: prose, numbers and rules with the author's
// reasons, water and taste. The beer of the bundle is held against it, where
// there is one.
func Guide(b card.Bundle, p Paper) ([]byte, error) {
	if b.Style == nil {
		return nil, errors.New("write a guide: a style is needed")
	}
	g := newPage(p, b.Style.Name)
	if err := g.guide(b); err != nil {
		return nil, err
	}
	return g.bytes()
}

func (g *page) guide(b card.Bundle) error {
	style := card.Bundle{Style: b.Style, Printer: b.Printer}
	return g.chapters(style, "Guide to the style", "beer", "reasons", "rules", "water", "taste")
}

// Set writes the sheets of a plan as one document, each beginning on a page of
// its own: the brew sheet, the recipe, and the guide to its style where there
// is one.
func Set(b card.Bundle, p Paper) ([]byte, error) {
	if b.Plan == nil || b.Recipe == nil {
		return nil, errors.New("write the sheets of a plan: a plan and its recipe are needed")
	}
	g := newPage(p, b.Name())
	g.brew(b)
	g.turn()
	if err := g.recipe(b); err != nil {
		return nil, err
	}
	if b.Style != nil {
		g.turn()
		if err := g.guide(b); err != nil {
			return nil, err
		}
	}
	return g.bytes()
}

// chapters writes some chapters of a bundle under one title.
func (g *page) chapters(b card.Bundle, what string, names ...string) error {
	all, err := card.Chapters(b)
	if err != nil {
		return err
	}
	g.title(b.Name(), what)
	foot := ""
	for _, name := range names {
		i := slices.IndexFunc(all, func(c card.Chapter) bool { return c.Name == name })
		if i < 0 {
			continue
		}
		c := all[i]
		g.section(c.Title)
		for _, l := range c.Lines {
			g.line(l)
		}
		for _, text := range c.Foot {
			if text != foot && name != "numbers" { // that speaks of marks, which stand in words here
				g.paragraph(small, leftMargin, text)
			}
			foot = text
		}
	}
	return nil
}

// Widths of the columns of an entry, as shares of the line; in mm the room of
// the mark.
const (
	labelShare = 0.36
	valueShare = 0.22
	markRoom   = 4.0
)

// line writes a line of a chapter: label, value and reasons side by side.
func (g *page) line(l card.Line) {
	switch {
	case l.Kind == card.Heading:
		g.need(3 * lineHeight)
		g.y += 1
		g.paragraph(style{heading.face, text, planned}, leftMargin, l.Label)
	case l.Kind == card.Prose:
		g.paragraph(words, leftMargin, l.Label)
	case l.Care:
		g.need(lineHeight)
		g.put(style{heading.face, text, corrected}, leftMargin, g.y+lineHeight-1.4, "!")
		g.paragraph(words, leftMargin+markRoom, l.Label)
	default:
		g.entry(l)
	}
}

func (g *page) entry(l card.Line) {
	columns := [3]column{
		{leftMargin, labelShare * g.width(), words, []string{l.Label}},
		{leftMargin + labelShare*g.width(), valueShare * g.width(), numbers, []string{l.Value}},
		{leftMargin + (labelShare+valueShare)*g.width(), (1 - labelShare - valueShare) * g.width(), says, l.Notes},
	}
	if l.Value == "" { // the reasons take the room
		columns[2].x, columns[2].width = columns[1].x, columns[1].width+columns[2].width
	}
	if l.Out {
		columns[1].style.ink = corrected
	}
	var set [3][]string
	most := 0
	for i, c := range columns {
		for _, text := range c.texts {
			set[i] = append(set[i], g.lines(c.style, text, c.width-3)...)
		}
		most = max(most, len(set[i]))
	}
	const together = 6 // lines that aren't parted by the end of a page
	g.need(float64(min(most, together)) * lineHeight)
	for row := range most {
		g.need(lineHeight)
		g.y += lineHeight
		for i, c := range columns {
			if row < len(set[i]) {
				g.put(c.style, c.x, g.y-1.4, set[i][row])
			}
		}
	}
	g.rule(leftMargin, g.y, g.width(), ruled, 0.1)
}

// column is one column of an entry.
type column struct {
	x, width float64
	style    style
	texts    []string
}
