// SPDX-License-Identifier: MIT

package sheet

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"gyle/plan"
	"gyle/publish/card"
	"gyle/quantity"
	"gyle/recipe"
)

// Brew writes the sheet for the day: what to do in its order, with a box for
// every number. The box holds what is planned, in grey; what is read is written
// over it in ink.
func Brew(b card.Bundle, p Paper) ([]byte, error) {
	if b.Plan == nil {
		return nil, errors.New("write a brew sheet: a plan is needed")
	}
	g := newPage(p, b.Name())
	g.brew(b)
	return g.bytes()
}

// brew writes the sheet for the day.
func (g *page) brew(b card.Bundle) {
	pl, pr := b.Plan, b.Printer
	g.title(b.Name(), fmt.Sprintf("Brew sheet for %s: %s in the fermenter (20 °C), yield %s of the laboratory extract in the kettle. Grey is planned; write what you read beside it.",
		pl.House, pr.Volume(pl.Volumes.Collected), pr.Fraction(pl.Grist.Yield, 1)))
	d := &day{g, pl, pr}
	d.head()
	d.weighing()
	d.mashing()
	d.kettle()
	d.cellar()
	d.remarks()
}

// day writes the steps of a brew sheet.
type day struct {
	g  *page
	p  *plan.Plan
	pr quantity.Printer
}

// Boxes, in mm.
const (
	boxHeight = 8.0
	boxWidth  = 30.0
	boxGap    = 2.0
)

// box is one number to be read: what it is, and what is planned.
type box struct{ name, planned string }

// head has boxes for what no plan knows.
func (d *day) head() {
	d.step("", "", box{"date", ""}, box{"brewer", ""}, box{"number", ""})
}

// step writes one thing to do with its boxes, at most three in a row, set to
// the right.
func (d *day) step(what, note string, boxes ...box) {
	const most = 3
	g := d.g
	room := g.width() - float64(min(len(boxes), most))*(boxWidth+boxGap) - 2
	if len(boxes) == 0 {
		room = g.width()
	}
	name, more := g.lines(words, what, room), g.lines(small, note, room)
	rows := (len(boxes) + most - 1) / most
	height := max(float64(rows)*(boxHeight+boxGap), float64(len(name)+len(more))*lineHeight+1.5)
	g.need(height)
	y := g.y
	for i, line := range append(name, more...) {
		s := words
		if i >= len(name) {
			s = small
		}
		g.need(lineHeight)
		g.y += lineHeight
		g.put(s, leftMargin, g.y-0.6, line)
	}
	for i, b := range boxes {
		column := most - min(len(boxes)-i/most*most, most) + i%most
		x := g.paper.width - margin - float64(most-column)*(boxWidth+boxGap) + boxGap
		d.draw(b, x, y+float64(i/most)*(boxHeight+boxGap)+0.8)
	}
	g.y = max(g.y, y+height)
	g.rule(leftMargin, g.y, g.width(), ruled, 0.1)
}

// draw draws a box: its name small above, the planned value at its right foot.
func (d *day) draw(b box, x, y float64) {
	g := d.g
	g.pdf.SetDrawColor(printed.r, printed.g, printed.b)
	g.pdf.SetLineWidth(0.25)
	g.pdf.Rect(x, y, boxWidth, boxHeight, "D")
	name := style{words.face, 6.5, planned}
	g.put(name, x+0.8, y+2.4, clipTo(g, name, b.name, boxWidth-1.6))
	value := grey
	for value.size > 6.5 && g.widthOf(value, value.face.Printable(b.planned)) > boxWidth-2 {
		value.size -= 0.5
	}
	line := value.face.Printable(b.planned)
	g.put(value, x+boxWidth-1-g.widthOf(value, line), y+boxHeight-1.3, line)
}

