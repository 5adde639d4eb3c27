// SPDX-License-Identifier: MIT

// Package data is the shelf of typical ingredients: what a malt, a hop, a
// yeast, a sugar, an acid, a salt or a water usually is, until the analysis of
// the lot in hand is typed in. It also holds the printed numbers of the beer
// styles. Typical means typical: a range says where most lots lie, and every
// record carries its Basis (where the figures come from) and its Verification
// (how well that was checked).
//
// A record is asked for by its id or by one of the words brewers use instead:
//
//	malt, ok := data.Malt("chocolate") // the record chocolate-malt
//
// The files are part of the program. A file is cut into records at its first
// use, and only the record asked for is parsed. What is returned is shared:
// read it, don't write to its slices or maps.
//
// The package computes nothing; extract becomes gravity in science/gravity.
// README.md in this folder tells the sources and the doubts of each file.
package data
