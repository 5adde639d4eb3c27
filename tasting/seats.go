// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"slices"
	"strings"

	"gyle/internal/document"
)

// FixedError says that seats can't be changed any more: the orders of serving are
// fixed.
type FixedError struct {
	At   Time
	What string // what was asked: "a seat was added"
}

// Error says why not, and what can be done instead.
func (e *FixedError) Error() string {
	return fmt.Sprintf("the orders were fixed on %s for the seats as they were: %s. A seat more has no place in orders that balance each other, and a seat less leaves a gap that nobody answers for. "+
		"Mark a taster as withdrawn, or plan another tasting", e.At.Format("2 January 2006, 15:04"), e.What)
}

// Fixed returns when the first flight got its orders and codes; false while none
// has.
func (t *Tasting) Fixed() (at Time, fixed bool) {
	for _, f := range t.Flights {
		if len(f.Serving) == 0 {
			continue
		}
		if f.Design != nil && (at.IsZero() || f.Design.At.Before(at.Time)) {
			at = f.Design.At
		}
		fixed = true
	}
	return at, fixed
}

// Seat puts a panel in the place of the one before. Once orders are fixed, names
// and what assessors say of themselves may change, and somebody may withdraw; the
// seats stay, and a change of them is a [FixedError]. Other faults are
// document.Faults.
func (t *Tasting) Seat(panel []Assessor) error {
	taken := *t
	taken.Panel = slices.Clone(panel)
	c := &checker{tasting: &taken}
	c.panel()
	for i, a := range taken.Panel {
		if strings.TrimSpace(a.ID) == "" {
			c.add(fmt.Sprintf("panel[%d].id", i), "a number will do", "a seat has no number")
		}
	}
	if len(c.faults) > 0 {
		return document.Sorted(c.faults)
	}
	if at, fixed := t.Fixed(); fixed {
		before, after := seatIDs(t.Panel), seatIDs(panel)
		for _, id := range after {
			if !slices.Contains(before, id) {
				return &FixedError{at, "seat " + id + " is new"}
			}
		}
		for _, id := range before {
			if !slices.Contains(after, id) {
				return &FixedError{at, "seat " + id + " is gone"}
			}
		}
	}
	t.Panel = taken.Panel
	return nil
}

func seatIDs(panel []Assessor) (ids []string) {
	for _, a := range panel {
		ids = append(ids, a.ID)
	}
	return ids
}

// MoreSeats returns a panel with n seats more, under numbers that nobody has.
func MoreSeats(panel []Assessor, n int) []Assessor {
	ids := seatIDs(panel)
	more := slices.Clone(panel)
	for number := len(panel) + 1; n > 0; number++ {
		if id := fmt.Sprintf("%02d", number); !slices.Contains(ids, id) {
			more, n = append(more, Assessor{ID: id}), n-1
		}
	}
	return more
}