func (d *day) weighing() {
	d.g.section("Weigh out")
	for _, l := range d.p.Grist.Lines {
		var lots []string
		for _, u := range l.Lots {
			if u.Lot != "" {
				lots = append(lots, fmt.Sprintf("%s %s", u.Lot, d.pr.Mass(u.Mass)))
			}
		}
		note := strings.Join(lots, ", ")
		if !l.In.IsZero() {
			note = strings.TrimPrefix(note+"; "+l.In.String(), "; ")
		}
		d.step(card.MaltName(l.Malt), note, box{"lot", ""}, box{"weight", d.pr.Mass(l.Mass)})
	}
	for _, c := range d.p.Hops.Charges {
		d.step(hopLine(c), fmt.Sprintf("planned with %s of alpha acids", d.pr.Fraction(c.Alpha, 1)), box{"lot", ""}, box{"weight", d.pr.Mass(c.Mass)})
	}
	if soft := d.p.Liquor.Soft; soft > 0 {
		d.step("Soft water", "of the liquor: distilled or reverse-osmosis", box{"volume", d.pr.Volume(soft)})
	}
	for _, s := range d.p.Liquor.Salts {
		d.step(capital(s.Name), "into all of the liquor", box{"weight", d.pr.Mass(s.Mass)})
	}
}

func hopLine(c plan.ChargeLine) string { return card.HopName(c.Hop) + ", " + c.At.String() }

func (d *day) mashing() {
	l, m, pr := d.p.Liquor, d.p.Mash, d.pr
	if len(m.Steps) == 0 {
		return
	}
	d.g.section("Mash")
	d.step("Mash liquor", "Hot liquor scalds: lids, gloves, no lifting above the waist.", box{"clock", ""}, box{"volume", pr.Volume(l.Mash)}, box{"temperature", pr.Temperature(l.Strike)})
	d.acid(m.Acid, "with the grain")
	d.step("Grain before doughing in", "", box{"temperature", ""})
	for _, s := range m.Steps {
		what := capital(s.What)
		if s.Time > 0 {
			what += ", " + pr.Duration(s.Time)
		}
		d.step(what, fmt.Sprintf("%s min after doughing in", pr.Number(s.At.Minutes(), 0)), box{"clock", ""}, box{"temperature", pr.Temperature(s.Temperature)})
	}
	if m.Rail != nil {
		d.step("pH of a cooled sample after 10 min", "", box{"sample at", "20 °C"}, box{"pH", pr.PH(m.PH)})
	}
	if l.Sparge > 0 {
		d.step("Sparge, no hotter than "+pr.Temperature(l.SpargeAt), "", box{"clock", ""}, box{"volume", pr.Volume(l.Sparge)})
		d.acid(l.SpargeAcid, "into the sparge liquor")
	}
	if m.AcidSafety != "" {
		d.care(m.AcidSafety)
	}
}

func (d *day) acid(a *plan.AcidDose, where string) {
	if a != nil && a.ML > 0 {
		d.step(capital(a.Name)+" "+where, "", box{"volume", d.pr.Number(a.ML, 1) + " mL"})
	}
}

func (d *day) care(text string) {
	d.g.line(card.Line{Kind: card.Entry, Label: text, Care: true})
}

func (d *day) kettle() {
	p, pr := d.p, d.pr
	v := p.Volumes
	d.g.section("Kettle")
	d.step("Full kettle, mixed, just below the boil", fmt.Sprintf("is %s at 20 °C; gravity of a cooled sample", pr.Volume(v.FullKettle)),
		box{"volume, hot", pr.Volume(v.FullKettleHot.Volume)}, box{"read at", pr.Temperature(v.FullKettleHot.At)}, box{"gravity", pr.SG(p.Gravity.FullKettle)})
	d.step("Boil begins, "+pr.Duration(p.Boil.Time), fmt.Sprintf("planned to lose %s in an hour", pr.Mass(p.Boil.PerHour)), box{"clock", ""})
	for _, c := range p.Hops.Charges {
		if !c.Dry && c.At.Stage != recipe.AtMash {
			d.step(hopLine(c), "", box{"clock", ""}, box{"weight", pr.Mass(c.Mass)})
		}
	}
	d.step("Knock-out", fmt.Sprintf("is %s at 20 °C; gravity of a cooled sample", pr.Volume(v.KnockOut)),
		box{"volume, hot", pr.Volume(v.KnockOutHot.Volume)}, box{"read at", pr.Temperature(v.KnockOutHot.At)}, box{"gravity", pr.SG(p.Gravity.OG)})
	for _, s := range p.Hops.Path {
		if s.Name != "boil" {
			d.step(capital(s.Name)+", "+pr.Duration(s.Time), "", box{"clock", ""}, box{"to", pr.Temperature(s.To)})
		}
	}
	d.care("Steam and boiling wort burn. Work on gas, mains electricity or pressure vessels is for those licensed for it; keep to the local code.")
}

