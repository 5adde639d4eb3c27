// SPDX-License-Identifier: MIT

package formulate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/data"
	"gyle/judge"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// Swap is a recipe with one ingredient in place of another.
type Swap struct {
	From, To  string
	Role      string // what was kept first: colour, extract, bitterness, oil
	Recipe    *recipe.Recipe
	Text      string
	Judgement judge.Judgement
	Kept      []string
	Lost      []string  // what is given up, or changes
	Conflict  *Conflict // why there is no such recipe; the rest is empty then
}

// Swaps puts each of the candidates in the place of one ingredient of a recipe
// and solves the whole recipe anew, as near to the old one as the style allows. A
// malt takes over the colour of a dark malt and the extract of a pale one; a hop
// takes over the bitterness of charges meant for bitterness and the oil of those
// meant by dose. What that keeps and what it gives up is said.
func Swaps(ctx context.Context, wish Wish, r *recipe.Recipe, ingredient string, candidates []string) ([]Swap, error) {
	isMalt := slices.ContainsFunc(r.Grist, func(g recipe.Grain) bool { return g.Malt == ingredient })
	isHop := slices.ContainsFunc(r.Hops, func(c recipe.Charge) bool { return c.Hop == ingredient })
	if !isMalt && !isHop {
		return nil, fmt.Errorf("swap %s: %s has no such ingredient", ingredient, r.Name)
	}
	wish.Objective, wish.NoRooms = Near, true
	if wish.Step == 0 {
		wish.Step = fineStep // a step of a dark malt would be seen
	}
	var out []Swap
	for _, to := range candidates {
		s, err := swap(ctx, wish, r, Swap{From: ingredient, To: to}, isMalt)
		if err != nil {
			return nil, fmt.Errorf("swap %s for %s: %w", ingredient, to, err)
		}
		out = append(out, s)
	}
	return out, nil
}

func swap(ctx context.Context, wish Wish, r *recipe.Recipe, s Swap, isMalt bool) (Swap, error) {
	both := wish
	both.Start = r
	both.Malts, both.Hops = slices.Clone(wish.Malts), slices.Clone(wish.Hops)
	if isMalt {
		both.addMalt(s.To)
	} else {
		both.addHop(s.To, momentsOf(r, s.From))
	}
	before, err := begin(ctx, both)
	if err != nil {
		return s, err
	}
	start, role := before.swapped(r, s.From, s.To, isMalt)
	s.Role = role
	both.Without = append(slices.Clone(wish.Without), s.From)
	both.Start = start
	both.require(s.To)
	after, err := begin(ctx, both)
	if err != nil {
		return s, err
	}
	result, err := after.holdRole(role, before, r)
	if errors.As(err, &s.Conflict) {
		return s, nil
	}
	if err != nil {
		return s, err
	}
	s.Recipe, s.Text, s.Judgement = result.Recipe, result.Text, result.Judgement
	s.compare(before, after)
	for _, c := range result.GivenUp {
		for _, one := range c.Clashes {
			if one.Severity == style.Advice {
				s.Lost = append(s.Lost, "advice: "+one.String())
			}
		}
	}
	return s, nil
}

// addMalt adds a malt to a wish that doesn't have it.
func (wish *Wish) addMalt(name string) {
	if !slices.ContainsFunc(wish.Malts, func(m Malt) bool { return m.Malt == name }) {
		wish.Malts = append(wish.Malts, Malt{Malt: name})
	}
}

// addHop adds a hop to a wish, at some moments beside those it has.
func (wish *Wish) addHop(name string, at []recipe.Moment) {
	i := slices.IndexFunc(wish.Hops, func(h Hop) bool { return h.Hop == name })
	if i < 0 {
		wish.Hops = append(wish.Hops, Hop{Hop: name, At: at})
		return
	}
	h := &wish.Hops[i]
	h.At = compact(slices.Concat(h.At, at))
}

func momentsOf(r *recipe.Recipe, hop string) []recipe.Moment {
	var out []recipe.Moment
	for _, c := range r.Hops {
		if c.Hop == hop {
			out = append(out, c.At)
		}
	}
	return compact(out)
}

