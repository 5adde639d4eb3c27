// SPDX-License-Identifier: MIT

// Package stock holds the stock document: the lots of malt, hops and yeast in
// one shed, with their analyses, dates and masses. A lot is one delivery of
// one product; two lots of the same malt differ in extract and colour, and an
// old lot of hops has lost alpha acids.
//
// Package plan chooses among the lots, oldest first, and computes what age has
// taken. Package stock only says what is there.
package stock
