// SPDX-License-Identifier: MIT

// Package web is the workbench in the browser: the pages in which a brewer
// reads and writes the documents of a gyle book, on the machine that keeps the
// book or on a phone beside the kettle.
//
// The pages look like a wort book: paper, ruled lines, and three inks that
// never change their meaning. Every page works without JavaScript, by keyboard
// and on paper; book.js adds recalculation while somebody types. Nothing is
// loaded from elsewhere.
//
// The package computes no brewing. It doesn't know the store either: [Book]
// says what it needs of one, and cmd/gyle fits the two together. Requests pass
// guard.go (own host name, own forms, paired devices) and come to a [handle]
// listed in routes.go. A handle reads, does, and shows; an error that it
// returns becomes a page in answer.go.
//
// # Adding a page
//
// Write page_NAME.go with a method on [Server]:
//
//	func (s *Server) plan(w http.ResponseWriter, r *http.Request) error {
//		c, d, err := s.read(r) // the document that the address names
//		if err != nil {
//			return err // ErrNotFound and RefusedError have pages, others are "something broke"
//		}
//		body := planBody{…} // plain fields that the template prints
//		return s.show(w, r, http.StatusOK, "page_plan", Sheet{Title: d.Title, Chapter: c.Kind, Folio: folio(d), Body: body})
//	}
//
// Write templates/page_NAME.html with {{define "main"}}…{{end}}, and add a line
// to routes.go. "GET /recipe/{slug}" goes before "GET /{kind}/{slug}". Take care
// that no two patterns fit one address without one of them being the narrower,
// or the program won't start.
//
// A template gets a frame: .Body is the page's own, $.Print prints quantities
// in the reader's units ({{$.Print.Mass .Mass}}), .Hand says which those are.
// Helpers: {{planned …}}, {{measured …}}, {{corrected …}} put a printed figure
// in an ink, {{fig …}} in the tabular face without one; {{why "hops.IsoRate"}}
// links to a formula; {{day .At}} writes a time; {{svg .Drawing}} places a drawing of
// package chart. parts.html holds blocks for several pages: "document-links",
// "document-lines", "hits", "numbered", "changes", "by", "signing", "remove".
// Classes of the stylesheet: two and margin (text with a margin column), lines
// (ruled list), figures (table; its numbers have the class number), deeds
// (row of buttons), lead, by, notice, unseen. No style or script may stand in
// a template: the security policy refuses both.
//
// A form that recalculates while somebody types has data-live (where it is
// sent) and data-into (id of the element that takes the answer); its handle
// answers with [Server.fragment]; data-prompt sends it at each key instead of in
// a pause, for figures that should follow the hand. The fields lie outside of that element, so
// that focus and caret stay.
//
// Any kind can be edited as text (page_edit.go). A page with fields of its own
// makes the text of a document (package internal/document changes a text as a
// draft) and saves it with [Server.Save]. The form carries the revision it began with in the field
// base. A [ConflictError] goes to showConflict and a fault to showFaults, both
// with the text: nothing that was typed is lost.
package web
