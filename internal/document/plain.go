// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// readPlain reads the part of YAML that the printer of this package writes:
// maps and lists in block form, { } and [ ] on one line, texts on one line,
// blocks behind | and |-, comments. Anything else is an error, never a guess.
//
// It stands in for the YAML library where a page carries the program along and
// every kilobyte counts. Nodes get the place, kind, style and value that the
// library gives them; tests compare the two. [readCanonical] reads less, and
// does so beside the library.
func readPlain(text string) (*Node, error) {
	return newPlainReader(strings.ReplaceAll(text, "\r\n", "\n")).document()
}

type plainReader struct {
	lines []string
	at    int // the line that is read, from 0
	from  int // where it begins: a dash before it counts as a blank
	deep  int // lists and maps that are open
	err   error

	canonical bool // refuse whatever the printer doesn't write, comments too
	spare     []Node
	parts     []*Node // of the lists and maps that are open
	places    []*Node // room for the parts of those that are closed
}

// readCanonical reads a text that is written just as the printer writes: no
// comments, no tabs, nothing without a value. It takes a tenth of the time that
// the YAML library takes, and what it reads is to the last column what the
// library reads; tests and a fuzz target compare them. All other texts are
// refused, the faulty ones among them, so that the library judges them.
func readCanonical(text string) (*Node, error) {
	r := newPlainReader(text)
	switch {
	case strings.IndexByte(text, '\r') >= 0 || strings.IndexByte(text, '\t') >= 0:
		r.fail("the printer writes no tabs and no carriage returns")
	case !strings.HasSuffix(text, "\n"):
		r.fail("the printer ends the last line")
	case strings.Contains(text, "\n---") || strings.Contains(text, "\n..."):
		r.fail("one document only")
	}
	r.canonical = true
	return r.document()
}

func newPlainReader(text string) *plainReader {
	return &plainReader{lines: strings.Split(strings.TrimSuffix(text, "\n"), "\n")}
}

func (r *plainReader) document() (*Node, error) {
	root := r.block(0)
	if r.next(); r.err == nil && r.at < len(r.lines) {
		r.fail("this does not fit to the lines above")
	}
	if r.err == nil && root == nil {
		r.fail("the document is empty")
	}
	return root, r.err
}

// node makes a node. Nodes are made by the hundred: a long log has many.
func (r *plainReader) node(kind nodeKind, tag, value string, line, column int) *Node {
	if len(r.spare) == 0 {
		r.spare = make([]Node, 128)
	}
	n := &r.spare[0]
	r.spare = r.spare[1:]
	n.Kind, n.Tag, n.Value, n.Line, n.Column = kind, tag, value, line, column
	return n
}

// begin marks where the parts of a list or map begin, add adds one, and end
// takes those since the mark.
func (r *plainReader) begin() (mark int) { return len(r.parts) }

func (r *plainReader) add(n *Node) { r.parts = append(r.parts, n) }

func (r *plainReader) end(mark int) []*Node {
	count := len(r.parts) - mark
	if count == 0 {
		return nil
	}
	if len(r.places) < count {
		r.places = make([]*Node, max(count, 512))
	}
	out := r.places[:count:count]
	r.places = r.places[count:]
	copy(out, r.parts[mark:])
	r.parts = r.parts[:mark]
	return out
}

