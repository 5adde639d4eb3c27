// SPDX-License-Identifier: MIT

package judge

import (
	"gyle/quantity"
	"gyle/recipe"
)

// Meant returns the figures of a beer as a recipe means them, without a house:
// what it aims at, and what follows from that. A figure that isn't known is
// missing; lacks says why.
func Meant(r *recipe.Recipe) (figures map[quantity.Figure]float64, lacks map[quantity.Figure]string) {
	b := ofRecipe(r)
	figures = make(map[quantity.Figure]float64, len(b.figures))
	for name, f := range b.figures {
		figures[name] = f.value
	}
	return figures, b.lacks
}
