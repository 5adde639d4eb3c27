// SPDX-License-Identifier: MIT

// Package card makes teaching cards from the documents of a beer: the style in
// numbers, its rules with their reasons, the water, the grist, the hop charges,
// the process, the versions, the taste, and ways to swap. A card is a picture
// for a screen, a video or a print of postcard size.
//
// A card is laid out once, as a scene of words, lines and marks on ruled paper,
// and drawn as SVG or PNG from the same outlines. The real text is kept beside
// the drawing. Nothing is dropped or cut off: what doesn't fit goes on to the
// next card, and no letter is smaller than can be read when the card is shown
// 360 pixels wide. Weights stand only with the house, its yield and the volume
// they hold for.
//
// Start at [Deck]. Sheets for A4 and letter paper are in publish/sheet.
package card
