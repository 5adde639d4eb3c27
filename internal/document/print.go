// SPDX-License-Identifier: MIT

package document

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestFlow is the longest line that is kept in { } or [ ], in characters.
const longestFlow = 110

// document prints the top map of a document.
func (i *item) document() string {
	var p printer
	for k, value := range i.of {
		p.entry(i.keys[k], value, 0)
	}
	return p.String()
}

type printer struct{ strings.Builder }

func (p *printer) indent(depth int) { p.WriteString(strings.Repeat(" ", depth)) }

// entry prints "key: value" and ends the line. The key stands at the given
// depth; the caller has printed nothing of the line yet.
func (p *printer) entry(key string, value *item, depth int) {
	p.indent(depth)
	p.keyed(key, value, depth)
}

// keyed prints an entry whose key already stands at its place.
func (p *printer) keyed(key string, value *item, depth int) {
	p.WriteString(keyText(key) + ":")
	if line, ok := value.oneLine(depth + utf8.RuneCountInString(key) + 2); ok {
		p.WriteString(" " + line + "\n")
		return
	}
	switch value.form {
	case formText:
		p.literal(value.text, depth+2)
	case formList:
		p.WriteString("\n")
		p.list(value, depth)
	case formMap:
		p.WriteString("\n")
		for k, inner := range value.of {
			p.entry(value.keys[k], inner, depth+2)
		}
	}
}

// list prints the entries of a list, each beginning with "- " at depth.
func (p *printer) list(l *item, depth int) {
	for _, value := range l.of {
		p.indent(depth)
		p.listed(value, depth)
	}
}

// listed prints one entry of a list, from the dash on.
func (p *printer) listed(value *item, depth int) {
	p.WriteString("-")
	if line, ok := value.oneLine(depth + 2); ok {
		p.WriteString(" " + line + "\n")
		return
	}
	switch value.form {
	case formText:
		p.literal(value.text, depth+2)
	case formList:
		p.WriteString(" ")
		p.listed(value.of[0], depth+2)
		p.list(&item{of: value.of[1:]}, depth+2)
	case formMap:
		p.WriteString(" ")
		p.keyed(value.keys[0], value.of[0], depth+2)
		for k, inner := range value.of[1:] {
			p.entry(value.keys[k+1], inner, depth+2)
		}
	}
}

// literal prints text of several lines as a block below its key.
func (p *printer) literal(text string, depth int) {
	header := " |-\n"
	if strings.HasSuffix(text, "\n") {
		header = " |\n"
		text = strings.TrimSuffix(text, "\n")
	}
	p.WriteString(header)
	for line := range strings.SplitSeq(text, "\n") {
		if line != "" {
			p.indent(depth)
		}
		p.WriteString(line + "\n")
	}
}

// oneLine returns the value as it stands behind its key, if it belongs on one
// line: texts without line ends, what is empty, and flow values that fit.
func (i *item) oneLine(column int) (string, bool) {
	switch {
	case i.form == formText:
		if isBlock(i.text) {
			return "", false
		}
		return scalar(i.text, false), true
	case len(i.of) == 0:
		return i.brackets(), true
	case !i.flow || !i.fitsFlow():
		return "", false
	}
	line := i.brackets()
	return line, column+utf8.RuneCountInString(line) <= longestFlow
}

// fitsFlow reports whether no text inside has several lines.
func (i *item) fitsFlow() bool {
	if i.form == formText {
		return !isBlock(i.text)
	}
	for _, inner := range i.of {
		if !inner.fitsFlow() {
			return false
		}
	}
	return true
}

// brackets prints the value in { } or [ ].
func (i *item) brackets() string {
	parts := make([]string, len(i.of))
	for k, inner := range i.of {
		switch inner.form {
		case formText:
			parts[k] = scalar(inner.text, true)
		default:
			parts[k] = inner.brackets()
		}
		if i.form == formMap {
			parts[k] = keyText(i.keys[k]) + ": " + parts[k]
		}
	}
	if i.form == formMap {
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// isBlock reports whether a text is printed as a block of lines. Texts whose
// blanks would not survive there are quoted instead.
func isBlock(text string) bool {
	if !strings.Contains(text, "\n") || strings.HasSuffix(text, "\n\n") || strings.HasPrefix(text, "\n") {
		return false
	}
	for line := range strings.SplitSeq(text, "\n") {
		if line != "" && strings.TrimSpace(line) == "" {
			return false
		}
	}
	return text[0] != ' ' && text[0] != '\t' && strings.IndexFunc(text, mustEscape) < 0
}

// mustEscape reports whether a character can only be written as an escape.
func mustEscape(r rune) bool {
	return r != '\n' && r != '\t' && (unicode.IsControl(r) || r == 0x2028 || r == 0x2029 || r == 0xfeff || r == 0xfffe || r == 0xffff)
}

func keyText(key string) string { return scalar(key, true) }

// scalar writes a text on one line, with quotes only when needed. Inside { }
// and [ ] more characters need them.
func scalar(text string, flow bool) string {
	if needsQuotes(text, flow) {
		return quoted(text)
	}
	return text
}

func needsQuotes(text string, flow bool) bool {
	if text == "" || text != strings.TrimSpace(text) || text == "<<" {
		return true
	}
	if strings.ContainsRune(",[]{}#&*!|>'\"%@`", rune(text[0])) {
		return true
	}
	if strings.ContainsRune("-?:", rune(text[0])) && (flow && text[0] != '-' || len(text) == 1 || text[1] == ' ') {
		return true
	}
	if strings.HasPrefix(text, "---") || strings.HasPrefix(text, "...") {
		return true
	}
	if strings.Contains(text, ": ") || strings.Contains(text, " #") || strings.HasSuffix(text, ":") {
		return true
	}
	if flow && strings.ContainsAny(text, ",[]{}") {
		return true
	}
	return strings.ContainsAny(text, "\n\t") || strings.IndexFunc(text, mustEscape) >= 0
}

// quoted writes a text in double quotes.
func quoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case mustEscape(r):
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
