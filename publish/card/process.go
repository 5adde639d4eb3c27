// SPDX-License-Identifier: MIT

package card

import (
	"fmt"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/style"
)

// water is what the liquor should hold: the recipe's aims, the salts on the
// author's house, and the rules of the style.
func (w *work) water() section {
	s := section{name: "water", title: "Water"}
	aims := w.ions()
	doses := w.doses()
	rules := w.entries(w.rulesWhere(func(r *style.Rule) bool { return r.Subject() == style.OnFigure && isOfWater(r.FigureName()) }))
	for _, part := range []struct {
		title  string
		blocks []block
	}{{"Aims of the recipe", aims}, {"What goes in", doses}, {"Rules of the style", rules}} {
		if len(part.blocks) > 0 {
			s.blocks = append(append(s.blocks, w.heading(part.title)), part.blocks...)
		}
	}
	if w.Plan != nil && len(s.blocks) > 0 {
		s.foot = []string{w.basis() + " Liquor in all " + w.Printer.Volume(w.Plan.Liquor.Total) + "."}
	}
	return s
}

func isOfWater(f quantity.Figure) bool {
	for _, known := range ofWater {
		if known == f {
			return true
		}
	}
	return false
}

// ions are the aims of the recipe with what the treated liquor holds.
func (w *work) ions() (blocks []block) {
	if w.Recipe == nil || w.Recipe.Water == nil {
		return nil
	}
	a := w.Recipe.Water
	for _, ion := range []struct {
		figure quantity.Figure
		aim    *quantity.Concentration
	}{{quantity.Calcium, a.Ca}, {quantity.Magnesium, a.Mg}, {quantity.Sodium, a.Na}, {quantity.Chloride, a.Cl}, {quantity.Sulfate, a.SO4}, {quantity.Bicarbonate, a.HCO3}} {
		if ion.aim == nil {
			continue
		}
		e := entry{mark: openMark, label: capital(ion.figure.Label()), value: w.Printer.Concentration(*ion.aim)}
		if w.Plan != nil {
			if f, ok := w.Plan.Find(ion.figure); ok {
				e.label += ", here " + w.Printer.Figure(ion.figure, f.Value)
			}
		}
		blocks = append(blocks, w.entry(e))
	}
	if w.Plan != nil && w.Plan.Liquor.Treated {
		return blocks // the salts stand among the doses
	}
	if names := saltNames(a.Salts, a.Acid); len(names) > 0 {
		blocks = append(blocks, w.entry(entry{label: "Means", notes: []note{{text: strings.Join(names, ", ")}}}))
	}
	return blocks
}

func saltNames(salts []string, acid string) (names []string) {
	for _, id := range salts {
		if known, ok := data.Salt(id); ok {
			id = known.Name
		}
		names = append(names, id)
	}
	if known, ok := data.Acid(acid); ok {
		acid = known.Name
	}
	if acid != "" {
		names = append(names, acid)
	}
	return names
}

// doses are the salts and acids of the plan.
func (w *work) doses() (blocks []block) {
	if w.Plan == nil || !w.Plan.Liquor.Treated {
		return nil
	}
	l, pr := w.Plan.Liquor, w.Printer
	for _, salt := range l.Salts {
		blocks = append(blocks, w.entry(entry{label: capital(salt.Name) + ", into all of the liquor", value: pr.Mass(salt.Mass)}))
	}
	acid := func(a *plan.AcidDose, where string) {
		if a != nil && a.ML > 0 {
			blocks = append(blocks, w.entry(entry{label: capital(a.Name) + ", " + where, value: pr.Number(a.ML, 1) + " mL"}))
		}
	}
	acid(w.Plan.Mash.Acid, "with the grain")
	acid(l.SpargeAcid, "into the sparge liquor")
	if w.Plan.Mash.AcidSafety != "" {
		blocks = append(blocks, w.care(w.Plan.Mash.AcidSafety))
	}
	return blocks
}

// care is a caution.
func (w *work) care(text string) block { return w.entry(entry{mark: careMark, label: text}) }

// process is how it is mashed, boiled, fermented and put up.
func (w *work) process() section {
	s := section{name: "process", title: "Process"}
	if w.Recipe == nil {
		return s
	}
	add := func(label, value string, notes ...string) {
		e := entry{label: label, value: value}
		for _, text := range notes {
			if text != "" {
				e.notes = append(e.notes, note{text: text})
			}
		}
		s.blocks = append(s.blocks, w.entry(e))
	}
	w.mashing(add)
	w.boiling(add)
	w.cellar(add)
	for _, text := range w.cautions() {
		s.blocks = append(s.blocks, w.care(text))
	}
	if w.Plan != nil {
		s.foot = []string{w.basis()}
	}
	return s
}

type adder func(label, value string, notes ...string)

