// SPDX-License-Identifier: MIT

package ferment

import (
	"testing"

	"gyle/quantity"
)

// 7.59 to 7.5: gov.uk, alcoholic products technical guide, section 11. The
// other rows follow from the names of the ways.
func TestRounding(t *testing.T) {
	for _, test := range []struct {
		way      Rounding
		x        float64
		decimals int
		want     float64
	}{
		{Down, 7.59, 1, 7.5}, {Down, 5.3, 1, 5.3}, {Down, 0.29, 2, 0.29}, {Down, -0.01, 1, -0.1},
		{HalfAwayFromZero, 5.25, 1, 5.3}, {HalfAwayFromZero, -5.25, 1, -5.3}, {HalfAwayFromZero, 1.005, 2, 1.01},
		{HalfEven, 5.25, 1, 5.2}, {HalfEven, 5.35, 1, 5.4}, {HalfEven, 2.675, 2, 2.68}, {HalfEven, 5.2501, 1, 5.3},
	} {
		near(t, "rounded", test.way.Round(test.x, test.decimals), test.want, 1e-12)
	}
}

// Directive 87/250/EEC, summary.
func TestLabelTolerance(t *testing.T) {
	near(t, "at 5.5", LabelToleranceEU(quantity.Percent(5.5)).Percent(), 0.5, 1e-12)
	near(t, "at 5.6", LabelToleranceEU(quantity.Percent(5.6)).Percent(), 1.0, 1e-12)
	near(t, "in the USA", LabelToleranceUS.Percent(), 0.3, 1e-12)
}
