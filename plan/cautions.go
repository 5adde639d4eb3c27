// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/boil"
	"gyle/science/hops"
	"gyle/science/mash"
)

// cautions adds what the brewer should mind, where it belongs.
func (w *work) cautions() {
	w.dms()
	w.yieldCautions()
	w.gristCautions()
	w.dryHopCautions()
	w.steepCautions()
	if w.boilsAt.Below(lowBoil) {
		w.caution("wort boils at %s here: hops give less, DMS forms and leaves more slowly", w.degrees(w.boilsAt, 1))
	}
	if !w.hasWater {
		w.typicalOf("water: none given, so salts, acid and mash pH are left out")
	}
	if w.in.House.Bitterness.K.Value == 0 {
		w.typicalOf("house factor: never measured here, taken as %s ± %s", w.number(hops.HousePrior.Value, 2), w.number(hops.HousePrior.SD, 2))
	}
}

// ordinaryOG is up to where a measured yield is taken as measured: that of the
// strongest beers brewed week by week. Estimate.
const ordinaryOG quantity.SG = 1.075

// yieldCautions says where a measured yield is asked for more than it can say.
func (w *work) yieldCautions() {
	m := w.in.House.Mash
	if m.Yield == nil {
		return
	}
	if w.og > ordinaryOG {
		w.caution("the yield of %.0f %% was measured on ordinary beers; at %s less sparge goes over more grain, so expect less, or give the house a conversion instead", m.Yield.Value.Percent(), w.in.Reader.SG(w.og))
	}
	if m.Sparge != "none" && w.in.Recipe.Mash.Sparge == "none" {
		w.caution("the yield of %.0f %% was measured with a sparge; without one expect less, or give the house a conversion instead", m.Yield.Value.Percent())
	}
}

// lowBoil is the boiling point below which a plan speaks of it: isomerisation
// goes at 0.65 of its rate at 100 °C. It is met at about 1500 m.
var lowBoil = quantity.Celsius(95)

// dms works out the DMS light: what splits and steams off in the boil, then
// what splits while the wort cools under its lid.
func (w *work) dms() {
	model := boil.DefaultSulphideModel
	model.PH = w.kettlePH()
	middle, high := w.dmsPrecursor()
	// Both steps of the model are of the first order, so what is left free is in
	// proportion to the precursor.
	free := w.dmsAfter(model, boil.Sulphide{Precursor: 1}).Free
	w.plan.Boil.DMS = DMS{
		Light: boil.Judge(free * high).String(), Wort: free * middle, High: free * high, Precursor: middle,
		Assumes: model.Assumption(boil.Sulphide{Precursor: middle}),
	}
}

// dmsAfter follows the sulphide from the full kettle to the cold wort.
func (w *work) dmsAfter(model boil.SulphideModel, now boil.Sulphide) boil.Sulphide {
	perMinute := 0.0
	if minutes := w.boilTime.Minutes(); minutes > 0 {
		perMinute = float64(w.evaporated/w.fullMass) / minutes
	}
	now = model.Hold(now, w.boilsAt, quantity.Rate(perMinute), w.boilTime)
	for _, s := range w.plan.Hops.coolingSegments() {
		d := s.Duration
		if s.RunOff {
			d /= 2 // the mean of the wort has left by then
		}
		now = model.Stand(now, s.TemperatureAt, d)
	}
	return now
}

// kettlePH is the pH of the wort in the kettle: that of the mash, or the
// customary 5.4.
func (w *work) kettlePH() quantity.PH {
	if ph := w.plan.Mash.PH; ph > 0 {
		return ph
	}
	return 5.4
}

// dmsPrecursor is the precursor in the wort, from the kinds of malt: in the
// middle and at the high end of what they bring.
func (w *work) dmsPrecursor() (middle, high boil.MicrogramsPerLitre) {
	for i := range w.grains {
		if g := &w.grains[i]; g.inMash() {
			span := g.dmsPrecursor()
			middle += boil.MicrogramsPerLitre(g.share) * (span.Low + span.High) / 2
			high += boil.MicrogramsPerLitre(g.share) * span.High
		}
	}
	return middle, high
}

// dmsPrecursor is that of wort of this malt alone. Pale malts of lager kilning
// are taken with Pilsner malt. What was never malted has none.
func (g *grain) dmsPrecursor() quantity.Span[boil.MicrogramsPerLitre] {
	switch g.mashClass(quantity.EBC(g.ebc)) {
	case mash.Pilsner, mash.PaleTwoRow, mash.WheatPale:
		return boil.PilsnerPrecursor
	case mash.PaleAle, mash.Vienna, mash.Smoked, mash.BaseByColor:
		return boil.PalePrecursor
	case mash.RawBarley, mash.RawOats, mash.RawRye, mash.RawWheat, mash.RiceMaize, mash.Inert, mash.Extract:
		return quantity.Span[boil.MicrogramsPerLitre]{}
	}
	return boil.KilnedPrecursor
}

// coolingSegments are the segments of the path after the boil.
func (h Hopping) coolingSegments() hops.History {
	for i := len(h.Path) - 1; i >= 0; i-- {
		if h.Path[i].Name == "boil" || h.Path[i].Name == heatToBoil {
			return h.history[i+1:]
		}
	}
	return h.history
}

// dryHopCautions says what dry hops do to bitterness and fermentation.
func (w *work) dryHopCautions() {
	dose := quantity.Dose(0)
	for i, c := range w.charges {
		if c.meant.At.Stage == recipe.AtDry {
			dose += w.plan.Hops.Charges[i].Dose
		}
	}
	if dose == 0 {
		return
	}
	change := hops.DryHopBitterness(quantity.Concentration(w.plan.Hops.IBU), dose, usualHumulinone)
	w.caution("dry hops change the measured bitterness by about %+.0f IBU (%+.0f to %+.0f, a rough estimate) and can restart fermentation: let the gravity settle before packaging",
		change.Mid, change.Low, change.High)
	if dose > hops.MostUsefulDose {
		w.caution("%s of dry hops: beyond about %s the beer gains little aroma and more green, tea-like taste", w.dose(dose, 1), w.dose(hops.MostUsefulDose, 0))
	}
}

// usualHumulinone is the humulinone of fresh pellets: 0.2 to 0.5 % (second-hand).
const usualHumulinone quantity.Fraction = 0.003

// steepCautions says what a cold steep asks for.
func (w *work) steepCautions() {
	for i := range w.grains {
		if g := &w.grains[i]; g.meant.In.Way == recipe.ColdSteep {
			w.caution("the cold steep of %s is not sterile: boil what runs off it for at least 10 minutes. It bypasses the mash and lowers the pH in the kettle", g.meant.Malt)
		}
	}
}
