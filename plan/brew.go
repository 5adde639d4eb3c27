// SPDX-License-Identifier: MIT

package plan

import (
	"math"

	"gyle/quantity"
	"gyle/science/carbonation"
	"gyle/science/color"
	"gyle/science/ferment"
	"gyle/science/gravity"
	"gyle/science/hops"
	"gyle/science/mash"
	chem "gyle/science/water"
)

// Beer is what came of one brewing. It is filled by [Brewday.Brew] and can be
// used again.
type Beer struct {
	Figures   []float64 // in the order of [Brewday.Figures]
	IBU       []float64 // by charge, 0 for dry hops
	KnockOut  quantity.Volume
	Collected quantity.Volume
	Packaged  quantity.Volume

	fullSG, og quantity.SG
	yields     []float64
	history    hops.History
	follower   hops.Follower
	malts      []mash.Malt
	acids      []mash.Acid
}

// NewBeer returns a beer with room for what a brewing gives.
func (d *Brewday) NewBeer() *Beer {
	b := &Beer{
		Figures: make([]float64, len(d.figures)), IBU: make([]float64, len(d.Hops)),
		yields: make([]float64, len(d.dosings)), history: make(hops.History, len(d.moves)),
	}
	if d.balance != nil {
		b.malts = append(b.malts, d.balance.Malts...)
		b.acids = append(b.acids, d.balance.Acids...)
	}
	return b
}

// Brew works out what beer the plan gives when things are as t says. With
// [Brewday.Truth] it is the beer of the plan. It uses no new memory.
//
// What the brewer does stays as planned: weights, litres of liquor, minutes of
// boil, temperatures as the thermometer shows them, millilitres of acid, grams
// of sugar. A house whose yield follows from run-off and sparge keeps the
// planned efficiency, apart from Truth.Yield.
func (d *Brewday) Brew(t *Truth, out *Beer) {
	d.wort(t, out)
	ibu := d.bitterness(t, out)
	fg := ferment.FinalGravity(out.og, d.attenuation+t.Attenuation)
	var ions chem.Ions
	if d.plan.Mash.Rail != nil || d.plan.Water != "" {
		ions = d.treatedIons(t)
	}
	for i, f := range d.figures {
		x := d.plan.Figures[i].Value
		switch f {
		case quantity.OG:
			x = float64(out.og)
		case quantity.FG:
			x = float64(fg)
		case quantity.ABV:
			x = float64(ferment.Alcohol(out.og, fg) + t.Alcohol)
		case quantity.Bitterness:
			x = ibu
		case quantity.BUGU:
			x = hops.BUGU(quantity.IBU(ibu), out.og)
		case quantity.BeerColor:
			x = d.color(t, out)
		case quantity.Attenuation:
			x = float64(d.attenuation + t.Attenuation)
		case quantity.CO2:
			x += d.moreGas(t, out)
		case quantity.MashPH:
			x = float64(d.mashPH(t, out, &ions))
		default:
			x = waterFigure(f, &ions, x)
		}
		out.Figures[i] = x
	}
}

// wort works out gravities and volumes.
func (d *Brewday) wort(t *Truth, out *Beer) {
	p := d.plan
	mashed, sugar, sweet, absorbing := 0.0, 0.0, 0.0, 0.0
	for i := range d.Malts {
		m, is := &d.Malts[i], &t.Malts[i]
		extract := m.extract * is.Mass * is.Extract
		if m.sugar {
			sweet += extract
			sugar += float64(m.Mass) * is.Mass
			continue
		}
		mashed += extract
		absorbing += float64(m.Mass) * is.Mass
	}
	mashed *= t.Yield
	full := float64(p.Liquor.Total)*t.Liquor - d.dead - d.absorption*t.Absorption*absorbing
	out.fullSG = gravityOf(mashed, full, p.Gravity.FullKettle)
	mass := gravity.WortMass(quantity.Volume(full), out.fullSG) - p.Boil.Evaporation*quantity.Mass(t.Evaporation) + quantity.Mass(sugar)
	out.og = gravity.SGFromPlato(quantity.Plato(100 * (mashed + sweet) / float64(mass)))
	out.KnockOut = gravity.WortVolume(mass, out.og)
	out.Collected = out.KnockOut - quantity.Volume(d.loss*t.KettleLoss+d.lossOfHops)
	out.Packaged = out.Collected - quantity.Volume(d.yeastLoss*t.FermenterLoss+d.dryLoss)
}

// gravityOf returns the gravity of a volume that holds so much extract, in kg
// and L: gravity.ExtractMass solved by Newton's method from a guess near it.
func gravityOf(extract, volume float64, guess quantity.SG) quantity.SG {
	const apart = 1e-5 // SG, for the slope
	v, s := quantity.Volume(volume), guess
	slope := float64(gravity.ExtractMass(v, s+apart)-gravity.ExtractMass(v, s-apart)) / (2 * apart)
	for range 20 {
		step := (extract - float64(gravity.ExtractMass(v, s))) / slope
		s += quantity.SG(step)
		if math.Abs(step) < 1e-13 {
			break
		}
	}
	return s
}

// bitterness works out the IBU of every charge and returns their sum.
func (d *Brewday) bitterness(t *Truth, out *Beer) float64 {
	kinetics := hops.Published.Times(t.Isomerisation, t.Degradation).Steeper(t.Activation)
	d.path(t, out.history)
	out.follower.Yields(out.history, kinetics, d.dosings, out.yields)
	factor := hops.GravityFactor((out.fullSG + out.og) / 2)
	house := d.House.Value * t.Bitterness
	sum := 0.0
	for k, i := range d.kettle {
		h, is := &d.Hops[i], &t.Hops[i]
		ibu := hops.IBU(h.Mass*quantity.Mass(is.Mass), h.alpha*quantity.Fraction(is.Alpha), out.yields[k]*h.carry, out.KnockOut, d.b.recovery, house, factor)
		out.IBU[i] = float64(ibu)
		sum += float64(ibu)
	}
	return sum
}

