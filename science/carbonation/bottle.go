// SPDX-License-Identifier: MIT

package carbonation

import (
	"fmt"

	"gyle/quantity"
)

// BottlePressure returns the gauge pressure in a full bottle at sea level: the
// larger of the two formulas for beer, for caution.
//
//	p = max(PressureDeLange, PressureHenry) − 1.01325
//
// Units: p gauge in bar.
//
//   - Source: delange2009, or the practice of [PressureHenry]: the larger of both.
//   - Valid: 0 to 40 °C, a small gas space.
//   - Check: 3.0 volumes: 1.18 bar at 4 °C, 2.61 at 20 °C, 5.40 at 40 °C.
//   - Tag: computed
func BottlePressure(c quantity.Carbonation, t quantity.Temperature) quantity.GaugePressure {
	return Gauge(max(PressureDeLange(c, t), PressureHenry(c, t)), SeaLevel)
}

// WorstCase returns the carbonation a bottle can reach when the gravity at
// filling may still fall.
//
//	C = target + 0.49·Δ/0.001
//
// Units: C in volumes, Δ the unproven fall in SG.
//
//   - Source: derived, see [FromExtract].
//   - Valid: ordinary beers.
//   - Check: 2.5 volumes with 0.004 to fall: 4.5 volumes.
//   - Tag: derived
func WorstCase(target quantity.Carbonation, unproven quantity.SG) quantity.Carbonation {
	return target + quantity.Carbonation(VolumesPerSGPoint*float64(unproven)/0.001)
}

// Package is what a beer is filled into.
type Package int

// The packages that [Judge] knows.
const (
	CrownBottle   Package = iota // ordinary glass with a 26 mm crown
	HeavyBottle                  // sparkling-wine type, swing top of that weight, 29 mm crown
	PlasticBottle                // PET made for carbonated drinks
	Keg                          // a pressure vessel with a rating of its own
)

// String returns the name of the package.
func (p Package) String() string {
	return [...]string{"ordinary crown bottle", "heavy bottle", "PET bottle", "keg"}[p]
}

// Limits are the carbonations up to which a package is used.
type Limits struct {
	Normal quantity.Carbonation // above this: warn
	Refuse quantity.Carbonation // above this: refuse
}

// LimitsOf returns the limits of a bottle: common practice. No standard for the
// safe use of re-used bottles was found. Proof tests of new glass (12 to
// 16 bar) say little about an old one: scratches and re-use weaken glass, and
// the scatter is large. A keg has no limit here but its rating.
func LimitsOf(p Package) (limits Limits, ok bool) {
	switch p {
	case CrownBottle:
		return Limits{3.0, 4.0}, true
	case HeavyBottle:
		return Limits{5.0, 6.0}, true
	case PlasticBottle:
		return Limits{4.5, 4.5}, true
	}
	return Limits{}, false
}

// Severity says how serious a caution is.
type Severity int

// The severities. Refuse means: don't fill.
const (
	Fine Severity = iota
	Warn
	Refuse
)

// String returns the word for the severity.
func (s Severity) String() string { return [...]string{"fine", "warn", "refuse"}[s] }

// Filling is a beer about to be packaged.
type Filling struct {
	Package  Package
	Target   quantity.Carbonation
	Unproven quantity.SG            // what the gravity may still fall; 0 if proven, negative counts as 0
	Warmest  quantity.Temperature   // warmest storage; 20 °C if zero
	Rating   quantity.GaugePressure // of a keg: its relief or working pressure; 0 if unknown
	Reader   quantity.Printer       // units of the cautions
}

// Judgement is the answer of [Judge].
type Judgement struct {
	Severity  Severity
	WorstCase quantity.Carbonation
	Pressure  quantity.GaugePressure // worst case at the warmest storage
	HotDay    quantity.GaugePressure // worst case at 40 °C: a car in summer
	Cautions  []string               // in plain words, worst first
}

// hotDay and warmStorage are the temperatures that cautions speak of.
var (
	hotDay      = quantity.Celsius(40)
	warmStorage = quantity.Celsius(30)
	roomStorage = quantity.Celsius(20)
)

