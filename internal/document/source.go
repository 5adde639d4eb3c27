// SPDX-License-Identifier: MIT

package document

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A Source is the text of a document that was read, with the place of each of
// its values. A nil Source stands for a document made by the program: its
// faults have a field but no position.
type Source struct {
	file   string
	text   string // without byte-order mark
	lines  []int  // offset of each line in text
	root   *Node  // the top mapping; nil when the text could not be parsed
	prefix string // path that all paths given to this Source are relative to
}

func newSource(file string, src []byte) *Source {
	s := &Source{file: file, text: strings.TrimPrefix(string(src), byteOrderMark)}
	s.lines = append(make([]int, 0, 1+strings.Count(s.text, "\n")), 0)
	for i := 0; i < len(s.text); i++ {
		if s.text[i] == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	return s
}

// File returns the name the document was read under.
func (s *Source) File() string {
	if s == nil {
		return ""
	}
	return s.file
}

// At returns the source seen from path: paths given to it start there.
func (s *Source) At(path string) *Source {
	if s == nil {
		return &Source{prefix: path}
	}
	inner := *s
	inner.prefix = join(s.prefix, path)
	return &inner
}

// Has reports whether the document has a value at path, even an empty one.
func (s *Source) Has(path string) bool {
	if s == nil || s.root == nil {
		return false
	}
	_, _, rest := find(s.root, join(s.prefix, path))
	return rest == ""
}

// Fault returns a fault at the value of a dotted path such as "grist[2].share".
// When the document has no such value it points at the nearest thing around it.
func (s *Source) Fault(path, msg, hint string) Fault {
	return s.fault(path, msg, hint, false)
}

// FaultKey returns a fault at the key of a dotted path rather than at its value.
func (s *Source) FaultKey(path, msg, hint string) Fault {
	return s.fault(path, msg, hint, true)
}

func (s *Source) fault(path, msg, hint string, atKey bool) Fault {
	if s == nil {
		return Fault{Field: path, Msg: msg, Hint: hint}
	}
	full := join(s.prefix, path)
	if s.root == nil {
		return Fault{File: s.file, Field: full, Msg: msg, Hint: hint}
	}
	node, key, rest := find(s.root, full)
	inBlock := node.Kind != textNode && node.Style&flowStyle == 0
	if key != nil && (atKey && rest == "" || rest != "" && inBlock) {
		node = key
	}
	return s.faultAt(node, full, msg, hint)
}

func (s *Source) faultAt(n *Node, field, msg, hint string) Fault {
	return s.faultSpan(n.Line, n.Column, s.width(n), field, msg, hint)
}

func (s *Source) faultSpan(line, col, width int, field, msg, hint string) Fault {
	line = min(max(line, 1), len(s.lines))
	f := Fault{File: s.file, Line: line, Col: max(col, 1), Field: field, Msg: msg, Hint: hint, Width: width}
	for i := max(1, line-2); i <= line; i++ {
		f.Context = append(f.Context, s.line(i))
	}
	return f
}

// line returns a line without its line end; n is 1-based.
func (s *Source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	end := len(s.text)
	if n < len(s.lines) {
		end = s.lines[n] - 1
	}
	return strings.TrimSuffix(s.text[s.lines[n-1]:end], "\r")
}

// offset returns the place of a node in the text, in bytes.
func (s *Source) offset(n *Node) int {
	if n.Line < 1 || n.Line > len(s.lines) {
		return len(s.text)
	}
	at := s.lines[n.Line-1]
	for col := 1; col < n.Column && at < len(s.text); col++ {
		_, size := utf8.DecodeRuneInString(s.text[at:])
		at += size
	}
	return at
}

// width returns how many characters of a node stand on its first line.
func (s *Source) width(n *Node) int {
	if n.Kind != textNode {
		return 1
	}
	start := s.offset(n)
	end, ok := s.scalarEnd(n)
	if lineEnd := strings.IndexByte(s.text[start:], '\n'); lineEnd >= 0 && (!ok || end > start+lineEnd) {
		end, ok = start+lineEnd, true
	}
	if !ok {
		end = len(s.text)
	}
	return max(1, utf8.RuneCountInString(strings.TrimRight(s.text[start:end], " \t\r")))
}

// scalarEnd returns the offset behind a plain or quoted scalar. It is not ok
// for block scalars and for plain text that runs over several lines.
func (s *Source) scalarEnd(n *Node) (end int, ok bool) {
	start := s.offset(n)
	rest := s.text[start:]
	switch {
	case n.Style&(literalStyle|foldedStyle) != 0:
		return 0, false
	case n.Style&doubleQuotedStyle != 0:
		for i := 1; i < len(rest); i++ {
			if rest[i] == '\\' {
				i++
			} else if rest[i] == '"' {
				return start + i + 1, true
			}
		}
		return 0, false
	case n.Style&singleQuotedStyle != 0:
		for i := 1; i < len(rest); i++ {
			if strings.HasPrefix(rest[i:], "''") {
				i++
			} else if rest[i] == '\'' {
				return start + i + 1, true
			}
		}
		return 0, false
	}
	return start + len(n.Value), strings.HasPrefix(rest, n.Value)
}

// join puts two dotted paths together.
func join(a, b string) string {
	if a == "" || b == "" || b[0] == '[' {
		return a + b
	}
	return a + "." + b
}

// find walks a dotted path as far as the document goes. It returns the last
// node reached, the key it stands under (nil in lists and at the top) and the
// part of the path that was not found.
func find(n *Node, path string) (node, key *Node, rest string) {
	for path != "" {
		var k, v *Node
		var tail string
		switch n.Kind {
		case mapNode:
			k, v, tail = findKey(n, path)
		case listNode:
			v, tail = findIndex(n, path)
		}
		if v == nil {
			return n, key, path
		}
		n, key, path = v, k, tail
	}
	return n, key, ""
}

// findKey finds the longest key of a mapping that the path begins with; keys
// may have dots in them.
func findKey(n *Node, path string) (key, value *Node, tail string) {
	path = strings.TrimPrefix(path, ".")
	longest := -1
	for i := 0; i+1 < len(n.Content); i += 2 {
		name := n.Content[i].Value
		after, ok := strings.CutPrefix(path, name)
		if ok && len(name) > longest && (after == "" || after[0] == '.' || after[0] == '[') {
			key, value, tail, longest = n.Content[i], n.Content[i+1], after, len(name)
		}
	}
	return key, value, tail
}

func findIndex(n *Node, path string) (value *Node, tail string) {
	inside, tail, ok := strings.Cut(strings.TrimPrefix(path, "["), "]")
	if !ok || path[0] != '[' {
		return nil, path
	}
	i, err := strconv.Atoi(inside)
	if err != nil || i < 0 || i >= len(n.Content) {
		return nil, path
	}
	return n.Content[i], tail
}
