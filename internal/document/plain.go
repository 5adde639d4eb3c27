// SPDX-License-Identifier: MIT

package document

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// readPlain reads the part of YAML that the printer of this package writes:
// maps and lists in block form, { } and [ ] on one line, texts on one line,
// blocks behind | and |-, comments. Anything else is an error, never a guess.
//
// It stands in for the YAML library where a page carries the program along and
// every kilobyte counts. Nodes get the place, kind, style and value that the
// library gives them; tests compare the two.
func readPlain(text string) (*Node, error) {
	r := &plainReader{lines: strings.Split(strings.TrimSuffix(strings.ReplaceAll(text, "\r\n", "\n"), "\n"), "\n")}
	root := r.block(0)
	if r.next(); r.err == nil && r.at < len(r.lines) {
		r.fail("this does not fit to the lines above")
	}
	if r.err == nil && root == nil {
		r.fail("the document is empty")
	}
	return root, r.err
}

type plainReader struct {
	lines []string
	at    int // the line that is read, from 0
	err   error
}

// errPlain is a fault of a text that readPlain doesn't read.
type errPlain struct {
	Line, Column int
	Msg          string
}

func (e errPlain) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Msg)
}

func (r *plainReader) fail(msg string) { r.failAt(r.indent()+1, msg) }

func (r *plainReader) failAt(column int, msg string) {
	if r.err == nil {
		r.err = errPlain{Line: min(r.at+1, max(1, len(r.lines))), Column: column, Msg: msg}
	}
	r.at = len(r.lines) // nothing more is read
}

// next goes on to the next line that says something.
func (r *plainReader) next() {
	for r.at < len(r.lines) {
		if text := strings.TrimLeft(r.lines[r.at], " "); text != "" && text[0] != '#' {
			return
		}
		r.at++
	}
}

// indent returns how many spaces the line begins with, -1 behind the last one.
func (r *plainReader) indent() int {
	if r.at >= len(r.lines) {
		return -1
	}
	return len(r.lines[r.at]) - len(strings.TrimLeft(r.lines[r.at], " "))
}

// isEntry reports whether the line is an entry of a list.
func (r *plainReader) isEntry() bool {
	rest := r.lines[r.at][r.indent():]
	return rest == "-" || strings.HasPrefix(rest, "- ")
}

// block reads a list, a map or a value that stands at least this deep.
func (r *plainReader) block(least int) *Node {
	r.next()
	depth := r.indent()
	switch {
	case depth < least:
		return nil
	case r.isEntry():
		return r.list(depth)
	}
	if line := r.lines[r.at]; strings.HasPrefix(line, "---") || strings.HasPrefix(line, "...") {
		r.fail("one document only")
		return nil
	}
	if rest := r.lines[r.at][depth:]; isInline(rest) {
		n := r.value(rest, depth)
		r.at++
		return n
	}
	return r.mapping(depth)
}

// isInline reports whether a line is a value and not a key with its value.
func isInline(rest string) bool {
	switch rest[0] {
	case '[', '{', '|':
		return true
	case '"', '\'':
		s := plainScan{text: rest}
		s.quoted()
		return !strings.HasPrefix(strings.TrimLeft(rest[min(s.at, len(rest)):], " "), ":")
	}
	return colon(rest) < 0
}

// colon returns where the colon behind a plain key stands, -1 where none does.
func colon(rest string) int {
	end := len(rest)
	if i := strings.Index(rest, " #"); i >= 0 {
		end = i
	}
	if i := strings.Index(rest[:end], ": "); i >= 0 {
		return i
	}
	if trimmed := strings.TrimRight(rest[:end], " "); strings.HasSuffix(trimmed, ":") {
		return len(trimmed) - 1
	}
	return -1
}

func (r *plainReader) list(depth int) *Node {
	n := &Node{Kind: listNode, Tag: "!!seq", Line: r.at + 1, Column: depth + 1}
	for r.next(); r.err == nil && r.indent() == depth && r.isEntry(); r.next() {
		line := r.lines[r.at]
		rest := strings.TrimLeft(line[depth+1:], " ")
		if rest == "" || rest[0] == '#' {
			at := &Node{Line: r.at + 1, Column: depth + 2}
			r.at++
			n.Content = append(n.Content, r.nested(depth+1, at))
			continue
		}
		if strings.HasPrefix(rest, "|") {
			n.Content = append(n.Content, r.literal(rest, depth, len(line)-len(rest)))
			continue
		}
		r.lines[r.at] = line[:depth] + " " + line[depth+1:] // what follows the dash stands as if on a line of its own
		n.Content = append(n.Content, r.block(depth+1))
	}
	return n
}

// nested reads what stands below a key or a dash, or nothing.
func (r *plainReader) nested(least int, nothing *Node) *Node {
	if n := r.block(least); n != nil {
		return n
	}
	nothing.Kind, nothing.Tag = textNode, "!!null"
	return nothing
}

func (r *plainReader) mapping(depth int) *Node {
	n := &Node{Kind: mapNode, Tag: "!!map", Line: r.at + 1, Column: depth + 1}
	for r.next(); r.err == nil && r.indent() == depth && !r.isEntry(); r.next() {
		key, rest := r.key(depth)
		if key == nil {
			break
		}
		n.Content = append(n.Content, key, r.behindKey(key, rest, depth))
	}
	return n
}

