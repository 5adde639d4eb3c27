// SPDX-License-Identifier: MIT

package card

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gyle/publish/font"
)

// hostile draws texts that want to break a card: markup, long words, letters
// that no face has, directions, control characters.
func hostile() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.SampledFrom([]string{
			`<script>alert("x")</script>`, `"><svg onload=x>`, "]]>", "&amp;&#0;", "a'b\"c`d", strings.Repeat("Malz", 200), "שלום עולם", "مرحبا",
			"🍺 beer 🏴‍☠️", "\u202Eeil\u202C", "\x00\x1b[31m", "a\u0301\u0300\u0302\u0303", "  spaced \n\n out\t", "\xff\xfe", "35 EBC", "1\u00a0000 %", "",
			`</script><style>*{}</style>`, "<![CDATA[ x ]]><image href=\"http://x\"/>", "\u2066a\u2069 \u200f\u061c", "\u0085\u2028\ufeff\ufffe",
		}),
		rapid.StringMatching(`([a-z]{1,12} ){0,60}`),
	)
}

// few checks a law so many times at most: laying out takes its time.
func few(t *testing.T, most int, law func(*rapid.T)) {
	t.Helper()
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		if done++; done <= most {
			law(t)
		}
	})
}

// letters is a text without spaces: where a line is broken and whether a space can break it
// doesn't matter.
func letters(text string) string {
	return strings.Join(strings.FieldsFunc(font.Clean(text), func(r rune) bool { return r == ' ' || r == '\u00A0' }), "")
}

// TestWrapLosesNothing breaks texts into lines: all letters stay, and no line
// is wider than it may be unless one letter is.
func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := hostile().Draw(t, "text")
		width := rapid.Float64Range(150, 2000).Draw(t, "width")
		const size = 59
		lines := wrap(font.Book, size, text, width)
		if got, want := letters(joined(lines)), letters(text); got != want {
			t.Fatalf("%q became %q", want, got)
		}
		for _, l := range lines {
			const kerning = 2 // px: letters and words are measured apart
			if wide := font.Book.Width(l.text, size); wide > width+kerning && len([]rune(l.text)) > 1 {
				t.Fatalf("%q is %g wide, more than %g", l.text, wide, width)
			}
		}
	})
}

// TestPagesLoseNothing lays out any blocks at any size: every row comes out
// once and in order, no card holds more than it has room for, and the words of
// the cards are those of the blocks.
func TestPagesLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := setter{rapid.SampledFrom(Sizes()).Draw(t, "size"), Paper}
		var blocks []block
		var want strings.Builder
		for range rapid.IntRange(1, 12).Draw(t, "blocks") {
			texts := rapid.SliceOfN(hostile(), 3, 3).Draw(t, "texts")
			b := s.entry(entry{label: texts[0], value: texts[1], notes: []note{{text: texts[2]}}})
			if rapid.Bool().Draw(t, "heading") {
				b = s.heading("H " + texts[0])
			}
			blocks = append(blocks, b)
			for _, r := range b.rows {
				want.WriteString(letters(r.label.text + r.value.text + r.note.text))
			}
		}
		room := rapid.IntRange(fewestRows-2, s.size.rows()-2).Draw(t, "room")
		var got strings.Builder
		for _, p := range pages(blocks, room) {
			if n := p.lines(); n > room {
				t.Fatalf("%d lines on a card of %d", n, room)
			}
			for _, b := range p.parts {
				for _, r := range b.rows {
					got.WriteString(letters(r.label.text + r.value.text + r.note.text))
				}
			}
		}
		if got.String() != want.String() {
			t.Fatalf("wanted %q\n   got %q", want.String(), got.String())
		}
	})
}

// TestNothingIsCutOff checks that all words lie within the card's free room, in
// letters no smaller than the least.
func TestNothingIsCutOff(t *testing.T) {
	few(t, 40, func(t *rapid.T) {
		z := rapid.SampledFrom(Sizes()).Draw(t, "size")
		w := &work{setter: setter{z, Paper}, plain: z}
		texts := rapid.SliceOfN(hostile(), 3, 3).Draw(t, "texts")
		s := section{name: "x", title: "Title", foot: []string{texts[1]}, blocks: []block{
			w.entry(entry{label: texts[0], value: texts[1], notes: []note{{text: texts[2]}}}), w.care(texts[2]),
		}}
		w.Recipe = nil
		w.Style = namedStyle(texts[0])
		for _, c := range w.cards(s, 0) {
			for _, item := range c.scene.Items {
				it, ok := item.(Words)
				if !ok {
					continue
				}
				const kerning = 2 // px
				right := it.X + it.Face.Width(it.Text, it.Size)
				if it.Size < z.Smallest() || it.X < 0 || right > z.Width-z.Right+kerning || it.Y < z.Top || it.Y > z.Height-z.Bottom {
					t.Fatalf("%q of %g px stands from (%g, %g) to %g on %s", it.Text, it.Size, it.X, it.Y, right, z.Name)
				}
			}
		}
	})
}
