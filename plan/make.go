// SPDX-License-Identifier: MIT

package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/quantity"
	"gyle/science/gravity"
	"gyle/science/mash"
	chem "gyle/science/water"
)

// Problem is one reason why a plan can't be made, with the field of the
// recipe, house or stock it comes from and what to do about it.
type Problem struct {
	Field string
	Msg   string
	Hint  string
}

func (p Problem) Error() string {
	s := p.Msg
	if p.Field != "" {
		s = p.Field + ": " + s
	}
	if p.Hint != "" {
		s += "\n   " + p.Hint
	}
	return s
}

// Problems are all the reasons why a plan can't be made.
type Problems []Problem

func (p Problems) Error() string {
	var lines []string
	for _, one := range p {
		lines = append(lines, one.Error())
	}
	return strings.Join(lines, "\n")
}

// work is a plan in the making.
type work struct {
	in   Input
	plan *Plan

	problems Problems
	grains   []grain
	charges  []charge

	thickerThanMeant float64 // L/kg of the mash, where the liquor does not give what is meant; else 0
	hopsSolved       bool    // the charges have their masses

	taken         ledger // of the lots, by the lines drawn so far
	meantShares   []float64
	og            quantity.SG
	collected     quantity.Volume
	knockOut      quantity.Volume
	packaged      quantity.Volume
	kettleExtract float64 // kg, at knock-out
	gristMass     float64 // kg
	houseYield    float64
	boilTime      quantity.Duration
	boilsAt       quantity.Temperature
	evaporated    quantity.Mass
	fullMass      quantity.Mass
	fullSG        quantity.SG
	supply        chem.Supply
	hasWater      bool
	fermented     quantity.Span[quantity.Fraction] // apparent attenuation of the yeast
	mashBalance   *mash.Balance                    // with its acid; nil: the water isn't known
}

// Make realises a recipe on a house. The error is [Problems] where something
// is missing or can't be, and [*TooLarge] where the vessels can't hold the
// brew.
func Make(in Input) (*Plan, error) {
	w, err := start(in)
	if err != nil {
		return nil, err
	}
	if err := w.brew(); err != nil {
		return nil, err
	}
	return w.plan, nil
}

// start resolves names and volumes.
func start(in Input) (*work, error) {
	if in.Recipe == nil || in.House == nil {
		return nil, errors.New("plan: a recipe and a house are needed")
	}
	if in.Stock != nil && in.On.IsZero() {
		in.On = in.Stock.Counted
	}
	r, echo, err := intentOf(in)
	if err != nil {
		return nil, err
	}
	w := &work{in: in, taken: ledger{}, plan: &Plan{
		Recipe: r.Name, Version: r.Version, House: in.House.Name, Style: r.Style, Echo: echo,
		recipe: r, house: in.House,
	}}
	w.in.Recipe = r
	if in.Stock != nil {
		w.plan.Stock = in.Stock.Name
	}
	w.resolveGrist()
	w.resolveHops()
	w.resolveWater()
	w.volumes()
	if len(w.problems) > 0 {
		return nil, w.problems
	}
	return w, nil
}

// brew goes through the brewing from the malt store to the bottle.
func (w *work) brew() error {
	w.checkKettle()
	w.boilAndEvaporate()
	w.checkRests()
	w.checkAcid()
	way, _ := w.coolingWay()
	if len(w.problems) > 0 {
		return w.problems
	}
	p, b := w.settle(way)
	if len(w.problems) > 0 {
		return w.problems
	}
	if err := w.holds(way); err != nil {
		return err
	}
	w.plan.Grist = w.gristLines()
	w.mashing()
	w.hopping(&p, b, way)
	w.cellar()
	w.figures()
	w.points()
	w.cautions()
	if len(w.problems) > 0 {
		return w.problems
	}
	w.plan.day = w.brewday(&p, b, way)
	return nil
}

func (w *work) problem(field, hint, format string, args ...any) {
	w.problems = append(w.problems, Problem{field, fmt.Sprintf(format, args...), hint})
}

func (w *work) caution(format string, args ...any) {
	w.plan.Cautions = append(w.plan.Cautions, fmt.Sprintf(format, args...))
}

// typicalOf says, once, what was taken as typical.
func (w *work) typicalOf(format string, args ...any) {
	if text := fmt.Sprintf(format, args...); !slices.Contains(w.plan.Typical, text) {
		w.plan.Typical = append(w.plan.Typical, text)
	}
}

func (w *work) kept(price, format string, args ...any) {
	w.plan.Kept = append(w.plan.Kept, Point{fmt.Sprintf(format, args...), price})
}

func (w *work) notKept(price, format string, args ...any) {
	w.plan.NotKept = append(w.plan.NotKept, Point{fmt.Sprintf(format, args...), price})
}

// nearestHint proposes the known word that is nearest to one that isn't known.
func nearestHint(word string, known []string) string {
	if near, ok := document.Nearest(word, known); ok {
		return fmt.Sprintf("did you mean %s?", near)
	}
	return ""
}

// Worts that a plan is made for: from the weakest table beer to what the
// formulas of gravity and bitterness still hold for. Estimate.
const (
	lowestOG  quantity.SG = 1.005
	highestOG quantity.SG = 1.170
)

// volumes fixes the size of the brew and its original gravity.
func (w *work) volumes() {
	if w.in.Recipe.Aims.OG == nil {
		w.problem("aims.og", "add og: 1.050 or og: 12.4 °P", "a recipe in shares needs its original gravity")
		return
	}
	w.og = gravity.SGOf(*w.in.Recipe.Aims.OG)
	if !(w.og >= lowestOG && w.og <= highestOG) {
		w.problem("aims.og", fmt.Sprintf("worts lie between %.3f and %.3f", float64(lowestOG), float64(highestOG)), "an original gravity of %.4g can't be brewed", float64(w.og))
	}
	switch {
	case w.in.Size != 0:
		w.collected = w.in.Size
	case w.in.House.Usual != nil:
		w.collected = *w.in.House.Usual
	case w.in.Recipe.Size != nil:
		w.collected = *w.in.Recipe.Size
	default:
		w.problem("usual", "add usual: 20 L to the house, or ask for a size", "neither house nor recipe says how much is brewed")
		return
	}
	if !(w.collected > 0) || math.IsInf(float64(w.collected), 0) {
		w.problem("size", "", "a brew of %v L is none", float64(w.collected))
	}
}
