// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"strings"

	"gyle/data"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
)

// ledgerRow is one line of a brew sheet: what, how much, and what else there
// is to know of it.
type ledgerRow struct {
	What   string
	Figure string
	Why    string // address of the reason
	Note   string
	Short  string // what is lacking, in red
	Out    string // how far outside the style, in red
	Box    string // unit of what is measured there, on paper; empty: nothing is
	Tick   bool   // a box to tick on paper
}

// ledgerPart is a part of the sheet.
type ledgerPart struct {
	ID, Title string
	Figure    string // of the whole part
	Why       string
	Rows      []ledgerRow
	Texts     []string
	Cautions  []string
	Drawings  []string
	Paper     bool // its drawings are printed, too
}

// sheetWriter turns a plan into lines.
type sheetWriter struct {
	planned
	p  *plan.Plan
	pr quantity.Printer
	j  *verdicts
}

// why is the address of a reason; nothing where the plan knows none.
func (w *sheetWriter) why(topic string) string { return w.query.whyOf(topic) }

// degrees is the unit of a temperature that is written into a box.
func (w *sheetWriter) degrees() string {
	if w.pr.System == quantity.USCustomary {
		return "°F"
	}
	return "°C"
}

// litres is the unit of a volume that is written into a box.
func (w *sheetWriter) litres() string {
	if w.pr.System == quantity.USCustomary {
		return "US gal"
	}
	return "L"
}

// parts are the parts of the sheet in the order of the brewing.
func (w *sheetWriter) parts() []ledgerPart {
	return []ledgerPart{w.beer(), w.grist(), w.liquor(), w.mash(), w.kettle(), w.hops(), w.cooling(), w.cellar()}
}

// titleOfPlan is the beer with its version.
func titleOfPlan(p *plan.Plan) string {
	if p.Version > 0 {
		return fmt.Sprintf("%s %d", p.Recipe, p.Version)
	}
	return p.Recipe
}

// measuredFigures are the numbers of the beer that somebody reads off an
// instrument, with the unit that goes into the box.
var measuredFigures = map[quantity.Figure]string{
	quantity.OG: "SG", quantity.FG: "SG", quantity.ABV: "%", quantity.CO2: "vol",
}

func (w *sheetWriter) beer() ledgerPart {
	part := ledgerPart{ID: "beer", Title: "The beer"}
	for _, f := range w.p.Figures {
		if f.Figure == quantity.Calcium {
			break // ions stand with the liquor
		}
		row := ledgerRow{What: f.Figure.Label(), Figure: w.pr.FigureBand(f.Figure, f.Band()), Why: w.why(f.Why), Box: measuredFigures[f.Figure]}
		if f.Aim != nil {
			row.Note = "aim " + w.pr.Figure(f.Figure, *f.Aim)
		}
		w.sayVerdict(&row, f)
		part.Rows = append(part.Rows, row)
	}
	return part
}

// sayVerdict adds where a figure stands to the range that the style gives it.
func (w *sheetWriter) sayVerdict(row *ledgerRow, f plan.Figure) {
	v, ok := w.j.ofFigure(f.Figure)
	if !ok {
		return
	}
	if row.Note != "" && v.Word != judge.Unknown && v.Word != judge.Idle {
		row.Note += ", "
	}
	switch v.Word {
	case judge.Inside:
		row.Note += "inside " + v.Range
	case judge.Edge:
		row.Note += "at the edge of " + v.Range
	case judge.Outside:
		row.Note += "style " + v.Range
		row.Out = "outside, " + v.Off
	}
	if v.Chance != nil && *v.Chance < sureEnough {
		row.Note += fmt.Sprintf(" in %.0f brews of 100", 100**v.Chance)
	}
}

// sureEnough is the chance from which a sheet doesn't speak of it.
const sureEnough = 0.95

