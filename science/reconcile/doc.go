// SPDX-License-Identifier: MIT

// Package reconcile makes measurements agree with the balances they must obey.
// Every reading is a little wrong; what goes in must come out. So each is moved
// by as little as its instrument allows until the balances close, and a reading
// that has to be moved further than its instrument can err stands out.
//
// It is the data reconciliation of process engineers and pure mathematics: it
// knows variables with a standard deviation and balances between them, no wort
// and no kettle. Package reconstruct writes the balances of a brew for it.
//
// Begin at [Solve]. [GlobalTest] says whether the readings can be true
// together, [Tests] which one stands out, [Eliminate] takes readings away, one
// at a time, until the rest can be true, and [Compensate] says how far off they
// are. A reading that no balance checks can't be judged, and the package says
// so instead of guessing.
package reconcile
