// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"math"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/boil"
	"gyle/science/gravity"
	"gyle/science/hops"
	"gyle/science/mash"
)

// justBelowBoil is the temperature at which a full kettle is read.
// Common practice: the last reading before it foams.
var justBelowBoil = quantity.Celsius(98)

// hopsInLoss is the dose of kettle hops that the kettle loss of a house
// already holds: that of an ordinary beer, 80 g in 20 L. What goes beyond holds
// back wort of its own. Estimate.
const hopsInLoss quantity.Dose = 4

// knockOutVolume returns the wort at the end of the boil for the collected
// wort asked for. Hops beyond an ordinary dose hold back wort of their own.
func (w *work) knockOutVolume() quantity.Volume {
	plain := w.collected + w.in.House.Kettle.Loss
	v := plain
	for range 3 { // the mass of the hops depends on the volume
		extra := w.kettleHops(v) - float64(hopsInLoss)*float64(v)/1000
		v = plain
		if extra > 0 {
			v += hops.LostInHops(quantity.Mass(extra), hops.KettlePellets.Typical)
		}
	}
	return v
}

// kettleHops is the mass of the hops in the kettle, in kg: as solved or, before
// the kinetics have been asked, with bitterness taken at a quarter of the alpha
// acids.
func (w *work) kettleHops(v quantity.Volume) float64 {
	const usualUtilisation = 0.25 // common practice, for a long boil
	sum := 0.0
	for i := range w.charges {
		switch c := &w.charges[i]; {
		case c.meant.At.Stage == recipe.AtDry:
		case c.meant.Mass != nil:
			sum += float64(*c.meant.Mass)
		case w.hopsSolved:
			sum += c.mass
		case c.meant.Dose != nil:
			sum += float64(*c.meant.Dose) * float64(v) / 1000
		case c.meant.Bitterness != nil && c.alpha > 0:
			sum += float64(*c.meant.Bitterness) * float64(v) / 1e6 / (usualUtilisation * c.alpha)
		}
	}
	return sum
}

// settle works out kettle, grist, liquor and hops. The hops hold back wort,
// which takes more of everything, so it goes round until nothing moves; a beer
// of ordinary hopping needs one round.
func (w *work) settle(way brewhouse.Cooling) (path, bitterness) {
	for range settleRounds {
		w.boilAndEvaporate()
		w.solveGrist()
		if len(w.problems) > 0 {
			break
		}
		w.fillKettle()
		w.liquor()
		w.heatUp()
		p, b := w.pathOf(way), w.bitternessOf()
		w.yields(&p)
		w.solveHops(b)
		w.hopsSolved = true
		if next := w.knockOutVolume(); math.Abs(float64(next-w.knockOut)) < 1e-7*float64(next) || len(w.problems) > 0 {
			return p, b
		}
	}
	if len(w.problems) == 0 {
		w.problem("hops", "hop less in the kettle, and more in the stand or the fermenter", "the hops hold back all the wort")
	}
	return path{}, bitterness{}
}

// settleRounds is enough for any hopping that settles: each round is an order
// of magnitude closer.
const settleRounds = 20

// usualBoil is the boil where neither recipe nor house says how long. Common
// practice.
const usualBoil quantity.Duration = 60

// longestBoil is the boil that recipe, house and hops ask for.
func (w *work) longestBoil() quantity.Duration {
	longest := w.in.House.Kettle.Boil
	if b := w.in.Recipe.Boil; b != nil {
		longest = max(longest, *b)
	} else if longest == 0 {
		longest = usualBoil
		w.typicalOf("boil: %.0f min, neither recipe nor house says how long", usualBoil.Minutes())
	}
	for i := range w.charges {
		if at := w.charges[i].meant.At; at.Stage == recipe.AtBoil {
			longest = max(longest, at.Time)
		}
	}
	return longest
}

// checkKettle refuses a kettle that never boils.
func (w *work) checkKettle() {
	k := w.in.House.Kettle
	if heat := float64(k.Power) * float64(k.Efficiency); !(heat > float64(k.HeatLoss)) || math.IsInf(heat, 0) {
		w.problem("kettle.heat loss", "the kettle would never boil", "%.2f kW reach the wort and %.2f kW are lost", heat, float64(k.HeatLoss))
	}
}

