// SPDX-License-Identifier: MIT

package mash

import "gyle/quantity"

// Miss is a mash that landed beside the temperature aimed at.
type Miss struct {
	Grain   Grain // as it was planned
	Liquor  quantity.Mass
	Vessel  Vessel
	Target  quantity.Temperature
	Landed  quantity.Temperature
	Slaking float64 // heat of wetting that the plan counted, kJ/kg
}

// Correction is how to bring a mash back, and what to change the next time.
// Exactly one of Hot and Cold is above zero, unless the mash hit.
type Correction struct {
	Heat    float64              // kJ the mash lacks; negative: has too much
	Heating quantity.Duration    // direct heat, when there is a heater and the mash is too cold
	Hot     quantity.Mass        // water of the hot temperature to stir in
	Cold    quantity.Mass        // water of the cold temperature to stir in
	Grain   quantity.Temperature // temperature of the grain that would explain the miss
	Strike  quantity.Temperature // next time, if the grain is like that again
}

// Correct returns how to bring a mash that missed back to its temperature. A
// heater without power gives no heating time. Boiling water scalds: pour it
// slowly and stir.
//
//	Q = C·(Tm − T)
//	m = Q/(4.186·(Tw − Tm))
//	T(grain) = T(planned) − Q/(m(g)·c(g))
//	T(strike, next) = T(strike, planned) + Q/(m(w)·4.186)
//
// Units: Q in kJ, C (mash and vessel) in kJ/K, m in kg, c in kJ/(kg K), T in °C.
//
//   - Source: derived, heat balance; the miss is put down to the temperature of the grain.
//   - Valid: as StrikeTemperature.
//   - Check: 4.77 kg at 4 instead of 17 °C in 16.5 kg, vessel of 3.0 kJ/K: 65.70 for 67.0 °C; 46 s at 2.28 kW or 0.75 kg boiling; next strike 74.3 °C.
//   - Tag: derived
func Correct(miss Miss, heater Heater, hot, cold quantity.Temperature) Correction {
	c := HeatCapacity(miss.Grain, miss.Liquor, miss.Vessel)
	correction := Correction{Heat: float64(c) * float64(miss.Target.Sub(miss.Landed))}
	switch {
	case miss.Landed.Below(miss.Target):
		correction.Hot = InfusionMass(c, miss.Landed, miss.Target, hot)
		if heater.Power > 0 {
			correction.Heating = HeatingTime(c, heater, miss.Landed, miss.Target)
		}
	case miss.Target.Below(miss.Landed):
		correction.Cold = InfusionMass(c, miss.Landed, miss.Target, cold)
	}
	grain := miss.Grain
	grain.Temperature = grain.Temperature.Add(quantity.Warming(-correction.Heat / (float64(grain.Mass) * MaltHeat(grain.Moisture))))
	correction.Grain = grain.Temperature
	correction.Strike = StrikeTemperature(grain, miss.Liquor, miss.Vessel, miss.Target, miss.Slaking)
	return correction
}
