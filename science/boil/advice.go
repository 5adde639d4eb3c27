// SPDX-License-Identifier: MIT

package boil

import "gyle/quantity"

// The thresholds of advice on a boil. A weak boil also leaves more protein
// that haze is made of: coagulable nitrogen falls from 35–70 to 15–25 mg/L in
// a good boil of 60 to 90 min (from memory).
const (
	// WeakBoilOff is the total evaporation below which DMS is to be feared.
	WeakBoilOff quantity.Fraction = 0.04
	// MuchPilsner is the share of Pilsner malt that makes it so.
	MuchPilsner quantity.Fraction = 0.50
	// LongBoil is the boil above which more time hardly adds bitterness: at
	// 100 °C iso-alpha acids break down faster than they form after 149 min.
	LongBoil quantity.Duration = 120
)

// CoolBoil is the boiling temperature below which DMS is to be feared.
var CoolBoil = quantity.Celsius(95)

// FearsDMS reports whether a boil is weak or cool enough, with enough Pilsner
// malt, to warn of DMS.
//
//	(evaporation below 4 % or T below 95 °C) and Pilsner malt above 50 %
//
// Units: fractions of the wort and of the grist.
//
//   - Source: practice.
//   - Valid: boils of ordinary length; [SulphideModel] says more.
//   - Check: the thresholds.
//   - Tag: estimate
func FearsDMS(evaporated quantity.Fraction, boiling quantity.Temperature, pilsner quantity.Fraction) bool {
	return pilsner > MuchPilsner && (evaporated < WeakBoilOff || boiling.Below(CoolBoil))
}
