// SPDX-License-Identifier: MIT

package shed

import (
	"cmp"
	"slices"

	"gyle/data"
	"gyle/quantity"
	"gyle/stock"
)

// Lot is one lot with what became of it since it was counted. Used, Reserved
// and Left together are what was counted; none of them is below nothing.
type Lot struct {
	List, Name, What     string         // malts, hops, yeasts or salts; the mark; the malt, hop …
	Counted              *quantity.Mass // nil: not weighed, so nobody knows what is left
	Used, Reserved, Left quantity.Mass
	Short                quantity.Mass // wanted beyond what there is
	Born                 quantity.Date // bought or packed; zero: not said
	Uses                 []Use         // that count, in the order of their days
	index                int
}

// Lots keeps account of the lots of a stock. A use on or before the day of
// counting is in the count already; of a stock that doesn't say when it was
// counted only reservations are taken.
func Lots(s *stock.Stock, uses []Use) []Lot {
	lots := lotsOf(s)
	counting := slices.Clone(uses)
	slices.SortStableFunc(counting, func(a, b Use) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), a.Day.Compare(b.Day.Time), cmp.Compare(a.Gyle, b.Gyle))
	})
	for _, u := range counting {
		if u.Mass > 0 && counts(u, s.Counted) {
			take(lots, u)
		}
	}
	return lots
}

// rank puts what is gone before what is only planned.
func rank(u Use) int {
	if u.How == Reserved {
		return 1
	}
	return 0
}

// counts reports whether a use comes on top of the counting.
func counts(u Use, counted quantity.Date) bool {
	if u.How == Reserved {
		return true
	}
	return !counted.IsZero() && u.Day.After(counted.Time)
}

func lotsOf(s *stock.Stock) (lots []Lot) {
	add := func(list, name, what string, mass *quantity.Mass, born quantity.Date, i int) {
		l := Lot{List: list, Name: name, What: what, Counted: mass, Born: born, index: i}
		if mass != nil {
			l.Left = *mass
		}
		lots = append(lots, l)
	}
	for i, m := range s.Malts {
		add("malts", m.Lot, m.Malt, m.Mass, m.Bought, i)
	}
	for i, h := range s.Hops {
		add("hops", h.Lot, h.Hop, h.Mass, h.Packed, i)
	}
	for i, y := range s.Yeasts {
		add("yeasts", y.Lot, y.Yeast, y.Mass, y.Packed, i)
	}
	for i, l := range s.Salts {
		add("salts", l.Lot, l.Salt, l.Mass, l.Bought, i)
	}
	return lots
}

// take books a use on its lot, or on the oldest lots of what it is.
func take(lots []Lot, u Use) {
	if u.Lot != "" {
		if i := slices.IndexFunc(lots, func(l Lot) bool { return l.Name == u.Lot }); i >= 0 {
			lots[i].book(u)
		}
		return
	}
	fitting := oldestFirst(lots, u.What)
	for n, i := range fitting {
		part, last := u, n == len(fitting)-1
		if c := lots[i].Counted; c != nil && !last {
			part.Mass = min(u.Mass, lots[i].Left)
		}
		if part.Mass > nothing {
			lots[i].book(part)
			u.Mass -= part.Mass
		}
		if u.Mass <= nothing {
			return
		}
	}
}

// oldestFirst returns the places of the lots of a malt, hop, yeast or salt; of
// unknown age come last.
func oldestFirst(lots []Lot, what string) (at []int) {
	for i, l := range lots {
		if same(l.What, what) {
			at = append(at, i)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int {
		x, y := lots[a].Born, lots[b].Born
		if x.IsZero() != y.IsZero() {
			return cmp.Compare(b2i(x.IsZero()), b2i(y.IsZero()))
		}
		return x.Compare(y.Time)
	})
	return at
}

// same reports whether two names mean one thing: calcium-chloride and
// calcium-chloride-dihydrate do.
func same(a, b string) bool { return a == b || idOf(a) == idOf(b) }

// idOf is the name of goods in the tables of typical values; where they don't
// know it, the name itself.
func idOf(what string) string {
	if x, ok := data.Salt(what); ok {
		return x.ID
	}
	if x, ok := data.Acid(what); ok {
		return x.ID
	}
	if x, ok := data.Malt(what); ok {
		return x.ID
	}
	if x, ok := data.Hop(what); ok {
		return x.ID
	}
	if x, ok := data.Yeast(what); ok {
		return x.ID
	}
	return what
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// book takes a mass from a lot, at most what is left; the rest is short.
func (l *Lot) book(u Use) {
	l.Uses = append(l.Uses, u)
	given := u.Mass
	if l.Counted != nil {
		given = min(u.Mass, l.Left)
		l.Left -= given
		l.Short += u.Mass - given
	}
	if u.How == Reserved {
		l.Reserved += given
	} else {
		l.Used += given
	}
}

// Remaining returns the stock as the next plan finds it: each lot with what
// neither brewed nor planned gyles have taken. The stock that was given stays
// as it is; without uses it is returned itself.
func Remaining(s *stock.Stock, uses []Use) *stock.Stock {
	if s == nil || len(uses) == 0 {
		return s
	}
	left := *s
	left.Malts, left.Hops = slices.Clone(s.Malts), slices.Clone(s.Hops)
	left.Yeasts, left.Salts = slices.Clone(s.Yeasts), slices.Clone(s.Salts)
	for _, l := range Lots(s, uses) {
		if l.Counted == nil || l.Left == *l.Counted {
			continue
		}
		mass := l.Left
		switch l.List {
		case "malts":
			left.Malts[l.index].Mass = &mass
		case "hops":
			left.Hops[l.index].Mass = &mass
		case "yeasts":
			left.Yeasts[l.index].Mass = &mass
		case "salts":
			left.Salts[l.index].Mass = &mass
		}
	}
	return &left
}
