// SPDX-License-Identifier: MIT

package card

import (
	"fmt"
	"math"
	"strings"
)

// Size is the shape of a card and its letters, in pixels.
type Size struct {
	Name          string
	Width, Height float64
	Left, Right   float64 // kept free at the sides
	Top, Bottom   float64 // kept free above and below; an app may lay its own things over it
	Text          float64 // height of the letters
	Title         float64
	Pitch         float64 // from one ruled line to the next
}

// The sizes. Wide keeps 5 % of each side free, the graphics safe area of wide
// screens. Tall keeps free what players of upright films usually cover (an
// estimate). A5 is 148 by 210 mm at 300 dots an inch with 10 mm of margin.
var (
	Wide = Size{"wide", 1920, 1080, 112, 96, 54, 54, 59, 96, 72}
	Tall = Size{"tall", 1080, 1920, 76, 54, 150, 210, 42, 72, 54}
	A5   = Size{"a5", 1748, 2480, 150, 118, 118, 118, 56, 96, 72}
)

// Sizes lists the sizes.
func Sizes() []Size { return []Size{Wide, Tall, A5} }

// SizeNamed finds a size by its name.
func SizeNamed(name string) (Size, error) {
	var names []string
	for _, s := range Sizes() {
		if s.Name == name {
			return s, nil
		}
		names = append(names, s.Name)
	}
	return Size{}, fmt.Errorf("there is no size %q: there are %s", name, strings.Join(names, ", "))
}

// A card must be readable on a phone that shows it this many pixels wide, with
// letters no lower than that. Both are estimates: the width of a phone held
// upright, and the smallest type of its pages.
const (
	shownWidth    = 360
	leastLettered = 11
)

// Smallest is the least height of letters on a card so wide.
func (s Size) Smallest() float64 { return math.Ceil(s.Width * leastLettered / shownWidth) }

// enlarged returns s with larger letters on wider lines. Its margins and its
// title stay where they are, so that a deck stands still when it is leafed
// through.
func (s Size) enlarged(times float64) Size {
	s.Text, s.Pitch = s.Text*times, s.Pitch*times
	return s
}

// rows is how many ruled lines there are for a title and what follows.
func (s Size) rows() int { return int((s.Height - s.Top - s.Bottom) / s.Pitch) }

// fewestRows are two for the title and six to write on.
const fewestRows = 8

// narrowest is how many letters a line must hold; with fewer a card reads like
// a column of words.
const narrowest = 16

// Check refuses a size whose letters are too small, or that has no room.
func (s Size) Check() error {
	switch {
	case !(s.Width > 0 && s.Height > 0 && s.Pitch > 0) || s.Width*s.Height > 64e6:
		return fmt.Errorf("a card of %g by %g pixels can't be drawn", s.Width, s.Height)
	case s.Text < s.Smallest() || s.Title < s.Smallest():
		return fmt.Errorf("letters of %g pixels can't be read when a card of %g is shown %d wide: take %g at least", min(s.Text, s.Title), s.Width, shownWidth, s.Smallest())
	case s.Pitch < s.Text*1.15 || 2*s.Pitch < s.Title*1.15:
		return fmt.Errorf("lines %g pixels apart are too near for letters of %g and a title of %g", s.Pitch, s.Text, s.Title)
	case s.rows() < fewestRows || s.inner() < narrowest*s.Text/2:
		return fmt.Errorf("a card of %g by %g pixels has no room for letters of %g", s.Width, s.Height, s.Text)
	}
	return nil
}

// inner is the width of a line.
func (s Size) inner() float64 { return s.Width - s.Left - s.Right }
