// SPDX-License-Identifier: MIT

// Package ferment is what happens between pitching and the end of the fall: how
// much alcohol a beer has and how far it attenuated, how many cells to pitch,
// how the gravity falls with time, when it has stopped falling, and what heat
// and gas that sets free.
//
// Extracts are in degrees Plato: original (OE), apparent (AE, what a hydrometer
// shows in beer, below zero in dry beers) and real (RE, what is dissolved).
// Alcohol is a share of the mass or of the volume; the name of a function says
// which. Numbers go from gravity to extract (science/gravity), from extracts to
// alcohol, from readings to a curve and a verdict.
//
// Several authors' formulas for one thing stand side by side under their
// names. They differ by 0.05 to 0.1 % of alcohol at 5 %: show one decimal.
//
// Temperature and pressure change the aroma of a beer. The direction is known
// and told in texts; no figure for it is computed here. Neither is the CO2 of
// the finished beer: see science/carbonation.
package ferment
