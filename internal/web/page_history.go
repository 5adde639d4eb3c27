// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strconv"
)

// historyBody is a part of the revisions of a document, newest first.
type historyBody struct {
	Document  Document
	Revisions []Document
	Next      string
}

func (s *Server) history(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	found, next, err := s.book.History(r.Context(), d.Kind, d.Slug, Part{Limit: listLength, After: r.URL.Query().Get("after")})
	if err != nil {
		return err
	}
	body := historyBody{Document: d, Revisions: found, Next: nextPath(d.Path()+"/history", "", next)}
	return s.show(w, r, http.StatusOK, "page_history", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Body: body})
}

// revisionBody is one revision beside another.
type revisionBody struct {
	Current  Document
	Revision Document
	Against  int // 0 where there is nothing to compare with
	Changes  []change
	Same     bool
	Lines    []string
}

// revision shows one revision and what it changed, against the one before or
// the one that ?against= names.
func (s *Server) revision(w http.ResponseWriter, r *http.Request) error {
	_, current, err := s.read(r)
	if err != nil {
		return err
	}
	number, err := strconv.Atoi(r.PathValue("revision"))
	if err != nil {
		return ErrNotFound
	}
	d, err := s.book.GetRevision(r.Context(), current.Kind, current.Slug, number)
	if err != nil {
		return err
	}
	body := revisionBody{Current: current, Revision: d, Against: number - 1, Lines: linesOf(d.Text)}
	if asked := r.URL.Query().Get("against"); asked != "" {
		if body.Against, err = strconv.Atoi(asked); err != nil {
			return ErrNotFound
		}
	}
	if body.Against > 0 {
		before, err := s.book.GetRevision(r.Context(), current.Kind, current.Slug, body.Against)
		if err != nil {
			return err
		}
		body.Changes = compare(before.Text, d.Text)
		body.Same = !differs(body.Changes)
		body.Changes = shortened(body.Changes, 2)
	}
	return s.show(w, r, http.StatusOK, "page_revision", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Body: body})
}