func (w *work) mashing(add adder) {
	m, pr := w.Recipe.Mash, w.Printer
	for i, r := range m.Rests {
		strike := ""
		if i == 0 && w.Plan != nil {
			strike = fmt.Sprintf("Here %s of liquor at %s", pr.Volume(w.Plan.Liquor.Mash), pr.Temperature(w.Plan.Liquor.Strike))
		}
		add("Mash at "+w.degrees(r.Temperature), pr.Duration(r.Time), strike)
	}
	if m.Ratio != nil {
		add("Liquor to grist", pr.Ratio(*m.Ratio))
	}
	if m.PH != nil {
		text := ""
		if w.Plan != nil && w.Plan.Mash.Rail != nil {
			text = fmt.Sprintf("Predicted %s ± %s; after the late grain %s", pr.PH(w.Plan.Mash.PH), pr.Number(w.Plan.Mash.PHSD, 2), pr.PH(w.Plan.Mash.Rail.Late))
		}
		add("pH of the mash, in a cooled sample", pr.PH(*m.PH), text)
	}
	if m.Sparge == "none" {
		add("No sparge", "")
	} else if w.Plan != nil && w.Plan.Liquor.Sparge > 0 {
		add("Sparge, no hotter than "+w.degrees(w.Plan.Liquor.SpargeAt), pr.Volume(w.Plan.Liquor.Sparge))
	}
	for i, g := range w.Recipe.Grist {
		weight := ""
		if l, ok := w.line(i); ok {
			weight = pr.Mass(l.Mass)
		}
		if text := entryText(g.In); text != "" {
			add(maltName(g.Malt)+", "+text, weight)
		}
	}
}

func (w *work) boiling(add adder) {
	pr := w.Printer
	boil := w.Recipe.Boil
	if boil == nil && w.Plan != nil {
		boil = &w.Plan.Boil.Time
	}
	if boil != nil {
		text := ""
		if w.Plan != nil {
			text = fmt.Sprintf("From %s at %s to %s at %s, volumes at %s", pr.Volume(w.Plan.Volumes.FullKettle), pr.SG(w.Plan.Gravity.FullKettle), pr.Volume(w.Plan.Volumes.KnockOut), pr.SG(w.Plan.Gravity.OG), w.degrees(quantity.Celsius(20)))
		}
		add("Boil", pr.Duration(*boil), text)
	}
	for i, c := range w.Recipe.Hops {
		weight := ""
		if l, ok := w.charge(i); ok {
			weight = pr.Mass(l.Mass)
		}
		if c.At.Stage == recipe.AtStand || c.At.Stage == recipe.AtDry {
			add(capital(w.moment(c.At))+": "+hopName(c.Hop), weight)
		}
	}
}

func (w *work) cellar(add adder) {
	pr := w.Printer
	if y := w.Recipe.Yeast; y != nil {
		name := plainName(y.Kind)
		if known, ok := data.Yeast(y.Kind); ok && known.ID == y.Kind {
			name = known.Name
		}
		var parts []string
		if y.Pitch != nil {
			parts = append(parts, "pitch "+pr.PitchRate(*y.Pitch))
		}
		if y.Attenuation != nil {
			parts = append(parts, fmt.Sprintf("attenuates by %s to %s", strings.TrimSuffix(pr.Fraction(y.Attenuation.Low, 0), " %"), pr.Fraction(y.Attenuation.High, 0)))
		}
		if w.Plan != nil {
			parts = append(parts, fmt.Sprintf("here %s\u00a0×\u00a010⁹\u00a0cells", pr.Number(w.Plan.Cellar.Cells, 0)))
		}
		value := ""
		if y.Temperature != nil {
			value = w.between(y.Temperature.Low, y.Temperature.High)
		}
		add("Yeast: "+name, value, capital(strings.Join(parts, "; ")))
	}
	if c := w.Recipe.Aims.CO2; c != nil {
		add("Carbonation", pr.Carbonation(*c), w.condition())
	}
}

// between prints a range of temperatures: "18 to 20 °C".
func (w *work) between(low, high quantity.Temperature) string {
	a, b := w.degrees(low), w.degrees(high)
	number, unit, ok := strings.Cut(a, " ")
	if ok && strings.HasSuffix(b, " "+unit) {
		a = number
	}
	return a + " to " + b
}

// condition says how the gas comes into the beer, and the pressure it makes.
func (w *work) condition() string {
	if w.Plan == nil || w.Plan.Cellar.CO2 <= 0 {
		return ""
	}
	c, pr := w.Plan.Cellar, w.Printer
	text := fmt.Sprintf("Keg at %s: %s", w.degrees(quantity.Celsius(5)), pr.GaugePressure(c.Keg))
	if c.Sugar != "" {
		text = fmt.Sprintf("%s %s for %s; %s in the bottle at %s", pr.Mass(c.Priming), c.Sugar, pr.Volume(w.Plan.Volumes.Packaged), pr.GaugePressure(c.Bottle), w.degrees(quantity.Celsius(20)))
	}
	return text
}

