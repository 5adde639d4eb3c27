// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"slices"
	"time"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/stock"
)

// planBody is the sheet of a plan with the choices beside it.
type planBody struct {
	Query   planQuery
	Choices planChoices
	Faults  fieldFaults
	Plan    *planSheet // nil: nothing is planned yet, or it can't be
	Refused *planRefusal
	Empty   []step // what the book lacks for a plan
}

// planChoices is what can be chosen in the form.
type planChoices struct {
	Recipes, Houses, Stocks, Waters, Styles []option
	Cooling                                 []option
	Swaps                                   []swapChoice
	HasRecipe, HasHouse                     bool
	Usual                                   string // size where none is typed
}

// option is one line of a list to choose from.
type option struct {
	Value, Name string
	Chosen      bool
}

// swapChoice is a hop of the recipe with what may stand in for it.
type swapChoice struct {
	Hop             string
	InShed, Typical []option
}

// planSheet is a plan as the page prints it.
type planSheet struct {
	Title, House, Stock, Water string
	Size, Day                  string
	Echo, Mind, Typical        []string
	Parts                      []ledgerPart
	Kept, NotKept              []plan.Point
	Verdicts                   *verdicts
	Outlook                    *outlookBody
	Cost                       *costBody
	Others                     []choiceBody
	Taken                      choiceBody
	JSON, Compare, Calendar    string
	Fermenters                 []option // by name, the first free one first
	Brew                       []option // the query, to begin a gyle with; empty where the book keeps none
}

// planRefusal says why a plan can't be made and what to do.
type planRefusal struct {
	Title    string
	Text     string
	Problems plan.Problems
	Largest  string // size of the largest brew that fits
	Path     string // of the plan of that size
}

// formOfHouse is the field of the form of choices that says for which house it
// was made. A browser that runs scripts leaves it out.
const formOfHouse = "of"

// planPage shows the plan of a query, or what is missing to make one.
func (s *Server) planPage(w http.ResponseWriter, r *http.Request) error {
	q := readPlanQuery(r.URL.Query())
	if of := r.URL.Query().Get(formOfHouse); of != "" {
		if of != q.House {
			q.Cooling = "" // a way of the house before
		}
		return seeOther(w, r, q.Path())
	}
	pr := handOf(r).printer()
	body := planBody{Query: q}
	p, err := s.readPlan(r.Context(), q)
	p.in.Reader = pr
	if !errors.As(err, &body.Faults) && err != nil {
		return err
	}
	if body.Choices, err = s.planChoices(r.Context(), p, pr); err != nil {
		return err
	}
	if body.Empty, err = s.planSteps(r.Context()); err != nil {
		return err
	}
	title, status := "Plan a brew", http.StatusOK
	if len(body.Faults) > 0 {
		status = http.StatusUnprocessableEntity
	} else if p.in.Recipe != nil && p.in.House != nil {
		status, err = s.fillPlan(&body, p, pr)
		if err != nil {
			return err
		}
	}
	if body.Plan != nil {
		title = body.Plan.Title + ", " + body.Plan.House
	}
	return s.show(w, r, status, "page_plan", Sheet{Title: title, Chapter: "plan", Body: body})
}

// fillPlan makes the plan, or says why it can't be made.
func (s *Server) fillPlan(body *planBody, p planned, pr quantity.Printer) (status int, err error) {
	err = p.make()
	if isRefusal(err) {
		body.Refused, body.Faults = refusalOf(p, err, pr), problemFields(err)
		return http.StatusUnprocessableEntity, nil
	}
	if err != nil {
		return 0, err
	}
	body.Plan, err = s.sheetOf(p, pr)
	return http.StatusOK, err
}

// refusalOf puts a refusal into words.
func refusalOf(p planned, err error, pr quantity.Printer) *planRefusal {
	f := &planRefusal{Title: fmt.Sprintf("%s can't be planned on %s", recipeName(p), p.in.House.Name)}
	var large *plan.TooLarge
	if errors.As(err, &large) {
		f.Text = fmt.Sprintf("The %s holds %s, the brew needs %s.", large.Vessel, pr.Volume(large.Holds), pr.Volume(large.Needs))
		if large.Largest >= 0.1 {
			fits, largest := p.query, quantity.Volume(math.Floor(10*large.Largest.Litres())/10)
			fits.Size = largest.String()
			f.Largest, f.Path = pr.Volume(largest), fits.Path()
		}
		return f
	}
	errors.As(err, &f.Problems)
	return f
}

func recipeName(p planned) string {
	if v := p.in.Recipe.Version; v > 0 {
		return fmt.Sprintf("%s %d", p.in.Recipe.Name, v)
	}
	return p.in.Recipe.Name
}

