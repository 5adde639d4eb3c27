// SPDX-License-Identifier: MIT

// Package chart draws the sheets of the gyle book as SVG: the
// bitterness-gravity map, the grist as strips, the charge ladder, the colour
// wedge, the water columns, the mash-pH rail, the brew day, the rule mark and
// the river of versions.
//
// It draws and computes no brewing: callers pass plain structs with finished
// numbers, and a [Sheet] that says how wide the drawing is laid out and in
// which units numbers are printed. Three inks never change their meaning, and
// their shape repeats it for black-and-white print: planned is pencil grey and
// an open mark, measured is blue-black and a filled mark, corrected or out of
// rule is red and a crossed mark. Uncertainty is ink that thins out.
//
// The SVG carries no style element, no style attribute and no script, so that
// it may stand in a page under a strict content security policy. Colours are
// presentation attributes, which any rule of a stylesheet overrides; ink.go
// lists the classes. Numbers that aren't finite count as missing.
//
// Start at [BitternessGravityMap]; the writer itself is in svg.go.
package chart
