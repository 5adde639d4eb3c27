// SPDX-License-Identifier: MIT

package reconstruct_test

import (
	"fmt"

	"gyle/quantity"
	"gyle/reconstruct"
)

// Two readings of one kettle and what boiled off in between: the hot volume was
// written down without its temperature.
func ExampleSmooth() {
	day := reconstruct.Day{
		Grist:  []reconstruct.Malt{{Name: "malt", Mass: reconstruct.Reading{Kind: reconstruct.Kilos, Value: 4.95}, Extract: quantity.Percent(75.9)}},
		Liquor: []reconstruct.Reading{{Kind: reconstruct.Litres, Value: 29.6}},
		Points: []reconstruct.Point{
			{Name: "full kettle", Hot: quantity.Celsius(95),
				Volumes:   []reconstruct.Reading{{Kind: reconstruct.Litres, Value: 26.4}},
				Gravities: []reconstruct.Reading{{Kind: reconstruct.SG, Value: 1.0425}}},
			{Name: "knock-out", Hot: quantity.Celsius(98),
				Volumes:   []reconstruct.Reading{{Kind: reconstruct.Litres, Value: 23, At: quantity.Celsius(98)}},
				Gravities: []reconstruct.Reading{{Kind: reconstruct.SG, Value: 1.0486}}},
		},
		Steps: []reconstruct.Step{{Evaporated: quantity.Estimate{Value: 3.3, SD: 0.2}}},
		Known: reconstruct.Constants{
			Yield:      quantity.Estimate{Value: 0.76, SD: 0.02},
			Absorption: quantity.Estimate{Value: 0.85, SD: 0.04},
		},
	}
	s, err := reconstruct.Smooth(day)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range s.Suspects[:1] {
		fmt.Println(x.Sentence)
	}
	for _, w := range s.Points {
		fmt.Printf("%s: %.1f L of %.4f\n", w.Name, w.Volume.Value, w.SG.Value)
	}
	// Output:
	// volume, full kettle: 26.4 L can't be right; the other readings say 25.42 ± 0.19 L; most likely hot volume read as cold: 25.44 L (else: misread)
	// full kettle: 25.4 L of 1.0425
	// knock-out: 22.1 L of 1.0487
}
