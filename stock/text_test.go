// SPDX-License-Identifier: MIT

package stock_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"gyle/internal/document/documenttest"
	"gyle/stock"
)

func TestDateReadsWhatItWrites(t *testing.T) {
	first := time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC)
	documenttest.BackAgain(t, rapid.Map(rapid.IntRange(1, 3_000_000), func(days int) stock.Date {
		return stock.Date{Time: first.AddDate(0, 0, days)}
	}))
}

// Days that aren't in the calendar, and forms that could be two days, are
// refused.
func TestDateRefuses(t *testing.T) {
	for _, text := range []string{"", "2026-02-29", "2026-13-01", "26-11-25", "25.11.2026", "11/25/2026", "2026-11-25 10:00", "today"} {
		var d stock.Date
		if err := d.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q is read as %v", text, d)
		}
	}
}
