// SPDX-License-Identifier: MIT

// Package hops computes what hops do in wort and beer: how much of their alpha
// acids turns into the bitter iso-alpha acids on the way through the kettle,
// how much of that reaches the glass, what storage, dry hopping and age take
// away, and how bitter the beer tastes against its gravity.
//
// The heart of it is the published kinetics of the reaction, followed along
// the real temperature of the kettle: heating up, boiling, standing, cooling
// and running off. Write that course down as a [History] and ask it for the
// [Outcome] of each charge. The old utilisation formulas stand beside it for
// comparison only.
//
// The package knows no recipe and no kettle; those are told to it as numbers.
// Aroma isn't computed beyond the dose of oil. The temperatures themselves, of
// boiling at altitude or of a cooling coil, come from science/boil.
package hops
