// SPDX-License-Identifier: MIT

package recipe

import (
	"math"
	"slices"

	"gyle/quantity"
)

// What counts as a correction that another change called for, and not as a
// change of its own. Both are estimates: below what a panel finds.
const (
	smallMove       = 0.005 // of the grist: rounding, and colour kept
	smallBitterness = 0.1   // of the bitterness aimed at
)

// grainMove is what happened to one grain between two versions.
type grainMove struct {
	before, after *Grain // nil: new, or gone
	move          float64
}

// onlyAmount reports whether nothing but the share changed.
func (m grainMove) onlyAmount() bool {
	return m.before != nil && m.after != nil && m.before.In == m.after.In && textOf(m.before.Color) == textOf(m.after.Color)
}

// diffGrist pairs the grains of two grists. The base malt gives way to what
// another grain gains, a grain of the role color keeps the colour, and what one
// grain gains another loses: these follow.
func diffGrist(a, b *Recipe) (out []Difference) {
	totalA, totalB := gristMass(a.Grist), gristMass(b.Grist)
	base := baseOf(a.Grist, totalA)
	keepsColor := textOf(a.Aims.Color) == textOf(b.Aims.Color)
	var moves []grainMove
	for _, p := range pair(a.Grist, b.Grist, sameProduct, sameColor, sameMalt) {
		var m grainMove
		var d Difference
		if p[0] >= 0 {
			m.before = &a.Grist[p[0]]
			d.What, d.Before = m.before.Malt, grainText(*m.before)
			m.move -= shareOf(*m.before, totalA)
		}
		if p[1] >= 0 {
			m.after = &b.Grist[p[1]]
			d.What, d.After = m.after.Malt, grainText(*m.after)
			m.move += shareOf(*m.after, totalB)
		}
		if d.Before == d.After {
			continue
		}
		d.Part = "grist"
		if m.onlyAmount() {
			isBase := m.after.Role == RoleBase || p[0] == base
			isColor := m.after.Role == RoleColor && keepsColor
			d.follows = isBase || isColor || math.Abs(m.move) <= smallMove
		}
		out, moves = append(out, d), append(moves, m)
	}
	matchGainsWithLosses(out, moves)
	return out
}

// The likenesses by which grains of two versions are paired.
func sameProduct(x, y Grain) bool { return sameColor(x, y) && x.In == y.In }
func sameColor(x, y Grain) bool {
	return x.Malt == y.Malt && textOf(x.Color) == textOf(y.Color)
}
func sameMalt(x, y Grain) bool { return x.Malt == y.Malt }

// matchGainsWithLosses lets a loss follow from a gain of the same size: one
// grain stands in for the other.
func matchGainsWithLosses(list []Difference, moves []grainMove) {
	free := func(i int) bool {
		m := moves[i]
		return !list[i].follows && (m.before == nil || m.after == nil || m.onlyAmount())
	}
	matched := make([]bool, len(list))
	for i := range list {
		for j := range list {
			if i == j || matched[i] || matched[j] || !free(i) || !free(j) || moves[i].move <= 0 || moves[j].move >= 0 {
				continue
			}
			if math.Abs(moves[i].move+moves[j].move) <= smallMove {
				matched[i], matched[j], list[j].follows = true, true, true
			}
		}
	}
}

// baseOf returns the place of the grain that takes the difference when another
// one changes: the one of the role base, else the largest; -1 for no grist.
func baseOf(grist []Grain, total quantity.Mass) int {
	base, most := -1, 0.0
	for i, g := range grist {
		if g.Role == RoleBase {
			return i
		}
		if share := shareOf(g, total); share > most {
			base, most = i, share
		}
	}
	return base
}

func gristMass(grist []Grain) (total quantity.Mass) {
	for _, g := range grist {
		if g.Mass != nil {
			total += *g.Mass
		}
	}
	return total
}

func shareOf(g Grain, total quantity.Mass) float64 {
	switch {
	case g.Share != nil:
		return float64(*g.Share)
	case g.Mass != nil && total > 0:
		return float64(*g.Mass / total)
	}
	return 0
}

