// SPDX-License-Identifier: MIT

// Package tasting holds the tasting document: one evening at which a panel
// tastes beers without knowing which is which, to answer a question that was
// written down before.
//
// A tasting has beers with letters, a panel and flights. A flight asks one thing
// in one way (a triangle, a preference, a ranking, a profile); its rule, its
// orders and its codes are fixed and dated before anybody answers. Which code is
// which beer stays sealed: the plan shows a hash of the key, the key itself is
// with the pourer until the last answer is in, and [Tasting.Verify] then checks
// that nothing was changed in between. Answers only accumulate. A change of mind
// is a correction beside the first answer, and what came after the key was opened
// doesn't count. Score sheets of judges, which are not blind, stand apart.
//
// The package counts, it draws no conclusions: chances and verdicts are the
// business of science/sensory, making balanced orders and codes that of package
// panel.
package tasting