// cautions are those of the plan, and that of bottles.
func (w *work) cautions() (list []string) {
	bottles := w.Recipe.Package != nil && w.Recipe.Package.In == "bottles"
	if w.Plan != nil {
		list = append(list, w.Plan.Cautions...)
		bottles = bottles || w.Plan.Cellar.Sugar != ""
	}
	if bottles {
		list = append(list, "Prime only beer whose gravity has stood still: each thousandth still to ferment adds half a volume of gas. Bottles can burst.")
	}
	return list
}

// swaps say how another malt or hop may stand in.
func (w *work) swaps() section {
	s := section{name: "swaps", title: "Ways to swap"}
	if w.Recipe == nil {
		return s
	}
	for i, g := range w.Recipe.Grist {
		if text := w.grainSwap(i, g); text != "" {
			s.blocks = append(s.blocks, w.entry(entry{label: maltName(g.Malt), notes: []note{{text: text}}}))
		}
	}
	for i, c := range w.Recipe.Hops {
		s.blocks = append(s.blocks, w.entry(entry{label: hopName(c.Hop) + ", " + w.moment(c.At), notes: []note{{text: w.hopSwap(i, c)}}}))
	}
	if len(s.blocks) > 0 {
		s.foot = []string{w.basis() + " A swap keeps numbers, not flavour: taste it."}
	}
	return s
}

// otherLot is how far the colour of the lots in the example is off, as a share.
const otherLot = 0.2

func (w *work) grainSwap(i int, g recipe.Grain) string {
	var parts []string
	switch g.Role {
	case recipe.RoleBase:
		parts = append(parts, "takes the difference when another grain changes")
	case recipe.RoleColor:
		text := "keeps the colour of the beer: of a darker lot take less"
		if l, ok := w.line(i); ok && l.Color > 0 {
			for _, share := range []float64{1 - otherLot, 1 + otherLot} {
				other := l.Color * quantity.EBC(share)
				mass := l.Mass * quantity.Mass(color.LovibondFromEBC(l.Color)/color.LovibondFromEBC(other))
				text += fmt.Sprintf(", of a lot of %s %s", w.Printer.EBC(other), w.Printer.Mass(mass))
			}
		}
		parts = append(parts, text)
	}
	for _, r := range w.peers(g.Malt) {
		parts = append(parts, selectionText(r.Share)+" together, "+rangeText(r.In))
	}
	return capital(strings.Join(parts, "; "))
}

// peers are the rules of the style that name the malt beside others.
func (w *work) peers(malt string) (list []*style.Rule) {
	if w.Style == nil {
		return nil
	}
	for i := range w.Style.Rules {
		r := &w.Style.Rules[i]
		if r.Share == nil || len(r.Share.Terms) < 2 || r.Severity == style.Option {
			continue
		}
		for _, t := range r.Share.Terms {
			if t.Sort == style.ByMalt && t.Name == malt {
				list = append(list, r)
				break
			}
		}
		if len(list) > 0 {
			return list // the first says enough
		}
	}
	return list
}

// hopSwap says what another hop must keep: bitterness where it is boiled long,
// else its oil or its grams.
func (w *work) hopSwap(i int, c recipe.Charge) string {
	early := c.Bitterness != nil
	text := "keeps its dose; aroma is not computed"
	if early {
		text = "keeps its bitterness"
	}
	l, planned := w.charge(i)
	if planned && early {
		const example = 5 // % of alpha acids
		text += fmt.Sprintf(": of a hop with %d %% of alpha acids take %s, of one with %d %% %s", example, w.Printer.Mass(l.Mass*quantity.Mass(l.Alpha.Percent()/example)), 2*example, w.Printer.Mass(l.Mass*quantity.Mass(l.Alpha.Percent()/(2*example))))
	}
	known, ok := data.Hop(c.Hop)
	if !ok || len(known.SubstitutesByPractice) == 0 {
		return capital(text)
	}
	var others []string
	for _, id := range known.SubstitutesByPractice {
		other := hopName(id)
		if h, ok := data.Hop(id); ok && planned && early && h.Alpha.Typical > 0 {
			mass := l.Mass * quantity.Mass(l.Alpha.Percent()/h.Alpha.Typical)
			other += fmt.Sprintf(" (%s at a typical %s)", w.Printer.Mass(mass), w.Printer.Fraction(quantity.Percent(h.Alpha.Typical), 1))
		}
		others = append(others, other)
	}
	return capital(text) + ". In common practice " + strings.Join(others, ", ")
}
