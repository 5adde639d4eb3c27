// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"net/http"
	"strings"

	"gyle/formulate"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// formulateBody is the sheet on which a recipe is sought.
type formulateBody struct {
	Query   formulaQuery
	Faults  fieldFaults
	Choices formulateChoices
	Style   *style.Style
	Title   string // of the recipe that it begins with
	Recipe  string // its name
	Eased   []easedRule

	Found      *foundRecipe
	Conflict   *rulesConflict
	Trouble    string // why there is no answer, in one sentence
	Variations []foundOther
	Swaps      []foundOther

	pr quantity.Printer
}

// formulateChoices is what can be chosen in the form.
type formulateChoices struct {
	Styles, Recipes, Houses, Stocks, Waters, Aims []option
	Malts, Hops                                   []ingredientChoice
	Swaps                                         []option // ingredients of the recipe
}

// ingredientChoice is one row of the form.
type ingredientChoice struct {
	ID, Name, There, Least string
	Use                    []option
	Malt                   bool
	Fault                  *fieldFault
}

// foundRecipe is a recipe that fits, and what is known of it.
type foundRecipe struct {
	Recipe        *formulate.Result
	Judged        judge.Judgement
	Grist, Hops   []recipeLine
	Figures       []recipeFigure
	Rooms         string // drawn
	Says, Hinders []string
	Remedies      []string
	GivenUp       []rulesConflict
	NotUsed       []formulate.NotUsed
	Taking        taking
	Broken, Edge  []judge.Verdict
	Inside        int
	Sure          string
}

// foundOther is a variation or a swap.
type foundOther struct {
	Title, Text string
	Kept, Lost  []string
	Tally       string
	Broken      []judge.Verdict
	Taking      taking
	Conflict    *rulesConflict
}

// taking is the way from a recipe that was found into the book.
type taking struct {
	Text, What, Why, Next string // Next: of the recipe whose next version it may be
	NextTitle             string
	ID, Name              string
}

// easedRule is a rule that gave way.
type easedRule struct{ Phrase, Back string }

// formulatePage seeks a recipe, or asks for what is needed to.
func (s *Server) formulatePage(w http.ResponseWriter, r *http.Request) error {
	q, err := s.readFormula(r)
	if err != nil {
		return err
	}
	if r.URL.Query().Has("form") {
		return seeOther(w, r, q.Path())
	}
	body, wish, err := s.formulateBody(r.Context(), q, handOf(r).printer())
	if err != nil {
		return err
	}
	status := http.StatusOK
	switch {
	case len(body.Faults) > 0:
		status = http.StatusUnprocessableEntity
	case body.Style != nil && q.Do != "":
		if err := s.solve(r.Context(), body, wish, handOf(r).printer()); err != nil {
			return err
		}
		if body.Conflict != nil || body.Trouble != "" {
			status = http.StatusUnprocessableEntity
		}
	}
	title := "Formulate a recipe"
	if body.Style != nil {
		title = "Formulate: " + body.Style.Name
	}
	return s.show(w, r, status, "page_formulate", Sheet{Title: title, Chapter: "style", Body: body})
}

// readFormula reads the query of a search; a recipe to begin with brings its style.
func (s *Server) readFormula(r *http.Request) (formulaQuery, error) {
	q := readFormulaQuery(r.URL.Query())
	if q.Style != "" || q.Like == "" {
		return q, nil
	}
	var unread fieldFaults
	like, err := documentAt(r.Context(), s, recipe.Kind, "like", q.Like, recipe.Parse, &unread)
	if like != nil {
		q.Style = like.Style
	}
	return q, err
}

func (s *Server) formulateBody(ctx context.Context, q formulaQuery, pr quantity.Printer) (*formulateBody, formulate.Wish, error) {
	body := &formulateBody{Query: q, pr: pr}
	wish, meant, err := s.readWish(ctx, q)
	wish.Reader = pr
	if err != nil && !errors.As(err, &body.Faults) {
		return nil, wish, err
	}
	body.Style = meant
	if wish.Start != nil {
		body.Recipe = wish.Start.Name
		body.Title = versionTitle(wish.Start.Name, wish.Start.Version)
	}
	if meant != nil && len(body.Faults) == 0 {
		for _, e := range q.Ease {
			rule := wish.Style.Rules[e.Rule]
			body.Eased = append(body.Eased, easedRule{easedPhrase(meant, rule, e), q.without(e).Path()})
		}
	}
	return body, wish, s.formulateChoices(ctx, body, wish)
}

// easedPhrase says which rule gave way, from what to what.
func easedPhrase(meant *style.Style, now style.Rule, e easing) string {
	was := meant.Rules[e.Rule]
	before, after := was.In, now.In
	if e.Part > 0 && e.Part <= len(was.OfWhich) && e.Part <= len(now.OfWhich) {
		before, after = was.OfWhich[e.Part-1].In, now.OfWhich[e.Part-1].In
	}
	phrase := was.Phrase()
	if before == after {
		return phrase + ": left out"
	}
	return phrase + ": " + before + " became " + after
}

// solve seeks what is asked for. What can't be is said on the page.
func (s *Server) solve(ctx context.Context, body *formulateBody, wish formulate.Wish, pr quantity.Printer) error {
	var err error
	switch q := body.Query; {
	case q.Do == "vary" && wish.Start != nil:
		err = body.vary(ctx, wish, pr)
	case q.Do == "swap" && wish.Start != nil && q.Swap != "":
		err = body.swap(ctx, wish, pr)
	default:
		err = s.findOne(ctx, body, wish, pr)
	}
	return body.refused(err)
}

// refused keeps what a brewer can do something about; other errors are given back.
func (b *formulateBody) refused(err error) error {
	var conflict *formulate.Conflict
	var narrow *formulate.TooNarrow
	switch {
	case err == nil:
		return nil
	case errors.As(err, &conflict):
		c := b.conflictOf(conflict)
		b.Conflict = &c
		return nil
	case errors.As(err, &narrow):
		b.Trouble = narrow.Error()
		return nil
	case isRefusal(err):
		b.Trouble = err.Error()
		return nil
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	}
	b.Trouble = strings.TrimPrefix(err.Error(), "formulate: ")
	return nil
}

// findOne seeks the one recipe that fits best.
func (s *Server) findOne(ctx context.Context, b *formulateBody, wish formulate.Wish, pr quantity.Printer) error {
	r, err := formulate.Find(ctx, wish)
	if err != nil {
		return err
	}
	f := &foundRecipe{Recipe: r, Says: r.Says, Hinders: r.Hinders, Remedies: r.Remedies, NotUsed: r.NotUsed, Taking: b.taking(r.Text, "", "found")}
	var on *plan.Plan
	if wish.House != nil {
		on = r.Plan
	}
	figured := &figuredRecipe{Recipe: r.Recipe, Plan: on, Style: b.Style}
	figured.count(pr)
	if f.Judged, err = figured.judge(pr); err != nil {
		return err
	}
	figured.Judged = &f.Judged
	figured.wordFigures()
	f.Broken, f.Edge, f.Inside, _ = figured.rules()
	f.Figures = figured.Figures
	f.Grist, f.Hops = figured.gristLines(pr), figured.hopLines(pr)
	f.Rooms = roomsOf("rooms", r, pr)
	if o := r.Outlook; o != nil && o.Limits != nil {
		f.Sure = pr.Fraction(quantity.Fraction(o.Limits.Share), 0)
	}
	for i := range r.GivenUp {
		f.GivenUp = append(f.GivenUp, b.conflictOf(&r.GivenUp[i]))
	}
	b.Found = f
	return nil
}
