// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/data"
	"gyle/quantity"
	"gyle/science/carbonation"
	"gyle/science/ferment"
	"gyle/science/gravity"
	"gyle/science/hops"
)

// cellar works out fermentation and packaging.
func (w *work) cellar() {
	w.attenuate()
	w.pitch()
	w.pack()
}

// attenuate fixes the final gravity: the aim of the recipe, else from the
// middle of the yeast's attenuation.
func (w *work) attenuate() {
	g := &w.plan.Gravity
	w.fermented = w.attenuation()
	a := w.fermented
	g.FGRange = quantity.Span[quantity.SG]{Low: ferment.FinalGravity(w.og, a.High), High: ferment.FinalGravity(w.og, a.Low)}
	g.FG = ferment.FinalGravity(w.og, (a.Low+a.High)/2)
	if fg := w.in.Recipe.Aims.FG; fg != nil {
		g.FG = gravity.SGOf(*fg)
	}
	switch {
	case g.FG >= w.og:
		w.problem("aims.fg", "", "a final gravity of %.4f isn't below the original gravity", float64(g.FG))
	case g.FG < driest(w.og):
		w.problem("aims.fg", "", "no beer of %.3f ends at %.4f: with all its extract gone it would be %.4f", float64(w.og), float64(g.FG), float64(driest(w.og)))
	}
	g.ABV = ferment.Alcohol(w.og, g.FG)
}

// driest is the gravity of a beer of which no extract is left, only alcohol and
// water: the real attenuation is whole.
func driest(og quantity.SG) quantity.SG {
	return gravity.SGFromPlato(ferment.ApparentExtract(gravity.PlatoFromSG(og), 0))
}

// usualAttenuation is that of a yeast nobody said anything of. Common practice.
var usualAttenuation = quantity.Span[quantity.Fraction]{Low: 0.70, High: 0.80}

// attenuation is the apparent attenuation of the yeast: as the recipe says, else
// as typical of its kind.
func (w *work) attenuation() quantity.Span[quantity.Fraction] {
	y := w.in.Recipe.Yeast
	if y != nil && y.Attenuation != nil {
		return closed(*y.Attenuation)
	}
	if y != nil {
		if typical, ok := data.Yeast(y.Kind); ok && typical.ApparentAttenuation != nil {
			w.typicalOf("yeast %s: attenuation as typical (%s)", y.Kind, typical.Basis)
			r := *typical.ApparentAttenuation
			return quantity.Span[quantity.Fraction]{Low: quantity.Percent(r.Low()), High: quantity.Percent(r.High())}
		}
	}
	w.typicalOf("yeast: attenuation taken as %.0f to %.0f %%, nothing is said of it", usualAttenuation.Low.Percent(), usualAttenuation.High.Percent())
	return usualAttenuation
}

// closed gives an open range of attenuation the end of ordinary yeasts: "75 %.."
// reaches to 80 %, or is 75 % alone where that lies beyond.
func closed(a quantity.Span[quantity.Fraction]) quantity.Span[quantity.Fraction] {
	if !a.HasLow() {
		a.Low = min(usualAttenuation.Low, a.High)
	}
	if !a.HasHigh() {
		a.High = max(usualAttenuation.High, a.Low)
	}
	if !a.HasLow() || !a.HasHigh() {
		return usualAttenuation
	}
	return a
}

// usualPitch is the pitching rate of ales. Common practice.
const usualPitch quantity.PitchRate = 0.75

// pitch counts the cells and what they are as dry yeast.
func (w *work) pitch() {
	c := &w.plan.Cellar
	rate := usualPitch
	if y := w.in.Recipe.Yeast; y != nil {
		c.Yeast, c.Temperature = y.Kind, y.Temperature
		if y.Pitch != nil {
			rate = *y.Pitch
		}
	}
	cells := ferment.CellsNeeded(rate, gravity.PlatoFromSG(w.og), w.collected)
	grams := ferment.DryYeastGrams(cells)
	c.Cells = float64(cells)
	c.Dry = quantity.Grams(grams.Mid)
	c.DryRange = quantity.Span[quantity.Mass]{Low: quantity.Grams(min(grams.Low, grams.High)), High: quantity.Grams(max(grams.Low, grams.High))}
}

