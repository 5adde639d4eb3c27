// SPDX-License-Identifier: MIT

package day

import (
	"fmt"
	"math"

	"gyle/brewhouse"
	"gyle/data"
	"gyle/gyle"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/gravity"
	"gyle/science/mash"
	"gyle/science/water"
)

// coolingWay returns the way of cooling that a plan counts on.
func coolingWay(p *plan.Plan) (brewhouse.Cooling, bool) {
	for _, c := range p.HouseDocument().Cooling {
		if c.Name == p.Hops.Cooling && c.Tau != nil {
			return c, true
		}
	}
	return brewhouse.Cooling{}, false
}

// missedTemperature is what counts as a miss of the mash temperature: what a
// good thermometer and stirring can't explain. Common practice.
const missedTemperature quantity.Warming = 0.5

// Strike says what can be done with a mash that landed beside the temperature
// of its first rest. Where it hit, the offer has no tickets.
func Strike(p *plan.Plan, landed quantity.Temperature) Offer {
	o := Offer{At: gyle.AtMash}
	target := p.FirstRest()
	off := landed.Sub(target)
	if math.Abs(float64(off)) < float64(missedTemperature) || p.Grist.Mass <= 0 {
		return o
	}
	miss, heater := missOf(p, landed)
	c := mash.Correct(miss, heater, p.Boil.Temperature, tapWater)
	pr := quantity.Printer{}
	o.Missed = fmt.Sprintf("%s instead of %s", pr.Temperature(landed), pr.Temperature(target))
	o.Notes = append(o.Notes, fmt.Sprintf("Grain of %s would explain it. With grain like that the next strike is %s.", pr.Temperature(c.Grain), pr.Temperature(c.Strike)))
	base := asPlanned(p)
	if c.Heating > 0 {
		t := base
		t.Name, t.Mash, t.Minutes = "heat", target, c.Heating
		t.Does = fmt.Sprintf("Heat for %s at %s while stirring.", pr.Duration(c.Heating), pr.Power(heater.Power))
		t.Price = price(fmt.Sprintf("%.0f kJ", c.Heat))
		o.Tickets = append(o.Tickets, t)
	}
	if c.Hot > 0 {
		o.Tickets = append(o.Tickets, poured(base, "boiling water", c.Hot, p.Boil.Temperature, target, "Boiling water scalds: pour it slowly."))
	}
	if c.Cold > 0 {
		o.Tickets = append(o.Tickets, poured(base, "cold water", c.Cold, tapWater, target, ""))
	}
	t := base
	t.Name, t.Mash, t.Does = "accept", landed, "Leave it."
	t.Price = price(attenuationOff(p, landed))
	o.Tickets = append(o.Tickets, t)
	return o
}

// missOf describes a mash that missed.
func missOf(p *plan.Plan, landed quantity.Temperature) (mash.Miss, mash.Heater) {
	house := p.HouseDocument()
	m := mash.Miss{
		Grain:  mash.Grain{Mass: p.EarlyGrain(), Moisture: mash.DefaultMoisture, Temperature: p.GrainTemperature()},
		Liquor: gravity.WortMass(p.Liquor.Mash, 1),
		Vessel: mash.Vessel{HeatCapacity: house.Mash.HeatCapacity},
		Target: p.FirstRest(), Landed: landed,
	}
	heater := mash.Heater{Efficiency: 1}
	if house.Mash.Power != nil {
		heater.Power = *house.Mash.Power
	}
	return m, heater
}

// poured is a ticket of water that is stirred into the mash. The sparge gets
// less by as much, so that the kettle stays as planned.
func poured(base Ticket, what string, m quantity.Mass, at, target quantity.Temperature, caution string) Ticket {
	t := base
	v := gravity.WortVolume(m, 1)
	t.Name, t.Mash, t.Caution = what, target, caution
	t.Add = &Addition{What: what, Mass: m, Volume: v, At: at}
	t.Does = fmt.Sprintf("Stir in %.2f L of %s, and sparge with as much less.", float64(v), what)
	t.Price = price("a thinner mash")
	return t
}

// asPlanned is a ticket that leaves the beer as planned.
func asPlanned(p *plan.Plan) Ticket {
	return ticket(p, wort{full: p.Gravity.FullKettle, og: p.Gravity.OG, volume: p.Volumes.KnockOut})
}

