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
	w := &work{Bundle: b, setter: setter{size, theme}, plain: size}
	if err := w.judge(); err != nil {
		return nil, err
	}
	var deck []Card
	for _, make := range parts {
		at, s := w.fitted(make)
		deck = append(deck, at.cards(s, len(deck))...)
	}
	return deck, nil
}

// work is a deck in the making.
type work struct {
	Bundle
	setter
	plain    Size // of titles and feet, whatever the size of the letters between them
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

// parts are the sections of a deck in the order of teaching.
var parts = []func(*work) section{
	(*work).beer, (*work).numbers, (*work).reasons, (*work).rules, (*work).water, (*work).grist,
	(*work).hops, (*work).process, (*work).versions, (*work).taste, (*work).swaps,
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

// cards sets a section on as many cards as it needs, with its foot on each.
func (w *work) cards(s section, before int) (cards []Card) {
	f := w.frame(s)
	all := pages(f.blocks, f.room)
	for i, p := range all {
		if len(p.parts) == 0 {
			continue
		}
		c := Card{Name: fmt.Sprintf("%02d-%s", before+i+1, s.name)}
		sequence := ""
		if len(all) > 1 {
			c.Name += fmt.Sprintf("-%d", i+1)
			sequence = fmt.Sprintf("%d of %d", i+1, len(all))
		}
		c.Title = plainTitle(w.name(), s.title, sequence)
		var said []string
		for _, part := range append(p.parts[:len(p.parts):len(p.parts)], f.foot...) {
			if text := textOf(part.rows); text != "" {
				said = append(said, text)
			}
		}
		c.Text = strings.Join(said, "\n")
		c.scene = w.scene(s.title, sequence, p, f)
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
func (w *work) scene(title, sequence string, p page, f frame) Scene {
	z, t := w.plain, w.theme
	s := Scene{Width: z.Width, Height: z.Height, Paper: t.Paper}
	w.ruling(&s, f)
	w.titleLine(&s, title, sequence)
	y := f.top
	apart := p.apart(f.room)
	for i, b := range p.parts {
		if i > 0 && !p.parts[i-1].leads {
			y += float64(apart) * w.size.Pitch
		}
		y = w.rows(&s, b.rows, y)
	}
	if len(f.foot) > 0 {
		y = f.bottom
		s.add(Stroke{[][2]float64{{z.Left, y}, {z.Width - z.Right, y}}, z.Text / 20, t.Planned})
		at := &work{setter: setter{z.closed(), t}}
		for _, b := range f.foot {
			y = at.rows(&s, b.rows, y)
		}
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

// marginShare is how far the line of the margin is from the text, in ems: a
// figure of the largest letters has room between them.
const marginShare = 1.4

// ruling draws the lines of the paper, from edge to edge, and the line of the
// margin. There are none behind the foot.
func (w *work) ruling(s *Scene, f frame) {
	z, t := w.plain, w.theme
	thin := z.Text / 28
	end := z.Height - z.Bottom/3
	if len(f.foot) > 0 {
		end = f.bottom - w.size.Pitch/4
	}
	for y := f.top + w.size.Pitch; y < end; y += w.size.Pitch {
		s.add(Stroke{[][2]float64{{0, y}, {z.Width, y}}, thin, t.Lines})
	}
	x := z.Left - marginShare*z.Text
	s.add(Stroke{[][2]float64{{x, 0}, {x, z.Height}}, thin, t.Lines.mixed(t.Planned, 0.35)})
	s.add(Stroke{[][2]float64{{x - 4*thin, 0}, {x - 4*thin, z.Height}}, thin, t.Lines.mixed(t.Planned, 0.35)})
}

// titleLine writes the title and, at its right, whose card it is and the
// sequence. A name that has no room there stands on the first card in full.
func (w *work) titleLine(s *Scene, title, sequence string) {
	z, t := w.plain, w.theme
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