// Judge says whether a beer may be filled as planned, with the cautions a
// brewer must read. It judges the worst credible case, not the target.
func Judge(f Filling) Judgement {
	if f.Warmest.IsZero() {
		f.Warmest = roomStorage
	}
	worst := WorstCase(f.Target, max(0, f.Unproven))
	j := Judgement{
		WorstCase: worst,
		Pressure:  BottlePressure(worst, f.Warmest),
		HotDay:    BottlePressure(worst, hotDay),
	}
	switch {
	case !(worst >= 0): // a number that is none compares with nothing
		j.add(Refuse, "the carbonation could not be computed: don't fill before it is known")
	case f.Package == Keg:
		j.judgeKeg(f)
	default:
		j.judgeBottle(f)
	}
	if f.Unproven > 0 {
		j.add(Warn, fmt.Sprintf("the gravity may still fall by %.1f points, which adds %.1f volumes; "+
			"fill when a forced test has proven the end", float64(f.Unproven)*1000, float64(worst-f.Target)))
	}
	if warmStorage.Below(f.Warmest) {
		j.add(Warn, fmt.Sprintf("stored at %s: keep packaged beer below %s, in the dark", f.degrees(f.Warmest), f.degrees(warmStorage)))
	}
	return j
}

// degrees prints a temperature in whole degrees.
func (f Filling) degrees(t quantity.Temperature) string {
	if f.Reader.System == quantity.USCustomary {
		return f.Reader.Number(t.Fahrenheit(), 0) + " °F"
	}
	return f.Reader.Number(t.Celsius(), 0) + " °C"
}

// pressure prints a pressure, in bar with so many decimals.
func (f Filling) pressure(p quantity.GaugePressure, decimals int) string {
	if f.Reader.System == quantity.USCustomary {
		return f.Reader.GaugePressure(p)
	}
	return f.Reader.Number(float64(p), decimals) + " bar"
}

func (j *Judgement) judgeBottle(f Filling) {
	limits, _ := LimitsOf(f.Package)
	pressures := fmt.Sprintf("%.1f volumes make %s at %s and %s at %s",
		float64(j.WorstCase), f.pressure(j.Pressure, 1), f.degrees(f.Warmest), f.pressure(j.HotDay, 1), f.degrees(hotDay))
	switch {
	case j.WorstCase > limits.Refuse:
		j.add(Refuse, fmt.Sprintf("%s; %ss are used up to %.1f volumes. They can burst and throw splinters: don't fill",
			pressures, f.Package, float64(limits.Refuse)))
	case j.WorstCase > limits.Normal:
		j.add(Warn, fmt.Sprintf("%s; above %.1f volumes use heavier bottles. "+
			"With these, take only unscratched ones, wear goggles and gloves, store them in a closed crate and cool",
			pressures, float64(limits.Normal)))
	}
}

func (j *Judgement) judgeKeg(f Filling) {
	switch {
	case f.Rating == 0:
		j.add(Warn, "the rating of the keg is not known: read it on the vessel and check that the relief valve works")
	case j.Pressure > f.Rating:
		j.add(Refuse, fmt.Sprintf("%.1f volumes make %s at %s, the keg is rated for %s: don't fill",
			float64(j.WorstCase), f.pressure(j.Pressure, 2), f.degrees(f.Warmest), f.pressure(f.Rating, 2)))
	case j.HotDay > f.Rating:
		j.add(Warn, fmt.Sprintf("at %s the keg would reach %s, above its rating of %s: keep it cool, "+
			"and never block the relief valve", f.degrees(hotDay), f.pressure(j.HotDay, 2), f.pressure(f.Rating, 2)))
	}
}

// add notes a caution; the worst stand first.
func (j *Judgement) add(severity Severity, text string) {
	if severity > j.Severity {
		j.Severity = severity
		j.Cautions = append([]string{text}, j.Cautions...)
		return
	}
	j.Cautions = append(j.Cautions, text)
}
