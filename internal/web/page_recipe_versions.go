// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gyle/internal/chart"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// recipeVersion is one version of a beer: a document of its own.
type recipeVersion struct {
	Slug, Title string
	Recipe      *recipe.Recipe
	Figured     *figuredRecipe
	Brews       int // gyles in the book that name it
	Now         bool
}

// Number is the version; a recipe that doesn't count them is the first.
func (v recipeVersion) Number() int { return max(v.Recipe.Version, 1) }

// Label is the number as text.
func (v recipeVersion) Label() string { return strconv.Itoa(v.Number()) }

// Parent is the number of the parent as text; empty for the first.
func (v recipeVersion) Parent() string {
	if v.Recipe.Parent == 0 || v.Recipe.Parent >= v.Number() {
		return ""
	}
	return strconv.Itoa(v.Recipe.Parent)
}

// mostVersions is how many versions of one beer are drawn.
const mostVersions = 40

// versions finds the recipes in the book that carry a name, the first version
// first. A recipe whose text can't be read is left out.
func (s *Server) versions(ctx context.Context, name string) (list []recipeVersion, err error) {
	hits, _, err := s.book.Search(ctx, name, recipe.Kind, Part{Limit: 2 * mostVersions})
	if err != nil {
		return nil, err
	}
	for _, h := range hits {
		if !strings.HasPrefix(h.Title, name) || len(list) == mostVersions {
			continue
		}
		d, err := s.book.Get(ctx, recipe.Kind, h.Slug)
		if err != nil {
			return nil, err
		}
		r, err := recipe.Parse(h.Slug, []byte(d.Text))
		if err != nil || r.Name != name {
			continue
		}
		list = append(list, recipeVersion{Slug: h.Slug, Title: d.Title, Recipe: r})
	}
	slices.SortStableFunc(list, func(a, b recipeVersion) int {
		return cmp.Or(cmp.Compare(a.Number(), b.Number()), strings.Compare(a.Slug, b.Slug))
	})
	return list, nil
}

// withVersion puts the recipe that is being looked at in its place among the
// versions. A draft that isn't in the book has no slug.
func withVersion(list []recipeVersion, now recipeVersion) []recipeVersion {
	now.Now = true
	for i := range list {
		if list[i].Slug == now.Slug {
			list[i] = now
			return list
		}
	}
	return append(list, now)
}

// figureVersions works every version out that isn't yet.
func (g *recipeGround) figureVersions(list []recipeVersion, st *style.Style, pr quantity.Printer) error {
	for i := range list {
		if list[i].Figured != nil {
			continue
		}
		f, err := g.figure(list[i].Recipe, st, pr)
		if err != nil {
			return err
		}
		list[i].Figured = f
	}
	return nil
}

// countBrews counts the gyles that name each version.
func (s *Server) countBrews(ctx context.Context, list []recipeVersion) error {
	for i := range list {
		if list[i].Slug == "" {
			continue
		}
		named, err := s.book.References(ctx, recipe.Kind, list[i].Slug)
		if err != nil {
			return err
		}
		for _, by := range named {
			if by.Kind == "gyle" {
				list[i].Brews++
			}
		}
	}
	return nil
}

// mapOf draws the versions between gravity and bitterness.
func mapOf(id string, list []recipeVersion, st *style.Style, pr quantity.Printer, narrow bool) string {
	data := chart.BitternessGravity{Style: recipeStyleArea(st)}
	for _, v := range list {
		og, ibu := v.Figured.find(quantity.OG), v.Figured.find(quantity.Bitterness)
		if !og.known || !ibu.known {
			continue
		}
		data.Versions = append(data.Versions, chart.MapVersion{
			Label: v.mapLabel(), Parent: v.Parent(), OG: quantity.SG(og.value), IBU: quantity.IBU(ibu.value),
			OGSD: og.sd, IBUSD: ibu.sd, OutOfRule: v.outOfMap(),
		})
	}
	oneCloudEach(data.Versions)
	draw := func(s chart.Sheet) string { return chart.BitternessGravityMap(s, data) }
	sheet := chart.Sheet{ID: id, Printer: pr, Width: chart.Phone}
	if narrow {
		return draw(sheet)
	}
	return chart.Responsive(sheet, draw)
}

// oneCloudEach leaves one cloud where several versions are meant to lie at the
// same place, or their clouds would add up to a certainty that isn't there.
func oneCloudEach(versions []chart.MapVersion) {
	for i := range versions {
		for j := range versions[:i] {
			a, b := &versions[j], versions[i]
			if math.Abs(float64(a.OG-b.OG)) <= b.OGSD/4 && math.Abs(float64(a.IBU-b.IBU)) <= b.IBUSD/4 {
				a.OGSD, a.IBUSD = 0, 0
			}
		}
	}
}

// mapLabel is the number of a version; a draft says that it is one.
func (v recipeVersion) mapLabel() string {
	if v.Slug == "" {
		return "now"
	}
	return v.Label()
}

// outOfMap reports whether a rule on gravity or bitterness is broken.
func (v recipeVersion) outOfMap() bool {
	for _, name := range []quantity.Figure{quantity.OG, quantity.Bitterness, quantity.BUGU} {
		if v.Figured.find(name).Word == "outside" {
			return true
		}
	}
	return false
}

// riverOf draws the family of a beer.
func riverOf(id string, list []recipeVersion, pr quantity.Printer) string {
	var data chart.Lineage
	for _, v := range list {
		if v.Slug == "" {
			continue
		}
		line := chart.RiverVersion{Label: v.Label(), Parent: v.Parent(), Brews: v.Brews}
		if c := v.Recipe.Change; c != nil {
			line.Change = c.What
		}
		data.Versions = append(data.Versions, line)
	}
	return chart.Responsive(chart.Sheet{ID: id, Printer: pr}, func(s chart.Sheet) string { return chart.River(s, data) })
}

// parentOf returns the recipe that a version was made from, if it is in the
// book.
func parentOf(list []recipeVersion, r *recipe.Recipe) *recipe.Recipe {
	for _, v := range list {
		if r.Parent > 0 && v.Number() == r.Parent && v.Recipe != r {
			return v.Recipe
		}
	}
	return nil
}

// nextVersion is the number that a new version gets.
func nextVersion(list []recipeVersion, r *recipe.Recipe) int {
	most := max(r.Version, 1)
	for _, v := range list {
		most = max(most, v.Number())
	}
	return most + 1
}

// versionTitle is the title of a version.
func versionTitle(name string, version int) string {
	if version == 0 {
		return name
	}
	return fmt.Sprintf("%s %d", name, version)
}
