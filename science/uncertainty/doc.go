// SPDX-License-Identifier: MIT

// Package uncertainty holds the mathematics of saying how sure a number is:
// distributions of what isn't known exactly, samples of many such inputs at
// once, and summaries of what comes out: mean and spread, bands that hold half
// or nineteen in twenty, the chance to lie in a range with its own error, and
// how much of the spread each input is to blame for.
//
// It knows nothing of brewing. chance, at the root, fills it with lots, houses
// and formulas. Samples are drawn in blocks, each from a random stream of its
// own, so that the same seed gives the same numbers on any machine and however
// many processors share the work. Start reading at [Hypercube].
package uncertainty
