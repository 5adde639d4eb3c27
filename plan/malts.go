// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"math"
	"slices"

	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/science/mash"
	"gyle/stock"
)

// grain is one grain of the recipe with everything known of it.
type grain struct {
	meant   recipe.Grain
	typical data.MaltType
	known   bool // typical is filled
	lots    []stock.Malt
	share   float64 // of the mass of the grist, as it is solved
	uses    []LotUse
	extract float64 // of the uses, mass fraction as weighed
	ebc     float64

	kind   string // class in the chapter on mashing, of a malt of the colour kindOf
	kindOf quantity.EBC
}

// name returns what the grain is called in print.
func (g *grain) name() string {
	if g.known {
		return g.typical.Name
	}
	return g.meant.Malt
}

// class returns the class of the grain, or "" where it isn't known.
func (g *grain) class() string { return g.typical.Class }

// mashClass is the class that the chapter on mashing has for the grain at a
// colour. It is asked for often, so the last answer is kept.
func (g *grain) mashClass(c quantity.EBC) string {
	if g.kind == "" || g.kindOf != c {
		g.kind, g.kindOf = mash.ClassFor(g.typicalID(), g.class(), c), c
	}
	return g.kind
}

// colorYield is the share of a grain's colour that reaches the wort.
func (g *grain) colorYield() float64 {
	return float64(mash.ColorYield(g.darkEntry()))
}

// darkEntry is the entry of the grain as the chapter on mashing has it.
func (g *grain) darkEntry() mash.Entry {
	switch g.meant.In.Way {
	case recipe.LateMash:
		return mash.Late
	case recipe.ColdSteep:
		return mash.ColdSteep
	}
	return mash.FromStart
}

// extractYield is the share of a grain's extract that reaches the kettle,
// beyond the yield of the house.
func (g *grain) extractYield(house float64) float64 {
	switch g.meant.In.Way {
	case recipe.ColdSteep:
		return house * float64(mash.ExtractYield(mash.ColdSteep))
	case recipe.InKettle:
		return 1 // it dissolves whole
	}
	return house
}

// inMash reports whether the grain goes through the mash.
func (g *grain) inMash() bool {
	return g.meant.In.Way == recipe.WithMash || g.meant.In.Way == recipe.LateMash
}

// resolveGrist finds the lots and the typical values of every grain.
func (w *work) resolveGrist() {
	total := 0.0
	for _, m := range w.in.Recipe.Grist {
		if m.Mass != nil {
			total += float64(*m.Mass)
		}
	}
	for i, m := range w.in.Recipe.Grist {
		g := grain{meant: m}
		g.typical, g.known = data.Malt(m.Malt)
		if w.in.Stock != nil {
			g.lots = maltLots(w.in.Stock, m.Malt)
		}
		if !g.known && len(g.lots) == 0 {
			w.problem(fmt.Sprintf("grist[%d].malt", i), nearestHint(m.Malt, data.MaltNames()),
				"%s is neither in stock nor among the typical malts", m.Malt)
		}
		switch {
		case m.Share != nil:
			g.share = float64(*m.Share)
		case total > 0:
			g.share = float64(*m.Mass) / total
		}
		if len(g.lots) == 0 && g.known {
			what := "extract, colour and mash acidity"
			if m.Color != nil {
				what = "extract and mash acidity"
			}
			w.typicalOf("%s: %s as typical (%s)", m.Malt, what, g.typical.Basis)
		}
		w.grains = append(w.grains, g)
	}
	w.normaliseShares()
}

// normaliseShares takes out what rounding did to the shares.
func (w *work) normaliseShares() {
	sum := 0.0
	for i := range w.grains {
		sum += w.grains[i].share
	}
	if sum <= 0 {
		w.problem("grist", "", "the grist weighs nothing")
		return
	}
	for i := range w.grains {
		w.grains[i].share /= sum
	}
	w.meantShares = w.meantShares[:0]
	for i := range w.grains {
		w.meantShares = append(w.meantShares, w.grains[i].share)
	}
}

// maltLots returns the lots of a malt, oldest first; lots without a day keep
// their order in the document, after those with one. Lots that carry another
// name of the same malt serve where none has the name that is asked for.
func maltLots(s *stock.Stock, malt string) []stock.Malt {
	var lots, others []stock.Malt
	typical, known := data.Malt(malt)
	for _, l := range s.Malts {
		if l.Malt == malt {
			lots = append(lots, l)
		} else if t, ok := data.Malt(l.Malt); ok && known && t.ID == typical.ID {
			others = append(others, l)
		}
	}
	if len(lots) == 0 {
		lots = others
	}
	slices.SortStableFunc(lots, func(a, b stock.Malt) int { return olderFirst(a.Bought, b.Bought) })
	return lots
}

