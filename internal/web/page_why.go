// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"

	"gyle/science"
)

// whyBody is a formula with the literature it names.
type whyBody struct {
	Formula science.Formula
	Cited   []string
}

func (s *Server) why(w http.ResponseWriter, r *http.Request) error {
	f, ok := science.Lookup(r.PathValue("name"))
	if !ok {
		return ErrNotFound
	}
	body := whyBody{Formula: f}
	for _, key := range f.Cited() {
		body.Cited = append(body.Cited, science.Sources[key])
	}
	return s.show(w, r, http.StatusOK, "page_why", Sheet{Title: f.Name, Chapter: "why", Body: body})
}

// formulaChapter is the formulas of one chapter of science.
type formulaChapter struct {
	Name     string
	Formulas []science.Formula
}

func (s *Server) whyAll(w http.ResponseWriter, r *http.Request) error {
	var body []formulaChapter
	for _, f := range science.All() {
		name, _, _ := strings.Cut(f.Name, ".")
		if len(body) == 0 || body[len(body)-1].Name != name {
			body = append(body, formulaChapter{Name: name})
		}
		last := &body[len(body)-1]
		last.Formulas = append(last.Formulas, f)
	}
	return s.show(w, r, http.StatusOK, "page_formulas", Sheet{Title: "Why these numbers", Chapter: "why", Body: body})
}
