// SPDX-License-Identifier: MIT

package card

import (
	"fmt"
	"regexp"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/publish/font"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
)

// basis says what weights hold for. It stands on every card that shows any.
func (w *work) basis() string {
	if w.Plan == nil {
		return "No weights here: they follow from a brewhouse, its yield and its volume."
	}
	p, pr := w.Plan, w.Printer
	return fmt.Sprintf("On %s: %s in the fermenter (%s), yield %s of the laboratory extract in the kettle.", p.House, pr.Volume(p.Volumes.Collected), w.degrees(quantity.Celsius(20)), pr.Fraction(p.Grist.Yield, 1))
}

// lots says which lots the weights hold for.
func (w *work) lots() string {
	if w.Plan == nil || w.Plan.Stock == "" {
		return ""
	}
	return " Lots of " + w.Plan.Stock + "."
}

// line returns what the plan makes of a grain of the recipe.
func (w *work) line(i int) (plan.GrainLine, bool) {
	if w.Plan == nil || len(w.Plan.Grist.Lines) != len(w.Recipe.Grist) {
		return plan.GrainLine{}, false
	}
	return w.Plan.Grist.Lines[i], true
}

// charge returns what the plan makes of a hop charge of the recipe.
func (w *work) charge(i int) (plan.ChargeLine, bool) {
	if w.Plan == nil || len(w.Plan.Hops.Charges) != len(w.Recipe.Hops) {
		return plan.ChargeLine{}, false
	}
	return w.Plan.Hops.Charges[i], true
}

// grist is what is mashed: shares, weights, reasons, and where extract and
// colour come from.
func (w *work) grist() section {
	s := section{name: "grist", title: "Grist"}
	if w.Recipe == nil {
		return s
	}
	var strips []stripPart
	for i, g := range w.Recipe.Grist {
		e := entry{number: i + 1, label: maltName(g.Malt)}
		l, planned := w.line(i)
		switch {
		case g.Share != nil:
			e.value = percent(w.Printer, *g.Share)
		case planned:
			e.value = percent(w.Printer, l.Meant)
		case g.Mass != nil:
			e.value = w.Printer.Mass(*g.Mass)
		}
		if planned {
			e.value += " · " + w.Printer.Mass(l.Mass)
			strips = append(strips, stripPart{i + 1, l, swatch(l.Color)})
		}
		e.notes = w.grainNotes(g, l, planned)
		s.blocks = append(s.blocks, w.entry(e))
	}
	if len(strips) > 0 {
		s.blocks = append(s.blocks, w.strips(strips))
	}
	s.foot = []string{w.basis() + w.lots()}
	return s
}

func (w *work) grainNotes(g recipe.Grain, l plan.GrainLine, planned bool) (notes []note) {
	var parts []string
	if g.Color != nil {
		parts = append(parts, w.Printer.Color(*g.Color))
	}
	if text := entryText(g.In); text != "" {
		parts = append(parts, text)
	}
	const told = 0.0005 // a share that moved by less isn't worth a word
	if planned && g.Share != nil && (l.Share-*g.Share > told || *g.Share-l.Share > told) {
		parts = append(parts, "here "+w.Printer.Fraction(l.Share, 2))
	}
	if font.Clean(g.Why) != "" {
		parts = append(parts, g.Why)
	}
	if len(parts) > 0 {
		notes = []note{{text: capital(strings.Join(parts, "; "))}}
	}
	return notes
}

func entryText(e recipe.Entry) string {
	pr := quantity.Printer{}
	switch e.Way {
	case recipe.LateMash:
		return "in for the last " + pr.Duration(e.Time) + " of the mash"
	case recipe.ColdSteep:
		return "steeped cold for " + pr.Duration(e.Time) + ", its liquor into the kettle"
	case recipe.InKettle:
		return "into the kettle"
	}
	return ""
}

// MaltName is the name of a malt as cards and sheets have it.
func MaltName(id string) string { return maltName(id) }

// HopName is the name of a hop as cards and sheets have it.
func HopName(id string) string { return hopName(id) }

