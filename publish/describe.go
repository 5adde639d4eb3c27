// SPDX-License-Identifier: MIT

package publish

import (
	"strings"

	"gyle/data"
	"gyle/guest"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// speaker says a text of the program in a language.
type speaker func(string) string

// say says a text of the program in the language of the words.
func (w *Words) say(text string) string { return guest.In(w.Lang, text) }

// describe writes the recipe and the style down as the page shows them.
func (v *pageView) describe(pr quantity.Printer) {
	r := v.Recipe
	say := v.W.say
	v.Aims = aims(r.Aims, pr, say)
	for _, g := range r.Grist {
		v.Grist = append(v.Grist, grain(g, pr, say))
	}
	for _, c := range r.Hops {
		v.Hops = append(v.Hops, charge(c, pr, say))
	}
	v.Mash = mash(r.Mash, pr, say)
	v.Water, v.Salts = waterAims(r.Water, pr, say)
	v.Yeast = yeast(r.Yeast, pr, say)
	if v.Style == nil {
		return
	}
	for paragraph := range strings.SplitSeq(v.Style.Prose, "\n\n") {
		if text := strings.TrimSpace(paragraph); text != "" {
			v.Prose = append(v.Prose, text)
		}
	}
	for i := range v.Style.Rules {
		v.Rules = append(v.Rules, rule(&v.Style.Rules[i], say)...)
	}
}

func aims(a recipe.Aims, pr quantity.Printer, say speaker) (list []line) {
	if a.OG != nil {
		list = append(list, line{say("Original gravity"), pr.Gravity(*a.OG)})
	}
	if a.FG != nil {
		list = append(list, line{say("Final gravity"), pr.Gravity(*a.FG)})
	}
	if a.IBU != nil {
		list = append(list, line{say("Bitterness"), pr.IBU(*a.IBU)})
	}
	if a.Color != nil {
		list = append(list, line{say("Colour"), pr.Color(*a.Color)})
	}
	if a.CO2 != nil {
		list = append(list, line{say("Carbon dioxide"), pr.Carbonation(*a.CO2)})
	}
	return list
}

func grain(g recipe.Grain, pr quantity.Printer, say speaker) grainView {
	v := grainView{Malt: g.Malt, When: say(entry(g.In)), Why: g.Why}
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

func charge(c recipe.Charge, pr quantity.Printer, say speaker) chargeView {
	v := chargeView{Hop: c.Hop, When: say(c.At.String()), Why: c.Why}
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

func mash(m recipe.Mash, pr quantity.Printer, say speaker) (list []string) {
	for _, rest := range m.Rests {
		list = append(list, pr.Temperature(rest.Temperature)+say(" for ")+pr.Duration(rest.Time))
	}
	if m.Ratio != nil {
		list = append(list, pr.Ratio(*m.Ratio)+say(" of liquor to grist"))
	}
	if m.PH != nil {
		list = append(list, "pH "+pr.PH(*m.PH)+say(", in a cooled sample"))
	}
	if m.Sparge == "none" {
		list = append(list, say("no sparge"))
	}
	return list
}

func waterAims(w *recipe.Water, pr quantity.Printer, say speaker) (list []line, salts string) {
	if w == nil {
		return nil, ""
	}
	for _, ion := range []struct {
		name string
		aim  *quantity.Concentration
	}{{"Calcium", w.Ca}, {"Magnesium", w.Mg}, {"Sodium", w.Na}, {"Chloride", w.Cl}, {"Sulfate", w.SO4}, {"Bicarbonate", w.HCO3}} {
		if ion.aim != nil {
			list = append(list, line{say(ion.name), pr.Concentration(*ion.aim)})
		}
	}
	var names []string
	for _, id := range w.Salts {
		name := id
		if typical, ok := data.Salt(id); ok {
			name = typical.Name
		}
		names = append(names, say(name))
	}
	if typical, ok := data.Acid(w.Acid); ok {
		names = append(names, say(typical.Name))
	}
	return list, strings.Join(names, ", ")
}

func yeast(y *recipe.Yeast, pr quantity.Printer, say speaker) (list []string) {
	if y == nil {
		return nil
	}
	name := y.Kind
	if typical, ok := data.Yeast(y.Kind); ok {
		name = typical.Name
	}
	list = []string{name}
	if y.Attenuation != nil {
		list = append(list, say("attenuates by ")+pr.Fraction(y.Attenuation.Low, 0)+say(" to ")+pr.Fraction(y.Attenuation.High, 0))
	}
	if y.Temperature != nil {
		list = append(list, pr.Temperature(y.Temperature.Low)+say(" to ")+pr.Temperature(y.Temperature.High))
	}
	if y.Pitch != nil {
		list = append(list, pr.PitchRate(*y.Pitch))
	}
	return list
}

// rule writes a rule and its parts down.
func rule(r *style.Rule, say speaker) []ruleView {
	v := ruleView{Of: say(r.Phrase()), In: say(r.In), Severity: say(string(r.Severity)), Why: r.Why}
	if r.When != nil {
		v.When = say(r.When.String())
	}
	list := []ruleView{v}
	for _, part := range r.OfWhich {
		list = append(list, ruleView{Of: say("of which " + part.Share.Phrase()), In: say(part.In), Severity: say(string(r.Severity))})
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
