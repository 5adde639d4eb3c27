// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"sort"
	"strings"

	"gyle/brewhouse"
	"gyle/internal/document"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// planQuery is the address of a plan: which documents, and the wishes for this
// one brew, as they were typed. Nothing of a plan is kept elsewhere.
type planQuery struct {
	Recipe, House, Stock, Water, Style string // slugs
	Size, Cooling, On                  string
	Swap                               map[string]string // hop of the recipe → hop to use
	Oil                                bool
}

func readPlanQuery(values url.Values) planQuery {
	q := planQuery{
		Recipe: values.Get("recipe"), House: values.Get("house"), Stock: values.Get("stock"), Water: values.Get("water"),
		Style: values.Get("style"), Cooling: values.Get("cooling"), Oil: values.Get("oil") != "",
		Size: strings.TrimSpace(values.Get("size")), On: strings.TrimSpace(values.Get("on")), Swap: map[string]string{},
	}
	for _, swap := range values["swap"] {
		if hop, other, ok := strings.Cut(swap, "="); ok && hop != "" && other != "" {
			q.Swap[hop] = other
		}
	}
	return q
}

// values is the query without what is empty.
func (q planQuery) values() url.Values {
	v := url.Values{}
	for _, p := range []struct{ key, value string }{
		{"recipe", q.Recipe}, {"house", q.House}, {"stock", q.Stock}, {"water", q.Water}, {"style", q.Style},
		{"size", q.Size}, {"cooling", q.Cooling}, {"on", q.On},
	} {
		if p.value != "" {
			v.Set(p.key, p.value)
		}
	}
	hops := make([]string, 0, len(q.Swap))
	for hop := range q.Swap {
		hops = append(hops, hop)
	}
	sort.Strings(hops)
	for _, hop := range hops {
		v.Add("swap", hop+"="+q.Swap[hop])
	}
	if q.Oil {
		v.Set("oil", "keep")
	}
	return v
}

// Encoded is the query as it stands in an address.
func (q planQuery) Encoded() template.URL { return template.URL(q.values().Encode()) }

// Path is the stable address of the plan.
func (q planQuery) Path() string { return "/plan?" + q.values().Encode() }

// why is the address of the reason behind a number of this plan.
func (q planQuery) why(topic string) string {
	return "/plan/why/" + url.PathEscape(topic) + "?" + q.values().Encode()
}

// whyOf is the address of a reason; empty where a plan knows none. Ions are the
// work of the salts.
func (q planQuery) whyOf(topic string) string {
	if topic == "water" {
		topic = "salts"
	}
	if _, ok := plan.Explain(topic); !ok {
		return ""
	}
	return q.why(topic)
}

// fieldFault is something wrong with a field of the form.
type fieldFault struct {
	Field string `json:"field"`
	Text  string `json:"text"`
	Hint  string `json:"hint,omitempty"`
}

// fieldFaults are the faults of a form, one for each field.
type fieldFaults []fieldFault

func (f fieldFaults) Error() string {
	var texts []string
	for _, one := range f {
		texts = append(texts, one.Field+": "+one.Text)
	}
	return strings.Join(texts, "; ")
}

// Of returns the fault of one field, or nil.
func (f fieldFaults) Of(field string) *fieldFault {
	for i := range f {
		if f[i].Field == field {
			return &f[i]
		}
	}
	return nil
}

// For is the fault of one field, or an empty one that keeps its place.
func (f fieldFaults) For(field string) fieldFault {
	if fault := f.Of(field); fault != nil {
		return *fault
	}
	return fieldFault{Field: field}
}

// planned is a plan with what it was made of.
type planned struct {
	query planQuery
	in    plan.Input
	style *style.Style
	plan  *plan.Plan
}

