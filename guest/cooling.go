// SPDX-License-Identifier: MIT

package guest

import (
	"math"

	"gyle/brewhouse"
	"gyle/quantity"
)

// coolingWay is how the wort gets cold, as a reader can tell it.
type coolingWay struct {
	kind   string            // "kettle", "run-off" or "pump"
	to30   quantity.Duration // from the boil to 30 °C, where the kettle is cooled as a whole
	water  quantity.Temperature
	settle quantity.Duration
	runOff quantity.Duration
}

// The kinds of cooling a reader may choose among.
const (
	coolKettle = "kettle"  // a coil or jacket cools all the wort where it is
	coolRunOff = "run-off" // hot wort runs through a cooler into the fermenter
	coolPump   = "pump"    // wort goes round through a cooler and back, then runs off
)

const (
	boilingPoint = 100.0 // °C
	pitchingNear = 30.0  // °C: cold enough that hops give no bitterness any more
)

// wayOf says a way of cooling of a house as a reader would.
func wayOf(c brewhouse.Cooling) coolingWay {
	w := coolingWay{kind: coolKettle, water: c.Water, settle: c.Settle, runOff: c.RunOff}
	switch {
	case c.Tau == nil:
		w.kind = coolRunOff
	case c.RunOff > 0:
		w.kind = coolPump
	}
	if c.Tau != nil {
		w.to30 = quantity.Duration(c.Tau.Minutes() * math.Log(w.fall()))
	}
	return w
}

// fall is how many times smaller the difference to the coolant is at 30 °C
// than at the boil. Newton's law of cooling makes its logarithm the time in
// time constants.
func (w coolingWay) fall() float64 {
	return (boilingPoint - w.water.Celsius()) / (pitchingNear - w.water.Celsius())
}

// document returns the way of cooling as a house holds it.
func (w coolingWay) document() (brewhouse.Cooling, error) {
	c := brewhouse.Cooling{Name: "yours", Water: w.water, Settle: w.settle}
	if w.kind != coolKettle {
		c.RunOff = w.runOff
		if c.RunOff <= 0 {
			return c, asked{"how long the wort runs off is missing", "20 min to 60 min is usual"}
		}
	}
	if w.kind == coolRunOff {
		return c, nil
	}
	if w.water.Celsius() >= pitchingNear-1 {
		return c, asked{"water of 29 °C or more doesn't cool wort to 30 °C", "give the temperature of the cooling water"}
	}
	if w.to30 <= 0 {
		return c, asked{"how long the cooling takes is missing", "15 min to 40 min is usual"}
	}
	tau := quantity.Duration(shortened(w.to30.Minutes() / math.Log(w.fall())))
	c.Tau = &tau
	return c, nil
}
