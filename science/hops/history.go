// SPDX-License-Identifier: MIT

package hops

import (
	"math"

	"gyle/quantity"
)

type shape int

const (
	steady shape = iota
	linear
	cooling
)

// A Segment is a stretch of the kettle's temperature: constant, a straight
// line, or a cooling towards the surroundings. Make one with [Steady],
// [Linear], [Cooling] or [CoolingTo].
//
// RunOff says that the wort leaves the kettle during the segment, at a
// constant rate, and is cold at once: the outcome is then the mean over all
// times of leaving.
type Segment struct {
	Duration quantity.Duration
	RunOff   bool

	shape    shape
	from, to quantity.Temperature // to is the ambient temperature of a cooling
	tau      quantity.Duration
}

// Steady returns a segment of duration d at constant temperature t.
func Steady(t quantity.Temperature, d quantity.Duration) Segment {
	return Segment{Duration: d, shape: steady, from: t, to: t}
}

// Linear returns a segment of duration d whose temperature goes in a straight
// line from one temperature to the other.
func Linear(from, to quantity.Temperature, d quantity.Duration) Segment {
	if from == to || d <= 0 {
		return Steady(to, d)
	}
	return Segment{Duration: d, shape: linear, from: from, to: to}
}

// Cooling returns a segment of duration d that cools by Newton's law towards
// an ambient temperature (of the air, or of the cooling water) with the time
// constant tau. A tau of zero is an instant drop to the ambient temperature.
//
//	T = Ta + (T0 − Ta)·e^(−t/tau)
//
// Units: t, tau in min.
//
//   - Source: practice, Newton's law of cooling.
//   - Valid: a well mixed kettle; above 85 °C an open one cools faster at first, because it steams.
//   - Check: 97 °C towards 20 °C with tau 120 min for 45 min makes I 0.1509 of fresh hops.
//   - Tag: common practice
func Cooling(from, ambient quantity.Temperature, tau, d quantity.Duration) Segment {
	if tau <= 0 || from == ambient {
		return Steady(ambient, d)
	}
	return Segment{Duration: d, shape: cooling, from: from, to: ambient, tau: tau}
}

// CoolingTo returns the segment that cools by Newton's law until the kettle is
// at the temperature to, which must lie between from and ambient.
//
//	t = tau · ln((T0 − Ta)/(T − Ta))
//
// Units: t, tau in min.
//
//   - Source: practice, Newton's law of cooling solved for the time.
//   - Valid: T between T0 and Ta; otherwise the segment has no duration.
//   - Check: 100 to 80 °C in water of 12 °C with tau 21 min takes 5.4 min.
//   - Tag: common practice
func CoolingTo(from, to, ambient quantity.Temperature, tau quantity.Duration) Segment {
	s := Cooling(from, ambient, tau, quantity.Duration(math.Inf(1)))
	s.Duration = 0
	if reached := s.unboundedReach(to); reached > 0 {
		s.Duration = quantity.Duration(reached)
	}
	return s
}

// AsRunOff returns s with the wort leaving the kettle during it.
func (s Segment) AsRunOff() Segment {
	s.RunOff = true
	return s
}

// TemperatureAt returns the temperature at time d after the segment's start.
func (s Segment) TemperatureAt(d quantity.Duration) quantity.Temperature {
	switch s.shape {
	case linear:
		share := d.Minutes() / s.Duration.Minutes()
		return s.from.Add(quantity.Warming(share * float64(s.to.Sub(s.from))))
	case cooling:
		gap := float64(s.from.Sub(s.to)) * math.Exp(-d.Minutes()/s.tau.Minutes())
		return s.to.Add(quantity.Warming(gap))
	}
	return s.from
}

// End returns the temperature at the end of the segment.
func (s Segment) End() quantity.Temperature { return s.TemperatureAt(s.Duration) }

// Start returns the temperature at the start of the segment.
func (s Segment) Start() quantity.Temperature { return s.from }

// reaches returns the time in minutes at which the segment passes temperature
// t, or infinity.
func (s Segment) reaches(t quantity.Temperature) float64 {
	at := s.unboundedReach(t)
	if at > 0 && at < s.Duration.Minutes() {
		return at
	}
	return math.Inf(1)
}

func (s Segment) unboundedReach(t quantity.Temperature) float64 {
	whole, part := float64(s.to.Sub(s.from)), float64(t.Sub(s.from))
	switch s.shape {
	case linear:
		return part / whole * s.Duration.Minutes()
	case cooling:
		return -s.tau.Minutes() * math.Log(1-part/whole)
	}
	return math.Inf(1)
}

// A History is the temperature of the kettle over time, from the first charge
// of hops (or earlier) until the wort is cold.
type History []Segment

// Duration returns the length of the whole history.
func (h History) Duration() quantity.Duration {
	var sum quantity.Duration
	for _, s := range h {
		sum += max(0, s.Duration)
	}
	return sum
}

// TemperatureAt returns the temperature at time d after the start. Before the
// start it is the first temperature, after the end the last one.
func (h History) TemperatureAt(d quantity.Duration) quantity.Temperature {
	if len(h) == 0 {
		return quantity.Temperature{}
	}
	i, into := h.locate(d)
	if i == len(h) {
		return h[i-1].End()
	}
	return h[i].TemperatureAt(quantity.Duration(into))
}

// locate returns the segment that holds time d, and the minutes since that
// segment's start. A time on a border belongs to the later segment; a time
// after the end gives len(h).
func (h History) locate(d quantity.Duration) (segment int, into float64) {
	left := max(0, d.Minutes())
	for i, s := range h {
		length := max(0, s.Duration.Minutes())
		if left < length {
			return i, left
		}
		left -= length
	}
	return len(h), 0
}
