// SPDX-License-Identifier: MIT

package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// sheet prints headings, aligned rows and notes, as on a sheet of paper.
type sheet struct {
	w    io.Writer
	rows [][]string
}

// heading begins a part of the sheet.
func (s *sheet) heading(format string, args ...any) {
	s.flush()
	text := fmt.Sprintf(format, args...)
	fmt.Fprintf(s.w, "\n%s\n%s\n", text, strings.Repeat("─", utf8.RuneCountInString(text)))
}

// row adds a row of cells; rows that follow one another are aligned. A cell
// that begins with ">" is set to the right.
func (s *sheet) row(cells ...string) { s.rows = append(s.rows, cells) }

// note prints a paragraph behind a mark, wrapped and indented.
func (s *sheet) note(mark, text string) {
	s.flush()
	const width = 96
	indent := strings.Repeat(" ", utf8.RuneCountInString(mark)+1)
	line := mark + " "
	length := utf8.RuneCountInString(line)
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		if i > 0 && length+1+n > width {
			fmt.Fprintln(s.w, strings.TrimRight(line, " "))
			line, length = indent, len(indent)
		} else if i > 0 {
			line += " "
			length++
		}
		line += word
		length += n
	}
	fmt.Fprintln(s.w, line)
}

// flush prints the rows collected so far.
func (s *sheet) flush() {
	var widths []int
	for _, r := range s.rows {
		for i, c := range r {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(strings.TrimPrefix(c, ">")))
		}
	}
	for _, r := range s.rows {
		var line strings.Builder
		for i, c := range r {
			text, right := strings.CutPrefix(c, ">")
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(text))
			if right {
				text = pad + text
			} else {
				text += pad
			}
			line.WriteString("  " + text)
		}
		fmt.Fprintln(s.w, strings.TrimRight(line.String(), " "))
	}
	s.rows = nil
}
