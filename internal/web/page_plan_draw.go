// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"math"

	"gyle/internal/chart"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/science/color"
	"gyle/science/hops"
	"gyle/science/mash"
)

// draw lays a drawing out for a phone and for a page.
func (w *sheetWriter) draw(id string, draw func(chart.Sheet) string) string {
	return chart.Responsive(chart.Sheet{ID: id, Width: chart.Page, Printer: w.pr}, draw)
}

func (w *sheetWriter) gristStrips() string {
	return w.draw("strips", func(s chart.Sheet) string {
		return chart.GristStrips(s, chart.Grists{Versions: []chart.GristVersion{gristVersion(w.p, titleOfPlan(w.p))}})
	})
}

// swatchPath is the thickness of wort, in cm, in which a malt's colour is
// shown: that of a cuvette.
const swatchPath = 1

// gristVersion is the grist of a plan for a drawing. The swatch is the colour
// of a wort as dark as the malt's congress wort.
func gristVersion(p *plan.Plan, label string) chart.GristVersion {
	v := chart.GristVersion{Label: label}
	for _, l := range p.Grist.Lines {
		r, g, b := color.Swatch(l.Color, swatchPath)
		v.Parts = append(v.Parts, chart.GristPart{Name: maltName(l), Mass: float64(l.Share), Extract: float64(l.ExtractShare), Color: float64(l.ColorShare), Swatch: chart.RGB{R: r, G: g, B: b}})
	}
	return v
}

// mashAxis draws the mash down the page, from doughing-in to its last step.
func (w *sheetWriter) mashAxis() string {
	var day chart.BrewDay
	for i, step := range w.p.Mash.Steps {
		name := capital(step.What)
		if i == 0 {
			name = fmt.Sprintf("Dough in, %s at %s", w.pr.Volume(w.p.Liquor.Mash), w.pr.Temperature(w.p.Liquor.Strike))
		}
		day.Course = append(day.Course, chart.BrewPoint{At: step.At, Temperature: step.Temperature})
		if !w.interrupted(i) {
			day.Course = append(day.Course, chart.BrewPoint{At: step.At + step.Time, Temperature: step.Temperature})
		}
		day.Tasks = append(day.Tasks, chart.BrewTask{At: step.At, Name: name, Plan: w.pr.Temperature(step.Temperature)})
	}
	if n := len(w.p.Mash.Steps); n > 0 {
		last := w.p.Mash.Steps[n-1]
		day.Tasks = append(day.Tasks, chart.BrewTask{At: last.At + last.Time, Name: "End of the mash"})
	}
	return w.draw("mash-axis", func(s chart.Sheet) string { return chart.BrewDayAxis(s, day) })
}

// interrupted reports whether another step begins before this one is over, as
// late grain does.
func (w *sheetWriter) interrupted(i int) bool {
	steps := w.p.Mash.Steps
	return i+1 < len(steps) && steps[i+1].At < steps[i].At+steps[i].Time
}

// railOf is a mash pH step by step, with its expected error.
func railOf(rail mash.Rail, sd float64) chart.PHRails {
	return chart.PHRails{Steps: []chart.PHStep{
		{Name: "grist alone", PH: rail.Distilled, SD: sd}, {Name: "plus water", PH: rail.Water, SD: sd}, {Name: "plus salts", PH: rail.Salts, SD: sd},
		{Name: "plus acid", PH: rail.Acid, SD: sd}, {Name: "plus late grain", PH: rail.Late, SD: sd},
	}}
}

func (w *sheetWriter) phRail() string {
	data := railOf(*w.p.Mash.Rail, w.p.Mash.PHSD)
	if v, ok := w.j.ofFigure(quantity.MashPH); ok {
		data.Aim = &quantity.Span[quantity.PH]{Low: quantity.PH(v.Low), High: quantity.PH(v.High)}
	}
	return w.draw("ph-rail", func(s chart.Sheet) string { return chart.PHRail(s, data) })
}

func (w *sheetWriter) chargeLadder() string {
	data := chart.Ladders{Houses: []chart.LadderHouse{ladderHouse(w.p, w.p.House)}}
	return w.draw("ladder", func(s chart.Sheet) string { return chart.ChargeLadder(s, data) })
}

