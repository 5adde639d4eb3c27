// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"
	"pgregory.net/rapid"
)

// sameAsLibrary holds readCanonical against the YAML library: what it reads, the
// library reads without a fault, to the last column and without a comment. It
// reports whether it read the text.
func sameAsLibrary(t interface{ Errorf(string, ...any) }, text string) (read bool) {
	s := newSource("text", []byte(text))
	if faults := s.checkText(); len(faults) > 0 {
		return false
	}
	quick, err := readCanonical(s.text)
	if err != nil {
		return false
	}
	whole, faults := s.wholeTree()
	if len(faults) > 0 || whole == nil {
		t.Errorf("read as %+v, the library says %v, of %q", quick, faults, text)
		return true
	}
	if d := unlike(whole, quick, ""); d != "" {
		t.Errorf("%s, of %q", d, text)
	}
	return true
}

// unlike tells the first difference between two trees, tags aside: those are
// wanted only where a document is written anew.
func unlike(a, b *Node, path string) string {
	bare := func(n *Node) string {
		return fmt.Sprintf("%q at %d:%d, kind %d, style %d, comments %v, anchor %v, %d parts", n.Value, n.Line, n.Column, n.Kind, n.Style, n.comments, n.anchored, len(n.Content))
	}
	if x, y := bare(a), bare(b); x != y {
		return fmt.Sprintf("at %q the library has %s, we have %s", path, x, y)
	}
	for i := range a.Content {
		if d := unlike(a.Content[i], b.Content[i], fmt.Sprintf("%s/%d", path, i)); d != "" {
			return d
		}
	}
	return ""
}

// canonicalSeeds are texts on both sides of what is read the short way.
var canonicalSeeds = []string{
	"gyle: x/1\na: b\n", "a: {b: 1, c: [d, e f, \"g, h\"], i: 'it''s'}\nj: []\nk: {}\n", "a:\n- b\n- c: d\n  e: f\n- - g\n  - h\n",
	"a:\n  - b\n  -   c: d\n      e: f\n", "a: |\n  one\n\n    two\n  # three\nb: |-\n  end\n", "größe: 5 °P\nb: {°: ä, c: \"d\\\"\\\\\\n\"}\n",
	"a: b # c\n", "# c\na: b\n", "a:\nb: c\n", "a: &x b\nc: *x\n", "a: !t b\n", "<<: {a: b}\n", "a: <<\n", "? a\n: b\n", "a: - b\n", "a: -\n", "- -\n- -a\n",
	"a: [-1, -, ?x, :y]\n", "a: b\n c\n", "a: \"b\n c\"\n", "--- a\n", "a: b\n---\n", "a: b\n...\n", "a: b: c\n", "a: b:\n", "a:b\n", "a:b: c\n", "{a: b}\n", "[a: b]\n", "\"a\": b\n", "\"a\" : b\n", "a : b\n",
	"a: |\n\n  b\n", "a: |\n    b\n  c\n", "a: |\n", "a: |2\n  b\n", "a: >\n  b\n", "a: [b,]\n", "a: {b, c}\n", "a: {\"b\":c}\n", "a: {b:c}\n", "a: ~\nb: null\nc: 1.5\nd: yes\n",
	"%a: b\n", "a: %b\n", "a: @b\n", "a: `b\n", "a: b #c\n", "a: b#c\n", "a: \"#\" \n", "a: 'b' #\n", "- a: b\n  - c\n", "a: b\n- c\n", "- a\nb: c\n", "a\n", "\"a\"\n", "\n\na: b\n\n", "a: \"\\u00e9\"\n", "a: 2026-03-07T12:15:00+01:00\n", "a: {b: 2026-03-07T12:15:00+01:00}\n", "a: x ? y\n", "a: {b: x ? y}\n",
}

func TestCanonicalIsTheLibrary(t *testing.T) {
	read := 0
	for _, text := range canonicalSeeds {
		if sameAsLibrary(t, text) {
			read++
		}
	}
	if read < 10 || read > len(canonicalSeeds)-10 {
		t.Errorf("%d of %d texts are read the short way", read, len(canonicalSeeds))
	}
	texts, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(texts) < 20 {
		t.Fatalf("%d cases: %v", len(texts), err)
	}
	for _, name := range texts {
		archive, err := txtar.ParseFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range archive.Files {
			sameAsLibrary(t, string(file.Data))
		}
	}
}

// Documents that the program wrote itself are read the short way.
func TestCanonicalReadsBrewings(t *testing.T) {
	for _, name := range []string{"gyle-17", "gyle-21"} {
		text, err := os.ReadFile("../../examples/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		if !sameAsLibrary(t, string(text)) {
			_, err := readCanonical(string(text))
			t.Errorf("%s is read by the library: %v", name, err)
		}
	}
}

// Whatever the printer prints without tabs, empty values and rare characters is
// read the short way.
func TestCanonicalReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := &item{form: formMap, keys: []string{"gyle"}, of: []*item{{form: formText, text: "x/1"}}}
		for i := range rapid.IntRange(1, 5).Draw(t, "entries") {
			tree.keys = append(tree.keys, fmt.Sprintf("%s%d", rapid.SampledFrom([]string{"k", "of which", "a-b", "ü"}).Draw(t, "key"), i))
			tree.of = append(tree.of, drawItem(t, 3))
		}
		text := tree.document()
		if !sameAsLibrary(t, text) && !strings.ContainsAny(text, "\t\\") && !strings.Contains(text, "\n\n") {
			_, err := readCanonical(text)
			t.Errorf("%v: %q", err, text)
		}
	})
}

func FuzzCanonical(f *testing.F) {
	for _, text := range canonicalSeeds {
		f.Add(text)
	}
	files, _ := filepath.Glob("../../examples/*.yaml")
	for _, file := range files {
		if text, err := os.ReadFile(file); err == nil {
			f.Add(string(text[:min(len(text), 2000)]))
		}
	}
	f.Fuzz(func(t *testing.T, text string) { sameAsLibrary(t, text) })
}

// Texts put together at random from what means something in YAML.
func TestCanonicalOfPieces(t *testing.T) {
	pieces := []string{"a", "bc", "1.5", "°", " ", "  ", "\n", "\n", "\n  ", "\n    ", ":", ": ", ": ", ",", ", ", "- ", "-", "\n- ", "\n  - ", "{", "}", "[", "]", "\"", "'", "\\n", "\\\"", "|", "|-", ">", "#", " #", "?", "? ", "<<", "~", "---", "...", "&", "*", "!", "%", "@"}
	rapid.Check(t, func(t *rapid.T) {
		text := "a: " + strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 1, 14).Draw(t, "pieces"), "") + "\n"
		sameAsLibrary(t, text)
		sameAsLibrary(t, text[3:])
	})
}
