// SPDX-License-Identifier: MIT

package web

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
)

// recipeLine is one line of the written sheet: an amount, what it is, how it
// goes in, and the brewer's reason.
type recipeLine struct {
	Amount, Name, How, Why string
	Weighs                 string // what the plan weighs, where there is one
	Lots                   string // and from which lots
}

// gristLines writes the grist as lines.
func (f *figuredRecipe) gristLines(pr quantity.Printer) (lines []recipeLine) {
	for i, g := range f.Recipe.Grist {
		line := recipeLine{Name: maltWords(g.Malt), How: gristHow(g, pr), Why: g.Why}
		switch {
		case g.Share != nil:
			line.Amount = pr.Fraction(*g.Share, 1)
		case g.Mass != nil:
			line.Amount = pr.Mass(*g.Mass)
		}
		if f.Plan != nil && i < len(f.Plan.Grist.Lines) {
			l := f.Plan.Grist.Lines[i]
			line.Weighs = pr.Mass(l.Mass)
			line.Lots = lotWords(l.Lots, func(u plan.LotUse) string { return u.Lot })
		}
		lines = append(lines, line)
	}
	return lines
}

// gristHow says in words how a grain comes in and what it is there for.
func gristHow(g recipe.Grain, pr quantity.Printer) string {
	var parts []string
	if g.Color != nil {
		parts = append(parts, "of "+pr.Color(*g.Color))
	}
	switch g.In.Way {
	case recipe.LateMash:
		parts = append(parts, "into the mash for its last "+pr.Duration(g.In.Time))
	case recipe.ColdSteep:
		parts = append(parts, "steeped cold for "+pr.Duration(g.In.Time))
	case recipe.InKettle:
		parts = append(parts, "straight into the kettle")
	}
	switch g.Role {
	case recipe.RoleBase:
		parts = append(parts, "takes the difference")
	case recipe.RoleColor:
		parts = append(parts, "keeps the colour")
	case recipe.RoleFlavour:
		parts = append(parts, "keeps its share")
	}
	return strings.Join(parts, ", ")
}

// hopLines writes the hop charges as lines.
func (f *figuredRecipe) hopLines(pr quantity.Printer) (lines []recipeLine) {
	for i, c := range f.Recipe.Hops {
		line := recipeLine{Name: hopWords(c.Hop), How: momentWords(c.At, pr), Why: c.Why}
		switch {
		case c.Bitterness != nil:
			line.Amount = pr.IBU(*c.Bitterness)
		case c.Dose != nil:
			line.Amount = pr.Dose(*c.Dose)
		case c.Mass != nil:
			line.Amount = pr.Mass(*c.Mass)
		}
		if f.Plan != nil && i < len(f.Plan.Hops.Charges) {
			l := f.Plan.Hops.Charges[i]
			line.Weighs = pr.Mass(l.Mass)
			line.Lots = lotWords(l.Lots, func(u plan.HopUse) string { return u.Lot })
		}
		lines = append(lines, line)
	}
	return lines
}

// momentWords says when hops go in.
func momentWords(m recipe.Moment, pr quantity.Printer) string {
	switch m.Stage {
	case recipe.AtMash:
		return "into the mash"
	case recipe.AtFirstWort:
		return "into the first wort"
	case recipe.AtBoil:
		return "boiled for " + pr.Duration(m.Time)
	case recipe.AtFlameOut:
		return "at flame-out"
	case recipe.AtStand:
		return "stood at " + pr.Temperature(m.Temperature) + " for " + pr.Duration(m.Time)
	case recipe.AtDry:
		text := "dry for " + pr.Duration(m.Time)
		if !m.Temperature.IsZero() {
			text += " at " + pr.Temperature(m.Temperature)
		}
		return text
	}
	return m.String()
}

// lotWords lists the lots that something is taken from.
func lotWords[T any](uses []T, lot func(T) string) string {
	var names []string
	for _, u := range uses {
		if name := lot(u); name != "" {
			names = append(names, name)
		}
	}
	return strings.Join(names, " + ")
}

// maltWords is what a malt is called in print.
func maltWords(id string) string { return capitalised(spoken(id)) }

// hopWords is what a hop is called in print.
func hopWords(id string) string {
	if h, ok := data.Hop(id); ok {
		return h.Name
	}
	return capitalised(spoken(id))
}

// spoken turns an id into words.
func spoken(id string) string { return strings.ReplaceAll(id, "-", " ") }

