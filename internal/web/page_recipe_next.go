// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"strconv"
	"strings"

	"gyle/recipe"
)

// recipeNextBody asks what a new version is about.
type recipeNextBody struct {
	Document            Document
	Mode                recipeMode
	Text                string // the recipe as it was changed, in canonical form
	Base                int
	Version             int
	Differences         []recipe.Difference
	Independent         int
	Question            string // the difference that is the question, where several are
	What, Why, Expect   string
	Author              string
	Faults              map[string]string // by field
	Comments, Unchanged bool
}

// askNext asks for the reason of a new version, or shows the faults of the
// form.
func (s *Server) askNext(w http.ResponseWriter, r *http.Request, b *recipeEditBody) error {
	read, err := b.Form.judge()
	if err != nil {
		return err
	}
	if read == nil {
		return s.showRecipeForm(w, r, http.StatusUnprocessableEntity, b)
	}
	text, err := read.Text()
	if err != nil {
		return err
	}
	next := &recipeNextBody{Document: b.Document, Mode: b.Mode, Text: string(text), Base: b.Document.Revision, Author: b.Author, Comments: b.Comments}
	if err := s.fillNext(r, next, read); err != nil {
		return err
	}
	if len(next.Differences) == 1 {
		next.What = differenceWords(next.Differences[0])
	}
	return s.showNext(w, r, http.StatusOK, next)
}

// fillNext finds what the new version does differently and its number.
func (s *Server) fillNext(r *http.Request, next *recipeNextBody, changed *recipe.Recipe) error {
	parent, err := recipe.Parse(next.Document.Slug, []byte(next.Document.Text))
	if err != nil {
		return &RefusedError{"The text of the version it comes from is at fault: open it as text."}
	}
	next.Differences = recipe.Differences(parent, changed)
	next.Independent = recipe.Independent(next.Differences)
	next.Unchanged = len(next.Differences) == 0
	list, err := s.versions(r.Context(), parent.Name)
	if err != nil {
		return err
	}
	next.Version = nextVersion(list, parent)
	return nil
}

// differenceWords says a difference as a brewer would write it down.
func differenceWords(d recipe.Difference) string {
	what := spoken(d.What)
	switch {
	case d.Before == "":
		return what + " " + d.After
	case d.After == "":
		return "without " + what
	}
	return what + " from " + d.Before + " to " + d.After
}

func (s *Server) showNext(w http.ResponseWriter, r *http.Request, status int, next *recipeNextBody) error {
	sheet := Sheet{Title: versionTitle(next.name(), next.Version), Chapter: recipe.Kind, Folio: "not saved yet", Body: next}
	return s.show(w, r, status, "page_recipe_next", sheet)
}

func (n *recipeNextBody) name() string {
	w, err := readWritten(n.Text)
	if err != nil {
		return n.Document.Title
	}
	return w.Name
}

// Questions are the differences as a choice.
func (n *recipeNextBody) Questions() (list []string) {
	for _, d := range n.Differences {
		list = append(list, differenceWords(d))
	}
	return list
}

// saveNext saves the new version as a document of its own.
func (s *Server) saveNext(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	if err := readForm(r); err != nil {
		return err
	}
	next := &recipeNextBody{
		Document: d, Mode: recipeEdit, Text: plainLines(r.PostFormValue("text")), Question: r.PostFormValue("question"),
		What: strings.TrimSpace(r.PostFormValue("what")), Why: strings.TrimSpace(r.PostFormValue("why")), Expect: strings.TrimSpace(r.PostFormValue("expect")),
		Author: shortName(r.PostFormValue("author")), Faults: map[string]string{}, Comments: hasComments(d.Text),
	}
	if next.Base, err = strconv.Atoi(r.PostFormValue("base")); err != nil {
		return errBadForm
	}
	changed, err := recipe.Parse(d.Slug, []byte(next.Text))
	if err != nil {
		return errBadForm
	}
	if err := s.fillNext(r, next, changed); err != nil {
		return err
	}
	if next.ask(); len(next.Faults) > 0 {
		return s.showNext(w, r, http.StatusUnprocessableEntity, next)
	}
	saved, err := s.writeNext(w, r, next, changed)
	if err != nil {
		return err
	}
	return seeOther(w, r, saved.Path()+"?done=saved")
}

// openQuestion is chosen by who wants several changes at once and no question.
const openQuestion = "open"

// ask finds the questions that were left open.
func (n *recipeNextBody) ask() {
	if n.Question == openQuestion {
		n.Question = "" // asked and left open
	} else if n.Independent > 1 && n.Question == "" {
		n.Faults["question"] = "choose the one that a tasting should answer, or leave it open"
	}
	switch {
	case n.What == "":
		n.What = n.Question
	case n.Question != "" && !strings.Contains(n.What, n.Question):
		n.What += "; the question: " + n.Question
	}
	if n.What == "" {
		n.Faults["what"] = "say in a few documentWords what is different"
	}
}

// writeNext writes the new version with its number, its parent and its reason.
func (s *Server) writeNext(w http.ResponseWriter, r *http.Request, next *recipeNextBody, changed *recipe.Recipe) (Document, error) {
	parent, err := recipe.Parse(next.Document.Slug, []byte(next.Document.Text))
	if err != nil {
		return Document{}, err
	}
	changed.Version, changed.Parent = next.Version, max(parent.Version, 1)
	changed.Change = &recipe.Change{What: next.What, Why: next.Why, Expect: next.Expect}
	if next.Author != "" {
		changed.By = next.Author
	}
	text, err := changed.Text()
	if err != nil {
		return Document{}, err
	}
	slug, err := s.freeSlug(r.Context(), recipe.Kind, versionTitle(changed.Name, changed.Version))
	if err != nil {
		return Document{}, err
	}
	return s.Save(w, r, Draft{Kind: recipe.Kind, Slug: slug, Text: string(text), Author: next.Author, Why: next.What})
}
