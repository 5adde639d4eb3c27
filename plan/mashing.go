// SPDX-License-Identifier: MIT

package plan

import (
	"cmp"
	"fmt"
	"slices"

	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/mash"
	chem "gyle/science/water"
	"gyle/stock"
)

// defaultRest is the mash of a recipe that says nothing. Common practice: the
// single infusion of most ales.
var defaultRest = recipe.Rest{Temperature: quantity.Celsius(66), Time: 60}

// rests are those of the recipe, the default where it has none.
func (w *work) rests() []recipe.Rest {
	if r := w.in.Recipe.Mash.Rests; len(r) > 0 {
		return r
	}
	return []recipe.Rest{defaultRest}
}

func (w *work) firstRest() recipe.Rest { return w.rests()[0] }

// mashing works out the steps and the pH of the mash.
func (w *work) mashing() {
	w.treat()
	grain, _ := w.mashMass()
	l := &w.plan.Liquor
	if grain > 0 {
		w.plan.Mash.Volume = mash.MashVolume(l.Mash+l.Infused, quantity.Mass(grain))
		w.mashSteps()
	}
	w.mashPH()
	w.spargeAcid()
	w.lacticInBeer()
}

// checkRests refuses rests that no mash can have.
func (w *work) checkRests() {
	for i, rest := range w.in.Recipe.Mash.Rests {
		if !rest.Temperature.Below(w.boilsAt) {
			w.problem(fmt.Sprintf("mash.rests[%d]", i), "", "a rest of %s: water boils at %s here", w.degrees(rest.Temperature, 0), w.degrees(w.boilsAt, 1))
		}
		if !coldWater.Below(rest.Temperature) {
			w.problem(fmt.Sprintf("mash.rests[%d]", i), "", "a rest of %s is no warmer than cold water", w.degrees(rest.Temperature, 0))
		}
	}
}

// coldWater is what cools a mash from one rest to a lower one. Common practice.
var coldWater = quantity.Celsius(15)

// infusion is the water that takes a mash from one rest to the next.
type infusion struct {
	mass quantity.Mass
	at   quantity.Temperature
}

// infusionFor returns the water that takes a mash of heat capacity c from one
// temperature to another, none where the house heats the mash.
func (w *work) infusionFor(c quantity.HeatCapacity, from, to quantity.Temperature) infusion {
	switch {
	case to.Below(from):
		return infusion{mash.InfusionMass(c, from, to, coldWater), coldWater}
	case from.Below(to) && w.in.House.Mash.Power == nil:
		return infusion{mash.InfusionMass(c, from, to, w.boilsAt), w.boilsAt}
	}
	return infusion{}
}

// with returns the heat capacity of a mash that took the infusion in.
func (i infusion) with(c quantity.HeatCapacity) quantity.HeatCapacity {
	return c + quantity.HeatCapacity(float64(i.mass)*mash.WaterHeat)
}

// volume is what the infusion measures cold.
func (i infusion) volume() quantity.Volume { return coldVolume(i.mass) }

// infused returns the water that all the rests of a mash take, measured cold.
func (w *work) infused(grain float64, doughedIn quantity.Volume) quantity.Volume {
	rests := w.rests()
	c, sum := w.mashHeat(grain, doughedIn), quantity.Volume(0)
	for i := 1; i < len(rests); i++ {
		in := w.infusionFor(c, rests[i-1].Temperature, rests[i].Temperature)
		c, sum = in.with(c), sum+in.volume()
	}
	return sum
}

// mashSteps lays the mash out in time: rests, heating between them, late grain.
func (w *work) mashSteps() {
	m := &w.plan.Mash
	grain, _ := w.mashMass()
	c := w.mashHeat(grain, w.plan.Liquor.Mash)
	now, rests := quantity.Duration(0), w.rests()
	for i, rest := range rests {
		if i > 0 {
			c, now = w.nextRest(c, now, rests[i-1].Temperature, rest.Temperature)
		}
		m.Steps = append(m.Steps, MashStep{now, "rest", rest.Temperature, rest.Time})
		now += rest.Time
	}
	for i := range w.grains {
		g := &w.grains[i]
		if g.meant.In.Way != recipe.LateMash {
			continue
		}
		at := max(now-g.meant.In.Time, 0)
		m.Steps = append(m.Steps, MashStep{at, g.meant.Malt + " in", w.mashTemperatureAt(at), now - at})
	}
	slices.SortStableFunc(m.Steps, func(a, b MashStep) int { return cmp.Compare(a.At, b.At) })
}

