// SPDX-License-Identifier: MIT

package formulate

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
)

// compose writes a draft as a recipe.
func (w *work) compose(d *draft) *recipe.Recipe {
	r := &recipe.Recipe{Name: w.wish.Name, Style: w.wish.StyleID, Mash: w.mashing(), Boil: &w.boil}
	if r.Name == "" {
		r.Name = w.wish.Style.Name
	}
	if s := w.wish.Start; s != nil {
		r.Name, r.By, r.Size, r.Package = cmp.Or(w.wish.Name, s.Name), s.By, s.Size, s.Package
		r.Style = cmp.Or(r.Style, s.Style)
		r.Version, r.Parent = s.Version, s.Version
		if s.Version > 0 {
			r.Version++
		}
	}
	og, fg := quantity.GravitySG(quantity.SG(d.og)), quantity.GravitySG(quantity.SG(round(d.end.fg, 7)))
	r.Aims.OG, r.Aims.FG = &og, &fg
	w.writeGrist(r, d)
	w.writeHops(r, d)
	w.writeColor(r, d)
	w.writeLiquor(r, d)
	w.writeYeast(r, d)
	return r
}

func round(x float64, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	return math.Round(x*scale) / scale
}

// roundIn rounds x to so many decimals without leaving a range; finer where it
// must be.
func roundIn(x float64, s span, decimals int) float64 {
	for ; decimals < 9; decimals++ {
		if y := round(x, decimals); y >= s.Low && y <= s.High {
			return y
		}
	}
	return math.Min(math.Max(x, s.Low), s.High)
}

// allowed is the range that the demands on a figure leave.
func (d *draft) allowed(f quantity.Figure) span {
	s := anything
	for i := range d.ds {
		if one := &d.ds[i]; one.kind == onFigure && one.figure == f {
			s = cut(s, span{Low: one.low, High: one.high})
		}
	}
	return s
}

func (w *work) writeGrist(r *recipe.Recipe, d *draft) {
	for i, c := range w.columns {
		if d.shares[i] < 1e-6 {
			continue
		}
		m := w.wish.Malts[c.malt]
		share := quantity.Percent(round(100*d.shares[i], 7))
		in := c.in
		r.Grist = append(r.Grist, recipe.Grain{Malt: m.Malt, Share: &share, Color: m.Color, In: in, Role: m.Role, Why: m.Why})
	}
	slices.SortStableFunc(r.Grist, func(a, b recipe.Grain) int { return cmp.Compare(*b.Share, *a.Share) })
}

func (w *work) writeHops(r *recipe.Recipe, d *draft) {
	type line struct {
		recipe.Charge
		order float64
	}
	var lines []line
	ibu := 0.0
	for i, c := range w.charges {
		if d.doses[i] < 1e-6 {
			continue
		}
		h := w.wish.Hops[c.hop]
		one := recipe.Charge{Hop: h.Hop, At: c.at, Why: h.Why}
		given := c.yield * d.doses[i]
		if c.byDose || c.yield <= 0 {
			dose := quantity.Dose(round(d.doses[i], 4+w.precise))
			if w.precise < 0 {
				dose = quantity.Dose(w.spoken(i, d.doses[i], true))
				given = c.yield * float64(dose)
			}
			one.Dose = &dose
		} else {
			given = round(given, 2+w.precise)
			if w.precise < 0 {
				given = w.spoken(i, given, false)
			}
			b := quantity.IBU(given)
			one.Bitterness = &b
		}
		ibu += given
		lines = append(lines, line{one, orderOf(c.at)})
	}
	slices.SortStableFunc(lines, func(a, b line) int { return cmp.Compare(a.order, b.order) })
	for _, l := range lines {
		r.Hops = append(r.Hops, l.Charge)
	}
	limits := cut(d.allowed(quantity.Bitterness), d.bitternessByGravity())
	aim := quantity.IBU(roundIn(ibu, limits, 1+max(w.precise, 0)))
	r.Aims.IBU = &aim
}

// The steps in which people say bitterness and doses. A design choice: half an
// IBU can't be tasted, and 0.05 g/L is a gram in a kettle of 20 L.
const (
	spokenIBUStep  = 0.5
	spokenDoseStep = 0.05
)

// spoken rounds the dose of a charge, or its bitterness, to a step in which people
// say it, down where there isn't so much of the hop. What the start has written,
// and is as near, stays.
func (w *work) spoken(i int, x float64, dose bool) float64 {
	step, perUnit := spokenDoseStep, 1.0 // g/L for one of the unit
	if !dose {
		step, perUnit = spokenIBUStep, 1/w.charges[i].yield
	}
	if was := w.written(i, dose); math.Abs(was-x) <= step/2 {
		return was
	}
	said := math.Max(math.Round(x/step), 1) * step
	hop := w.wish.Hops[w.charges[i].hop]
	if hop.Mass != nil && w.wish.House != nil && said > x && said*perUnit*w.massPerDose(i) > float64(*hop.Mass) {
		said -= step
	}
	return round(said, 7)
}

// written is the dose, or the bitterness, that the start to be near to has
// written for a charge; not a number where it has none.
func (w *work) written(i int, dose bool) float64 {
	if w.wish.Objective != Near {
		return math.NaN()
	}
	c := w.charges[i]
	for _, h := range w.wish.Start.Hops {
		switch {
		case h.Hop != w.wish.Hops[c.hop].Hop || h.At != c.at:
		case dose && h.Dose != nil:
			return float64(*h.Dose)
		case !dose && h.Bitterness != nil:
			return float64(*h.Bitterness)
		}
	}
	return math.NaN()
}

