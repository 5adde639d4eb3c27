// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"net/url"
)

// listLength is the number of lines of a list that fit a page.
const listLength = 40

// listBody is a part of the list of one kind.
type listBody struct {
	Chapter chapter
	Words   string // searched for
	Found   []Document
	Hits    []Hit
	Next    string // address of the next part
	Later   bool   // this isn't the first part
}

func (s *Server) list(w http.ResponseWriter, r *http.Request) error {
	c, err := s.chapter(r.PathValue("kind"))
	if err != nil {
		return err
	}
	query := r.URL.Query()
	body := listBody{Chapter: c, Words: query.Get("words"), Later: query.Get("after") != ""}
	part := Part{Limit: listLength, After: query.Get("after")}
	var next string
	if body.Words != "" {
		body.Hits, next, err = s.book.Search(r.Context(), body.Words, c.Kind, part)
	} else {
		body.Found, next, err = s.book.List(r.Context(), c.Kind, part)
	}
	if err != nil {
		return err
	}
	body.Next = nextPath("/"+c.Kind, body.Words, next)
	notice, err := s.deletedNotice(r, c.Kind)
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "page_list", Sheet{Title: c.Name, Chapter: c.Kind, Notice: notice, Body: body})
}

// nextPath is the address of the next part of a list, or empty at the end.
func nextPath(path, words, next string) string {
	if next == "" {
		return ""
	}
	query := url.Values{"after": {next}}
	if words != "" {
		query.Set("words", words)
	}
	return path + "?" + query.Encode()
}

// findBody is a part of what was found.
type findBody struct {
	Words string
	Hits  []Hit
	Next  string
}

func (s *Server) find(w http.ResponseWriter, r *http.Request) error {
	query := r.URL.Query()
	body := findBody{Words: query.Get("words")}
	if body.Words != "" {
		hits, next, err := s.book.Search(r.Context(), body.Words, "", Part{Limit: listLength, After: query.Get("after")})
		if err != nil {
			return err
		}
		body.Hits, body.Next = hits, nextPath("/find", body.Words, next)
	}
	return s.show(w, r, http.StatusOK, "page_find", Sheet{Title: "Find", Chapter: "find", Body: body})
}
