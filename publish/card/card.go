// SPDX-License-Identifier: MIT

package card

import (
	"errors"
	"fmt"
	"strings"

	"gyle/judge"
	"gyle/plan"
	"gyle/publish/font"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// A Bundle is what cards are made from. A style or a recipe is needed; without
// a plan there are no weights.
type Bundle struct {
	Style    *style.Style
	Recipe   *recipe.Recipe
	Plan     *plan.Plan       // the recipe on its author's house
	Versions []*recipe.Recipe // its ancestors and itself, oldest first
	Panel    map[int]string   // what a panel said of a version, by its number
	Printer  quantity.Printer
}

// A Card is one card of a deck.
type Card struct {
	Name  string // of its file, without ending: "04-grist-1"
	Title string // "Ferry Brown 4: Grist, 1 of 2"
	Text  string // all that stands on it, in the order of reading
	scene Scene
}

// Scene returns the card as it is laid out.
func (c Card) Scene() *Scene { return &c.scene }

// SVG returns the card as a drawing.
func (c Card) SVG() []byte { return c.scene.SVG() }

// PNG returns the card as pixels.
func (c Card) PNG() ([]byte, error) { return c.scene.PNG() }

// Deck makes the cards of a bundle. It refuses a size whose letters couldn't be
// read and a theme whose inks don't stand out from the paper.
func Deck(b Bundle, size Size, theme Theme) ([]Card, error) {
	if err := errors.Join(size.Check(), theme.Check()); err != nil {
		return nil, fmt.Errorf("make cards: %w", err)
	}
	if b.Style == nil && b.Recipe == nil {
		return nil, errors.New("make cards: a style or a recipe is needed")
	}
	w := &work{Bundle: b, setter: setter{size, theme}}
	if err := w.judge(); err != nil {
		return nil, err
	}
	var deck []Card
	for _, s := range w.sections() {
		deck = append(deck, w.cards(s, len(deck))...)
	}
	return deck, nil
}

// work is a deck in the making.
type work struct {
	Bundle
	setter
	verdicts map[place]judge.Verdict
}

// place is where a rule stands in its style: its number, and that of its part.
type place struct{ rule, part int }

// judge holds the beer against the style, where there are both.
func (w *work) judge() error {
	if w.Style == nil || w.Recipe == nil {
		return nil
	}
	j, err := judge.Recipe(w.Style, w.Recipe)
	if w.Plan != nil {
		j, err = judge.Plan(w.Style, w.Plan)
	}
	if err != nil {
		return fmt.Errorf("make cards: %w", err)
	}
	w.verdicts = map[place]judge.Verdict{}
	for _, v := range j.Verdicts {
		w.verdicts[place{v.Rule, v.Part}] = v
	}
	return nil
}

// sections are the parts of the deck in the order of teaching.
func (w *work) sections() (all []section) {
	for _, make := range []func() section{w.beer, w.numbers, w.reasons, w.rules, w.water, w.grist, w.hops, w.process, w.versions, w.taste, w.swaps} {
		if s := make(); len(s.blocks) > 0 {
			all = append(all, s)
		}
	}
	return all
}

// name is what the deck is about.
func (w *work) name() string {
	switch {
	case w.Recipe == nil:
		return w.Style.Name
	case w.Recipe.Version == 0:
		return w.Recipe.Name
	}
	return fmt.Sprintf("%s %d", w.Recipe.Name, w.Recipe.Version)
}

// cards sets a section on as many cards as it needs. Its foot stands on each,
// unless it is so long that it would fill them.
func (w *work) cards(s section, before int) (cards []Card) {
	const titleRows = 2
	room := w.size.rows() - titleRows
	var foot []block
	for _, text := range s.foot {
		foot = append(foot, w.paragraph(font.BookItalic, w.theme.Planned, text))
	}
	footLines := (&page{foot}).lines()
	if footLines > room/2 {
		s.blocks, foot, footLines = append(s.blocks, foot...), nil, 0
	}
	all := pages(s.blocks, room-footLines)
	for i, p := range all {
		c := Card{Name: fmt.Sprintf("%02d-%s", before+i+1, s.name)}
		sequence := ""
		if len(all) > 1 {
			c.Name += fmt.Sprintf("-%d", i+1)
			sequence = fmt.Sprintf("%d of %d", i+1, len(all))
		}
		c.Title = plainTitle(w.name(), s.title, sequence)
		var said []string
		for _, part := range append(p.parts[:len(p.parts):len(p.parts)], foot...) {
			if text := textOf(part.rows); text != "" {
				said = append(said, text)
			}
		}
		c.Text = strings.Join(said, "\n")
		c.scene = w.scene(s.title, sequence, p, foot, footLines)
		c.scene.Title, c.scene.Desc = c.Title, c.Text
		cards = append(cards, c)
	}
	return cards
}

func plainTitle(name, title, sequence string) string {
	text := font.Clean(name) + ": " + title
	if sequence != "" {
		text += ", " + sequence
	}
	return text
}

// scene draws one card: the ruled paper, the title, the rows and the foot.
func (w *work) scene(title, sequence string, p page, foot []block, footLines int) Scene {
	z, t := w.size, w.theme
	s := Scene{Width: z.Width, Height: z.Height, Paper: t.Paper}
	w.ruling(&s)
	w.titleLine(&s, title, sequence)
	y := z.Top + 2*z.Pitch
	for _, b := range p.parts {
		y = w.rows(&s, b.rows, y)
	}
	y = z.Top + float64(z.rows()-footLines)*z.Pitch
	if footLines > 0 {
		s.add(Stroke{[][2]float64{{z.Left, y}, {z.Width - z.Right, y}}, z.Text / 20, t.Planned})
	}
	for _, b := range foot {
		y = w.rows(&s, b.rows, y)
	}
	return s
}

func (w *work) rows(s *Scene, rows []row, y float64) float64 {
	for _, r := range rows {
		r.draw(s, w.size.Left, y)
		y += float64(r.lines) * w.size.Pitch
	}
	return y
}

// ruling draws the lines of the paper, from edge to edge, and the line of the
// margin.
func (w *work) ruling(s *Scene) {
	z, t := w.size, w.theme
	thin := z.Text / 28
	for y := z.Top + 3*z.Pitch; y < z.Height-z.Bottom/3; y += z.Pitch {
		s.add(Stroke{[][2]float64{{0, y}, {z.Width, y}}, thin, t.Lines})
	}
	x := z.Left - 1.15*z.Text
	s.add(Stroke{[][2]float64{{x, 0}, {x, z.Height}}, thin, t.Lines.mixed(t.Planned, 0.35)})
	s.add(Stroke{[][2]float64{{x - 4*thin, 0}, {x - 4*thin, z.Height}}, thin, t.Lines.mixed(t.Planned, 0.35)})
}

// titleLine writes the title and, at its right, whose card it is and the
// sequence. A name that has no room there stands on the first card in full.
func (w *work) titleLine(s *Scene, title, sequence string) {
	z, t := w.size, w.theme
	y := z.Top + 1.45*z.Pitch
	s.add(Words{z.Left, y, z.Title, font.Book, t.Print, title})
	left := z.Left + font.Book.Width(title, z.Title) + z.Text
	right := z.Width - z.Right
	if sequence != "" {
		right -= font.Figures.Width(sequence, z.Text)
		s.add(Words{right, y, z.Text, font.Figures, t.Planned, sequence})
		right -= 0.8 * z.Text
	}
	name := font.Clean(w.name())
	if wide := font.BookItalic.Width(name, z.Text); right-wide >= left {
		s.add(Words{right - wide, y, z.Text, font.BookItalic, t.Planned, name})
	}
	y = z.Top + 1.8*z.Pitch
	for _, dy := range []float64{0, z.Text / 8} {
		s.add(Stroke{[][2]float64{{z.Left, y + dy}, {z.Width - z.Right, y + dy}}, z.Text / 22, t.Print})
	}
}
