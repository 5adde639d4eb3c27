// SPDX-License-Identifier: MIT

package carbonation

import (
	"math"

	"gyle/quantity"
)

// The flow of beer in a line (computed with these, they are estimates of cold beer).
const (
	beerDensity   = 1010.0 // kg/m³
	beerViscosity = 1.6e-3 // Pa·s
	barPerMetre   = 0.098  // bar per m of rise: 1000 kg/m³ · 9.81 m/s² · 1 m, rounded
	pascalPerBar  = 1e5
)

// Line is a draught line.
type Line struct {
	Length, Bore    quantity.Length
	Rise            quantity.Length // from the middle of the keg to the tap
	LitresPerMinute float64         // the pour
}

// Speed returns the speed of the beer in the line, in m/s.
//
//	v = Q/(π·d²/4)
//
// Units: Q in m³/s, d in m.
//
//   - Source: derived, definition of a mean speed.
//   - Valid: any.
//   - Check: 3 L/min through 4.8 mm: 2.76 m/s.
//   - Tag: derived
func (l Line) Speed() float64 {
	bore := float64(l.Bore)
	return l.LitresPerMinute / 60000 / (math.Pi * bore * bore / 4)
}

// Reynolds returns the Reynolds number of the flow in the line.
//
//	Re = ρ·v·d/μ
//
// Units: ρ 1010 kg/m³, v in m/s, d in m, μ 1.6e-3 Pa·s.
//
//   - Source: derived, definition; density and viscosity of cold beer estimated.
//   - Valid: any.
//   - Check: 3 L/min through 4.8 mm: 8370.
//   - Tag: derived
func (l Line) Reynolds() float64 {
	return beerDensity * l.Speed() * float64(l.Bore) / beerViscosity
}

// Drop returns the pressure a draught line takes up. The pour is calm when it
// equals the gauge pressure that holds the beer's carbonation, [PressureFor].
//
//	Δp = f·(L/d)·ρ·v²/2 + 0.098·rise,  f = 0.316/Re^0.25
//
// Units: Δp in Pa for the friction (returned in bar), 0.098 bar/m, L, d and rise
// in m, ρ 1010 kg/m³, v in m/s.
//
//   - Source: blasius1913, friction in smooth pipes, from memory.
//   - Valid: Re 4000 to 100 000, smooth straight line; fittings come on top.
//   - Check: 3 L/min through 3 m of 4.8 mm: 0.80 bar; of 6.4 mm: 0.20 bar.
//   - Tag: computed
func (l Line) Drop() quantity.GaugePressure {
	speed := l.Speed()
	friction := 0.316 / math.Pow(l.Reynolds(), 0.25)
	pascal := friction * float64(l.Length/l.Bore) * beerDensity * speed * speed / 2
	return quantity.GaugePressure(pascal/pascalPerBar + barPerMetre*float64(l.Rise))
}

// LengthFor returns how long the line must be to take up a pressure; bore, rise
// and pour stay as they are.
//
//	L = (Δp − 0.098·rise)/(Δp of a metre)
//
// Units: pressures in bar, lengths in m.
//
//   - Source: derived, inverse of [Line.Drop].
//   - Valid: as [Line.Drop]; negative when the rise alone takes up more.
//   - Check: there and back is the same length.
//   - Tag: derived
func (l Line) LengthFor(p quantity.GaugePressure) quantity.Length {
	metre := Line{Length: 1, Bore: l.Bore, LitresPerMinute: l.LitresPerMinute}
	return quantity.Length(float64(p)-barPerMetre*float64(l.Rise)) / quantity.Length(metre.Drop())
}
