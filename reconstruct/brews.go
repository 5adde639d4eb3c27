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
	b := Book{House: NewHouse(doc)}
	for _, g := range inOrderOfBrewing(brews) {
		r, err := Make(b.Before(g, doc, nil))
		if err != nil {
			b.Silent = append(b.Silent, name(g))
			continue
		}
		b.Misses = append(b.Misses, r.Misses(name(g))...)
		b.House.Add(r.Lessons(name(g)))
	}
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
