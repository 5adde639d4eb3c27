// SPDX-License-Identifier: MIT

package guest

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"gyle/plan"
	"gyle/quantity"
)

// A Request holds the answers of a reader as they typed them, by the id of the
// question. A question without an answer keeps the author's value.
type Request struct {
	Answers map[string]string `json:"answers,omitempty"`
	US      bool              `json:"us,omitempty"`    // US customary units
	Comma   bool              `json:"comma,omitempty"` // decimal comma
}

func (r Request) printer() quantity.Printer {
	pr := quantity.Printer{DecimalComma: r.Comma}
	if r.US {
		pr.System = quantity.USCustomary
	}
	return pr
}

// A Reply is the plan for the reader's brewery. Faults come beside their
// questions, and then there is no plan: no figure is shown for a house that
// nobody described.
type Reply struct {
	Faults    []Fault         `json:"faults,omitempty"`
	Problem   string          `json:"problem,omitempty"` // why the beer can't be brewed there
	Questions []Question      `json:"questions,omitempty"`
	Sheet     *Sheet          `json:"sheet,omitempty"`
	House     string          `json:"house,omitempty"` // the reader's brewery as a gyle document
	Stock     string          `json:"stock,omitempty"`
	Water     string          `json:"water,omitempty"`
	Plan      json.RawMessage `json:"plan,omitempty"` // every number, as "gyle plan --json" prints it
}

// Author returns the plan on the author's own house.
func (t *Table) Author(pr quantity.Printer) (*Sheet, error) {
	p, err := t.authors(pr)
	if err != nil {
		return nil, err
	}
	return t.sheet(p, pr)
}

// authors returns the author's plan with its sentences in the units of a reader.
func (t *Table) authors(pr quantity.Printer) (*plan.Plan, error) {
	if pr == (quantity.Printer{}) {
		return t.plan, nil
	}
	return plan.Make(plan.Input{Recipe: t.recipe, House: t.house, Stock: t.stock, Water: t.water, Options: plan.Options{Reader: pr}})
}

// Brew realises the recipe on the reader's brewery.
func (t *Table) Brew(r Request) Reply {
	var reply Reply
	pr := r.printer()
	s, p := t.brewed(r, &reply)
	if p == nil {
		return reply
	}
	var err error
	if reply.Sheet, err = t.sheet(p, pr); err == nil {
		reply.Plan, err = p.JSON()
	}
	if err == nil {
		err = reply.documents(s)
	}
	if err != nil {
		return Reply{Problem: err.Error()}
	}
	return reply
}

// brewed puts the answers into a setup and plans; the plan is nil where a
// fault or a problem was written into the reply.
func (t *Table) brewed(r Request, reply *Reply) (*setup, *plan.Plan) {
	if len(r.Answers) == 0 {
		p, err := t.authors(r.printer())
		if err != nil {
			reply.Problem = err.Error()
		}
		return nil, p
	}
	s := t.setup()
	s.reader = r.printer()
	asks := t.Questions(r.printer())
	for _, q := range asks {
		text, given := r.Answers[q.ID]
		if !given || text == q.Value {
			continue
		}
		if err := q.answered(s, text); err != nil {
			reply.Faults = append(reply.Faults, faultOf(q.ID, err))
		}
	}
	for _, id := range slices.Sorted(maps.Keys(r.Answers)) {
		if !slices.ContainsFunc(asks, func(q Question) bool { return q.ID == id }) {
			reply.Faults = append(reply.Faults, Fault{ID: id, Msg: "no such question"})
		}
	}
	if r.changes(asks, groupCooling) {
		way, err := s.cooling.document()
		if err != nil {
			reply.Faults = append(reply.Faults, faultOf("cooling", err))
		}
		s.house.Cooling = append(s.house.Cooling[:0:0], way)
	}
	if len(reply.Faults) > 0 {
		return s, nil
	}
	p, err := s.heat(t)
	if err != nil {
		f := faultOf("", err)
		reply.Problem = f.Msg
		if f.Hint != "" {
			reply.Problem += ": " + f.Hint
		}
		return s, nil
	}
	return s, p
}

// changes reports whether an answer of a group differs from the author's.
func (r Request) changes(asks []Question, group string) bool {
	for _, q := range asks {
		if text, given := r.Answers[q.ID]; given && q.Group == group && text != q.Value {
			return true
		}
	}
	return false
}

// documents writes the reader's brewery down, for their own gyle.
func (r *Reply) documents(s *setup) error {
	if s == nil {
		return nil
	}
	for _, part := range []struct {
		doc  texter
		have bool
		text *string
	}{{&s.house, true, &r.House}, {&s.stock, true, &r.Stock}, {s.water, s.water != nil, &r.Water}} {
		if !part.have {
			continue
		}
		text, err := part.doc.Text()
		if err != nil {
			return fmt.Errorf("write down the brewery: %w", err)
		}
		*part.text = string(text)
	}
	return nil
}
