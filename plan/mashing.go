// SPDX-License-Identifier: MIT

package plan

import (
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
	w.plan.Mash.Volume = mash.MashVolume(w.plan.Liquor.Mash, quantity.Mass(grain))
	w.mashSteps()
	w.mashPH()
	w.spargeAcid()
}

// mashSteps lays the mash out in time: rests, heating between them, late grain.
func (w *work) mashSteps() {
	m := &w.plan.Mash
	now := quantity.Duration(0)
	for i, rest := range w.rests() {
		if i > 0 {
			now += w.heatMash(now, w.rests()[i-1].Temperature, rest.Temperature)
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
		m.Steps = append(m.Steps, MashStep{at, g.meant.Malt + " in", w.mashTemperatureAt(at), g.meant.In.Time})
	}
	slices.SortStableFunc(m.Steps, func(a, b MashStep) int { return int((a.At - b.At) * 1000) })
}

// heatMash adds the step from one rest to the next and returns its time.
func (w *work) heatMash(now quantity.Duration, from, to quantity.Temperature) quantity.Duration {
	c := w.mashHeat()
	m := &w.plan.Mash
	power := w.in.House.Mash.Power
	if to.Below(from) || power == nil {
		water := mash.InfusionMass(c, from, to, w.boilsAt)
		if to.Below(from) {
			water = mash.InfusionMass(c, from, to, quantity.Celsius(15))
			m.Steps = append(m.Steps, MashStep{now, fmt.Sprintf("add %.1f L of water of 15 °C", float64(water)), to, 0})
			return 0
		}
		m.Steps = append(m.Steps, MashStep{now, fmt.Sprintf("add %.1f L of boiling water (less sparge liquor)", float64(water)), to, 0})
		return 0
	}
	heater := mash.Heater{Power: *power, Efficiency: 1, Ambient: w.roomTemperature()}
	t := mash.HeatingTime(c, heater, from, to)
	m.Steps = append(m.Steps, MashStep{now, "heat", to, t})
	return t
}

// mashHeat is what the mash takes up per kelvin.
func (w *work) mashHeat() quantity.HeatCapacity {
	grain, _ := w.mashMass()
	return mash.HeatCapacity(mash.Grain{Mass: quantity.Mass(grain), Moisture: mash.DefaultMoisture}, waterMass(w.plan.Liquor.Mash), w.mashVessel())
}

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
	class := mash.ClassFor(g.typicalID(), g.class(), u.Color)
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

func (g *grain) typicalID() string {
	if g.known {
		return g.typical.ID
	}
	return g.meant.Malt
}

func (g *grain) lotHasPH(lot string) bool {
	return slices.ContainsFunc(g.lots, func(l stock.Malt) bool { return l.Lot == lot && l.PH != nil })
}

// balance is the balance of protons of the early mash, without acid.
func (w *work) balance(early []mash.Malt) mash.Balance {
	l := &w.plan.Liquor
	treated := w.supply
	treated.Ions = l.Ions
	return mash.Balance{
		Malts: early,
		Liquor: mash.Liquor{
			Volume:  l.Mash,
			Calcium: quantity.Concentration(l.Ions[chem.Calcium]), Magnesium: quantity.Concentration(l.Ions[chem.Magnesium]),
			AcidDemand: treated.Demand(),
		},
	}
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
	b := w.balance(early)
	untreated := mash.Liquor{
		Volume:  w.plan.Liquor.Mash,
		Calcium: quantity.Concentration(w.supply.Ions[chem.Calcium]), Magnesium: quantity.Concentration(w.supply.Ions[chem.Magnesium]),
		AcidDemand: w.supply.Demand(),
	}
	offset := quantity.PH(w.in.House.Mash.PHOffset)
	if aim := w.in.Recipe.Mash.PH; aim != nil {
		w.doseAcid(&b, *aim-offset)
	}
	rail := mash.Steps(b, untreated, late)
	rail.Distilled, rail.Water, rail.Salts = rail.Distilled+offset, rail.Water+offset, rail.Salts+offset
	rail.Acid, rail.Late = rail.Acid+offset, rail.Late+offset
	m.Rail, m.PH, m.PHSD = &rail, rail.Acid, sd
	if len(late) == 0 {
		rail.Late = rail.Acid
	}
}

// doseAcid puts acid into the balance until it is at the aim.
func (w *work) doseAcid(b *mash.Balance, aim quantity.PH) {
	id := "lactic-88"
	if doc := w.in.Recipe.Water; doc != nil && doc.Acid != "" {
		id = doc.Acid
	}
	acid, ok := acidCalled(id)
	if !ok {
		w.problem("water.acid", nearestHint(id, data.AcidNames()), "%s is no known acid", id)
		return
	}
	if acid.NeedsConfirmation {
		w.problem("water.acid", "a 10 % solution does the same work", "%s is too dangerous to plan with", acid.Name)
		return
	}
	per := acid.MilliequivalentsPerML
	ml := mash.AcidFor(*b, aim, per)
	m := &w.plan.Mash
	if ml <= 0 {
		if ml < 0 {
			w.notKept("add alkalinity (baking soda) or accept it", "mash pH %.2f: the mash is already more acid than that", float64(aim))
		}
		return
	}
	b.Acids = append(b.Acids, mash.Acid{Volume: ml, PerML: per})
	m.Acid = &AcidDose{acid.ID, acid.Name, ml}
	m.AcidSafety = acid.Safety
	m.Lactic = chem.LacticInBeer(acid, ml, 0, 0, w.collected)
	if m.Lactic > chem.LacticThreshold {
		w.caution("the acid leaves %.0f mg/L of lactic acid in the beer; above about %.0f it can be tasted", float64(m.Lactic), float64(chem.LacticThreshold))
	}
}

// acidCalled finds an acid by its id or by what brewers call it.
func acidCalled(name string) (chem.Acid, bool) {
	typical, _ := data.Acid(name)
	return chem.AcidByID(typical.ID)
}

// spargePH is what sparge liquor is acidified to where that is needed. Common
// practice: 5.5 to 5.8.
const spargePH quantity.PH = 5.8

// spargeAlkalinity is the residual alkalinity from which sparge liquor draws
// the pH of the last runnings up. Estimate: 1 mEq/L.
const spargeAlkalinity quantity.Charge = 1

// spargeAcid doses the sparge liquor where its alkalinity calls for it.
func (w *work) spargeAcid() {
	l := &w.plan.Liquor
	if !w.hasWater || l.Sparge <= 0 || chem.ResidualAlkalinity(l.Ions) < spargeAlkalinity {
		return
	}
	id := "lactic-88"
	if doc := w.in.Recipe.Water; doc != nil && doc.Acid != "" {
		id = doc.Acid
	}
	acid, ok := acidCalled(id)
	if !ok {
		return // already complained of
	}
	treated := w.supply
	treated.Ions = l.Ions
	dose, err := chem.Acidify(treated, l.Sparge, acid, spargePH)
	if err != nil {
		return
	}
	l.SpargeAcid = &AcidDose{acid.ID, acid.Name, dose.Millilitres}
}
