// SPDX-License-Identifier: MIT

package formulate

import (
	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/stock"
	"gyle/style"
	"gyle/water"
)

// Objective says what to care for among the recipes that fit.
type Objective string

// The objectives of a [Wish].
const (
	Middle   Objective = "middle"   // as far as possible from every edge of the style
	Near     Objective = "near"     // as little as possible away from the recipe of the wish
	Cheapest Objective = "cheapest" // least money per litre, by the prices of the wish
	Lots     Objective = "lots"     // as much as possible of the malts marked to be used up
	Fewest   Objective = "fewest"   // as few malts and hop charges as possible
)

// Objectives returns all objectives in the order in which they are offered.
func Objectives() []Objective { return []Objective{Middle, Near, Cheapest, Lots, Fewest} }

// Malt is a grain that may be used.
type Malt struct {
	Malt  string          // as a recipe calls it
	Color *quantity.Color // the product meant, where the name leaves it open
	In    recipe.Entry    // how it comes in; a style's wish for late grain may move part of it
	Role  recipe.Role
	Why   string
	Must  bool               // with Least, or with [LeastShare], at least
	Least quantity.Fraction  // of the mass of the grist
	Most  *quantity.Fraction // nil: what the rules leave
	Price float64            // per kg, in any money; 0: not known
	UseUp bool               // for [Lots]
	Mass  *quantity.Mass     // what there is of it; nil: enough
}

// Hop is a hop that may be used.
type Hop struct {
	Hop    string
	At     []recipe.Moment // when it may go in; empty: at the moments that the rules suggest
	Why    string
	Must   bool          // with [LeastDose] at least
	Most   quantity.Dose // of all its charges; 0: what the rules leave
	Price  float64       // per kg; 0: not known
	Sachet quantity.Mass // it is only used in whole sachets of this mass; 0: it is weighed
	Mass   *quantity.Mass
}

// Bound is a range in which a figure must lie, beside the rules of the style.
type Bound struct {
	Figure quantity.Figure
	Span   quantity.Span[float64] // in the figure's own unit; open ends are ±Inf
}

// Wish is what a brewer asks for.
type Wish struct {
	Name      string // of the recipe; empty: the name of the style
	Style     *style.Style
	StyleID   string // written into the recipe
	Malts     []Malt
	Hops      []Hop
	Yeasts    []string       // kinds that may be used; empty: that of Start, else every kind on the shelf
	Without   []string       // malts and hops that must not be used
	Start     *recipe.Recipe // for [Near]; and whatever the rules don't touch is taken from it
	Bounds    []Bound
	Objective Objective // empty: [Near] with a Start, else [Middle]

	House   *brewhouse.House // nil: [PaperHouse]
	Stock   *stock.Stock     // the lots whose analyses are used; nil: typical values
	Water   *water.Water     // the supply, for the plan; nil: the liquor is left as it is
	Cooling string           // way of cooling of the house
	Size    quantity.Volume  // 0: as the house usually brews

	Step      quantity.Fraction // of shares: 0.01 or 0.005; 0: [UsualStep]; negative: any
	HopStep   quantity.Mass     // on a house; 0: [UsualHopStep]; negative: any
	OnlyLimit bool              // advice is not asked for, only limits
	Strict    bool              // advice is never given up
	Unusual   bool              // malts may go beyond their usual ceilings, and the mash may be poor in enzymes
	NoRooms   bool              // leave the rooms out
	Reader    quantity.Printer  // units and decimal mark of the sentences
	Robust    bool              // on a house: of several recipes that fit, the one that is likeliest to turn out inside
}

// Steps and least amounts. Common practice: what kitchen and laboratory scales
// and a brewer's patience weigh.
const (
	UsualStep    quantity.Fraction = 0.005
	LeastShare   quantity.Fraction = 0.005
	LeastDose    quantity.Dose     = 0.1
	UsualHopStep                   = quantity.Mass(0.005)
)

// FromStock returns the malts and hops of a shed, each once, in the order of
// the document, with how much there is of each and the price of its dearest lot.
func FromStock(s *stock.Stock) ([]Malt, []Hop) {
	var malts []Malt
	var hops []Hop
	maltAt, hopAt := map[string]int{}, map[string]int{}
	for _, l := range s.Malts {
		i, seen := maltAt[l.Malt]
		if !seen {
			i = len(malts)
			maltAt[l.Malt] = i
			malts = append(malts, Malt{Malt: l.Malt, Mass: new(quantity.Mass)})
		}
		malts[i].Price = max(malts[i].Price, pricePerKilo(l.Price))
		malts[i].Mass = addMass(malts[i].Mass, l.Mass)
	}
	for _, l := range s.Hops {
		i, seen := hopAt[l.Hop]
		if !seen {
			i = len(hops)
			hopAt[l.Hop] = i
			hops = append(hops, Hop{Hop: l.Hop, Mass: new(quantity.Mass)})
		}
		hops[i].Price = max(hops[i].Price, pricePerKilo(l.Price))
		hops[i].Mass = addMass(hops[i].Mass, l.Mass)
	}
	return malts, hops
}

// addMass adds the mass of one more lot; a lot without one holds enough.
func addMass(sum, more *quantity.Mass) *quantity.Mass {
	if sum == nil || more == nil {
		return nil
	}
	total := *sum + *more
	return &total
}
