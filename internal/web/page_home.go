// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http"
	"slices"
)

// homeBody is what the first page draws.
type homeBody struct {
	Recent []Document
	Steps  []step
	Demo   bool
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
	steps, err := s.steps(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "page_home", Sheet{Title: s.bookName(r.Context()), Chapter: "home", Body: homeBody{Recent: living, Steps: steps}})
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
