// SPDX-License-Identifier: MIT

// Package color goes from the malts in the grist to the colour in the glass: how
// many malt colour units a grist brings, what EBC the beer will have, which
// light such a beer lets through and what the eye makes of it for a given
// thickness of liquid.
//
// Two things are kept apart. The number, EBC or SRM, is the absorbance of a
// centimetre of clear beer at one wavelength. What is seen also depends on the
// path of the light: the same beer is straw at the rim and black in the middle.
// Every swatch therefore has a path length. A mash scatters light and looks
// paler than its wort; the package can show that too, so that nobody judges a
// recipe by its mash.
//
// The step from grist to EBC is a customary fit with an error of about 20 %, not
// a measurement. Hue is that of an average beer; a fruit beer is another matter.
package color
