// SPDX-License-Identifier: MIT

package font_test

import (
	"math"
	"strings"
	"testing"

	"gyle/publish/font"
)

// TestFiguresHaveOneWidth guards what columns of numbers rest on.
func TestFiguresHaveOneWidth(t *testing.T) {
	for _, face := range []font.Face{font.Book, font.BookItalic, font.Figures, font.FiguresBold} {
		for _, digit := range "123456789" {
			if got, want := face.Shape(string(digit)).Width, face.Shape("0").Width; got != want {
				t.Errorf("face %d: %c is %g wide, 0 is %g", face, digit, got, want)
			}
		}
	}
}

// TestShapingIsSafe sets what no face has.
func TestShapingIsSafe(t *testing.T) {
	for _, text := range []string{"", " ", "\xff\xfe", "שלום", "العربية", "🍺🏳️‍🌈", "a\u0301\u0302\u0303", "\u202Eevil\u202C", "\x00\x07", strings.Repeat("W", 5000)} {
		run := font.Book.Shape(text)
		if math.IsNaN(run.Width) || run.Width < 0 {
			t.Errorf("%q is %g wide", text, run.Width)
		}
		if font.Clean(text) != "" && len(run.Glyphs) == 0 {
			t.Errorf("%q vanished", text)
		}
		for _, g := range run.Glyphs {
			g.Outline()
		}
	}
}

func TestLicenceIsThere(t *testing.T) {
	if !strings.Contains(font.Licence(), "SIL OPEN FONT LICENSE Version 1.1") {
		t.Error("the licence of the faces is missing")
	}
}

// TestKerning sets words whose width shows whether pairs are kerned. Releases
// of the shaping library after v0.3.0 are known to lose half of the pairs.
func TestKerning(t *testing.T) {
	const source = "measured in Chromium 156 at 120 px, font-kerning: normal, the same files"
	for _, test := range []struct {
		face     font.Face
		text     string
		want     float64
		unkerned float64 // with font-kerning: none
	}{
		{font.Book, "AVATAR", 451.5625, 500.046875}, {font.Book, "To Wort", 445.453125, 461.640625},
		{font.BookItalic, "AVATAR", 436.09375, 472.5625}, {font.BookItalic, "To Wort", 419.640625, 428.046875},
		{font.Figures, "AVATAR", 375.125, 389.890625}, {font.Figures, "Yeast, 1.050", 582.125, 590.28125},
		{font.FiguresBold, "AVATAR", 385.453125, 401.765625}, {font.FiguresBold, "Yeast, 1.050", 604.203125, 614.171875},
	} {
		if got := test.face.Width(test.text, 120); math.Abs(got-test.want) > 0.5 {
			t.Errorf("face %d: %q is %.2f wide, want %.2f, without kerning %.2f (%s)", test.face, test.text, got, test.want, test.unkerned, source)
		}
	}
}
