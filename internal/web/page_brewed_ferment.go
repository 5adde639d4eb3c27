// SPDX-License-Identifier: MIT

package web

import (
	"fmt"

	"gyle/cellar"
	"gyle/gyle"
	"gyle/internal/chart"
	"gyle/quantity"
	"gyle/science/ferment"
	"gyle/science/gravity"
)

// fermentBody is how a gyle ferments, and whether it may be packaged.
type fermentBody struct {
	Curve         string
	Verdict       string
	Words         string // what the verdict means
	Bands         []string
	Forced        string
	WorstCase     string
	Reasons       []string // for what the gravity may still fall
	Cautions      []string
	Advice        []string
	Refractometer string

	beer *cellar.Beer
}

// verdictWords say what each verdict means.
var verdictWords = map[ferment.Verdict]string{
	ferment.Undecided:       "The readings don't span three days yet.",
	ferment.Falling:         "The gravity is still falling.",
	ferment.Stable:          "It has stopped, but stopped is not finished: only a forced test tells.",
	ferment.StableAndProven: "It has stopped where the forced test ended.",
	ferment.Stuck:           "It has stopped well above where the forced test ended.",
}

// fermentOf reads the fermentation out of the log as it stands now, without its
// drawing; nil before pitching.
func (s *Server) fermentOf(g *gyle.Gyle, pr quantity.Printer) *fermentBody {
	beer := cellar.Of(g, gyle.At(s.now()))
	if beer == nil {
		return nil
	}
	b := &fermentBody{beer: beer}
	found := beer.Finding
	b.Verdict, b.Words = string(found.Verdict), verdictWords[found.Verdict]
	if b.Verdict == "" {
		b.Verdict = "not decided yet"
	}
	if found.Verdict == ferment.Stuck && beer.Forced == 0 {
		b.Words = "It has stopped well above where the plan expects the end."
	}
	if beer.Fit != nil {
		c := beer.Fit.Curve
		b.Bands = append(b.Bands, fmt.Sprintf("The fall is steepest at %s °P/h; half of it is done after %s h.", pr.Number(c.MaxRate(), 2), pr.Number(c.Middle.Hours(), 0)))
	}
	if beer.ByLogger {
		b.Bands = append(b.Bands, fmt.Sprintf("Judged by %d readings of the logger: by hand there are too few.", len(beer.Logged)))
	}
	if beer.Forced > 0 {
		b.Forced = pr.Number(float64(beer.Forced), 4)
	}
	if r := beer.Refract; r != nil {
		b.Refractometer = fmt.Sprintf("The refractometer read %s after %s h: with alcohol the formulas say %s to %s. A band like this is not for ending a fermentation; a hydrometer counts.",
			pr.Brix(r.Read), pr.Number(r.At.Hours(), 0), pr.Number(float64(r.All.Low), 4), pr.Number(float64(r.All.High), 4))
	}
	b.pressure(g, pr)
	return b
}

// draw draws the curve of the fermentation.
func (b *fermentBody) draw(pr quantity.Printer) *fermentBody {
	if b == nil {
		return nil
	}
	const mostMarks = 300
	curve := chart.GravityCurve{Floor: b.beer.Forced}
	readings := cellar.Thin(b.beer.Judged(), mostMarks)
	for _, r := range readings {
		curve.Readings = append(curve.Readings, chart.GravityReading{At: r.At, SG: r.SG})
	}
	if fit := b.beer.Fit; fit != nil && len(readings) > 0 {
		last := readings[len(readings)-1].At
		for i := range 61 {
			at := last * quantity.Duration(i) / 60
			p := fit.Band(at)
			curve.Expected = append(curve.Expected, chart.GravityBand{At: at, Low: gravity.SGFromPlato(quantity.Plato(p.Low)), Mid: gravity.SGFromPlato(quantity.Plato(p.Mid)), High: gravity.SGFromPlato(quantity.Plato(p.High))})
		}
	}
	bracket(&curve, b.beer.Finding)
	b.Curve = chart.Responsive(chart.Sheet{ID: "curve", Printer: pr}, func(s chart.Sheet) string { return chart.FermentationCurve(s, curve) })
	return b
}

func bracket(curve *chart.GravityCurve, found ferment.Finding) {
	if len(found.Readings) == 0 {
		return
	}
	bracket := chart.GravityBracket{From: found.Readings[0].At, To: found.Readings[0].At, Low: found.Readings[0].SG, High: found.Readings[0].SG,
		Closed: found.Verdict != ferment.Falling && found.Verdict != ferment.Undecided}
	for _, r := range found.Readings {
		bracket.From, bracket.To = min(bracket.From, r.At), max(bracket.To, r.At)
		bracket.Low, bracket.High = min(bracket.Low, r.SG), max(bracket.High, r.SG)
	}
	curve.Bracket = &bracket
}

// pressure says what a bottle may come to hold, and what to do first.
func (b *fermentBody) pressure(g *gyle.Gyle, pr quantity.Printer) {
	if _, read := b.beer.Now(); !read || g.Plan == nil || g.Plan.Cellar.CO2 <= 0 {
		return
	}
	target := g.Plan.Cellar.CO2
	f, err := b.beer.Fill(cellar.Wish{CO2: target, Reader: pr})
	if err != nil {
		return
	}
	b.WorstCase = fmt.Sprintf("%s vol asked for; at worst %s vol in the bottle, %s on a day of %s", pr.Number(float64(target), 1), pr.Number(float64(f.Verdict.WorstCase), 1), pr.GaugePressure(f.Verdict.Pressure), pr.Temperature(quantity.Celsius(20)))
	b.Cautions, b.Reasons, b.Advice = f.Verdict.Cautions, f.Reasons, b.beer.Proves()
}