// olderFirst orders days, those not known last.
func olderFirst(a, b stock.Date) int {
	switch {
	case a.IsZero() && b.IsZero():
		return 0
	case a.IsZero():
		return 1
	case b.IsZero():
		return -1
	}
	return a.Compare(b.Time)
}

// ledger holds what earlier lines of a recipe took from each lot, so that two
// lines of one malt don't both count on the same sack.
type ledger map[string]float64

// left returns how much of wanted a lot of the given mass still holds. A lot
// without a mass holds everything.
func (l ledger) left(lot string, mass *quantity.Mass, wanted float64) float64 {
	if mass == nil {
		return wanted
	}
	return min(max(float64(*mass)-l[lot], 0), wanted)
}

// draw takes a mass from the lots of g, oldest first, and sets the mean
// extract and colour of what was taken. A mass of 0 asks for the first lot.
func (g *grain) draw(mass float64, taken ledger) {
	g.uses = g.uses[:0]
	left := mass
	for i := range g.lots {
		l := &g.lots[i]
		take := taken.left(l.Lot, l.Mass, left)
		if take > 0 || (mass == 0 && i == 0) {
			g.uses = append(g.uses, g.lotUse(l, take))
			taken[l.Lot] += take
			left -= take
		}
		if left <= nothing {
			break
		}
	}
	if left > nothing || len(g.uses) == 0 {
		g.drawRest(left)
	}
	g.average(mass)
}

// nothing is a mass in kg that no scale shows.
const nothing = 1e-9

// drawRest takes what the lots don't hold: of the last lot, marked short, or
// typical malt where there is no lot.
func (g *grain) drawRest(left float64) {
	if n := len(g.lots); n > 0 {
		use := g.lotUse(&g.lots[n-1], left)
		use.Short = true
		g.uses = append(g.uses, use)
		return
	}
	g.uses = append(g.uses, LotUse{
		Mass:    quantity.Mass(left),
		Extract: quantity.Percent(g.typical.ExtractAsIs()),
		Color:   g.meantColor(),
	})
}

// lotUse describes a mass of a lot; what its analysis leaves out is typical.
func (g *grain) lotUse(l *stock.Malt, mass float64) LotUse {
	dry, moisture := quantity.Percent(g.typical.ExtractDryBasis.Mid()), quantity.Percent(g.typical.Moisture.Mid())
	if l.Extract != nil {
		dry = *l.Extract
	}
	if l.Moisture != nil {
		moisture = *l.Moisture
	}
	ebc := g.meantColor()
	if l.Color != nil {
		ebc = l.Color.EBC()
	}
	return LotUse{Lot: l.Lot, Mass: quantity.Mass(mass), Extract: mash.AsIs(dry, moisture), Color: ebc}
}

// meantColor is the colour of the product the recipe means.
func (g *grain) meantColor() quantity.EBC {
	if g.meant.Color != nil {
		return g.meant.Color.EBC()
	}
	return quantity.EBC(g.typical.ColourEBC.Mid())
}

// average sets the mean extract and colour of what was drawn.
func (g *grain) average(mass float64) {
	if mass <= 0 {
		g.extract, g.ebc = float64(g.uses[0].Extract), float64(g.uses[0].Color)
		return
	}
	extract, ebc := 0.0, 0.0
	for _, u := range g.uses {
		extract += float64(u.Mass) * float64(u.Extract)
		ebc += float64(u.Mass) * float64(u.Color)
	}
	g.extract, g.ebc = extract/mass, ebc/mass
}

// solveGrist finds the mass of the grist and, where a grain holds the colour,
// its share. Lots, shares and mass depend on one another, so it goes round
// until nothing moves. Where the yield falls with the mass the rounds creep;
// every third one jumps to where the last two steps are heading.
func (w *work) solveGrist() {
	w.drawAll(w.kettleExtract / 0.6) // any start will do
	settled, last := false, 0.0
	for round := range gristRounds {
		before := w.gristMass
		w.houseYield = w.yieldOfHouse()
		w.gristMass = w.kettleExtract / w.extractPerMass()
		step := w.gristMass - before
		if q := step / last; round%3 == 2 && q > 0 && q < 1 {
			w.gristMass += step * q / (1 - q)
		}
		last = step
		w.drawAll(w.gristMass)
		moved := w.holdColor()
		if settled = math.Abs(step) < 1e-9*w.gristMass && math.Abs(moved) < 1e-9; settled {
			break
		}
	}
	w.gristMass = w.kettleExtract / w.extractPerMass()
	w.drawAll(w.gristMass)
	if !settled || !(w.gristMass > 0) || math.IsInf(w.gristMass, 0) {
		w.problem("aims.og", "aim lower, sparge, or add extract or sugar to the kettle", "no grist gives %.3f here: each kilo more holds back more than it brings", float64(w.og))
	}
}

