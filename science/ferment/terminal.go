// SPDX-License-Identifier: MIT

package ferment

import (
	"cmp"
	"math"
	"slices"

	"gyle/quantity"
)

// Verdict says whether a gravity has stopped falling.
type Verdict string

// The verdicts. Undecided means that the readings do not span the window yet.
const (
	Undecided       Verdict = ""
	Falling         Verdict = "falling"
	Stable          Verdict = "stable"
	StableAndProven Verdict = "stable-and-proven"
	Stuck           Verdict = "stuck?"
)

// Reading is one gravity reading: degassed, at fermentation temperature,
// corrected for it, by a hydrometer (no refractometer in beer).
type Reading struct {
	At quantity.Duration // since pitching
	SG quantity.SG
}

// The windows over which a gravity must stand still (common practice, made
// explicit here).
var (
	OrdinaryWindow   = quantity.Days(3)
	FarmhouseWindow  = quantity.Days(2)  // farmhouse yeast fermented above 28 °C
	DiastaticWindow  = quantity.Days(14) // diastatic, Brettanomyces or mixed cultures
	farmhouseMinimum = quantity.Celsius(28)
)

// WindowFor returns the window for a kind of yeast at a temperature.
func WindowFor(farmhouse, diastaticOrMixed bool, at quantity.Temperature) quantity.Duration {
	switch {
	case diastaticOrMixed:
		return DiastaticWindow
	case farmhouse && farmhouseMinimum.Below(at):
		return FarmhouseWindow
	}
	return OrdinaryWindow
}

// The limits of the test of the end (common practice, made explicit here).
const (
	stableRange       = 0.001  // SG, largest minus smallest reading
	stableReadings    = 3      // at least so many by hand
	stableSlope       = 0.0003 // SG per day, of a logger
	stableFallToCome  = 0.1    // °P, by the fitted curve
	provenDistance    = 0.002  // SG, to the forced test
	stuckDistance     = 0.004  // SG, above the forced or expected end
	gravityNoise      = 1e-9   // SG, so that 1.0142 − 1.0122 counts as 0.002
	loggerReadings    = 12     // at least so many of a logger
	loggerPairsAtMost = 400    // readings the slope is taken from
)

// Terminal is what the test of the end needs to know beside the readings.
type Terminal struct {
	Window     quantity.Duration // OrdinaryWindow if zero
	Resolution quantity.SG       // smallest step of the instrument, as a difference of SG
	Forced     quantity.SG       // gravity the forced test ended at; zero if none was made
	Expected   quantity.SG       // gravity the recipe expects; zero if unknown

	// For readings of a logger: judge by slope, and by what the fitted curve
	// has still to fall.
	Logger     bool
	FallToCome quantity.Plato
}

// Finding is the answer of [JudgeTerminal] with its reasons.
type Finding struct {
	Verdict  Verdict
	Readings []Reading   // those inside the window
	Range    quantity.SG // largest minus smallest of them
	Slope    float64     // SG per day (Theil–Sen); 0 with fewer than two readings
	ToDrop   quantity.SG // still to drop to the forced, else the expected gravity; 0 if unknown
}

// JudgeTerminal says whether a gravity has stopped falling. Readings may come in
// any order. Bottling before [StableAndProven] is a risk: each 0.001 SG still
// to drop adds about 0.49 volumes of CO2.
//
//	stable: 3 readings over the window with max − min ≤ max(resolution, 0.001 SG);
//	        a logger: |slope| ≤ 0.0003 SG/day and fall to come ≤ 0.1 °P
//	proven: stable and within 0.002 SG of the forced test
//	stuck?: stable and more than 0.004 SG above the forced or expected end
//
// Units: SG 20/20 °C, slope in SG per day, extract in °P.
//
//   - Source: practice, made explicit here; the forced test is that of MEBAK and EBC.
//   - Valid: degassed hydrometer readings corrected for temperature.
//   - Check: 1.0120, 1.0115, 1.0112 on days 7, 9, 10 is stable; 1.0130, 1.0115,
//     1.0110 is falling; 1.020 three times with a forced test at 1.012 is stuck?.
//   - Tag: common practice
func JudgeTerminal(readings []Reading, limits Terminal) Finding {
	window := limits.Window
	if window == 0 {
		window = OrdinaryWindow
	}
	finding := Finding{}
	spans := false
	finding.Readings, spans = lastReadings(readings, window)
	finding.Range = spread(finding.Readings)
	finding.Slope = TheilSen(finding.Readings)
	finding.ToDrop = toDrop(finding.Readings, limits)
	finding.Verdict = limits.verdict(finding, spans)
	return finding
}

