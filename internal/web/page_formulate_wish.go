// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"errors"
	"slices"
	"strings"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/formulate"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// readWish reads the documents and wishes of a query. Faults of the query come
// as fieldFaults, with the wish as far as it can be read; everything else is
// trouble with the book.
func (s *Server) readWish(ctx context.Context, q formulaQuery) (w formulate.Wish, meant *style.Style, err error) {
	var faults fieldFaults
	var errs [5]error
	meant, errs[0] = documentAt(ctx, s, style.Kind, "style", q.Style, style.Parse, &faults)
	w.House, errs[1] = documentAt(ctx, s, brewhouse.Kind, "house", q.House, brewhouse.Parse, &faults)
	w.Stock, errs[2] = documentAt(ctx, s, stock.Kind, "stock", q.Stock, stock.Parse, &faults)
	w.Water, errs[3] = documentAt(ctx, s, water.Kind, "water", q.Water, water.Parse, &faults)
	w.Start, errs[4] = documentAt(ctx, s, recipe.Kind, "like", q.Like, recipe.Parse, &faults)
	if err := errors.Join(errs[:]...); err != nil {
		return w, nil, err
	}
	w.Style, w.StyleID, w.Name, w.Robust = meant, q.Style, q.Name, q.Robust
	if w.Start != nil && w.Name == "" {
		w.Name = w.Start.Name
	}
	q.readTyped(&w, &faults)
	q.readAim(&w, &faults)
	if meant != nil {
		q.readIngredients(&w, &faults)
		for _, e := range q.Ease {
			eased, err := formulate.Ease(w.Style, e.Rule, e.Part, e.To)
			if err != nil {
				faults = append(faults, fieldFault{"style", "a rule that gave way isn't there any more", "begin again from the style"})
				break
			}
			w.Style = eased
		}
	}
	if len(faults) > 0 {
		return w, meant, faults
	}
	return w, meant, nil
}

// readTyped reads the size.
func (q formulaQuery) readTyped(w *formulate.Wish, faults *fieldFaults) {
	if q.Size == "" {
		return
	}
	size, err := quantity.ParseVolume(q.Size)
	var p *quantity.ParseError
	switch {
	case errors.As(err, &p):
		*faults = append(*faults, fieldFault{"size", p.Error(), p.Hint})
	case err != nil:
		*faults = append(*faults, fieldFault{"size", err.Error(), "write 20 L"})
	case size <= 0:
		*faults = append(*faults, fieldFault{"size", "a brew is larger than nothing", "write 20 L"})
	}
	w.Size = size
}

func (q formulaQuery) readAim(w *formulate.Wish, faults *fieldFaults) {
	w.Objective = formulate.Objective(q.Aim)
	switch {
	case q.Aim != "" && !slices.Contains(formulate.Objectives(), w.Objective):
		*faults = append(*faults, fieldFault{"aim", "there is no such aim", "choose one of the list"})
	case w.Objective == formulate.Near && q.Like == "":
		*faults = append(*faults, fieldFault{"aim", "near to what?", "choose a recipe to begin with"})
	case w.Objective == formulate.Near && w.Start == nil:
		w.Objective = ""
	case q.Robust && q.House == "":
		*faults = append(*faults, fieldFault{"house", "how sure a recipe is can only be said on a house", "choose one"})
	}
}

// readIngredients takes what the shed or the shelf holds, what the recipe has
// and what was typed beside, with the wish for each.
func (q formulaQuery) readIngredients(w *formulate.Wish, faults *fieldFaults) {
	if w.Stock != nil {
		w.Malts, w.Hops = formulate.FromStock(w.Stock)
	} else {
		w.Malts, w.Hops = formulate.Shelf(w.Style)
	}
	q.offered(w)
	for _, name := range strings.FieldsFunc(q.Also, func(r rune) bool { return r == ',' || r == ';' }) {
		if err := w.Add(strings.ToLower(strings.TrimSpace(name))); err != nil {
			*faults = append(*faults, fieldFault{"also", err.Error(), "names are those of recipes, with commas between them"})
			break
		}
	}
	for _, name := range q.Plenty {
		w.Buy(name)
	}
	for _, name := range namesOf(w) {
		field := "least." + name
		var least quantity.Fraction
		if text := q.Least[name]; text != "" {
			var err error
			if !strings.HasSuffix(text, "%") {
				text += " %"
			}
			if least, err = quantity.ParseFraction(text); err != nil {
				*faults = append(*faults, fieldFault{field, "this isn't a share", "write 5 %"})
				continue
			}
		}
		if err := q.use(w, name, least); err != nil {
			*faults = append(*faults, fieldFault{field, err.Error(), ""})
		}
	}
}

// use puts the wish for one ingredient.
func (q formulaQuery) use(w *formulate.Wish, name string, least quantity.Fraction) error {
	switch use := q.Use[name]; {
	case use == noUse && least > 0:
		return errors.New("it can't both be left out and have a least share")
	case use == noUse:
		w.Without = append(w.Without, name)
	case use == mustUse || least > 0:
		return w.Use(name, least)
	case use == useUp:
		return w.UseUp(name)
	}
	return nil
}

// offered adds what the recipe to begin with uses, so that it can be chosen.
func (q formulaQuery) offered(w *formulate.Wish) {
	if w.Start == nil {
		return
	}
	for _, g := range w.Start.Grist {
		if !slices.Contains(namesOf(w), g.Malt) {
			w.Malts = append(w.Malts, formulate.Malt{Malt: g.Malt})
		}
	}
	for _, c := range w.Start.Hops {
		if !slices.Contains(namesOf(w), c.Hop) {
			w.Hops = append(w.Hops, formulate.Hop{Hop: c.Hop})
		}
	}
}

// namesOf lists malts, then hops.
func namesOf(w *formulate.Wish) (names []string) {
	for _, m := range w.Malts {
		names = append(names, m.Malt)
	}
	for _, h := range w.Hops {
		names = append(names, h.Hop)
	}
	return names
}

// ingredientName is what people call a malt or a hop.
func ingredientName(id string) string {
	if h, ok := data.Hop(id); ok && h.Name != "" {
		return h.Name
	}
	return capital(strings.ReplaceAll(id, "-", " "))
}
