// SPDX-License-Identifier: MIT

package guest

import (
	"errors"
	"strings"

	"gyle/quantity"
)

// A Question is one thing the reader may say of their brewery.
type Question struct {
	ID     string   `json:"id"`
	Group  string   `json:"group"`
	Label  string   `json:"label"`
	Hint   string   `json:"hint,omitempty"` // what is meant, or what is usual
	Value  string   `json:"value"`          // the author's, in the reader's units
	Units  string   `json:"units"`          // taken where a bare number is typed
	Choice []Choice `json:"choice,omitempty"`

	set func(s *setup, text string) error
}

// A Choice is one answer among few.
type Choice struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// The groups of questions, in the order in which they are asked.
const (
	groupKettle  = "Your kettle"
	groupCooling = "Your cooling"
	groupMalt    = "Your malt"
	groupHops    = "Your hops"
	groupWater   = "Your water"
)

// answered puts an answer into s. A bare number takes the unit of the question.
func (q Question) answered(s *setup, text string) error {
	text = strings.TrimSpace(text)
	if text == "" {
		return asked{"an answer is missing", "the author's was " + q.Value}
	}
	err := q.set(s, text)
	if err == nil || q.Units == "" || strings.Trim(text, "0123456789.,-− ") != "" {
		return err
	}
	return q.set(s, text+" "+q.Units)
}

// Questions returns what may be asked, answered by the author's values.
func (t *Table) Questions(pr quantity.Printer) []Question {
	s := t.setup()
	list := t.kettleQuestions(s, pr)
	list = append(list, coolingQuestions(s, pr)...)
	list = append(list, maltQuestions(s, pr)...)
	list = append(list, hopQuestions(s, pr)...)
	return append(list, waterQuestions(s, pr)...)
}

// unitsOf returns the unit of a kind of measure in the reader's system.
func unitsOf(pr quantity.Printer, metric, us string) string {
	if pr.System == quantity.USCustomary {
		return us
	}
	return metric
}

// within refuses a measure outside what can be, and says what is usual.
func within[T ~float64](x T, low, high float64, usual string) error {
	if v := float64(x); !(v >= low && v <= high) {
		return asked{"this can't be", usual}
	}
	return nil
}

// reads makes a setter from a parser and a place. The range is what can be in
// the unit of the type.
func reads[T ~float64](parse func(string) (T, error), low, high float64, usual string, put func(*setup, T)) func(*setup, string) error {
	return func(s *setup, text string) error {
		x, err := parse(text)
		if err != nil {
			return hinted(err)
		}
		if err := within(x, low, high, usual); err != nil {
			return err
		}
		put(s, x)
		return nil
	}
}

// hinted keeps the hint of a reading error.
func hinted(err error) error {
	var p *quantity.ParseError
	if errors.As(err, &p) {
		return asked{p.Error(), p.Hint}
	}
	return err
}
