// SPDX-License-Identifier: MIT

// Package panel makes the serving plan of a blind tasting: who gets which
// glasses in which order, with which codes on them. It balances what it can, so
// that the place of a glass, or the beer drunk before it, favours no beer:
// triangles serve their six orders equally often, rankings and profiles follow
// Williams squares, and when there are more beers than a palate bears each
// assessor gets some of them in balanced incomplete blocks.
//
// All chance comes from one recorded seed, so a plan can be made again and
// checked. Begin at [Plan]; [Balance] counts what a plan has achieved. The plan
// goes into the document of package tasting, which seals the key.
package panel
