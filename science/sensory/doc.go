// SPDX-License-Identifier: MIT

// Package sensory judges blind tastings: did the panel tell two beers apart,
// how far apart are they, which one is preferred, and how large must a panel be
// to find out.
//
// Its choice half is about answers that are right or wrong, or one beer or the
// other. A [Protocol] is a kind of test (triangle, duo-trio, tetrad, …): it knows
// how often a guess is right and how a difference d′ between the beers turns into
// right answers. A [Choice] is what a panel answered; its tests are exact, because
// panels are small. Every finding comes with an interval: an unshown difference is
// never an absent one, so [Choice.Upper] says how many tasters could still tell.
//
// Its rating half is about orders and scores: ranking, profiles, agreement between
// assessors, and what to do with many questions at once.
//
// The package draws no cups and keeps no secrets: serving orders, codes and
// sealed keys belong to the document of the tasting. It doesn't decide either; it
// gives the numbers a verdict is made of.
package sensory