// documentAt reads and understands one document that a query names; an empty
// slug is nothing.
func documentAt[T any](ctx context.Context, s *Server, kind, field, slug string, parse func(string, []byte) (*T, error), faults *fieldFaults) (*T, error) {
	if slug == "" {
		return nil, nil
	}
	d, err := s.book.Get(ctx, kind, slug)
	if errors.Is(err, ErrNotFound) {
		*faults = append(*faults, fieldFault{field, "this book has no " + kindName(kind) + " called “" + slug + "”", "choose one of the list"})
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	read, err := parsed(s, slug+".yaml", d.Text, parse)
	if all := (document.Faults)(nil); errors.As(err, &all) {
		*faults = append(*faults, fieldFault{field, d.Title + " can't be read: " + all[0].Summary(), "mend it as text"})
		return nil, nil
	}
	return read, err
}

// readPlan reads the documents and wishes of a query. Faults of the query come as
// fieldFaults; everything else is trouble with the book.
func (s *Server) readPlan(ctx context.Context, q planQuery) (planned, error) {
	p := planned{query: q}
	var faults fieldFaults
	var err error
	if p.in.Recipe, err = documentAt(ctx, s, recipe.Kind, "recipe", q.Recipe, recipe.Parse, &faults); err != nil {
		return p, err
	}
	if p.in.House, err = documentAt(ctx, s, brewhouse.Kind, "house", q.House, brewhouse.Parse, &faults); err != nil {
		return p, err
	}
	if p.in.Stock, err = documentAt(ctx, s, stock.Kind, "stock", q.Stock, stock.Parse, &faults); err != nil {
		return p, err
	}
	if p.in.Stock, err = s.stockLeft(ctx, q.Stock, p.in.Stock); err != nil {
		return p, err
	}
	if p.in.Water, err = documentAt(ctx, s, water.Kind, "water", q.Water, water.Parse, &faults); err != nil {
		return p, err
	}
	if p.style, err = s.styleOfPlan(ctx, q, p.in.Recipe, &faults); err != nil {
		return p, err
	}
	p.readWishes(&faults)
	if len(faults) > 0 {
		return p, faults
	}
	return p, nil
}

// styleOfPlan is the style to judge by: the one asked for, else that of the
// recipe when the book has it.
func (s *Server) styleOfPlan(ctx context.Context, q planQuery, r *recipe.Recipe, faults *fieldFaults) (*style.Style, error) {
	if q.Style != "" {
		return documentAt(ctx, s, style.Kind, "style", q.Style, style.Parse, faults)
	}
	if r == nil || r.Style == "" {
		return nil, nil
	}
	var unread fieldFaults // a recipe may name a style that isn't in the book
	return documentAt(ctx, s, style.Kind, "style", r.Style, style.Parse, &unread)
}

// readWishes reads the fields that are typed.
func (p *planned) readWishes(faults *fieldFaults) {
	q := p.query
	p.in.Cooling, p.in.Swap, p.in.KeepOil = q.Cooling, q.Swap, q.Oil
	var err error
	if q.Size != "" {
		if p.in.Size, err = quantity.ParseVolume(q.Size); err != nil {
			*faults = append(*faults, wishFault("size", err))
		} else if p.in.Size <= 0 {
			*faults = append(*faults, fieldFault{"size", "a brew has some litres", "write 20 L"})
		}
	}
	if q.On != "" {
		if err = p.in.On.UnmarshalText([]byte(q.On)); err != nil {
			*faults = append(*faults, wishFault("on", err))
		}
	}
}

// wishFault says of a reading error what it says to people.
func wishFault(field string, err error) fieldFault {
	var p *quantity.ParseError
	if errors.As(err, &p) {
		return fieldFault{field, p.Msg, p.Hint}
	}
	return fieldFault{field, err.Error(), ""}
}

// make makes the plan. The error is plan.Problems or *plan.TooLarge where the
// brew can't be.
func (p *planned) make() (err error) {
	p.plan, err = plan.Make(p.in)
	return err
}

// problemFields are the fields of the form for what plan.Problems name.
func problemFields(err error) fieldFaults {
	var problems plan.Problems
	var faults fieldFaults
	if errors.As(err, &problems) {
		for _, p := range problems {
			faults = append(faults, fieldFault{p.Field, p.Msg, p.Hint})
		}
	}
	return faults
}

// isRefusal reports whether a plan can't be made for reasons of brewing.
func isRefusal(err error) bool {
	var problems plan.Problems
	var large *plan.TooLarge
	return errors.As(err, &problems) || errors.As(err, &large)
}

// madePlan is a plan that is read, lacks no document and can be made.
func (s *Server) madePlan(ctx context.Context, q planQuery) (planned, error) {
	p, err := s.readPlan(ctx, q)
	if err == nil {
		err = missingDocuments(p)
	}
	if err == nil {
		err = p.make()
	}
	return p, err
}

// planJSON answers with the plan for programs, the same as "gyle plan --json".
func (s *Server) planJSON(w http.ResponseWriter, r *http.Request) error {
	p, err := s.madePlan(r.Context(), readPlanQuery(r.URL.Query()))
	if err != nil {
		return refuseJSON(w, err)
	}
	text, err := p.plan.JSON()
	if err != nil {
		return err
	}
	sendJSON(w, http.StatusOK, text)
	return nil
}

// missingDocuments are the faults of a query that names no recipe or no house.
func missingDocuments(p planned) error {
	var faults fieldFaults
	if p.in.Recipe == nil {
		faults = append(faults, fieldFault{"recipe", "a plan needs a recipe", "add recipe=SLUG"})
	}
	if p.in.House == nil {
		faults = append(faults, fieldFault{"house", "a plan needs a house", "add house=SLUG"})
	}
	if len(faults) > 0 {
		return faults
	}
	return nil
}
