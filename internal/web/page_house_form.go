// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"gyle/brewhouse"
	"gyle/internal/document"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// formField is a value of a document in a form that explains it. Its name is
// the place of the value in the document, so that a fault finds the field that
// caused it.
type formField struct {
	Path, Label string
	Hint        string // in plain words: what it is, what is usual
	Unit        string // added to a bare number
	Area        bool   // several lines
	Wide        bool   // the whole width of the form
	Options     []formChoice
	Value       string
	Fault, Mend string
}

// formChoice is an option of a field, or a hidden value.
type formChoice struct{ Value, Label string }

// ID is the id of the field in the page.
func (f formField) ID() string { return "at-" + formIDs.Replace(f.Path) }

var formIDs = strings.NewReplacer("[", "-", "]", "", ".", "-", " ", "-", ":", "-")

// formGroup is a part of a form under a heading.
type formGroup struct {
	Title, About string
	Care         string // a caution
	Across       int    // fields side by side; 0 lets the width decide
	Fields       []formField
}

// docForm is a document, or a part of one, in a form.
type docForm struct {
	Title, Lead  string
	Action, Back string
	Save         string // what the button says
	Base         int
	Groups       []formGroup
	Hidden       []formChoice
	Loose        []faultBody // faults that belong to no field
	Author, Why  string
	Live         string // where it is sent while somebody types
	Preview      any
	Text         string // address of the document as text
	New          bool   // there is no revision yet: nothing is signed
	Remove       string // what a second button takes out; empty for none
}

// Faulty lists the fields that are at fault.
func (f docForm) Faulty() (faulty []formField) {
	f.each(func(x *formField) {
		if x.Fault != "" {
			faulty = append(faulty, *x)
		}
	})
	return faulty
}

// each calls a function for every field.
func (f *docForm) each(do func(*formField)) {
	for g := range f.Groups {
		for i := range f.Groups[g].Fields {
			do(&f.Groups[g].Fields[i])
		}
	}
}

// fill takes the values of the fields from a document.
func (f *docForm) fill(d *document.Draft) {
	f.each(func(x *formField) { x.Value = d.Get(x.Path) })
}

// fillTyped takes them from what somebody typed.
func (f *docForm) fillTyped(typed url.Values) {
	f.each(func(x *formField) { x.Value = typed.Get(x.Path) })
	f.Author, f.Why = shortName(typed.Get("author")), typed.Get("why")
}

// apply writes what was typed into a document.
func (f *docForm) apply(d *document.Draft) (err error) {
	f.each(func(x *formField) { err = errors.Join(err, d.Set(x.Path, x.text())) })
	return err
}

// text is the value as the document writes it: line ends of one kind, and the
// unit where only a number was typed.
func (f *formField) text() string {
	value := strings.ReplaceAll(f.Value, "\r\n", "\n")
	if f.Area {
		if value = strings.TrimRight(value, " \n\t"); strings.Contains(value, "\n") {
			value += "\n"
		}
		return value
	}
	return withUnit(value, f.Unit)
}

// withUnit adds the unit to a number or range that has none.
func withUnit(value, unit string) string {
	value = strings.TrimSpace(value)
	bare := strings.ContainsAny(value, "0123456789") && strings.Trim(value, "0123456789.,±+- ") == ""
	switch {
	case unit == "" || !bare:
		return value
	case strings.HasSuffix(value, ".."):
		return strings.TrimSpace(strings.TrimSuffix(value, "..")) + " " + unit + ".."
	}
	return value + " " + unit
}

// blame puts the faults of a document beside the fields that caused them.
func (f *docForm) blame(err error) {
	var faults document.Faults
	var refused *RefusedError
	switch {
	case errors.As(err, &faults):
		for _, fault := range faults {
			f.blameOne(fault)
		}
	case errors.As(err, &refused):
		f.Loose = append(f.Loose, faultBody{Text: refused.Reason})
	}
}

// blameOne finds the field of a fault: the one at its place, else the nearest.
func (f *docForm) blameOne(fault document.Fault) {
	var best *formField
	better := 0
	f.each(func(x *formField) {
		if n := kinship(x.Path, fault.Field); n > better {
			best, better = x, n
		}
	})
	if best == nil || best.Fault != "" {
		f.Loose = append(f.Loose, faultBody{Field: fault.Field, Text: fault.Msg, Hint: fault.Hint})
		return
	}
	best.Fault, best.Mend = fault.Msg, fault.Hint
}