func capital(text string) string {
	if text == "" {
		return text
	}
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}

func (d *day) cellar() {
	p, pr, c := d.p, d.pr, d.p.Cellar
	d.g.section("Cellar")
	yeast := strings.ReplaceAll(c.Yeast, "-", " ")
	if yeast == "" {
		yeast = "Yeast"
	}
	d.step("Wort in the fermenter", "", box{"volume", pr.Volume(p.Volumes.Collected)}, box{"gravity", pr.SG(p.Gravity.OG)})
	temperature := ""
	if c.Temperature != nil {
		temperature = pr.Number(inUnit(pr, c.Temperature.Low), 0) + "–" + strings.Replace(pr.Temperature(c.Temperature.High), ".0 ", " ", 1)
	}
	d.step(capital(yeast), fmt.Sprintf("%s × 10⁹ cells; as dry yeast about %s", pr.Number(c.Cells, 0), pr.Mass(c.Dry)), box{"clock", ""}, box{"temperature", temperature}, box{"weight", pr.Mass(c.Dry)})
	for _, h := range p.Hops.Charges {
		if h.Dry {
			d.step(hopLine(h), "", box{"date", ""}, box{"weight", pr.Mass(h.Mass)})
		}
	}
	d.step("Gravity, day after day", "finished when it stands still for three days, and a forced test agrees", box{"date", ""}, box{"temperature", ""}, box{"gravity", ""}, box{"date", ""}, box{"temperature", ""}, box{"gravity", ""}, box{"date", ""}, box{"temperature", ""}, box{"gravity", pr.SG(p.Gravity.FG)})
	if c.CO2 > 0 && c.Sugar != "" {
		d.step("Bottles, "+c.Sugar, fmt.Sprintf("to %s; %s in the bottle at 20 °C", pr.Carbonation(c.CO2), pr.GaugePressure(c.Bottle)), box{"date", ""}, box{"volume", pr.Volume(p.Volumes.Packaged)}, box{"weight", pr.Mass(c.Priming)})
		d.care("Prime only beer whose gravity has stood still: each thousandth still to ferment adds half a volume of gas. Bottles can burst.")
	} else if c.CO2 > 0 {
		d.step("Keg", "at 5 °C, never above what vessel and relief valve are rated for", box{"date", ""}, box{"volume", pr.Volume(p.Volumes.Packaged)}, box{"pressure", pr.GaugePressure(c.Keg)})
	}
	for _, text := range p.Cautions {
		d.care(text)
	}
}

// inUnit is a temperature as a number in the printer's unit.
func inUnit(pr quantity.Printer, t quantity.Temperature) float64 {
	if pr.System == quantity.USCustomary {
		return t.Fahrenheit()
	}
	return t.Celsius()
}

// remarks leaves ruled lines for what the day taught.
func (d *day) remarks() {
	const lines, pitch = 6, 8.0
	d.g.section("What slipped, and why")
	for range lines {
		d.g.need(pitch)
		d.g.y += pitch
		d.g.rule(leftMargin, d.g.y, d.g.width(), ruled, 0.2)
	}
}
