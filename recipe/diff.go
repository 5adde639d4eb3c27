// SPDX-License-Identifier: MIT

package recipe

import (
	"fmt"
	"math"
)

// Difference is one thing in which two versions of a recipe differ.
type Difference struct {
	Part   string // grist, mash, hops, water, yeast, aims, boil
	What   string // "chocolate"
	Before string // empty: it is new
	After  string // empty: it is gone
}

func (d Difference) String() string {
	switch {
	case d.Before == "":
		return fmt.Sprintf("%s: %s is new: %s", d.Part, d.What, d.After)
	case d.After == "":
		return fmt.Sprintf("%s: %s is gone (was %s)", d.Part, d.What, d.Before)
	}
	return fmt.Sprintf("%s: %s %s → %s", d.Part, d.What, d.Before, d.After)
}

// Differences lists what b does differently from a, apart from names, notes
// and reasons.
func Differences(a, b *Recipe) []Difference {
	var out []Difference
	add := func(part, what, before, after string) {
		if before != after {
			out = append(out, Difference{part, what, before, after})
		}
	}
	diffGrist(a, b, add)
	diffHops(a, b, add)
	add("mash", "rests", fmt.Sprint(a.Mash.Rests), fmt.Sprint(b.Mash.Rests))
	add("mash", "ratio", textOf(a.Mash.Ratio), textOf(b.Mash.Ratio))
	add("mash", "pH", textOf(a.Mash.PH), textOf(b.Mash.PH))
	add("boil", "time", textOf(a.Boil), textOf(b.Boil))
	add("aims", "original gravity", textOf(a.Aims.OG), textOf(b.Aims.OG))
	add("aims", "bitterness", textOf(a.Aims.IBU), textOf(b.Aims.IBU))
	add("aims", "colour", textOf(a.Aims.Color), textOf(b.Aims.Color))
	add("aims", "carbonation", textOf(a.Aims.CO2), textOf(b.Aims.CO2))
	diffWater(a.Water, b.Water, add)
	diffYeast(a.Yeast, b.Yeast, add)
	return out
}

// textOf writes an optional measure; nothing where it isn't given.
func textOf[T interface{ MarshalText() ([]byte, error) }](v *T) string {
	if v == nil {
		return ""
	}
	return text(*v)
}

type differ func(part, what, before, after string)

func diffGrist(a, b *Recipe, add differ) {
	before := map[string]Grain{}
	for _, g := range a.Grist {
		before[g.Malt] = g
	}
	for _, g := range b.Grist {
		old, ok := before[g.Malt]
		delete(before, g.Malt)
		if !ok {
			add("grist", g.Malt, "", grainText(g))
			continue
		}
		add("grist", g.Malt, grainText(old), grainText(g))
	}
	for _, g := range a.Grist {
		if old, gone := before[g.Malt]; gone {
			add("grist", g.Malt, grainText(old), "")
		}
	}
}

func grainText(g Grain) string {
	s := textOf(g.Share)
	if g.Mass != nil {
		s = textOf(g.Mass)
	}
	if !g.In.IsZero() {
		s += " " + g.In.String()
	}
	if g.Color != nil {
		s += " " + textOf(g.Color)
	}
	return s
}

// diffHops pairs charges of the same hop in their order.
func diffHops(a, b *Recipe, add differ) {
	used := make([]bool, len(a.Hops))
	for _, c := range b.Hops {
		found := false
		for i, old := range a.Hops {
			if !used[i] && old.Hop == c.Hop {
				used[i], found = true, true
				add("hops", c.Hop, chargeText(old), chargeText(c))
				break
			}
		}
		if !found {
			add("hops", c.Hop, "", chargeText(c))
		}
	}
	for i, old := range a.Hops {
		if !used[i] {
			add("hops", old.Hop, chargeText(old), "")
		}
	}
}

func chargeText(c Charge) string {
	amount := textOf(c.Bitterness) + textOf(c.Dose) + textOf(c.Mass)
	return amount + " " + c.At.String()
}

func diffWater(a, b *Water, add differ) {
	if a == nil {
		a = new(Water)
	}
	if b == nil {
		b = new(Water)
	}
	add("water", "Ca", textOf(a.Ca), textOf(b.Ca))
	add("water", "Mg", textOf(a.Mg), textOf(b.Mg))
	add("water", "Na", textOf(a.Na), textOf(b.Na))
	add("water", "Cl", textOf(a.Cl), textOf(b.Cl))
	add("water", "SO4", textOf(a.SO4), textOf(b.SO4))
	add("water", "HCO3", textOf(a.HCO3), textOf(b.HCO3))
	add("water", "acid", a.Acid, b.Acid)
}

func diffYeast(a, b *Yeast, add differ) {
	if a == nil {
		a = new(Yeast)
	}
	if b == nil {
		b = new(Yeast)
	}
	add("yeast", "kind", a.Kind, b.Kind)
	add("yeast", "attenuation", textOf(a.Attenuation), textOf(b.Attenuation))
	add("yeast", "temperature", textOf(a.Temperature), textOf(b.Temperature))
	add("yeast", "pitch", textOf(a.Pitch), textOf(b.Pitch))
}

// smallMove is the share of the grist up to which a grain may follow another
// change without being one of its own: rounding and colour kept.
const smallMove = 0.005

// Independent counts the changes that a taster could tell apart: within the
// grist one grain's gain is another's loss, and a small correction that keeps
// colour or bitterness belongs to the change that called for it. Two charges
// of hops that change together count as one, because the bitterness of the
// whole is kept between them.
func Independent(differences []Difference) int {
	parts := map[string]int{}
	grist := 0
	for _, d := range differences {
		switch d.Part {
		case "grist":
			if movesMuch(d) {
				grist++
			}
		case "aims":
			// an aim that moves with the recipe is a consequence
		default:
			parts[d.Part]++
		}
	}
	count := len(parts)
	if grist > 0 {
		count += max(1, (grist+1)/2)
	}
	return count
}

// movesMuch reports whether a grain changed by more than a correction.
func movesMuch(d Difference) bool {
	var before, after float64
	var restBefore, restAfter string
	n1, _ := fmt.Sscanf(d.Before, "%f %% %s", &before, &restBefore)
	n2, _ := fmt.Sscanf(d.After, "%f %% %s", &after, &restAfter)
	if n1 == 0 || n2 == 0 || restBefore != restAfter {
		return true
	}
	return math.Abs(before-after) > smallMove*100
}
