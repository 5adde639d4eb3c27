// SPDX-License-Identifier: MIT

package ferment

import (
	"math"
	"testing"

	"gyle/quantity"
)

// The allowance as it is asked for: 0.5 to 2 °P. The points of SG are from the
// slope of the table of extract near 3 °P, 0.0039 SG per °P (NBS circular 440).
func TestHopCreep(t *testing.T) {
	for _, test := range []struct{ hopped, now, low, high float64 }{
		{1.0127, 1.0127, 0.0019, 0.0078},
		{1.0127, 1.0088, 0, 0.0039}, // a degree has gone already
		{1.0127, 1.0040, 0, 0},      // more than was ever reported
		{1.0100, 1.0127, 0.0019, 0.0078},
	} {
		got := HopCreep(quantity.SG(test.hopped), quantity.SG(test.now))
		if math.Abs(float64(got.Low)-test.low) > 0.0001 || math.Abs(float64(got.High)-test.high) > 0.0001 {
			t.Errorf("HopCreep(%g, %g) = %.4f to %.4f, want %.4f to %.4f", test.hopped, test.now, got.Low, got.High, test.low, test.high)
		}
	}
}