// open notes that a list or map begins, and reports whether it may.
func (r *plainReader) open() bool {
	if r.deep++; r.deep > 2*maxDepth {
		r.fail("nested too deep")
		return false
	}
	return true
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

// line ends one line and goes on to the next.
func (r *plainReader) line() { r.at, r.from = r.at+1, 0 }

// next goes on to the next line that says something.
func (r *plainReader) next() {
	for ; r.at < len(r.lines); r.line() {
		text := r.lines[r.at]
		at := r.indent()
		switch {
		case at == len(text):
		case text[at] != '#':
			return
		case r.canonical:
			r.fail(noComments)
			return
		}
	}
}

const noComments = "the printer writes no comments"

// indent returns how many spaces the line begins with, -1 behind the last one.
func (r *plainReader) indent() int {
	if r.at >= len(r.lines) {
		return -1
	}
	text, at := r.lines[r.at], r.from
	for at < len(text) && text[at] == ' ' {
		at++
	}
	return at
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
	if rest := r.lines[r.at][depth:]; r.isInline(rest) {
		n := r.value(rest, depth)
		r.line()
		return n
	}
	return r.mapping(depth)
}

// isInline reports whether a line is a value and not a key with its value.
func (r *plainReader) isInline(rest string) bool {
	switch rest[0] {
	case '[', '{', '|':
		return true
	case '"', '\'':
		s := plainScan{reader: r, text: rest}
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
	n := r.node(listNode, "!!seq", "", r.at+1, depth+1)
	if !r.open() {
		return n
	}
	parts := r.begin()
	for r.next(); r.err == nil && r.indent() == depth && r.isEntry(); r.next() {
		line := r.lines[r.at]
		rest := strings.TrimLeft(line[depth+1:], " ")
		if rest == "" || rest[0] == '#' {
			at := &Node{Line: r.at + 1, Column: depth + 2}
			r.noComment(rest)
			r.line()
			r.add(r.nested(depth+1, at))
			continue
		}
		if strings.HasPrefix(rest, "|") {
			r.add(r.literal(rest, depth, len(line)-len(rest)))
			continue
		}
		r.from = depth + 1 // what follows the dash stands as if on a line of its own
		r.add(r.block(depth + 1))
	}
	n.Content = r.end(parts)
	r.deep--
	return n
}

// noComment refuses a comment behind a key or a dash where there should be none.
func (r *plainReader) noComment(rest string) {
	if r.canonical && rest != "" {
		r.fail(noComments)
	}
}

// nested reads what stands below a key or a dash, or nothing.
func (r *plainReader) nested(least int, nothing *Node) *Node {
	if n := r.block(least); n != nil {
		return n
	}
	if r.canonical {
		r.fail("the printer writes nothing without a value")
	}
	nothing.Kind, nothing.Tag = textNode, "!!null"
	return nothing
}

func (r *plainReader) mapping(depth int) *Node {
	n := r.node(mapNode, "!!map", "", r.at+1, depth+1)
	if !r.open() {
		return n
	}
	parts := r.begin()
	for r.next(); r.err == nil && r.indent() == depth && !r.isEntry(); r.next() {
		key, rest := r.key(depth)
		if key == nil {
			break
		}
		r.add(key)
		r.add(r.behindKey(key, rest, depth))
	}
	n.Content = r.end(parts)
	r.deep--
	return n
}

// key reads the key of an entry and returns what stands behind its colon.
func (r *plainReader) key(depth int) (key *Node, rest string) {
	line := r.lines[r.at][depth:]
	s := plainScan{reader: r, text: line, line: r.at + 1, column: depth + 1}
	if line[0] == '"' || line[0] == '\'' {
		key = s.quoted()
	} else if end := colon(line); end > 0 && !strings.Contains(line[:end], "\t") && !r.badStart(line, false) {
		key = s.node(textNode, "!!str", strings.TrimRight(line[:end], " "))
		s.at = end
	}
	if key == nil || r.canonical && len(key.Value) > maxKey || s.err != "" || !endsKey(strings.TrimLeft(line[s.at:], " ")) {
		r.fail("this line has no key")
		return nil, ""
	}
	_, rest, _ = strings.Cut(line[s.at:], ":")
	return key, rest
}

// endsKey reports whether a colon follows that ends a key.
func endsKey(rest string) bool { return rest == ":" || strings.HasPrefix(rest, ": ") }

func (r *plainReader) behindKey(key *Node, behind string, depth int) *Node {
	rest := strings.TrimLeft(behind, " ")
	start := len(r.lines[r.at]) - len(rest)
	switch {
	case rest == "" || rest[0] == '#':
		nothing := &Node{Line: r.at + 1, Column: utf8.RuneCountInString(strings.TrimRight(r.lines[r.at], " ")) + 1}
		r.noComment(rest)
		r.line()
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
	r.line()
	return n
}

// literal reads the lines below | or |-, which stand deeper than their key.
func (r *plainReader) literal(header string, depth, start int) *Node {
	column := utf8.RuneCountInString(r.lines[r.at][:start]) + 1
	n := r.node(textNode, "!!str", "", r.at+1, column)
	n.Style = literalStyle
	if !r.canonical {
		header, _, _ = strings.Cut(header, " #")
		header = strings.TrimRight(header, " ")
	}
	if header != "|" && header != "|-" {
		r.failAt(column, "only | and |- may begin a block of text")
		return n
	}
	var lines []string
	inner := -1
	for r.line(); r.at < len(r.lines); r.line() {
		line := r.lines[r.at]
		at := r.indent()
		if strings.TrimLeft(line, " ") == "" {
			if r.canonical && (line != "" || inner < 0) {
				r.fail("the printer writes no such lines in a text")
				return n
			}
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
	if n.Value = strings.TrimRight(strings.Join(lines, "\n"), "\n"); r.canonical && n.Value == "" {
		r.fail("the printer writes no empty blocks")
	}
	if header == "|" && n.Value != "" {
		n.Value += "\n"
	}
	return n
}

// value reads a value that stands on one line.
func (r *plainReader) value(rest string, start int) *Node {
	s := plainScan{reader: r, text: rest, line: r.at + 1, column: utf8.RuneCountInString(r.lines[r.at][:start]) + 1}
	n := s.value(false)
	if s.err == "" {
		if tail := strings.TrimLeft(s.text[s.at:], " "); tail != "" && (r.canonical || tail[0] != '#' || s.text[len(s.text)-len(tail)-1] != ' ') {
			s.err = "the value should end here"
		}
	}
	if s.err != "" {
		r.failAt(s.place(), s.err)
	}
	return n
}
