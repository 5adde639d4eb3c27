// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"errors"
	"net/http"
	"slices"

	"gyle/gyle"
	"gyle/publish"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/tasting"
)

// bundle is what a plan is handed on with: the versions it comes from, what
// panels said of them, and what was brewed of it.
func (s *Server) bundle(r *http.Request, slug string, p planned, pr quantity.Printer) (publish.Bundle, error) {
	b := publish.Bundle{Input: p.in, Style: p.style, Printer: pr}
	line, err := s.ancestors(r, p.in.Recipe)
	if err != nil {
		return b, err
	}
	seen := map[string]bool{}
	for _, v := range line {
		b.Versions = append(b.Versions, v.Recipe)
		named, err := s.book.References(r.Context(), recipe.Kind, cmp.Or(v.Slug, slug))
		if err != nil {
			return b, err
		}
		for _, by := range named {
			if seen[by.Kind+"/"+by.Slug] {
				continue
			}
			seen[by.Kind+"/"+by.Slug] = true
			switch {
			case by.Kind == tasting.Kind:
				err = s.addTasting(r.Context(), &b, by.Slug, line)
			case by.Kind == gyle.Kind && v.Recipe == p.in.Recipe:
				err = s.addBrew(r.Context(), &b, by.Slug)
			}
			if err != nil {
				return b, err
			}
		}
	}
	slices.SortStableFunc(b.Tastings, func(x, y publish.Tasting) int { return x.Doc.Date.Compare(y.Doc.Date.Time) })
	slices.SortStableFunc(b.Brews, func(x, y publish.Brew) int { return x.Gyle.Date.Compare(y.Gyle.Date.Time) })
	return b, nil
}

// addTasting adds a tasting whose key is open to the version that was the later
// of its beers. What can't be read tells nothing; its own page says why.
func (s *Server) addTasting(ctx context.Context, b *publish.Bundle, slug string, line []recipeVersion) error {
	d, err := s.book.Get(ctx, tasting.Kind, slug)
	if errors.Is(err, ErrNotFound) || d.Deleted {
		return nil
	}
	if err != nil {
		return err
	}
	t, err := tasting.Parse(slug, []byte(d.Text))
	if err != nil || len(t.Beers) == 0 {
		return nil
	}
	later := t.Beers[len(t.Beers)-1].Recipe
	of := slices.IndexFunc(line, func(v recipeVersion) bool { return v.Slug == later })
	told := publish.Tasting{Slug: slug, Doc: t}
	if of < 0 || !told.Judged() {
		return nil
	}
	told.Version = line[of].Recipe.Version
	b.Tastings = append(b.Tastings, told)
	return nil
}

// addBrew adds a brew that can be reconstructed.
func (s *Server) addBrew(ctx context.Context, b *publish.Bundle, slug string) error {
	g, _, err := s.gyle(ctx, slug)
	if errors.Is(err, ErrNotFound) {
		return nil
	}
	if err != nil {
		return err
	}
	made, _, err := s.reconstructed(ctx, g)
	var lack *RefusedError
	if errors.As(err, &lack) {
		return nil // an unfinished log tells nothing yet
	}
	if err == nil {
		b.Brews = append(b.Brews, publish.Brew{Gyle: g, Made: made})
	}
	return err
}

// ancestors returns a recipe and the versions it comes from, oldest first.
func (s *Server) ancestors(r *http.Request, of *recipe.Recipe) (list []recipeVersion, err error) {
	all, err := s.versions(r.Context(), of.Name)
	if err != nil {
		return nil, err
	}
	list = []recipeVersion{{Recipe: of}}
	for i := len(all) - 1; i >= 0; i-- {
		switch v := all[i]; {
		case v.Recipe.Version == of.Version && list[0].Recipe == of:
			list[0].Slug = v.Slug
		case v.Recipe.Version == list[0].Recipe.Parent && v.Recipe.Version < list[0].Recipe.Version:
			list = append([]recipeVersion{v}, list...)
		}
	}
	return list, nil
}
