// SPDX-License-Identifier: MIT

package cellar

import (
	"fmt"

	"gyle/quantity"
	"gyle/science/carbonation"
)

// Hold is what a closed vessel has to bear to hold a carbonation.
type Hold struct {
	CO2     quantity.Carbonation
	At      quantity.Temperature
	Need    quantity.GaugePressure
	Rating  *quantity.GaugePressure // of the relief valve; nil: nobody said it
	Refused string                  // why not; empty: it bears it
	// Instead is the most that the vessel holds at that temperature, and Cold the
	// temperature at which it holds what is asked for; zero: none above freezing.
	Instead quantity.Carbonation
	Cold    quantity.Temperature
	CloseAt quantity.SG // gravity at which to close it, where the end is known; 0: it isn't
}

// Closed works out what a vessel has to bear to hold a carbonation at a
// temperature, and when to close it so that the rest of the fermentation makes
// the gas. Nothing goes above the rating of its relief valve.
func (b *Beer) Closed(co2 quantity.Carbonation, at quantity.Temperature, air quantity.Pressure, rating *quantity.GaugePressure) Hold {
	if air == 0 {
		air = carbonation.SeaLevel
	}
	h := Hold{CO2: co2, At: at, Need: carbonation.PressureFor(co2, at, air), Rating: rating}
	if end := b.end(); end > 0 {
		h.CloseAt = carbonation.CloseTankAt(end, co2, carbonation.Residual(at, air))
	}
	if rating == nil {
		return h
	}
	h.Refused = Above(h.Need, rating)
	if h.Refused != "" {
		h.Instead = carbonation.VolumesDeLange(carbonation.Absolute(*rating, air), at)
		h.Cold = coldEnough(co2, *rating, air)
		h.CloseAt = 0
	}
	return h
}

// end is where the gravity is expected to end; 0 where nobody knows.
func (b *Beer) end() quantity.SG {
	if b.Forced > 0 {
		return b.Forced
	}
	return b.Expected
}

// Above says why a vessel doesn't bear a pressure; empty where it does, or where
// nobody said its rating.
func Above(p quantity.GaugePressure, rating *quantity.GaugePressure) string {
	if rating == nil || p <= *rating {
		return ""
	}
	return fmt.Sprintf("%.2f bar is asked for, and the relief valve of the vessel is rated for %.2f bar: never go above it, and never block or raise a relief valve", float64(p), float64(*rating))
}

// coldEnough is the warmest whole degree at which a pressure holds a carbonation;
// zero where the beer would have to freeze.
func coldEnough(co2 quantity.Carbonation, rating quantity.GaugePressure, air quantity.Pressure) quantity.Temperature {
	const warm, cold = 30, 0
	for celsius := warm; celsius >= cold; celsius-- {
		if t := quantity.Celsius(float64(celsius)); carbonation.PressureFor(co2, t, air) <= rating {
			return t
		}
	}
	return quantity.Temperature{}
}