// nextRest adds the step from one rest to the next. It returns the heat
// capacity of the mash after it, and the time.
func (w *work) nextRest(c quantity.HeatCapacity, now quantity.Duration, from, to quantity.Temperature) (quantity.HeatCapacity, quantity.Duration) {
	m := &w.plan.Mash
	if in := w.infusionFor(c, from, to); in.mass > 0 {
		kind := "boiling water"
		if in.at == coldWater {
			kind = "water of " + w.degrees(coldWater, 0)
		}
		m.Steps = append(m.Steps, MashStep{now, fmt.Sprintf("add %s of %s, measured cold", w.litres(in.volume()), kind), to, 0})
		return in.with(c), now
	}
	if !from.Below(to) {
		return c, now
	}
	heater := mash.Heater{Power: *w.in.House.Mash.Power, Efficiency: 1, Ambient: w.roomTemperature()}
	t := mash.HeatingTime(c, heater, from, to)
	m.Steps = append(m.Steps, MashStep{now, "heat", to, t})
	return c, now + t
}

// mashHeat is what a mash takes up per kelvin.
func (w *work) mashHeat(grain float64, liquor quantity.Volume) quantity.HeatCapacity {
	return mash.HeatCapacity(mash.Grain{Mass: quantity.Mass(grain), Moisture: mash.DefaultMoisture}, waterMass(liquor), w.mashVessel())
}

// mashTemperatureAt is that of the rest that goes on at a time.
func (w *work) mashTemperatureAt(at quantity.Duration) quantity.Temperature {
	t := w.firstRest().Temperature
	for _, s := range w.plan.Mash.Steps {
		if s.What == "rest" && s.At <= at {
			t = s.Temperature
		}
	}
	return t
}

// protons lists the grains of the mash for the balance of protons, apart from
// those that come late, with the spread between lots in pH.
func (w *work) protons() (early, late []mash.Malt, sd float64) {
	measured := true
	for i := range w.grains {
		g := &w.grains[i]
		if !g.inMash() {
			continue
		}
		for _, u := range g.uses {
			m, ok := g.protonsOf(u)
			if !ok {
				w.typicalOf("%s: no typical mash acidity is known, it is left out of the pH", g.meant.Malt)
				continue
			}
			if g.class() == "base" && !g.lotHasPH(u.Lot) {
				measured = false
			}
			if g.meant.In.Way == recipe.LateMash {
				late = append(late, m)
			} else {
				early = append(early, m)
			}
		}
	}
	if measured {
		return early, late, measuredPHSpread
	}
	return early, late, typicalPHSpread
}

// Expected error of a predicted mash pH, one standard deviation: with a pH of
// the base malt measured in distilled water, and without. Estimates.
const (
	measuredPHSpread = 0.05
	typicalPHSpread  = 0.10
)

// protonsOf describes what a lot releases into the mash.
func (g *grain) protonsOf(u LotUse) (mash.Malt, bool) {
	class := g.mashClass(u.Color)
	m, _, ok := mash.TypicalClass(class, u.Color)
	if !ok {
		return m, false
	}
	m.Name, m.Mass = g.meant.Malt, u.Mass
	for _, l := range g.lots {
		if l.Lot != u.Lot {
			continue
		}
		if l.PH != nil {
			m.Base, m.PHDI = true, *l.PH
		}
		if l.Buffer != nil {
			m.Buffer = *l.Buffer
		}
	}
	return m, true
}

// typicalID is the name by which the data know the grain.
func (g *grain) typicalID() string {
	if g.known {
		return g.typical.ID
	}
	return g.meant.Malt
}

func (g *grain) lotHasPH(lot string) bool {
	return slices.ContainsFunc(g.lots, func(l stock.Malt) bool { return l.Lot == lot && l.PH != nil })
}

