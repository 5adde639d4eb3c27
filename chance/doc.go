// SPDX-License-Identifier: MIT

// Package chance says how sure a plan is. It takes the plan as it will be
// carried out, its weights, litres and minutes, and brews it many times on
// paper: each time with other lots, another house, other formulas and readings
// within what is known of them. From the beers it reports a band for every
// figure, the chance to lie inside each rule of a style and inside all of them
// at once, and which unknown is to blame for the spread.
//
// The beer is worked out by plan itself (plan.Brewday), so that a brewing
// without any mistake is the plan; the mathematics stands in
// science/uncertainty, the rules are read by judge. What is taken as uncertain,
// how much and why, is listed with every [Outlook]: see [Inputs]. Start reading
// at [Simulate].
package chance
