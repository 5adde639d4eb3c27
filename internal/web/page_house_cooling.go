// SPDX-License-Identifier: MIT

package web

import (
	"fmt"
	"html"
	"math"
	"strings"

	"gyle/brewhouse"
	"gyle/quantity"
	"gyle/science/boil"
)

// coolingWay is one way of cooling with what becomes of the wort's temperature.
type coolingWay struct {
	Name      string                `json:"name"`
	Tau       *quantity.Duration    `json:"tau,omitempty"` // of the kettle under this way
	Water     *quantity.Temperature `json:"water,omitempty"`
	Settle    quantity.Duration     `json:"settle,omitempty"`
	RunOff    quantity.Duration     `json:"runOff,omitempty"`
	ToStand   *quantity.Duration    `json:"toStand,omitempty"` // until 80 °C, where the kettle is cooled
	ToPitch   *quantity.Duration    `json:"toPitch,omitempty"` // until 20 °C, where the water is cold enough
	Above     quantity.Duration     `json:"aboveStand"`        // the last wort stays above 80 °C for so long
	AtLast    quantity.Temperature  `json:"atLast"`            // of the last wort that leaves the kettle
	AloneTau  quantity.Duration     `json:"aloneTau"`
	AloneSaid bool                  `json:"-"`
	Drawing   string                `json:"-"`
}

// coolingWays works out every way of cooling of a house from the boil on.
func coolingWays(h *brewhouse.House, from quantity.Temperature, pr quantity.Printer) (ways []coolingWay) {
	for i, c := range h.Cooling {
		way := coolingWay{Name: c.Name, Tau: c.Tau, Settle: c.Settle, RunOff: c.RunOff, AloneTau: usualKettleTau}
		if h.Kettle.Cools > 0 {
			way.AloneTau, way.AloneSaid = h.Kettle.Cools, true
		}
		if !c.Water.IsZero() {
			water := c.Water
			way.Water = &water
		}
		curve := newCoolingCurve(h, way, from)
		way.ToStand, way.ToPitch = curve.reach(standWarmth), curve.reach(pitchingCold)
		way.Above = curve.above(standWarmth)
		way.AtLast = curve.at(curve.end)
		way.Drawing = curve.draw(fmt.Sprintf("cooling-%d", i+1), pr)
		ways = append(ways, way)
	}
	return ways
}

// coolingCurve is the temperature of the wort in the kettle from the end of
// the boil.
type coolingCurve struct {
	way             coolingWay
	from, room      quantity.Temperature
	end             quantity.Duration // the kettle is empty, or cold
	shown           quantity.Duration // width of the drawing
	whole           bool              // the kettle is cooled as a whole
	toward          quantity.Temperature
	tau, emptyAfter quantity.Duration
}

func newCoolingCurve(h *brewhouse.House, way coolingWay, from quantity.Temperature) coolingCurve {
	c := coolingCurve{way: way, from: from, room: usualRoom, emptyAfter: way.Settle + way.RunOff}
	if !h.Kettle.Room.IsZero() {
		c.room = h.Kettle.Room
	}
	c.toward, c.tau = c.room, way.AloneTau
	if way.Tau != nil && way.Water != nil {
		c.whole, c.toward, c.tau = true, *way.Water, *way.Tau
	}
	c.end = c.emptyAfter
	if way.RunOff == 0 {
		target := pitchingCold
		if nearest := c.toward.Add(1); target.Below(nearest) {
			target = nearest
		}
		c.end = boil.CoolingTime(from, target, c.toward, c.tau)
	}
	c.shown = max(30, quantity.Duration(10*math.Ceil(float64(c.end)/10)))
	return c
}

// at is the temperature after a time.
func (c coolingCurve) at(d quantity.Duration) quantity.Temperature {
	return boil.CoolingTemperature(c.from, c.toward, c.tau, d)
}

// reach is when the kettle is as cold as that; nil where it is never, or not
// before it is empty.
func (c coolingCurve) reach(t quantity.Temperature) *quantity.Duration {
	if !c.whole || !c.toward.Below(t) {
		return nil
	}
	d := boil.CoolingTime(c.from, t, c.toward, c.tau)
	if c.way.RunOff > 0 && t == pitchingCold {
		return nil // the wort leaves before, through the cooler
	}
	return &d
}

// above is how long the last wort is warmer than that.
func (c coolingCurve) above(t quantity.Temperature) quantity.Duration {
	if !c.toward.Below(t) {
		return c.end
	}
	return min(c.end, boil.CoolingTime(c.from, t, c.toward, c.tau))
}

