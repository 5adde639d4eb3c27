// SPDX-License-Identifier: MIT

package gravity

import "gyle/quantity"

// Cubic expansion of the materials of hydrometers, per kelvin (from memory of
// the hydrometer standards ISO 387 and ISO 649).
const (
	GlassExpansion         = 25e-6
	PolycarbonateExpansion = 200e-6
)

// HydrometerValid is the range of sample temperatures of [HydrometerSG]. Above
// 40 °C let the sample cool: it evaporates, and it cools while one reads.
var HydrometerValid = quantity.Span[quantity.Temperature]{Low: quantity.Celsius(0), High: quantity.Celsius(60)}

// HydrometerSG returns what a glass hydrometer that was calibrated at one
// temperature means when it is read at another: the gravity at 20/20 °C and
// the extract. The gravity is the ratio of true densities, so that a reading
// at 20 °C of an instrument for 20 °C comes back as it was.
//
//	SG_read = ρ(P,t)·(1 + γ·(t − tc))/ρw(tc), solved for P; SG = ρ(P,20)/ρw(20)
//
// Units: ρ in kg/m³, t and tc in °C, γ = 25e-6 per K for glass. Meniscus and
// surface tension are left out.
//
//   - Source: derived, buoyancy, with the densities of icumsasps4 and kell1975.
//   - Valid: 0 to 60 °C, −5 to 50 °P; NaN beyond that extract.
//   - Check: 1.050 at 30 °C is 1.05284, 13.070 °P; near +0.32 °P at 25 °C (AOAC 900.03).
//   - Tag: derived
func HydrometerSG(read quantity.SG, t, calibrated quantity.Temperature) (quantity.SG, quantity.Plato) {
	return HydrometerOf(GlassExpansion, read, t, calibrated)
}

// HydrometerOf is [HydrometerSG] for an instrument of another material.
//
//	SG_read = ρ(P,t)·(1 + γ·(t − tc))/ρw(tc), solved for P; SG = ρ(P,20)/ρw(20)
//
// Units: ρ in kg/m³, t and tc in °C, γ per K.
//
//   - Source: derived, buoyancy, with the densities of icumsasps4 and kell1975.
//   - Valid: 0 to 60 °C, −5 to 50 °P; NaN beyond that extract.
//   - Check: equal to HydrometerSG for glass.
//   - Tag: derived
func HydrometerOf(expansion float64, read quantity.SG, t, calibrated quantity.Temperature) (quantity.SG, quantity.Plato) {
	swelling := 1 + expansion*float64(t.Sub(calibrated))
	p := quantity.Plato(solve(-5, 50, func(p float64) float64 {
		shown := SucroseDensity(quantity.Plato(p), t) * swelling / WaterDensity(calibrated)
		return shown - float64(read)
	}))
	return quantity.SG(TrueSGAt(p, reference)), p
}

// SpindlePlato returns the extract that a glass saccharometer with a °P scale
// means when it is read at another temperature than that of its calibration.
//
//	ρ(P,t)·(1 + γ·(t − tc)) = ρ(P_read,tc), solved for P
//
// Units: ρ in kg/m³, t and tc in °C, γ = 25e-6 per K.
//
//   - Source: derived, buoyancy, with the densities of icumsasps4.
//   - Valid: 0 to 60 °C, −5 to 50 °P; NaN beyond that extract.
//   - Check: 10 °P read at 25 °C is 10.32 °P.
//   - Tag: derived
func SpindlePlato(read quantity.Plato, t, calibrated quantity.Temperature) quantity.Plato {
	shown := SucroseDensity(read, calibrated) / WaterDensity(calibrated)
	_, p := HydrometerSG(quantity.SG(shown), t, calibrated)
	return p
}

// HydrometerSGHall returns a corrected hydrometer reading by Hall's polynomial,
// which follows the density of water and leaves out glass and sugar.
//
//	SG = SG_read·h(T)/h(Tc)
//	h(T) = 1.00130346 − 1.34722124e-4·T + 2.04052596e-6·T² − 2.32820948e-9·T³
//
// Units: T and Tc in °F.
//
//   - Source: hall1995, temperature correction.
//   - Valid: 0 to 60 °C.
//   - Check: 1.050 at 30 °C, calibrated at 20, gives 1.05260.
//   - Tag: second-hand
func HydrometerSGHall(read quantity.SG, t, calibrated quantity.Temperature) quantity.SG {
	h := func(t quantity.Temperature) float64 {
		return horner(t.Fahrenheit(), 1.00130346, -1.34722124e-4, 2.04052596e-6, -2.32820948e-9)
	}
	return read * quantity.SG(h(t)/h(calibrated))
}

// HydrometerSGLyons returns a corrected reading of a hydrometer calibrated at
// 59 °F (15 °C), by Lyons' cubic.
//
//	ΔSG = (1.313454 − 0.132674·T + 2.057793e-3·T² − 2.627634e-6·T³)/1000
//
// Units: T in °F.
//
//   - Source: lyons1992, temperature correction.
//   - Valid: 0 to 60 °C, ordinary worts.
//   - Check: 0.0001 at 59 °F; within 0.0008 of [HydrometerSG], 5 to 40 °C.
//   - Tag: second-hand
func HydrometerSGLyons(read quantity.SG, t quantity.Temperature) quantity.SG {
	return read + quantity.SG(horner(t.Fahrenheit(), 1.313454, -0.132674, 2.057793e-3, -2.627634e-6)/1000)
}