func (w *sheetWriter) grist() ledgerPart {
	part := ledgerPart{ID: "grist", Title: "Grist", Figure: w.pr.Mass(w.p.Grist.Mass), Why: w.why("grist")}
	part.Texts = append(part.Texts, "Yield "+w.pr.Fraction(w.p.Grist.Yield, 1)+" of the laboratory extract.")
	for _, l := range w.p.Grist.Lines {
		part.Rows = append(part.Rows, w.grainRows(l)...)
	}
	part.Drawings = append(part.Drawings, w.gristStrips())
	return part
}

// grainRows are the lines of one grain: one, or one for each lot of a split.
func (w *sheetWriter) grainRows(l plan.GrainLine) []ledgerRow {
	head := w.pr.Fraction(l.Share, 2)
	if !l.In.IsZero() {
		head += " · " + l.In.String()
	}
	if len(l.Lots) > 1 {
		rows := []ledgerRow{{What: maltName(l), Figure: w.pr.Mass(l.Mass), Why: w.why("grist"), Note: head + " · from " + countWord(len(l.Lots)) + " lots"}}
		for _, u := range l.Lots {
			rows = append(rows, ledgerRow{What: "— of " + lotName(u.Lot), Figure: w.pr.Mass(u.Mass), Why: w.why("grist"), Note: w.lotNote(u), Short: shortText(u.Short), Tick: true})
		}
		return rows
	}
	row := ledgerRow{What: maltName(l), Figure: w.pr.Mass(l.Mass), Why: w.why("grist"), Note: head, Tick: true}
	for _, u := range l.Lots {
		row.Note += " · " + lotName(u.Lot) + ", " + w.lotNote(u)
		row.Short = shortText(u.Short)
	}
	return []ledgerRow{row}
}

func (w *sheetWriter) lotNote(u plan.LotUse) string {
	return w.pr.Fraction(u.Extract, 1) + " extract, " + w.pr.EBC(u.Color)
}

func lotName(lot string) string {
	if lot == "" {
		return "no lot: typical"
	}
	return lot
}

func shortText(short bool) string {
	if short {
		return "more than the shed holds"
	}
	return ""
}

