// SPDX-License-Identifier: MIT

package document

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"
)

// Splice replaces the scalar at a dotted path, such as "grist[2].share", by a
// new value and leaves every other byte of the text as it is: comments, blank
// lines, spacing and line ends. Quotes are added when the new value needs them.
//
// The result is read again before it is returned; if anything but that value
// has changed, Splice returns an error and no text. It cannot replace plain
// text that runs over several lines, nor a block of lines with a comment
// behind its "|".
func Splice(src []byte, path, newValue string) ([]byte, error) {
	out, err := splice(src, path, newValue)
	if err != nil {
		return nil, fmt.Errorf("replace %s: %w", path, err)
	}
	return out, nil
}

func splice(src []byte, path, newValue string) ([]byte, error) {
	if !utf8.ValidString(newValue) || strings.ContainsRune(newValue, 0) {
		return nil, errors.New("the new value holds a NUL or bytes that are not UTF-8")
	}
	s := newSource("", src)
	if faults := s.parse(); len(faults) > 0 {
		return nil, faults
	}
	node, _, rest := find(s.root, path)
	if rest != "" {
		return nil, errors.New("the document has no such value")
	}
	if node.Kind != textNode {
		return nil, fmt.Errorf("found %s there, not one value", describe(node))
	}
	start, end, text, err := s.replacement(node, newValue, s.inFlow(path))
	if err != nil {
		return nil, err
	}
	out := []byte(s.text[:start] + text + s.text[end:])
	if err := verifySplice(s.root, node, out, newValue); err != nil {
		return nil, err
	}
	if len(src) > len(s.text) {
		out = append([]byte(byteOrderMark), out...)
	}
	return out, nil
}

// replacement returns which bytes to replace, and by what.
func (s *Source) replacement(n *Node, newValue string, flow bool) (start, end int, text string, err error) {
	start, text = s.offset(n), scalar(newValue, flow)
	if isEmpty(n) {
		if start > 0 && s.text[start-1] == ':' {
			text = " " + text
		}
		return start, start, text, nil
	}
	if n.Style&(literalStyle|foldedStyle) != 0 {
		return s.blockReplacement(start, n.Line, newValue)
	}
	end, ok := s.scalarEnd(n)
	if !ok {
		return 0, 0, "", errors.New("the old text runs over several lines; change it by hand")
	}
	return start, end, text, nil
}

// blockReplacement replaces a block of lines that begins with | or >.
func (s *Source) blockReplacement(start, headLine int, newValue string) (from, end int, text string, err error) {
	head := strings.TrimSuffix(s.text[start:s.lineEnd(headLine)], "\r")
	if strings.Contains(head, "#") {
		return 0, 0, "", errors.New("a comment stands behind the | or >; change it by hand")
	}
	indent, last := 0, headLine
	for i := headLine + 1; i <= len(s.lines); i++ {
		line := s.line(i)
		if strings.TrimSpace(line) == "" {
			continue
		}
		own := len(line) - len(strings.TrimLeft(line, " "))
		if indent == 0 {
			indent = own
		}
		if own < indent || own == 0 {
			break
		}
		last = i
	}
	end = s.lines[last-1] + len(s.line(last))
	if indent == 0 || !isBlock(newValue) {
		return start, end, scalar(newValue, false), nil
	}
	return start, end, s.block(newValue, indent), nil
}

// block writes lines as a literal block, with the line ends of the document.
func (s *Source) block(text string, indent int) string {
	header, lineEnd := "|-", "\n"
	if body, ok := strings.CutSuffix(text, "\n"); ok {
		header, text = "|", body
	}
	if strings.Contains(s.text, "\r\n") {
		lineEnd = "\r\n"
	}
	var b strings.Builder
	b.WriteString(header)
	for line := range strings.SplitSeq(text, "\n") {
		b.WriteString(lineEnd)
		if line != "" {
			b.WriteString(strings.Repeat(" ", indent) + line)
		}
	}
	return b.String()
}

// lineEnd returns the offset of the line feed that ends a line.
func (s *Source) lineEnd(n int) int {
	if n < len(s.lines) {
		return s.lines[n] - 1
	}
	return len(s.text)
}

// inFlow reports whether the value at path stands inside { } or [ ].
func (s *Source) inFlow(path string) bool {
	n := s.root
	for path != "" {
		if n.Style&flowStyle != 0 {
			return true
		}
		var v *Node
		if n.Kind == mapNode {
			_, v, path = findKey(n, path)
		} else {
			v, path = findIndex(n, path)
		}
		n = v
	}
	return false
}

// verifySplice compares the spliced text with the tree of the old one: they
// must agree in everything but the value at node.
func verifySplice(old, node *Node, out []byte, newValue string) error {
	spliced := newSource("", out)
	if faults := spliced.parse(); len(faults) > 0 {
		return fmt.Errorf("the new value does not fit into the text there: %s", faults[0].Msg)
	}
	if !same(old, spliced.root, node, newValue) {
		return errors.New("the new value does not fit into the text there")
	}
	return nil
}

// same compares two trees, of which one has a new value in place of changed.
func same(a, b, changed *Node, newValue string) bool {
	value := a.Value
	if a == changed {
		value = newValue
	}
	if a.Kind != b.Kind || b.Value != value || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !same(a.Content[i], b.Content[i], changed, newValue) {
			return false
		}
	}
	return true
}
