// SPDX-License-Identifier: MIT

// Package style holds the style document: what a brewer says of a kind of
// beer, as prose and as rules. A rule has a subject (a number of the beer, a
// share of the grist, a charge of hops …), a range, a reason and a severity,
// all of them the author's own. Nothing is ever forbidden: a rule advises, and
// a verdict quotes its reason.
//
// The package reads and prints rules. Holding a recipe against them is the
// business of package judge.
package style
