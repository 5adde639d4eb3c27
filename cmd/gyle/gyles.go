// SPDX-License-Identifier: MIT

package main

import (
	"strconv"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/internal/store"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// gyleTitle tells the brewings of a beer apart: "Ferry Brown 3, gyle 17".
func gyleTitle(g *gyle.Gyle) string {
	switch {
	case g.Number > 0:
		return g.Name + ", gyle " + strconv.Itoa(g.Number)
	case !g.Date.IsZero():
		return g.Name + ", " + g.Date.String()
	}
	return g.Name
}

// gyleRefs are the documents that a gyle was planned from.
func gyleRefs(g *gyle.Gyle) (refs []store.Ref) {
	for _, r := range []store.Ref{
		{Kind: recipe.Kind, Slug: g.Recipe.ID, Field: "recipe"}, {Kind: brewhouse.Kind, Slug: g.House, Field: "house"},
		{Kind: stock.Kind, Slug: g.Stock, Field: "stock"}, {Kind: water.Kind, Slug: g.Water, Field: "water"},
		{Kind: style.Kind, Slug: g.Style, Field: "style"},
	} {
		if r.Slug != "" {
			refs = append(refs, r)
		}
	}
	return refs
}
