// SPDX-License-Identifier: MIT

package guest

import (
	"fmt"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/plan"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// A Kit is what a page takes along: documents as their printers write them.
// Style, Stock and Water may be empty.
type Kit struct {
	Recipe string    `json:"recipe"`
	House  string    `json:"house"`
	Style  string    `json:"style,omitempty"`
	Stock  string    `json:"stock,omitempty"`
	Water  string    `json:"water,omitempty"`
	Data   data.Pack `json:"data"`
	Lang   string    `json:"lang,omitempty"` // in which the page speaks, "de"; English where empty
}

// texter is a document.
type texter interface{ Text() ([]byte, error) }

// Pack makes a kit of the documents of a plan and the style to judge by, which
// may be nil.
func Pack(in plan.Input, st *style.Style) (Kit, error) {
	var k Kit
	for _, part := range []struct {
		doc  texter
		have bool
		text *string
	}{
		{in.Recipe, in.Recipe != nil, &k.Recipe}, {in.House, in.House != nil, &k.House}, {st, st != nil, &k.Style},
		{in.Stock, in.Stock != nil, &k.Stock}, {in.Water, in.Water != nil, &k.Water},
	} {
		if !part.have {
			continue
		}
		text, err := part.doc.Text()
		if err != nil {
			return k, fmt.Errorf("pack the documents of a page: %w", err)
		}
		*part.text = string(text)
	}
	var err error
	k.Data, err = data.PackFor(namesOf(in))
	return k, err
}

// namesOf lists the names of ingredients that a plan may look up.
func namesOf(in plan.Input) []string {
	var names []string
	for _, g := range in.Recipe.Grist {
		names = append(names, g.Malt)
	}
	for _, c := range in.Recipe.Hops {
		names = append(names, c.Hop)
	}
	if y := in.Recipe.Yeast; y != nil {
		names = append(names, y.Kind)
	}
	if p := in.Recipe.Package; p != nil {
		names = append(names, p.Sugar)
	}
	if s := in.Stock; s != nil {
		for _, l := range s.Malts {
			names = append(names, l.Malt)
		}
		for _, l := range s.Hops {
			names = append(names, l.Hop)
		}
		for _, l := range s.Yeasts {
			names = append(names, l.Yeast)
		}
	}
	return names
}

// A Table is a recipe laid out for a guest.
type Table struct {
	recipe *recipe.Recipe
	house  *brewhouse.House
	style  *style.Style
	stock  *stock.Stock
	water  *water.Water
	plan   *plan.Plan // the author's
	lang   string     // empty: English
}

// Open reads a kit. In a browser its data must have been unpacked before.
func Open(k Kit) (*Table, error) {
	t := &Table{}
	if k.Lang == German {
		t.lang = k.Lang
	}
	var err error
	if t.recipe, err = recipe.Parse("recipe", []byte(k.Recipe)); err != nil {
		return nil, err
	}
	if t.house, err = brewhouse.Parse("brewhouse", []byte(k.House)); err != nil {
		return nil, err
	}
	if t.style, err = parsed(k.Style, "style", style.Parse); err != nil {
		return nil, err
	}
	if t.stock, err = parsed(k.Stock, "stock", stock.Parse); err != nil {
		return nil, err
	}
	if t.water, err = parsed(k.Water, "water", water.Parse); err != nil {
		return nil, err
	}
	t.plan, err = plan.Make(plan.Input{Recipe: t.recipe, House: t.house, Stock: t.stock, Water: t.water})
	if err != nil {
		return nil, fmt.Errorf("plan %s on %s: %w", t.recipe.Name, t.house.Name, err)
	}
	return t, nil
}

func parsed[T any](text, kind string, parse func(string, []byte) (*T, error)) (*T, error) {
	if text == "" {
		return nil, nil
	}
	return parse(kind, []byte(text))
}