// ladderHouse is what each hop charge of a plan earns on its way; dry hops earn
// nothing and stay away.
func ladderHouse(p *plan.Plan, name string) chart.LadderHouse {
	house := chart.LadderHouse{Name: name}
	for _, c := range p.Hops.Charges {
		if c.Dry {
			continue
		}
		start := chargeStart(p, c)
		charge := chart.LadderCharge{Hop: hopName(c.Hop), Mass: c.Mass, Start: start}
		begin := quantity.Duration(0)
		for i, step := range p.Hops.Path {
			end := begin + step.Time
			if end > start && i < len(c.Earned) {
				charge.Stages = append(charge.Stages, chart.LadderStage{Name: step.Name, For: end - max(begin, start), IBU: c.Earned[i]})
			}
			begin = end
		}
		house.Charges = append(house.Charges, charge)
	}
	return house
}

// chargeStart is when a charge goes in, counted from the start of the path.
func chargeStart(p *plan.Plan, c plan.ChargeLine) quantity.Duration {
	boilEnd := stepEnd(p, "boil", 0)
	switch c.At.Stage {
	case recipe.AtMash, recipe.AtFirstWort:
		return 0
	case recipe.AtBoil:
		return max(boilEnd-c.At.Time, 0)
	case recipe.AtStand:
		if end := stepEnd(p, "stand", standsBefore(p, c)); end > 0 {
			return max(end-c.At.Time, boilEnd)
		}
	}
	return boilEnd
}

// stepEnd is when the step of that name ends, after n others of the name; 0
// when there is none.
func stepEnd(p *plan.Plan, name string, n int) quantity.Duration {
	at := quantity.Duration(0)
	for _, step := range p.Hops.Path {
		at += step.Time
		if step.Name == name {
			if n == 0 {
				return at
			}
			n--
		}
	}
	return 0
}

// standsBefore counts the stands that are hotter than that of a charge.
func standsBefore(p *plan.Plan, c plan.ChargeLine) int {
	hotter := map[quantity.Temperature]bool{}
	for _, other := range p.Hops.Charges {
		if other.At.Stage == recipe.AtStand && c.At.Temperature.Below(other.At.Temperature) {
			hotter[other.At.Temperature] = true
		}
	}
	return len(hotter)
}

// kettleAxis draws the kettle from the boil to cold wort.
func (w *sheetWriter) kettleAxis() string {
	var day chart.BrewDay
	at := quantity.Duration(0)
	for _, step := range w.p.Hops.Path {
		day.Tasks = append(day.Tasks, chart.BrewTask{At: at, Name: capital(step.Name), Plan: w.pr.Duration(step.Time)})
		day.Course = append(day.Course, w.course(at, step)...)
		at += step.Time
	}
	if n := len(w.p.Hops.Path); n > 0 {
		last := w.p.Hops.Path[n-1]
		day.Course = append(day.Course, chart.BrewPoint{At: at, Temperature: last.To})
		day.Tasks = append(day.Tasks, chart.BrewTask{At: at, Name: "End", Plan: w.pr.Temperature(last.To)})
	}
	for _, c := range w.p.Hops.Charges {
		if !c.Dry {
			day.Charges = append(day.Charges, chart.BrewCharge{At: chargeStart(w.p, c), Hop: hopName(c.Hop), Mass: c.Mass})
		}
	}
	return w.draw("kettle-axis", func(s chart.Sheet) string { return chart.BrewDayAxis(s, day) })
}

// courseParts is into how many pieces a curve is cut for drawing.
const courseParts = 8

// course follows the temperature of one step. Cooling runs exponentially
// towards what is cooler: the coolant where the kettle is cooled, the room
// where it is left alone. Darkness is the rate of isomerisation against that at
// the boil.
func (w *sheetWriter) course(begin quantity.Duration, step plan.PathStep) (points []chart.BrewPoint) {
	from, to := step.From.Celsius(), step.To.Celsius()
	ambient := w.ambient(step).Celsius()
	boil := float64(hops.IsoRate(w.p.Boil.Temperature))
	for i := range courseParts {
		part := float64(i) / courseParts
		now := from + (to-from)*part
		if ratio := (to - ambient) / (from - ambient); ratio > 0 && from > to {
			now = ambient + (from-ambient)*math.Pow(ratio, part)
		}
		t := quantity.Celsius(now)
		points = append(points, chart.BrewPoint{At: begin + quantity.Duration(part)*step.Time, Temperature: t, Bittering: min(float64(hops.IsoRate(t))/boil, 1)})
	}
	return points
}

// ambient is what a step cools towards.
func (w *sheetWriter) ambient(step plan.PathStep) quantity.Temperature {
	house := w.p.HouseDocument()
	for _, way := range house.Cooling {
		if way.Name == w.p.Hops.Cooling && way.Tau != nil && (step.Name == "chill" || len(step.Name) > 4 && step.Name[:4] == "cool") {
			return way.Water
		}
	}
	if t := house.Kettle.Room; !t.IsZero() {
		return t
	}
	return quantity.Celsius(20)
}
