// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sameTree compares what readPlain makes of a text with what the YAML library
// makes of it. Nothing is compared where readPlain refuses the text.
func sameTree(t interface{ Errorf(string, ...any) }, name, text string, mustRead bool) {
	source := newSource(name, []byte(text))
	if faults := source.parse(); len(faults) > 0 {
		return
	}
	plain, err := readPlain(source.text)
	if err != nil {
		if mustRead {
			t.Errorf("%s: %v\n%s", name, err, text)
		}
		return
	}
	if difference := differ(source.root, plain, "", mustRead); difference != "" {
		t.Errorf("%s: %s\n%s", name, difference, text)
	}
}

func differ(a, b *Node, path string, places bool) string {
	const styles = doubleQuotedStyle | singleQuotedStyle | literalStyle | foldedStyle | flowStyle
	empty := isEmpty(a) && isEmpty(b)
	switch {
	case a.Kind != b.Kind || a.Value != b.Value || a.Style&styles != b.Style&styles || (a.Tag == "!!null") != (b.Tag == "!!null") && !isNullWord(a.Value):
		return fmt.Sprintf("at %q: kind %d %d, style %d %d, value %q %q, tag %s %s", path, a.Kind, b.Kind, a.Style, b.Style, a.Value, b.Value, a.Tag, b.Tag)
	case places && !empty && (a.Line != b.Line || a.Column != b.Column):
		return fmt.Sprintf("at %q: line %d %d, column %d %d", path, a.Line, b.Line, a.Column, b.Column)
	case len(a.Content) != len(b.Content):
		return fmt.Sprintf("at %q: %d parts, %d parts", path, len(a.Content), len(b.Content))
	}
	for i := range a.Content {
		if d := differ(a.Content[i], b.Content[i], fmt.Sprintf("%s/%d", path, i), places); d != "" {
			return d
		}
	}
	return ""
}

// isNullWord reports whether the library tags a word as nothing; documents
// take it as the text it is.
func isNullWord(word string) bool { return word == "~" || strings.EqualFold(word, "null") }

// The examples are written by hand, with comments, as brewers write them.
func TestPlainExamples(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		sameTree(t, file, string(text), true)
	}
}

func TestPlainForms(t *testing.T) {
	for _, text := range []string{
		"gyle: x/1\na: b\n",
		"a: {b: 1, c: [d, e f, \"g, h\"], i: 'it''s'}\nj: []\nk: {}\n",
		"a:\n- b\n- c: d\n  e: f\n- - g\n  - h\n-\n  i: j\n",
		"a:\n  - b\n  -   c: d\n      e: f\n",
		"a: |\n  one\n\n    two\n  three\n\nb: |-\n  end\n# remark\n\nc: # nothing\nd:\n  # deep\n  e: \"\\u00e9\\x41\\n\" # behind\n",
		"- a\n- {b: c}\n",
		"a: x # y\nb: x#y\nc: http://a.b\n\"d e\": f\n'g': h\n",
		"a: {b:, c: d}\nd: {e f: g}\nh: - no list\n",
		"größe: 5 °P # °\nb: {°: ä, c: d}\n",
	} {
		sameTree(t, "form", text, false)
		if _, err := readPlain(text); err != nil && !strings.Contains(text, "- no list") {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// What isn't understood is refused with a place.
func TestPlainRefuses(t *testing.T) {
	for _, text := range []string{"", "# only\n", "a: [b\n", "a: \"b\n", "a: b\n   c: d\n", "a: &x b\n", "a: *x\n", "a: >\n  b\n", "a: |2\n  b\n", "a\nb: c\n", "a: [b] c\n", "a: \"\\q\"\n", "a: {b: 12,4}\n", "a: b\tc\n"} {
		root, err := readPlain(text)
		if err == nil {
			t.Errorf("%q is read as %+v", text, root)
		}
	}
}

// Whatever the printer prints is read as the library reads it.
func TestPlainReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := &item{form: formMap, keys: []string{"gyle"}, of: []*item{{form: formText, text: "x/1"}}}
		for i := range rapid.IntRange(1, 5).Draw(t, "entries") {
			tree.keys = append(tree.keys, fmt.Sprintf("%s%d", rapid.SampledFrom([]string{"k", "of which", "a-b", "ü"}).Draw(t, "key"), i))
			tree.of = append(tree.of, drawItem(t, 3))
		}
		sameTree(t, "printed", tree.document(), true)
	})
}

func drawItem(t *rapid.T, depth int) *item {
	kind := formText
	if depth > 0 {
		kind = rapid.SampledFrom([]form{formText, formText, formList, formMap}).Draw(t, "form")
	}
	i := &item{form: kind, flow: rapid.Bool().Draw(t, "flow")}
	if kind == formText {
		i.text = rapid.OneOf(rapid.SampledFrom([]string{"1.050", "65.3 %", "a: b", "- x", "# y", "it's", "two\nlines", "end\n", " space", "{", "a #b", "", "~", "no", "12,4", "x, y", "|", "é", "\t", "a:", "\"", "?x", "@", "%"}), rapid.String()).Draw(t, "text")
		return i
	}
	for k := range rapid.IntRange(0, 3).Draw(t, "parts") {
		i.of = append(i.of, drawItem(t, depth-1))
		if kind == formMap {
			i.keys = append(i.keys, fmt.Sprintf("k%d", k))
		}
	}
	return i
}

func FuzzPlain(f *testing.F) {
	files, _ := filepath.Glob("../../examples/*.yaml")
	for _, file := range files {
		if text, err := os.ReadFile(file); err == nil {
			f.Add(string(text))
		}
	}
	f.Fuzz(func(t *testing.T, text string) { sameTree(t, "fuzz", text, false) })
}
