// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/mash"
)

// enoughEnzymes is the least diastatic power, in Windisch-Kolbach units, with
// which a whole mash converts in an ordinary time: 30 °Lintner by the usual
// conversion WK = 3.5·°L − 16. Common practice: 30 to 40 °Lintner.
const enoughEnzymes = 3.5*30 - 16

// gristCautions says where the mash can't do what the grist asks of it.
func (w *work) gristCautions() {
	hottest := w.hottestConversion()
	for i := range w.grains {
		w.starchCautions(&w.grains[i], hottest)
	}
	if power, known := w.diastaticPower(); known && power < enoughEnzymes {
		w.caution("this mash brings about %.0f WK of enzymes, and about %d are needed to convert it: use more pale malt, or enzymes", power, int(enoughEnzymes))
	}
}

// alphaSurvives is up to where alpha-amylase lives long enough to convert what
// gelatinises. Common practice: 70 to 75 °C.
var alphaSurvives = quantity.Celsius(75)

// hottestConversion is the hottest rest at which enzymes still work.
func (w *work) hottestConversion() quantity.Temperature {
	hottest := coldWater
	for _, rest := range w.rests() {
		if hottest.Below(rest.Temperature) && !alphaSurvives.Below(rest.Temperature) {
			hottest = rest.Temperature
		}
	}
	return hottest
}

// starchCautions says where the starch of a grain stays as it is.
func (w *work) starchCautions(g *grain, hottest quantity.Temperature) {
	switch {
	case g.known && g.typical.NeedsMash && g.meant.In.Way == recipe.InKettle:
		w.caution("%s goes into the kettle with its starch: it wants a mash", g.meant.Malt)
	case g.inMash() && g.wantsCooking(hottest):
		w.caution("cook %s before it goes into the mash, or use enzymes that bear heat: its starch swells at %s to %s, where those of malt die", g.meant.Malt, w.degrees(quantity.Celsius(g.typical.Gelatinisation.Low()), 0), w.degrees(quantity.Celsius(g.typical.Gelatinisation.High()), 0))
	}
}

// wantsCooking reports whether a grain gelatinises too hot for its starch to be
// converted in this mash. A record of the data has a range only where it wasn't
// flaked.
func (g *grain) wantsCooking(hottest quantity.Temperature) bool {
	gel := g.typical.Gelatinisation
	if gel == nil {
		return false
	}
	low, high := quantity.Celsius(gel.Low()), quantity.Celsius(gel.High())
	return hottest.Below(high) && mash.NeedsCook(mash.Gelatinisation{Range: quantity.Span[quantity.Temperature]{Low: low, High: high}}, false)
}

// diastaticPower is that of the mash in Windisch-Kolbach units, the mean by
// mass. It isn't known where a tenth of the mash is of no known kind.
func (w *work) diastaticPower() (power float64, known bool) {
	mass, unknown := 0.0, 0.0
	for i := range w.grains {
		g := &w.grains[i]
		if !g.inMash() {
			continue
		}
		mass += g.share
		if g.known {
			power += g.share * g.typical.DiastaticWK.Mid()
		} else {
			unknown += g.share
		}
	}
	if mass <= 0 || unknown > mass/10 {
		return 0, false
	}
	return power / mass, true
}
