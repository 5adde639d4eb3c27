// SPDX-License-Identifier: MIT

// Package brewhouse holds the brewhouse document ("house" in short): the
// vessels, the heat, the losses and the habits of one place where beer is
// brewed, and the constants learned there (yield, house factor of bitterness).
//
// Package plan brings a house together with a recipe. Package brewhouse only
// says what is there; it computes nothing.
package brewhouse
