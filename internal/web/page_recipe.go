// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"net/http"
	"strings"

	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
)

// recipeBody is the written sheet of a recipe.
type recipeBody struct {
	Document Document
	*recipeDrawn
	Ground   *recipeGround
	Versions []recipeVersion
	River    string
	Named    []Referrer
	Comments bool // the text has comments, which the fields don't keep

	Grist, Hops                               []recipeLine
	Mash, Boil, Water, Yeast, Package, Volume string
	HopUnit                                   string
}

// recipeDrawn is what a sheet and a form in the making both show of a recipe:
// figures, verdicts and drawings.
type recipeDrawn struct {
	*figuredRecipe
	Lack                  string // why nothing judges it
	Broken, Edge, Unknown []judge.Verdict
	Inside                int // rules kept with room to spare
	Map, Strips, Wedge    string
}

// recipePage shows a recipe. "/recipe/ferry-brown-4.json" is the same for
// programs; no slug has a point in it.
func (s *Server) recipePage(w http.ResponseWriter, r *http.Request) error {
	if slug, ok := strings.CutSuffix(r.PathValue("slug"), ".json"); ok {
		r.SetPathValue("slug", slug)
		return s.recipeJSON(w, r)
	}
	c, d, err := s.read(r)
	if err != nil {
		return err
	}
	read, err := parsed(s, d.Slug, d.Text, recipe.Parse)
	if d.Deleted || err != nil {
		r.SetPathValue("kind", c.Kind)
		return s.document(w, r)
	}
	body, err := s.recipeBody(r.Context(), d, read, handOf(r).printer())
	if err != nil {
		return err
	}
	sheet := Sheet{Title: d.Title, Chapter: d.Kind, Folio: folio(d), Notice: savedNotice(r, d), Body: body}
	return s.show(w, r, http.StatusOK, "page_recipe", sheet)
}

func (s *Server) recipeBody(ctx context.Context, d Document, r *recipe.Recipe, pr quantity.Printer) (*recipeBody, error) {
	g, err := s.recipeGround(ctx)
	if err != nil {
		return nil, err
	}
	if err := s.offer(ctx, g); err != nil {
		return nil, err
	}
	b := &recipeBody{Document: d, Ground: g, Comments: hasComments(d.Text)}
	if b.recipeDrawn, b.Versions, err = s.drawRecipe(ctx, g, recipeVersion{Slug: d.Slug, Title: d.Title, Recipe: r}, pr, false); err != nil {
		return nil, err
	}
	b.Strips = b.strips("strips", versionLabel(r), parentOf(b.Versions, r), pr, false)
	if err := s.countBrews(ctx, b.Versions); err != nil {
		return nil, err
	}
	if err := s.tasted(ctx, b.Versions, pr); err != nil {
		return nil, err
	}
	if len(b.Versions) > 1 {
		b.River = riverOf("river", b.Versions, pr)
	}
	if b.Named, err = s.book.References(ctx, d.Kind, d.Slug); err != nil {
		return nil, err
	}
	b.write(pr)
	return b, nil
}

// write puts the document into words.
func (b *recipeBody) write(pr quantity.Printer) {
	r := b.Recipe
	b.Grist, b.Hops = b.gristLines(pr), b.hopLines(pr)
	b.Mash, b.Boil, b.Water = mashWords(r, pr), boilWords(r, pr), waterWords(r, pr)
	b.Yeast, b.Package = yeastWords(r, pr), packageWords(r, pr)
	if r.Size != nil {
		b.Volume = pr.Volume(*r.Size)
	}
}

// drawRecipe works a recipe out among its versions and draws it, but for the
// strips, which stand against a version that the caller knows.
func (s *Server) drawRecipe(ctx context.Context, g *recipeGround, now recipeVersion, pr quantity.Printer, narrow bool) (*recipeDrawn, []recipeVersion, error) {
	st, lack, err := s.recipeStyle(ctx, now.Recipe.Style)
	if err != nil {
		return nil, nil, err
	}
	if now.Figured, err = g.figure(now.Recipe, st, pr); err != nil {
		return nil, nil, err
	}
	list, err := s.versions(ctx, now.Recipe.Name)
	if err != nil {
		return nil, nil, err
	}
	list = withVersion(list, now)
	if err := s.figureVersions(g, list, st, pr); err != nil {
		return nil, nil, err
	}
	d := &recipeDrawn{figuredRecipe: now.Figured, Lack: lack}
	d.Broken, d.Edge, d.Inside, d.Unknown = d.rules()
	d.Map = mapOf("map", list, st, pr, narrow)
	d.Wedge = d.wedge("wedge", pr, narrow)
	return d, list, nil
}

func versionLabel(r *recipe.Recipe) string {
	if r.Version == 0 {
		return r.Name
	}
	return "version " + recipeVersion{Recipe: r}.Label()
}

// hasComments reports whether a text holds something after "#" that a reader
// skips.
func hasComments(text string) bool {
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") || strings.Contains(line, " #") {
			return true
		}
	}
	return false
}

// recipeLinks is the way to the other pages of a recipe.
type recipeLinks struct{ Path, Slug, Here string }

// Links is the way from here to the other pages.
func (b *recipeBody) Links(here string) recipeLinks {
	return recipeLinks{b.Document.Path(), b.Document.Slug, here}
}

// Links is the way from the form to the other pages.
func (b *recipeEditBody) Links() recipeLinks {
	return recipeLinks{b.Document.Path(), b.Document.Slug, string(b.Mode)}
}

// groundFields are the fields that choose what to figure on. Name stands
// before theirs.
type groundFields struct {
	Ground *recipeGround
	Name   string
}

func (b *recipeBody) GroundFields(name string) groundFields { return groundFields{b.Ground, name} }

func (b *recipeEditBody) GroundFields(name string) groundFields { return groundFields{b.Ground, name} }

// Chance is the probability of the beer to be inside on all five numbers.
func (b *recipeBody) Chance() string {
	return quantity.Printer{}.Fraction(quantity.Fraction(*b.Judged.AllFive), 0)
}

// Drawn reports whether enough is written to draw it.
func (l recipeLook) Drawn() bool { return l.recipeDrawn != nil }

// Glance are the few figures that stay in sight on a small screen.
func (l recipeLook) Glance() (few []recipeFigure) {
	for _, name := range []quantity.Figure{quantity.OG, quantity.ABV, quantity.Bitterness, quantity.BeerColor} {
		if f := l.find(name); f.known {
			few = append(few, f)
		}
	}
	return few
}