// sheetOf writes the sheet of a plan that was made.
func (s *Server) sheetOf(p planned, pr quantity.Printer) (*planSheet, error) {
	w := &sheetWriter{planned: p, p: p.plan, pr: pr, j: judged(p.style, p.plan, pr)}
	others, err := plan.Alternatives(p.in)
	if isRefusal(err) {
		others, err = nil, nil // the way that was chosen can be brewed; another one can't
	}
	if err != nil {
		return nil, err
	}
	outlook := outlookOf(context.Background(), p.plan, p.style, w.j, pr)
	sheet := &planSheet{
		Title: titleOfPlan(p.plan), House: p.plan.House, Stock: p.plan.Stock, Water: p.plan.Water,
		Size: pr.Volume(p.plan.Volumes.Collected), Day: s.dayOf(p),
		Echo: p.plan.Echo, Mind: p.plan.Cautions, Typical: p.plan.Typical,
		Parts: w.parts(), Kept: p.plan.Kept, NotKept: p.plan.NotKept, Verdicts: w.j, Outlook: outlook,
		Taken: choiceOf(p.plan, p.style, pr),
		JSON:  "/plan.json?" + p.query.values().Encode(), Compare: "/compare?" + p.query.values().Encode(),
	}
	sheet.Brew = s.brewFields(p.query)
	sheet.Fermenters, sheet.Cost = fermenterOptions(p.in.House), costBodyOf(p, pr)
	sheet.Calendar = "/calendar?house=" + p.query.House
	for _, o := range others {
		c, take := choiceOf(o, p.style, pr), p.query
		take.Cooling = o.Hops.Cooling
		c.Path = take.Path()
		sheet.Others = append(sheet.Others, c)
	}
	return sheet, nil
}

// dayOf is the day that the ages of the lots are reckoned to: the one asked
// for, else that on which the stock was counted, else today.
func (s *Server) dayOf(p planned) string {
	day := p.in.On.Time
	if day.IsZero() && p.in.Stock != nil {
		day = p.in.Stock.Counted.Time
	}
	if day.IsZero() {
		day = s.now()
	}
	return day.Format("2 January 2006")
}

// planSteps are the documents that a plan needs and the book lacks.
func (s *Server) planSteps(ctx context.Context) (missing []step, err error) {
	steps, err := s.steps(ctx)
	for _, st := range steps {
		if needed := st.Chapter.Kind == "recipe" || st.Chapter.Kind == "brewhouse"; needed && !st.Have {
			st.Next = true
			missing = append(missing, st)
		}
	}
	return missing, err
}

// longestChoice is how many documents a list to choose from names.
const longestChoice = 200

// planChoices lists what can be chosen.
func (s *Server) planChoices(ctx context.Context, p planned, pr quantity.Printer) (c planChoices, err error) {
	for _, list := range []struct {
		kind, chosen string
		to           *[]option
	}{
		{"recipe", p.query.Recipe, &c.Recipes}, {"brewhouse", p.query.House, &c.Houses}, {"stock", p.query.Stock, &c.Stocks},
		{"water", p.query.Water, &c.Waters}, {"style", p.query.Style, &c.Styles},
	} {
		if *list.to, err = s.documentOptions(ctx, list.kind, list.chosen); err != nil {
			return c, err
		}
	}
	c.HasRecipe, c.HasHouse = p.in.Recipe != nil, p.in.House != nil
	if c.HasHouse {
		c.Cooling = coolingOptions(p)
		if u := p.in.House.Usual; u != nil {
			c.Usual = pr.Volume(*u)
		}
	}
	if c.HasRecipe {
		c.Swaps = swapChoices(p)
	}
	return c, nil
}

// documentOptions lists the documents of a kind. One that was chosen is in the
// list even where the list is cut short.
func (s *Server) documentOptions(ctx context.Context, kind, chosen string) (list []option, err error) {
	if _, err := s.chapter(kind); err != nil {
		return nil, nil // this book doesn't read that kind
	}
	found, _, err := s.book.List(ctx, kind, Part{Limit: longestChoice})
	if err != nil {
		return nil, err
	}
	for _, d := range found {
		list = append(list, option{d.Slug, d.Title, d.Slug == chosen})
	}
	listed := slices.ContainsFunc(list, func(o option) bool { return o.Chosen })
	if chosen == "" || listed {
		return list, nil
	}
	d, err := s.book.Get(ctx, kind, chosen)
	if errors.Is(err, ErrNotFound) {
		return list, nil
	}
	return append(list, option{d.Slug, d.Title, true}), err
}

func coolingOptions(p planned) (list []option) {
	for i, way := range p.in.House.Cooling {
		list = append(list, option{way.Name, way.Name, way.Name == p.query.Cooling || p.query.Cooling == "" && i == 0})
	}
	return list
}

// swapChoices offers for each hop of the recipe those of the shed and the
// typical ones.
func swapChoices(p planned) (list []swapChoice) {
	shed := hopsInShed(p.in.Stock)
	for _, hop := range hopsOf(p.in.Recipe) {
		c := swapChoice{Hop: hopName(hop)}
		offer := func(to *[]option, other string) {
			if other != hop {
				*to = append(*to, option{hop + "=" + other, hopName(other), p.query.Swap[hop] == other})
			}
		}
		for _, other := range shed {
			offer(&c.InShed, other)
		}
		for _, other := range data.HopIDs() {
			if !slices.Contains(shed, other) {
				offer(&c.Typical, other)
			}
		}
		list = append(list, c)
	}
	return list
}

func hopsInShed(s *stock.Stock) (hops []string) {
	if s == nil {
		return nil
	}
	for _, l := range s.Hops {
		if !slices.Contains(hops, l.Hop) {
			hops = append(hops, l.Hop)
		}
	}
	return hops
}

// today is the day of the clock, for the head of printed sheets.
func (s *Server) today() string { return s.now().In(time.Local).Format("2 January 2006") }
