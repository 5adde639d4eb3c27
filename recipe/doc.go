// SPDX-License-Identifier: MIT

// Package recipe holds the recipe document: what a beer is, never whose kettle
// it is brewed in. A recipe states aims (original gravity, bitterness, colour),
// shares of the grist, hop charges by bitterness or dose with the moment they
// go in, mash rests, water aims and yeast behaviour.
//
// Weights, volumes and times on a brewhouse are the business of package plan.
// A brewer who thinks in kilos may write masses; plan turns them into shares
// and bitterness on the brewhouse they were meant for.
//
// Documents don't compute: an old recipe opens even after a formula changed.
package recipe
