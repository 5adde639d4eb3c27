// SPDX-License-Identifier: MIT

package quantity

import (
	"testing"
	"time"
)

func TestTimeReadsAndWrites(t *testing.T) {
	for text, want := range map[string]string{
		"2026-03-07T10:30:00+01:00": "2026-03-07T10:30:00+01:00", "2026-03-07T10:30+01:00": "2026-03-07T10:30:00+01:00", "2026-03-07 10:30 Z": "2026-03-07T10:30:00Z",
		"2026-03-07t10:30:05.25z": "2026-03-07T10:30:05.25Z", " 2026-03-07T10:30:00-05:30 ": "2026-03-07T10:30:00-05:30",
	} {
		var got Time
		if err := got.UnmarshalText([]byte(text)); err != nil || got.String() != want {
			t.Errorf("%q is read as %s, %v; want %s", text, got, err, want)
		}
	}
	for _, bad := range []string{"", "2026-03-07", "2026-03-07T10:30", "2026-13-07T10:30Z", "2026-03-07T25:30Z", "2026-03-07T10:30:00.Z", "2026-03-07T10:30:00.1234Z", "2026-03-07T10:30:00+1:00", "26-03-07T10:30Z", "2026-03-07T10:30:0xZ"} {
		var got Time
		if err := got.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q is read as %s", bad, got)
		}
	}
}

func TestTimeCounts(t *testing.T) {
	start := At(time.Date(2026, 3, 7, 10, 30, 0, 999, time.UTC))
	if later := start.Add(90); later.Since(start) != 90 || later.String() != "2026-03-07T12:00:00Z" {
		t.Errorf("90 min after %s is %s", start, later)
	}
}

func TestDateReadsAndWrites(t *testing.T) {
	var d Date
	if err := d.UnmarshalText([]byte("2026-03-07")); err != nil || d.String() != "2026-03-07" {
		t.Errorf("%s, %v", d, err)
	}
	for _, bad := range []string{"", "7 March", "2026-02-30"} {
		if err := d.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q is read as %s", bad, d)
		}
	}
	if text := (Date{}).String(); text != "" {
		t.Errorf("no day is written %q", text)
	}
}
