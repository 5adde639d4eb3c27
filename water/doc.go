// SPDX-License-Identifier: MIT

// Package water holds the water document: the report of one supply, as it was
// printed, and what its labels really meant. A report whose ions don't balance
// usually carries a mislabel (a sulfate given as sulfur, a bicarbonate that is
// alkalinity as CaCO3); the printed numbers are kept for ever and the reading
// of them is stated beside.
//
// The chemistry stands in science/water; this package computes nothing.
package water
