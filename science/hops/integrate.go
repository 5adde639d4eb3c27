// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

// A Point is one moment on the way of a charge through a history.
type Point struct {
	Time        quantity.Duration // since the start of the history
	Temperature quantity.Temperature
	State
}

// Trace follows a fresh charge dosed at the given time through the history, in
// steps no longer than step, each taken at the temperature of its middle. It
// shows the wort that stays in the kettle to the last; for the mean of a
// run-off see [History.Integrate]. It is for drawing, and for checking
// [History.Outcomes], which is faster and closer.
func (h History) Trace(at, step quantity.Duration) []Point {
	var points []Point
	h.march(at, step, func(p Point, _ int) { points = append(points, p) })
	return points
}

// Integrate returns the state at the end of the history of a fresh charge
// dosed at the given time, stepped forward plainly: each step is taken at the
// temperature of its middle, and a run-off is averaged over the steps. It
// expects a run-off to be the last segment.
//
//	A, I after a step as in [Hold], T = T(middle of the step)
//
// Units: t in min, T in K.
//
//   - Source: derived, exact exponential stepping.
//   - Valid: steps of 1 min in boil and ramps, 0.1 min in a fast chill.
//   - Check: within 1e-4 of a general solver of differential equations with steps of 0.05 min.
//   - Tag: computed
func (h History) Integrate(at, step quantity.Duration) State {
	last, mean := Point{State: Fresh}, State{}
	begun, previous := math.NaN(), Point{}
	h.march(at, step, func(p Point, segment int) {
		if segment >= 0 && h[segment].RunOff {
			if math.IsNaN(begun) {
				begun, previous = last.Time.Minutes(), last
			}
			d := (p.Time - previous.Time).Minutes()
			mean.Alpha += d * (p.Alpha + previous.Alpha) / 2
			mean.Iso += d * (p.Iso + previous.Iso) / 2
			previous = p
		}
		last = p
	})
	if math.IsNaN(begun) {
		return last.State
	}
	d := last.Time.Minutes() - begun
	return State{Alpha: mean.Alpha / d, Iso: mean.Iso / d}
}

// march calls each at the time of dosing (with segment −1) and after each step
// with the segment the step belongs to.
func (h History) march(at, step quantity.Duration, each func(p Point, segment int)) {
	at = max(0, at)
	state, start := Fresh, quantity.Duration(0)
	each(Point{at, h.TemperatureAt(at), state}, -1)
	for i, s := range h {
		length := max(0, s.Duration)
		from := min(max(0, at-start), length)
		n := math.Ceil(float64((length - from) / step))
		d := (length - from) / quantity.Duration(n)
		for k := range int(n) {
			begin := from + quantity.Duration(k)*d
			state = Hold(state, s.TemperatureAt(begin+d/2), d)
			each(Point{start + begin + d, s.TemperatureAt(begin + d), state}, i)
		}
		start += length
	}
}
