// SPDX-License-Identifier: MIT

// Package carbonation is the gas in the beer: how much CO2 dissolves at a
// temperature and pressure, what is left of it after fermentation, how much
// sugar or gravity brings the rest, what pressure that makes in a bottle on a
// warm day, and what a draught line takes away.
//
// Carbonation is counted in volumes: litres of CO2 at 0 °C and 101.325 kPa per
// litre of beer, 1.977 g/L each. Solubility wants absolute pressure, gauges show
// the pressure above the air around, and the air is thinner on a mountain:
// [Absolute] and [Gauge] turn one into the other.
//
// All of it holds for a standard beer of about 4 % alcohol by mass; strong and
// sweet beers dissolve less. Equilibrium takes days to weeks without shaking.
//
// Bottles and kegs hurt people. [Judge] refuses what common practice refuses;
// it can't see a scratched bottle. Follow the rating on the vessel and the
// local code, and have a relief valve on everything that ferments closed.
package carbonation
