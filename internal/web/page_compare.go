// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
)

// compareQuery is the address of a comparison: one recipe on two houses, or
// two recipes on one house.
type compareQuery struct {
	Recipes, Houses    []string
	Stocks             [2]string
	Water, Style, Size string
}

func readCompareQuery(values url.Values) compareQuery {
	written := func(list []string) []string {
		return slices.DeleteFunc(slices.Clone(list), func(slug string) bool { return slug == "" })
	}
	q := compareQuery{
		Recipes: written(values["recipe"]), Houses: written(values["house"]),
		Water: values.Get("water"), Style: values.Get("style"), Size: strings.TrimSpace(values.Get("size")),
	}
	stocks := values["stock"]
	for i := range q.Stocks {
		if i < len(stocks) && stocks[i] != "" {
			q.Stocks[i] = stocks[i]
		} else if i > 0 {
			q.Stocks[i] = q.Stocks[0]
		}
	}
	return q
}

func (q compareQuery) values() url.Values {
	v := url.Values{"recipe": q.Recipes, "house": q.Houses}
	if q.Stocks != [2]string{} {
		v["stock"] = q.Stocks[:]
	}
	for key, value := range map[string]string{"water": q.Water, "style": q.Style, "size": q.Size} {
		if value != "" {
			v.Set(key, value)
		}
	}
	return v
}

// Encoded is the query as it stands in an address.
func (q compareQuery) Encoded() template.URL { return template.URL(q.values().Encode()) }

// side is the query of one of the two plans.
func (q compareQuery) side(i int) planQuery {
	at := func(list []string) string {
		if len(list) == 0 {
			return ""
		}
		return list[min(i, len(list)-1)]
	}
	return planQuery{Recipe: at(q.Recipes), House: at(q.Houses), Stock: q.Stocks[i], Water: q.Water, Style: q.Style, Size: q.Size}
}

// shape says whether the query asks for something that can be compared: fault
// where it never can, lack where a choice is still missing.
func (q compareQuery) shape() (lack, fault string) {
	recipes, houses := len(q.Recipes), len(q.Houses)
	switch {
	case recipes > 2 || houses > 2:
		return "", fmt.Sprintf("Two things are set side by side: %d beers and %d houses are too many.", recipes, houses)
	case recipes == 2 && houses == 2:
		return "", "One beer on two houses, or two beers on one house: with both, nobody could say which made the difference."
	case recipes == 0:
		return "Choose a beer, and a house for it.", ""
	case houses == 0:
		return "Choose a house.", ""
	case recipes+houses == 2:
		return "Choose a second house for the same beer, or a second version on the same house.", ""
	}
	return "", ""
}

// compareBody is the sheet of two plans.
type compareBody struct {
	Query   compareQuery
	Choices compareChoices
	Lack    string
	Fault   string
	Faults  fieldFaults
	Refused *planRefusal
	Sheet   *compareSheet
}

// compareChoices is what can be chosen, for each side.
type compareChoices struct {
	Recipes, Houses, Stocks [2][]option
	Waters                  []option
}

// comparePage shows two plans facing each other.
func (s *Server) comparePage(w http.ResponseWriter, r *http.Request) error {
	q, pr := readCompareQuery(r.URL.Query()), handOf(r).printer()
	body := compareBody{Query: q}
	body.Lack, body.Fault = q.shape()
	var err error
	if body.Choices, err = s.compareChoices(r.Context(), q); err != nil {
		return err
	}
	title, status := "Set two plans side by side", http.StatusOK
	if body.Fault != "" {
		status = http.StatusUnprocessableEntity
	} else if body.Lack == "" {
		if status, err = s.fillComparison(r.Context(), &body, pr); err != nil {
			return err
		}
	}
	if body.Sheet != nil {
		title = body.Sheet.Title
	}
	return s.show(w, r, status, "page_compare", Sheet{Title: title, Chapter: "plan", Body: body})
}

// fillComparison makes both plans, or says why they can't be made.
func (s *Server) fillComparison(ctx context.Context, body *compareBody, pr quantity.Printer) (status int, err error) {
	sides, failed, err := s.comparedSides(ctx, body.Query, pr)
	switch {
	case errors.As(err, &body.Faults):
		return http.StatusUnprocessableEntity, nil
	case isRefusal(err):
		body.Refused = refusalOf(failed, err, pr)
		body.Refused.Path = "" // its link would lead to one plan, not to two
		return http.StatusUnprocessableEntity, nil
	case err != nil:
		return 0, err
	}
	body.Sheet, err = compareSheetOf(sides, pr)
	return http.StatusOK, err
}

