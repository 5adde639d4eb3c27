// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"net/http"
	"strconv"
)

// fieldsBody is a document being edited value by value.
type fieldsBody struct {
	Document    Document // the revision the edit began with
	Chapter     chapter
	Groups      []fieldGroup
	Author, Why string
	Check       checkBody
}

func (s *Server) editFields(w http.ResponseWriter, r *http.Request) error {
	c, d, err := s.read(r)
	if err != nil {
		return err
	}
	return s.showFields(w, r, http.StatusOK, fieldsBody{Document: d, Chapter: c, Author: handOf(r).Author}, d.Text)
}

func (s *Server) showFields(w http.ResponseWriter, r *http.Request, status int, body fieldsBody, text string) (err error) {
	if body.Groups, err = fieldsOf(body.Document.Kind, text); err != nil {
		return err
	}
	body.mark()
	sheet := Sheet{Title: body.Document.Title, Chapter: body.Chapter.Kind, Body: body}
	sheet.Folio = "revision " + strconv.Itoa(body.Document.Revision+1) + ", not saved yet"
	return s.show(w, r, status, "page_fields", sheet)
}

// mark sets each fault beside the field to blame and makes its link lead there.
func (b *fieldsBody) mark() {
	for i := range b.Check.Faults {
		fault := &b.Check.Faults[i]
		for _, g := range b.Groups {
			for _, row := range g.Rows {
				for k := range row {
					if row[k].Path == fault.Field {
						row[k].Fault, fault.Anchor = fault, row[k].ID()
					}
				}
			}
		}
	}
}

// readFields reads the form of fields: the revision the edit began with, and
// its text with the typed values in it. A value that can't be put in is the
// error; then the other values before it are in the text.
func (s *Server) readFields(r *http.Request) (body fieldsBody, text string, err error) {
	if body.Chapter, err = s.chapter(r.PathValue("kind")); err != nil {
		return body, "", err
	}
	if err := readForm(r); err != nil {
		return body, "", err
	}
	base, err := strconv.Atoi(r.PostFormValue("base"))
	if err != nil {
		return body, "", errBadForm
	}
	body.Document, err = s.book.GetRevision(r.Context(), r.PathValue("kind"), r.PathValue("slug"), base)
	if err != nil {
		return body, "", err
	}
	body.Author, body.Why = shortName(r.PostFormValue("author")), r.PostFormValue("why")
	text, err = spliceFields(body.Document.Kind, body.Document.Text, r.PostForm)
	return body, text, err
}

func (s *Server) saveFields(w http.ResponseWriter, r *http.Request) error {
	body, text, err := s.readFields(r)
	if err == nil {
		var saved Document
		d := body.Document
		saved, err = s.Save(w, r, Draft{Kind: d.Kind, Slug: d.Slug, Text: text, Author: body.Author, Why: body.Why, Base: d.Revision})
		if err == nil {
			return seeOther(w, r, saved.Path()+"?done=saved")
		}
	}
	var conflict *ConflictError
	switch {
	case errors.As(err, &conflict):
		mine := editBody{Chapter: body.Chapter, Slug: body.Document.Slug, Base: body.Document.Revision, Text: text, Author: body.Author, Why: body.Why}
		return s.showConflict(w, r, mine, conflict)
	case isFault(err) && text != "":
		body.Check = checkOf("", err)
		return s.showFields(w, r, http.StatusUnprocessableEntity, body, text)
	}
	return err
}

// checkFields answers with the faults alone, while somebody types.
func (s *Server) checkFields(w http.ResponseWriter, r *http.Request) error {
	body, text, err := s.readFields(r)
	title := ""
	if err == nil {
		title, err = s.book.Check(body.Document.Kind, text)
	}
	if err != nil && (!isFault(err) || text == "") {
		return err
	}
	body.Check = checkOf(title, err)
	if body.Groups, err = fieldsOf(body.Document.Kind, text); err != nil {
		return err
	}
	body.mark()
	return s.fragment(w, r, "page_fields", "check", body.Check)
}