// boilAndEvaporate works back from the fermenter to the boil.
func (w *work) boilAndEvaporate() {
	k := w.in.House.Kettle
	w.knockOut = w.knockOutVolume()
	w.kettleExtract = float64(gravity.ExtractMass(w.knockOut, w.og))
	w.boilTime = w.longestBoil()
	w.boilsAt = boil.BoilingTemperature(w.in.House.Altitude, gravity.PlatoFromSG(w.og))
	if k.BoilsAt != nil {
		w.boilsAt = *k.BoilsAt
	}
	flow := boil.Evaporation(k.Power, k.Efficiency, k.HeatLoss, w.boilsAt)
	w.evaporated = boil.Evaporated(flow, w.boilTime)
	w.plan.Boil = Boiling{Time: w.boilTime, Temperature: w.boilsAt, Evaporation: w.evaporated, PerHour: boil.Evaporated(flow, 60)}
}

// fillKettle works out the wort before the boil. Sugar and extract that go in
// during the boil are not in it yet.
func (w *work) fillKettle() {
	sugar, sugarExtract := 0.0, 0.0
	for i := range w.grains {
		if g := &w.grains[i]; g.meant.In.Way == recipe.InKettle {
			sugar += w.gristMass * g.share
			sugarExtract += w.gristMass * g.share * g.extract
		}
	}
	w.fullMass = gravity.WortMass(w.knockOut, w.og) + w.evaporated - quantity.Mass(sugar)
	extract := w.kettleExtract - sugarExtract
	w.fullSG = gravity.SGFromPlato(quantity.Plato(100 * extract / float64(w.fullMass)))
	full := gravity.WortVolume(w.fullMass, w.fullSG)
	p := w.plan
	p.Volumes = Volumes{
		FullKettle:    full,
		FullKettleHot: quantity.VolumeAt{Volume: gravity.VolumeHot(full, justBelowBoil), At: justBelowBoil},
		KnockOut:      w.knockOut,
		KnockOutHot:   quantity.VolumeAt{Volume: gravity.VolumeHot(w.knockOut, justBelowBoil), At: justBelowBoil},
		Collected:     w.collected,
	}
	p.Gravity.FullKettle, p.Gravity.OG = w.fullSG, w.og
	p.Gravity.Extract = quantity.Mass(w.kettleExtract)
	p.Boil.Share = quantity.Fraction(w.evaporated / w.fullMass)
}

// heatUp works out how long the full kettle takes to the boil.
func (w *work) heatUp() {
	k := w.in.House.Kettle
	w.plan.Boil.HeatUp = boil.HeatUpTime(w.fullMass, gravity.PlatoFromSG(w.fullSG), w.fullTemperature(), w.boilsAt, k.Power, k.Efficiency, k.HeatLoss)
}

// fullTemperature is that of the full kettle: run-off from the mash at the
// temperature of its last rest, and the sparge liquor. Without a mash it is
// filled cold.
func (w *work) fullTemperature() quantity.Temperature {
	if grain, _ := w.mashMass(); grain <= 0 {
		return coldWater
	}
	rests := w.rests()
	mashed, l := rests[len(rests)-1].Temperature, w.plan.Liquor
	if !mashed.Below(w.boilsAt) || l.Sparge <= 0 || w.plan.Volumes.FullKettle <= 0 {
		return mashed
	}
	share := min(float64(l.Sparge/w.plan.Volumes.FullKettle), 1)
	return mashed.Add(quantity.Warming(share * float64(l.SpargeAt.Sub(mashed))))
}

// yieldOfHouse returns the share of the laboratory extract that reaches the
// kettle: as measured, or from conversion and the physics of the run-off.
func (w *work) yieldOfHouse() float64 {
	m := w.in.House.Mash
	if m.Yield != nil {
		return float64(m.Yield.Value)
	}
	return float64(*m.Conversion) * w.lauterEfficiency()
}

