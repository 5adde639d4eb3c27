// SPDX-License-Identifier: MIT

package publish

import (
	"strings"

	"gyle/data"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// describe writes the recipe and the style down as the page shows them.
func (v *pageView) describe(pr quantity.Printer) {
	r := v.Recipe
	v.Aims = aims(r.Aims, pr)
	for _, g := range r.Grist {
		v.Grist = append(v.Grist, grain(g, pr))
	}
	for _, c := range r.Hops {
		v.Hops = append(v.Hops, charge(c, pr))
	}
	v.Mash = mash(r.Mash, pr)
	v.Water, v.Salts = waterAims(r.Water, pr)
	v.Yeast = yeast(r.Yeast, pr)
	if v.Style == nil {
		return
	}
	for paragraph := range strings.SplitSeq(v.Style.Prose, "\n\n") {
		if text := strings.TrimSpace(paragraph); text != "" {
			v.Prose = append(v.Prose, text)
		}
	}
	for i := range v.Style.Rules {
		v.Rules = append(v.Rules, rule(&v.Style.Rules[i])...)
	}
}

func aims(a recipe.Aims, pr quantity.Printer) (list []line) {
	if a.OG != nil {
		list = append(list, line{"Original gravity", pr.Gravity(*a.OG)})
	}
	if a.FG != nil {
		list = append(list, line{"Final gravity", pr.Gravity(*a.FG)})
	}
	if a.IBU != nil {
		list = append(list, line{"Bitterness", pr.IBU(*a.IBU)})
	}
	if a.Color != nil {
		list = append(list, line{"Colour", pr.Color(*a.Color)})
	}
	if a.CO2 != nil {
		list = append(list, line{"Carbon dioxide", pr.Carbonation(*a.CO2)})
	}
	return list
}

func grain(g recipe.Grain, pr quantity.Printer) grainView {
	v := grainView{Malt: g.Malt, When: entry(g.In), Why: g.Why}
	if typical, ok := data.Malt(g.Malt); ok {
		v.Malt = typical.Name
	}
	if g.Color != nil {
		v.Malt += ", " + pr.Color(*g.Color)
	}
	switch {
	case g.Share != nil:
		v.Share = pr.Fraction(*g.Share, 1)
	case g.Mass != nil:
		v.Share = pr.Mass(*g.Mass)
	}
	return v
}

func charge(c recipe.Charge, pr quantity.Printer) chargeView {
	v := chargeView{Hop: c.Hop, When: c.At.String(), Why: c.Why}
	if typical, ok := data.Hop(c.Hop); ok {
		v.Hop = typical.Name
	}
	switch {
	case c.Bitterness != nil:
		v.Amount = pr.IBU(*c.Bitterness)
	case c.Dose != nil:
		v.Amount = pr.Dose(*c.Dose)
	case c.Mass != nil:
		v.Amount = pr.Mass(*c.Mass)
	}
	return v
}

func mash(m recipe.Mash, pr quantity.Printer) (list []string) {
	for _, rest := range m.Rests {
		list = append(list, pr.Temperature(rest.Temperature)+" for "+pr.Duration(rest.Time))
	}
	if m.Ratio != nil {
		list = append(list, pr.Ratio(*m.Ratio)+" of liquor to grist")
	}
	if m.PH != nil {
		list = append(list, "pH "+pr.PH(*m.PH)+", in a cooled sample")
	}
	if m.Sparge == "none" {
		list = append(list, "no sparge")
	}
	return list
}

func waterAims(w *recipe.Water, pr quantity.Printer) (list []line, salts string) {
	if w == nil {
		return nil, ""
	}
	for _, ion := range []struct {
		name string
		aim  *quantity.Concentration
	}{{"Calcium", w.Ca}, {"Magnesium", w.Mg}, {"Sodium", w.Na}, {"Chloride", w.Cl}, {"Sulfate", w.SO4}, {"Bicarbonate", w.HCO3}} {
		if ion.aim != nil {
			list = append(list, line{ion.name, pr.Concentration(*ion.aim)})
		}
	}
	var names []string
	for _, id := range w.Salts {
		name := id
		if typical, ok := data.Salt(id); ok {
			name = typical.Name
		}
		names = append(names, name)
	}
	if typical, ok := data.Acid(w.Acid); ok {
		names = append(names, typical.Name)
	}
	return list, strings.Join(names, ", ")
}

func yeast(y *recipe.Yeast, pr quantity.Printer) (list []string) {
	if y == nil {
		return nil
	}
	name := y.Kind
	if typical, ok := data.Yeast(y.Kind); ok {
		name = typical.Name
	}
	list = []string{name}
	if y.Attenuation != nil {
		list = append(list, "attenuates by "+pr.Fraction(y.Attenuation.Low, 0)+" to "+pr.Fraction(y.Attenuation.High, 0))
	}
	if y.Temperature != nil {
		list = append(list, pr.Temperature(y.Temperature.Low)+" to "+pr.Temperature(y.Temperature.High))
	}
	if y.Pitch != nil {
		list = append(list, pr.PitchRate(*y.Pitch))
	}
	return list
}

// rule writes a rule and its parts down.
func rule(r *style.Rule) []ruleView {
	v := ruleView{Of: r.Phrase(), In: r.In, Severity: string(r.Severity), Why: r.Why}
	if r.When != nil {
		v.When = r.When.String()
	}
	list := []ruleView{v}
	for _, part := range r.OfWhich {
		list = append(list, ruleView{Of: "of which " + part.Share.Phrase(), In: part.In, Severity: string(r.Severity)})
	}
	return list
}

// entry says when a grain comes in, where that isn't with all the others.
func entry(e recipe.Entry) string {
	if e.IsZero() {
		return ""
	}
	return e.String()
}
