// SPDX-License-Identifier: MIT

package judge

import (
	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// beer is what is known of a beer: of a recipe as it is meant, or of a plan.
type beer struct {
	subject string
	figures map[quantity.Figure]figure
	lacks   map[quantity.Figure]string // why a figure isn't known
	grains  []grain
	mass    quantity.Mass // of the grist; 0 where not known
	charges []charge
	boil    quantity.Duration // the boil that is meant
	yeast   *recipe.Yeast
	fg      func(og quantity.SG) (quantity.SG, bool) // the final gravity of another original gravity
	planned bool
	reader  quantity.Printer // of the sentences about it
}

// figure is a number of the beer, in the unit of its quantity.Figure.
type figure struct{ value, sd float64 }

// grain is one line of the grist.
type grain struct {
	malt  string // as the document calls it
	id    string // of the typical malt it is, or as the document calls it
	class string // empty: not known
	color float64
	hued  bool // the colour is known
	role  recipe.Role
	in    recipe.Entry
	share float64 // of the mass of the grist
	index int     // in the grist of the document
}

// charge is one line of the hops.
type charge struct {
	hop   string
	id    string
	at    recipe.Moment
	ibu   *float64      // nil: not known
	dose  *float64      // g/L; nil: not known
	mass  quantity.Mass // 0: not known
	index int           // in the hops of the document

	meansIBU bool // the recipe says its bitterness, not its dose
}

func (c charge) String() string { return c.hop + " at " + c.at.String() }

// isDry reports whether the charge gives no bitterness that a rule could mean.
func (c charge) isDry() bool { return c.at.Stage == recipe.AtDry }

// newGrain knows a grain by what is typical of its malt.
func newGrain(malt string, color *quantity.Color) grain {
	g := grain{malt: malt, id: malt}
	if typical, ok := data.Malt(malt); ok {
		g.id, g.class = typical.ID, typical.Class
		g.color, g.hued = typical.ColourEBC.Mid(), true
	}
	if color != nil {
		g.color, g.hued = float64(color.EBC()), true
	}
	return g
}

// maltID returns the id of the typical malt that a word stands for.
func maltID(word string) string {
	if typical, ok := data.Malt(word); ok {
		return typical.ID
	}
	return word
}

// hopID returns the id of the typical hop that a word stands for.
func hopID(word string) string {
	if alias, ok := data.HopAlias(word); ok {
		return alias.Is
	}
	return word
}

// picker decides whether a grain is picked; known is false where too little
// is known of the grain to decide.
type picker func(g *grain) (picked, known bool)

// pick returns a picker for a selection. A grain is picked if any term picks it.
func (w *work) pick(s *style.Selection) picker { return w.pickIn(s, 0) }

// deepest is how deep groups may stand in groups.
const deepest = 4

func (w *work) pickIn(s *style.Selection, depth int) picker {
	var terms []picker
	for _, t := range s.Terms {
		terms = append(terms, w.pickTerm(t, depth))
	}
	return func(g *grain) (bool, bool) {
		allKnown := true
		for _, term := range terms {
			picked, known := term(g)
			if picked {
				return true, true
			}
			allKnown = allKnown && known
		}
		return false, allKnown
	}
}

func (w *work) pickTerm(t style.Term, depth int) picker {
	name := w.pickName(t, depth)
	if t.Color == nil {
		return name
	}
	return func(g *grain) (bool, bool) {
		picked, known := name(g)
		if !picked {
			return false, known
		}
		return g.hued && t.Color.Has(g.color), g.hued
	}
}

// pickName picks by the name of a term, whatever the colour.
func (w *work) pickName(t style.Term, depth int) picker {
	switch t.Sort {
	case style.ByMalt:
		id := maltID(t.Name)
		return func(g *grain) (bool, bool) { return g.id == id || g.malt == t.Name, true }
	case style.ByClass:
		return func(g *grain) (bool, bool) { return g.class == t.Name, g.class != "" }
	case style.ByRole:
		var role recipe.Role
		if role.UnmarshalText([]byte(t.Name)) != nil {
			role = recipe.Role(t.Name)
		}
		return func(g *grain) (bool, bool) { return g.role == role, true }
	case style.ByGroup:
		return w.pickIn(w.group(t.Name, depth), depth+1)
	}
	return func(*grain) (bool, bool) { return true, true }
}

// group returns the members of a group as a selection. A member is whatever a
// selection may name.
func (w *work) group(name string, depth int) *style.Selection {
	all := new(style.Selection)
	if depth >= deepest {
		return all
	}
	for _, member := range w.style.Groups[name] {
		var s style.Selection
		if s.UnmarshalText([]byte(member)) == nil {
			all.Terms = append(all.Terms, s.Terms...)
		}
	}
	return all
}

// chosen is the grains that a selection picks.
type chosen struct {
	in   []bool  // by grain of the beer
	sum  float64 // their share
	lack string  // why it isn't known
}

func (w *work) choose(p picker) chosen {
	c := chosen{in: make([]bool, len(w.beer.grains))}
	for i := range w.beer.grains {
		g := &w.beer.grains[i]
		picked, known := p(g)
		if !known && g.share > 0 {
			c.lack = g.malt + " is not among the typical malts, so its class or colour isn't known"
		}
		if picked && g.share > 0 {
			c.in[i] = true
			c.sum += g.share
		}
	}
	return c
}
