// SPDX-License-Identifier: MIT

package card_test

import (
	"bytes"
	"flag"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gyle/brewhouse"
	"gyle/examples/examplestest"
	"gyle/plan"
	"gyle/publish/card"
	"gyle/publish/font"
	"gyle/quantity"
	"gyle/recipe"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file, which -update writes.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s differs (-want +got); look at it and run with -update:\n%s", file, diff)
	}
}

// TestDeckText reads the demonstration's deck as a screen reader does.
func TestDeckText(t *testing.T) {
	deck, err := card.Deck(ferryBrown(t), card.Wide, card.Paper)
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, c := range deck {
		out.WriteString("## " + c.Name + ": " + c.Title + "\n" + c.Text + "\n\n")
	}
	golden(t, "ferry-brown.txt", []byte(out.String()))
}

// everyItem is a scene with one of each item.
func everyItem() *card.Scene {
	p := card.Paper
	return &card.Scene{Width: 240, Height: 120, Paper: p.Paper, Title: `A <b> "scene"`, Desc: "words & marks", Items: []card.Item{
		card.Words{X: 10, Y: 40, Size: 24, Face: font.Book, Color: p.Print, Text: "AV to"},
		card.Words{X: 110, Y: 40, Size: 24, Face: font.FiguresBold, Color: p.Measured, Text: "1.050"},
		card.Rect{X: 10, Y: 60, W: 40, H: 20, Color: p.Measured},
		card.Rect{X: 60, Y: 60, W: 40, H: 20, Color: p.Planned, Stroke: 2},
		card.Stroke{Points: [][2]float64{{110, 80}, {130, 60}, {150, 80}}, Width: 3, Color: p.Planned},
		card.Dot{X: 170, Y: 70, R: 10, Color: p.Planned, Open: 3},
		card.Dot{X: 195, Y: 70, R: 10, Color: p.Measured},
		card.Cross{X: 220, Y: 70, R: 9, Width: 4, Color: p.Corrected},
	}}
}

func TestSVGGolden(t *testing.T) { golden(t, "every-item.svg", everyItem().SVG()) }

// TestPNGHasWhatTheSceneHas looks at single pixels: inside of filled things,
// in the holes of open ones.
func TestPNGHasWhatTheSceneHas(t *testing.T) {
	text, err := everyItem().PNG()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	p := card.Paper
	for _, test := range []struct {
		what string
		x, y int
		want card.Color
	}{
		{"paper", 5, 5, p.Paper}, {"filled box", 30, 70, p.Measured}, {"line of an open box", 61, 70, p.Planned}, {"hole of an open box", 80, 70, p.Paper},
		{"ring", 162, 70, p.Planned}, {"hole of a ring", 170, 70, p.Paper}, {"dot", 195, 70, p.Measured}, {"cross", 220, 70, p.Corrected}, {"beside a cross", 220, 63, p.Paper},
	} {
		r, g, b, _ := img.At(test.x, test.y).RGBA()
		got := card.Color{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}
		near := func(a, b uint8) bool { return math.Abs(float64(a)-float64(b)) <= 2 } // rounding of coverage
		if !near(got.R, test.want.R) || !near(got.G, test.want.G) || !near(got.B, test.want.B) {
			t.Errorf("%s at (%d, %d) is %s, want %s", test.what, test.x, test.y, got, test.want)
		}
	}
}

// TestSameEveryTime makes a deck twice.
func TestSameEveryTime(t *testing.T) {
	a, err := card.Deck(ferryBrown(t), card.Tall, card.Night)
	if err != nil {
		t.Fatal(err)
	}
	b, err := card.Deck(ferryBrown(t), card.Tall, card.Night)
	if err != nil {
		t.Fatal(err)
	}
	for i := range a {
		if !bytes.Equal(a[i].SVG(), b[i].SVG()) {
			t.Errorf("%s is drawn differently the second time", a[i].Name)
		}
	}
	one, err := a[0].PNG()
	if err != nil {
		t.Fatal(err)
	}
	other, err := b[0].PNG()
	if err != nil || !bytes.Equal(one, other) {
		t.Errorf("%s has other pixels the second time (%v)", a[0].Name, err)
	}
}

