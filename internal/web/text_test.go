// SPDX-License-Identifier: MIT

package web

import (
	"strings"
	"testing"
)

func TestSlugs(t *testing.T) {
	for title, slug := range map[string]string{
		"Ferry Brown 4": "ferry-brown-4", "Světlý ležák": "svetly-lezak", "  Kölsch, no. 2!": "koelsch-no-2", "…": "", "ΑΒΓ": "",
	} {
		if got := slugOf(title); got != slug {
			t.Errorf("slugOf(%q) = %q, want %q", title, got, slug)
		}
	}
}

func TestCompare(t *testing.T) {
	for _, c := range []struct{ from, to, signs string }{
		{"", "", ""}, {"a\n", "a\n", " "}, {"", "a\nb\n", "++"}, {"a\nb\n", "", "--"},
		{"a\nb\nc\n", "a\nx\nc\n", " -+ "}, {"a\nb\n", "b\na\n", "- +"}, {"a\r\nb", "a\nb\n", "  "},
	} {
		var signs, before, after strings.Builder
		for _, x := range compare(c.from, c.to) {
			signs.WriteString(x.Sign)
			if x.Sign != "+" {
				before.WriteString(x.Line)
			}
			if x.Sign != "-" {
				after.WriteString(x.Line)
			}
		}
		if signs.String() != c.signs {
			t.Errorf("compare(%q, %q): %q, want %q", c.from, c.to, signs.String(), c.signs)
		}
		if before.String() != strings.Join(linesOf(c.from), "") || after.String() != strings.Join(linesOf(c.to), "") {
			t.Errorf("compare(%q, %q) loses lines", c.from, c.to)
		}
	}
}

func TestMerge(t *testing.T) {
	const base = "a\nb\nc\nd\ne\n"
	for name, c := range map[string]struct{ mine, theirs, merged string }{
		"far apart":    {"A\nb\nc\nd\ne\n", "a\nb\nc\nd\nE\n", "A\nb\nc\nd\nE\n"},
		"put in":       {"a\nb\nx\nc\nd\ne\n", "a\nb\nc\nd\ne\ny\n", "a\nb\nx\nc\nd\ne\ny\n"},
		"taken out":    {"a\nc\nd\ne\n", "a\nb\nc\nd\n", "a\nc\nd\n"},
		"the same":     {"a\nB\nc\nd\ne\n", "a\nB\nc\nd\ne\n", "a\nB\nc\nd\ne\n"},
		"only theirs":  {base, "x\n", "x\n"},
		"at one place": {"a\nB\nc\nd\ne\n", "a\nβ\nc\nd\ne\n", ""},
		"side by side": {"a\nB\nc\nd\ne\n", "a\nb\nC\nd\ne\n", ""},
		"out and in":   {"a\nc\nd\ne\n", "a\nB\nc\nd\ne\n", ""},
	} {
		for _, turn := range [][2]string{{c.mine, c.theirs}, {c.theirs, c.mine}} {
			merged, ok := merge(base, turn[0], turn[1])
			if merged != c.merged || ok != (c.merged != "") {
				t.Errorf("%s: merged %q, %v", name, merged, ok)
			}
		}
	}
}
