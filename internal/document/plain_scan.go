// SPDX-License-Identifier: MIT

package document

import (
	"cmp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// plainScan reads one line.
type plainScan struct {
	reader       *plainReader
	text         string
	at           int
	line, column int // of text[counted]
	counted      int
	err          string
}

// place returns the column that is read. What was read isn't counted again.
func (s *plainScan) place() int {
	at := min(s.at, len(s.text))
	s.column += utf8.RuneCountInString(s.text[s.counted:at])
	s.counted = at
	return s.column
}

func (s *plainScan) node(kind nodeKind, tag, value string) *Node {
	return s.reader.node(kind, tag, value, s.line, s.place())
}

func (s *plainScan) space() {
	for s.at < len(s.text) && s.text[s.at] == ' ' {
		s.at++
	}
}

// value reads a value; inside says whether it stands between brackets.
func (s *plainScan) value(inside bool) *Node {
	s.space()
	if s.at >= len(s.text) {
		s.err = "a value is missing"
		return nil
	}
	switch s.text[s.at] {
	case '[':
		return s.brackets(listNode, ']')
	case '{':
		return s.brackets(mapNode, '}')
	case '"', '\'':
		return s.quoted()
	}
	return s.plain(inside)
}

// plain reads a text without quotes.
func (s *plainScan) plain(inside bool) *Node {
	rest := s.text[s.at:]
	if s.reader.badStart(rest, inside) {
		s.err = "a text cannot begin with " + rest[:1]
		return nil
	}
	end := len(rest)
	for i := range len(rest) {
		if mayEndPlain[rest[i]] && endsPlain(rest, i, inside) {
			end = i
			break
		}
	}
	n := s.node(textNode, "!!str", strings.TrimRight(rest[:end], " "))
	if strings.Contains(rest[:end], "\t") {
		s.err = "this text needs quotes"
	}
	if n.Value == "" {
		n.Tag = "!!null"
	}
	s.at += end
	return n
}

// badStart reports whether a text begins with what means something else.
func (r *plainReader) badStart(rest string, inside bool) bool {
	switch rest[0] {
	case '&', '*', '!', '%', '@', '`', '|', '>', ',', '[', ']', '{', '}', '#':
		return true
	case '?':
		return rest == "?" || rest[1] == ' ' || r.canonical && inside
	case ':':
		return r.canonical && (inside || rest == ":" || rest[1] == ' ')
	case '-':
		return r.canonical && (len(rest) == 1 || rest[1] == ' ' || inside && strings.IndexByte(",[]{}", rest[1]) >= 0)
	case '<':
		return r.canonical && strings.HasPrefix(rest, "<<")
	}
	return false
}

// mayEndPlain has the characters that endsPlain looks at twice.
var mayEndPlain = [256]bool{'#': true, ':': true, ',': true, '[': true, ']': true, '{': true, '}': true}

// endsPlain reports whether a text without quotes ends before rest[i].
func endsPlain(rest string, i int, inside bool) bool {
	switch rest[i] {
	case '#':
		return i > 0 && rest[i-1] == ' '
	case ':':
		behind := rest[i+1:]
		return behind == "" || behind[0] == ' ' || inside && strings.ContainsRune(",[]{}", rune(behind[0]))
	case ',', '[', ']', '{', '}':
		return inside
	}
	return false
}

// brackets reads a list or a map in brackets.
func (s *plainScan) brackets(kind nodeKind, end byte) *Node {
	tag := "!!seq"
	if kind == mapNode {
		tag = "!!map"
	}
	n := s.node(kind, tag, "")
	n.Style = flowStyle
	if !s.reader.open() {
		s.err = "nested too deep"
	}
	parts := s.reader.begin()
	for s.at++; s.err == ""; {
		if s.space(); s.at < len(s.text) && s.text[s.at] == end {
			s.at++
			s.reader.deep--
			n.Content = s.reader.end(parts)
			return n
		}
		s.part(kind)
		if s.space(); s.err != "" {
			break
		}
		switch {
		case s.at < len(s.text) && s.text[s.at] == ',':
			s.at++
		case s.at >= len(s.text) || s.text[s.at] != end:
			s.err = "a bracket is not closed"
		}
	}
	return n
}

// part reads one entry between brackets.
func (s *plainScan) part(kind nodeKind) {
	first := s.value(true)
	s.reader.add(first)
	if kind != mapNode {
		return
	}
	if s.reader.canonical && s.err == "" && (first.Kind != textNode || len(first.Value) > maxKey) {
		s.err = "the printer writes no such keys"
	}
	s.reader.add(s.keyed())
}

// keyed reads what follows a key between braces.
func (s *plainScan) keyed() *Node {
	if s.space(); s.err != "" || s.at >= len(s.text) || s.text[s.at] != ':' {
		s.err = cmp.Or(s.err, "a key between braces has no colon")
		return nil
	}
	s.at++
	if s.reader.canonical && !strings.HasPrefix(s.text[s.at:], " ") {
		s.err = "the printer writes a space behind a colon"
		return nil
	}
	if s.space(); !s.reader.canonical && s.at < len(s.text) && (s.text[s.at] == ',' || s.text[s.at] == '}') {
		return &Node{Kind: textNode, Tag: "!!null", Line: s.line, Column: s.place()}
	}
	return s.value(true)
}

// quoted reads a text in quotes.
func (s *plainScan) quoted() *Node {
	n := s.node(textNode, "!!str", "")
	quote := s.text[s.at]
	n.Style = doubleQuotedStyle
	if quote == '\'' {
		n.Style = singleQuotedStyle
	}
	var b strings.Builder
	for s.at++; s.at < len(s.text); {
		c := s.text[s.at]
		switch {
		case c == quote && quote == '\'' && strings.HasPrefix(s.text[s.at:], "''"):
			b.WriteByte('\'')
			s.at += 2
		case c == quote:
			s.at++
			n.Value = b.String()
			return n
		case c == '\\' && quote == '"':
			s.escape(&b)
		default:
			b.WriteByte(c)
			s.at++
		}
	}
	s.err = "the quote that opens here is never closed"
	return n
}

// escapes are the characters behind a backslash and what they stand for.
var escapes = map[byte]string{'\\': `\`, '"': `"`, '/': "/", 'n': "\n", 't': "\t"}

func (s *plainScan) escape(b *strings.Builder) {
	rest := s.text[s.at+1:]
	if rest == "" {
		s.at++
		return
	}
	if text, ok := escapes[rest[0]]; ok {
		b.WriteString(text)
		s.at += 2
		return
	}
	if s.reader.canonical {
		s.err = "the printer writes few escapes"
		s.at = len(s.text)
		return
	}
	digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[rest[0]]
	if digits == 0 || len(rest) < 1+digits {
		s.err = `no such escape after \`
		s.at = len(s.text)
		return
	}
	code, err := strconv.ParseUint(rest[1:1+digits], 16, 32)
	if err != nil || code > utf8.MaxRune {
		s.err = `no such escape after \`
		s.at = len(s.text)
		return
	}
	b.WriteRune(rune(code))
	s.at += 2 + digits
}