func countWord(n int) string {
	if words := []string{"no", "one", "two", "three", "four", "five", "six"}; n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

func (w *sheetWriter) liquor() ledgerPart {
	l := w.p.Liquor
	part := ledgerPart{ID: "liquor", Title: "Liquor", Figure: w.pr.Volume(l.Total), Why: w.why("volume")}
	add := func(r ledgerRow) { part.Rows = append(part.Rows, r) }
	add(ledgerRow{What: "mash", Figure: w.pr.Volume(l.Mash), Why: w.why("volume"), Note: "measured cold", Box: w.litres()})
	add(ledgerRow{What: "strike", Figure: w.pr.Temperature(l.Strike), Why: w.why("strike"), Note: "grain at " + w.pr.Temperature(w.p.GrainTemperature()), Box: w.degrees()})
	if l.Infused > 0.005 {
		add(ledgerRow{What: "for the later rests", Figure: w.pr.Volume(l.Infused), Why: w.why("volume"), Note: "measured cold", Box: w.litres()})
	}
	if l.Steep > 0.005 {
		add(ledgerRow{What: "cold steep", Figure: w.pr.Volume(l.Steep), Why: w.why("volume"), Box: w.litres()})
	}
	if l.Sparge > 0.005 {
		add(ledgerRow{What: "sparge", Figure: w.pr.Volume(l.Sparge), Why: w.why("volume"), Note: "no hotter than " + w.pr.Temperature(quantity.Celsius(77)), Box: w.litres()})
	}
	if l.Soft > 0 {
		add(ledgerRow{What: "soft water", Figure: w.pr.Volume(l.Soft), Why: w.why("salts"), Note: "of the liquor: distilled or reverse-osmosis", Box: w.litres()})
	}
	for _, salt := range l.Salts {
		add(ledgerRow{What: salt.Name, Figure: w.pr.Mass(salt.Mass), Why: w.why("salts"), Note: "into all of the liquor", Tick: true})
	}
	if l.SpargeAcid != nil {
		add(ledgerRow{What: l.SpargeAcid.Name, Figure: w.pr.Number(l.SpargeAcid.ML, 1) + " mL", Why: w.why("mash-ph"), Note: "into the sparge liquor", Tick: true})
		part.Cautions = append(part.Cautions, acidCaution(w.p)...)
	}
	if ions := w.ions(); ions != "" {
		part.Texts = append(part.Texts, "Treated liquor: "+ions+".")
	}
	if w.in.Water == nil {
		part.Texts = append(part.Texts, "No water is chosen: salts, acid and mash pH are left out. Choose one to have them.")
	}
	return part
}

// acidCaution is what is said where acid is measured out, also when only the
// sparge liquor takes some.
func acidCaution(p *plan.Plan) []string {
	if p.Mash.AcidSafety == "" {
		return nil
	}
	return []string{p.Mash.AcidSafety}
}

// ions lists the ions of the treated liquor.
func (w *sheetWriter) ions() string {
	var parts []string
	for _, f := range w.p.Figures {
		switch f.Figure {
		case quantity.Calcium, quantity.Magnesium, quantity.Sodium, quantity.Chloride, quantity.Sulfate, quantity.Bicarbonate:
			parts = append(parts, string(f.Figure)+" "+strings.TrimSuffix(w.pr.Figure(f.Figure, f.Value), " mg/L"))
		case quantity.SulfateToChloride:
			parts = append(parts, "SO4:Cl "+w.pr.Figure(f.Figure, f.Value)+" by mass")
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, ", ") + " (mg/L)"
}

func (w *sheetWriter) mash() ledgerPart {
	m := w.p.Mash
	part := ledgerPart{ID: "mash", Title: "Mash", Figure: w.pr.Volume(m.Volume), Why: w.why("volume")}
	for _, step := range m.Steps {
		note := step.What
		if step.Time > 0 {
			note += " for " + w.pr.Duration(step.Time)
		}
		part.Rows = append(part.Rows, ledgerRow{What: fmt.Sprintf("at %.0f min", step.At.Minutes()), Figure: w.pr.Temperature(step.Temperature), Why: w.why("strike"), Note: note, Box: w.degrees()})
	}
	if m.Acid != nil {
		part.Rows = append(part.Rows, ledgerRow{What: m.Acid.Name, Figure: w.pr.Number(m.Acid.ML, 1) + " mL", Why: w.why("mash-ph"), Note: "with the grain", Tick: true})
	}
	part.Drawings = append(part.Drawings, w.mashAxis())
	if m.Rail != nil {
		part.Rows = append(part.Rows, ledgerRow{What: "pH of a cooled sample", Figure: w.pr.PH(m.PH) + " ± " + w.pr.Number(m.PHSD, 2), Why: w.why("mash-ph"), Note: "after 10 min; after the late grain " + w.pr.PH(m.Rail.Late), Box: "pH"})
		part.Drawings = append(part.Drawings, w.phRail())
	}
	if m.Lactic > 0 {
		part.Texts = append(part.Texts, fmt.Sprintf("Lactic acid in the beer from malt and liquor treatment: at most %s.", w.pr.Concentration(m.Lactic)))
	}
	if m.Acid != nil && w.p.Liquor.SpargeAcid == nil {
		part.Cautions = append(part.Cautions, acidCaution(w.p)...) // else it stands with the liquor
	}
	return part
}

func (w *sheetWriter) kettle() ledgerPart {
	v, b := w.p.Volumes, w.p.Boil
	part := ledgerPart{ID: "kettle", Title: "Kettle", Figure: "boil " + w.pr.Duration(b.Time), Why: w.why("volume")}
	part.Rows = []ledgerRow{
		{What: "full kettle", Figure: w.pr.VolumeAt(v.FullKettleHot), Why: w.why("volume"), Note: w.pr.Volume(v.FullKettle) + " cold", Box: w.litres() + " @ " + w.degrees()},
		{What: "its gravity", Figure: w.pr.SG(w.p.Gravity.FullKettle), Why: w.why("og"), Box: "SG @ " + w.degrees()},
		{What: "heat to the boil", Figure: w.pr.Duration(b.HeatUp), Why: w.why("volume"), Note: "boils at " + w.pr.Temperature(b.Temperature), Box: "time"},
		{What: "evaporated", Figure: w.pr.Mass(b.Evaporation), Why: w.why("volume"), Note: w.pr.Mass(b.PerHour) + " an hour, " + w.pr.Fraction(b.Share, 1) + " in all"},
		{What: "knock-out", Figure: w.pr.VolumeAt(v.KnockOutHot), Why: w.why("volume"), Note: w.pr.Volume(v.KnockOut) + " cold", Box: w.litres() + " @ " + w.degrees()},
		{What: "its gravity", Figure: w.pr.SG(w.p.Gravity.OG), Why: w.why("og"), Box: "SG @ " + w.degrees()},
		{What: "DMS light", Figure: b.DMS.Light, Why: w.why("dms"), Note: fmt.Sprintf("about %.0f µg/L in the cold wort, up to %.0f", float64(b.DMS.Wort), float64(b.DMS.High))},
	}
	part.Texts = append(part.Texts, "The light "+b.DMS.Assumes+".")
	part.Cautions = append(part.Cautions, "Boiling wort and steam scald. Stand clear when it comes to the boil and when hops go in.")
	return part
}

func (w *sheetWriter) hops() ledgerPart {
	h := w.p.Hops
	part := ledgerPart{ID: "hops", Title: "Hops", Figure: w.pr.FigureBand(quantity.Bitterness, quantity.BandOf(float64(h.IBU), float64(h.SD))), Why: w.why("ibu")}
	if len(h.Charges) == 0 {
		part.Figure, part.Texts = "", []string{"None."}
		return part
	}
	for _, c := range h.Charges {
		part.Rows = append(part.Rows, w.chargeRow(c))
	}
	part.Texts = append(part.Texts, "Tinseth's formula, for comparison, says "+w.pr.IBU(h.Tinseth)+" of the same boil charges.")
	part.Drawings = append(part.Drawings, w.chargeLadder(), w.kettleAxis())
	part.Paper = true
	return part
}

func (w *sheetWriter) chargeRow(c plan.ChargeLine) ledgerRow {
	row := ledgerRow{What: hopName(c.Hop), Figure: w.pr.Mass(c.Mass), Why: w.why("ibu"), Note: c.At.Words(w.pr), Box: "time", Tick: true}
	if c.Meant != "" {
		row.Note += " · for " + hopName(c.Meant)
	}
	row.Note += " · " + w.hopLots(c)
	if !c.Dry {
		row.Note += " · " + w.pr.Number(float64(c.IBU), 1) + " IBU"
	}
	for _, u := range c.Lots {
		if u.Short {
			row.Short = shortText(true)
		}
	}
	return row
}

// hopLots names the lots of a charge, with the mass of each where it is split.
func (w *sheetWriter) hopLots(c plan.ChargeLine) string {
	var parts []string
	for _, u := range c.Lots {
		text := lotName(u.Lot) + " " + w.pr.Fraction(u.Alpha, 1) + " alpha"
		if u.Label != u.Alpha && u.Label > 0 {
			text += " (label " + w.pr.Fraction(u.Label, 1) + ")"
		}
		if len(c.Lots) > 1 {
			text = w.pr.Mass(u.Mass) + " of " + text
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, " + ")
}

func (w *sheetWriter) cooling() ledgerPart {
	h := w.p.Hops
	part := ledgerPart{ID: "cooling", Title: "Cooling", Figure: h.Cooling, Why: w.why("ibu")}
	for _, step := range h.Path {
		note := "from " + w.pr.Temperature(step.From) + " to " + w.pr.Temperature(step.To)
		if step.From == step.To {
			note = "at " + w.pr.Temperature(step.To)
		}
		part.Rows = append(part.Rows, ledgerRow{What: step.Name, Figure: w.pr.Duration(step.Time), Why: w.why("ibu"), Note: note, Box: "min, " + w.degrees()})
	}
	return part
}

func (w *sheetWriter) cellar() ledgerPart {
	c, v := w.p.Cellar, w.p.Volumes
	part := ledgerPart{ID: "cellar", Title: "Cellar", Figure: w.pr.Volume(v.Collected), Why: w.why("volume")}
	yeast := c.Yeast
	if yeast == "" {
		yeast = "yeast"
	}
	pitch := ledgerRow{What: yeast, Figure: w.pr.Mass(c.Dry), Why: w.why("cells"), Box: "g",
		Note: fmt.Sprintf("as dry yeast (%s to %s); %.0f × 10⁹ cells", w.pr.Mass(c.DryRange.Low), w.pr.Mass(c.DryRange.High), c.Cells)}
	part.Rows = append(part.Rows, pitch)
	if c.Temperature != nil {
		part.Rows = append(part.Rows, ledgerRow{What: "ferment at", Figure: w.pr.Temperature(c.Temperature.Low), Why: w.why("cells"), Note: "to " + w.pr.Temperature(c.Temperature.High), Box: w.degrees()})
	}
	fg := w.p.Gravity.FGRange
	part.Rows = append(part.Rows, ledgerRow{What: "final gravity", Figure: w.pr.SG(w.p.Gravity.FG), Why: w.why("fg"), Note: w.pr.SG(fg.Low) + " to " + w.pr.SG(fg.High) + " over the yeast's attenuation", Box: "SG @ " + w.degrees()})
	part.Rows = append(part.Rows, ledgerRow{What: "to package", Figure: w.pr.Volume(v.Packaged), Why: w.why("volume"), Box: w.litres()})
	w.packaging(&part)
	return part
}

// packaging adds priming and keg, with what must be minded there.
func (w *sheetWriter) packaging(part *ledgerPart) {
	c := w.p.Cellar
	if c.CO2 <= 0 {
		return
	}
	if c.Sugar != "" {
		part.Rows = append(part.Rows,
			ledgerRow{What: "prime with " + c.Sugar, Figure: w.pr.Mass(c.Priming), Why: w.why("co2"), Box: "g",
				Note: fmt.Sprintf("to %s from %s (warmest %s)", w.pr.Carbonation(c.CO2), w.pr.Carbonation(c.Residual), w.pr.Temperature(c.Warmest))},
			ledgerRow{What: "in the bottle", Figure: w.pr.GaugePressure(c.Bottle), Why: w.why("co2"), Note: "at 20 °C"})
		part.Cautions = append(part.Cautions, "Prime only beer whose gravity has stood still: each thousandth still to ferment adds half a volume of gas. Bottles can burst.")
	}
	part.Rows = append(part.Rows, ledgerRow{What: "or a keg at " + w.pr.Temperature(quantity.Celsius(5)), Figure: w.pr.GaugePressure(c.Keg), Why: w.why("co2"), Note: "holds " + w.pr.Carbonation(c.CO2)})
	part.Cautions = append(part.Cautions, "Fill no keg beyond its rating, and only with a relief valve; gas work follows the local code.")
}

// maltName is the malt of a line as the recipe calls it.
func maltName(l plan.GrainLine) string { return capital(strings.ReplaceAll(l.Malt, "-", " ")) }

// hopName is what people call a hop.
func hopName(id string) string {
	if h, ok := data.Hop(id); ok && h.Name != "" {
		return h.Name
	}
	return id
}

// hopsOf lists the hops that the recipe names, each once.
func hopsOf(r *recipe.Recipe) (hops []string) {
	seen := map[string]bool{}
	for _, c := range r.Hops {
		if !seen[c.Hop] {
			seen[c.Hop] = true
			hops = append(hops, c.Hop)
		}
	}
	return hops
}
