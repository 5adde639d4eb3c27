// SPDX-License-Identifier: MIT

// Package font holds the two faces in which gyle writes cards and sheets: a
// book face for words, upright and italic, and a face with figures of equal
// width for numbers. It turns text into outlines, so that a card looks the same
// wherever it is shown.
//
// The faces know Latin, Greek and Cyrillic letters. What they don't know is
// drawn as a box, never left out; whoever draws keeps the real text beside it.
// The files come from open fonts, see OFL.txt and subset.py in this folder.
package font
