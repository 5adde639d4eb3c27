// SPDX-License-Identifier: MIT

// Package causes looks in the log of a gyle for what may lie behind an off-note.
//
// What usually causes a note stands in package data, as common practice has it.
// A cause whose sign the log shows comes first, with the entry that shows it; then
// what no log tells; last what the log speaks against. All are possibilities to
// look into, never a diagnosis: tasters differ, and one brewing is no experiment.
//
// A note counts as reported when two or more voices name it, and a quarter of
// those who spoke of the beer; it is confirmed only when another blind sitting
// finds it again (common practice).
package causes
