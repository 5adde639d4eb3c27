// SPDX-License-Identifier: MIT

// Package sheet writes sheets for the printer, as PDF on A4 or US letter paper:
// the recipe with its reasons, the brew sheet with a box for every reading that
// already holds what is planned, in grey, and the guide to a style with its
// rules. All come from the same documents and the same plan as the cards (see
// publish/card), so they say the same.
//
// The same input gives the same bytes: a sheet carries no date of its own.
package sheet
