// SPDX-License-Identifier: MIT

package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gyle/brewhouse"
	"gyle/internal/chart"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// recipeVersion is one version of a beer: a document of its own.
type recipeVersion struct {
	Slug, Title string
	Recipe      *recipe.Recipe
	Figured     *figuredRecipe
	Brews       int // gyles in the book that name it
	Tastings    []string
	Outcomes    []outcome
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

// mostVersions is how many versions of one beer are drawn, the last ones;
// mostTitled is how many recipes are looked at to find them.
const (
	mostVersions = 40
	mostTitled   = 200
)

// versions finds the recipes in the book that carry a name, the first version
// first. A recipe whose text can't be read is left out.
func (s *Server) versions(ctx context.Context, name string) (list []recipeVersion, err error) {
	found, err := s.book.Titled(ctx, recipe.Kind, name, mostTitled)
	if err != nil {
		return nil, err
	}
	read := make([]*recipe.Recipe, len(found))
	inParallel(len(found), func(i int) {
		if r, err := parsed(s, found[i].Slug, found[i].Text, recipe.Parse); err == nil && r.Name == name {
			read[i] = r
		}
	})
	for i, d := range found {
		if read[i] != nil {
			list = append(list, recipeVersion{Slug: d.Slug, Title: d.Title, Recipe: read[i]})
		}
	}
	slices.SortStableFunc(list, func(a, b recipeVersion) int {
		return cmp.Or(cmp.Compare(a.Number(), b.Number()), strings.Compare(a.Slug, b.Slug))
	})
	return list[max(0, len(list)-mostVersions):], nil
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
func (s *Server) figureVersions(g *recipeGround, list []recipeVersion, st *style.Style, pr quantity.Printer) error {
	faults := make([]error, len(list))
	inParallel(len(list), func(i int) {
		if list[i].Figured == nil {
			list[i].Figured, faults[i] = s.figureVersion(g, list[i].Recipe, st, pr)
		}
	})
	return errors.Join(faults...)
}

// figuredKey is all that the figures of a version depend on. Parsed documents
// stay the same, so that their addresses tell them apart.
type figuredKey struct {
	recipe *recipe.Recipe
	house  *brewhouse.House
	stock  *stock.Stock
	water  *water.Water
	style  *style.Style
	print  quantity.Printer
}

// figureVersion works out what the map shows of a version: its figures, with a
// word where one is out of rule. It keeps them, for all versions are drawn
// whenever one of them is looked at.
func (s *Server) figureVersion(g *recipeGround, r *recipe.Recipe, st *style.Style, pr quantity.Printer) (*figuredRecipe, error) {
	key := figuredKey{r, g.House, g.Stock, g.Water, st, pr}
	if f, ok := s.figured.get(key); ok {
		return f, nil
	}
	f, err := g.figure(r, mapRules(st), pr)
	if err != nil {
		return nil, err
	}
	f = &figuredRecipe{Recipe: r, Style: st, Figures: f.Figures}
	s.figured.put(key, f)
	return f, nil
}

// mapFigures are the figures whose rules the map shows.
var mapFigures = []quantity.Figure{quantity.OG, quantity.Bitterness, quantity.BUGU}

// mapRules is a style with the rules of the map alone.
func mapRules(st *style.Style) *style.Style {
	if st == nil {
		return nil
	}
	cut := *st
	cut.Rules = nil
	for _, r := range st.Rules {
		if r.Subject() == style.OnFigure && slices.Contains(mapFigures, r.FigureName()) {
			cut.Rules = append(cut.Rules, r)
		}
	}
	return &cut
}

// countBrews counts the gyles that name each version, and finds its tastings.
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
			switch by.Kind {
			case "gyle":
				list[i].Brews++
			case "tasting":
				list[i].Tastings = append(list[i].Tastings, by.Slug)
			}
		}
	}
	return nil
}

// mapOf draws the versions between gravity and bitterness.
func mapOf(id string, list []recipeVersion, st *style.Style, pr quantity.Printer, narrow bool) string {
	data := chart.BitternessGravity{Style: recipeStyleArea(st)}
	for i, v := range list {
		og, ibu := v.Figured.find(quantity.OG), v.Figured.find(quantity.Bitterness)
		if !og.known || !ibu.known {
			continue
		}
		shown := chart.MapVersion{
			Label: v.mapLabel(), Parent: v.Parent(), OG: quantity.SG(og.value), IBU: quantity.IBU(ibu.value),
			OGSD: og.sd, IBUSD: ibu.sd, OutOfRule: v.outOfMap(),
		}
		if v.Now || len(list)-i <= mostClouds {
			if c, ok := mapCloud(v.Figured.Plan); ok {
				shown.OGSD, shown.IBUSD, shown.Correlation = c.SDX, c.SDY, c.Correlation
			}
		}
		data.Versions = append(data.Versions, shown)
	}
	oneCloudEach(data.Versions)
	return drawn(chart.Sheet{ID: id, Printer: pr}, narrow, func(s chart.Sheet) string { return chart.BitternessGravityMap(s, data) })
}

// mostClouds is how many versions, the last ones, are brewed on paper for the map; the
// clouds of others are taken from their plan.
const mostClouds = 6

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
	for _, name := range mapFigures {
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
		line := chart.RiverVersion{Label: v.Label(), Parent: v.Parent(), Brews: v.Brews, Panel: v.panel()}
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
