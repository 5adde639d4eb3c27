// SPDX-License-Identifier: MIT

// Package table lays out what a brewer may want in a spreadsheet: grist, hops
// and day of a plan, the log of a gyle and its readings, the answers of a
// tasting. Each column has its unit in its head, so that cells are numbers.
//
// A table is written as CSV (RFC 4180). With a decimal comma the cells are set
// apart by semicolons, as spreadsheets of those countries expect. The readings
// of a gyle are written so that "gyle log --csv" reads them back.
package table
