// SPDX-License-Identifier: MIT

package web

import (
	"embed"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"gyle/internal/document"
)

//go:embed starters
var starters embed.FS

// editBody is a document being edited as text.
type editBody struct {
	Chapter     chapter
	Slug, Title string // empty for a new document
	Base        int
	Text        string
	Author, Why string
	Check       checkBody
}

// Action is where the form posts to.
func (b editBody) Action() string {
	if b.Slug == "" {
		return "/new/" + b.Chapter.Kind
	}
	return "/" + b.Chapter.Kind + "/" + b.Slug + "/text"
}

// checkBody is what is wrong with a text, or its title when nothing is.
type checkBody struct {
	Checked bool
	Title   string
	Faults  []faultBody
	Refused string // a fault without a place
}

// faultBody is a fault with its line cut where the mark goes.
type faultBody struct {
	Line, Column, Width int
	Field, Text, Hint   string
	Before, At, After   string
}

func (s *Server) newText(w http.ResponseWriter, r *http.Request) error {
	c, err := s.chapter(r.PathValue("kind"))
	if err != nil {
		return err
	}
	if b, ok := beginnings[c.Kind]; ok && !r.URL.Query().Has("from") && r.URL.Query().Get("as") != "text" {
		return s.begin(w, r, c, beginningForm(c, b), http.StatusOK)
	}
	body := editBody{Chapter: c, Author: handOf(r).Author, Text: starterText(c.Kind)}
	if from := r.URL.Query().Get("from"); from != "" {
		d, err := s.book.Get(r.Context(), c.Kind, from)
		if err != nil {
			return err
		}
		body.Text = d.Text
	}
	return s.showEdit(w, r, http.StatusOK, body)
}

// starterText is a short document of a kind to begin with.
func starterText(kind string) string {
	text, err := starters.ReadFile("starters/" + kind + ".yaml")
	if err != nil {
		return "gyle: " + kind + "/1\nname: \n"
	}
	return string(text)
}

func (s *Server) editText(w http.ResponseWriter, r *http.Request) error {
	c, d, err := s.read(r)
	if err != nil {
		return err
	}
	return s.showEdit(w, r, http.StatusOK, editBody{
		Chapter: c, Slug: d.Slug, Title: d.Title, Base: d.Revision, Text: d.Text, Author: handOf(r).Author,
	})
}

func (s *Server) showEdit(w http.ResponseWriter, r *http.Request, status int, body editBody) error {
	sheet := Sheet{Title: "A new " + body.Chapter.One, Chapter: body.Chapter.Kind, Body: body}
	if body.Slug != "" {
		sheet.Title = body.Title
		sheet.Folio = "revision " + strconv.Itoa(body.Base+1) + ", not saved yet"
	}
	return s.show(w, r, status, "page_edit", sheet)
}

// readEdit reads the form of a text being edited.
func (s *Server) readEdit(r *http.Request) (body editBody, err error) {
	if body.Chapter, err = s.chapter(r.PathValue("kind")); err != nil {
		return body, err
	}
	if err := readForm(r); err != nil {
		return body, err
	}
	body.Slug = r.PathValue("slug")
	body.Text = strings.ReplaceAll(r.PostFormValue("text"), "\r\n", "\n")
	if body.Text != "" && !strings.HasSuffix(body.Text, "\n") {
		body.Text += "\n"
	}
	if body.Slug == "" {
		body.Text = fromPublished(body.Chapter.Kind, body.Text)
	}
	body.Author, body.Why = shortName(r.PostFormValue("author")), r.PostFormValue("why")
	if base := r.PostFormValue("base"); base != "" {
		if body.Base, err = strconv.Atoi(base); err != nil {
			return body, errBadForm
		}
	}
	return body, nil
}

func (s *Server) saveNew(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	if c, err := s.chapter(r.PathValue("kind")); err == nil && r.PostForm.Has("begin") && beginnings[c.Kind].lead != "" {
		return s.saveBegun(w, r, c)
	}
	body, err := s.readEdit(r)
	if err != nil {
		return err
	}
	title, err := s.book.Check(body.Chapter.Kind, body.Text)
	if err != nil {
		return s.showFaults(w, r, body, err)
	}
	slug, err := s.freeSlug(r.Context(), body.Chapter.Kind, title)
	if err != nil {
		return err
	}
	return s.save(w, r, body, slug)
}

func (s *Server) saveText(w http.ResponseWriter, r *http.Request) error {
	body, err := s.readEdit(r)
	if err != nil {
		return err
	}
	if d, err := s.book.Get(r.Context(), body.Chapter.Kind, body.Slug); err != nil {
		return err
	} else {
		body.Title = d.Title
	}
	return s.save(w, r, body, body.Slug)
}

