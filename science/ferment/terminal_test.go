// SPDX-License-Identifier: MIT

package ferment

import (
	"testing"

	"gyle/quantity"
)

func byDay(pairs ...float64) (readings []Reading) {
	for i := 0; i < len(pairs); i += 2 {
		readings = append(readings, Reading{At: quantity.Days(pairs[i]), SG: quantity.SG(pairs[i+1])})
	}
	return readings
}

// The rules are common practice, made explicit in JudgeTerminal; the cases
// follow from them.
func TestJudgeTerminal(t *testing.T) {
	for _, test := range []struct {
		name     string
		readings []Reading
		limits   Terminal
		want     Verdict
	}{
		{"stands still", byDay(7, 1.0120, 9, 1.0115, 10, 1.0112), Terminal{}, Stable},
		{"order doesn't matter", byDay(10, 1.0112, 7, 1.0120, 9, 1.0115), Terminal{}, Stable},
		{"still falls", byDay(7, 1.0130, 9, 1.0115, 10, 1.0110), Terminal{}, Falling},
		{"stuck above the forced test", byDay(7, 1.020, 8.5, 1.020, 10, 1.020), Terminal{Forced: 1.012}, Stuck},
		{"stuck above the expectation", byDay(7, 1.020, 8.5, 1.020, 10, 1.020), Terminal{Expected: 1.012}, Stuck},
		{"proven", byDay(7, 1.0142, 8.5, 1.0142, 10, 1.0142), Terminal{Forced: 1.0122}, StableAndProven},
		{"a little above, not proven", byDay(7, 1.0152, 8.5, 1.0152, 10, 1.0152), Terminal{Forced: 1.0122}, Stable},
		{"expectation proves nothing", byDay(7, 1.012, 8.5, 1.012, 10, 1.012), Terminal{Expected: 1.012}, Stable},
		{"window not spanned", byDay(8, 1.012, 9, 1.012, 10, 1.012), Terminal{}, Undecided},
		{"two readings only", byDay(7, 1.012, 10, 1.012), Terminal{}, Undecided},
		{"too short, but falling", byDay(9, 1.020, 10, 1.015), Terminal{}, Falling},
		{"diastatic yeast waits longer", byDay(7, 1.004, 9, 1.004, 10, 1.004), Terminal{Window: DiastaticWindow}, Undecided},
		{"farmhouse yeast waits less", byDay(3, 1.010, 4, 1.010, 5, 1.010), Terminal{Window: FarmhouseWindow}, Stable},
		{"coarse instrument", byDay(7, 1.014, 9, 1.013, 10, 1.012), Terminal{Resolution: 0.002}, Stable},
		{"old fall is forgotten", byDay(1, 1.050, 3, 1.030, 7, 1.012, 9, 1.012, 10, 1.012), Terminal{}, Stable},
		{"no readings", nil, Terminal{}, Undecided},
	} {
		if got := JudgeTerminal(test.readings, test.limits).Verdict; got != test.want {
			t.Errorf("%s: verdict is %q, want %q", test.name, got, test.want)
		}
	}
}

func TestToDrop(t *testing.T) {
	finding := JudgeTerminal(byDay(7, 1.020, 8.5, 1.020, 10, 1.020), Terminal{Forced: 1.0122})
	near(t, "points to drop", float64(finding.ToDrop)*1000, 7.8, 1e-6)
}

// A line of known slope with one wild reading; the median must not notice it.
func TestTheilSen(t *testing.T) {
	for _, count := range []int{30, 2000} {
		readings := loggerLine(count, -0.0002)
		readings[count/2].SG = 1.2
		near(t, "slope", TheilSen(readings), -0.0002, 2e-6)
	}
}

func loggerLine(count int, slopePerDay float64) (readings []Reading) {
	for i := range count {
		days := 4 * float64(i) / float64(count-1)
		readings = append(readings, Reading{At: quantity.Days(5 + days), SG: quantity.SG(1.012 + slopePerDay*days)})
	}
	return readings
}

func TestJudgeLogger(t *testing.T) {
	for _, test := range []struct {
		slope      float64
		fallToCome quantity.Plato
		want       Verdict
	}{
		{-0.0002, 0.05, Stable}, {-0.0005, 0.05, Falling}, {-0.0002, 0.2, Falling},
	} {
		got := JudgeTerminal(loggerLine(100, test.slope), Terminal{Logger: true, FallToCome: test.fallToCome}).Verdict
		if got != test.want {
			t.Errorf("slope %g, fall to come %g °P: verdict is %q, want %q", test.slope, float64(test.fallToCome), got, test.want)
		}
	}
}

func TestWindowFor(t *testing.T) {
	warm, cool := quantity.Celsius(33), quantity.Celsius(20)
	for _, test := range []struct {
		farmhouse, mixed bool
		at               quantity.Temperature
		want             quantity.Duration
	}{
		{false, false, cool, OrdinaryWindow}, {true, false, warm, FarmhouseWindow},
		{true, false, cool, OrdinaryWindow}, {false, true, cool, DiastaticWindow}, {true, true, warm, DiastaticWindow},
	} {
		if got := WindowFor(test.farmhouse, test.mixed, test.at); got != test.want {
			t.Errorf("window is %g days, want %g", got.Days(), test.want.Days())
		}
	}
}
