// SPDX-License-Identifier: MIT

package web

import (
	"fmt"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/internal/chart"
	"gyle/quantity"
	"gyle/science/carbonation"
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
	Cautions      []string
	Advice        []string
	Refractometer string
}

// verdictWords say what each verdict means.
var verdictWords = map[ferment.Verdict]string{
	ferment.Undecided:       "The readings don't span three days yet.",
	ferment.Falling:         "The gravity is still falling.",
	ferment.Stable:          "It has stopped, but stopped is not finished: only a forced test tells.",
	ferment.StableAndProven: "It has stopped where the forced test ended.",
	ferment.Stuck:           "It has stopped well above where the forced test ended.",
}

// fermentOf reads the fermentation out of the log; nil before pitching.
func fermentOf(g *gyle.Gyle, pr quantity.Printer) *fermentBody {
	standing := g.Log.Standing()
	var pitched gyle.Time
	for _, e := range standing {
		if e.Deed != nil && e.Deed.Do == gyle.Pitched && pitched.IsZero() {
			pitched = e.When()
		}
	}
	if pitched.IsZero() {
		return nil
	}
	b := &fermentBody{}
	var readings []ferment.Reading
	var forced quantity.SG
	for _, e := range standing {
		if e.Reading == nil || e.When().Before(pitched.Time) {
			continue
		}
		switch {
		case e.Reading.Of == gyle.OfGravity && e.Reading.At == gyle.AtFermenter:
			if sg, err := brewday.WortGravity(g, *e.Reading); err == nil {
				readings = append(readings, ferment.Reading{At: e.When().Since(pitched), SG: sg})
			}
		case e.Reading.Of == gyle.OfGravity && e.Reading.At == gyle.AtForcedTest:
			if sg, err := brewday.WortGravity(g, *e.Reading); err == nil {
				forced = sg
			}
		case e.Reading.Of == gyle.OfRefractometer && e.Reading.At == gyle.AtFermenter:
			b.Refractometer = "Readings of a refractometer are in the log. With alcohol they are a band, not for ending a fermentation: the hydrometer counts."
		}
	}
	b.judge(g, readings, forced, pr)
	return b
}

// judge fits the curve and says the verdict.
func (b *fermentBody) judge(g *gyle.Gyle, readings []ferment.Reading, forced quantity.SG, pr quantity.Printer) {
	expected := quantity.SG(0)
	if g.Plan != nil {
		expected = g.Plan.Gravity.FG
	}
	found := ferment.JudgeTerminal(readings, ferment.Terminal{Resolution: 0.0005, Forced: forced, Expected: expected})
	b.Verdict, b.Words = string(found.Verdict), verdictWords[found.Verdict]
	if b.Verdict == "" {
		b.Verdict = "not decided yet"
	}
	curve := chart.GravityCurve{Floor: forced}
	for _, r := range readings {
		curve.Readings = append(curve.Readings, chart.GravityReading{At: r.At, SG: r.SG})
	}
	if fit, ok := ferment.FitLogistic(readings, gravity.PlatoFromSG(max(expected, 1))); ok {
		last := readings[len(readings)-1].At
		for i := range 61 {
			at := last * quantity.Duration(i) / 60
			p := fit.Band(at)
			curve.Expected = append(curve.Expected, chart.GravityBand{At: at, Low: gravity.SGFromPlato(quantity.Plato(p.Low)), Mid: gravity.SGFromPlato(quantity.Plato(p.Mid)), High: gravity.SGFromPlato(quantity.Plato(p.High))})
		}
		c := fit.Curve
		b.Bands = append(b.Bands, fmt.Sprintf("The fall is steepest at %s °P/h; half of it is done after %s h.", pr.Number(c.MaxRate(), 2), pr.Number(c.Middle.Hours(), 0)))
	}
	b.bracket(&curve, found)
	b.Curve = chart.Responsive(chart.Sheet{ID: "curve", Printer: pr}, func(s chart.Sheet) string { return chart.FermentationCurve(s, curve) })
	if forced > 0 {
		b.Forced = pr.Number(float64(forced), 4)
	}
	if len(readings) > 0 {
		b.pressure(g, readings[len(readings)-1].SG, found, forced, pr)
	}
}

func (b *fermentBody) bracket(curve *chart.GravityCurve, found ferment.Finding) {
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
func (b *fermentBody) pressure(g *gyle.Gyle, now quantity.SG, found ferment.Finding, forced quantity.SG, pr quantity.Printer) {
	unproven := quantity.SG(0)
	if found.Verdict != ferment.StableAndProven {
		unproven = max(found.ToDrop, 0)
	}
	target := quantity.Carbonation(0)
	if g.Plan != nil {
		target = g.Plan.Cellar.CO2
	}
	if target <= 0 {
		return
	}
	j := carbonation.Judge(carbonation.Filling{Package: carbonation.CrownBottle, Target: target, Unproven: unproven})
	b.WorstCase = fmt.Sprintf("%s vol asked for; at worst %s vol in the bottle, %s on a day of 20 °C", pr.Number(float64(target), 1), pr.Number(float64(j.WorstCase), 1), pr.GaugePressure(j.Pressure))
	b.Cautions = j.Cautions
	switch found.Verdict {
	case ferment.Stuck:
		b.Advice = []string{"Warm it to the upper limit of the yeast.", "Rouse the yeast.", "Pitch fresh, active yeast.", "No air: once a third is fermented, it only spoils."}
	case ferment.Stable:
		b.Advice = []string{"Make a forced test before bottling: a small sample, much yeast, kept warm until it stops."}
	case ferment.Falling, ferment.Undecided:
		b.Advice = []string{"Leave it; read again in a day."}
	}
}
