// SPDX-License-Identifier: MIT

package reconstruct

import "math"

// An Instrument says how far off a reading may be when nothing is wrong with
// it: one standard deviation, of which a part is fixed and a part grows with
// the reading. The unit is that of what it reads.
type Instrument struct {
	Name               string
	Absolute, Relative float64
}

// The usual instruments of a small brewhouse. All are estimates of what an
// attentive brewer gets from them; a log may name better ones.
var (
	Dipstick      = Instrument{"stick or sight glass", 0.1, 0.005} // L
	FlowMeter     = Instrument{"flow meter", 0.05, 0.01}           // L
	Jug           = Instrument{"jug", 0.05, 0.01}                  // L
	Scale         = Instrument{"scale", 0.005, 0.002}              // kg
	Hydrometer    = Instrument{"hydrometer", 0.0005, 0}            // SG
	Refractometer = Instrument{"refractometer", 0.15, 0.015}       // °Bx; the factor for wort is good to 1.5 %
	Thermometer   = Instrument{"thermometer", 0.5, 0}              // K
	PHMeter       = Instrument{"pH meter", 0.05, 0}                // pH
)

// SD returns the standard deviation of a reading.
func (i Instrument) SD(reading float64) float64 {
	return math.Hypot(i.Absolute, i.Relative*reading)
}

// or returns the instrument, or another where none is named.
func (i Instrument) or(other Instrument) Instrument {
	if i.Absolute <= 0 && i.Relative <= 0 {
		return other
	}
	return i
}
