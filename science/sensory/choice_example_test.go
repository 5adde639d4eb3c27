// SPDX-License-Identifier: MIT

package sensory_test

import (
	"fmt"

	"gyle/science/sensory"
)

// Eighteen assessors, eleven of whom named the odd glass.
func ExampleChoice_Test() {
	f := sensory.Choice{Protocol: sensory.Triangle, Right: 11, N: 18}.Test(0.05)
	fmt.Printf("%d of %d right, %d were needed: p %.4f\n", f.Right, f.N, f.Critical, f.P)
	fmt.Printf("%.0f %% can tell (%.0f %% interval %.0f–%.0f %%), d′ %.1f\n",
		100*f.Share, 100*f.Level, 100*f.ShareInterval.Low, 100*f.ShareInterval.High, f.Distance.Value)
	// Output:
	// 11 of 18 right, 10 were needed: p 0.0144
	// 42 % can tell (90 % interval 9–70 %), d′ 2.0
}

// A difference that wasn't shown may still be there.
func ExampleChoice_Judge() {
	rule := sensory.Rule{Alpha: 0.05, Limit: 0.30, Beta: 0.10}
	j := sensory.Choice{Protocol: sensory.Triangle, Right: 6, N: 14}.Judge(rule)
	fmt.Printf("%s: p %.2f, up to %.0f %% of tasters could still tell\n", j.Outcome, j.P, 100*j.Upper(0.95))
	fmt.Printf("this panel had a chance of %.0f %% to find %.0f %%; %d tasters have 80 %%\n",
		100*j.PowerAtLimit, 100*rule.Limit, j.Needed.First)
	// Output:
	// not conclusive: p 0.31, up to 51 % of tasters could still tell
	// this panel had a chance of 29 % to find 30 %; 40 tasters have 80 %
}

// How many tasters does a question need?
func ExampleDesign_PanelSize() {
	for _, protocol := range []sensory.Protocol{sensory.Triangle, sensory.Tetrad, sensory.TwoAFC} {
		size, _ := sensory.Design{Protocol: protocol, Alpha: 0.05}.PanelSize(0.80, protocol.ProportionCorrect(1.5))
		fmt.Printf("%s: %d, safely %d\n", protocol, size.First, size.Stable)
	}
	// Output:
	// triangle: 53, safely 57
	// tetrad: 16, safely 20
	// 2-AFC: 13, safely 13
}
