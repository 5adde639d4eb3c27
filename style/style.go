// SPDX-License-Identifier: MIT

package style

import (
	"fmt"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
)

// Kind is the first key of a style document: "gyle: style/1".
const Kind = "style"

// Style is one author's view of a kind of beer.
type Style struct {
	Name   string              `gyle:"name,required"`
	By     string              `gyle:"by"`
	Prose  string              `gyle:"prose"`  // what it is, how it tastes
	Taste  []Taste             `gyle:"taste"`  // sensory range
	Groups map[string][]string `gyle:"groups"` // names for sets of malts or hops used in the rules
	Edge   *quantity.Fraction  `gyle:"edge"`   // how near a limit is called the edge: share of the width of its range
	Rules  []Rule              `gyle:"rules,required"`
	Note   string              `gyle:"note"`
}

// Taste is one sensory quality and how much of it belongs to the style.
type Taste struct {
	Quality string           `gyle:"quality,required"`
	Range   string           `gyle:"range"` // in words: "low to medium"
	In      *quantity.Levels `gyle:"in"`    // or in levels: "1..3 of 5"
	Note    string           `gyle:"note"`
}

// Levels returns how much of the quality belongs to the style; false where
// nothing says it in a form that can be compared.
func (t Taste) Levels() (quantity.Levels, bool) {
	if t.In != nil {
		return *t.In, true
	}
	return quantity.SpokenLevels(t.Range)
}

// Reach returns how much belongs to the style as its author said it: in words,
// else in levels.
func (t Taste) Reach() string {
	if t.Range == "" && t.In != nil {
		return t.In.String()
	}
	return t.Range
}

// defaultEdge is the share of a range's width within which a value counts as
// at the edge, where the author gives none.
const defaultEdge = 0.05

// EdgeShare returns the share of a range's width that counts as its edge.
func (s *Style) EdgeShare() float64 {
	if s.Edge != nil {
		return float64(*s.Edge)
	}
	return defaultEdge
}

// Severity says how much the author means a rule.
type Severity string

// The severities, from the mildest. An option is mentioned and never broken.
const (
	Option Severity = "option"
	Advice Severity = "advice"
	Limit  Severity = "limit"
)

// UnmarshalText reads a severity.
func (s *Severity) UnmarshalText(b []byte) error {
	switch v := Severity(b); v {
	case Option, Advice, Limit:
		*s = v
		return nil
	}
	return &quantity.ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no severity", b), Hint: "write limit, advice or option"}
}

// MarshalText writes s.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s), nil }

// Parse reads a style document. The error is document.Faults.
func Parse(file string, text []byte) (*Style, error) {
	s := new(Style)
	if _, err := document.Unmarshal(file, text, Kind, s); err != nil {
		return nil, err
	}
	return s, nil
}

// Text returns the canonical text of s.
func (s *Style) Text() ([]byte, error) { return document.Marshal(Kind, s) }

// Validate finds the faults that no single field shows.
func (s *Style) Validate(src *document.Source) document.Faults {
	var faults document.Faults
	add := func(path, msg, hint string) { faults = append(faults, src.Fault(path, msg, hint)) }
	if s.Edge != nil && (*s.Edge < 0 || *s.Edge >= 0.5) {
		add("edge", "an edge lies between 0 and 50 % of a range", "5 % is usual")
	}
	groups := make([]string, 0, len(s.Groups))
	for name := range s.Groups {
		groups = append(groups, name)
	}
	for i, t := range s.Taste {
		path := fmt.Sprintf("taste[%d]", i)
		if spoken, said := quantity.SpokenLevels(t.Range); said && t.In != nil && t.In.Of == spoken.Of && *t.In != spoken {
			add(path+".in", fmt.Sprintf("%q is %s, and here stands %s", t.Range, spoken, t.In), "keep one of them")
		}
		if slices.ContainsFunc(s.Taste[:i], func(other Taste) bool { return strings.EqualFold(other.Quality, t.Quality) }) {
			add(path+".quality", t.Quality+" stands there twice", "put both into one entry")
		}
	}
	for i := range s.Rules {
		s.Rules[i].validate(fmt.Sprintf("rules[%d]", i), groups, add)
	}
	return faults
}