// path lays out the temperature of the kettle as it really was.
func (d *Brewday) path(t *Truth, h hops.History) {
	boilsAt, coolant := d.boilsAt.Add(t.BoilsAt), d.coolant.Add(t.Coolant)
	tau, cools := d.tau*quantity.Duration(t.Tau), d.cools*quantity.Duration(t.Cools)
	now := d.full
	for i, m := range d.moves {
		switch m.kind {
		case heating:
			h[i] = hops.Linear(now, boilsAt, m.time)
			now = boilsAt
		case boiling:
			h[i] = hops.Steady(boilsAt, m.time)
			now = boilsAt
		case coolingTo:
			target := m.to.Add(t.Thermometer)
			if nearest := coolant.Add(nearestToWater); target.Below(nearest) {
				target = nearest
			}
			h[i] = hops.Steady(now, 0)
			if target.Below(now) {
				h[i] = hops.CoolingTo(now, target, coolant, tau)
				now = target
			}
		case leaving:
			h[i] = hops.Cooling(now, d.room, cools, m.time)
			now = h[i].End()
		case runningOff:
			h[i] = hops.Cooling(now, d.room, cools, m.time).AsRunOff()
			now = h[i].End()
		}
	}
}

// color returns the colour of the beer in EBC.
func (d *Brewday) color(t *Truth, out *Beer) float64 {
	sum := 0.0
	for i := range d.Malts {
		m, is := &d.Malts[i], &t.Malts[i]
		brought := (m.pale + m.color*is.Color) * is.Mass
		if m.Entry != mash.FromStart {
			brought *= t.LateColor
		}
		sum += brought
	}
	return float64(quantity.FromSRM(color.MoreySRM(color.MCU(sum, out.KnockOut)))) * t.Color
}

// mashPH returns the pH of the mash. The alkalinity of the liquor is scaled, its
// curve over the pH stays.
func (d *Brewday) mashPH(t *Truth, out *Beer, ions *chem.Ions) quantity.PH {
	if d.balance == nil {
		return d.plan.Mash.PH + t.MashPH
	}
	b := *d.balance
	b.Malts, b.Acids = out.malts, out.acids
	for i := range d.Malts {
		if k := d.Malts[i].proton; k >= 0 {
			b.Malts[k].Mass = d.balance.Malts[k].Mass * quantity.Mass(t.Malts[i].Mass)
		}
	}
	for i := range b.Acids {
		b.Acids[i].Volume = d.balance.Acids[i].Volume * t.Acid
	}
	alkalinity := 1.0
	if planned := chem.Alkalinity(d.plan.Liquor.Ions); planned != 0 {
		alkalinity = float64(chem.Alkalinity(*ions) / planned)
	}
	b.Liquor.Calcium, b.Liquor.Magnesium = quantity.Concentration(ions[chem.Calcium]), quantity.Concentration(ions[chem.Magnesium])
	b.Liquor.Volume *= quantity.Volume(t.Liquor)
	b.Parameters = mash.DefaultParameters
	b.Parameters.Eta *= quantity.Fraction(alkalinity)
	return d.rootOf(b) + d.phOffset + t.MashPH
}

// rootOf returns the pH of a balance that differs a little from the planned
// one: the secant through the last two guesses, from the planned pH. The last
// step is too small to need another look.
func (d *Brewday) rootOf(b mash.Balance) quantity.PH {
	const smallStep = 1e-6 // pH: the next would be a thousand times smaller
	at, slope := d.atAcid, d.slope
	excess := mash.Excess(b, at)
	for range 12 {
		step := -excess / slope
		at += quantity.PH(step)
		if math.Abs(step) < smallStep {
			break
		}
		next := mash.Excess(b, at)
		if next == excess {
			break
		}
		slope, excess = (next-excess)/step, next
	}
	return at
}

// moreGas returns the carbonation beyond that of the plan, in volumes.
func (d *Brewday) moreGas(t *Truth, out *Beer) float64 {
	c := &d.plan.Cellar
	if d.keg {
		planned := carbonation.Absolute(c.Keg, d.air)
		is := carbonation.VolumesDeLange(planned+quantity.Pressure(t.Gauge), kegTemperature.Add(t.Keg))
		return float64(is - carbonation.VolumesDeLange(planned, kegTemperature))
	}
	residual := carbonation.Residual(c.Warmest.Add(t.Warmest), d.air) - c.Residual
	return float64(residual) + d.gas*(t.Priming*float64(d.plan.Volumes.Packaged/out.Packaged)-1)
}

// waterFigure returns a figure of the liquor; what it doesn't know stays.
func waterFigure(f quantity.Figure, ions *chem.Ions, otherwise float64) float64 {
	switch f {
	case quantity.Calcium:
		return ions[chem.Calcium]
	case quantity.Magnesium:
		return ions[chem.Magnesium]
	case quantity.Sodium:
		return ions[chem.Sodium]
	case quantity.Chloride:
		return ions[chem.Chloride]
	case quantity.Sulfate:
		return ions[chem.Sulfate]
	case quantity.Bicarbonate:
		return ions[chem.Bicarbonate]
	case quantity.SulfateToChloride:
		if ratio, ok := chem.SulfateToChloride(*ions); ok {
			return ratio
		}
	case quantity.ResidualAlkalinity:
		return float64(chem.ResidualAlkalinity(*ions))
	}
	return otherwise
}
