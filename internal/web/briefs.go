// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"gyle/brewhouse"
	"gyle/calendar"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/shed"
	"gyle/stock"
)

// The calendar and the lots need a little of every gyle: its days in the
// fermenter and what it takes from the shed. A gyle is read for that once, and
// again only when its document or its log changed.

// brief is what calendar and shed keep of a gyle.
type brief struct {
	Brew
	title     string
	stay      calendar.Stay
	placed    bool // it has a day and a vessel
	uses      []shed.Use
	fermenter string // of the house that the stay was reckoned with
}

// briefShelf keeps the briefs of all gyles by slug.
type briefShelf struct {
	mu    sync.Mutex
	known map[string]brief
}

// fermenterKey is what a stay depends on in a house.
func fermenterKey(house *brewhouse.House) string {
	if house == nil {
		return ""
	}
	f := house.Fermenter
	chill := quantity.Duration(-1)
	if f.Chill != nil {
		chill = *f.Chill
	}
	return fmt.Sprint(f.Names, f.Ferments, chill)
}

// keep keeps the brief of a gyle that was read.
func (k *briefShelf) keep(b Brew, g *gyle.Gyle, house *brewhouse.House) brief {
	made := brief{Brew: b, title: g.Name, uses: shed.UsesOf(b.Slug, g), fermenter: fermenterKey(house)}
	made.stay, made.placed = calendar.StayOf(b.Slug, g, house)
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.known == nil {
		k.known = map[string]brief{}
	}
	k.known[b.Slug] = made
	return made
}

func (k *briefShelf) of(b Brew) (brief, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	known, ok := k.known[b.Slug]
	return known, ok && known.Brew == b
}

// briefOf returns the brief of a gyle, with the stay that its house makes of it. It is
// not ok where the gyle can't be read, which its own page tells.
func (s *Server) briefOf(ctx context.Context, b Brew, house func(*gyle.Gyle) (*brewhouse.House, error)) (made brief, ok bool, err error) {
	g, _, err := ReadGyle(ctx, s.book, b.Slug)
	if ctx.Err() != nil {
		return made, false, ctx.Err()
	}
	if err != nil {
		return made, false, nil
	}
	h, err := house(g)
	if err != nil {
		return made, false, err
	}
	return s.briefs.keep(b, g, h), true, nil
}

// briefsOf returns the briefs of all gyles of a house that can be read.
func (s *Server) briefsOf(ctx context.Context, slug string, house *brewhouse.House) ([]brief, error) {
	brews, err := s.book.Brews(ctx, brewhouse.Kind, slug)
	if err != nil {
		return nil, err
	}
	key := fermenterKey(house)
	list := make([]brief, 0, len(brews))
	for _, b := range brews {
		known, ok := s.briefs.of(b)
		if !ok || known.fermenter != key {
			known, ok, err = s.briefOf(ctx, b, func(*gyle.Gyle) (*brewhouse.House, error) { return house, nil })
		}
		if err != nil {
			return nil, err
		}
		if ok {
			list = append(list, known)
		}
	}
	return list, nil
}

// usesOfStock returns what all gyles take of a stock.
func (s *Server) usesOfStock(ctx context.Context, slug string) (uses []shed.Use, err error) {
	if slug == "" {
		return nil, nil
	}
	brews, err := s.book.Brews(ctx, stock.Kind, slug)
	if err != nil {
		return nil, err
	}
	for _, b := range brews {
		known, ok := s.briefs.of(b)
		if !ok {
			known, _, err = s.briefOf(ctx, b, func(g *gyle.Gyle) (*brewhouse.House, error) {
				return optional(ctx, s, brewhouse.Kind, g.House, brewhouse.Parse)
			})
		}
		if err != nil {
			return nil, err
		}
		uses = append(uses, known.uses...)
	}
	return uses, nil
}

// stockLeft is a stock as the next plan finds it.
func (s *Server) stockLeft(ctx context.Context, slug string, st *stock.Stock) (*stock.Stock, error) {
	if st == nil {
		return nil, nil
	}
	uses, err := s.usesOfStock(ctx, slug)
	if err != nil {
		return nil, err
	}
	counted := slices.ContainsFunc(uses, func(u shed.Use) bool {
		return u.How == shed.Reserved || !st.Counted.IsZero() && u.Day.After(st.Counted.Time)
	})
	if !counted {
		return st, nil
	}
	return shed.Remaining(st, uses), nil
}

// calendarOf is the calendar of a house, and the gyles that have no place in it.
func (s *Server) calendarOf(ctx context.Context, slug string, house *brewhouse.House) (*calendar.Calendar, []brief, error) {
	briefs, err := s.briefsOf(ctx, slug, house)
	if err != nil {
		return nil, nil, err
	}
	var stays []calendar.Stay
	var nowhere []brief
	for _, b := range briefs {
		if b.placed {
			stays = append(stays, b.stay)
		} else {
			nowhere = append(nowhere, b)
		}
	}
	return calendar.Of(calendar.Vessels(house), stays, calendar.DayOf(s.now())), nowhere, nil
}
