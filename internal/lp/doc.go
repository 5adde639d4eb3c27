// SPDX-License-Identifier: MIT

// Package lp finds the best mix: amounts that keep a list of linear rules and
// cost as little as possible. A grist of fifteen malts whose extract, colour
// and protein must each lie between two figures is such a question; so is the
// number of whole sachets of yeast.
//
// A [Problem] has columns (what may be chosen, each between a least and a most)
// and rows (what must hold, each a weighted sum between a low and a high end).
// [Solve] returns the cheapest choice, [Range] the room that each column has
// while all the others are free. Every answer is checked against the rows as they
// were given, and the worst violation is part of the answer.
//
// The method is the simplex method with bounds on both kinds of variables (a
// row with two ends is one row), on a dense table: right for up to some
// hundreds of rows and columns, wrong for thousands. Whole numbers are found by
// branch and bound. The package knows nothing of brewing; package formulate
// turns styles and stocks into problems.
//
// The methods are described in V. Chvátal, Linear Programming, 1983 (bounded
// variables: chapter 8, Bland's rule: chapter 3), cited from memory.
package lp
