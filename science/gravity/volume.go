// SPDX-License-Identifier: MIT

package gravity

import "gyle/quantity"

// waterKilograms is the mass in kg of a litre of water at 20 °C.
const waterKilograms = 0.9982

// WortMass returns the mass of a volume of wort.
//
//	m = 0.9982·V·SG
//
// Units: m in kg, V in L at 20 °C.
//
//   - Source: derived, density of water at 20 °C times the gravity.
//   - Valid: any; the buoyancy of air, left out, makes 0.006 % at 1.050.
//   - Check: [SucroseDensity] within 0.01 % up to 20 °P.
//   - Tag: derived
func WortMass(v quantity.Volume, sg quantity.SG) quantity.Mass {
	return quantity.Mass(waterKilograms * v.Litres() * float64(sg))
}

// WortVolume returns the volume at 20 °C of a mass of wort.
//
//	V = m/(0.9982·SG)
//
// Units: V in L at 20 °C, m in kg.
//
//   - Source: derived, inverse of WortMass.
//   - Valid: any.
//   - Check: there and back within 1e-12.
//   - Tag: derived
func WortVolume(m quantity.Mass, sg quantity.SG) quantity.Volume {
	return quantity.Volume(m.Kilograms() / (waterKilograms * float64(sg)))
}

// ExtractMass returns the extract in a volume of wort.
//
//	e = m·P/100
//
// Units: e and m in kg, P in °P.
//
//   - Source: derived, definition of the degree Plato.
//   - Valid: 0 to 40 °P.
//   - Check: 10 L of 9.646 °P hold 1.000 kg.
//   - Tag: derived
func ExtractMass(v quantity.Volume, sg quantity.SG) quantity.Mass {
	return WortMass(v, sg) * quantity.Mass(PlatoFromSG(sg)) / 100
}

// VolumeAt20 returns a volume as it was read in a hot or cold vessel, referred
// to 20 °C. A reading without temperature is taken as read at 20 °C.
//
//	V20 = V·ρw(t)/ρw(20 °C)    volumes in L, densities of water in kg/m³
//
// Wort shrinks slightly more than water: 15 °P from 80 °C 0.9730, not 0.9735.
// The expansion of the vessel is not included.
//
//   - Source: kell1975, density of water.
//   - Valid: 0 to 100 °C.
//   - Check: 27 L at 95 °C are 26.02 L at 20 °C; from 100 °C the factor is 0.9601.
//   - Tag: computed
func VolumeAt20(v quantity.VolumeAt) quantity.Volume {
	if v.At.IsZero() {
		return v.Volume
	}
	return v.Volume * quantity.Volume(WaterDensity(v.At)/WaterDensity(reference))
}

// VolumeHot returns the volume that a wort of v at 20 °C takes up at t: the
// inverse of [VolumeAt20].
//
//	Vt = V20·ρw(20 °C)/ρw(t)
//
// Units: volumes in L, densities of water in kg/m³.
//
//   - Source: kell1975, density of water.
//   - Valid: 0 to 100 °C.
//   - Check: there and back within 1e-12.
//   - Tag: computed
func VolumeHot(v quantity.Volume, t quantity.Temperature) quantity.Volume {
	return v * quantity.Volume(WaterDensity(reference)/WaterDensity(t))
}
