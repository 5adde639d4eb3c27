// SPDX-License-Identifier: MIT

// Package water reckons with brewing liquor: whether a report can be believed,
// how much acid the water takes up, what salts and acids do to it, and what
// can be done against chlorine, hardness and alkalinity.
//
// Numbers flow one way. A report becomes [Ions] in mg/L. [Balance] asks whether
// its charges meet, and [Mislabels] whether a label explains why they don't.
// A [Supply] adds the pH, from which the carbonate system follows, and with it
// [Supply.AcidDemand]: the strong acid a litre takes on its way to a pH.
// [SolveSalts] weighs salts towards aims; an [Acid] gives up its charge at a pH.
//
// The pH of the mash isn't computed here. It is a balance between grist and
// water and stands in science/mash, which takes the acid demand as a function.
// What is customary and what drinking water may hold is in [Check]: advice with
// reasons, never a rule about taste.
package water
