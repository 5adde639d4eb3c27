// SPDX-License-Identifier: MIT

// Package mash follows the grain from the sack to the kettle: the pH of the
// mash, the heat that brings it to its rests, the work of the enzymes, and how
// much extract the lautering brings out.
//
// The pH comes from a proton balance: every malt, the calcium and magnesium of
// the liquor, its alkalinity, acids and salts release or take up protons, and
// [PH] finds the pH at which they cancel. [Contributions] says who did what,
// [Steps] what happened one addition after the other, [Staged] what dark grain
// does when it goes in late. [TypicalClass] knows customary malts; a lot that
// was measured always knows better.
//
// [StrikeTemperature], [InfusionMass], [HeatingTime] and their kin are heat
// balances. [Convert] is a reduced model of gelatinisation and of the two
// amylases. [FirstWort], [NoSparge], [BatchSparge] and [FlySparge] give extract
// and lauter efficiency.
//
// The package knows nothing of recipes and of brewing water beyond what a
// balance needs: how many milliequivalents of acid a litre takes up is passed
// in as a function, and science/water supplies it. Numbers that are estimates
// (the malt classes, the effect of alkalinity, the conversion rates) say so
// beside their definition; all can be replaced.
package mash
