// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strconv"

	"gyle/blind"
	"gyle/recipe"
	"gyle/tasting"
)

// nextBody is what could be asked next about the versions of a beer.
type nextBody struct {
	Document  Document
	Beer      string
	Questions []nextQuestion
}

// nextQuestion is one question with the way to its design.
type nextQuestion struct {
	blind.Question
	EarlierTitle, LaterTitle string
	Sentence                 string
	Design                   string // address of the form
}

// nextQuestions lists what could be asked next, for the beer of a recipe.
func (s *Server) nextQuestions(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	one, err := parsed(s, d.Slug, d.Text, recipe.Parse)
	if err != nil {
		return err
	}
	pr := handOf(r).printer()
	steps, titles, err := s.tastingSteps(r.Context(), one.Name)
	if err != nil {
		return err
	}
	body := nextBody{Document: d, Beer: one.Name}
	for _, q := range blind.Next(steps, pr) {
		query := url.Values{"a": {q.Earlier}, "b": {q.Later}, "kind": {q.Kind}, "tasters": {strconv.Itoa(q.Tasters)}}
		for _, step := range steps {
			if step.Later == q.Later && step.Earlier == q.Earlier {
				query.Set("expect", step.Expect)
				if len(step.Changes) == 1 {
					query.Set("change", step.Changes[0])
				}
			}
		}
		body.Questions = append(body.Questions, nextQuestion{q, titles[q.Earlier], titles[q.Later], q.Says(pr), "/new/tasting?" + query.Encode()})
	}
	return s.show(w, r, http.StatusOK, "page_tasting_next", Sheet{Title: "What to ask a panel next", Chapter: recipe.Kind, Folio: folio(d), Body: body})
}

// tastingSteps are the versions of a beer against those they came from, with their
// tastings and batches.
func (s *Server) tastingSteps(ctx context.Context, beer string) (steps []blind.Step, titles map[string]string, err error) {
	list, err := s.versions(ctx, beer)
	if err != nil {
		return nil, nil, err
	}
	if err := s.countBrews(ctx, list); err != nil {
		return nil, nil, err
	}
	titles, byNumber := map[string]string{}, map[string]recipeVersion{}
	for _, v := range list {
		titles[v.Slug], byNumber[v.Label()] = v.Title, v
	}
	for _, v := range list {
		parent, known := byNumber[v.Parent()]
		if !known {
			continue
		}
		step, err := s.tastingStep(ctx, parent, v)
		if err != nil {
			return nil, nil, err
		}
		steps = append(steps, step)
	}
	return steps, titles, nil
}

// tastingStep is one version against its parent.
func (s *Server) tastingStep(ctx context.Context, parent, v recipeVersion) (blind.Step, error) {
	step := blind.Step{Earlier: parent.Slug, Later: v.Slug, Batches: [2]int{parent.Brews, v.Brews}, Changes: StepChanges(parent.Recipe, v.Recipe)}
	if c := v.Recipe.Change; c != nil {
		step.Expect = c.Expect
	}
	for _, slug := range v.Tastings {
		d, err := s.book.Get(ctx, tasting.Kind, slug)
		if errors.Is(err, ErrNotFound) || err == nil && d.Deleted {
			continue
		}
		if err != nil {
			return step, err
		}
		if t, err := tasting.Parse(d.Slug, []byte(d.Text)); err == nil {
			step.Tastings = append(step.Tastings, t)
		}
	}
	return step, nil
}

// StepChanges says what a version does differently from another, apart from what
// follows from that: in its brewer's words where it is one change, else one by one.
func StepChanges(earlier, later *recipe.Recipe) (list []string) {
	differences := recipe.Differences(earlier, later)
	if recipe.Independent(differences) < 2 {
		if c := later.Change; c != nil && c.What != "" {
			return []string{c.What}
		}
	}
	for _, d := range differences {
		if !d.Follows() {
			list = append(list, differenceWords(d))
		}
	}
	return list
}

// TastingSteps are the steps of a beer of a book, with the titles of its versions: for
// the command line.
func TastingSteps(ctx context.Context, b Book, beer string) (steps []blind.Step, titles map[string]string, err error) {
	s, err := New(Options{Book: b})
	if err != nil {
		return nil, nil, err
	}
	return s.tastingSteps(ctx, beer)
}
