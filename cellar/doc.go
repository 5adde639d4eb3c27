// SPDX-License-Identifier: MIT

// Package cellar follows a gyle from the pitching on: how it ferments, whether
// it is finished, and what it may be filled into.
//
// [Of] reads the fermentation out of the log, whether somebody took readings by
// hand or an instrument left thousands. [Beer.Fill] judges a filling by the
// worst that may come of it: what the gravity may still fall, with or without dry
// hops, is gas in the bottle. [Hold] says what a vessel has to bear. A refusal is
// about safety and may be set aside in writing; then it stands in the log.
package cellar
