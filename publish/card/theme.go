// SPDX-License-Identifier: MIT

package card

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Color is a colour of paper or ink.
type Color struct{ R, G, B uint8 }

// ParseColor reads a colour: "#1a2750" or "#fff".
func ParseColor(text string) (Color, error) {
	digits, ok := strings.CutPrefix(strings.TrimSpace(text), "#")
	if ok && len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	n, err := strconv.ParseUint(digits, 16, 32)
	if !ok || len(digits) != 6 || err != nil {
		return Color{}, fmt.Errorf("read colour %q: write # and six digits of red, green and blue, such as #1a2750", text)
	}
	return Color{uint8(n >> 16), uint8(n >> 8), uint8(n)}, nil
}

// String writes c as ParseColor reads it.
func (c Color) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// mixed returns c with a share of another colour in it.
func (c Color) mixed(other Color, share float64) Color {
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*(1-share) + float64(b)*share)) }
	return Color{mix(c.R, other.R), mix(c.G, other.G), mix(c.B, other.B)}
}

// luminance is the relative luminance of the Web Content Accessibility
// Guidelines 2.2, from sRGB.
func (c Color) luminance() float64 {
	linear := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Contrast returns the contrast of two colours by the Web Content Accessibility
// Guidelines 2.2: 1 for the same colour, 21 for black on white.
func Contrast(a, b Color) float64 {
	high, low := max(a.luminance(), b.luminance()), min(a.luminance(), b.luminance())
	return (high + 0.05) / (low + 0.05)
}

// LeastContrast is how much every ink must stand out from the paper: what the
// Web Content Accessibility Guidelines 2.2 ask of text (level AA).
const LeastContrast = 4.5

// Theme is the paper and the inks of cards. The three inks keep their meaning
// in every theme, and their marks differ in shape.
type Theme struct {
	Name      string
	Paper     Color
	Print     Color // words of the book itself
	Planned   Color // aims and predictions; open marks
	Measured  Color // what was measured; filled marks
	Corrected Color // out of rule, or put right; crossed marks
	Lines     Color // the ruling of the paper, which need not stand out
}

// The themes at hand.
var (
	Paper = Theme{"paper", Color{0xfc, 0xf8, 0xee}, Color{0x2a, 0x25, 0x20}, Color{0x60, 0x5d, 0x57}, Color{0x1a, 0x27, 0x50}, Color{0xa5, 0x12, 0x1a}, Color{0xe4, 0xdb, 0xc5}}
	White = Theme{"white", Color{0xff, 0xff, 0xff}, Color{0x1e, 0x1e, 0x1e}, Color{0x5c, 0x5c, 0x5c}, Color{0x1a, 0x27, 0x50}, Color{0xa5, 0x12, 0x1a}, Color{0xdd, 0xdd, 0xdd}}
	Night = Theme{"night", Color{0x1d, 0x22, 0x2b}, Color{0xf1, 0xea, 0xdb}, Color{0xb3, 0xb0, 0xa8}, Color{0xb9, 0xcc, 0xf5}, Color{0xff, 0x9c, 0x93}, Color{0x33, 0x3a, 0x46}}
)

// Themes lists the themes at hand.
func Themes() []Theme { return []Theme{Paper, White, Night} }

// ThemeNamed finds a theme by its name.
func ThemeNamed(name string) (Theme, error) {
	var names []string
	for _, t := range Themes() {
		if t.Name == name {
			return t, nil
		}
		names = append(names, t.Name)
	}
	return Theme{}, fmt.Errorf("there is no theme %q: there are %s", name, strings.Join(names, ", "))
}

// Check refuses a theme whose inks can't be read on its paper.
func (t Theme) Check() error {
	for _, ink := range []struct {
		name  string
		color Color
	}{{"print", t.Print}, {"planned", t.Planned}, {"measured", t.Measured}, {"corrected", t.Corrected}} {
		if c := Contrast(ink.color, t.Paper); c < LeastContrast {
			return fmt.Errorf("the ink for what is %s, %s, has a contrast of %.1f to 1 with the paper %s: letters need %.1f to 1; take a %s ink",
				ink.name, ink.color, math.Floor(c*10)/10, t.Paper, LeastContrast, t.direction())
		}
	}
	return nil
}

// direction says which way an ink gains contrast.
func (t Theme) direction() string {
	if t.Paper.luminance() > 0.18 {
		return "darker"
	}
	return "lighter"
}