// require makes an ingredient of a wish one that must be used.
func (wish *Wish) require(name string) {
	for i := range wish.Malts {
		wish.Malts[i].Must = wish.Malts[i].Must || wish.Malts[i].Malt == name
	}
	for i := range wish.Hops {
		wish.Hops[i].Must = wish.Hops[i].Must || wish.Hops[i].Hop == name
	}
}

// swapped returns the recipe to be near to: the old one with the new ingredient
// in the amount that does the old one's work.
func (w *work) swapped(r *recipe.Recipe, from, to string, isMalt bool) (*recipe.Recipe, string) {
	out := *r
	out.Grist, out.Hops = slices.Clone(r.Grist), slices.Clone(r.Hops)
	if !isMalt {
		return &out, w.swapHop(&out, from, to)
	}
	role := ""
	total := 0.0
	for i := range out.Grist {
		g := &out.Grist[i]
		if g.Malt == from {
			old, new := w.columnOf(from, g.In), w.columnOf(to, g.In)
			role = roleOf(*g, old)
			factor := old.extract / new.extract
			if role == "colour" {
				factor = old.color / new.color
			}
			share := quantity.Fraction(w.startShare(old) * factor)
			*g = recipe.Grain{Malt: to, Share: &share, In: g.In, Role: g.Role, Why: g.Why}
		} else {
			share := quantity.Fraction(w.startShare(w.columnOf(g.Malt, g.In)))
			g.Share, g.Mass = &share, nil
		}
		total += float64(*g.Share)
	}
	w.balance(&out, to, total)
	return &out, role
}

// darkMalt is the colour from which a malt is there for its colour, EBC. Estimate.
const darkMalt quantity.EBC = 60

// roleOf is what a grain does in a grist: what the brewer says, else by its colour.
func roleOf(g recipe.Grain, c column) string {
	lovibond := c.color
	if g.Role == recipe.RoleColor || quantity.EBC(lovibond*2.65) > darkMalt { // about 2.65 EBC in a degree Lovibond
		return "colour"
	}
	return "extract"
}

// balance lets the largest other grain take the difference to the whole.
func (w *work) balance(r *recipe.Recipe, but string, total float64) {
	at := -1
	for i, g := range r.Grist {
		if g.Malt != but && (at < 0 || *g.Share > *r.Grist[at].Share) {
			at = i
		}
	}
	if at < 0 {
		at = 0
	}
	share := quantity.Fraction(math.Max(float64(*r.Grist[at].Share)+1-total, 0))
	r.Grist[at].Share = &share
}

// columnOf returns the column of a malt at an entry, or at any.
func (w *work) columnOf(malt string, in recipe.Entry) column {
	var found column
	for _, c := range w.columns {
		if w.wish.Malts[c.malt].Malt == malt {
			if found = c; c.in == in {
				return c
			}
		}
	}
	return found
}

// swapHop puts one hop in the place of another: a charge that is meant by its
// bitterness keeps it, one that is meant by its dose keeps its oil.
func (w *work) swapHop(r *recipe.Recipe, from, to string) string {
	role := ""
	for i := range r.Hops {
		c := &r.Hops[i]
		if c.Hop != from {
			continue
		}
		old, new := w.chargeOf(from, c.At), w.chargeOf(to, c.At)
		c.Hop, c.Why = to, ""
		switch {
		case c.Bitterness != nil:
			role = "bitterness"
		case old.oil > 0 && new.oil > 0:
			if role == "" {
				role = "oil"
			}
			factor := old.oil / new.oil
			if c.Dose != nil {
				dose := quantity.Dose(float64(*c.Dose) * factor)
				c.Dose = &dose
			} else if c.Mass != nil {
				mass := quantity.Mass(float64(*c.Mass) * factor)
				c.Mass = &mass
			}
		}
	}
	if role == "" {
		role = "dose"
	}
	return role
}

func (w *work) chargeOf(hop string, at recipe.Moment) charge {
	for _, c := range w.charges {
		if w.wish.Hops[c.hop].Hop == hop && c.at == at {
			return c
		}
	}
	return charge{}
}

