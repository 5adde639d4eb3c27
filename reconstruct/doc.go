// SPDX-License-Identifier: MIT

// Package reconstruct works out from the log of a brew what was really brewed.
//
// A log holds what was read: litres off a stick, a hydrometer in a warm
// sample, minutes off a clock. Each is a little wrong, and now and then one is
// altogether wrong. What goes into a kettle must come out of it, so the readings
// check one another: [Smooth] moves each by no more than its instrument can err
// until water, mass and extract balance, and names the reading that can't be
// right with the slip that explains it best: a hot volume read as cold, a
// sample from layered wort, two digits swapped, a unit mistaken.
//
// From the smoothed day, and from the temperatures that the wort really went
// through, [Facts.Brew] computes the beer as brewed. [Effects] undoes one slip
// at a time and says what it did to the beer. [House] learns the constants of a
// brewhouse from such days, keeps the list of brews behind each, and a ledger of
// what was predicted against what was measured.
//
// Nothing here changes a log: readings stay as read, and what is derived can be
// derived again by better formulas. The mathematics of balances stands in
// science/reconcile, the kinetics in science/hops and science/boil.
package reconstruct
