// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strings"

	"gyle/brewhouse"
	"gyle/internal/document"
	"gyle/stock"
	"gyle/water"
)

// beginning is how a document of a kind is begun by its name. What else it
// needs stands in it already with ordinary numbers, and the form of the kind
// asks for the reader's own.
type beginning struct{ lead, hint, about string }

var beginnings = map[string]beginning{
	brewhouse.Kind: {
		"A house is one place where beer is brewed: its vessels, its heat, its losses and its habits.", "Garage, Boathouse, the kettle at the club",
		"It begins with the numbers of an ordinary 30 L electric kettle. The next page asks for yours, one by one, and says what is usual.",
	},
	stock.Kind: {
		"A store holds the lots in one shed, with their analyses and dates.", "Garage shed, the club's malt store",
		"It begins with a lot of malt and a lot of hops to show how a lot is written. Put yours beside them and strike these out.",
	},
	water.Kind: {
		"A water is the report of one supply, as it was printed.", "Town supply, well in the yard, bottled",
		"It begins with an ordinary report. The next page asks for the numbers of yours and weighs whether its ions balance.",
	},
}

// begin shows the form that begins a document by its name.
func (s *Server) begin(w http.ResponseWriter, r *http.Request, c chapter, form docForm, status int) error {
	return s.show(w, r, status, "page_house_form", Sheet{Title: form.Title, Chapter: c.Kind, Body: form})
}

func beginningForm(c chapter, b beginning) docForm {
	return docForm{
		Title: "A new " + c.One, Lead: b.lead, Save: "Begin", New: true,
		Action: "/new/" + c.Kind, Back: "/" + c.Kind, Text: "/new/" + c.Kind + "?as=text",
		Hidden: []formChoice{{"begin", "yes"}},
		Groups: []formGroup{{Title: "To begin with", About: b.about, Fields: []formField{
			{Path: "name", Label: "What you call it", Hint: b.hint, Wide: true},
		}}},
	}
}

// saveBegun saves the beginning of a document under the name that was typed
// and leads to its form.
func (s *Server) saveBegun(w http.ResponseWriter, r *http.Request, c chapter) error {
	form := beginningForm(c, beginnings[c.Kind])
	form.fillTyped(r.PostForm)
	form.Author = handOf(r).Author
	name := strings.TrimSpace(r.PostForm.Get("name"))
	text, err := begunText(c, name)
	if err == nil {
		var saved Document
		if saved, err = s.saveUnder(w, r, c.Kind, name, text, form.Author); err == nil {
			return seeOther(w, r, saved.Path()+"/edit")
		}
	}
	if !isFault(err) {
		return err
	}
	form.blame(err)
	return s.begin(w, r, c, form, http.StatusUnprocessableEntity)
}

// saveUnder saves a new document at an address made of its name.
func (s *Server) saveUnder(w http.ResponseWriter, r *http.Request, kind, name, text, author string) (Document, error) {
	slug, err := s.freeSlug(r.Context(), kind, name)
	if err != nil {
		return Document{}, err
	}
	return s.Save(w, r, Draft{Kind: kind, Slug: slug, Text: text, Author: author, Why: "begun"})
}

// begunText is the text that a document begins with.
func begunText(c chapter, name string) (string, error) {
	if name == "" {
		return "", document.Faults{{Field: "name", Msg: "the " + c.One + " needs a name", Hint: beginnings[c.Kind].hint}}
	}
	draft, err := document.OpenDraft([]byte(starterText(c.Kind)))
	if err != nil {
		return "", err
	}
	if err := draft.Set("name", name); err != nil {
		return "", err
	}
	text, err := draft.Text()
	return string(text), err
}
