// SPDX-License-Identifier: MIT

package reconstruct

import (
	"gyle/quantity"
	"gyle/science/boil"
	"gyle/science/hops"
)

// Facts are what decides a beer: as it was planned, or as it happened. The same
// facts always make the same beer; see [Facts.Brew]. Two sets of facts are
// compared by [Effects].
type Facts struct {
	reader quantity.Printer // of the sentences about it

	// The mash.
	Grist      quantity.Mass
	Lab        quantity.Mass   // extract of the grist by the laboratory
	Lovibond   float64         // Σ kg · °L of the grist, late dark grain by what it yields
	Liquor     quantity.Volume // mash and sparge, at 20 °C
	Absorption quantity.Ratio
	Dead       quantity.Volume
	Yield      quantity.Fraction
	MashPH     quantity.PH // 0: not known

	// The kettle. Additions go in before the end of the boil.
	WaterIn   quantity.Mass
	ExtractIn quantity.Mass // as weighed
	Extract   quantity.Mass // what the weighed extract holds
	Boil      []Leg
	PerHour   quantity.Mass // evaporated while boiling
	Charges   []Charge

	// After the boil.
	Cooling    []Leg
	KettleLoss quantity.Volume
	WaterAfter quantity.Mass // into the fermenter

	// The beer.
	FG       quantity.SG       // as measured or as planned
	Recovery float64           // of iso-alpha acids, kettle to beer; 0: the usual one of a home
	House    quantity.Estimate // factor K; 0: the prior
	DMS      quantity.Span[boil.MicrogramsPerLitre]
}

// A Leg is a stretch of the kettle's temperature. It starts where the one
// before it ended.
type Leg struct {
	Name   string
	From   quantity.Temperature // of the first leg, or after a jump; unset: where the last one ended
	To     quantity.Temperature // where it leads; unset: it stays, or cools for its Time
	Time   quantity.Duration    // 0: as long as Tau takes to To
	Tau    quantity.Duration    // of cooling towards Toward; 0: a straight line
	Toward quantity.Temperature
	RunOff bool // the wort leaves the kettle during it
	Boils  bool // steam leaves during it
}

// A Charge is one dose of hops in the kettle.
type Charge struct {
	Hop   string
	Mass  quantity.Mass
	Alpha quantity.Fraction // on the day, times what its form gives up
	// Boil is the time before flame-out, for charges in the boil.
	Boil quantity.Duration
	// At is the temperature of the kettle at which it goes in after flame-out;
	// unset: it goes into the boil.
	At quantity.Temperature
	// Out is how long it stays in, for a bag that is lifted; 0: to the end.
	Out quantity.Duration
}

// segment returns the stretch as science/hops takes it.
func (l Leg) segment(from quantity.Temperature) hops.Segment {
	if !l.From.IsZero() {
		from = l.From
	}
	var s hops.Segment
	switch {
	case l.Tau > 0 && l.Time > 0:
		s = hops.Cooling(from, l.Toward, l.Tau, l.Time)
	case l.Tau > 0:
		s = hops.CoolingTo(from, l.To, l.Toward, l.Tau)
	case l.To.IsZero():
		s = hops.Steady(from, l.Time)
	default:
		s = hops.Linear(from, l.To, l.Time)
	}
	s.RunOff = l.RunOff
	return s
}

// history lays the legs behind one another; flameOut is when the boil ends.
func (f *Facts) history() (h hops.History, flameOut quantity.Duration) {
	now := quantity.Celsius(100)
	for _, legs := range [][]Leg{f.Boil, f.Cooling} {
		for _, l := range legs {
			s := l.segment(now)
			if s.Duration > 0 {
				h = append(h, s)
				now = s.End()
			}
		}
		if flameOut == 0 {
			flameOut = h.Duration()
		}
	}
	return h, flameOut
}

// when returns the time of a charge in a history.
func (c Charge) when(h hops.History, flameOut quantity.Duration) quantity.Duration {
	if c.At.IsZero() {
		return max(0, flameOut-c.Boil)
	}
	low, high := flameOut, h.Duration()
	if !c.At.Below(h.TemperatureAt(low)) {
		return low
	}
	for range 60 { // the kettle only cools after flame-out, or stays
		if mid := (low + high) / 2; c.At.Below(h.TemperatureAt(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// boilTime returns the time that steam leaves.
func (f *Facts) boilTime() quantity.Duration {
	sum := quantity.Duration(0)
	for _, l := range f.Boil {
		if l.Boils {
			sum += l.Time
		}
	}
	return sum
}

// boilsAt returns the temperature of the boil, weighted by time.
func (f *Facts) boilsAt() quantity.Temperature {
	sum, time := 0.0, 0.0
	now := quantity.Celsius(100)
	for _, l := range f.Boil {
		s := l.segment(now)
		now = s.End()
		if l.Boils {
			sum += s.Start().Celsius() * l.Time.Minutes()
			time += l.Time.Minutes()
		}
	}
	if time == 0 {
		return now
	}
	return quantity.Celsius(sum / time)
}
