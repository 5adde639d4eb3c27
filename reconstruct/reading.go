// SPDX-License-Identifier: MIT

package reconstruct

import (
	"gyle/quantity"
	"gyle/science/gravity"
)

// Kind is what a reading is of, and on which scale it was read.
type Kind int

// The kinds of readings that the balances use.
const (
	Litres Kind = iota // volume as read, at the temperature At
	SG                 // hydrometer, as read at the temperature At
	DegP               // saccharometer in °P, as read at the temperature At
	Brix               // refractometer in °Bx of unfermented wort, compensated
	Kilos              // a scale
)

// String returns the unit of the scale.
func (k Kind) String() string { return [...]string{"L", "SG", "°P", "°Bx", "kg"}[k] }

func (k Kind) ofGravity() bool { return k == SG || k == DegP || k == Brix }

// A Reading is one number of a log, as it was read.
type Reading struct {
	Entry      string  // names it in the log
	Kind       Kind    // scale
	Value      float64 // as read
	At         quantity.Temperature
	Instrument Instrument
	Calibrated quantity.Temperature // of the hydrometer; unset: 20 °C
	Factor     float64              // of the refractometer; 0: the usual one
	// Hot is how hot what was read probably was, whatever was noted; unset: as
	// the point says.
	Hot quantity.Temperature
}

// roomTemperature is what hydrometers are calibrated at and volumes are
// referred to.
var roomTemperature = quantity.Celsius(20)

// instrument returns the instrument, the usual one of its kind where none is
// named.
func (r Reading) instrument() Instrument {
	switch r.Kind {
	case SG:
		return r.Instrument.or(Hydrometer)
	case DegP:
		return r.Instrument.or(Instrument{"saccharometer", 0.12, 0}) // half a gravity point
	case Brix:
		return r.Instrument.or(Refractometer)
	case Kilos:
		return r.Instrument.or(Scale)
	}
	return r.Instrument.or(Dipstick)
}

// True returns what a reading means if it is right, and its standard
// deviation: litres at 20 °C, SG 20/20 °C, or kilograms.
func (r Reading) True() quantity.Estimate {
	sd := r.instrument().SD(r.Value)
	value := r.means(r.Value)
	if r.Kind == SG || r.Kind == Kilos {
		return quantity.Estimate{Value: value, SD: sd}
	}
	return quantity.Estimate{Value: value, SD: sd * (r.means(r.Value*(1+slopeStep)) - value) / (r.Value * slopeStep)}
}

// slopeStep is the relative step of the numerical derivative in True.
const slopeStep = 1e-6

// means converts a number on the scale of the reading.
func (r Reading) means(x float64) float64 {
	at, calibrated := r.At, r.Calibrated
	if at.IsZero() {
		at = roomTemperature
	}
	if calibrated.IsZero() {
		calibrated = roomTemperature
	}
	switch r.Kind {
	case Litres:
		return float64(gravity.VolumeAt20(quantity.VolumeAt{Volume: quantity.Volume(x), At: at}))
	case SG:
		if at == calibrated {
			return x
		}
		sg, _ := gravity.HydrometerSG(quantity.SG(x), at, calibrated)
		return float64(sg)
	case DegP:
		return float64(gravity.SGFromPlato(quantity.Plato(x)))
	case Brix:
		factor := r.Factor
		if factor == 0 {
			factor = gravity.DefaultWortFactor
		}
		return float64(gravity.SGFromPlato(gravity.PlatoFromBrix(quantity.Plato(x), factor)))
	}
	return x
}

// String returns the reading as a brewer says it.
func (r Reading) String() string {
	p := quantity.Printer{}
	var s string
	switch r.Kind {
	case Litres:
		s = p.Number(r.Value, 1) + " L"
	case SG:
		s = p.Number(r.Value, 4)
	case Kilos:
		s = p.Number(r.Value, 2) + " kg"
	default:
		s = p.Number(r.Value, 1) + " " + r.Kind.String()
	}
	if !r.At.IsZero() && r.At != roomTemperature {
		s += " at " + p.Number(r.At.Celsius(), 0) + " °C"
	}
	return s
}
