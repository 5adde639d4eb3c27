// SPDX-License-Identifier: MIT

package quantity

import (
	"fmt"
	"strings"
	"time"
)

// Time is a moment with the zone of the clock that showed it, written
// 2026-03-07T10:30:00+01:00.
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

// Add returns t later by d.
func (t Time) Add(d Duration) Time {
	return Time{t.Time.Add(time.Duration(d.Seconds() * float64(time.Second)).Round(time.Millisecond))}
}

// Since returns how long after u the moment t is.
func (t Time) Since(u Time) Duration { return Seconds(t.Time.Sub(u.Time).Seconds()) }

const timeHint = "write day, time and zone: 2026-03-07T10:30:00+01:00, or Z for universal time"

// timeLayouts are the forms of a time with its zone; the seconds may be left
// out, a space may stand for the T and before the zone.
var timeLayouts = []string{"2006-01-02T15:04:05Z07:00", "2006-01-02T15:04Z07:00"}

// UnmarshalText reads a time. It must have its zone.
func (t *Time) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	form, ok := timeForm(s)
	if !ok {
		return &ParseError{Text: s, Msg: fmt.Sprintf("%q is no time with its zone", s), Hint: timeHint}
	}
	for _, layout := range timeLayouts {
		if read, err := time.Parse(layout, form); err == nil {
			*t = At(read)
			return nil
		}
	}
	return &ParseError{Text: s, Msg: fmt.Sprintf("%q is not on the calendar or the clock", s), Hint: timeHint}
}

// timeForm puts a time into the form of RFC 3339; it is not ok when the text
// has another shape. "#" stands for a digit.
func timeForm(s string) (form string, ok bool) {
	if len(s) < len("####-##-##T##:##Z") || !shaped(s[:10], "####-##-##") || !strings.ContainsAny(s[10:11], "Tt ") || !shaped(s[11:16], "##:##") {
		return "", false
	}
	rest, seconds := s[16:], ""
	if strings.HasPrefix(rest, ":") && len(rest) > 3 && shaped(rest[:3], ":##") {
		end := 3
		if rest[end] == '.' {
			for end++; end < len(rest) && shaped(rest[end:end+1], "#"); end++ {
			}
			if end == 4 || end > 7 {
				return "", false
			}
		}
		seconds, rest = rest[:end], rest[end:]
	}
	zone := strings.ToUpper(strings.TrimPrefix(rest, " "))
	if zone != "Z" && !shaped(zone, "+##:##") && !shaped(zone, "-##:##") {
		return "", false
	}
	return s[:10] + "T" + s[11:16] + seconds + zone, true
}

// shaped reports whether s is like a pattern, in which # stands for a digit.
func shaped(s, pattern string) bool {
	if len(s) != len(pattern) {
		return false
	}
	for i := range len(s) {
		if digit := s[i] >= '0' && s[i] <= '9'; pattern[i] == '#' && !digit || pattern[i] != '#' && s[i] != pattern[i] {
			return false
		}
	}
	return true
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

// Date is a day of the calendar, written 2026-03-07.
type Date struct{ time.Time }

// UnmarshalText reads a day.
func (d *Date) UnmarshalText(b []byte) error {
	t, err := time.Parse(time.DateOnly, string(b))
	if err != nil {
		return &ParseError{Text: string(b), Msg: fmt.Sprintf("%q is no day of the calendar", b), Hint: "write year-month-day: 2026-03-07"}
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
