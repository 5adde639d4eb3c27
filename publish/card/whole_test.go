// SPDX-License-Identifier: MIT

package card_test

import (
	"strings"
	"testing"

	"gyle/publish/card"
)

// find returns the first card of a name without its number.
func find(t testing.TB, b card.Bundle, size card.Size, theme card.Theme, name string) card.Card {
	t.Helper()
	deck, err := card.Deck(b, size, theme)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range deck {
		if _, found, _ := strings.Cut(c.Name, "-"); found == name {
			return c
		}
	}
	t.Fatalf("there is no card %q of %s", name, size.Name)
	return card.Card{}
}

// TestWholeCards compares whole cards, line by line, with the drawings that
// were looked at.
func TestWholeCards(t *testing.T) {
	full := ferryBrown(t)
	for _, test := range []struct {
		file  string
		b     card.Bundle
		size  card.Size
		theme card.Theme
		name  string
	}{
		{"style-numbers.svg", card.Bundle{Style: full.Style}, card.Wide, card.Paper, "numbers"},
		{"recipe-grist.svg", card.Bundle{Recipe: full.Recipe}, card.A5, card.Night, "grist"},
		{"versions.svg", card.Bundle{Recipe: full.Recipe, Versions: full.Versions, Panel: full.Panel}, card.Tall, card.White, "versions"},
		{"strips.svg", full, card.Wide, card.Paper, "grist-3"},
	} {
		golden(t, test.file, find(t, test.b, test.size, test.theme, test.name).SVG())
	}
}

// TestAllStandsOnTheCard looks at all decks in all sizes: letters are as large
// as the least at least, and nothing is outside of the free room or in the way
// of something else.
func TestAllStandsOnTheCard(t *testing.T) {
	for name, b := range decks(t) {
		for _, size := range card.Sizes() {
			deck, err := card.Deck(b, size, card.Paper)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range deck {
				for i, item := range c.Scene().Items {
					if words, ok := item.(card.Words); ok {
						checkWords(t, name+", "+size.Name+", "+c.Name, size, words, c.Scene().Items[:i])
					}
				}
			}
		}
	}
}

func checkWords(t *testing.T, where string, z card.Size, it card.Words, before []card.Item) {
	t.Helper()
	right := it.X + it.Face.Width(it.Text, it.Size)
	const kerning = 2 // px
	if it.Size < z.Smallest() || it.X < 0 || right > z.Width-z.Right+kerning || it.Y < z.Top || it.Y > z.Height-z.Bottom {
		t.Errorf("%s: %q of %g px stands from (%g, %g) to %g", where, it.Text, it.Size, it.X, it.Y, right)
	}
	for _, item := range before {
		other, ok := item.(card.Words)
		if !ok || other.X+other.Face.Width(other.Text, other.Size) <= it.X+kerning || other.X >= right-kerning {
			continue
		}
		const capitals = 0.7 // height of capitals, in em
		if it.Y-capitals*it.Size < other.Y && other.Y-capitals*other.Size < it.Y {
			t.Errorf("%s: %q stands on %q", where, it.Text, other.Text)
		}
	}
}

// TestStripsNumberEachGrain counts the numbers on the strips of mass, extract
// and colour: six grains, three strips.
func TestStripsNumberEachGrain(t *testing.T) {
	numbers := map[string]int{}
	for _, item := range find(t, ferryBrown(t), card.Wide, card.Paper, "grist-3").Scene().Items {
		if words, ok := item.(card.Words); ok {
			numbers[words.Text]++
		}
	}
	for _, number := range []string{"1", "2", "3", "4", "5", "6"} {
		if numbers[number] != 3 {
			t.Errorf("the grain %s is numbered on %d strips of 3", number, numbers[number])
		}
	}
}

// TestTimesAsSpoken reads the path of the kettle: minutes, not seconds.
func TestTimesAsSpoken(t *testing.T) {
	text := find(t, ferryBrown(t), card.A5, card.Paper, "hops").Text
	for _, want := range []string{"boiled for 60 min at 100 °C", "cooled to 80 °C in 2 min", "left to stand for 20 min", "chilled to 18 °C in 16 min"} {
		if !strings.Contains(text, want) {
			t.Errorf("the card of hops doesn't say %q:\n%s", want, text)
		}
	}
}