// attenuationOff says what another mash temperature does to the fermentable
// share of the wort, by the model of conversion.
func attenuationOff(p *plan.Plan, t quantity.Temperature) string {
	time := quantity.Duration(0)
	for _, r := range p.Mash.Steps {
		if r.What == "rest" {
			time = r.Time
			break
		}
	}
	limit := func(t quantity.Temperature) float64 {
		return mash.DefaultKinetics.ApparentLimit(mash.ConvertAtRest(mash.DefaultKinetics, t, time)).Percent()
	}
	d := limit(t) - limit(p.FirstRest())
	if math.Abs(d) < 0.1 {
		return ""
	}
	return fmt.Sprintf("limit of attenuation about %s %%, by a model good to 3 %%", signed(d, 1))
}

// MashReading is a pH of the mash as it was read.
type MashReading struct {
	PH     quantity.PH
	Sample quantity.Temperature // of the sample; zero: cooled
	After  quantity.Duration    // after the dough-in
	// AcidSoFar is the lactic acid that has gone into mash and sparge, in mL;
	// negative: as planned.
	AcidSoFar float64
}

// missedPH is what counts as a miss: a good meter, well calibrated, is right to
// 0.03 or so.
const missedPH = 0.04

// conversionTime is how long into a rest of common temperatures a change of pH
// still does something: most starch is converted after 20 min at 67 °C. Common
// practice.
const conversionTime quantity.Duration = 20

// MashPH says what can be done with a pH beside the aim. It takes the reading
// for right: the balance of protons is shifted until it agrees with it.
func MashPH(p *plan.Plan, r MashReading) Offer {
	o := Offer{At: gyle.AtMash}
	b, offset, ok := p.MashBalance()
	if !ok {
		return o
	}
	read := r.PH
	if !r.Sample.IsZero() && warmSample.Below(r.Sample) {
		read = mash.CooledPH(r.PH, r.Sample)
		o.Notes = append(o.Notes, fmt.Sprintf("Read hot: pH %.2f of a cooled sample.", float64(read)))
	}
	aim := aimedPH(p)
	if math.Abs(float64(read-aim)) < missedPH {
		return o
	}
	o.Missed = fmt.Sprintf("pH %.2f instead of %.2f", float64(read), float64(aim))
	late := r.After > conversionTime
	if late {
		o.Notes = append(o.Notes, fmt.Sprintf("After %.0f min most of the starch is converted: it is too late to matter for that. Record it and learn.", r.After.Minutes()))
	}
	if note := learned(p, b, offset, read); note != "" {
		o.Notes = append(o.Notes, note)
	}
	m := mashed{p, b, offset, read, aim, r.AcidSoFar}
	if read > aim {
		o.Tickets = append(o.Tickets, m.acid())
	} else {
		o.Tickets = append(o.Tickets, m.soda())
	}
	accept := m.ticket(read, 0)
	accept.Name, accept.Does, accept.Price = "accept", "Leave it.", price("pH "+signed(float64(read-aim), 2))
	o.Tickets = append(o.Tickets, accept)
	if late { // what is likeliest stands first
		o.Tickets[0], o.Tickets[1] = o.Tickets[1], o.Tickets[0]
	}
	return o
}

// warmSample is from where on a sample counts as hot.
var warmSample = quantity.Celsius(30)

func aimedPH(p *plan.Plan) quantity.PH {
	if r := p.RecipeDocument(); r != nil && r.Mash.PH != nil {
		return *r.Mash.PH
	}
	return p.Mash.PH
}

// mashed is a mash whose pH was read.
type mashed struct {
	p       *plan.Plan
	balance mash.Balance
	offset  quantity.PH // of the house
	read    quantity.PH
	aim     quantity.PH
	soFar   float64 // mL of acid; negative: as planned
}

// protons is what has to be released to bring the mash from what was read to
// the aim, in mEq. The unknown cause of the miss is taken as an amount of
// protons that doesn't change with the pH.
func (m mashed) protons() float64 {
	return mash.Excess(m.balance, m.read-m.offset) - mash.Excess(m.balance, m.aim-m.offset)
}

// ticket is the mash at a pH before the late grain, with so much more acid.
func (m mashed) ticket(ph quantity.PH, ml float64) Ticket {
	t := asPlanned(m.p)
	t.PH = ph
	t.Lactic = m.lactic(ml)
	return t
}

