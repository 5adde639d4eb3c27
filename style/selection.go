// SPDX-License-Identifier: MIT

package style

import (
	"fmt"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// Classes are the classes of grain that a selection may name, as in the table
// of typical malts.
var Classes = []string{"base", "kilned", "crystal", "roasted", "dehusked roasted", "wheat", "rye", "oats", "smoked", "acidulated", "adjunct", "sugar", "extract"}

// Selection picks grains of a grist: terms joined by "+". A term is the id of
// a malt, "class crystal", "role flavour" or "group NAME", and may be limited
// by colour: "class roasted above 600 EBC", "class crystal 100..200 EBC".
type Selection struct{ Terms []Term }

// Term is one term of a [Selection].
type Term struct {
	Sort  Sort
	Name  string
	Color *quantity.Span[float64] // EBC; nil for any colour
	raw   string
}

// Sort says what the name of a term is.
type Sort string

// The sorts of a [Term].
const (
	ByMalt  Sort = "malt"
	ByClass Sort = "class"
	ByRole  Sort = "role"
	ByGroup Sort = "group"
	ByAll   Sort = "all" // every grain; used with a colour
)

const selectionHint = `write malts and classes joined by +: "oats-flaked + oat-malt", "class crystal", "class roasted above 600 EBC", "role flavour", "group dark"`

// UnmarshalText reads a selection.
func (s *Selection) UnmarshalText(b []byte) error {
	var terms []Term
	for part := range strings.SplitSeq(string(b), "+") {
		t, err := readTerm(strings.Join(strings.Fields(part), " "))
		if err != nil {
			return err
		}
		terms = append(terms, t)
	}
	s.Terms = terms
	return nil
}

// MarshalText writes s as UnmarshalText reads it.
func (s Selection) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

func (s Selection) String() string {
	var parts []string
	for _, t := range s.Terms {
		parts = append(parts, t.raw)
	}
	return strings.Join(parts, " + ")
}

// Phrase returns s as a brewer says it: "crystal 100–200 EBC", "malts above 600 EBC".
func (s Selection) Phrase() string {
	var parts []string
	for _, t := range s.Terms {
		parts = append(parts, t.phrase())
	}
	return strings.Join(parts, " + ")
}

func (t Term) phrase() string {
	name := t.Name
	switch t.Sort {
	case ByRole:
		name += " malts"
	case ByAll:
		name = "malts"
	}
	if t.Color != nil {
		name += " " + quantity.BeerColor.FormatSpan(*t.Color)
		name = strings.Replace(name, " up to ", " below ", 1)
		if rest, open := strings.CutSuffix(name, " or more"); open {
			name = strings.Replace(rest, t.colorLow(), "above "+t.colorLow(), 1)
		}
	}
	return name
}

// colorLow is the lower end of a limit of colour, as it is printed.
func (t Term) colorLow() string { return quantity.BeerColor.Format(t.Color.Low) }

func readTerm(s string) (Term, error) {
	t := Term{raw: s}
	rest, err := t.readColor(s)
	if err != nil {
		return t, err
	}
	word, name, two := strings.Cut(rest, " ")
	switch {
	case rest == "":
		if t.Color == nil {
			return t, &quantity.ParseError{Text: s, Msg: "an empty term picks nothing", Hint: selectionHint}
		}
		t.Sort = ByAll
	case rest == "all":
		t.Sort = ByAll
	case two && (word == "class" || word == "role" || word == "group" || word == "malt"):
		t.Sort, t.Name = Sort(word), name
	case !two:
		t.Sort, t.Name = ByMalt, rest
	default:
		return t, &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q picks no grain", s), Hint: selectionHint}
	}
	if t.Sort == ByClass && !slices.Contains(Classes, t.Name) {
		hint := "known classes: " + strings.Join(Classes, ", ")
		if near, ok := document.Nearest(t.Name, Classes); ok {
			hint = fmt.Sprintf("did you mean class %s?", near)
		}
		return t, &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q is no class of grain", t.Name), Hint: hint}
	}
	return t, nil
}

// readColor takes a limit of colour off the end of a term and returns the rest.
func (t *Term) readColor(s string) (string, error) {
	fields := strings.Fields(s)
	n := len(fields)
	if n < 2 || fields[n-1] != "EBC" {
		return s, nil
	}
	keep, text := n-2, fields[n-2]
	if n >= 3 && (fields[n-3] == "above" || fields[n-3] == "below") {
		keep = n - 3
		if fields[n-3] == "above" {
			text += ".."
		} else {
			text = ".." + text
		}
	}
	span, err := quantity.ParseSpan[float64](text)
	if err != nil {
		return s, err
	}
	t.Color = &span
	return strings.Join(fields[:keep], " "), nil
}

// checkGroups complains of groups that the style doesn't define.
func (s *Selection) checkGroups(path string, groups []string, add func(path, msg, hint string)) {
	if s == nil {
		return
	}
	for _, t := range s.Terms {
		if t.Sort == ByGroup {
			checkGroup(path, t.Name, groups, add)
		}
	}
}

func checkGroup(path, name string, groups []string, add func(path, msg, hint string)) {
	if slices.Contains(groups, name) {
		return
	}
	hint := "define it under groups:"
	if near, ok := document.Nearest(name, groups); ok {
		hint = fmt.Sprintf("did you mean group %s?", near)
	}
	add(path, fmt.Sprintf("group %s is not defined", name), hint)
}
