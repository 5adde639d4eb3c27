// SPDX-License-Identifier: MIT

//go:build !race

package store

// raceEnabled tells that the race detector slows the database tenfold.
const raceEnabled = false
