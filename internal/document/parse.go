// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Limits of a document. The largest the program itself writes, a gyle with a
// long log, stays far below them.
const (
	maxBytes  = 1 << 20
	maxDepth  = 32
	maxNodes  = 100_000
	maxKey    = 100 // characters
	maxFaults = 200

	// The time the YAML library takes grows with the square of the number of
	// comments.
	maxComments = 10_000
)

// parse reads the text into s.root and checks what holds for every document.
func (s *Source) parse() Faults { return s.parseBy(s.tree) }

func (s *Source) parseBy(tree func() (*Node, Faults)) Faults {
	if faults := s.checkText(); len(faults) > 0 {
		return faults
	}
	root, faults := tree()
	if len(faults) > 0 {
		return faults
	}
	if root == nil {
		return Faults{s.faultSpan(1, 1, 1, "", "the document is empty", "begin with a line such as gyle: recipe/1")}
	}
	check := treeCheck{source: s}
	check.walk(root, "", 1)
	if len(check.faults) > 0 {
		return check.faults
	}
	s.root = root
	return nil
}

// checkText looks for bytes that no document may hold.
func (s *Source) checkText() Faults {
	if kind := foreignFile(s.text); kind != "" {
		return Faults{{File: s.file, Line: 1, Col: 1, Msg: "this is " + kind, Hint: "a document is plain text in UTF-8; it begins with a line such as gyle: recipe/1"}}
	}
	if len(s.text) > maxBytes {
		return Faults{{File: s.file, Line: 1, Col: 1, Msg: fmt.Sprintf("the document has %d bytes, more than the limit of %d", len(s.text), maxBytes),
			Hint: "split it into several documents"}}
	}
	if strings.Count(s.text, " #")+strings.Count(s.text, "\n#") > maxComments {
		return Faults{{File: s.file, Line: 1, Col: 1, Msg: fmt.Sprintf("the document has more than %d comments", maxComments), Hint: "delete some"}}
	}
	var faults Faults
	line, lineStart := 1, 0
	for i := 0; i < len(s.text) && len(faults) < maxFaults; {
		c := s.text[i]
		if c >= ' ' && c < 0x7f {
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(s.text[i:])
		if msg, hint := badCharacter(r, size, s.text[i:]); msg != "" {
			col := utf8.RuneCountInString(s.text[lineStart:i]) + 1
			faults = append(faults, s.faultSpan(line, col, 1, "", msg, hint))
		}
		i += size
		if c == '\n' {
			line, lineStart = line+1, i
		}
	}
	return faults
}

// foreignFile tells what a file is that is no text of ours, so that it gets one
// fault and not one for each byte.
func foreignFile(text string) string {
	switch {
	case strings.HasPrefix(text, "\xff\xfe"), strings.HasPrefix(text, "\xfe\xff"):
		return "a text in the encoding UTF-16"
	case strings.HasPrefix(text, "PK\x03\x04"):
		return "a packed file, perhaps of a word processor or a spreadsheet"
	case strings.HasPrefix(text, "%PDF"):
		return "a PDF file"
	case strings.HasPrefix(text, "SQLite format 3\x00"):
		return "a database, perhaps a gyle book"
	}
	begin, strange := text[:min(len(text), 512)], 0
	for i, r := range begin {
		if r == 0 || r == utf8.RuneError && len(begin)-i > utf8.UTFMax || r < ' ' && r != '\n' && r != '\r' && r != '\t' {
			strange++
		}
	}
	const most = 0.1 // of the characters: above it the rest isn't worth reading
	if strange > 1 && float64(strange) > most*float64(utf8.RuneCountInString(begin)) {
		return "no text file"
	}
	return ""
}

func badCharacter(r rune, size int, text string) (msg, hint string) {
	switch {
	case r == utf8.RuneError && size == 1:
		return "this byte is not UTF-8 text", "save the file with the encoding UTF-8"
	case r == 0:
		return "a NUL byte", "delete it; the file may be damaged or not a text file"
	case r == '\r' && !strings.HasPrefix(text, "\r\n"):
		return "a carriage return without a line feed", "save the file with Unix or Windows line ends"
	case r == '\n' || r == '\r' || r == '\t':
		return "", ""
	case r < ' ' || r >= 0x7f && r < 0xa0:
		return fmt.Sprintf("the control character U+%04X", r), "delete it"
	case r == 0x2028 || r == 0x2029 || r == 0xfeff || r >= 0xfffe && r <= 0xffff:
		return fmt.Sprintf("the invisible character U+%04X", r), "delete it or begin a new line"
	}
	return "", ""
}

// A treeCheck refuses what the format leaves out of YAML and enforces the limits.
type treeCheck struct {
	source *Source
	faults Faults
	nodes  int
	full   bool // stop looking

	// Where the last text in double quotes began. Nodes come in the order of
	// the text, so the next one is found from here even on a very long line.
	line, col, offset int
}

func (c *treeCheck) add(n *Node, field, msg, hint string) {
	c.faults = append(c.faults, c.source.faultAt(n, field, msg, hint))
	c.full = c.full || len(c.faults) >= maxFaults
}

func (c *treeCheck) walk(n *Node, path string, depth int) {
	c.nodes++
	if c.full {
		return
	}
	switch {
	case c.nodes > maxNodes:
		c.full = true
		c.add(n, "", fmt.Sprintf("the document has more than %d values", maxNodes), "split it into several documents")
		return
	case depth > maxDepth:
		c.full = true
		c.add(n, "", fmt.Sprintf("nested more than %d deep", maxDepth), "look for a bracket too many")
		return
	}
	c.checkNode(n, path)
	if n.Kind == mapNode {
		for i := 0; i+1 < len(n.Content); i += 2 {
			c.checkKey(n.Content[i], path)
			c.walk(n.Content[i+1], "", depth+1)
		}
		return
	}
	for _, item := range n.Content {
		c.walk(item, "", depth+1)
	}
}

func (c *treeCheck) checkNode(n *Node, path string) {
	switch {
	case n.anchored:
		c.add(n, path, "a value begins with & (an anchor)", "gyle documents have no anchors; put quotes around text that begins with &")
	case n.Kind == aliasNode:
		c.add(n, path, "a value begins with * (an alias)", "gyle documents have no aliases: write the value again, or put quotes around text that begins with *")
	case n.Style&taggedStyle != 0:
		c.add(n, path, "a value begins with ! (a tag)", "gyle documents have no tags; put quotes around text that begins with !")
	case n.Kind == textNode && strings.ContainsRune(n.Value, 0):
		c.add(n, path, "the text holds a NUL character", "delete it")
	case c.strangeEscape(n):
		c.add(n, path, "the text holds an escape that is not used here", `write \\ for a backslash, or use single quotes`)
	case cutByComment(n):
		c.add(n, path, "the text ends before #, the rest would be lost as a comment",
			`put quotes around the whole text, or a space after # if a comment is meant`)
	}
}

// strangeEscape reports whether a text in double quotes holds an escape such as
// \r or \b, which is more likely the beginning of a word.
func (c *treeCheck) strangeEscape(n *Node) bool {
	if n.Style&doubleQuotedStyle == 0 {
		return false
	}
	text := c.source.text
	for i := c.seek(n) + 1; i+1 < len(text) && text[i] != '"'; i++ {
		if text[i] != '\\' {
			continue
		}
		i++
		if !strings.ContainsRune("\\\"/ntxuU \r\n", rune(text[i])) {
			return true
		}
	}
	return false
}

// seek returns the offset of a node that stands behind the last one sought.
func (c *treeCheck) seek(n *Node) int {
	if n.Line != c.line || n.Column < c.col {
		c.line, c.col, c.offset = n.Line, 1, c.source.lines[n.Line-1]
	}
	for ; c.col < n.Column && c.offset < len(c.source.text); c.col++ {
		_, size := utf8.DecodeRuneInString(c.source.text[c.offset:])
		c.offset += size
	}
	return c.offset
}

// cutByComment reports whether a plain text is followed by something like
// "#5", which is more likely a part of it than a comment.
func cutByComment(n *Node) bool {
	if n.comments == nil {
		return false
	}
	comment := n.comments.line
	return n.Kind == textNode && n.Style == 0 && len(comment) > 1 && comment[1] >= '0' && comment[1] <= '9'
}

func (c *treeCheck) checkKey(n *Node, path string) {
	c.nodes++
	switch {
	case n.Kind != textNode:
		c.add(n, path, "found "+describe(n)+" where a key is expected", "a key is a word, as in name: Ferry Brown")
	case n.Value == "":
		c.add(n, path, "a key is empty", "write a word before the colon")
	case utf8.RuneCountInString(n.Value) > maxKey:
		c.add(n, path, fmt.Sprintf("a key is longer than %d characters", maxKey), "put quotes around a text that has a colon in it")
	default:
		c.checkNode(n, path)
	}
}

// describe says what a node is, in words.
func describe(n *Node) string {
	switch n.Kind {
	case listNode:
		return "a list"
	case mapNode:
		return "keys and values"
	case aliasNode:
		return "an alias"
	}
	if isEmpty(n) {
		return "nothing"
	}
	return "a text"
}

// isEmpty reports whether nothing was written where a value belongs.
func isEmpty(n *Node) bool {
	return n.Kind == textNode && n.Value == "" && n.Style == 0
}

// clip shortens a text that is quoted in a hint.
func clip(text string) string {
	const longest = 60
	if runes := []rune(text); len(runes) > longest {
		return string(runes[:longest]) + "…"
	}
	return text
}
