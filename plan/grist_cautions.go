// SPDX-License-Identifier: MIT

package plan

import (
	"gyle/quantity"
	"gyle/recipe"
)

// enoughEnzymes is the least diastatic power, in Windisch-Kolbach units, with
// which a whole mash converts in an ordinary time: 30 °Lintner by the usual
// conversion WK = 3.5·°L − 16. Common practice: 30 to 40 °Lintner.
const enoughEnzymes = 3.5*30 - 16

// gristCautions says where the mash can't do what the grist asks of it.
func (w *work) gristCautions() {
	hottest := w.rests()[0].Temperature
	for _, rest := range w.rests() {
		if hottest.Below(rest.Temperature) {
			hottest = rest.Temperature
		}
	}
	for i := range w.grains {
		w.starchCautions(&w.grains[i], hottest)
	}
	if power, known := w.diastaticPower(); known && power < enoughEnzymes {
		w.caution("this mash brings about %.0f WK of enzymes, and about %d are needed to convert it: use more pale malt, or enzymes", power, int(enoughEnzymes))
	}
}

// starchCautions says where the starch of a grain stays as it is.
func (w *work) starchCautions(g *grain, hottest quantity.Temperature) {
	switch gel := g.typical.Gelatinisation; {
	case g.known && g.typical.NeedsMash && g.meant.In.Way == recipe.InKettle:
		w.caution("%s goes into the kettle with its starch: it wants a mash", g.meant.Malt)
	case g.inMash() && gel != nil && hottest.Below(quantity.Celsius(gel.Low())):
		w.caution("the starch of %s swells only from %.0f °C: cook it before it goes into this mash", g.meant.Malt, gel.Low())
	}
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
