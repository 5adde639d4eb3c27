// SPDX-License-Identifier: MIT

package reconstruct

import (
	"cmp"
	"slices"

	"gyle/brewhouse"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/style"
)

// Book is what the brews of one house have taught, and what was predicted
// before each.
type Book struct {
	House  *House
	Misses []Miss // in the order of the brews
	Silent []string
}

// LearnFrom reconstructs the brews of a house in the order in which they were
// brewed, each with what the ones before it have taught. Brews whose log can't
// be reconstructed teach nothing; Silent names them. Name says how a brew is
// called in the lists.
func LearnFrom(doc *brewhouse.House, brews []*gyle.Gyle, name func(*gyle.Gyle) string) Book {
	b := NewBook(doc)
	for _, g := range inOrderOfBrewing(brews) {
		b = b.After(g, doc, name(g))
	}
	return b
}

// NewBook is the book of a house that has brewed nothing yet. The document may
// be nil.
func NewBook(doc *brewhouse.House) Book { return Book{House: NewHouse(doc)} }

// After is the book once a brew has been added to it, the next one in the order of
// brewing. The book before it stays as it was.
func (b Book) After(g *gyle.Gyle, doc *brewhouse.House, name string) Book {
	r, err := Make(b.Before(g, doc, nil))
	if err != nil {
		b.Silent = append(slices.Clip(b.Silent), name)
		return b
	}
	b.Misses = append(slices.Clip(b.Misses), r.Misses(name)...)
	b.House = &House{Constants: b.House.Constants, Sights: slices.Clip(b.House.Sights)}
	b.House.Add(r.Lessons(name))
	return b
}

// Before is what the next brew is reconstructed from: its log, and what the
// house has taught so far.
func (b Book) Before(g *gyle.Gyle, doc *brewhouse.House, st *style.Style) Input {
	in := Input{Gyle: g, House: doc, Style: st}
	if len(b.House.Sights) > 0 {
		full := quantity.Plato(middleOfYield)
		if g.Plan != nil && g.Plan.Gravity.FullKettle > 1 {
			full = gravity.PlatoFromSG(g.Plan.Gravity.FullKettle)
		}
		in.Known, in.Factor = b.House.Known(full), b.House.Factor()
	}
	return in
}

// middleOfYield is the extract at which the yield of a house is stated, in °P.
const middleOfYield = 11

func inOrderOfBrewing(brews []*gyle.Gyle) []*gyle.Gyle {
	sorted := slices.Clone(brews)
	slices.SortStableFunc(sorted, func(x, y *gyle.Gyle) int {
		return cmp.Or(x.Date.Compare(y.Date.Time), cmp.Compare(x.Number, y.Number))
	})
	return sorted
}
