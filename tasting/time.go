// SPDX-License-Identifier: MIT

package tasting

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"gyle/quantity"
)

// Time is a moment with the zone of the clock that showed it, written
// 2026-05-16T19:30:00+01:00.
type Time struct{ time.Time }

// At returns the moment of a clock, to the millisecond and with its offset
// from universal time.
func At(t time.Time) Time {
	_, offset := t.Zone()
	if offset == 0 {
		return Time{t.UTC().Truncate(time.Millisecond)}
	}
	return Time{t.In(time.FixedZone("", offset)).Truncate(time.Millisecond)}
}

const timeHint = "write day, time and zone: 2026-05-16T19:30:00+01:00, or Z for universal time"

// timeForm is a time with its zone; the seconds may be left out.
var timeForm = regexp.MustCompile(`^(\d{4}-\d\d-\d\d)[Tt ](\d\d:\d\d)(:\d\d(?:\.\d{1,3})?)? ?(Z|z|[+-]\d\d:\d\d)$`)

// UnmarshalText reads a time. It must have its zone.
func (t *Time) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	parts := timeForm.FindStringSubmatch(s)
	if parts == nil {
		return &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q is no time with its zone", s), Hint: timeHint}
	}
	seconds := parts[3]
	if seconds == "" {
		seconds = ":00"
	}
	read, err := time.Parse(time.RFC3339Nano, parts[1]+"T"+parts[2]+seconds+strings.ToUpper(parts[4]))
	if err != nil {
		return &quantity.ParseError{Text: s, Msg: fmt.Sprintf("%q is not on the calendar or the clock", s), Hint: timeHint}
	}
	*t = At(read)
	return nil
}

// MarshalText writes the time with its zone.
func (t Time) MarshalText() ([]byte, error) {
	if t.IsZero() {
		return nil, nil
	}
	if y := t.Year(); y < 0 || y > 9999 {
		return nil, fmt.Errorf("write a time: the year %d has more than four digits", y)
	}
	return []byte(t.Format("2006-01-02T15:04:05.999Z07:00")), nil
}

func (t Time) String() string {
	b, _ := t.MarshalText()
	return string(b)
}

// Date is a day of the calendar, written 2026-05-16.
type Date struct{ time.Time }

// UnmarshalText reads a day.
func (d *Date) UnmarshalText(b []byte) error {
	t, err := time.Parse(time.DateOnly, string(b))
	if err != nil {
		return &quantity.ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no day of the calendar", b), Hint: "write year-month-day: 2026-05-16"}
	}
	d.Time = t
	return nil
}

// MarshalText writes the day, or nothing if it isn't set.
func (d Date) MarshalText() ([]byte, error) {
	if d.IsZero() {
		return nil, nil
	}
	return []byte(d.Format(time.DateOnly)), nil
}

func (d Date) String() string {
	b, _ := d.MarshalText()
	return string(b)
}
