// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http"
	"slices"

	"gyle/recipe"
)

// homeBody is what the first page draws.
type homeBody struct {
	Recent    []Document
	Questions []question
	Brewing   []brewing
	Steps     []step
	Demo      bool
}

// question is what the latest version of a beer expects and nobody has tasted
// yet.
type question struct {
	Document
	Name, Expect string
	Version      int
}

// Missing reports whether a plan needs something that isn't written yet.
func (b homeBody) Missing() bool {
	return slices.ContainsFunc(b.Steps, func(s step) bool { return !s.Have })
}

// step is a stage of the way from nothing to a plan.
type step struct {
	Chapter chapter
	Have    bool
	Next    bool // the first that is missing
}

// firstPath is the order in which a first book is filled.
var firstPath = []string{"style", "recipe", "brewhouse", "stock", "water"}

func (s *Server) home(w http.ResponseWriter, r *http.Request) error {
	recent, err := s.book.Recent(r.Context(), 24)
	if err != nil {
		return err
	}
	living := recent[:0:0]
	for _, d := range recent {
		if !d.Deleted {
			living = append(living, d)
		}
	}
	if len(living) == 0 {
		return s.first(w, r)
	}
	questions, err := s.questions(r.Context(), living)
	if err != nil {
		return err
	}
	brewing, err := s.brewing(r.Context(), living, handOf(r).printer())
	if err != nil {
		return err
	}
	steps, err := s.steps(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "page_home", Sheet{Title: s.bookName(r.Context()), Chapter: "home", Body: homeBody{Recent: living, Questions: questions, Brewing: brewing, Steps: steps}})
}

// mostQuestions is how many recipes lately written are asked what they expect.
const mostQuestions = 8

// questions are what the beers lately written expect of their last change,
// the latest version of each.
func (s *Server) questions(ctx context.Context, recent []Document) (list []question, err error) {
	asked := 0
	for _, d := range recent {
		if d.Kind != recipe.Kind || asked == mostQuestions {
			continue
		}
		asked++
		whole, err := s.book.Get(ctx, d.Kind, d.Slug)
		if err != nil {
			return nil, err
		}
		r, err := recipe.Parse(d.Slug, []byte(whole.Text))
		if err != nil {
			continue // its own page tells what is wrong with it
		}
		list = withQuestion(list, d, r)
	}
	return slices.DeleteFunc(list, func(q question) bool { return q.Expect == "" }), nil
}

// withQuestion puts a recipe into the list unless a later version is there.
func withQuestion(list []question, d Document, r *recipe.Recipe) []question {
	q := question{Document: d, Name: r.Name, Version: r.Version}
	if r.Change != nil {
		q.Expect = r.Change.Expect
	}
	i := slices.IndexFunc(list, func(other question) bool { return other.Name == r.Name })
	switch {
	case i < 0:
		return append(list, q)
	case list[i].Version < r.Version:
		list[i] = q
	}
	return list
}

// first is the way into an empty book. It stays open later, for a second look.
func (s *Server) first(w http.ResponseWriter, r *http.Request) error {
	steps, err := s.steps(r.Context())
	if err != nil {
		return err
	}
	body := homeBody{Steps: steps, Demo: s.options.Demo != nil}
	return s.show(w, r, http.StatusOK, "page_first", Sheet{Title: "The first page", Chapter: "home", Body: body})
}

func (s *Server) firstDemo(w http.ResponseWriter, r *http.Request) error {
	if s.options.Demo == nil {
		return ErrNotFound
	}
	if err := s.options.Demo(r.Context()); err != nil {
		return err
	}
	return seeOther(w, r, "/")
}

// steps tells which kinds of document the book has already.
func (s *Server) steps(ctx context.Context) (steps []step, err error) {
	missing := false
	for _, kind := range firstPath {
		c, err := s.chapter(kind)
		if err != nil {
			continue // this book doesn't read that kind
		}
		found, _, err := s.book.List(ctx, kind, Part{Limit: 1})
		if err != nil {
			return nil, err
		}
		have := len(found) > 0
		steps = append(steps, step{Chapter: c, Have: have, Next: !have && !missing})
		missing = missing || !have
	}
	return steps, nil
}
