// SPDX-License-Identifier: MIT

// Package formulate finds recipes that fit a style: the inverse of judging.
//
// A brewer writes a [Wish]: the style, which malts, hops and yeasts may or must
// be used, perhaps a house, aims to hold and what to care for most ([Middle],
// [Near], [Cheapest], [Lots], [Fewest]). [Find] returns a complete recipe, what
// package judge says of it, how each rule stands, and for every ingredient the
// room it has: the least and the most it may be with everything else free.
// Where nothing fits, the error is a [Conflict]: the smallest set of rules that
// contradict each other, with their authors' reasons, and what the cheapest way
// out would be. [Variations] proposes clearly different beers inside a style,
// [Swaps] other ingredients for one of a recipe.
//
// Which grain or charge a rule means is asked of package judge, and what malts
// and hops give is asked of a plan (of the house, or of the middling house of
// [PaperHouse]); so what is found here is judged by the same measures. The
// package knows no more of taste than the rules say.
//
// The beer falls apart into pieces that touch in few places: the gravities, the
// grist, the hops, the liquor. Given the range of original gravity that the
// gravities leave, the rules of the grist are linear in shares;
// given a range of bitterness, those of the hops are linear in doses.
// Each piece is solved by internal/lp, and the places where they touch
// (colour, alcohol, bitterness to gravity) are monotone, so nothing is lost
// by taking them apart.
package formulate
