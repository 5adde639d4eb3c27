// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"

	"gyle/plan"
	"gyle/science"
)

// reasonBody says how one number of a plan comes about. It is a page, and the
// panel beside a plan.
type reasonBody struct {
	Reason   plan.Reason
	Beer     string
	Formulas []reasonFormula
	Back     string
}

// reasonFormula is a formula with the literature it rests on.
type reasonFormula struct {
	science.Formula
	Cited    []string
	Estimate bool // nobody measured it
}

// planWhy answers why a number of a plan is what it is.
func (s *Server) planWhy(w http.ResponseWriter, r *http.Request) error {
	q := readPlanQuery(r.URL.Query())
	p, err := s.madePlan(r.Context(), q)
	if _, faulty := err.(fieldFaults); faulty || isRefusal(err) {
		return seeOther(w, r, q.Path()) // the sheet says what is wrong
	}
	if err != nil {
		return err
	}
	reason, ok := p.plan.Why(r.PathValue("name"), handOf(r).printer())
	if !ok {
		return ErrNotFound
	}
	body := reasonBody{Reason: reason, Beer: titleOfPlan(p.plan) + " on " + p.plan.House, Back: q.Path(), Formulas: reasonFormulas(reason)}
	return s.show(w, r, http.StatusOK, "page_plan_why", Sheet{Title: "Why: " + reason.Label, Chapter: "plan", Body: body})
}

// reasonFormulas looks up the formulas of a reason.
func reasonFormulas(reason plan.Reason) (list []reasonFormula) {
	for _, name := range reason.Formulas {
		f, ok := science.Lookup(name)
		if !ok {
			continue
		}
		one := reasonFormula{Formula: f, Estimate: strings.HasPrefix(f.Tag, "estimate")}
		for _, key := range f.Cited() {
			one.Cited = append(one.Cited, science.Sources[key])
		}
		list = append(list, one)
	}
	return list
}
