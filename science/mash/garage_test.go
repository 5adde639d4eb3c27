// SPDX-License-Identifier: MIT

package mash

import "testing"

// garage is a porter mash of six malts without its late chocolate malt.
func garage() Balance {
	return Balance{
		Malts: []Malt{
			base(3.23, 5.68, 38),
			base(.59, 6.20, 30),
			base(.50, 5.48, 40),
			titrated(.30, 10+0.158*150, 35),
			titrated(.15, 25, 38),
		},
		Liquor: Liquor{Volume: 16.5, Calcium: 110, Magnesium: 9, AcidDemand: water(2.758, 7.6)},
		Acids:  []Acid{{3.3, lactic88}},
	}
}

// Computed from the formula of PH (regression values); a reckoning by hand with
// rounded terms gave 5.45 before and 5.42 after the roast.
func TestGarageMash(t *testing.T) {
	got := Staged(garage(), []Malt{titrated(.18, 42, 35)}, 1)
	near(t, "before the roast", float64(got.Early), 5.4547, 0.0005)
	near(t, "after the roast", float64(got.After), 5.4237, 0.0005)
}
