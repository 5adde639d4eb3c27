// SPDX-License-Identifier: MIT

package gyle

import (
	"time"

	"gyle/quantity"
)

// Time is a moment with the zone of the clock that showed it.
type Time = quantity.Time

// Date is a day of the calendar.
type Date = quantity.Date

// Zone is the zone in which the clock of a brewing runs: that of its first entry
// or of its plan, else that of this machine. Where this machine's clock agrees
// with it, it is this machine's, which knows of summer time.
func (g *Gyle) Zone() *time.Location {
	var first Time
	switch {
	case len(g.Log) > 0:
		first = g.Log[0].Time
	case g.Plan != nil && !g.Plan.Start.IsZero():
		first = g.Plan.Start
	default:
		return time.Local
	}
	_, there := first.Zone()
	if _, here := first.In(time.Local).Zone(); here == there {
		return time.Local
	}
	return first.Location()
}

// At returns the moment of a clock, to the millisecond and with its offset
// from universal time.
func At(t time.Time) Time { return quantity.At(t) }