// lauterEfficiency works out how much of the dissolved extract the run-off and
// the sparge bring into the kettle.
func (w *work) lauterEfficiency() float64 {
	m := w.in.House.Mash
	grain, extract := w.mashMass()
	if grain <= 0 {
		return 1
	}
	w.fillKettle()
	l := w.shareLiquor()
	first := l.Mash + l.Infused
	meanExtract := quantity.Fraction(extract / grain)
	held := mash.HeldBack(mash.Retention(m.Absorption, mash.DefaultMoisture, meanExtract, *m.Conversion), quantity.Mass(grain), m.Dead)
	liquid := mash.MashLiquid(first, quantity.Mass(grain), mash.DefaultMoisture, meanExtract, *m.Conversion)
	sparge := l.Sparge
	if sparge <= 0 {
		return float64(mash.NoSparge(liquid, held))
	}
	switch m.Sparge {
	case "batch":
		return float64(mash.BatchSparge(liquid, held, sparge))
	case "twice":
		return float64(mash.BatchSparge(liquid, held, sparge/2, sparge/2))
	}
	return float64(mash.FlySparge(liquid, held, sparge, flyLayers))
}

// flyLayers is the number of mixed layers a grain bed is taken for: the
// default of [mash.FlySparge], an estimate; channelling lowers it.
const flyLayers = 2

// mashMass returns the grain in the mash and its laboratory extract, in kg.
func (w *work) mashMass() (grain, extract float64) {
	for i := range w.grains {
		if g := &w.grains[i]; g.inMash() {
			grain += w.gristMass * g.share
			extract += w.gristMass * g.share * g.extract
		}
	}
	return grain, extract
}

// TooLarge says that a vessel can't hold the brew, and what it can.
type TooLarge struct {
	Vessel  string
	Needs   quantity.Volume
	Holds   quantity.Volume
	Largest quantity.Volume // collected wort of the largest brew that fits; 0 if none does

	reader quantity.Printer
}

func (e *TooLarge) Error() string {
	s := fmt.Sprintf("the %s holds %s, the brew needs %s", e.Vessel, litresFor(e.reader, e.Holds), litresFor(e.reader, e.Needs))
	if e.Largest > 0 {
		return s + fmt.Sprintf("\n   the largest brew of this recipe here is %s of collected wort", litresFor(e.reader, e.Largest))
	}
	return s + "\n   no size of this recipe fits"
}

// holds checks the vessels.
func (w *work) holds(way brewhouse.Cooling) error {
	over := w.overflow()
	if over == nil {
		return nil
	}
	over.Largest = w.largest(way)
	return over
}

// overflow returns the vessel that is fullest beyond its size, or nil.
func (w *work) overflow() *TooLarge {
	h := w.in.House
	grain, _ := w.mashMass()
	mashVolume := mash.MashVolume(w.plan.Liquor.Mash+w.plan.Liquor.Infused, quantity.Mass(grain))
	var worst *TooLarge
	for _, v := range []struct {
		name  string
		needs quantity.Volume
		holds *quantity.Volume
	}{
		{"mash vessel", mashVolume, h.Mash.Vessel},
		{"kettle", w.plan.Volumes.FullKettleHot.Volume, h.Kettle.Vessel},
		{"fermenter", w.collected, h.Fermenter.Vessel},
	} {
		if v.holds == nil || v.needs <= *v.holds {
			continue
		}
		if worst == nil || v.needs/(*v.holds) > worst.Needs/worst.Holds {
			worst = &TooLarge{Vessel: v.name, Needs: v.needs, Holds: *v.holds, reader: w.in.Reader}
		}
	}
	return worst
}

// largest finds the largest collected volume that fits, to a tenth of a litre.
func (w *work) largest(way brewhouse.Cooling) quantity.Volume {
	fits := func(v quantity.Volume) bool {
		in := w.in
		in.Size = v
		trial, err := start(in)
		if err != nil {
			return false
		}
		trial.settle(way)
		return len(trial.problems) == 0 && trial.overflow() == nil
	}
	low, high := 0.0, float64(w.collected)
	for range 24 {
		if mid := (low + high) / 2; fits(quantity.Volume(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	return quantity.Volume(math.Floor(low*10) / 10)
}