// maltName is the name of a malt: in full where the recipe says its id, else in
// the author's own word.
func maltName(id string) string {
	if m, ok := data.Malt(id); ok && m.ID == id {
		return m.Name
	}
	return plainName(id)
}

func hopName(id string) string {
	if h, ok := data.Hop(id); ok {
		return h.Name
	}
	return plainName(id)
}

var isID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// plainName writes an id as words, and leaves words as they are.
func plainName(id string) string {
	if isID.MatchString(id) {
		id = strings.ReplaceAll(id, "-", " ")
	}
	return capital(id)
}

// percent prints a share with a decimal where it has one.
func percent(pr quantity.Printer, f quantity.Fraction) string {
	text := pr.Fraction(f, 1)
	return strings.Replace(strings.Replace(text, ".0 %", " %", 1), ",0 %", " %", 1)
}

// swatch is the colour of a malt's laboratory wort in a cuvette of 1 cm.
func swatch(c quantity.EBC) Color {
	r, g, b := color.Swatch(c, 1)
	return Color{r, g, b}
}

// hops are the charges with their temperature path.
func (w *work) hops() section {
	s := section{name: "hops", title: "Hops"}
	if w.Recipe == nil || len(w.Recipe.Hops) == 0 {
		return s
	}
	for i, c := range w.Recipe.Hops {
		s.blocks = append(s.blocks, w.entry(w.hopEntry(i, c)))
	}
	if w.Plan != nil {
		s.blocks = append(s.blocks, w.path())
	}
	s.foot = []string{w.basis()}
	return s
}

func (w *work) hopEntry(i int, c recipe.Charge) entry {
	pr := w.Printer
	e := entry{number: i + 1, label: hopName(c.Hop) + ", " + w.moment(c.At)}
	switch {
	case c.Bitterness != nil:
		e.value = pr.IBU(*c.Bitterness)
	case c.Dose != nil:
		e.value = pr.Dose(*c.Dose)
	case c.Mass != nil:
		e.value = pr.Mass(*c.Mass)
	}
	var parts []string
	if font.Clean(c.Why) != "" {
		parts = append(parts, c.Why)
	}
	if c.Oil != nil {
		parts = append(parts, "meant for hops of "+pr.OilContent(*c.Oil)+" of oil")
	}
	if l, ok := w.charge(i); ok {
		if c.Mass == nil {
			e.value += " · " + pr.Mass(l.Mass)
		}
		what := "here"
		if l.Meant != "" {
			what = "here " + hopName(l.Hop)
		}
		text := fmt.Sprintf("%s %s of alpha acids, %s", what, pr.Fraction(l.Alpha, 1), pr.Dose(l.Dose))
		if l.IBU > 0 {
			text += ", " + pr.Number(float64(l.IBU), 1) + " IBU"
		}
		parts = append(parts, text)
	}
	if len(parts) > 0 {
		e.notes = []note{{text: capital(strings.Join(parts, "; "))}}
	}
	return e
}

// moment says a moment as a sentence does.
func (w *work) moment(m recipe.Moment) string {
	pr := w.Printer
	switch m.Stage {
	case recipe.AtBoil:
		return "boiled " + pr.Duration(m.Time)
	case recipe.AtStand:
		return "stand at " + w.degrees(m.Temperature) + " for " + pr.Duration(m.Time)
	case recipe.AtDry:
		text := "dry for " + pr.Duration(m.Time)
		if !m.Temperature.IsZero() {
			text += " at " + w.degrees(m.Temperature)
		}
		return text
	case recipe.AtMash:
		return "into the mash"
	case recipe.AtFirstWort:
		return "into the first wort"
	}
	return "at flame-out"
}

// degrees prints a temperature without a decimal that says nothing.
func (w *work) degrees(t quantity.Temperature) string { return short(w.Printer.Temperature(t)) }

// short is a printed temperature without a decimal that says nothing.
func short(text string) string {
	return strings.Replace(strings.Replace(text, ".0 °", " °", 1), ",0 °", " °", 1)
}