// comparedSides makes both plans. On a refusal failed is the one that was
// refused.
func (s *Server) comparedSides(ctx context.Context, q compareQuery, reader quantity.Printer) (sides [2]planned, failed planned, err error) {
	for i := range sides {
		if sides[i], err = s.readPlan(ctx, q.side(i)); err != nil {
			return sides, sides[i], err
		}
		sides[i].in.Reader = reader
		if err = sides[i].make(); err != nil {
			return sides, sides[i], err
		}
	}
	return sides, failed, nil
}

func (s *Server) compareChoices(ctx context.Context, q compareQuery) (c compareChoices, err error) {
	for i := range 2 {
		for _, list := range []struct {
			kind   string
			chosen []string
			to     *[]option
		}{{"recipe", q.Recipes, &c.Recipes[i]}, {"brewhouse", q.Houses, &c.Houses[i]}, {"stock", q.Stocks[:], &c.Stocks[i]}} {
			chosen := ""
			if i < len(list.chosen) {
				chosen = list.chosen[i]
			}
			if *list.to, err = s.documentOptions(ctx, list.kind, chosen); err != nil {
				return c, err
			}
		}
	}
	c.Waters, err = s.documentOptions(ctx, "water", q.Water)
	return c, err
}

// compareJSON is a comparison for programs.
type compareJSON struct {
	Plans             []rawJSON        `json:"plans"`
	Multiplied        []multipliedJSON `json:"multiplied,omitempty"`
	Cures             []rawJSON        `json:"cures,omitempty"` // the second house with its other ways of cooling
	Change            *recipe.Change   `json:"change,omitempty"`
	Differences       []differenceJSON `json:"differences,omitempty"`
	MoreThanOneChange bool             `json:"moreThanOneChange"`
}

// rawJSON is a plan as it writes itself.
type rawJSON []byte

// MarshalJSON writes the plan as it is.
func (r rawJSON) MarshalJSON() ([]byte, error) { return r, nil }

// multipliedJSON is what weights that were only multiplied would give.
type multipliedJSON struct {
	Factor  float64     `json:"factor"`
	Cooling string      `json:"cooling"`
	IBU     measureJSON `json:"ibu"`
	Excess  measureJSON `json:"excess"`
}

// differenceJSON is one difference between two versions.
type differenceJSON struct {
	Part   string `json:"part"`
	What   string `json:"what"`
	Before string `json:"before,omitempty"`
	After  string `json:"after,omitempty"`
}

// compareJSONPage answers a program with two plans and what lies between them.
func (s *Server) compareJSONPage(w http.ResponseWriter, r *http.Request) error {
	q := readCompareQuery(r.URL.Query())
	if lack, fault := q.shape(); lack+fault != "" {
		return refuseJSON(w, fieldFaults{{Field: "recipe", Text: lack + fault}})
	}
	sides, _, err := s.comparedSides(r.Context(), q, quantity.Printer{})
	if err != nil {
		return refuseJSON(w, err)
	}
	body, err := compareJSONOf(sides)
	if err != nil {
		return err
	}
	return answerJSON(w, http.StatusOK, body)
}

func compareJSONOf(sides [2]planned) (body compareJSON, err error) {
	if body.Plans, err = plansJSON(sides[0].plan, sides[1].plan); err != nil {
		return body, err
	}
	if sides[0].query.Recipe != sides[1].query.Recipe {
		later := sides[1].plan.RecipeDocument()
		found := recipe.Differences(sides[0].plan.RecipeDocument(), later)
		for _, d := range found {
			body.Differences = append(body.Differences, differenceJSON{d.Part, d.What, d.Before, d.After})
		}
		body.Change, body.MoreThanOneChange = later.Change, recipe.Independent(found) > 1
		return body, nil
	}
	multiplied, err := plan.Multiply(sides[0].plan, sides[1].plan)
	if err != nil {
		return body, err
	}
	for _, m := range multiplied {
		body.Multiplied = append(body.Multiplied, multipliedJSON{m.Factor, m.Cooling, measureJSON{float64(m.IBU), "IBU"}, measureJSON{100 * m.Excess, "%"}})
	}
	cures, err := plan.Alternatives(sides[1].in)
	if err != nil && !isRefusal(err) {
		return body, err
	}
	body.Cures, err = plansJSON(cures...)
	return body, err
}

func plansJSON(plans ...*plan.Plan) (list []rawJSON, err error) {
	for _, p := range plans {
		text, err := p.JSON()
		if err != nil {
			return nil, err
		}
		list = append(list, text)
	}
	return list, nil
}