// kegTemperature is that of a serving keg. Common practice.
var kegTemperature = quantity.Celsius(5)

// pack works out the volume packaged and its gas.
func (w *work) pack() {
	dry := quantity.Mass(0)
	for i := range w.charges {
		if c := &w.charges[i]; w.plan.Hops.Charges[i].Dry {
			dry += quantity.Mass(c.mass)
		}
	}
	w.packaged = w.collected - w.in.House.Fermenter.Loss - hops.LostInHops(dry, hops.DryPellets.Typical)
	w.plan.Volumes.Packaged = w.packaged
	if w.packaged <= 0 {
		w.problem("fermenter.loss", "", "nothing is left to package")
		return
	}
	aim := w.in.Recipe.Aims.CO2
	if aim == nil {
		return
	}
	c := &w.plan.Cellar
	c.CO2 = *aim
	c.Warmest = w.warmest()
	air := carbonation.AirPressure(w.in.House.Altitude)
	c.Residual = carbonation.Residual(c.Warmest, air)
	c.Keg = carbonation.PressureFor(*aim, kegTemperature, air)
	pack := w.in.Recipe.Package
	if pack != nil && pack.In == "keg" {
		w.checkRelief(air)
		return
	}
	w.prime(*aim)
}

// warmest is the temperature that decides the gas left in finished beer: the
// upper end of the yeast's range, 20 °C or its lower end where that is open.
func (w *work) warmest() quantity.Temperature {
	warm := roomTemperature
	t := w.plan.Cellar.Temperature
	switch {
	case t == nil:
	case t.HasHigh():
		warm = t.High
	case t.HasLow() && warm.Below(t.Low):
		warm = t.Low
	}
	return warm
}

// prime doses the priming sugar for bottles.
func (w *work) prime(aim quantity.Carbonation) {
	c := &w.plan.Cellar
	c.Sugar = "sucrose"
	if p := w.in.Recipe.Package; p != nil && p.Sugar != "" {
		c.Sugar = p.Sugar
	}
	sugar, ok := data.Sugar(c.Sugar)
	if !ok {
		w.problem("package.sugar", nearestHint(c.Sugar, data.SugarNames()), "%s is no known sugar", c.Sugar)
		return
	}
	if aim > c.Residual {
		c.Priming = carbonation.PrimingSugar(aim, c.Residual, w.packaged, carbonation.GasYield(sugar.CO2PerGram))
	} else {
		w.notKept("", "carbonation %s vol: the beer already holds %s vol after fermenting at %s", w.number(float64(aim), 1), w.number(float64(c.Residual), 2), w.degrees(c.Warmest, 0))
	}
	verdict := carbonation.Judge(carbonation.Filling{Package: carbonation.CrownBottle, Target: aim, Reader: w.in.Reader})
	c.Bottle = verdict.Pressure
	if verdict.Severity == carbonation.Refuse {
		w.problem("aims.co2", "use bottles made for it, a keg, or less gas", "%s", verdict.Cautions[0])
		return
	}
	for _, text := range verdict.Cautions {
		w.caution("%s", text)
	}
}

// checkRelief compares the pressure that a warm vessel would need with its
// relief valve.
func (w *work) checkRelief(air quantity.Pressure) {
	relief := w.in.House.Fermenter.Relief
	if relief == nil {
		return
	}
	c := &w.plan.Cellar
	warm := carbonation.PressureFor(c.CO2, c.Warmest, air)
	if warm > *relief {
		w.caution("holding %s vol at %s takes %s, the relief valve opens at %s: carbonate cold, and never block or raise a relief valve",
			w.number(float64(c.CO2), 1), w.degrees(c.Warmest, 0), w.pressure(quantity.Pressure(warm)), w.pressure(quantity.Pressure(*relief)))
	}
}