// kinship says how well a field fits the place of a fault, 0 for not at all.
func kinship(path, fault string) int {
	within := func(outer, inner string) bool {
		rest, ok := strings.CutPrefix(inner, outer)
		return ok && rest != "" && (rest[0] == '.' || rest[0] == '[')
	}
	switch {
	case fault == "":
		return 0
	case path == fault:
		return 1 << 20
	case within(path, fault):
		return 1<<10 + len(path)
	case within(fault, path):
		return 1
	}
	return 0
}

// packRows closes the gaps in the rows of a list that was typed, so that its
// entries are numbered without a break. It returns how many rows are filled.
func packRows(typed url.Values, list string, keys ...string) int {
	filled := 0
	for i := range maxRows {
		row := make([]string, len(keys))
		for k, key := range keys {
			path := rowPath(list, i, key)
			row[k] = strings.TrimSpace(typed.Get(path))
			typed.Del(path)
		}
		if strings.Join(row, "") == "" {
			continue
		}
		for k, key := range keys {
			typed.Set(rowPath(list, filled, key), row[k])
		}
		filled++
	}
	return filled
}

// maxRows is the most rows that a list in a form has.
const maxRows = 60

func rowPath(list string, i int, key string) string { return fmt.Sprintf("%s[%d].%s", list, i, key) }

// openForm reads the form of a request and opens the revision that the edit
// began with.
func (s *Server) openForm(r *http.Request, d Document) (base int, draft *document.Draft, err error) {
	if err := readForm(r); err != nil {
		return 0, nil, err
	}
	if base, err = strconv.Atoi(r.PostFormValue("base")); err != nil {
		return 0, nil, errBadForm
	}
	text := d.Text
	if base != d.Revision {
		began, err := s.book.GetRevision(r.Context(), d.Kind, d.Slug, base)
		if err != nil {
			return 0, nil, err
		}
		text = began.Text
	}
	draft, err = document.OpenDraft([]byte(text))
	return base, draft, err
}

// saveForm saves a draft that a form has changed, and sends the browser on.
// Faults come back beside the fields, with everything that was typed.
func (s *Server) saveForm(w http.ResponseWriter, r *http.Request, d Document, form docForm, draft *document.Draft, next string) error {
	text, err := draftText(d.Kind, draft)
	if err == nil {
		err = s.saveFormText(w, r, d, form, text, next)
	}
	if !isFault(err) {
		return err
	}
	form.blame(err)
	return s.showForm(w, r, http.StatusUnprocessableEntity, d, form)
}

func (s *Server) saveFormText(w http.ResponseWriter, r *http.Request, d Document, form docForm, text, next string) error {
	_, err := s.Save(w, r, Draft{Kind: d.Kind, Slug: d.Slug, Text: text, Author: form.Author, Why: form.Why, Base: form.Base})
	var conflict *ConflictError
	switch {
	case errors.As(err, &conflict):
		c, unknown := s.chapter(d.Kind)
		if unknown != nil {
			return unknown
		}
		mine := editBody{Chapter: c, Slug: d.Slug, Title: d.Title, Base: form.Base, Text: text, Author: form.Author, Why: form.Why}
		return s.showConflict(w, r, mine, conflict)
	case err != nil:
		return err
	case next == "":
		next = d.Path() + "?done=saved"
	}
	return seeOther(w, r, next)
}

func (s *Server) showForm(w http.ResponseWriter, r *http.Request, status int, d Document, form docForm) error {
	sheet := Sheet{Title: form.Title, Chapter: d.Kind}
	if d.Slug != "" {
		sheet.Folio = fmt.Sprintf("revision %d, not saved yet", form.Base+1)
		form.Text = d.Path() + "/text"
	}
	sheet.Body = form
	return s.show(w, r, status, "page_house_form", sheet)
}

// draftText is the text of a draft, with the comments and the layout of the
// text it was opened with. The error is document.Faults.
func draftText(kind string, draft *document.Draft) (string, error) {
	text, err := draft.Text()
	if err != nil {
		return "", err
	}
	return string(text), checkKind(kind, text)
}

// checkKind reads a document of a kind that has a form.
func checkKind(kind string, text []byte) (err error) {
	switch kind {
	case style.Kind:
		_, err = style.Parse(kind, text)
	case brewhouse.Kind:
		_, err = brewhouse.Parse(kind, text)
	case stock.Kind:
		_, err = stock.Parse(kind, text)
	case water.Kind:
		_, err = water.Parse(kind, text)
	default:
		err = fmt.Errorf("read %s: there is no form for this kind", kind)
	}
	return err
}

// asksJSON takes ".json" off the end of the address of a document and reports
// whether it was there.
func asksJSON(r *http.Request) bool {
	slug, asks := strings.CutSuffix(r.PathValue("slug"), ".json")
	r.SetPathValue("slug", slug)
	return asks
}
