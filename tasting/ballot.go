// SPDX-License-Identifier: MIT

package tasting

import (
	"errors"
	"fmt"
	"slices"
)

// Ballot is all that one assessor may see of a flight: the question and their
// own glasses. It has no beers, no key, and nothing of other assessors.
type Ballot struct {
	Tasting    string
	Flight     string
	Kind       Method
	Ask        string
	Attribute  string
	Attributes []string
	Scale      *Scale
	Forced     bool   // no preference is no answer
	Commitment string // printed, so that the key can be checked later
	Taster     string
	Sets       []Serving
	Answered   []Answer // their own answers, as they stand
	Closed     bool
}

// Ballot returns the ballot of an assessor, or false if nothing is served to
// them.
func (t *Tasting) Ballot(f *Flight, taster string) (Ballot, bool) {
	b := Ballot{
		Tasting: t.Name, Flight: f.Name, Kind: f.Kind, Ask: f.Ask, Attribute: f.Attribute, Attributes: slices.Clone(f.Attributes), Scale: f.Scale, Forced: f.Forced,
		Taster: taster, Closed: f.Closed != nil || f.Key != nil,
	}
	if f.Design != nil {
		b.Commitment = f.Design.Commitment
	}
	for _, s := range f.Serving {
		if s.Taster == taster {
			s.Codes = slices.Clone(s.Codes)
			b.Sets = append(b.Sets, s)
		}
	}
	for _, s := range f.Standing() {
		if s.Taster == taster {
			b.Answered = append(b.Answered, s.Answer)
		}
	}
	return b, len(b.Sets) > 0
}

// ErrAgain is returned for an answer that is there already, word for word: a
// telephone that heard no reply sends it again.
var ErrAgain = errors.New("the answer is there already")

// Take adds an answer to a flight. It is refused with document.Faults when it
// can't be: a glass that wasn't on the tray, a second answer that corrects
// nothing. One that comes too late is taken and doesn't count.
func (t *Tasting) Take(f *Flight, a Answer) error {
	for _, known := range f.Answers {
		if known.ID == a.ID && known.same(a) {
			return fmt.Errorf("take answer %s: %w", a.ID, ErrAgain)
		}
	}
	taken := *f
	taken.Answers = append(slices.Clone(f.Answers), a)
	c := &checker{tasting: t}
	c.answers(&taken, "flight "+f.Name)
	if len(c.faults) > 0 {
		return c.faults
	}
	f.Answers = taken.Answers
	return nil
}

// same reports whether two answers say the same at the same time, whenever
// they came.
func (a Answer) same(b Answer) bool {
	a.Came, b.Came = Time{}, Time{}
	return string(a.line()) == string(b.line())
}