// TestWeightsSayWhatTheyHoldFor reads every card that shows a weight.
func TestWeightsSayWhatTheyHoldFor(t *testing.T) {
	for _, size := range card.Sizes() {
		deck, err := card.Deck(ferryBrown(t), size, card.Paper)
		if err != nil {
			t.Fatal(err)
		}
		weights := 0
		for _, c := range deck {
			if !strings.Contains(c.Text, " kg") && !strings.Contains(c.Text, " g\n") && !strings.Contains(c.Text, " mL\n") {
				continue
			}
			weights++
			for _, basis := range []string{"On Garage: 20.0 L in the fermenter (20 °C)", "yield 76.0 % of the laboratory extract"} {
				if !strings.Contains(c.Text, basis) {
					t.Errorf("%s, %s has weights and doesn't say %q:\n%s", size.Name, c.Name, basis, c.Text)
				}
			}
		}
		if weights == 0 {
			t.Errorf("%s: no card has weights", size.Name)
		}
	}
}

// TestBrokenRules holds a beer of too much bitterness and oats against the
// style: the rule is named with its mend and, since that has weights, with what
// they hold for.
func TestBrokenRules(t *testing.T) {
	b := ferryBrown(t)
	r := *b.Recipe
	r.Grist = append([]recipe.Grain(nil), r.Grist...)
	pale, oats := quantity.Percent(59.3), quantity.Percent(18)
	r.Grist[0].Share, r.Grist[1].Share = &pale, &oats
	p, err := plan.Make(plan.Input{Recipe: &r, House: examplestest.Load(t, "garage", brewhouse.Parse)})
	if err != nil {
		t.Fatal(err)
	}
	b.Recipe, b.Plan = &r, p
	deck, err := card.Deck(b, card.Wide, card.Paper)
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, c := range deck {
		if !strings.Contains(c.Text, "Outside: 2 points above. To mend it:") {
			continue
		}
		found = true
		for _, want := range []string{"silk without sweetness", "On Garage: 20.0 L"} {
			if !strings.Contains(c.Text, want) {
				t.Errorf("%s doesn't say %q:\n%s", c.Name, want, c.Text)
			}
		}
	}
	if !found {
		t.Error("no card says that there are too many oats")
	}
}

func TestThemesAndSizesAreSound(t *testing.T) {
	for _, theme := range card.Themes() {
		if err := theme.Check(); err != nil {
			t.Errorf("%s: %v", theme.Name, err)
		}
	}
	for _, size := range card.Sizes() {
		if err := size.Check(); err != nil {
			t.Errorf("%s: %v", size.Name, err)
		}
	}
}

func TestRefused(t *testing.T) {
	pale := card.Paper
	pale.Measured = card.Color{R: 0xaa, G: 0xaa, B: 0xbb}
	tiny := card.Wide
	tiny.Text = 40
	for _, test := range []struct {
		what string
		b    card.Bundle
		size card.Size
		in   card.Theme
		want string
	}{
		{"a pale ink", ferryBrown(t), card.Wide, pale, "letters need 4.5 to 1; take a darker ink"},
		{"small letters", ferryBrown(t), tiny, card.Paper, "take 59 at least"},
		{"nothing", card.Bundle{}, card.Wide, card.Paper, "a style or a recipe is needed"},
		{"no size", ferryBrown(t), card.Size{}, card.Paper, "can't be drawn"},
	} {
		if _, err := card.Deck(test.b, test.size, test.in); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", test.what, err, test.want)
		}
	}
}

// TestContrast checks the formula at its ends and at a known grey.
func TestContrast(t *testing.T) {
	const source = "computed from the formula of WCAG 2.2 (regression value); 21 and 1 are its ends"
	black, white, grey := card.Color{}, card.Color{R: 255, G: 255, B: 255}, card.Color{R: 0x76, G: 0x76, B: 0x76}
	for _, test := range []struct {
		a, b card.Color
		want float64
	}{{black, white, 21}, {white, white, 1}, {grey, white, 4.54}} {
		if got := card.Contrast(test.a, test.b); math.Abs(got-test.want) > 0.005 {
			t.Errorf("Contrast(%s, %s) = %.3f, want %.2f (%s)", test.a, test.b, got, test.want, source)
		}
	}
}

func TestColorReadsWhatItWrites(t *testing.T) {
	for text, want := range map[string]string{"#1a2750": "#1a2750", "#fff": "#ffffff", " #A5121A ": "#a5121a"} {
		c, err := card.ParseColor(text)
		if err != nil || c.String() != want {
			t.Errorf("%q is read as %s (%v)", text, c, err)
		}
	}
	for _, text := range []string{"", "red", "#12", "#12345g", "1a2750", "#+12345"} {
		if c, err := card.ParseColor(text); err == nil {
			t.Errorf("%q is read as %s", text, c)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	deck, err := card.Deck(ferryBrown(b), card.Wide, card.Paper)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := deck[1].PNG(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDeck(b *testing.B) {
	bundle := ferryBrown(b)
	for b.Loop() {
		if _, err := card.Deck(bundle, card.Wide, card.Paper); err != nil {
			b.Fatal(err)
		}
	}
}
