// SPDX-License-Identifier: MIT

package document

import (
	"strings"
	"testing"
)

func TestSplice(t *testing.T) {
	for _, test := range []struct{ name, src, path, value, want string }{
		{"keeps the comment", "gyle: x/1\nname:   Old   # why\nb: 2\n", "name", "New beer", "gyle: x/1\nname:   New beer   # why\nb: 2\n"},
		{"adds quotes", "name: Old\n", "name", "Old: new", "name: \"Old: new\"\n"},
		{"adds quotes in brackets", "rests: [a, b]\n", "rests[1]", "b, c", "rests: [a, \"b, c\"]\n"},
		{"takes quotes away", "name: 'It''s old' # c\n", "name", "new", "name: new # c\n"},
		{"in a list of maps", "grist:\n- {malt: a, share: 5 %}  # first\n- {malt: b, share: 9 %}\n", "grist[0].share", "7 %",
			"grist:\n- {malt: a, share: 7 %}  # first\n- {malt: b, share: 9 %}\n"},
		{"after accents", "note: {été: è, b: ü}\n", "note.b", "u", "note: {été: è, b: u}\n"},
		{"fills an empty value", "name: # todo\nb: 1\n", "name", "x", "name: x # todo\nb: 1\n"},
		{"replaces a block by a line", "why: |\n  one\n\n  two\n\nb: 1 # c\n", "why", "short", "why: short\n\nb: 1 # c\n"},
		{"replaces a block by a block", "a:\n  why: >-\n    one\n  b: 1\n", "a.why", "one\n\ntwo\n", "a:\n  why: |\n    one\n\n    two\n  b: 1\n"},
		{"keeps mark and line ends", "\ufeffa: 1\r\nb: |\r\n  x\r\nc: 2\r\n", "b", "y\nz\n", "\ufeffa: 1\r\nb: |\r\n  y\r\n  z\r\nc: 2\r\n"},
		{"finds keys with dots", "lots:\n  a.b: {c: 1}\n", "lots.a.b.c", "2", "lots:\n  a.b: {c: 2}\n"},
	} {
		got, err := Splice([]byte(test.src), test.path, test.value)
		if err != nil || string(got) != test.want {
			t.Errorf("%s: %q, %v; want %q", test.name, got, err, test.want)
		}
	}
}

func TestSpliceRefuses(t *testing.T) {
	for _, test := range []struct{ name, src, path, want string }{
		{"no such path", "a: 1\n", "b", "no such value"},
		{"a list", "a: [1]\n", "a", "found a list"},
		{"text over several lines", "a: one\n  two\n", "a", "several lines"},
		{"a comment in the head of a block", "a: | # c\n  one\n", "a", "comment"},
		{"a broken text", "a: [1\n", "a", "not closed"},
	} {
		got, err := Splice([]byte(test.src), test.path, "x")
		if err == nil || got != nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %q, %v; want an error with %q", test.name, got, err, test.want)
		}
	}
}

// FuzzSplice checks that a splice changes the value it was asked to change
// and keeps what stands before it.
func FuzzSplice(f *testing.F) {
	for _, src := range []string{ferryBrown, "a: 'x' # c\n", "a: |\n  b\nc: d\n", "a:\nb: \"\\u00e9\"\n", "a: [b, {c: d}]\n", "? a\n: b\n"} {
		f.Add([]byte(src), "a", "new")
		f.Add([]byte(src), "grist[0].malt", "x: #")
		f.Add([]byte(src), "why", "a\n b\n")
	}
	f.Fuzz(func(t *testing.T, src []byte, path, value string) {
		out, err := Splice(src, path, value)
		if err != nil {
			return
		}
		s := newSource("", out)
		if faults := s.parse(); len(faults) > 0 {
			t.Fatalf("result does not parse: %v", faults)
		}
		node, _, rest := find(s.root, path)
		if rest != "" || node.Value != value {
			t.Fatalf("at %q: %q, want %q in %q", path, node.Value, value, out)
		}
		if strings.Count(string(out), "#") < strings.Count(string(src), "#")-strings.Count(oldValue(t, src, path), "#") {
			t.Fatalf("a comment was lost: %q became %q", src, out)
		}
	})
}

func oldValue(t *testing.T, src []byte, path string) string {
	s := newSource("", src)
	if faults := s.parse(); len(faults) > 0 {
		t.Fatal(faults)
	}
	node, _, _ := find(s.root, path)
	return node.Value
}