func (limits Terminal) verdict(f Finding, spans bool) Verdict {
	moving := f.Range > max(limits.Resolution, stableRange)+gravityNoise
	enough := spans && len(f.Readings) >= stableReadings
	if limits.Logger {
		moving = math.Abs(f.Slope) > stableSlope || limits.FallToCome > stableFallToCome
		enough = spans && len(f.Readings) >= loggerReadings
	}
	switch {
	case len(f.Readings) >= 2 && moving:
		return Falling
	case !enough:
		return Undecided
	}
	return limits.stableVerdict(f.Readings[len(f.Readings)-1].SG)
}

// stableVerdict tells the three kinds of standing still apart.
func (limits Terminal) stableVerdict(last quantity.SG) Verdict {
	end := limits.Forced
	if end == 0 {
		end = limits.Expected
	}
	switch {
	case end != 0 && last-end > stuckDistance+gravityNoise:
		return Stuck
	case limits.Forced != 0 && math.Abs(float64(last-limits.Forced)) <= provenDistance+gravityNoise:
		return StableAndProven
	}
	return Stable
}

// lastReadings returns the readings of the last window, in order of time. It
// begins with the last reading that lies a full window back, so that the
// readings span it; spans is false if there is none.
func lastReadings(readings []Reading, window quantity.Duration) (last []Reading, spans bool) {
	if len(readings) == 0 {
		return nil, false
	}
	sorted := slices.Clone(readings)
	slices.SortStableFunc(sorted, func(a, b Reading) int { return cmp.Compare(a.At, b.At) })
	begin := sorted[len(sorted)-1].At - window
	for i := len(sorted) - 1; i >= 0; i-- {
		if sorted[i].At <= begin+quantity.Seconds(1) {
			return sorted[i:], true
		}
	}
	return sorted, false
}

func spread(readings []Reading) quantity.SG {
	if len(readings) == 0 {
		return 0
	}
	low, high := readings[0].SG, readings[0].SG
	for _, reading := range readings {
		low, high = min(low, reading.SG), max(high, reading.SG)
	}
	return high - low
}

func toDrop(readings []Reading, limits Terminal) quantity.SG {
	end := limits.Forced
	if end == 0 {
		end = limits.Expected
	}
	if end == 0 || len(readings) == 0 {
		return 0
	}
	return max(0, readings[len(readings)-1].SG-end)
}

// TheilSen returns the median slope of all pairs of readings: a trend that a
// few wild readings of a logger don't bend. Beyond 400 readings it takes evenly
// spaced ones.
//
//	β = median of (SGj − SGi)/(tj − ti)
//
// Units: β in SG per day, t in days.
//
//   - Source: sen1968, from memory.
//   - Valid: two readings or more at different times.
//   - Check: a straight line of −0.0002 SG/day with a wild reading gives −0.0002.
//   - Tag: from memory
func TheilSen(readings []Reading) float64 {
	step := 1 + len(readings)/(loggerPairsAtMost+1)
	var slopes []float64
	for i := 0; i < len(readings); i += step {
		for j := i + step; j < len(readings); j += step {
			if days := (readings[j].At - readings[i].At).Days(); days != 0 {
				slopes = append(slopes, float64(readings[j].SG-readings[i].SG)/days)
			}
		}
	}
	return median(slopes)
}

// median returns the median of values, which it sorts; 0 of none.
func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	slices.Sort(values)
	middle := len(values) / 2
	if len(values)%2 == 1 {
		return values[middle]
	}
	return (values[middle-1] + values[middle]) / 2
}