// diffHops pairs the charges of two recipes. A boil charge that grows or
// shrinks beside another change keeps the bitterness of the whole: it follows,
// and so does the hop that another one replaces at its moment.
func diffHops(a, b *Recipe) (out []Difference) {
	kept := bitternessKept(a.Aims.IBU, b.Aims.IBU)
	var corrections []int
	others := false
	for _, p := range pair(a.Hops, b.Hops, sameCharge, sameHopAndMoment, sameHop) {
		d := Difference{Part: "hops"}
		if p[0] >= 0 {
			d.What, d.Before = a.Hops[p[0]].Hop, chargeText(a.Hops[p[0]])
		}
		if p[1] >= 0 {
			d.What, d.After = b.Hops[p[1]].Hop, chargeText(b.Hops[p[1]])
		}
		if d.Before == d.After {
			continue
		}
		switch {
		case p[0] >= 0 && p[1] >= 0 && a.Hops[p[0]].At == b.Hops[p[1]].At && kept && isEarly(b.Hops[p[1]].At):
			corrections = append(corrections, len(out))
		case p[1] < 0 && replaced(a.Hops[p[0]], a.Hops, b.Hops):
			d.follows = true
		default:
			others = true
		}
		out = append(out, d)
	}
	for i, at := range corrections {
		out[at].follows = others || i > 0
	}
	return out
}

func sameCharge(x, y Charge) bool       { return x.Hop == y.Hop && chargeText(x) == chargeText(y) }
func sameHopAndMoment(x, y Charge) bool { return x.Hop == y.Hop && x.At == y.At }
func sameHop(x, y Charge) bool          { return x.Hop == y.Hop }

// replaced reports whether a hop that a had doesn't appear in b, and another
// one that is new there goes in at its moment.
func replaced(old Charge, a, b []Charge) bool {
	return slices.ContainsFunc(b, func(c Charge) bool {
		isNew := !slices.ContainsFunc(a, func(x Charge) bool { return x.Hop == c.Hop })
		return isNew && c.At == old.At
	})
}

// earlyBoil is the boil from which on hops are there for bitterness rather than
// for flavour: common practice.
const earlyBoil quantity.Duration = 20 // min

// isEarly reports whether hops at a moment are there for bitterness.
func isEarly(m Moment) bool {
	return m.Stage == AtBoil && m.Time >= earlyBoil || m.Stage == AtFirstWort || m.Stage == AtMash
}

// bitternessKept reports whether the aim stayed, as far as it is known.
func bitternessKept(a, b *quantity.IBU) bool {
	if a == nil || b == nil {
		return true
	}
	return math.Abs(float64(*b-*a)) <= smallBitterness*math.Abs(float64(*a))
}

// diffAims compares the aims. An aim that moves with the part it comes from
// follows: bitterness from hops, colour from the grist, final gravity from
// grist, mash and yeast. Original gravity and carbonation are changes of their
// own, though in a recipe of masses the gravity comes from the grist, too.
func diffAims(a, b *Recipe, before []Difference) (out []Difference) {
	moved := map[string]bool{}
	for _, d := range before {
		moved[d.Part] = true
	}
	inMasses := gristMass(b.Grist) > 0
	for _, aim := range []struct {
		what, before, after string
		follows             bool
	}{
		{"original gravity", textOf(a.Aims.OG), textOf(b.Aims.OG), inMasses && moved["grist"]},
		{"final gravity", textOf(a.Aims.FG), textOf(b.Aims.FG), moved["grist"] || moved["mash"] || moved["yeast"] || textOf(a.Aims.OG) != textOf(b.Aims.OG)},
		{"bitterness", textOf(a.Aims.IBU), textOf(b.Aims.IBU), moved["hops"]},
		{"colour", textOf(a.Aims.Color), textOf(b.Aims.Color), moved["grist"]},
		{"carbonation", textOf(a.Aims.CO2), textOf(b.Aims.CO2), false},
	} {
		if aim.before != aim.after {
			out = append(out, Difference{Part: "aims", What: aim.what, Before: aim.before, After: aim.after, follows: aim.follows})
		}
	}
	return out
}