// key reads the key of an entry and returns what stands behind its colon.
func (r *plainReader) key(depth int) (key *Node, rest string) {
	line := r.lines[r.at][depth:]
	s := plainScan{text: line, line: r.at + 1, column: depth + 1}
	if line[0] == '"' || line[0] == '\'' {
		key = s.quoted()
	} else if end := colon(line); end > 0 && !strings.Contains(line[:end], "\t") && !badStart(line) {
		key = s.node(textNode, strings.TrimRight(line[:end], " "))
		key.Tag = "!!str"
		s.at = end
	}
	if key == nil || s.err != "" || !strings.HasPrefix(line[s.at:], ":") {
		r.fail("this line has no key")
		return nil, ""
	}
	return key, line[s.at+1:]
}

func (r *plainReader) behindKey(key *Node, behind string, depth int) *Node {
	rest := strings.TrimLeft(behind, " ")
	start := len(r.lines[r.at]) - len(rest)
	switch {
	case rest == "" || rest[0] == '#':
		nothing := &Node{Line: r.at + 1, Column: utf8.RuneCountInString(strings.TrimRight(r.lines[r.at], " ")) + 1}
		r.at++
		r.next()
		least := depth + 1
		if r.indent() == depth && r.isEntry() {
			least = depth // a list may stand as deep as its key
		}
		return r.nested(least, nothing)
	case rest[0] == '|':
		return r.literal(rest, depth, start)
	}
	n := r.value(rest, start)
	r.at++
	return n
}

// literal reads the lines below | or |-, which stand deeper than their key.
func (r *plainReader) literal(header string, depth, start int) *Node {
	column := utf8.RuneCountInString(r.lines[r.at][:start]) + 1
	n := &Node{Kind: textNode, Style: literalStyle, Tag: "!!str", Line: r.at + 1, Column: column}
	header, _, _ = strings.Cut(header, " #")
	header = strings.TrimRight(header, " ")
	if header != "|" && header != "|-" {
		r.failAt(column, "only | and |- may begin a block of text")
		return n
	}
	var lines []string
	inner := -1
	for r.at++; r.at < len(r.lines); r.at++ {
		line := r.lines[r.at]
		at := r.indent()
		if strings.TrimLeft(line, " ") == "" {
			lines = append(lines, line[min(max(inner, 0), len(line)):])
			continue
		}
		if inner < 0 {
			inner = at
		}
		if at < inner || at <= depth {
			break
		}
		lines = append(lines, line[inner:])
	}
	n.Value = strings.TrimRight(strings.Join(lines, "\n"), "\n")
	if header == "|" && n.Value != "" {
		n.Value += "\n"
	}
	return n
}

// value reads a value that stands on one line.
func (r *plainReader) value(rest string, start int) *Node {
	s := plainScan{text: rest, line: r.at + 1, column: utf8.RuneCountInString(r.lines[r.at][:start]) + 1}
	n := s.value(false)
	if s.err == "" {
		if tail := strings.TrimLeft(s.text[s.at:], " "); tail != "" && (tail[0] != '#' || s.text[len(s.text)-len(tail)-1] != ' ') {
			s.err = "the value should end here"
		}
	}
	if s.err != "" {
		r.failAt(s.place(), s.err)
	}
	return n
}

// plainScan reads one line.
type plainScan struct {
	text         string
	at           int
	line, column int // of the beginning of text
	err          string
}

func (s *plainScan) place() int {
	return s.column + utf8.RuneCountInString(s.text[:min(s.at, len(s.text))])
}

func (s *plainScan) node(kind nodeKind, value string) *Node {
	return &Node{Kind: kind, Value: value, Line: s.line, Column: s.place()}
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
	if badStart(rest) {
		s.err = "a text cannot begin with " + rest[:1]
		return nil
	}
	end := len(rest)
	for i := range len(rest) {
		if endsPlain(rest, i, inside) {
			end = i
			break
		}
	}
	n := s.node(textNode, strings.TrimRight(rest[:end], " "))
	if strings.Contains(rest[:end], "\t") || strings.Contains(rest[:end], ":?") {
		s.err = "this text needs quotes"
	}
	n.Tag = "!!str"
	if n.Value == "" {
		n.Tag = "!!null"
	}
	s.at += end
	return n
}

// badStart reports whether a text begins with what means something else.
func badStart(rest string) bool {
	return strings.ContainsRune("&*!%@`|>,[]{}", rune(rest[0])) || rest == "?" || strings.HasPrefix(rest, "? ")
}

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
	n := s.node(kind, "")
	n.Style, n.Tag = flowStyle, "!!seq"
	if kind == mapNode {
		n.Tag = "!!map"
	}
	for s.at++; s.err == ""; {
		if s.space(); s.at < len(s.text) && s.text[s.at] == end {
			s.at++
			return n
		}
		n.Content = append(n.Content, s.value(true))
		if kind == mapNode {
			n.Content = append(n.Content, s.keyed())
		}
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

// keyed reads what follows a key between braces.
func (s *plainScan) keyed() *Node {
	if s.space(); s.err != "" || s.at >= len(s.text) || s.text[s.at] != ':' {
		s.err = cmp.Or(s.err, "a key between braces has no colon")
		return nil
	}
	s.at++
	if s.space(); s.at < len(s.text) && (s.text[s.at] == ',' || s.text[s.at] == '}') {
		return &Node{Kind: textNode, Tag: "!!null", Line: s.line, Column: s.place()}
	}
	return s.value(true)
}

// quoted reads a text in quotes.
func (s *plainScan) quoted() *Node {
	n := s.node(textNode, "")
	n.Tag = "!!str"
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
