// SPDX-License-Identifier: MIT

package document

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Fault is one complaint about a document, pinned to the text that caused it.
type Fault struct {
	File      string
	Line, Col int      // 1-based, 0 when the position is unknown; Col counts characters, not bytes
	Field     string   // where in the document: "grist[2].share"
	Msg       string   // what is wrong, as a phrase without a full stop
	Hint      string   // what to write instead; may be empty
	Width     int      // characters to underline, from Col on
	Context   []string // the line itself, last, after up to two lines before it
}

// Faults are all complaints about a document, in the order of its text.
type Faults []Fault

// Error prints the faults one after the other, each as [Fault.Error] does.
func (f Faults) Error() string {
	texts := make([]string, len(f))
	for i, fault := range f {
		texts[i] = fault.Error()
	}
	return strings.Join(texts, "\n")
}

// WithFile returns the faults as those of another file: a text may be checked
// before it has a name.
func (f Faults) WithFile(name string) error {
	named := slices.Clone(f)
	for i := range named {
		named[i].File = name
	}
	return named
}

// orNil returns f as an error that is nil when there is no fault.
func (f Faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// Error prints the fault in full: position, field and phrase, the lines around
// it with a caret, then the hint.
//
//	best-bitter.yaml:14:8: targets.ibu: the lower end 40 is above the upper end 25
//	   12 |   og:  1.036..1.042
//	   13 |   abv: 3.8..4.4 %
//	>  14 |   ibu: 40..25
//	      |        ^^^^^^
//	   put the smaller number first: 25..40
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.Summary())
	if len(f.Context) > 0 {
		f.writeContext(&b)
	}
	if f.Hint != "" {
		b.WriteString("\n   " + f.Hint)
	}
	return b.String()
}

// Summary returns the first line of the fault: position, field and phrase.
func (f Fault) Summary() string {
	var parts []string
	switch {
	case f.Line > 0 && f.File != "":
		parts = append(parts, fmt.Sprintf("%s:%d:%d", f.File, f.Line, f.Col))
	case f.Line > 0:
		parts = append(parts, fmt.Sprintf("line %d:%d", f.Line, f.Col))
	case f.File != "":
		parts = append(parts, f.File)
	}
	if f.Field != "" {
		parts = append(parts, f.Field)
	}
	return strings.Join(append(parts, f.Msg), ": ")
}

// lineWindow is how many characters of a long line are shown around a fault.
const lineWindow = 110

func (f Fault) writeContext(b *strings.Builder) {
	start := 0
	if f.Col > lineWindow-20 {
		start = f.Col - lineWindow/2
	}
	first := f.Line - len(f.Context) + 1
	for i, line := range f.Context {
		mark := " "
		if first+i == f.Line {
			mark = ">"
		}
		row := fmt.Sprintf("%s%4d | %s", mark, first+i, window(line, start))
		b.WriteString("\n" + strings.TrimRight(row, " "))
	}
	width := max(1, min(f.Width, start+lineWindow-f.Col+1))
	fmt.Fprintf(b, "\n      | %s%s", strings.Repeat(" ", max(0, f.Col-1-start)), strings.Repeat("^", width))
}

// window returns the part of a line that is shown, with tabs made visible as
// one character each so that the caret stays under its place.
func window(line string, start int) string {
	line = line[len(runePrefix(line, start)):]
	shown := runePrefix(line, lineWindow)
	cut := len(shown) < len(line)
	if start > 0 && shown != "" {
		shown = "…" + shown[len(runePrefix(shown, 1)):]
	}
	if cut {
		shown += "…"
	}
	return strings.ReplaceAll(shown, "\t", "→")
}

// Sorted returns the faults in the order of the text, each one once. Faults at
// the same place keep their order.
func Sorted(f Faults) Faults {
	sorted := slices.Clone(f)
	slices.SortStableFunc(sorted, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	return slices.CompactFunc(sorted, func(a, b Fault) bool {
		return a.File == b.File && a.Line == b.Line && a.Col == b.Col && a.Field == b.Field && a.Msg == b.Msg
	})
}

// runePrefix returns the first n characters of a line.
func runePrefix(line string, n int) string {
	for i := range line {
		if n <= 0 {
			return line[:i]
		}
		n--
	}
	return line
}
