// SPDX-License-Identifier: MIT

package card

import "gyle/publish/font"

// Scene is a card laid out: what is drawn where, in pixels from the upper left
// corner, in the order of drawing.
type Scene struct {
	Width, Height float64
	Paper         Color
	Title         string
	Desc          string
	Items         []Item
}

// Item is a thing in a scene: [Words], [Rect], [Stroke], [Dot] or [Cross].
type Item interface{ isItem() }

// Words are a run of text. Y is the base line.
type Words struct {
	X, Y, Size float64
	Face       font.Face
	Color      Color
	Text       string
}

// Rect is a box, filled or, where Stroke is not 0, drawn around.
type Rect struct {
	X, Y, W, H float64
	Color      Color
	Stroke     float64 // width of the line, inside of the box
}

// Stroke is a line through points.
type Stroke struct {
	Points [][2]float64
	Width  float64
	Color  Color
}

// Dot is a round mark: open is planned, filled is measured.
type Dot struct {
	X, Y, R float64
	Color   Color
	Open    float64 // width of the ring; 0 fills it
}

// Cross is the mark of what is out of rule.
type Cross struct {
	X, Y, R, Width float64
	Color          Color
}

func (Words) isItem()  {}
func (Rect) isItem()   {}
func (Stroke) isItem() {}
func (Dot) isItem()    {}
func (Cross) isItem()  {}

// strokes returns the lines of a cross.
func (c Cross) strokes() [2]Stroke {
	return [2]Stroke{
		{[][2]float64{{c.X - c.R, c.Y - c.R}, {c.X + c.R, c.Y + c.R}}, c.Width, c.Color},
		{[][2]float64{{c.X - c.R, c.Y + c.R}, {c.X + c.R, c.Y - c.R}}, c.Width, c.Color},
	}
}

func (s *Scene) add(items ...Item) { s.Items = append(s.Items, items...) }