// sayable reports whether bitterness and doses may be written in the steps of
// speech: not where somebody weighs in sachets, or in steps of their own.
func (w *work) sayable() bool {
	sachet := func(h Hop) bool { return h.Sachet > 0 }
	return w.wish.HopStep == 0 && !slices.ContainsFunc(w.wish.Hops, sachet)
}

// bitternessByGravity is the range of bitterness that the ratio to gravity leaves.
func (d *draft) bitternessByGravity() span {
	s, points := d.allowed(quantity.BUGU), quantity.SG(d.og).Points()
	return span{Low: s.Low * points, High: s.High * points}
}

// orderOf sorts moments as the brew day goes.
func orderOf(m recipe.Moment) float64 {
	const day = 1e4 // minutes: no boil is as long
	switch m.Stage {
	case recipe.AtMash:
		return -3 * day
	case recipe.AtFirstWort:
		return -2 * day
	case recipe.AtBoil:
		return -float64(m.Time)
	case recipe.AtFlameOut:
		return day
	case recipe.AtStand:
		return 2*day - m.Temperature.Celsius()
	}
	return 3 * day
}

// writeColor writes the colour that the grist gives.
func (w *work) writeColor(r *recipe.Recipe, d *draft) {
	ebc := roundIn(w.colorOf(d.og, d.shares), d.allowed(quantity.BeerColor), 1+max(w.precise, 0))
	r.Aims.Color = &quantity.Color{Value: ebc, Scale: quantity.ScaleEBC}
}

func (w *work) writeLiquor(r *recipe.Recipe, d *draft) {
	if s := w.wish.Start; s != nil && s.Water != nil {
		copied := *s.Water
		r.Water = &copied
	}
	decimals := map[quantity.Figure]int{quantity.MashPH: 2, quantity.CO2: 1}
	for _, f := range plainFigures {
		value, known := d.liquor[f.figure]
		if !known {
			continue
		}
		value = roundIn(value, d.allowed(f.figure), decimals[f.figure]+max(w.precise, 0))
		w.writePlain(r, f.figure, value)
	}
}

func (w *work) writePlain(r *recipe.Recipe, f quantity.Figure, value float64) {
	switch f {
	case quantity.MashPH:
		ph := quantity.PH(value)
		r.Mash.PH = &ph
		return
	case quantity.CO2:
		gas := quantity.Carbonation(value)
		r.Aims.CO2 = &gas
		return
	}
	if r.Water == nil {
		r.Water = new(recipe.Water)
	}
	c := quantity.Concentration(value)
	switch f {
	case quantity.Calcium:
		r.Water.Ca = &c
	case quantity.Magnesium:
		r.Water.Mg = &c
	case quantity.Sodium:
		r.Water.Na = &c
	case quantity.Chloride:
		r.Water.Cl = &c
	case quantity.Sulfate:
		r.Water.SO4 = &c
	case quantity.Bicarbonate:
		r.Water.HCO3 = &c
	}
}

func (w *work) writeYeast(r *recipe.Recipe, d *draft) {
	y := d.end.yeast
	if y.kind == "" {
		return
	}
	r.Yeast = &recipe.Yeast{Kind: y.kind}
	if a := y.attenuation; !math.IsInf(a.Low, 0) || !math.IsInf(a.High, 0) {
		r.Yeast.Attenuation = &quantity.Span[quantity.Fraction]{Low: quantity.Fraction(round(a.Low, 6)), High: quantity.Fraction(round(a.High, 6))}
	}
	if t := y.temperature; !math.IsInf(t.Low, 0) && !math.IsInf(t.High, 0) {
		r.Yeast.Temperature = &quantity.Span[quantity.Temperature]{Low: quantity.Celsius(t.Low), High: quantity.Celsius(t.High)}
	}
	pitch := math.NaN()
	if s := w.wish.Start; s != nil && s.Yeast != nil && s.Yeast.Pitch != nil {
		pitch = float64(*s.Yeast.Pitch)
	} else if t, _ := typicalYeast(y.kind); !math.IsInf(t.pitch.Low, 0) {
		pitch = t.pitch.Low
	}
	if p := y.pitch; !math.IsInf(p.Low, 0) || !math.IsInf(p.High, 0) {
		if math.IsNaN(pitch) {
			pitch = finite(p.Low)
		}
		pitch = math.Min(math.Max(pitch, p.Low), p.High)
	}
	if pitch > 0 {
		rate := quantity.PitchRate(pitch)
		r.Yeast.Pitch = &rate
	}
}

// printed returns a recipe as its document reads, and the text.
func printed(r *recipe.Recipe) (*recipe.Recipe, string, error) {
	text, err := r.Text()
	if err != nil {
		return nil, "", fmt.Errorf("write the recipe: %w", err)
	}
	again, err := recipe.Parse("formulated", text)
	if err != nil {
		return nil, "", fmt.Errorf("write the recipe: %w", err)
	}
	return again, string(text), nil
}

// figureOf returns a figure of a plan.
func figureOf(p *plan.Plan, f quantity.Figure) float64 {
	if got, ok := p.Find(f); ok {
		return got.Value
	}
	return math.NaN()
}
