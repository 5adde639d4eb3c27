// SPDX-License-Identifier: MIT

package formulate

import (
	"fmt"
	"strings"

	"gyle/data"
	"gyle/plan"
	"gyle/quantity"
	"gyle/science/mash"
)

// GoodsCalled reads the grain of a mash, one a line: "4.2 kg pale-ale", and
// "180 g chocolate late" for what goes in at the end. The acidity of each malt is
// the typical one.
func GoodsCalled(lines []string) (*plan.Goods, error) {
	var early, late []mash.Malt
	for _, line := range lines {
		words := strings.Fields(line)
		isLate := len(words) > 1 && words[len(words)-1] == "late"
		if isLate {
			words = words[:len(words)-1]
		}
		if len(words) < 2 {
			return nil, fmt.Errorf("%q is no grain: write 4.2 kg pale-ale, or 180 g chocolate late", line)
		}
		name := strings.ToLower(words[len(words)-1])
		mass, err := quantity.ParseMass(strings.Join(words[:len(words)-1], " "))
		if err != nil {
			return nil, err
		}
		if mass <= 0 {
			return nil, fmt.Errorf("%q: grain weighs more than nothing", line)
		}
		malt, ok := plan.GrainOf(name, mass)
		if _, known := data.Malt(name); !known {
			return nil, fmt.Errorf("%s is no known malt; names are those of recipes", name)
		}
		switch {
		case !ok:
			return nil, fmt.Errorf("%s: no typical mash acidity is known", name)
		case isLate:
			late = append(late, malt)
		default:
			early = append(early, malt)
		}
	}
	if len(early) == 0 {
		return nil, fmt.Errorf("all of the grain goes in late: say what is doughed in")
	}
	goods := plan.GoodsOf(early, late)
	return &goods, nil
}
