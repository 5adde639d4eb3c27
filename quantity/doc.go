// SPDX-License-Identifier: MIT

// Package quantity holds the measures a brewer speaks in: temperatures, masses,
// volumes, gravities, colours, bitterness, carbonation, doses and rates. It
// reads them as people write them ("26,4 L @ 95 °C", "1042.5", "12.4 °P",
// "5 US gal") and prints them in metric or US customary units, with no more
// decimals than their uncertainty bears.
//
// Each measure is a type of its own, so that a temperature is never added to a
// temperature and a Plato degree is never taken for a specific gravity. Where a
// scale can be mistaken ("5 gal", a colour of "10 L") the parser refuses and
// offers the choices.
//
// The package converts units, which is a matter of definition. It computes no
// brewing: turning gravity into extract is the business of science/gravity.
package quantity
