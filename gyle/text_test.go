// SPDX-License-Identifier: MIT

package gyle_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"gyle/gyle"
	"gyle/internal/document/documenttest"
)

func drawTime(t *rapid.T) gyle.Time {
	ms := rapid.Int64Range(0, 4e12).Draw(t, "milliseconds")
	offset := 60 * rapid.IntRange(-14*60, 14*60).Draw(t, "minutes from universal time")
	return gyle.At(time.UnixMilli(ms).In(time.FixedZone("", offset)))
}

func TestTimeReadsWhatItWrites(t *testing.T) {
	documenttest.BackAgain(t, rapid.Custom(drawTime))
}

func TestDateReadsWhatItWrites(t *testing.T) {
	first := time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC)
	documenttest.BackAgain(t, rapid.Map(rapid.IntRange(1, 3_000_000), func(days int) gyle.Date {
		return gyle.Date{Time: first.AddDate(0, 0, days)}
	}))
}

func TestWordsReadWhatTheyWrite(t *testing.T) {
	documenttest.BackAgain(t, rapid.SampledFrom(gyle.Readables()))
	documenttest.BackAgain(t, rapid.SampledFrom(gyle.Places()))
	documenttest.BackAgain(t, rapid.SampledFrom(gyle.Deeds()))
}

func TestTimeRefuses(t *testing.T) {
	for _, text := range []string{"", "10:30", "2026-03-07", "2026-03-07T10:30", "2026-03-07T10:30:00", "2026-13-07T10:30Z", "2026-03-07T25:30Z", "07.03.2026 10:30Z"} {
		var got gyle.Time
		if err := got.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

// IDs made later sort later, whatever was drawn; those of one millisecond keep
// apart by what was drawn.
func TestIDsSortByTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func() (random [10]byte) {
			copy(random[:], rapid.SliceOfN(rapid.Byte(), 10, 10).Draw(t, "random"))
			return random
		}
		ms := rapid.Int64Range(0, 1<<47).Draw(t, "time")
		later := ms + rapid.Int64Range(1, 1<<40).Draw(t, "later")
		one, other := draw(), draw()
		a, b := gyle.NewID(time.UnixMilli(ms), one), gyle.NewID(time.UnixMilli(later), other)
		if !(a < b) {
			t.Fatalf("%s of %d isn't before %s of %d", a, ms, b, later)
		}
		if same := gyle.NewID(time.UnixMilli(ms), other); (same == a) != (one == other) {
			t.Fatalf("%s and %s of %v and %v", a, same, one, other)
		}
		var read gyle.ID
		if err := read.UnmarshalText([]byte(a)); err != nil || read != a || len(a) != 26 {
			t.Fatalf("%q is read as %q: %v", a, read, err)
		}
	})
}

// The published example of the format: 01ARZ3NDEKTSV4RRFFQ69G5FAV was made at
// 1469922850259 ms (specification of the universally unique lexicographically
// sortable identifier; from memory).
func TestIDOfTheSpecification(t *testing.T) {
	if got := gyle.NewID(time.UnixMilli(1469922850259), [10]byte{}); got[:10] != "01ARZ3NDEK" {
		t.Errorf("the time of 1469922850259 ms is written %s", got[:10])
	}
}
