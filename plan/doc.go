// SPDX-License-Identifier: MIT

// Package plan brings a recipe, a brewhouse, a stock and a water together and
// works out everything needed to brew: kilos by lot, litres, salts, acid, mash
// steps, hop weights, times, cells and priming sugar.
//
// A plan keeps what the recipe means: original gravity, volume, bitterness of
// each boil charge (weights are solved by the kinetics of isomerisation on that
// house), grams per litre of stand and dry charges, colour. What it can't keep
// it lists, with the price. What the vessels can't hold it refuses, with the
// largest brew they can.
//
// The formulas stand in science/; here they are only put together. The order
// is that of the brewing: malts.go, kettle.go, liquor.go, mashing.go, hoplots.go,
// path.go, hopping.go, cellar.go. Start reading at [Make]; [Plan.Why] says how a
// number came about, [Plan.JSON] writes all of them for other programs.
package plan
