// SPDX-License-Identifier: MIT

// Package blind reads a tasting document and says what it shows: before the
// evening how large a difference the panel would find, afterwards what was
// found, in plain sentences and never in stars.
//
// A flight ends in one of four outcomes. A difference is shown; a small one is
// shown; if there is one it is below the limit that was set beforehand; or
// nothing was shown, and then the verdict says how many tasters could still
// tell. No outcome says that two beers are the same. A preference is judged from
// its own flight alone. Of many attributes only those count that stay when all
// questions are weighed together. What contradicts on score sheets stays open.
//
// The package decides no recipe. The chances are those of science/sensory; the
// answers, the key and its seal are those of package tasting; orders and codes
// are drawn by package panel. Begin at [Of] and [Design].
package blind
