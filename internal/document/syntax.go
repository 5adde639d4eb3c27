// SPDX-License-Identifier: MIT

//go:build !js

package document

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// missingSpace finds "name:Ferry Brown", a key whose colon has no space after it.
var missingSpace = regexp.MustCompile(`^\s*(?:- +)*[\pL_][\pL\pN_-]*(:)[^\s:/]`)

// syntaxFault turns an error of the YAML library into words a brewer can use.
func (s *Source) syntaxFault(err error) Fault {
	e := loadError(err)
	line, col := e.Mark.Line, e.Mark.Column
	contextLine, contextCol := e.ContextMark.Line, e.ContextMark.Column
	has := func(part string) bool { return strings.Contains(e.Message, part) }
	switch {
	case has("found multiple"):
		return s.secondDocumentFault()
	case has("no documents"):
		return s.faultSpan(1, 1, 1, "", "the document is empty", "begin with a line such as gyle: recipe/1")
	}
	if tab, ok := s.tabNear(line); ok {
		return tab
	}
	switch {
	case has("mapping values are not allowed"):
		return s.colonFault(line, col)
	case has("could not find expected ':'"):
		return s.keyFault(contextLine, contextCol)
	case has("expected ',' or"):
		return s.bracketFault(contextLine, contextCol)
	case strings.Contains(e.ContextMsg, "quoted scalar") && has("end of stream"):
		return s.faultSpan(contextLine, contextCol, 1, "", "the quote that opens here is never closed", "close it with the same quote mark")
	case has("unknown escape"):
		return s.faultSpan(line, col, 2, "", `no such escape after \`, `write \\ for a backslash, or use single quotes`)
	case has("cannot start any token") || strings.Contains(e.ContextMsg, "alias") || strings.Contains(e.ContextMsg, "anchor"):
		return s.startFault(contextLine, contextCol)
	case has("block sequence entries"):
		return s.faultSpan(line, col, 1, "", "a list cannot begin here", `begin it on the next line, or put quotes around a text that begins with "- "`)
	case has("expected '-' indicator") || has("expected key"):
		return s.faultSpan(line, col, 1, "", "this does not fit to the lines above",
			"compare the indentation with the lines above, and look for a bracket or quote too many or too few")
	case has("incompatible YAML") || has("directive"):
		return s.faultSpan(max(line, 1), 1, 1, "", "a line that begins with % is not understood", "delete it")
	}
	return s.faultSpan(line, col, 1, "", "cannot read this: "+e.Message, "compare the indentation, colons and quotes with the lines above")
}

func (s *Source) secondDocumentFault() Fault {
	line := s.secondDocument()
	if line == 0 {
		line = len(s.lines)
	}
	for i := line; i > 1; i-- {
		if strings.HasPrefix(s.line(i), "---") {
			line = i
			break
		}
	}
	return s.faultSpan(line, 1, 3, "", "a second document begins here", "a file holds one document: put this part into a file of its own")
}

// tabNear looks for a tab in the indentation of a line or of the one before.
func (s *Source) tabNear(line int) (Fault, bool) {
	for i := max(1, line-1); i <= line; i++ {
		text := s.line(i)
		indent := text[:len(text)-len(strings.TrimLeft(text, " \t"))]
		if at := strings.IndexByte(indent, '\t'); at >= 0 && strings.TrimSpace(text) != "" {
			return s.faultSpan(i, at+1, len(indent)-at, "", "a tab in the indentation", "indent with spaces"), true
		}
	}
	return Fault{}, false
}

// missingSpaceFault looks for a colon without a space on a line.
func (s *Source) missingSpaceFault(line int) (Fault, bool) {
	text := s.line(line)
	at := missingSpace.FindStringSubmatchIndex(text)
	if at == nil {
		return Fault{}, false
	}
	col := utf8.RuneCountInString(text[:at[2]]) + 1
	fixed := strings.TrimSpace(text[:at[3]] + " " + text[at[3]:])
	return s.faultSpan(line, col, 1, "", "a space is missing after the colon", "write "+clip(fixed)), true
}

// colonFault explains a colon where none can stand.
func (s *Source) colonFault(line, col int) Fault {
	before := runePrefix(s.line(line), col-1)
	key, value, inside := strings.Cut(before, ": ")
	if inside {
		text := strings.TrimSpace(s.line(line)[len(key)+2:])
		start := utf8.RuneCountInString(key) + 3 + utf8.RuneCountInString(value) - utf8.RuneCountInString(strings.TrimLeft(value, " "))
		hint := "put quotes around the text: " + strings.TrimLeft(key, " -") + ": " + quoted(clip(text))
		return s.faultSpan(line, start, utf8.RuneCountInString(text), "", `the text holds ": ", which begins a new key`, hint)
	}
	for i := line - 1; i > 0; i-- {
		if f, ok := s.missingSpaceFault(i); ok {
			return f
		}
		if strings.TrimSpace(s.line(i)) != "" {
			break
		}
	}
	start := len(before) - len(strings.TrimLeft(before, " ")) + 1
	return s.faultSpan(line, start, max(1, col-start), "", "this key is indented more than the line above allows",
		"start it in the same column as the key before it")
}

// keyFault explains a line without a key.
func (s *Source) keyFault(line, col int) Fault {
	if f, ok := s.missingSpaceFault(line); ok {
		return f
	}
	width := utf8.RuneCountInString(strings.TrimSpace(s.line(line)))
	return s.faultSpan(line, col, max(1, width), "", "this line has no key", `write "key: value", or "- value" in a list`)
}

// bracketFault explains an opening bracket that has no partner.
func (s *Source) bracketFault(line, col int) Fault {
	rest := s.line(line)[len(runePrefix(s.line(line), col-1)):]
	open, end := "[", "]"
	if strings.HasPrefix(rest, "{") {
		open, end = "{", "}"
	}
	hint := fmt.Sprintf("close it with %s, put a comma between entries, and quotes around text that holds , [ ] { or }", end)
	if strings.Contains(rest, " #") {
		hint = fmt.Sprintf("everything after \" #\" is a comment: put quotes around a text that holds it, and close with %s", end)
	}
	return s.faultSpan(line, col, 1, "", fmt.Sprintf("the %s that opens here is not closed properly", open), hint)
}

// startFault explains a character that cannot begin a value.
func (s *Source) startFault(line, col int) Fault {
	text := s.line(line)
	rest := strings.TrimSpace(text[len(runePrefix(text, col-1)):])
	if rest == "" || strings.HasPrefix(text[len(runePrefix(text, col-1)):], "\t") {
		return s.faultSpan(line, col, 1, "", "a tab where a value is expected", "use spaces")
	}
	first, _ := utf8.DecodeRuneInString(rest)
	return s.faultSpan(line, col, utf8.RuneCountInString(rest), "", fmt.Sprintf("a text cannot begin with %c", first),
		"put quotes around it: "+quoted(clip(rest)))
}