// mashPH predicts the pH and doses the acid that brings it to the aim.
func (w *work) mashPH() {
	if !w.hasWater {
		return
	}
	early, late, sd := w.protons()
	if len(early) == 0 {
		return
	}
	m := &w.plan.Mash
	goods := Goods{Early: early, Late: late, SD: sd, Offset: quantity.PH(w.in.House.Mash.PHOffset)}
	w.plan.goods = &goods
	treated := w.supply
	treated.Ions = w.plan.Liquor.Ions
	aim := w.in.Recipe.Mash.PH
	acid, ok := w.recipeAcid()
	if !ok {
		aim = nil // complained of by checkAcid
	}
	soured := goods.Sour(w.plan.Liquor.Mash, w.supply, treated, acid, aim)
	if soured.ML < 0 {
		w.notKept("add alkalinity (baking soda) or accept it", "mash pH %s: the mash is already more acid than that", w.in.Reader.PH(*aim))
	}
	if soured.ML > 0 {
		m.Acid = w.acidDose(acid, soured.ML)
	}
	w.mashBalance = &soured.balance
	m.Rail, m.PH, m.PHSD = &soured.Rail, soured.Rail.Acid, sd
}

// recipeAcid is the acid the recipe names, lactic acid where it names none.
func (w *work) recipeAcid() (chem.Acid, bool) {
	id := "lactic-88"
	if doc := w.in.Recipe.Water; doc != nil && doc.Acid != "" {
		id = doc.Acid
	}
	acid, ok := AcidCalled(id)
	return acid, ok && !acid.NeedsConfirmation
}

// checkAcid complains of an acid that can't be planned with.
func (w *work) checkAcid() {
	doc := w.in.Recipe.Water
	if doc == nil || doc.Acid == "" {
		return
	}
	switch acid, ok := AcidCalled(doc.Acid); {
	case !ok:
		w.problem("water.acid", nearestHint(doc.Acid, data.AcidNames()), "%s is no known acid", doc.Acid)
	case acid.NeedsConfirmation:
		w.problem("water.acid", "a 10 % solution does the same work", "%s is too dangerous to plan with", acid.Name)
	}
}

// acidDose writes a dose of acid down, with the caution that belongs to it.
func (w *work) acidDose(acid chem.Acid, ml float64) *AcidDose {
	w.plan.Mash.AcidSafety = acid.Safety
	return &AcidDose{acid.ID, acid.Name, ml}
}

// lacticInBeer adds up the lactic acid that acid in mash and sparge and
// acidulated malt leave in the beer.
func (w *work) lacticInBeer() {
	m := &w.plan.Mash
	acidMalt := quantity.Mass(0)
	for i := range w.grains {
		g := &w.grains[i]
		if g.inMash() && g.mashClass(quantity.EBC(g.ebc)) == mash.Acidulated {
			acidMalt += quantity.Mass(w.gristMass * g.share)
		}
	}
	if share := acidMalt / quantity.Mass(w.gristMass); quantity.Fraction(share) > chem.AcidMaltMaxShare {
		w.caution("acidulated malt is %s %% of the grist; beyond about %.0f %% it tastes sour", w.number(100*float64(share), 1), chem.AcidMaltMaxShare.Percent())
	}
	acid, _ := w.recipeAcid()
	ml := 0.0
	for _, dose := range []*AcidDose{m.Acid, w.plan.Liquor.SpargeAcid} {
		if dose != nil {
			ml += dose.ML
		}
	}
	m.Lactic = chem.LacticInBeer(acid, ml, acidMalt, chem.AcidMaltLactic, w.collected)
	if m.Lactic > chem.LacticThreshold {
		w.caution("acid and acidulated malt leave up to %.0f mg/L of lactic acid in the beer; above about %.0f it can be tasted", float64(m.Lactic), float64(chem.LacticThreshold))
	}
}

// spargeAcid doses the sparge liquor where its alkalinity calls for it.
func (w *work) spargeAcid() {
	l := &w.plan.Liquor
	if !w.hasWater || l.SpargeAt.IsZero() {
		return
	}
	acid, ok := w.recipeAcid()
	if !ok {
		return // complained of by checkAcid
	}
	treated := w.supply
	treated.Ions = l.Ions
	ml, err := SourSparge(treated, l.Sparge, acid)
	if err != nil {
		w.caution("the sparge liquor can't be brought to pH %s with %s: %v", w.number(float64(SpargePH), 1), acid.Name, err)
		return
	}
	if ml > 0 {
		l.SpargeAcid = w.acidDose(acid, ml)
	}
}
