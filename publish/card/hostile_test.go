// SPDX-License-Identifier: MIT

package card

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

func namedStyle(name string) *style.Style { return &style.Style{Name: name} }

// TestHostileDocuments puts hostile texts wherever a document has a text: every
// one of them is said by the deck, the drawings are well-formed XML without any
// element but those of a drawing, and the pixels are a picture.
func TestHostileDocuments(t *testing.T) {
	picture := false
	few(t, 25, func(t *rapid.T) {
		b, texts := hostileBundle(t)
		size := rapid.SampledFrom(Sizes()).Draw(t, "size")
		deck, err := Deck(b, size, Paper)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, c := range deck {
			said += c.Text + "\n"
			checkXML(t, c.SVG())
		}
		plain := func(text string) string { // ids are written as words
			return strings.ReplaceAll(strings.ToLower(letters(text)), "-", "")
		}
		said = plain(said)
		for _, text := range texts {
			if !strings.Contains(said, plain(text)) && len([]rune(plain(text))) < oneCard {
				t.Fatalf("%q isn't said by any card", text)
			}
		}
		if !picture { // one picture is enough: it takes long
			picture = true
			text, err := deck[0].PNG()
			if err != nil {
				t.Fatal(err)
			}
			if _, err := png.Decode(bytes.NewReader(text)); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// oneCard is how many letters surely stand together on a card. A longer text
// goes on after the foot and the title of the next, see TestPagesLoseNothing.
const oneCard = 60

// hostileBundle is a style and a recipe with drawn texts, which it returns.
func hostileBundle(t *rapid.T) (b Bundle, texts []string) {
	text := func(what string) string {
		s := hostile().Draw(t, what)
		texts = append(texts, s)
		return s
	}
	share, dose := quantity.Percent(60), quantity.Dose(1.5)
	b.Style = &style.Style{
		Name: text("style"), By: text("style by"), Prose: text("prose"), Note: text("style note"),
		Taste: []style.Taste{{Quality: text("quality"), Range: text("range"), Note: text("taste note")}},
		Rules: []style.Rule{{Figure: "og", In: "1.046..1.054", Severity: style.Limit, Why: text("why")}},
	}
	b.Recipe = &recipe.Recipe{
		Name: text("recipe"), Version: 2, Parent: 1, By: text("by"), Note: text("note"),
		Change: &recipe.Change{What: text("what"), Why: text("why changed"), Expect: text("expected")},
		Grist:  []recipe.Grain{{Malt: text("malt"), Share: &share, Why: text("malt why")}},
		Hops:   []recipe.Charge{{Hop: "challenger", Dose: &dose, At: recipe.Moment{Stage: recipe.AtFlameOut}, Why: text("hop why")}},
	}
	b.Versions = []*recipe.Recipe{b.Recipe}
	b.Panel = map[int]string{2: text("panel")}
	return b, texts
}

// TestNamesWithoutEnd makes cards of names of ten thousand letters, in one word
// and in many: all of it is said, over as many cards as it needs.
func TestNamesWithoutEnd(t *testing.T) {
	for _, name := range []string{strings.Repeat("Malz", 2500), strings.Repeat("Name ", 2000), strings.Repeat("]]></", 2000)} {
		deck, err := Deck(Bundle{Style: &style.Style{Name: name, Prose: "short"}}, Wide, Paper)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, c := range deck {
			checkXML(t, c.SVG())
			said += c.Text
		}
		if got := strings.ReplaceAll(letters(said), ":", ""); !strings.Contains(got, letters(name)) {
			t.Errorf("the name %.20q of %d letters isn't said in full by %d cards", name, len(name), len(deck))
		}
	}
}

// drawn lists the elements that a card may hold.
var drawn = map[string]bool{"svg": true, "title": true, "desc": true, "defs": true, "path": true, "rect": true, "g": true, "use": true, "circle": true, "polyline": true}

func checkXML(t interface{ Fatalf(string, ...any) }, svg []byte) {
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if !drawn[e.Name.Local] {
			t.Fatalf("there is a <%s>", e.Name.Local)
		}
		for _, a := range e.Attr {
			if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "style" || (a.Name.Local == "href" && !strings.HasPrefix(a.Value, "#")) {
				t.Fatalf("<%s> has %s=%q", e.Name.Local, a.Name.Local, a.Value)
			}
		}
	}
}