// gristRounds is enough for any grist that settles: each round brings the mass
// several times closer.
const gristRounds = 60

// drawAll takes every grain from its lots for a grist of the given mass.
func (w *work) drawAll(mass float64) {
	w.gristMass = mass
	clear(w.taken)
	for i := range w.grains {
		w.grains[i].draw(mass*w.grains[i].share, w.taken)
	}
}

// extractPerMass is the extract in the kettle per mass of grist.
func (w *work) extractPerMass() float64 {
	sum := 0.0
	for i := range w.grains {
		g := &w.grains[i]
		sum += g.share * g.extract * g.extractYield(w.houseYield)
	}
	return sum
}

// mcu returns the malt colour units of the grist for which pick is true.
func (w *work) mcu(pick func(*grain) bool) float64 {
	sum := 0.0
	for i := range w.grains {
		if g := &w.grains[i]; pick(g) {
			sum += w.gristMass * g.share * color.LovibondFromEBC(quantity.EBC(g.ebc)) * g.colorYield()
		}
	}
	return color.MCU(sum, w.knockOut)
}

func anyGrain(*grain) bool { return true }

// colorGrain reports whether the grain is there for the colour.
func colorGrain(g *grain) bool { return g.meant.Role == recipe.RoleColor }

// holdColor changes the share of the grains with role color so that the beer
// has the colour aimed at; the base malt takes the difference. It returns the
// share that moved.
func (w *work) holdColor() float64 {
	aim := w.in.Recipe.Aims.Color
	base := w.baseGrain()
	if aim == nil || base < 0 {
		return 0
	}
	have := w.mcu(colorGrain)
	if have <= 0 {
		return 0
	}
	rest := w.mcu(func(g *grain) bool { return !colorGrain(g) })
	need := color.MCUForSRM(aim.EBC().SRM()) - rest
	factor := max(need, 0) / have
	moved := 0.0
	for i := range w.grains {
		if g := &w.grains[i]; colorGrain(g) {
			moved += g.share * (factor - 1)
		}
	}
	if moved > w.grains[base].share {
		factor = 1 + w.grains[base].share/moved*(factor-1)
		moved = w.grains[base].share
	}
	for i := range w.grains {
		if g := &w.grains[i]; colorGrain(g) {
			g.share *= factor
		}
	}
	w.grains[base].share -= moved
	return moved
}

// baseGrain returns the grain that takes the difference: the largest with role
// base, else the largest base malt, else the largest without a role. It is -1
// where there is none but colour malts.
func (w *work) baseGrain() int {
	best, bestRank := -1, -1.0
	for i := range w.grains {
		g := &w.grains[i]
		if colorGrain(g) {
			continue
		}
		rank := w.meantShares[i]
		switch {
		case g.meant.Role == recipe.RoleBase:
			rank += 20
		case g.class() == "base":
			rank += 10
		case g.meant.Role == recipe.RoleNone:
			rank += 1
		}
		if rank > bestRank {
			best, bestRank = i, rank
		}
	}
	return best
}

// gristLines writes the solved grist down.
func (w *work) gristLines() Grist {
	out := Grist{Mass: quantity.Mass(w.gristMass), Yield: quantity.Fraction(w.houseYield)}
	perMass, allColor := w.extractPerMass(), w.mcu(anyGrain)
	for i := range w.grains {
		g := &w.grains[i]
		line := GrainLine{
			Malt: g.meant.Malt, Name: g.name(), Class: g.class(), Role: g.meant.Role, In: g.meant.In, Why: g.meant.Why,
			Share: quantity.Fraction(g.share), Meant: quantity.Fraction(w.meantShares[i]),
			Mass: quantity.Mass(w.gristMass * g.share), Color: quantity.EBC(g.ebc),
			Lots: slices.Clone(g.uses),
		}
		line.ExtractShare = quantity.Fraction(g.share * g.extract * g.extractYield(w.houseYield) / perMass)
		if allColor > 0 {
			self := g
			line.ColorShare = quantity.Fraction(w.mcu(func(other *grain) bool { return other == self }) / allColor)
		}
		out.Lines = append(out.Lines, line)
		for _, u := range g.uses {
			if u.Short {
				w.caution("%s: the shed is short of %s; the plan takes it as more of lot %s", g.meant.Malt, w.kilograms(u.Mass), u.Lot)
			}
		}
	}
	return out
}
