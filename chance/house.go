// SPDX-License-Identifier: MIT

package chance

import (
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/uncertainty"
)

// What a house does from brew to brew, one standard deviation where the house
// document has none. Estimates.
const (
	yieldUnknown     = 0.05 // of the value: never measured
	absorptionSpread = 0.06 // of the value
	boilOffSpread    = 0.05 // of the value: mains voltage, lid, draught
	kettleLossSpread = 0.15 // of the value: trub and what the tap leaves
	yeastLossSpread  = 0.20 // of the value
	tauSpread        = 0.10 // of the value: flow of water, stirring
	coolsSpread      = 0.15 // of the value
	coolantSpread    = 2.0  // K: the mains over a season
)

func (l *list) house() {
	h, d := l.plan.HouseDocument(), l.day
	sd, source := yieldUnknown, "the house says no spread of its yield (estimate)"
	if y := h.Mash.Yield; y != nil && y.SD > 0 {
		sd, source = float64(y.SD/y.Value), "house document"
	}
	l.add(Input{Name: "yield of the house", Kind: OfHouse, Source: source}, ratio(sd), func(t *plan.Truth, x float64) { t.Yield *= x })
	source = "house document"
	if !d.Own {
		source = "no measured bitterness here: what houses differ by"
	}
	l.add(Input{Name: "house factor of bitterness", Kind: OfHouse, Source: source}, ratio(d.House.SD/d.House.Value),
		func(t *plan.Truth, x float64) { t.Bitterness *= x })
	l.add(Input{Name: "absorption of the goods", Kind: OfHouse, Source: "estimate"}, ratio(absorptionSpread),
		func(t *plan.Truth, x float64) { t.Absorption *= x })
	l.add(Input{Name: "evaporation", Kind: OfHouse, Source: "estimate: voltage, lid and draught"}, ratio(boilOffSpread),
		func(t *plan.Truth, x float64) { t.Evaporation *= x })
	if h.Kettle.Loss > 0 {
		l.add(Input{Name: "loss in the kettle", Kind: OfHouse, Source: "estimate"}, ratio(kettleLossSpread),
			func(t *plan.Truth, x float64) { t.KettleLoss *= x })
	}
	if h.Fermenter.Loss > 0 {
		l.add(Input{Name: "loss in the fermenter", Kind: OfHouse, Source: "estimate"}, ratio(yeastLossSpread),
			func(t *plan.Truth, x float64) { t.FermenterLoss *= x })
	}
	if l.anyKettleHops() {
		l.cooling()
	}
}

func (l *list) anyKettleHops() bool {
	for _, h := range l.day.Hops {
		if !h.Dry && h.Mass > 0 {
			return true
		}
	}
	return false
}

// cooling is what bears on the hops alone.
func (l *list) cooling() {
	if l.day.Cools() {
		l.add(Input{Name: "speed of the cooler", Kind: OfHouse, Source: "estimate: flow of water and stirring"}, ratio(tauSpread),
			func(t *plan.Truth, x float64) { t.Tau *= x })
		l.add(Input{Name: "cooling water", Kind: OfHouse, Unit: "K", Source: "estimate: the mains over a season"}, uncertainty.Normal{SD: coolantSpread},
			func(t *plan.Truth, x float64) { t.Coolant += quantity.Warming(x) })
	}
	l.add(Input{Name: "cooling of the kettle left alone", Kind: OfHouse, Source: "estimate"}, ratio(coolsSpread),
		func(t *plan.Truth, x float64) { t.Cools *= x })
	l.add(Input{Name: "boiling point that day", Kind: OfReading, Unit: "K", Source: "estimate: the weather moves the air by about 10 hPa"}, uncertainty.Normal{SD: boilSpread},
		func(t *plan.Truth, x float64) { t.BoilsAt += quantity.Warming(x) })
}

// How far instruments are off, one standard deviation unless said. Estimates:
// what is sold for kitchen and cellar.
const (
	boilSpread        = 0.3   // K, of the weather
	thermometerSpread = 0.5   // K
	liquorSpread      = 0.005 // of the volume: marks of a vessel
	grainScaleSpread  = 0.003 // of the mass
	hopScaleStep      = 1.0   // g, read to the nearest
	cylinderSpread    = 0.03  // of a volume of acid
	saltScaleSpread   = 0.02  // of the mass
)

func (l *list) readings() {
	l.add(Input{Name: "volume of the liquor", Kind: OfReading, Source: "estimate: marks of a vessel"}, ratio(liquorSpread),
		func(t *plan.Truth, x float64) { t.Liquor *= x })
	l.add(Input{Name: "grain scale", Kind: OfReading, Source: "estimate"}, ratio(grainScaleSpread), func(t *plan.Truth, x float64) {
		for i := range t.Malts {
			t.Malts[i].Mass *= x
		}
	})
	for i, h := range l.day.Hops {
		if h.Mass <= 0 {
			continue
		}
		grams := h.Mass.Grams()
		step := min(hopScaleStep, grams)
		l.add(Input{Name: "weighing of " + h.Hop + " " + l.plan.Hops.Charges[i].At.String(), Kind: OfReading, Unit: "g", Source: "a scale that shows whole grams"},
			uncertainty.Uniform{Low: -step / 2, High: step / 2}, func(t *plan.Truth, x float64) { t.Hops[i].Mass *= 1 + x/grams })
	}
	if l.day.Cools() && l.hasStand() {
		l.add(Input{Name: "thermometer", Kind: OfReading, Unit: "K", Source: "estimate"}, uncertainty.Normal{SD: thermometerSpread},
			func(t *plan.Truth, x float64) { t.Thermometer += quantity.Warming(x) })
	}
}

func (l *list) hasStand() bool {
	for _, c := range l.plan.Hops.Charges {
		if c.At.Stage == recipe.AtStand {
			return true
		}
	}
	return false
}
