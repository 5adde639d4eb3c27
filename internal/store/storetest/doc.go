// SPDX-License-Identifier: MIT

// Package storetest fills a gyle book with as much as a brewer writes in decades,
// so that tests and benchmarks meet a book of that size. The beers in it are
// words drawn by lot: they have the size and the links of real documents and
// make no sense at the kettle.
package storetest
