// SPDX-License-Identifier: MIT

package judge

import (
	"errors"
	"fmt"
	"slices"

	"gyle/quantity"
	"gyle/recipe"
)

// Change is one change of a recipe that a mend asks for. Index is the place of
// a grain or a charge in the recipe, -1 for a new one. To is in the unit of the
// documents: shares are fractions, gravities SG, colours EBC, doses g/L.
type Change struct {
	What  What    `json:"what"`
	Name  string  `json:"name,omitempty"` // figure, malt, hop or trait of the yeast
	Index int     `json:"index"`
	To    float64 `json:"to"`
	Upto  float64 `json:"upto,omitempty"` // upper end of a trait of the yeast; To is the lower
	At    string  `json:"at,omitempty"`   // new moment of a charge, new entry of a grain
}

// What says what a [Change] changes.
type What string

// What may change.
const (
	FigureTo     What = "figure"
	ShareTo      What = "share"
	EntryOf      What = "entry" // To is the share of the grist that comes in at At from now on
	BitternessTo What = "bitterness"
	DoseTo       What = "dose"
	MassTo       What = "mass" // of a charge, kg
	MomentTo     What = "moment"
	YeastTo      What = "yeast"
)

// Apply returns a copy of r with the changes made. Changes that were proposed
// for a plan may be applied to its recipe; make and judge a new plan after it.
func Apply(r *recipe.Recipe, changes []Change) (*recipe.Recipe, error) {
	out := *r
	out.Grist, out.Hops = slices.Clone(r.Grist), slices.Clone(r.Hops)
	if r.Water != nil {
		water := *r.Water
		out.Water = &water
	}
	if r.Yeast != nil {
		yeast := *r.Yeast
		out.Yeast = &yeast
	}
	total := quantity.Mass(0)
	for _, g := range r.Grist {
		if g.Mass != nil {
			total += *g.Mass
		}
	}
	for _, c := range changes {
		if err := apply(&out, c, total); err != nil {
			return nil, fmt.Errorf("change %s %s: %w", c.What, c.Name, err)
		}
	}
	out.Grist = slices.DeleteFunc(out.Grist, func(g recipe.Grain) bool { return shareOf(g, total) < 1e-9 })
	return &out, nil
}

var errNoSuchLine = errors.New("the recipe has no such line")

func apply(r *recipe.Recipe, c Change, total quantity.Mass) error {
	switch c.What {
	case FigureTo:
		return applyFigure(r, c)
	case ShareTo, EntryOf:
		return applyGrain(r, c, total)
	case BitternessTo, DoseTo, MassTo, MomentTo:
		return applyCharge(r, c)
	case YeastTo:
		return applyYeast(r, c)
	}
	return errors.New("this can't be changed")
}

// shareOf returns the share of a grain, whose masses add up to total.
func shareOf(g recipe.Grain, total quantity.Mass) float64 {
	if g.Share != nil {
		return float64(*g.Share)
	}
	if g.Mass != nil && total > 0 {
		return float64(*g.Mass / total)
	}
	return 0
}

// setShare gives a grain a share, as a mass where the recipe is in masses.
func setShare(g *recipe.Grain, share float64, total quantity.Mass) {
	if total > 0 {
		m := quantity.Mass(share) * total
		g.Mass = &m
		return
	}
	f := quantity.Fraction(share)
	g.Share = &f
}

func applyGrain(r *recipe.Recipe, c Change, total quantity.Mass) error {
	if c.What == ShareTo && c.Index < 0 {
		g := recipe.Grain{Malt: c.Name}
		setShare(&g, c.To, total)
		r.Grist = append(r.Grist, g)
		return nil
	}
	if c.Index < 0 || c.Index >= len(r.Grist) {
		return errNoSuchLine
	}
	g := &r.Grist[c.Index]
	if c.What == ShareTo {
		setShare(g, c.To, total)
		return nil
	}
	moved := *g
	if err := moved.In.UnmarshalText([]byte(c.At)); err != nil {
		return err
	}
	rest := shareOf(*g, total) - c.To
	if rest < 1e-9 {
		*g = moved
		return nil
	}
	setShare(&moved, c.To, total)
	setShare(g, rest, total)
	r.Grist = append(r.Grist, moved) // at the end: the places of the others stay
	return nil
}

func applyCharge(r *recipe.Recipe, c Change) error {
	if c.Index < 0 {
		r.Hops = append(r.Hops, recipe.Charge{Hop: c.Name})
		c.Index = len(r.Hops) - 1
	}
	if c.Index >= len(r.Hops) {
		return errNoSuchLine
	}
	h := &r.Hops[c.Index]
	if c.At != "" {
		if err := h.At.UnmarshalText([]byte(c.At)); err != nil {
			return err
		}
	}
	if c.What == MomentTo {
		return nil
	}
	h.Bitterness, h.Dose, h.Mass = nil, nil, nil
	switch c.What {
	case BitternessTo:
		h.Bitterness = pointer(quantity.IBU(c.To))
	case DoseTo:
		h.Dose = pointer(quantity.Dose(c.To))
	default:
		h.Mass = pointer(quantity.Mass(c.To))
	}
	return nil
}

func pointer[T any](x T) *T { return &x }

func applyYeast(r *recipe.Recipe, c Change) error {
	if r.Yeast == nil {
		return errNoSuchLine
	}
	switch c.Name {
	case "attenuation":
		r.Yeast.Attenuation = &quantity.Span[quantity.Fraction]{Low: quantity.Fraction(c.To), High: quantity.Fraction(c.Upto)}
	case "temperature":
		r.Yeast.Temperature = &quantity.Span[quantity.Temperature]{Low: quantity.Celsius(c.To), High: quantity.Celsius(c.Upto)}
	case "pitch":
		r.Yeast.Pitch = pointer(quantity.PitchRate(c.To))
	}
	return nil
}

func applyFigure(r *recipe.Recipe, c Change) error {
	switch quantity.Figure(c.Name) {
	case quantity.OG:
		r.Aims.OG = pointer(quantity.GravitySG(quantity.SG(c.To)))
	case quantity.FG:
		r.Aims.FG = pointer(quantity.GravitySG(quantity.SG(c.To)))
	case quantity.Bitterness:
		r.Aims.IBU = pointer(quantity.IBU(c.To))
	case quantity.BeerColor:
		r.Aims.Color = &quantity.Color{Value: c.To, Scale: quantity.ScaleEBC}
	case quantity.CO2:
		r.Aims.CO2 = pointer(quantity.Carbonation(c.To))
	case quantity.MashPH:
		r.Mash.PH = pointer(quantity.PH(c.To))
	default:
		return applyIon(r, c)
	}
	return nil
}

func applyIon(r *recipe.Recipe, c Change) error {
	if r.Water == nil {
		r.Water = new(recipe.Water)
	}
	concentration := pointer(quantity.Concentration(c.To))
	switch quantity.Figure(c.Name) {
	case quantity.Calcium:
		r.Water.Ca = concentration
	case quantity.Magnesium:
		r.Water.Mg = concentration
	case quantity.Sodium:
		r.Water.Na = concentration
	case quantity.Chloride:
		r.Water.Cl = concentration
	case quantity.Sulfate:
		r.Water.SO4 = concentration
	case quantity.Bicarbonate:
		r.Water.HCO3 = concentration
	default:
		return errors.New("it follows from other figures")
	}
	return nil
}