// acid brings the pH down.
func (m mashed) acid() Ticket {
	acid := acidOfPlan(m.p)
	dose := m.protons() / acid.MilliequivalentsPerML(m.aim-m.offset)
	t := m.ticket(m.aim, dose)
	t.Name = "acid"
	t.Add = &Addition{What: acid.ID, Volume: quantity.Millilitres(dose)}
	t.Does = fmt.Sprintf("Add %.1f mL of %s, stir, read again.", dose, acid.Name)
	if rail := m.p.Mash.Rail; rail != nil && hasLateGrain(m.p) {
		t.Does += fmt.Sprintf(" pH %.2f, and %.2f after the late grain.", float64(m.aim), float64(m.aim+rail.Late-rail.Acid))
	}
	t.Price = price(fmt.Sprintf("%.1f mL of acid", dose))
	if t.Lactic > 0 {
		t.Price = price(fmt.Sprintf("%.1f mL of acid", dose), fmt.Sprintf("%.0f mg/L of lactic acid in the beer at most, tasted from about %.0f", float64(t.Lactic), float64(water.LacticThreshold)))
	}
	t.Caution = acid.Safety
	if t.Caution == "" {
		t.Caution = "Acid burns: goggles, and acid into water."
	}
	return t
}

// sodaPerGram is the bicarbonate in baking soda: 1000/84.007 mmol/g.
const sodaPerGram = 1000 / 84.007

// soda brings the pH up with baking soda.
func (m mashed) soda() Ticket {
	// The pH at which so much bicarbonate leaves the mash, by the balance
	// shifted to the reading.
	shift := m.protons() // negative: protons must be taken up
	one := m.balance
	one.Bicarbonate++
	per := mash.Excess(m.balance, m.aim-m.offset) - mash.Excess(one, m.aim-m.offset)
	grams := -shift / per / sodaPerGram
	t := m.ticket(m.aim, 0)
	t.Name = "baking soda"
	t.Add = &Addition{What: "baking-soda", Mass: quantity.Grams(grams)}
	t.Does = fmt.Sprintf("Stir in %.1f g of baking soda, read again.", grams)
	sodium := grams * 1000 * 22.99 / 84.007 / float64(m.p.Volumes.Collected)
	t.Price = price(fmt.Sprintf("%.1f g of baking soda", grams), fmt.Sprintf("sodium +%.0f mg/L", sodium))
	return t
}

// lactic is the lactic acid in the beer with so many mL more, at most.
func (m mashed) lactic(ml float64) quantity.Concentration {
	acid := acidOfPlan(m.p)
	more := water.LacticInBeer(acid, ml, 0, 0, m.p.Volumes.Collected)
	if m.soFar < 0 {
		return m.p.Mash.Lactic + more
	}
	return water.LacticInBeer(acid, m.soFar, 0, 0, m.p.Volumes.Collected) + more
}

// acidOfPlan is the acid of the recipe, lactic acid where it names none.
func acidOfPlan(p *plan.Plan) water.Acid {
	id := "lactic-88"
	if r := p.RecipeDocument(); r != nil && r.Water != nil && r.Water.Acid != "" {
		id = r.Water.Acid
	}
	typical, _ := data.Acid(id)
	acid, _ := water.AcidByID(typical.ID)
	return acid
}

func hasLateGrain(p *plan.Plan) bool {
	for _, l := range p.Grist.Lines {
		if l.In.Way == recipe.LateMash {
			return true
		}
	}
	return false
}

// Spreads of pH: of the prediction, where it is laid to the base malt, and of
// the reading. Estimates.
const (
	predictedSpread quantity.PH = 0.10
	readSpread      quantity.PH = 0.05
)

// learned says what the reading teaches about the base malt: the shift of its
// pH in distilled water that would explain the miss, and the part of it that is
// worth believing.
func learned(p *plan.Plan, b mash.Balance, offset, read quantity.PH) string {
	i := baseMalt(p, b)
	if i < 0 {
		return ""
	}
	malt := b.Malts[i]
	shift := explaining(b, i, read-offset)
	weight := mash.LearningWeight(predictedSpread, readSpread)
	return fmt.Sprintf("It would be explained by %s of pH %.2f in distilled water instead of %.2f. Worth believing with weight %.2f: %.2f.",
		malt.Name, float64(malt.PHDI)+shift, float64(malt.PHDI), weight, float64(malt.PHDI)+weight*shift)
}

// explaining is the shift in the pH of one malt that brings the balance to a
// pH. The balance is a straight line in it.
func explaining(b mash.Balance, i int, ph quantity.PH) float64 {
	shifted := b
	shifted.Malts = append([]mash.Malt(nil), b.Malts...)
	shifted.Malts[i].PHDI += 0.1
	at := mash.Excess(b, ph)
	per := (mash.Excess(shifted, ph) - at) / 0.1
	return -at / per
}

// baseMalt is the place of the largest base malt with a pH of its own; -1 for
// none.
func baseMalt(p *plan.Plan, b mash.Balance) int {
	best := -1
	for i, m := range b.Malts {
		if m.Base && m.PHDI > 0 && (best < 0 || m.Mass > b.Malts[best].Mass) {
			best = i
		}
	}
	return best
}
