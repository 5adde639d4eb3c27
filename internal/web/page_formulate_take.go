// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"net/http"
	"strings"

	"gyle/formulate"
	"gyle/recipe"
)

// taking is the way of a recipe into the book.
func (b *formulateBody) taking(text, what, id string) taking {
	t := taking{Text: text, What: what, Why: "formulated to " + b.Style.Name, ID: id, Name: b.Query.Name}
	if t.Name == "" {
		t.Name = b.ownName()
	}
	if b.Query.Like != "" && b.Title != "" {
		t.Next, t.NextTitle = b.Query.Like, b.Title
	}
	return t
}

// ownName is what a recipe of its own is called until somebody says otherwise.
func (b *formulateBody) ownName() string {
	if b.Recipe == "" {
		return b.Style.Name
	}
	return b.Recipe + ", formulated"
}

// takeFormula takes a recipe that was found into the book: as a recipe of its own, or
// towards the next version of the one that it began with, where the reason is asked for.
func (s *Server) takeFormula(w http.ResponseWriter, r *http.Request) error {
	if err := readForm(r); err != nil {
		return err
	}
	found, err := recipe.Parse("recipe.yaml", []byte(plainLines(r.PostFormValue("text"))))
	if err != nil {
		return errBadForm
	}
	if next := r.PostFormValue("next"); next != "" && r.PostFormValue("own") == "" {
		return s.formulaAsNext(w, r, next, found)
	}
	return s.formulaAsNew(w, r, found)
}

// formulaAsNew saves a recipe of its own, without the lineage of the one it began with.
func (s *Server) formulaAsNew(w http.ResponseWriter, r *http.Request, found *recipe.Recipe) error {
	if name := strings.TrimSpace(r.PostFormValue("name")); name != "" {
		found.Name = name
	}
	found.Version, found.Parent, found.Change = 0, 0, nil
	author := handOf(r).Author
	if found.By = author; author == "" {
		found.By = ""
	}
	text, err := found.Text()
	if err != nil {
		return err
	}
	slug, err := s.freeSlug(r.Context(), recipe.Kind, found.Name)
	if err != nil {
		return err
	}
	saved, err := s.Save(w, r, Draft{Kind: recipe.Kind, Slug: slug, Text: string(text), Author: author, Why: r.PostFormValue("why")})
	if err != nil {
		return err
	}
	return seeOther(w, r, saved.Path()+"?done=saved")
}

// formulaAsNext asks what the next version is about, with what is known of it.
func (s *Server) formulaAsNext(w http.ResponseWriter, r *http.Request, slug string, found *recipe.Recipe) error {
	d, err := s.book.Get(r.Context(), recipe.Kind, slug)
	if err != nil {
		return err
	}
	if d.Deleted {
		return ErrNotFound
	}
	parent, err := recipe.Parse(d.Slug, []byte(d.Text))
	if err != nil {
		return &RefusedError{"The text of the version it comes from is at fault: open it as text."}
	}
	found.Name, found.By, found.Version, found.Parent, found.Change = parent.Name, parent.By, parent.Version, parent.Parent, parent.Change
	text, err := found.Text()
	if err != nil {
		return err
	}
	next := &recipeNextBody{
		Document: d, Mode: recipeEdit, Text: string(text), Base: d.Revision, Author: handOf(r).Author, Comments: hasComments(d.Text),
		What: strings.TrimSpace(r.PostFormValue("what")), Why: strings.TrimSpace(r.PostFormValue("why")), Faults: map[string]string{},
	}
	if err := s.fillNext(r, next, found); err != nil {
		return err
	}
	if next.What == "" && len(next.Differences) == 1 {
		next.What = differenceWords(next.Differences[0])
	}
	return s.showNext(w, r, http.StatusOK, next)
}

// formulaJSON is what a program gets: one of the answers, or the faults.
type formulaJSON struct {
	Faults     fieldFaults           `json:"faults,omitempty"`
	Conflict   *formulate.Conflict   `json:"conflict,omitempty"`
	Trouble    string                `json:"trouble,omitempty"`
	Found      *formulate.Result     `json:"found,omitempty"`
	Variations []formulate.Variation `json:"variations,omitempty"`
	Swaps      []formulate.Swap      `json:"swaps,omitempty"`
}

// formulateJSON answers a search for programs.
func (s *Server) formulateJSON(w http.ResponseWriter, r *http.Request) error {
	q, err := s.readFormula(r)
	if err != nil {
		return err
	}
	wish, meant, err := s.readWish(r.Context(), q)
	var out formulaJSON
	if err != nil && !errors.As(err, &out.Faults) {
		return err
	}
	if meant == nil && len(out.Faults) == 0 {
		out.Faults = fieldFaults{{"style", "a recipe is sought for a style", "add style=SLUG"}}
	}
	if len(out.Faults) > 0 {
		return answerJSON(w, http.StatusUnprocessableEntity, out)
	}
	switch ctx := r.Context(); {
	case q.Do == "vary" && wish.Start != nil:
		const many = 4
		out.Variations, err = formulate.Variations(ctx, wish, wish.Start, many)
	case q.Do == "swap" && wish.Start != nil:
		out.Swaps, err = formulate.Swaps(ctx, wish, wish.Start, q.Swap, strings.Split(q.For, ","))
	default:
		out.Found, err = formulate.Find(ctx, wish)
	}
	if err == nil {
		return answerJSON(w, http.StatusOK, out)
	}
	if !errors.As(err, &out.Conflict) {
		body := &formulateBody{Query: q, Style: meant}
		if err := body.refused(err); err != nil {
			return err
		}
		out.Trouble = body.Trouble
	}
	return answerJSON(w, http.StatusUnprocessableEntity, out)
}
