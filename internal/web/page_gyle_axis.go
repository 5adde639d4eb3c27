// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"math"
	"strings"
	"time"

	brewday "gyle/day"
	"gyle/gyle"
	"gyle/quantity"
	"gyle/science/hops"
)

// meaning says what a reading means at 20 °C, where that isn't what it says.
func meaning(g *gyle.Gyle, e gyle.Entry, pr quantity.Printer) string {
	m, ok := brewday.MeaningOf(g, e)
	switch {
	case ok && m.Gravity == 0:
		return closely(m.Volume, pr) + " at " + pr.Temperature(quantity.Celsius(20))
	case ok && pr.SG(m.Gravity) != e.Reading.Value:
		return pr.Number(float64(m.Gravity), 4) + " at " + pr.Temperature(quantity.Celsius(20))
	}
	return ""
}

// closely prints a volume to the centilitre.
func closely(v quantity.Volume, pr quantity.Printer) string {
	if pr.System == quantity.USCustomary {
		return pr.Volume(v)
	}
	return pr.Number(float64(v), 2) + " L"
}

// axis is the temperature of the day down the page. Each row draws the stretch
// to the next one, so that the page may give a row the room that it needs.
type axis struct {
	laid   *brewday.Day
	points []axisPoint
	hops   time.Time // from then on bitterness is made
	end    time.Time // the wort is cold
}

type axisPoint struct {
	at time.Time
	c  float64 // °C
}

// newAxis follows the temperatures of the plan through the day as it stands.
func newAxis(g *gyle.Gyle, laid *brewday.Day, pr quantity.Printer) *axis {
	a := &axis{laid: laid}
	add := func(at gyle.Time, t quantity.Temperature) {
		if !t.IsZero() && !at.IsZero() {
			a.points = append(a.points, axisPoint{at.Time, t.Celsius()})
		}
	}
	p := g.Plan
	var rest quantity.Temperature
	for _, s := range p.Steps {
		if s.What == "rest" {
			rest = s.Temperature
			break
		}
	}
	steps, n := 0, 0
	for _, t := range laid.Tasks {
		switch {
		case t.Key == "heat":
			add(t.At, quantity.Celsius(12))
		case t.Key == "dough-in":
			add(t.At, p.Liquor.Strike)
			add(t.At.Add(t.Time), rest)
		case strings.HasPrefix(t.Key, "mash "):
			if _, err := fmt.Sscanf(t.Key, "mash %d", &steps); err == nil && steps <= len(p.Steps) {
				add(t.At, rest)
				rest = p.Steps[steps-1].Temperature
				add(t.At.Add(1), rest)
			}
		case t.Key == "run-off", t.Key == "full kettle":
			add(t.At, rest)
		case t.Key == "boil":
			add(t.At, p.Boil.Temperature)
		case t.Key == "knock-out":
			add(t.At, p.Boil.Temperature)
		case strings.HasPrefix(t.Key, "path "):
			a.cool(p, t, &n)
		case strings.HasPrefix(t.Key, "hops ") && (a.hops.IsZero() || t.At.Before(a.hops)):
			a.hops = t.At.Time
		case t.Key == "collected":
			a.end = t.At.Time
		}
	}
	return a
}

// cool adds a step behind the boil, as a curve.
func (a *axis) cool(p *gyle.Plan, t brewday.Task, n *int) {
	var steps []gyle.PathStep
	for _, s := range p.Path {
		if s.Name != "boil" && s.Name != "heat to the boil" {
			steps = append(steps, s)
		}
	}
	if *n >= len(steps) {
		return
	}
	s := steps[*n]
	*n++
	from, to, floor := s.From.Celsius(), s.To.Celsius(), p.Cooler.Water.Celsius()
	const pieces = 8
	for i := range pieces + 1 {
		share := float64(i) / pieces
		c := from + (to-from)*share
		if from > to && to > floor && !p.Cooler.Water.IsZero() {
			c = floor + (from-floor)*math.Pow((to-floor)/(from-floor), share)
		}
		a.points = append(a.points, axisPoint{t.At.Add(quantity.Duration(share * t.Time.Minutes())).Time, c})
	}
}

// celsius is the temperature at a time.
func (a *axis) celsius(at time.Time) (float64, bool) {
	for i := 1; i < len(a.points); i++ {
		p, q := a.points[i-1], a.points[i]
		if at.Before(p.at) || at.After(q.at) {
			continue
		}
		if !q.at.After(p.at) {
			return q.c, true
		}
		return p.c + (q.c-p.c)*float64(at.Sub(p.at))/float64(q.at.Sub(p.at)), true
	}
	return 0, false
}

// The axis reaches from the coldest water to steam.
const (
	axisLow, axisHigh = 0.0, 105.0
	axisPieces        = 8
)

func across(c float64) float64 { return 4 + 92*(c-axisLow)/(axisHigh-axisLow) }

// slice draws the stretch of a row: the temperature as a line, the paper dark
// where bitterness is being made. Length is the class of the row's height.
func (a *axis) slice(i int) (svg string, length int) {
	from := a.laid.Tasks[i].At.Time
	to := from.Add(time.Duration(float64(a.laid.Tasks[i].Time) * float64(time.Minute)))
	if i+1 < len(a.laid.Tasks) {
		to = a.laid.Tasks[i+1].At.Time
	}
	minutes := to.Sub(from).Minutes()
	length = int(math.Min(6, math.Ceil(minutes/8)))
	var line, dark strings.Builder
	boiling := float64(hops.IsoRate(quantity.Celsius(100)))
	for k := range axisPieces + 1 {
		at := from.Add(time.Duration(float64(to.Sub(from)) * float64(k) / axisPieces))
		c, known := a.celsius(at)
		if !known {
			continue
		}
		y := 100 * float64(k) / axisPieces
		fmt.Fprintf(&line, "%.1f,%.1f ", across(c), y)
		bitter := !a.hops.IsZero() && !at.Before(a.hops) && at.Before(a.end) && c > 60
		if bitter && k < axisPieces {
			fmt.Fprintf(&dark, `<rect x="0" y="%.2f" width="100" height="%.2f" fill="#4a4030" fill-opacity="%.3f"/>`, y, 100.0/axisPieces+0.2, 0.42*math.Min(1, float64(hops.IsoRate(quantity.Celsius(c)))/boiling))
		}
	}
	if line.Len() == 0 {
		return "", length
	}
	return `<svg class="slice" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">` + dark.String() +
		`<polyline points="` + strings.TrimSpace(line.String()) + `" fill="none" stroke="#54514b" stroke-width="2.2" vector-effect="non-scaling-stroke"/></svg>`, length
}

// weight is the hop charge that hangs on the line at a task.
func (a *axis) weight(t brewday.Task) (grams string, at int) {
	if !strings.HasPrefix(t.Key, "hops ") || len(t.Numbers) == 0 {
		return "", 0
	}
	c, _ := a.celsius(t.At.Time)
	return t.Numbers[0].Planned, int(math.Round(across(c) / 5))
}
