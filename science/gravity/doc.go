// SPDX-License-Identifier: MIT

// Package gravity knows how much extract is in a liquid: what a hydrometer or
// a refractometer shows and what it means, how heavy a litre of wort is, how
// volumes shrink on cooling, and what comes out when worts are blended,
// diluted, boiled down or sweetened.
//
// Three scales of specific gravity differ by up to 0.0001. The package uses
// the apparent gravity 20/20 °C in air ([quantity.SG]), the scale of the Plato
// tables; a gravity that is a ratio of true densities is a [TrueSG]. Between SG
// and Plato the cubic of the National Bureau of Standards is the default
// ([PlatoFromSG]); older and other forms stand beside it under their authors'
// names.
//
// What counts is mass: kilograms of liquid and kilograms of extract are kept
// and added; SG, °P and litres are views of them. Alcohol and attenuation are
// the business of science/ferment; only what a refractometer in beer needs of
// them is here.
package gravity