// Size of the drawing, in its own units, and the temperatures at its edges.
const (
	curveWidth, curveHeight = 360.0, 150.0
	curveLeft, curveRight   = 42.0, 12.0
	curveTop, curveBottom   = 12.0, 26.0
	curveCold, curveHot     = 10.0, 105.0
)

// draw draws the curve: the wort's line, the ruled line of 80 °C above which
// bitterness is still made, and where the kettle is empty.
func (c coolingCurve) draw(id string, pr quantity.Printer) string {
	var b strings.Builder
	title, desc := "Temperature after the boil: "+c.way.Name, c.describe(pr)
	fmt.Fprintf(&b, `<svg class="chart cooling-curve" viewBox="0 0 %g %g" role="img" aria-labelledby="%s-t %s-d"><title id="%s-t">%s</title><desc id="%s-d">%s</desc>`,
		curveWidth, curveHeight, id, id, id, html.EscapeString(title), id, html.EscapeString(desc))
	c.grid(&b, pr)
	fmt.Fprintf(&b, `<path class="warm" d="%sL%.1f %.1fL%.1f %.1fZ"/>`, c.path(0, c.above(standWarmth)), c.x(c.above(standWarmth)), c.y(standWarmth), c.x(0), c.y(standWarmth))
	fmt.Fprintf(&b, `<path class="wort" d="%s"/>`, c.path(0, c.end))
	fmt.Fprintf(&b, `<circle class="wort-end" cx="%.1f" cy="%.1f" r="3.5"/>`, c.x(c.end), c.y(c.at(c.end)))
	if c.way.RunOff > 0 {
		x := c.x(c.way.Settle)
		fmt.Fprintf(&b, `<path class="moment" d="M%.1f %.1fV%.1f"/><text x="%.1f" y="%.1f" font-size="11">run-off</text>`, x, curveTop, curveHeight-curveBottom, x+4, curveTop+9)
	}
	b.WriteString(`</svg>`)
	return b.String()
}

// grid rules the temperatures and writes the minutes.
func (c coolingCurve) grid(b *strings.Builder, pr quantity.Printer) {
	for _, t := range []float64{20, 40, 60, 80, 100} {
		at := quantity.Celsius(t)
		class := "ruled"
		if at == standWarmth {
			class = "ruled stand"
		}
		fmt.Fprintf(b, `<path class="%s" d="M%g %.1fH%g"/>`, class, curveLeft, c.y(at), curveWidth-curveRight)
		label := pr.Number(t, 0) + "°"
		if pr.System == quantity.USCustomary {
			label = pr.Number(t*1.8+32, 0) + "°"
		}
		fmt.Fprintf(b, `<text x="%g" y="%.1f" text-anchor="end" font-size="11">%s</text>`, curveLeft-6, c.y(at)+4, label)
	}
	step := quantity.Duration(10)
	for c.shown/step > 6 {
		step *= 2
	}
	for d := quantity.Duration(0); d <= c.shown; d += step {
		anchor, text := "middle", fmt.Sprintf("%g", float64(d))
		if d+step > c.shown {
			anchor, text = "end", text+" min"
		}
		fmt.Fprintf(b, `<text x="%.1f" y="%g" text-anchor="%s" font-size="11">%s</text>`, c.x(d), curveHeight-8, anchor, text)
	}
}

func (c coolingCurve) x(d quantity.Duration) float64 {
	return curveLeft + float64(d/c.shown)*(curveWidth-curveLeft-curveRight)
}

func (c coolingCurve) y(t quantity.Temperature) float64 {
	share := (t.Celsius() - curveCold) / (curveHot - curveCold)
	return curveHeight - curveBottom - share*(curveHeight-curveTop-curveBottom)
}

// path is the curve between two times.
func (c coolingCurve) path(from, to quantity.Duration) string {
	const pieces = 40
	var b strings.Builder
	for i := range pieces + 1 {
		d := from + (to-from)*quantity.Duration(i)/pieces
		command := "L"
		if i == 0 {
			command = "M"
		}
		fmt.Fprintf(&b, "%s%.1f %.1f", command, c.x(d), c.y(c.at(d)))
	}
	return b.String()
}

func (c coolingCurve) describe(pr quantity.Printer) string {
	text := fmt.Sprintf("From %s at the end of the boil to %s after %s; above %s for %s.",
		pr.Temperature(c.from), pr.Temperature(c.at(c.end)), pr.Duration(c.end), pr.Temperature(standWarmth), pr.Duration(c.above(standWarmth)))
	if c.way.RunOff > 0 {
		text += fmt.Sprintf(" Run-off begins after %s and takes %s.", pr.Duration(c.way.Settle), pr.Duration(c.way.RunOff))
	}
	return text
}
