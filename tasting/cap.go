// SPDX-License-Identifier: MIT

package tasting

import "gyle/quantity"

// Cap is the most alcohol that anybody is to be poured in one evening, as its
// organiser chose it. It is no advice on how much is safe.
type Cap struct {
	Alcohol quantity.Mass `gyle:"alcohol,required"` // pure alcohol for each assessor
	Drink   quantity.Mass `gyle:"drink"`            // what counts as one drink in this place; zero: 10 g
	Over    string        `gyle:"over"`             // why the plan may go above it
}

// usualDrink is the commonest size of a standard drink (Kalinowski and Humphreys
// 2016, second-hand: 8 to 20 g in 37 countries).
var usualDrink = quantity.Grams(10)

// Drinks is how many standard drinks an amount of alcohol is.
func (c Cap) Drinks(alcohol quantity.Mass) float64 {
	if c.Drink > 0 {
		return float64(alcohol / c.Drink)
	}
	return float64(alcohol / usualDrink)
}

// Bounds within which a cap and a drink are no slip of the pen.
const (
	mostCap               = 100 // g
	leastDrink, mostDrink = 5, 30
)

func (c *checker) cap() {
	limit := c.tasting.Cap
	if limit == nil {
		return
	}
	if g := limit.Alcohol.Grams(); g <= 0 || g > mostCap {
		c.add("cap.alcohol", "20 g are two drinks of 10 g", "%g g of alcohol is no cap for an evening", g)
	}
	if g := limit.Drink.Grams(); limit.Drink != 0 && (g < leastDrink || g > mostDrink) {
		c.add("cap.drink", "countries count 8 to 20 g as one", "%g g is no standard drink", g)
	}
}
