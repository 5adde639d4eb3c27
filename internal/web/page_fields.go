// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"
)

// fieldsBody is a document being edited value by value.
type fieldsBody struct {
	Document    Document // its Revision is the one the edit began with
	Chapter     chapter
	Groups      []fieldGroup
	Author, Why string
	Check       checkBody
	Text        string // as it is with what was typed
	Changed     bool   // something was typed that isn't saved
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
	body.Text = text
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
// the text that came with it, with the typed values in it. A value that can't
// be put in is the error; then the values before it are in the text.
func (s *Server) readFields(r *http.Request) (body fieldsBody, text string, err error) {
	if body.Chapter, body.Document, err = s.read(r); err != nil {
		return body, "", err
	}
	if err := readForm(r); err != nil {
		return body, "", err
	}
	if body.Document.Revision, err = strconv.Atoi(r.PostFormValue("base")); err != nil {
		return body, "", errBadForm
	}
	body.Author, body.Why, body.Changed = shortName(r.PostFormValue("author")), r.PostFormValue("why"), true
	text = strings.ReplaceAll(r.PostFormValue("text"), "\r\n", "\n")
	text, err = spliceFields(body.Document.Kind, text, r.PostForm)
	return body, text, err
}

// lineChange adds or takes out the line whose button was pressed.
func lineChange(kind, text string, form url.Values) (string, bool, error) {
	switch {
	case form.Has("add"):
		text, err := addLine(kind, text, form.Get("add"))
		return text, true, err
	case form.Has("take"):
		text, err := takeLine(text, form.Get("take"))
		return text, true, err
	}
	return text, false, nil
}

func (s *Server) saveFields(w http.ResponseWriter, r *http.Request) error {
	body, text, err := s.readFields(r)
	if err != nil {
		return s.fieldsFail(w, r, body, text, err)
	}
	d := body.Document
	text, changed, err := lineChange(d.Kind, text, r.PostForm)
	if changed && err == nil {
		return s.showFields(w, r, http.StatusOK, body, text)
	}
	if err != nil {
		return err
	}
	saved, err := s.Save(w, r, Draft{Kind: d.Kind, Slug: d.Slug, Text: text, Author: body.Author, Why: body.Why, Base: d.Revision})
	if err != nil {
		return s.fieldsFail(w, r, body, text, err)
	}
	return seeOther(w, r, saved.Path()+"?done=saved")
}

// fieldsFail shows what was typed again, with what is wrong with it.
func (s *Server) fieldsFail(w http.ResponseWriter, r *http.Request, body fieldsBody, text string, err error) error {
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
