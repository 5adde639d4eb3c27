// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
)

// documentBody is a document as its text, with who names it.
type documentBody struct {
	Document Document
	Chapter  chapter
	Lines    []string
	Named    []Referrer
}

// document shows any kind of document as its text. A kind with a sheet of its
// own has a more particular address in routes.go.
func (s *Server) document(w http.ResponseWriter, r *http.Request) error {
	c, d, err := s.read(r)
	if err != nil {
		return err
	}
	named, err := s.book.References(r.Context(), d.Kind, d.Slug)
	if err != nil {
		return err
	}
	body := documentBody{Document: d, Chapter: c, Lines: linesOf(d.Text), Named: named}
	status := http.StatusOK
	if d.Deleted {
		status = http.StatusGone
	}
	return s.show(w, r, status, "page_document", Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: savedNotice(r, d), Body: body})
}

// read reads the document that the address names: {slug} of {kind}, or of the
// kind that is the first word of the address.
func (s *Server) read(r *http.Request) (chapter, Document, error) {
	kind := r.PathValue("kind")
	if kind == "" {
		kind, _, _ = strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
	}
	c, err := s.chapter(kind)
	if err != nil {
		return c, Document{}, err
	}
	d, err := s.book.Get(r.Context(), kind, r.PathValue("slug"))
	return c, d, err
}

// folio is the page number of a document: its revision.
func folio(d Document) string { return fmt.Sprintf("revision %d", d.Revision) }

// savedNotice says after a save what was saved.
func savedNotice(r *http.Request, d Document) *Notice {
	switch r.URL.Query().Get("done") {
	case "saved":
		return &Notice{Text: fmt.Sprintf("Saved as revision %d.", d.Revision)}
	case "restored":
		return &Notice{Text: "Brought back as it was."}
	}
	return nil
}

// deletedNotice says on the list what was just deleted, and offers it back.
func (s *Server) deletedNotice(r *http.Request, kind string) (*Notice, error) {
	slug := r.URL.Query().Get("deleted")
	if slug == "" {
		return nil, nil
	}
	d, err := s.book.Get(r.Context(), kind, slug)
	if errors.Is(err, ErrNotFound) || err == nil && !d.Deleted {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return &Notice{Text: d.Title + " was taken out. Its history is kept.", Undo: d.Path() + "/undelete", UndoRevision: d.Revision}, nil
}

// refusedDeletion is the page that names who still needs a document.
type refusedDeletion struct {
	Document Document
	By       []Referrer
}

func (s *Server) delete(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	removal, err := s.readRemoval(r)
	if err != nil {
		return err
	}
	_, err = s.book.Delete(r.Context(), removal)
	var referenced *ReferencedError
	var conflict *ConflictError
	switch {
	case errors.As(err, &referenced):
		body := refusedDeletion{d, referenced.By}
		return s.show(w, r, http.StatusConflict, "page_referenced", Sheet{Title: d.Title + " is still named", Chapter: d.Kind, Folio: folio(d), Body: body})
	case errors.As(err, &conflict):
		return &RefusedError{"Somebody changed it in the meantime. Nothing was taken out; look at it once more."}
	case err != nil:
		return err
	}
	return seeOther(w, r, "/"+d.Kind+"?deleted="+url.QueryEscape(d.Slug))
}

func (s *Server) undelete(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	if !d.Deleted {
		return seeOther(w, r, d.Path())
	}
	removal, err := s.readRemoval(r)
	if err != nil {
		return err
	}
	if _, err := s.book.Undelete(r.Context(), removal); err != nil {
		return err
	}
	return seeOther(w, r, d.Path()+"?done=restored")
}

func (s *Server) readRemoval(r *http.Request) (Removal, error) {
	if err := readForm(r); err != nil {
		return Removal{}, err
	}
	base, err := strconv.Atoi(r.PostFormValue("base"))
	if err != nil {
		return Removal{}, errBadForm
	}
	return Removal{
		Kind: r.PathValue("kind"), Slug: r.PathValue("slug"), Base: base,
		Author: handOf(r).Author, Why: r.PostFormValue("why"), Anyway: r.PostFormValue("anyway") == "yes",
	}, nil
}