// closely is how nearly the colour of the old beer is held, at first, when a malt
// is swapped by its colour: less than the eye sees. Estimate.
const closely = 0.02

// holdRole solves the recipe with the colour held, and without if that can't be.
func (w *work) holdRole(role string, before *work, r *recipe.Recipe) (*Result, error) {
	if role != "colour" {
		return w.find()
	}
	from, err := before.startDraft(nil)
	if err != nil {
		return nil, err
	}
	ebc := before.colorOf(from.og, from.shares)
	hold := wishFor(onFigure, nil, ebc*(1-closely), ebc*(1+closely), 1, "the old colour", "")
	hold.figure = quantity.BeerColor
	free := w.demands
	w.demands = append(slices.Clone(free), hold)
	if w.feasible(w.demands) {
		return w.find()
	}
	w.demands = free
	return w.find()
}

// compare says what is kept and what is given up.
func (s *Swap) compare(before, after *work) {
	old, err := before.startDraft(nil)
	if err != nil {
		return
	}
	again := *after
	again.wish.Start = s.Recipe
	got, err := again.startDraft(nil)
	if err != nil {
		return
	}
	note := func(what string, a, b, tolerance float64, show func(float64) string) {
		if math.Abs(a-b) <= tolerance {
			s.Kept = append(s.Kept, what+" "+show(a))
		} else {
			s.Lost = append(s.Lost, fmt.Sprintf("%s %s instead of %s", what, show(b), show(a)))
		}
	}
	show := func(f quantity.Figure) func(float64) string {
		return func(x float64) string { return after.wish.Reader.Figure(f, x) }
	}
	ebc := before.colorOf(old.og, old.shares)
	note("original gravity", old.og, got.og, 0.0006, show(quantity.OG))
	note("colour", ebc, after.colorOf(got.og, got.shares), 2*closely*ebc, show(quantity.BeerColor))
	note("bitterness", before.bitterness(old.doses), after.bitterness(got.doses), 0.6, show(quantity.Bitterness))
	power := func(x float64) string { return fmt.Sprintf("%.0f WK", x) }
	a, b := before.diastatic(old.shares), after.diastatic(got.shares)
	note("diastatic power", a, b, 0.03*a, power)
	if o1, o2 := before.oil(old.doses), after.oil(got.doses); o1 > 0 || o2 > 0 {
		note("oil of late hops", o1, o2, 0.05*o1, func(x float64) string { return fmt.Sprintf("%.1f mL/hL", x) })
	}
	s.compareWords()
}

// diastatic is the diastatic power of a grist by typical values, in
// Windisch-Kolbach units.
func (w *work) diastatic(shares []float64) float64 {
	sum := 0.0
	for i, c := range w.columns {
		if t, ok := data.Malt(w.wish.Malts[c.malt].Malt); ok {
			sum += shares[i] * t.DiastaticWK.Mid()
		}
	}
	return sum
}

// oil is the dose of oil of the hops that aren't boiled long, mL/hL.
func (w *work) oil(doses []float64) float64 {
	sum := 0.0
	for i, c := range w.charges {
		if c.at.Stage != recipe.AtBoil || c.at.Time <= 20 { // common practice: longer boils drive it off
			sum += c.oil * doses[i]
		}
	}
	return sum
}

// compareWords sets the words for the taste, and allergens, side by side.
func (s *Swap) compareWords() {
	lost := func(format string, args ...any) { s.Lost = append(s.Lost, fmt.Sprintf(format, args...)) }
	if a, ok := data.Malt(s.From); ok {
		if b, ok := data.Malt(s.To); ok {
			lost("%s for %s", strings.Join(b.Flavour, ", "), strings.Join(a.Flavour, ", "))
			for _, x := range b.Allergens {
				if !slices.Contains(a.Allergens, x) {
					lost("an allergen more: %s", x)
				}
			}
		}
		return
	}
	if a, ok := data.Hop(s.From); ok {
		if b, ok := data.Hop(s.To); ok {
			lost("%s for %s", strings.Join(b.Aroma, ", "), strings.Join(a.Aroma, ", "))
		}
	}
}
