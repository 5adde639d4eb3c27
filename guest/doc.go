// SPDX-License-Identifier: MIT

// Package guest brews a published recipe on the house of whoever reads it: with
// their kettle, their malt, their hops and their water.
//
// A page carries a [Kit]: the author's documents as text and the records of
// typical ingredients that they need. [Open] reads it; [Table.Questions] asks what the reader may know of their own
// brewery, each question answered by the author's own value until the reader
// says otherwise; [Table.Brew] takes the answers as they were typed and returns the
// plan as lines of text in the reader's units, with every fault beside its
// question. [Serve] does both for a program that speaks JSON, as the page does.
//
// The page runs the same code as the program, so its numbers are those of
// "gyle plan" for the same house; the package adds no brewing of its own.
package guest
