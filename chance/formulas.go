// SPDX-License-Identifier: MIT

package chance

import (
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/mash"
	"gyle/science/uncertainty"
	chem "gyle/science/water"
)

// How far formulas are off, one standard deviation. Estimates but where said.
const (
	isoSpread        = 0.03  // of the rate of isomerisation
	activationSpread = 4.0   // kJ/mol of 98.6: rates below the boil are extrapolated
	brokenSpread     = 0.10  // of the rate at which iso-alpha acids break down
	alcoholSpread    = 0.001 // by volume: Balling's figure against measured alcohol
	reportSpread     = 0.08  // of an ion: a report is a mean, the tap is of the day
)

// beerToBeer is how far the bitterness of one beer is from that of the house,
// besides its alpha acids: of the 0.10 that science/hops has for recipe and
// alpha acids (hops.RatioSpread), without the 0.06 of lot and ageing.
const beerToBeer = 0.08

func (l *list) formulas() {
	if l.anyKettleHops() {
		l.kinetics()
	}
	if f, ok := l.plan.Find(quantity.BeerColor); ok && f.Value > 0 {
		l.add(Input{Name: "colour formula", Kind: OfFormula, Source: "Morey's formula is credited with 20 %"}, ratio(f.SD/f.Value),
			func(t *plan.Truth, x float64) { t.Color *= x })
	}
	if late := l.lateColor(); late > 0 {
		l.add(Input{Name: "colour of late grain", Kind: OfFormula, Source: "common practice: 80 to 100 % late, 60 to 80 % steeped cold"}, ratio(late),
			func(t *plan.Truth, x float64) { t.LateColor *= x })
	}
	if f, ok := l.plan.Find(quantity.MashPH); ok {
		l.add(Input{Name: "prediction of the mash pH", Kind: OfFormula, Unit: "pH", Source: "estimate: 0.05 with a measured base malt, 0.10 without"},
			uncertainty.Normal{SD: f.SD}, func(t *plan.Truth, x float64) { t.MashPH += quantity.PH(x) })
	}
	if f, ok := l.plan.Find(quantity.Attenuation); ok {
		l.add(Input{Name: "attenuation of the yeast", Kind: OfYeast, Source: "half the range of the yeast, as the plan has it"},
			uncertainty.Normal{SD: f.SD}, func(t *plan.Truth, x float64) { t.Attenuation += quantity.Fraction(x) })
	}
	l.add(Input{Name: "formula of alcohol", Kind: OfFormula, Source: "estimate"}, uncertainty.Normal{SD: alcoholSpread},
		func(t *plan.Truth, x float64) { t.Alcohol += quantity.Fraction(x) })
}

func (l *list) kinetics() {
	l.add(Input{Name: "bitterness from beer to beer", Kind: OfFormula, Source: "what measured beers of one house differ by besides their alpha acids (estimate)"},
		ratio(beerToBeer), func(t *plan.Truth, x float64) { t.Bitterness *= x })
	l.add(Input{Name: "rate of isomerisation", Kind: OfFormula, Source: "estimate about the published rate"}, ratio(isoSpread),
		func(t *plan.Truth, x float64) { t.Isomerisation *= x })
	l.add(Input{Name: "isomerisation below the boil", Kind: OfFormula, Unit: "kJ/mol", Source: "estimate: measured from 90 °C on, extrapolated below"},
		uncertainty.Normal{SD: activationSpread}, func(t *plan.Truth, x float64) { t.Activation += x })
	l.add(Input{Name: "breakdown of iso-alpha acids", Kind: OfFormula, Source: "estimate about the published rate"}, ratio(brokenSpread),
		func(t *plan.Truth, x float64) { t.Degradation *= x })
}

// lateColor is the relative spread of what late or steeped grain gives of its
// colour: a quarter of the customary range; 0 where there is none.
func (l *list) lateColor() float64 {
	sd := 0.0
	for _, u := range l.day.Malts {
		switch u.Entry {
		case mash.Late:
			r := mash.LateColorYield
			sd = max(sd, float64((r.High-r.Low)/sdOfRange/mash.ColorYield(mash.Late)))
		case mash.ColdSteep:
			r := mash.ColdSteepColorYield
			sd = max(sd, float64((r.High-r.Low)/sdOfRange/mash.ColorYield(mash.ColdSteep)))
		}
	}
	return sd
}

func (l *list) water() {
	if l.plan.Water == "" {
		return
	}
	for ion := range chem.IonCount {
		if l.plan.Liquor.Base[ion] <= 0 {
			continue
		}
		l.add(Input{Name: ion.String() + " of the supply", Kind: OfWater, Source: "estimate: a report is a mean, the tap is of the day"}, ratio(reportSpread),
			func(t *plan.Truth, x float64) { t.Base[ion] *= x })
	}
	if len(l.plan.Liquor.Salts) > 0 {
		l.add(Input{Name: "weighing of the salts", Kind: OfReading, Source: "estimate"}, ratio(saltScaleSpread),
			func(t *plan.Truth, x float64) { t.Salts *= x })
	}
	if l.plan.Mash.Acid != nil {
		l.add(Input{Name: "measuring of the acid", Kind: OfReading, Source: "estimate"}, ratio(cylinderSpread),
			func(t *plan.Truth, x float64) { t.Acid *= x })
	}
}

// What bears on the gas, one standard deviation. Estimates.
const (
	warmestSpread = 1.0  // K: how warm the beer was after fermentation
	primingSpread = 0.03 // of the gas: weighing, mixing, what the yeast keeps
	gaugeSpread   = 0.05 // bar
	kegSpread     = 1.0  // K
)

func (l *list) gas() {
	c := &l.plan.Cellar
	switch {
	case c.CO2 <= 0:
	case c.Sugar == "":
		l.add(Input{Name: "pressure gauge", Kind: OfReading, Unit: "bar", Source: "estimate"}, uncertainty.Normal{SD: gaugeSpread},
			func(t *plan.Truth, x float64) { t.Gauge += quantity.GaugePressure(x) })
		l.add(Input{Name: "temperature of the keg", Kind: OfReading, Unit: "K", Source: "estimate"}, uncertainty.Normal{SD: kegSpread},
			func(t *plan.Truth, x float64) { t.Keg += quantity.Warming(x) })
	default:
		l.add(Input{Name: "warmest temperature of the beer", Kind: OfReading, Unit: "K", Source: "estimate"}, uncertainty.Normal{SD: warmestSpread},
			func(t *plan.Truth, x float64) { t.Warmest += quantity.Warming(x) })
		if c.Priming > 0 {
			l.add(Input{Name: "priming", Kind: OfReading, Source: "estimate: weighing, mixing, what the yeast keeps"}, ratio(primingSpread),
				func(t *plan.Truth, x float64) { t.Priming *= x })
		}
	}
}
