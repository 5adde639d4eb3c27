// SPDX-License-Identifier: MIT

package formulate

import (
	"fmt"
	"slices"

	"gyle/data"
	"gyle/internal/document"
	"gyle/quantity"
	"gyle/style"
)

// shelfMalts and shelfHops are what most brewers can get: one malt of each kind,
// a hop for bitterness and one for the rest. Common practice.
var (
	shelfMalts = []string{
		"pilsner-malt", "pale-ale", "vienna", "munich", "wheat-malt-pale", "flaked-oats", "flaked-maize", "caramel-malt-50-ebc",
		"crystal", "caramel-malt-300-ebc", "brown", "chocolate", "black-malt", "dehusked-roasted-malt-dark", "sucrose",
	}
	shelfHops = []string{"magnum", "challenger", "east-kent-golding"}
)

// Shelf returns malts and hops for a wish without a stock: what most brewers can
// get, and every malt that the style names.
func Shelf(s *style.Style) ([]Malt, []Hop) {
	wish := &Wish{}
	for _, r := range s.Rules {
		for _, of := range []*style.Selection{r.Share, r.Largest, r.Late} {
			if of == nil {
				continue
			}
			for _, t := range of.Terms {
				if t.Sort == style.ByMalt && !sameMalt(wish.Malts, t.Name) {
					wish.addMalt(t.Name)
				}
			}
		}
	}
	for _, m := range shelfMalts {
		if !sameMalt(wish.Malts, m) {
			wish.addMalt(m)
		}
	}
	for _, h := range shelfHops {
		wish.addHop(h, nil)
	}
	return wish.Malts, wish.Hops
}

// sameMalt reports whether a malt is among others, perhaps by another name.
func sameMalt(malts []Malt, name string) bool {
	return slices.ContainsFunc(malts, func(m Malt) bool {
		a, known := data.Malt(m.Malt)
		b, other := data.Malt(name)
		return m.Malt == name || known && other && a.ID == b.ID
	})
}

// Use makes a malt or a hop one that must be used, a malt with a least share of
// the grist; 0 stands for the least there is. What the wish doesn't have yet is
// added to it.
func (wish *Wish) Use(name string, least quantity.Fraction) error {
	inMalts := slices.ContainsFunc(wish.Malts, func(m Malt) bool { return m.Malt == name })
	inHops := slices.ContainsFunc(wish.Hops, func(h Hop) bool { return h.Hop == name })
	_, isMalt := data.Malt(name)
	_, isHop := data.Hop(name)
	switch {
	case least < 0 || least > 1:
		return fmt.Errorf("a share of %s lies between 0 and 100 %%", name)
	case least > 0 && (inHops || isHop) && !inMalts && !isMalt:
		return fmt.Errorf("%s is a hop: it has no share of the grist", name)
	case inMalts, inHops:
	case isMalt:
		wish.addMalt(name)
	case isHop:
		wish.addHop(name, nil)
	default:
		return unknownIngredient(name)
	}
	wish.require(name)
	for i := range wish.Malts {
		if wish.Malts[i].Malt == name {
			wish.Malts[i].Least = max(wish.Malts[i].Least, least)
		}
	}
	return nil
}

// UseUp marks a malt of the wish to be used up, for [Lots].
func (wish *Wish) UseUp(name string) error {
	i := slices.IndexFunc(wish.Malts, func(m Malt) bool { return m.Malt == name })
	if i < 0 {
		return fmt.Errorf("there is no malt %s to be used up", name)
	}
	wish.Malts[i].UseUp = true
	return nil
}

func unknownIngredient(name string) error {
	if near, ok := document.Nearest(name, append(data.MaltNames(), data.HopNames()...)); ok {
		return fmt.Errorf("there is no malt or hop %q; did you mean %s?", name, near)
	}
	return fmt.Errorf("there is no malt or hop %q", name)
}

// pricePerKilo reads a price as it stands in a stock, "1.20 €/kg" or "4.50 €/100 g"; 0
// where it isn't understood. Which money it is doesn't matter as long as it is one.
func pricePerKilo(text string) float64 {
	p, err := quantity.ParsePrice(text)
	if err != nil {
		return 0
	}
	price, _ := p.PerKilo()
	return price
}

// Add adds a malt or a hop that may be used.
func (wish *Wish) Add(name string) error {
	if _, isMalt := data.Malt(name); isMalt {
		wish.addMalt(name)
		return nil
	}
	if _, isHop := data.Hop(name); isHop {
		if !slices.ContainsFunc(wish.Hops, func(h Hop) bool { return h.Hop == name }) {
			wish.addHop(name, nil)
		}
		return nil
	}
	return unknownIngredient(name)
}

// Buy takes an ingredient as one that more can be got of than the stock holds.
func (wish *Wish) Buy(name string) {
	for i := range wish.Malts {
		if wish.Malts[i].Malt == name {
			wish.Malts[i].Mass = nil
		}
	}
	for i := range wish.Hops {
		if wish.Hops[i].Hop == name {
			wish.Hops[i].Mass = nil
		}
	}
}