// mashWords says how the grist is mashed.
func mashWords(r *recipe.Recipe, pr quantity.Printer) string {
	var parts []string
	if m := r.Mash.Ratio; m != nil {
		parts = append(parts, pr.Ratio(*m)+" of liquor")
	}
	var rests []string
	for _, rest := range r.Mash.Rests {
		rests = append(rests, pr.Temperature(rest.Temperature)+" for "+pr.Duration(rest.Time))
	}
	if len(rests) > 0 {
		parts = append(parts, strings.Join(rests, ", then "))
	}
	if r.Mash.PH != nil {
		parts = append(parts, "pH "+pr.PH(*r.Mash.PH)+" in a cooled sample")
	}
	if r.Mash.Sparge == "none" {
		parts = append(parts, "no sparge")
	}
	return asSentence(parts)
}

// boilWords says how long the wort boils.
func boilWords(r *recipe.Recipe, pr quantity.Printer) string {
	if r.Boil == nil {
		return ""
	}
	return asSentence([]string{pr.Duration(*r.Boil)})
}

// waterWords says what the liquor is meant to hold.
func waterWords(r *recipe.Recipe, pr quantity.Printer) string {
	w := r.Water
	if w == nil {
		return ""
	}
	var parts, ions []string
	for _, ion := range []struct {
		name  string
		value *quantity.Concentration
	}{{"Ca", w.Ca}, {"Mg", w.Mg}, {"Na", w.Na}, {"Cl", w.Cl}, {"SO4", w.SO4}, {"HCO3", w.HCO3}} {
		if ion.value != nil {
			ions = append(ions, ion.name+" "+pr.Concentration(*ion.value))
		}
	}
	if len(ions) > 0 {
		parts = append(parts, strings.Join(ions, ", "))
	}
	var with []string
	for _, salt := range w.Salts {
		with = append(with, spoken(salt))
	}
	if w.Acid != "" {
		with = append(with, acidWords(w.Acid))
	}
	if len(with) > 0 {
		parts = append(parts, "with "+listed(with))
	}
	return asSentence(parts)
}

func acidWords(id string) string {
	if a, ok := data.Acid(id); ok {
		return strings.ToLower(a.Name[:1]) + a.Name[1:]
	}
	return spoken(id)
}

// yeastWords says how the yeast is expected to behave.
func yeastWords(r *recipe.Recipe, pr quantity.Printer) string {
	y := r.Yeast
	if y == nil {
		return ""
	}
	parts := []string{spoken(y.Kind)}
	if a := y.Attenuation; a != nil {
		parts = append(parts, rangeWords(a.Low.Percent(), a.High.Percent(), pr.Fraction(a.Low, 0), pr.Fraction(a.High, 0))+" apparent attenuation")
	}
	if t := y.Temperature; t != nil {
		parts = append(parts, rangeWords(t.Low.Celsius(), t.High.Celsius(), pr.Temperature(t.Low), pr.Temperature(t.High)))
	}
	if y.Pitch != nil {
		parts = append(parts, "pitched at "+unbroken(pr.PitchRate(*y.Pitch)))
	}
	return asSentence(parts)
}

// packageWords says how the beer is put up.
func packageWords(r *recipe.Recipe, pr quantity.Printer) string {
	var parts []string
	if p := r.Package; p != nil {
		if p.In != "" {
			parts = append(parts, "in "+p.In)
		}
		if p.Sugar != "" {
			parts = append(parts, "primed with "+spoken(p.Sugar))
		}
	}
	if r.Aims.CO2 != nil {
		parts = append(parts, pr.Carbonation(*r.Aims.CO2))
	}
	return asSentence(parts)
}

// unbroken keeps a measure on one line.
func unbroken(text string) string {
	return strings.NewReplacer(" ", "\u00a0", "/", "/\u2060").Replace(text)
}

// rangeWords prints a range: "18 °C to 20 °C", "up to 21 °C", or one value.
func rangeWords(low, high float64, lowText, highText string) string {
	switch {
	case low == high:
		return lowText
	case math.IsInf(low, -1):
		return "up to " + highText
	case math.IsInf(high, 1):
		return lowText + " or more"
	}
	return lowText + " to " + highText
}

// asSentence joins parts and begins with a capital.
func asSentence(parts []string) string {
	text := strings.Join(parts, "; ")
	if text == "" {
		return ""
	}
	return capitalised(text) + "."
}

// capitalised begins with a capital letter.
func capitalised(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// listed lists things: "a, b and c".
func listed(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}
