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

// At returns the moment of a clock, to the millisecond and with its offset
// from universal time.
func At(t time.Time) Time { return quantity.At(t) }