func (s *Server) save(w http.ResponseWriter, r *http.Request, body editBody, slug string) error {
	saved, err := s.Save(w, r, Draft{
		Kind: body.Chapter.Kind, Slug: slug, Text: body.Text, Author: body.Author, Why: body.Why, Base: body.Base,
	})
	var conflict *ConflictError
	switch {
	case errors.As(err, &conflict):
		return s.showConflict(w, r, body, conflict)
	case isFault(err):
		return s.showFaults(w, r, body, err)
	case err != nil:
		return err
	}
	return seeOther(w, r, saved.Path()+"?done=saved")
}

// Save saves a draft and remembers in the browser who wrote it. Pages with a
// form of their own save through it, too, and hand faults and conflicts to
// showFaults and showConflict.
func (s *Server) Save(w http.ResponseWriter, r *http.Request, d Draft) (Document, error) {
	saved, err := s.book.Save(r.Context(), d)
	if err != nil {
		return saved, err
	}
	if h := handOf(r); h.Author != d.Author {
		h.Author = d.Author
		http.SetCookie(w, h.cookie())
	}
	return saved, nil
}

// isFault reports whether the text of a document is to blame.
func isFault(err error) bool {
	var faults document.Faults
	var refused *RefusedError
	return errors.As(err, &faults) || errors.As(err, &refused)
}

// showFaults shows the text again as it was typed, with its faults beside it.
func (s *Server) showFaults(w http.ResponseWriter, r *http.Request, body editBody, err error) error {
	if !isFault(err) {
		return err
	}
	body.Check = checkOf("", err)
	return s.showEdit(w, r, http.StatusUnprocessableEntity, body)
}

// check answers with the faults alone, while somebody types.
func (s *Server) check(w http.ResponseWriter, r *http.Request) error {
	body, err := s.readEdit(r)
	if err != nil {
		return err
	}
	title, err := s.book.Check(body.Chapter.Kind, body.Text)
	if err != nil && !isFault(err) {
		return err
	}
	return s.fragment(w, r, "page_edit", "check", checkOf(title, err))
}

func checkOf(title string, err error) checkBody {
	body := checkBody{Checked: true, Title: title}
	var faults document.Faults
	var refused *RefusedError
	switch {
	case errors.As(err, &faults):
		for _, f := range faults {
			body.Faults = append(body.Faults, faultOf(f))
		}
	case errors.As(err, &refused):
		body.Refused = refused.Reason
	}
	return body
}

// faultOf cuts the line of a fault into what is before, under and after its
// mark.
func faultOf(f document.Fault) faultBody {
	body := faultBody{Line: f.Line, Column: f.Col, Width: f.Width, Field: f.Field, Text: f.Msg, Hint: f.Hint}
	if len(f.Context) == 0 {
		return body
	}
	line := []rune(f.Context[len(f.Context)-1])
	from := min(max(f.Col-1, 0), len(line))
	to := min(from+max(f.Width, 1), len(line))
	body.Before, body.At, body.After = string(line[:from]), string(line[from:to]), string(line[to:])
	return body
}

// conflictBody is a document that two people changed at once.
type conflictBody struct {
	Edit    editBody // what the form holds; saving it starts from Theirs
	Mine    string   // what the reader typed
	Merged  bool     // the form holds both changes
	Theirs  Document
	Changes []change // from theirs to what the form holds
	Since   []change // what they changed since the edit began; nil where that isn't known
}

// showConflict shows both texts. Where the changes don't touch one another,
// the form holds them together; else it holds what the reader typed.
func (s *Server) showConflict(w http.ResponseWriter, r *http.Request, mine editBody, c *ConflictError) error {
	theirs := c.Current
	body := conflictBody{Edit: mine, Mine: mine.Text, Theirs: theirs}
	body.Edit.Base = theirs.Revision
	if began, err := s.book.GetRevision(r.Context(), theirs.Kind, theirs.Slug, mine.Base); err == nil {
		body.Since = shortened(compare(began.Text, theirs.Text), 1)
		if merged, ok := mergeDocuments(theirs.Kind, began.Text, mine.Text, theirs.Text); ok {
			body.Edit.Text, body.Merged = merged, true
		}
	}
	body.Changes = shortened(compare(theirs.Text, body.Edit.Text), 2)
	return s.show(w, r, http.StatusConflict, "page_conflict", Sheet{Title: theirs.Title, Chapter: theirs.Kind, Folio: folio(theirs), Body: body})
}
