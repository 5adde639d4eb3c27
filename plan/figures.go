// SPDX-License-Identifier: MIT

package plan

import (
	"math"

	"gyle/quantity"
	"gyle/science/color"
	"gyle/science/ferment"
	"gyle/science/gravity"
	"gyle/science/hops"
	chem "gyle/science/water"
)

// colorSpread is the error of a colour computed from the grist, one standard
// deviation: the ±20 % that Morey's formula is credited with.
const colorSpread = 0.20

// figures sets the predicted numbers of the beer beside the aims.
func (w *work) figures() {
	p, r := w.plan, w.in.Recipe
	ogPoints := w.og.Points() * w.yieldSpread()
	w.figure(quantity.OG, float64(w.og), ogPoints/1000, sgAim(r.Aims.OG), "og")
	fgSD := math.Abs(float64(p.Gravity.FGRange.High-p.Gravity.FGRange.Low)) / 2
	w.figure(quantity.FG, float64(p.Gravity.FG), fgSD, sgAim(r.Aims.FG), "fg")
	abvSD := math.Abs(float64(ferment.Alcohol(w.og, p.Gravity.FG)-ferment.Alcohol(w.og, p.Gravity.FG+quantity.SG(fgSD)))) + 0.001
	w.figure(quantity.ABV, float64(p.Gravity.ABV), abvSD, nil, "abv")
	w.figure(quantity.Bitterness, float64(p.Hops.IBU), float64(p.Hops.SD), number(r.Aims.IBU), "ibu")
	w.figure(quantity.BUGU, hops.BUGU(p.Hops.IBU, w.og), hops.BUGU(p.Hops.SD, w.og), nil, "bu:gu")
	ebc := w.ebc()
	var colorAim *float64
	if c := r.Aims.Color; c != nil {
		v := float64(c.EBC())
		colorAim = &v
	}
	w.figure(quantity.BeerColor, ebc, ebc*colorSpread, colorAim, "color")
	w.figure(quantity.Attenuation, float64(ferment.Attenuation(w.og, p.Gravity.FG)), w.attenuationSD(), nil, "attenuation")
	if r.Aims.CO2 != nil {
		w.figure(quantity.CO2, float64(*r.Aims.CO2), 0, number(r.Aims.CO2), "co2")
	}
	if p.Mash.Rail != nil {
		w.figure(quantity.MashPH, float64(p.Mash.PH), p.Mash.PHSD, number(r.Mash.PH), "mash-ph")
	}
	w.waterFigures()
}

func (w *work) figure(name quantity.Figure, value, sd float64, aim *float64, why string) {
	w.plan.Figures = append(w.plan.Figures, Figure{name, value, sd, aim, why})
}

// waterFigures are the ions of the treated liquor.
func (w *work) waterFigures() {
	if !w.hasWater {
		return
	}
	ions := w.plan.Liquor.Ions
	for _, f := range []struct {
		name quantity.Figure
		ion  chem.Ion
	}{
		{quantity.Calcium, chem.Calcium}, {quantity.Magnesium, chem.Magnesium}, {quantity.Sodium, chem.Sodium},
		{quantity.Chloride, chem.Chloride}, {quantity.Sulfate, chem.Sulfate}, {quantity.Bicarbonate, chem.Bicarbonate},
	} {
		w.figure(f.name, ions[f.ion], 0, nil, "water")
	}
	if ratio, ok := chem.SulfateToChloride(ions); ok {
		w.figure(quantity.SulfateToChloride, ratio, 0, nil, "water")
	}
	w.figure(quantity.ResidualAlkalinity, float64(chem.ResidualAlkalinity(ions)), 0, nil, "water")
}

// yieldSpread is the relative spread of the yield of the house.
func (w *work) yieldSpread() float64 {
	if y := w.in.House.Mash.Yield; y != nil && y.SD > 0 {
		return float64(y.SD / y.Value)
	}
	return unknownYieldSpread
}

// unknownYieldSpread is that of a house whose yield was never measured. Estimate.
const unknownYieldSpread = 0.05

// attenuationSD is half the range of the yeast.
func (w *work) attenuationSD() float64 {
	a := w.fermented
	return math.Abs(float64(a.High-a.Low)) / 2
}

// ebc is the colour of the beer by Morey.
func (w *work) ebc() float64 {
	return float64(quantity.FromSRM(color.MoreySRM(w.mcu(anyGrain))))
}

func sgAim(g *quantity.Gravity) *float64 {
	if g == nil {
		return nil
	}
	v := float64(gravity.SGOf(*g))
	return &v
}

// number is a measure as a plain number, nil where there is none.
func number[T ~float64](v *T) *float64 {
	if v == nil {
		return nil
	}
	f := float64(*v)
	return &f
}
