// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"

	"gyle/quantity"
	"gyle/shed"
)

// costBody is what a plan costs, and which malts come from several lots.
type costBody struct {
	Litre    string
	Rows     []costRow
	Splits   []string
	Unpriced []string
	JSON     string // its address
}

type costRow struct{ What, Money, Note string }

// costBodyOf is the cost of a plan; nil without a stock, or where no lot has a price
// and no malt is split.
func costBodyOf(p planned, pr quantity.Printer) *costBody {
	if p.in.Stock == nil {
		return nil
	}
	cost := shed.CostOf(p.plan, p.in.Stock, pr)
	body := &costBody{JSON: "/plan/cost.json?" + p.query.values().Encode()}
	for _, split := range shed.Splits(p.plan) {
		body.Splits = append(body.Splits, split.Words(pr))
	}
	if !cost.Priced() && len(body.Splits) == 0 {
		return nil
	}
	if !cost.Priced() {
		return body
	}
	body.Unpriced = cost.Unpriced
	for _, g := range cost.Groups {
		var items []string
		for _, i := range g.Items {
			items = append(items, strings.TrimSpace(i.Amount+" "+i.Lot))
		}
		body.Rows = append(body.Rows, costRow{upperFirst(g.Name), cost.With(g.Money, pr), strings.Join(items, ", ")})
	}
	note := "for " + pr.Volume(quantity.Volume(cost.Litres)) + " packaged"
	body.Rows = append(body.Rows, costRow{"In all", cost.With(cost.Total, pr), note})
	body.Litre = cost.With(cost.PerLitre, pr)
	if !cost.Complete() {
		body.Litre = "at least " + body.Litre
	}
	return body
}

// planCostJSON is the cost of a plan for programs.
func (s *Server) planCostJSON(w http.ResponseWriter, r *http.Request) error {
	p, err := s.madePlan(r.Context(), readPlanQuery(r.URL.Query()))
	if err != nil {
		return refuseJSON(w, err)
	}
	return answerJSON(w, http.StatusOK, shed.CostOf(p.plan, p.in.Stock, quantity.Printer{}))
}
