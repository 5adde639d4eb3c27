// SPDX-License-Identifier: MIT

package plan

import (
	"fmt"
	"math"
	"strings"

	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/science/hops"
)

// shareNoise is how far a share may move before the plan speaks of it.
const shareNoise = 0.0002

// points lists what the plan keeps of the recipe and what it can't keep.
func (w *work) points() {
	p := w.plan
	w.kept("", "original gravity %s in %s of collected wort", w.in.Reader.SG(p.Gravity.OG), w.litres(p.Volumes.Collected))
	w.pointsOnGrist()
	w.pointsOnHops()
	w.pointsOnBoil()
	if w.thickerThanMeant > 0 {
		w.notKept("all the liquor goes into the mash, nothing is left to sparge with", "mash of %s: the kettle asks for no more than %s", w.thickness(quantity.Ratio(w.ratio())), w.thickness(quantity.Ratio(w.thickerThanMeant)))
	}
	for _, m := range p.Liquor.Misses {
		w.notKept("", "water: %s", m)
	}
}

// pointsOnGrist says whose share moved, and what that buys.
func (w *work) pointsOnGrist() {
	moved := false
	for i := range w.grains {
		g := &w.grains[i]
		if math.Abs(g.share-w.meantShares[i]) < shareNoise || !colorGrain(g) {
			continue
		}
		moved = true
		w.kept(fmt.Sprintf("with the share as written the beer would have %s; %s takes the difference",
			w.colour(quantity.EBC(w.colorAsWritten()), 1), w.grains[w.baseGrain()].meant.Malt),
			"colour: %s %s %% instead of %s %%", g.meant.Malt, w.number(100*g.share, 2), w.number(100*w.meantShares[i], 2))
	}
	switch aim := w.in.Recipe.Aims.Color; {
	case aim == nil:
	case !moved && math.Abs(w.ebc()-float64(aim.EBC())) <= 0.5:
		w.kept("", "colour %s", w.colour(quantity.EBC(w.ebc()), 0))
	case math.Abs(w.ebc()-float64(aim.EBC())) > 0.5:
		price := "give the malt that colours the beer role: color, and its share will follow the lots"
		switch {
		case w.baseGrain() < 0:
			price = "there is no other malt to take the difference"
		case w.mcu(colorGrain) > 0 || moved:
			price = "the malts with role: color can't give more or less"
		}
		w.notKept(price, "colour %s, not the %s aimed at", w.colour(quantity.EBC(w.ebc()), 1), w.bareColour(aim.EBC()))
	}
	if !moved {
		w.kept("", "shares of the grist")
	} else {
		w.kept("", "shares of the other malts but %s", w.grains[w.baseGrain()].meant.Malt)
	}
}

// colorAsWritten is the colour of the beer if the grist kept its shares.
func (w *work) colorAsWritten() float64 {
	sum := 0.0
	for i := range w.grains {
		g := &w.grains[i]
		sum += w.gristMass * w.meantShares[i] * color.LovibondFromEBC(quantity.EBC(g.ebc)) * g.colorYield()
	}
	return float64(quantity.FromSRM(color.MoreySRM(color.MCU(sum, w.knockOut))))
}

// pointsOnHops says what the hops keep, and at which price.
func (w *work) pointsOnHops() {
	if aim := w.in.Recipe.Aims.IBU; aim != nil {
		w.pointsOnBitterness(*aim)
	}
	for i := range w.charges {
		c, line := &w.charges[i], &w.plan.Hops.Charges[i]
		byOil := w.oilFactor(c) != 1
		if line.Meant != "" {
			w.notKept("aroma is not computed; taste it", "%s stands in for %s and keeps %s", c.hop, c.meant.Hop, w.keeps(c))
		}
		switch at := c.momentHere(); {
		case c.meant.Dose == nil:
		case byOil:
			w.kept(w.oilPrice(c, line), "%s mL/hL of oil of %s %s", w.number(line.Oil, 2), c.hop, at.Words(w.in.Reader))
		default:
			w.kept(w.oilPrice(c, line), "%s of %s %s", w.dose(line.Dose, 2), c.hop, at.Words(w.in.Reader))
		}
	}
}

// pointsOnBitterness says whether the whole is met, and which charge gives way
// for it.
func (w *work) pointsOnBitterness(aim quantity.IBU) {
	got := w.plan.Hops.IBU
	if math.Abs(float64(got-aim)) >= 0.05 {
		w.notKept("change a charge, or give one a bitterness of its own", "bitterness %s IBU, not the %s aimed at", w.number(float64(got), 1), w.number(float64(aim), 0))
		return
	}
	var gives []string
	for i := range w.charges {
		c := &w.charges[i]
		if meant := c.meant.Bitterness; meant != nil && math.Abs(c.ibu-float64(*meant)) > 0.05 {
			gives = append(gives, fmt.Sprintf("%s %s gives %s IBU instead of %s", c.hop, c.meant.At.Words(w.in.Reader), w.number(c.ibu, 1), w.number(float64(*meant), 1)))
		}
	}
	w.kept(strings.Join(gives, "; "), "bitterness %s IBU in all", w.number(float64(got), 1))
}

// keeps says what a hop that stands in for another keeps of it.
func (w *work) keeps(c *charge) string {
	switch {
	case c.meant.Dose == nil:
		return "its bitterness"
	case w.oilFactor(c) != 1:
		return "its oil"
	}
	return "its grams"
}

// momentHere is when the charge goes in on this house.
func (c *charge) momentHere() recipe.Moment {
	if c.lost {
		return recipe.Moment{Stage: recipe.AtFlameOut}
	}
	return c.meant.At
}

// oilNoise is how far the oil of two lots may be apart, as a share, before the
// plan speaks of it: analyses of one bale differ by a tenth. Estimate.
const oilNoise = 0.1

// oilPrice says what keeping grams instead of oil costs, or oil instead of
// grams, where the oil is known.
func (w *work) oilPrice(c *charge, line *ChargeLine) string {
	if c.oilMeant <= 0 || c.oil <= 0 || !forAroma(c.meant.At) {
		return ""
	}
	factor := c.oilMeant / c.oil
	switch {
	case w.oilFactor(c) != 1:
		return fmt.Sprintf("%s instead of %s", w.grams(line.Mass), w.grams(line.Mass/quantity.Mass(factor)))
	case math.Abs(factor-1) < oilNoise:
		return ""
	}
	return fmt.Sprintf("the lot holds %s mL/100 g of oil where %s were meant: %s would keep the oil", w.number(c.oil, 1), w.number(c.oilMeant, 1), w.grams(line.Mass*quantity.Mass(factor)))
}

// pointsOnBoil says where the boil isn't that of the recipe.
func (w *work) pointsOnBoil() {
	if b := w.in.Recipe.Boil; b != nil && w.boilTime > *b {
		w.notKept("more goes off; charges keep their minutes before the end", "boil of %.0f min: this kettle is given %.0f min", b.Minutes(), w.boilTime.Minutes())
	}
	peak, _ := hops.Peak(w.boilsAt)
	for i := range w.charges {
		if c := &w.charges[i]; c.meant.At.Stage == recipe.AtBoil && c.meant.At.Time > peak {
			w.caution("%s boils %.0f min: beyond %.0f min more bitterness is destroyed than made", c.hop, c.meant.At.Time.Minutes(), peak.Minutes())
		}
	}
}
