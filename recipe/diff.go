// SPDX-License-Identifier: MIT

package recipe

import (
	"fmt"
	"slices"
	"strings"
)

// Difference is one thing in which two versions of a recipe differ.
type Difference struct {
	Part   string // grist, hops, mash, boil, aims, water, yeast, package
	What   string // "chocolate"
	Before string // empty: it is new
	After  string // empty: it is gone

	follows bool // a consequence of another difference
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

// Follows reports whether the difference is a consequence of another one: the
// base malt that gives way, the early hops that keep the bitterness.
func (d Difference) Follows() bool { return d.follows }

// Differences lists what b does differently from a, apart from names, notes
// and reasons.
func Differences(a, b *Recipe) []Difference {
	out := append(diffGrist(a, b), diffHops(a, b)...)
	out = append(out, diffMash(a, b)...)
	out = append(out, diffWater(a.Water, b.Water)...)
	out = append(out, diffYeast(a.Yeast, b.Yeast)...)
	out = append(out, diffPackage(a.Package, b.Package)...)
	return append(out, diffAims(a, b, out)...)
}

// Independent counts the changes that a taster could tell apart: those that
// follow from no other. Versions that differ at all differ in one at least.
func Independent(differences []Difference) int {
	count := 0
	for _, d := range differences {
		if !d.follows {
			count++
		}
	}
	if count == 0 && len(differences) > 0 {
		return 1
	}
	return count
}

// textOf writes an optional measure; nothing where it isn't given.
func textOf[T interface{ MarshalText() ([]byte, error) }](v *T) string {
	if v == nil {
		return ""
	}
	return text(*v)
}

// changed appends a difference where the two texts differ.
func changed(list []Difference, part, what, before, after string) []Difference {
	if before == after {
		return list
	}
	return append(list, Difference{Part: part, What: what, Before: before, After: after})
}

// followers marks all differences of a list but the first n.
func followers(list []Difference, n int) []Difference {
	for i := min(n, len(list)); i < len(list); i++ {
		list[i].follows = true
	}
	return list
}

// pair matches the entries of two lists, as many as it can by the first
// likeness, of the rest as many as it can by the next. The pairs stand in the
// order of b, those gone from a behind them; -1 stands for none.
func pair[T any](a, b []T, likenesses ...func(x, y T) bool) (found [][2]int) {
	ofA, ofB := slices.Repeat([]int{-1}, len(a)), slices.Repeat([]int{-1}, len(b))
	for _, alike := range likenesses {
		for j := range b {
			for i := range a {
				if ofA[i] < 0 && ofB[j] < 0 && alike(a[i], b[j]) {
					ofA[i], ofB[j] = j, i
				}
			}
		}
	}
	for j := range b {
		found = append(found, [2]int{ofB[j], j})
	}
	for i := range a {
		if ofA[i] < 0 {
			found = append(found, [2]int{i, -1})
		}
	}
	return found
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

func chargeText(c Charge) string {
	amount := textOf(c.Bitterness) + textOf(c.Dose) + textOf(c.Mass)
	return amount + " " + c.At.String()
}

func diffMash(a, b *Recipe) (out []Difference) {
	out = changed(out, "mash", "rests", restsText(a.Mash.Rests), restsText(b.Mash.Rests))
	out = changed(out, "mash", "ratio", textOf(a.Mash.Ratio), textOf(b.Mash.Ratio))
	out = changed(out, "mash", "pH", textOf(a.Mash.PH), textOf(b.Mash.PH))
	out = changed(out, "mash", "sparge", a.Mash.Sparge, b.Mash.Sparge)
	return changed(out, "boil", "time", textOf(a.Boil), textOf(b.Boil))
}

func restsText(rests []Rest) string {
	var parts []string
	for _, r := range rests {
		parts = append(parts, r.String())
	}
	return strings.Join(parts, ", ")
}

// diffWater takes the ions for one change: a salt moves two of them. Salts and
// acid are means to the ions and the pH.
func diffWater(a, b *Water) []Difference {
	a, b = orEmpty(a), orEmpty(b)
	ions := changed(nil, "water", "Ca", textOf(a.Ca), textOf(b.Ca))
	ions = changed(ions, "water", "Mg", textOf(a.Mg), textOf(b.Mg))
	ions = changed(ions, "water", "Na", textOf(a.Na), textOf(b.Na))
	ions = changed(ions, "water", "Cl", textOf(a.Cl), textOf(b.Cl))
	ions = changed(ions, "water", "SO4", textOf(a.SO4), textOf(b.SO4))
	ions = changed(ions, "water", "HCO3", textOf(a.HCO3), textOf(b.HCO3))
	means := changed(nil, "water", "salts", strings.Join(a.Salts, ", "), strings.Join(b.Salts, ", "))
	means = changed(means, "water", "soft water", textOf(a.Soft), textOf(b.Soft))
	means = changed(means, "water", "acid", a.Acid, b.Acid)
	return append(followers(ions, 1), followers(means, 0)...)
}

// diffYeast takes what another yeast does differently for one change.
func diffYeast(a, b *Yeast) []Difference {
	a, b = orEmpty(a), orEmpty(b)
	out := changed(nil, "yeast", "kind", a.Kind, b.Kind)
	another := len(out)
	out = changed(out, "yeast", "attenuation", textOf(a.Attenuation), textOf(b.Attenuation))
	out = changed(out, "yeast", "temperature", textOf(a.Temperature), textOf(b.Temperature))
	out = changed(out, "yeast", "pitch", textOf(a.Pitch), textOf(b.Pitch))
	if another > 0 {
		return followers(out, 1)
	}
	return out
}

// diffPackage takes the way the beer is put up and its sugar for one change.
func diffPackage(a, b *Package) []Difference {
	a, b = orEmpty(a), orEmpty(b)
	out := changed(nil, "package", "in", a.In, b.In)
	return followers(changed(out, "package", "sugar", a.Sugar, b.Sugar), 1)
}

func orEmpty[T any](v *T) *T {
	if v == nil {
		return new(T)
	}
	return v
}
