// SPDX-License-Identifier: MIT

package guest

import (
	"fmt"
	"strings"

	"gyle/data"
	"gyle/judge"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/color"
)

// A Sheet is a plan as lines of text for a reader, in the order of the brewing.
type Sheet struct {
	Title    string     `json:"title"` // "Ferry Brown 4 on Garage, 20.0 L"
	Figures  [][]string `json:"figures"`
	Grist    [][]string `json:"grist"`  // malt, mass, share, when
	Liquor   [][]string `json:"liquor"` // what, amount, remark
	Mash     [][]string `json:"mash"`   // minute, temperature, what
	Kettle   [][]string `json:"kettle"`
	Hops     [][]string `json:"hops"` // hop, moment, mass, alpha acids, IBU
	Cellar   [][]string `json:"cellar"`
	Kept     []string   `json:"kept"`
	NotKept  []string   `json:"notKept"`
	Cautions []string   `json:"cautions"`
	Verdicts []Verdict  `json:"verdicts"`
	Glass    []Glass    `json:"glass"` // the colour of the beer by path length
}

// A Verdict is what a rule of the style says.
type Verdict struct {
	Word string `json:"word"`
	Line string `json:"line"`
	Why  string `json:"why,omitempty"`
}

// Glass is the colour of the beer seen through so many centimetres of it.
type Glass struct {
	CM    float64 `json:"cm"`
	Color string  `json:"color"` // #rrggbb
}

// glassPaths are a tilted edge, a cuvette, a tasting glass and a pint, in cm,
// with steps between them.
var glassPaths = []float64{0.3, 0.6, 1, 2, 3, 4, 5, 6, 7, 8}

func (t *Table) sheet(p *plan.Plan, pr quantity.Printer) (*Sheet, error) {
	title := p.Recipe
	if p.Version > 0 {
		title = fmt.Sprintf("%s %d", title, p.Version)
	}
	s := &Sheet{Title: fmt.Sprintf("%s on %s, %s", title, p.House, pr.Volume(p.Volumes.Collected)),
		Figures: figureRows(p, pr), Grist: gristRows(p, pr), Liquor: liquorRows(p, pr), Mash: mashRows(p, pr), Kettle: kettleRows(p, pr),
		Hops: hopRows(p, pr), Cellar: cellarRows(p, pr), Cautions: append([]string{}, p.Cautions...)}
	s.Kept, s.NotKept = points(p.Kept), points(p.NotKept)
	for _, cm := range glassPaths {
		if f, ok := p.Find(quantity.BeerColor); ok {
			r, g, b := color.Swatch(quantity.EBC(f.Value), cm)
			s.Glass = append(s.Glass, Glass{cm, fmt.Sprintf("#%02x%02x%02x", r, g, b)})
		}
	}
	if t.style == nil {
		t.says(s)
		return s, nil
	}
	j, err := judge.PlanFor(pr, t.style, p)
	if err != nil {
		return nil, fmt.Errorf("judge %s by %s: %w", p.Recipe, t.style.Name, err)
	}
	for _, v := range j.Verdicts {
		if v.Word != judge.Idle {
			s.Verdicts = append(s.Verdicts, Verdict{string(v.Word), v.Line(), v.Why})
		}
	}
	t.says(s)
	return s, nil
}

func points(list []plan.Point) []string {
	out := []string{}
	for _, p := range list {
		text := p.What
		if p.Price != "" {
			text += " (" + p.Price + ")"
		}
		out = append(out, text)
	}
	return out
}

func figureRows(p *plan.Plan, pr quantity.Printer) [][]string {
	var rows [][]string
	for _, f := range p.Figures {
		if f.Figure == quantity.Calcium {
			break // ions stand with the liquor
		}
		aim := ""
		if f.Aim != nil {
			aim = pr.Figure(f.Figure, *f.Aim)
		}
		rows = append(rows, []string{f.Figure.Label(), pr.FigureBand(f.Figure, f.Band()), aim})
	}
	return rows
}

func gristRows(p *plan.Plan, pr quantity.Printer) [][]string {
	var rows [][]string
	for _, l := range p.Grist.Lines {
		when := ""
		if !l.In.IsZero() {
			when = l.In.String()
		}
		rows = append(rows, []string{l.Name, pr.Mass(l.Mass), pr.Fraction(l.Share, 1), when})
	}
	return append(rows, []string{"in all", pr.Mass(p.Grist.Mass), "", ""})
}

