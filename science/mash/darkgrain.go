// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// Entry says when a dark grain meets the mash.
type Entry int

// The entries of a dark grain.
const (
	FromStart Entry = iota // in the mash from the start
	Late                   // in the last 10 to 20 min, finely crushed
	ColdSteep              // steeped cold, strained, and only the liquid used
)

// How dark grain yields colour and extract, beside the mash from the start.
// Milled finely a late grain yields 0.90 to 1.00 of its colour, coarsely 0.80
// to 0.95. Better than any of these is a measured colour. Tag: common practice.
var (
	LateColorYield        = quantity.Span[quantity.Fraction]{Low: 0.80, High: 1.00}
	ColdSteepColorYield   = quantity.Span[quantity.Fraction]{Low: 0.60, High: 0.80}
	ColdSteepExtractYield = quantity.Span[quantity.Fraction]{Low: 0.40, High: 0.70}
	ColdSteepRatio        = quantity.Span[quantity.Ratio]{Low: 3, High: 5}
	ColdSteepDuration     = quantity.Span[quantity.Duration]{Low: quantity.Hours(12), High: quantity.Hours(24)}
	ColdSteepTemperature  = celsiusSpan(4, 20)
)

// A cold steep is not sterile: boil it at least ColdSteepBoil. It comes at
// about pH 4.5 to 5 and lowers the pH of the kettle, not that of the mash. Late
// grain goes in no hotter than LateHottest. Tag: common practice.
var (
	ColdSteepBoil quantity.Duration = 10
	LateHottest                     = quantity.Celsius(77)
)

// Guards against astringency: the pH of the last runnings, the temperature of
// the sparge liquor, the extract at which to stop. Readers of the sources
// disagree whether the temperature matters when the pH is low. Tag: common
// practice.
var (
	RunningsPH       = quantity.Span[quantity.PH]{Low: 5.8, High: 6.0} // keep below; stop
	SpargeHottest    = quantity.Celsius(77)
	RunningsExtract  = quantity.Span[quantity.Plato]{Low: 2, High: 3}
	defaultLateColor = quantity.Fraction(0.95)
	defaultColdColor = quantity.Fraction(0.70)
)

// ColorYield returns the colour a dark grain yields by its entry, beside that
// of the mash from the start.
//
//	1.00 from the start, 0.95 late, 0.70 steeped cold
//
// Units: shares of the colour from a mash from the start.
//
//   - Source: practice; calibrate by a measured colour.
//   - Valid: late 0.80..1.00, steeped cold 0.60..0.80.
//   - Check: lies in the customary ranges.
//   - Tag: common practice
func ColorYield(entry Entry) quantity.Fraction {
	switch entry {
	case Late:
		return defaultLateColor
	case ColdSteep:
		return defaultColdColor
	}
	return 1
}

// ExtractYield returns the extract a dark grain yields by its entry, beside
// that of the mash from the start.
//
//	1.00 from the start and late, 0.55 steeped cold
//
// Units: shares of the extract from a mash from the start.
//
//   - Source: practice: the middle of 0.4 to 0.7 for a cold steep.
//   - Valid: steeped cold 0.4..0.7.
//   - Check: lies in the customary range.
//   - Tag: common practice
func ExtractYield(entry Entry) quantity.Fraction {
	if entry == ColdSteep {
		return (ColdSteepExtractYield.Low + ColdSteepExtractYield.High) / 2
	}
	return 1
}

// ForEqualColor returns how much grain gives the colour of a mass that is
// mashed from the start.
//
//	m' = m / yield
//
// Units: m and m' in kg; the yield is a share.
//
//   - Source: derived, from the definition of the yield.
//   - Valid: yields above 0.
//   - Check: at 0.70: 1.43 times; 1.2 to 1.6 times is customary.
//   - Tag: derived
func ForEqualColor(m quantity.Mass, yield quantity.Fraction) quantity.Mass {
	return m / quantity.Mass(yield)
}
