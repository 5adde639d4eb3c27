// SPDX-License-Identifier: MIT

// Package science is the catalogue of the formulas in its chapters: what each
// says, where it comes from, where it holds, how it was checked and how well
// it is known. Pages that answer "why this number?" take their text from here.
//
// It computes nothing. The formulas themselves are functions in the chapters:
// gravity, water, mash, boil, hops, color, ferment, carbonation and their
// neighbours, one folder each. The literature is listed in sources.bib.
package science

//go:generate go run gyle/internal/formulas/gen ..