func liquorRows(p *plan.Plan, pr quantity.Printer) [][]string {
	l := p.Liquor
	rows := [][]string{{"mash", pr.Volume(l.Mash), "at " + pr.Temperature(l.Strike)}}
	const next = 0.005 // L: less is nothing
	if l.Infused > next {
		rows = append(rows, []string{"for the later rests", pr.Volume(l.Infused), "measured cold"})
	}
	if l.Steep > next {
		rows = append(rows, []string{"cold steep", pr.Volume(l.Steep), ""})
	}
	if l.Sparge > next {
		rows = append(rows, []string{"sparge", pr.Volume(l.Sparge), "no hotter than " + pr.Temperature(l.SpargeAt)})
	}
	if l.Soft > 0 {
		rows = append(rows, []string{"soft water", pr.Volume(l.Soft), "of the liquor: distilled or reverse-osmosis"})
	}
	for _, salt := range l.Salts {
		rows = append(rows, []string{salt.Name, pr.Mass(salt.Mass), "into all of the liquor"})
	}
	if a := l.SpargeAcid; a != nil {
		rows = append(rows, []string{a.Name, pr.Number(a.ML, 1) + " mL", "into the sparge liquor"})
	}
	if a := p.Mash.Acid; a != nil {
		rows = append(rows, []string{a.Name, pr.Number(a.ML, 1) + " mL", "with the grain"})
	}
	return rows
}

func mashRows(p *plan.Plan, pr quantity.Printer) [][]string {
	var rows [][]string
	for _, step := range p.Mash.Steps {
		what := step.What
		if step.Time > 0 {
			what += " for " + pr.Duration(step.Time)
		}
		rows = append(rows, []string{pr.Number(step.At.Minutes(), 0) + " min", pr.Temperature(step.Temperature), what})
	}
	return rows
}

func kettleRows(p *plan.Plan, pr quantity.Printer) [][]string {
	v, b := p.Volumes, p.Boil
	return [][]string{
		{"full kettle", pr.Volume(v.FullKettle), pr.SG(p.Gravity.FullKettle), "reads " + pr.VolumeAt(v.FullKettleHot)},
		{"boil", pr.Duration(b.Time), pr.Temperature(b.Temperature), pr.Mass(b.PerHour) + " of water an hour"},
		{"knock-out", pr.Volume(v.KnockOut), pr.SG(p.Gravity.OG), "reads " + pr.VolumeAt(v.KnockOutHot)},
		{"in the fermenter", pr.Volume(v.Collected), pr.SG(p.Gravity.OG), ""},
	}
}

func hopRows(p *plan.Plan, pr quantity.Printer) [][]string {
	rows := [][]string{}
	for _, c := range p.Hops.Charges {
		name := c.Hop
		if typical, ok := data.Hop(c.Hop); ok {
			name = typical.Name
		}
		ibu := pr.Number(float64(c.IBU), 1) + " IBU"
		if c.Dry {
			ibu = "–"
		}
		rows = append(rows, []string{name, c.At.Words(pr), pr.Mass(c.Mass), pr.Fraction(c.Alpha, 1), ibu})
	}
	return rows
}

func cellarRows(p *plan.Plan, pr quantity.Printer) [][]string {
	c := p.Cellar
	yeast := strings.TrimSpace(c.Yeast)
	if yeast == "" {
		yeast = "yeast"
	}
	if typical, ok := data.Yeast(c.Yeast); ok {
		yeast = typical.Name
	}
	temperature := ""
	if c.Temperature != nil {
		temperature = "at " + pr.Temperature(c.Temperature.Low) + " to " + pr.Temperature(c.Temperature.High)
	}
	rows := [][]string{
		{yeast, pr.Number(c.Cells, 0) + " × 10⁹ cells", "as dry yeast " + pr.Mass(c.Dry) + ", " + pr.Mass(c.DryRange.Low) + " to " + pr.Mass(c.DryRange.High), temperature},
		{"final gravity", pr.SG(p.Gravity.FG), "between " + pr.SG(p.Gravity.FGRange.Low) + " and " + pr.SG(p.Gravity.FGRange.High), ""},
	}
	if c.CO2 > 0 && c.Sugar != "" {
		rows = append(rows, []string{"bottles", pr.Mass(c.Priming) + " " + c.Sugar, "to " + pr.Carbonation(c.CO2), pr.GaugePressure(c.Bottle) + " in the bottle at " + pr.Temperature(quantity.Celsius(20))})
	}
	if c.CO2 > 0 {
		rows = append(rows, []string{"keg", pr.GaugePressure(c.Keg), "to " + pr.Carbonation(c.CO2), "at " + pr.Temperature(quantity.Celsius(5))})
	}
	return rows
}
